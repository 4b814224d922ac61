package list

import (
	"slices"
	"strconv"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// TestCuts wants every part that is cut in the job of its stock, with its balloon
// and its addresses, bars before sheets.
func TestCuts(t *testing.T) {
	u := dressed()
	for _, row := range u.Faces[0].Rows {
		row.Declared = &plan.Row{}
	}
	board := &parts.Stock{ID: "board", Kerf: measure.Inch / 8, Sizes: []parts.StockSize{{Length: 96 * measure.Inch, Width: 48 * measure.Inch}}}
	sawn := &parts.Part{ID: "sawn", Kind: parts.Panel, Width: 24 * measure.Inch, Panel: &parts.PanelSpec{Height: 60 * measure.Inch}, Cut: &parts.Cut{From: board}}
	u.Structure[len(u.Structure)-1].Part = sawn
	top := &parts.Part{ID: "top", Kind: parts.Shelf, Width: 20 * measure.Inch, Depth: 12 * measure.Inch, Cut: &parts.Cut{From: board}}
	u.Faces[0].Rows[2].Brackets = append(u.Faces[0].Rows[2].Brackets, &unit.Piece{Part: top})
	pick := Pick(u)
	hand := []parts.OnHand{{Part: short, Count: 3}, {Stock: strip.Cut.From, Length: 50 * measure.Inch, Count: 1}}
	plans, found := Cuts(u, pick, hand)
	if len(plans) != 2 || len(found) != 0 {
		t.Fatalf("%d plans, %v", len(plans), found)
	}
	balloon := Balloons(pick)
	want := []struct {
		mark          int
		length, width measure.Length
		turn          bool
		where         []string
		reason        string
	}{
		{balloon(strip, 24*measure.Inch), 24 * measure.Inch, 0, false, []string{"F-3", "F-3"}, "a strip as long as what it is fixed to"},
		{balloon(strip, 48*measure.Inch), 48 * measure.Inch, 0, false, []string{"F-3"}, "another length, another balloon"},
		{balloon(sawn, 0), 60 * measure.Inch, 24 * measure.Inch, true, []string{"F2"}, "a panel lies with its height along the sheet; its address is face and bay"},
		{balloon(top, 0), 20 * measure.Inch, 12 * measure.Inch, true, []string{"F-3"}, "a shelf with its width"},
	}
	var got []saw.Piece
	for _, p := range plans {
		got = append(got, p.Job.Pieces...)
	}
	if len(got) != len(want) {
		t.Fatalf("pieces: %+v", got)
	}
	for i, w := range want {
		p := got[i]
		if p.Mark != strconv.Itoa(w.mark) || p.Length != w.length || p.Width != w.width || p.Turn != w.turn || p.Count != len(w.where) || !slices.Equal(p.Where, w.where) {
			t.Errorf("%+v, want %+v: %s", p, w, w.reason)
		}
	}
	if used := plans[0].Used; len(used) != 2 || used[1].OnHand != 1 {
		t.Errorf("what is on hand is not taken: %+v", used)
	}
	hand = append(hand, parts.OnHand{Part: sawn, Count: 1}, parts.OnHand{Part: strip, Count: 2})
	plans, _ = Cuts(u, pick, hand)
	if len(plans) != 2 || len(plans[0].Job.Pieces) != 2 || len(plans[1].Job.Pieces) != 1 || plans[1].Job.Pieces[0].Mark != strconv.Itoa(balloon(top, 0)) {
		t.Errorf("a panel that is cut already is cut again, or strips of no known length are not: %+v", plans)
	}
	if plans[1].Patterns[0].Number != len(plans[0].Patterns)+1 {
		t.Errorf("patterns are not numbered throughout")
	}
}
