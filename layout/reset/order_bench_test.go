package reset

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/unit"
)

// BenchmarkOrder finds the order of work between two gondolas with 500 hooks on
// each of their two sides, all of which change.
func BenchmarkOrder(b *testing.B) {
	for _, of := range []struct {
		name     string
		old, new *unit.Unit
	}{
		{"gondola", bigGondola(b, 0), bigGondola(b, 1)},
		{"top-heavy", topHeavy(b, 0), topHeavy(b, 1)},
		{"cautions", sample(b, "sweets"), sample(b, "boots")},
		{"wall", bigWall(b, 0), bigWall(b, 1)},
		{"pegs", pegWall(b, "3in"), pegWall(b, "4in")},
	} {
		b.Run(of.name, func(b *testing.B) {
			var r *Reset
			for b.Loop() {
				b.StopTimer()
				r = &Reset{Old: of.old, New: of.new}
				r.compare()
				r.match()
				b.StartTimer()
				r.sequence()
			}
			cautions := 0
			for _, s := range r.Steps {
				if s.Caution != "" {
					cautions++
				}
			}
			b.ReportMetric(float64(len(r.Items)), "items")
			b.ReportMetric(float64(len(r.Facings)), "facings")
			b.ReportMetric(float64(len(r.Steps)), "steps")
			b.ReportMetric(float64(cautions), "cautions")
		})
	}
}

// bigGondola is a box of slatwall with 500 hooks on its front and on its back,
// each with goods.
func bigGondola(b *testing.B, season int) *unit.Unit {
	var s strings.Builder
	s.WriteString("plan: 1\ntitle: Gondola\nmeasure: in\ngoods: [goods.csv]\nunit: {frame: gondola-box-48, stand: levellers, panels: {front: slat-24x96, back: slat-24x96}}\ndress:\n")
	hooks := []string{"hook-4-slat", "hook-6-slat", "hook-8-slat"}
	for _, face := range []string{"front", "back"} {
		fmt.Fprintf(&s, "  %s:\n", face)
		for row := range 21 {
			fmt.Fprintf(&s, "    - {use: %s, at: %din, goods: {A: %d, B: %d}}\n", hooks[(row+season)%3], 93-4*row-row/2, 12+season, 12-season)
		}
	}
	return dressed(b, s.String(), "goods.csv", "sku,name,family,form,width,height,depth,weight\nA,A,F,peg,1,1.5,0.5,0.05\nB,B,F,peg,1.25,1.5,0.5,0.1\n")
}

// topHeavy is a gondola on casters with hooks of heavy goods over light ones on
// both sides, so that few orders keep it steady.
func topHeavy(b *testing.B, season int) *unit.Unit {
	var s strings.Builder
	s.WriteString("plan: 1\ntitle: Gondola\nmeasure: in\ngoods: [goods.csv]\nunit: {frame: gondola-h-48, stand: casters-locking, panels: {front: slat-24x96}}\ndress:\n")
	hooks := []string{"hook-6-slat", "hook-8-slat"}
	for i, face := range []string{"front", "back"} {
		fmt.Fprintf(&s, "  %s:\n", face)
		for row := range 21 {
			fmt.Fprintf(&s, "    - {use: %s, at: %din, goods: {%s: 24}}\n", hooks[(row+season)%2], 93-4*row-row/2, []string{"A", "B"}[(row/7+season+i)%2])
		}
	}
	return dressed(b, s.String(), "goods.csv", "sku,name,family,form,width,height,depth,weight\nA,A,F,peg,1,1.5,0.5,0.05\nB,B,F,peg,1,1.5,0.5,0.3\n")
}
