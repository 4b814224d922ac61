package reset

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/unit"
)

// Faces of 500 pieces that turn into others of 500: hooks of three lengths with
// goods, shelves with strips and brackets, in other rows and at other distances.
func BenchmarkReset(b *testing.B) {
	for _, of := range []struct {
		name     string
		old, new *unit.Unit
	}{
		{"wall", bigWall(b, 0), bigWall(b, 1)},
		{"pegs", pegWall(b, "3in"), pegWall(b, "4in")},
	} {
		r := Make(of.old, of.new, Options{})
		ways := [Return + 1]int{}
		for _, it := range r.Items {
			ways[it.Way]++
		}
		b.Run(of.name, func(b *testing.B) {
			for b.Loop() {
				Make(of.old, of.new, Options{})
			}
			b.ReportMetric(float64(len(r.Items)), "items")
			b.ReportMetric(float64(ways[Slide]), "slides")
			b.ReportMetric(float64(ways[Rehang]), "rehung")
		})
		b.Run(of.name+"/match", func(b *testing.B) {
			for b.Loop() {
				paired(of.old, of.new, Options{})
			}
		})
	}
}

const benchGoods = "sku,name,family,form,width,height,depth,weight\nA,A,F,peg,2,4,0.5,0.1\nB,B,F,peg,3,4,0.5,0.1\nC,C,F,peg,2,5,0.5,0.1\nT,T,F,stand,4,5,4,0.5\nU,U,F,stand,3,5,4,0.5\n"

// bigWall is a slatwall run of ten bays with 500 pieces.
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
