package reset

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/unit"
)

// large are units of 500 pieces a face that turn into others of 500.
func large(b *testing.B) []struct {
	name     string
	old, new *unit.Unit
} {
	return []struct {
		name     string
		old, new *unit.Unit
	}{
		{"wall", bigWall(b, 0), bigWall(b, 1)},
		{"pegs", pegWall(b, "3in"), pegWall(b, "4in")},
		{"gondola", bigGondola(b, 0), bigGondola(b, 1)},
		{"top-heavy", topHeavy(b, 0), topHeavy(b, 1)},
		{"cautions", sample(b, "sweets"), sample(b, "boots")},
	}
}

// BenchmarkReset works out whole resets.
func BenchmarkReset(b *testing.B) {
	for _, of := range large(b) {
		b.Run(of.name, func(b *testing.B) {
			var r *Reset
			for b.Loop() {
				r = Make(of.old, of.new, Options{})
			}
			cautions, ways := 0, [Return + 1]int{}
			for _, s := range r.Steps {
				if s.Caution != "" {
					cautions++
				}
			}
			for _, it := range r.Items {
				ways[it.Way]++
			}
			b.ReportMetric(float64(len(r.Items)), "items")
			b.ReportMetric(float64(ways[Slide]), "slides")
			b.ReportMetric(float64(ways[Rehang]), "rehung")
			b.ReportMetric(float64(len(r.Facings)), "facings")
			b.ReportMetric(float64(len(r.Steps)), "steps")
			b.ReportMetric(float64(cautions), "cautions")
		})
	}
}

// BenchmarkMatch pairs old and new alone.
func BenchmarkMatch(b *testing.B) {
	for _, of := range large(b) {
		b.Run(of.name, func(b *testing.B) {
			for b.Loop() {
				paired(of.old, of.new, Options{})
			}
		})
	}
}

// BenchmarkOrder finds the order of the work alone.
func BenchmarkOrder(b *testing.B) {
	for _, of := range large(b) {
		b.Run(of.name, func(b *testing.B) {
			for b.Loop() {
				b.StopTimer()
				r := paired(of.old, of.new, Options{})
				b.StartTimer()
				r.sequence()
			}
		})
	}
}

const benchGoods = "sku,name,family,form,width,height,depth,weight\nA,A,F,peg,2,4,0.5,0.1\nB,B,F,peg,3,4,0.5,0.1\nC,C,F,peg,2,5,0.5,0.1\nT,T,F,stand,4,5,4,0.5\nU,U,F,stand,3,5,4,0.5\n"

// bigWall is a slatwall run of ten bays with 500 pieces: hooks of three lengths
// with goods, shelves with strips and brackets.
func bigWall(b *testing.B, season int) *unit.Unit {
	var s strings.Builder
	s.WriteString("plan: 1\ntitle: Wall\nmeasure: in\ngoods: [goods.csv]\nunit: {frame: wall-run, bays: 10, stand: fixed, panels: {front: slat-48x96}}\ndress:\n  front:\n")
	hooks, goods := []string{"hook-4-slat", "hook-6-slat", "hook-8-slat"}, []string{"A", "B", "C"}
	for bay := 1; bay <= 10; bay++ {
		for row := range 4 {
			k := (row + bay + season*(row%2)) % 3
			fmt.Fprintf(&s, "    - {use: %s, bay: %d, at: %din, count: 9, every: %s, goods: {%s: 9}}\n", hooks[k], bay, 84-9*row, []string{"5in", "4-1/2in"}[season], goods[(k+season*row)%3])
		}
		for row := range 3 {
			fmt.Fprintf(&s, "    - {use: shelf-48x12, bay: %d, at: %din, with: [strip-ticket], goods: {%s: 6}}\n", bay, 45-12*row-3*season, []string{"T", "U"}[(row+season)%2])
		}
	}
	return dressed(b, s.String(), "goods.csv", benchGoods)
}

// pegWall is 500 hooks of one kind, of which every one has to be hung anew.
func pegWall(b *testing.B, every string) *unit.Unit {
	var s strings.Builder
	s.WriteString("plan: 1\ntitle: Pegs\nmeasure: in\ngoods: [goods.csv]\nunit: {frame: wall-run, bays: 10, stand: fixed, panels: {front: peg-48x60}}\ndress:\n  front:\n")
	for bay := 1; bay <= 10; bay++ {
		for row := range 5 {
			fmt.Fprintf(&s, "    - {use: hook-6-peg, bay: %d, at: %din, count: 10, every: %s, goods: {%s: 10}}\n", bay, 58-6*row, every, []string{"A", "C"}[row%2])
		}
	}
	return dressed(b, s.String(), "goods.csv", benchGoods)
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
