package unit_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"setwright/layout/diag"
)

// TestStoppedSearch fills a long wall from more goods than can be proven to be
// allotted best in a second's work: there is a plan all the same, it says how far
// from the best it may be, and it is the same every time.
func TestStoppedSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(200, 12))
	csv := "sku,name,family,form,width,height,depth,weight,weekly,price,cost,min,max\n"
	for i := range 160 {
		csv += fmt.Sprintf("P%03d,p,f,stand,%d.%02d,5,%d,0.5,%d,%d.%02d,1,%d,%d\n", i,
			2+rng.IntN(7), rng.IntN(100), 2+rng.IntN(4), 1+rng.IntN(30), 2+rng.IntN(9), rng.IntN(100), 1+rng.IntN(2), 4+rng.IntN(4))
	}
	const wall = "aim: {for: profit, seconds: 1}\nplan: 1\ntitle: T\nmeasure: in\nunit:\n  frame: wall-run\n  stand: fixed\n  bays: 5\n  panels: {front: slat-48x96}\ndress:\n  front:\n    - {use: shelf-48x12, repeat: 6}\n    - fill: [family: f]\n"
	run := func() (text string, gap int) {
		res := plainly(t, csv, wall)
		if res.Unit == nil || res.Findings.Has(diag.Stop) {
			t.Fatal(codes(res))
		}
		a := res.Unit.Allotted[0]
		if !a.Proven() && !strings.Contains(codes(res), "within "+a.GapText()) {
			t.Errorf("no word of a gap of %s:\n%s", a.GapText(), codes(res))
		}
		return placed(t, res), a.Gap()
	}
	first, gap := run()
	if gap == 0 {
		t.Error("the search was not stopped: the test needs a harder wall")
	}
	if gap > 100 {
		t.Errorf("after a second's work only within %d hundredths of a percent", gap)
	}
	if again, _ := run(); again != first {
		t.Errorf("another answer the second time:\n%s\n%s", first, again)
	}
}
