package layout

import (
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/measure"
)

// TestCutAlready takes a unit whose strips and shelves are cut, with some of
// either on hand, whole and in pieces: what is cut already is neither cut nor
// bought again.
func TestCutAlready(t *testing.T) {
	files := fstest.MapFS{
		"house.yaml": {Data: []byte(`measure: in
stock: {board: {name: Board, sheets: [{length: 96, width: 48, price: 40}]}}
parts: {shelf-24x12: {cut: {from: board}}, hook-6: {price: 18.50}}
`)},
		"stock.csv": {Data: []byte("part,length,width,on hand\nhook-6,,,2\nshelf-24x12,,,3\nstrip-ticket,50,,1\nstrip-ticket,96,,1\n")},
		"goods.csv": {Data: []byte("sku,name,form,width (in),height (in),depth (in),weight (lb)\nTEA,Tea,stand,3,4.5,3,0.4\nSEED,Seeds,peg,3,4.5,0.1,0.05\n")},
	}
	text := `plan: 1
title: Cut already
parts: house.yaml
stock: stock.csv
goods: [goods.csv]
unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}}
dress:
  front:
    - {use: hook-6, bay: 1, at: 63in, count: 7, goods: {SEED: 7}}
    - {use: shelf-24x12, bay: 1, repeat: 3, with: [strip-ticket], goods: [TEA]}
    - {use: shelf-24x12, bay: 2, repeat: 2, with: [strip-ticket], goods: [TEA]}
`
	p := Parse(files, "plan.yaml", []byte(text))
	if p.Unit == nil {
		t.Fatal(p.Findings.All())
	}
	cut := map[string]int{}
	for _, c := range p.Cuts {
		for _, piece := range c.Job.Pieces {
			cut[c.Job.Stock.ID] += piece.Count
			if len(piece.Where) != piece.Count {
				t.Errorf("%d addresses for %d pieces of %s", len(piece.Where), piece.Count, piece.Name)
			}
		}
	}
	if diff := cmp.Diff(map[string]int{"board": 2, "strip-ticket": 5}, cut); diff != "" {
		t.Errorf("pieces to cut (-want +got):\n%s", diff)
	}
	var got []string
	for _, l := range linesOf(&p.Purchase) {
		if l.OnHand > 0 || l.Stock() {
			got = append(got, fmt.Sprintf("%s %q: %d needed, %d on hand, %d short, made %v", l.ID, l.Size(measure.Inches), l.Needed, l.OnHand, l.Short, l.Made))
		}
	}
	want := []string{
		`shelf-24x12 "": 3 needed, 3 on hand, 0 short, made true`,
		`strip-ticket "96 in": 1 needed, 1 on hand, 0 short, made false`,
		`strip-ticket "50 in": 1 needed, 1 on hand, 0 short, made true`,
		`hook-6 "": 7 needed, 2 on hand, 5 short, made false`,
		`board "96 x 48 in": 1 needed, 0 on hand, 1 short, made false`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	files["stock.csv"].Data = []byte("part,on hand\nshelf-24x12,9\n")
	p = Parse(files, "plan.yaml", []byte(text))
	for _, c := range p.Cuts {
		if c.Job.Stock.ID == "board" {
			t.Error("all shelves are cut already, and boards are cut")
		}
	}
}
