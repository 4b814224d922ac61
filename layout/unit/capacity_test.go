package unit_test

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// stocked resolves rows on the front of the gondola with goods of its own.
func stocked(t *testing.T, csv, rows string) unit.Result { return aimed(t, "cover", csv, rows) }

// aimed is stocked with an aim for the fronts it leaves open.
func aimed(t *testing.T, aim, csv, rows string) unit.Result {
	t.Helper()
	return plainly(t, csv, "aim: "+aim+"\n"+gondola+"  front:\n"+rows)
}

// plainly resolves a whole plan with goods of its own.
func plainly(t *testing.T, csv, text string) unit.Result {
	t.Helper()
	var found diag.List
	pl, _ := inputs(t, &found)
	cat := goods.NewCatalog()
	goods.Load(cat, "goods.csv", []byte(csv), measure.Inches, &found)
	return resolveWith(t, text, pl, cat, found)
}

// TestCapacity works out by hand what a position of each form holds.
func TestCapacity(t *testing.T) {
	const head = "sku,name,form,width,height,depth,weight,case,weekly,stack\n"
	for _, c := range []struct {
		reason, goods, row       string
		units, look, cases, days int
	}{
		{"cards a tenth of an inch thick along the 5 1/2 in that a 6 in hook has", "A,A,peg,3,4,0.1,0.1,20,10,", "use: hook-6, bay: 1, at: 57in, goods: {A: 1}",
			55, 19, 2, 38},
		{"two hooks", "A,A,peg,3,4,0.1,0.1,20,10,", "use: hook-6, bay: 1, at: 57in, goods: {A: 2}", 110, 38, 5, 77},
		{"tins: 2 fronts, one high, 3 deep on 12 in", "A,A,stand,4,5,4,0.5,12,,", "use: shelf-24x12, bay: 1, at: 36in, goods: {A: 2}", 6, 2, 0, -1},
		{"tins two high at the most", "A,A,stand,4,5,4,0.5,12,6,2", "use: shelf-24x12, bay: 1, at: 36in, goods: {A: 2}", 12, 4, 1, 14},
		{"a pile of garments an inch and a quarter thick: nine to the foot", "A,A,fold,11,1.25,11,0.6,6,3,", "use: shelf-24x12, bay: 1, at: 36in, goods: {A: 2}", 18, 10, 3, 42},
		{"garments an inch and a quarter thick along the 23 in of a rail", "A,A,hanger,16,24,1.25,1,6,3,", "use: rail-u-24, bay: 1, at: 54in, goods: [A]", 18, 9, 3, 42},
		{"nine on a face-out of 11 1/2 in", "A,A,hanger,16,24,1.25,1,6,3,", "use: face-out-12, bay: 1, at: 54in, goods: {A: 1}", 9, 5, 1, 21},
		{"one on each place of a stepped face-out", "A,A,hanger,16,24,1.25,1,6,3,", "use: face-out-step-14, bay: 1, at: 54in, goods: {A: 1}", 5, 3, 0, 11},
		{"looks full with a third of a hook or what the file says", "A,A,peg,3,4,1,0.1,20,10,", "use: hook-6, bay: 1, at: 57in, goods: {A: 1}", 5, 2, 0, 3},
	} {
		res := stocked(t, head+c.goods+"\n", "    - {"+c.row+"}\n")
		if res.Unit == nil {
			t.Fatalf("%s: %s", c.reason, codes(res))
		}
		pos := face(t, res.Unit, plan.Front).Rows[0].Positions
		if len(pos) != 1 {
			t.Fatalf("%s: %d positions", c.reason, len(pos))
		}
		p := pos[0]
		got := [4]int{p.Units, p.Look, p.Cases, p.Days}
		if want := [4]int{c.units, c.look, c.cases, c.days}; got != want {
			t.Errorf("%s: units, look, cases, days %v, want %v", c.reason, got, want)
		}
	}
}

// TestArmsOfARail hangs garments on both arms of a U rail where its row leaves
// room beside it: between the panel and those on the bar, 12 in out, 16 in wide
// garments leave 4 in of each arm, three of 1 1/4 in.
func TestArmsOfARail(t *testing.T) {
	const csv = "sku,name,form,width,height,depth\nA,A,hanger,16,24,1.25\nB,B,hanger,16,24,1.25\n"
	wide := stocked(t, csv, "    - {use: rail-u-24, at: 54in, count: 1, goods: [A, B]}\n")
	row := face(t, wide.Unit, plan.Front).Rows[0]
	if a, b := row.Positions[0], row.Positions[1]; a.Units != 9+3 || b.Units != 9+3 {
		t.Errorf("in the middle of 48 in: %d and %d units, want 12 and 12", a.Units, b.Units)
	}
	if box := row.Positions[0].Fronts[0].Box; box.X0 >= row.Pieces[0].Box.X0 {
		t.Errorf("garments on the arm are not in the box: %v", inches(box.X0))
	}
	narrow := stocked(t, csv, "    - {use: rail-u-24, bay: 1, at: 54in, goods: [A, B]}\n")
	if a := face(t, narrow.Unit, plan.Front).Rows[0].Positions[0]; a.Units != 9 {
		t.Errorf("between the bay's edges: %d units, want 9 on the bar alone", a.Units)
	}
}

// TestHangHole hangs a card by a hole that is an inch below its top.
func TestHangHole(t *testing.T) {
	res := stocked(t, "sku,name,form,width,height,depth\nA,A,peg,3,5,0.1\n", "    - {use: hook-6, bay: 1, at: 57in, goods: {A: 1}}\n")
	plain := face(t, res.Unit, plan.Front).Rows[0].Positions[0].Fronts[0].Box
	var found diag.List
	pl, _ := inputs(t, &found)
	cat := goods.NewCatalog()
	goods.Load(cat, "goods.csv", []byte("sku,name,form,width,height,depth\nA,A,peg,3,5,0.1\n"), measure.Inches, &found)
	card, _ := cat.Find("A")
	card.Hole = measure.Inch
	res = resolveWith(t, gondola+"  front:\n    - {use: hook-6, bay: 1, at: 57in, goods: {A: 1}}\n", pl, cat, found)
	holed := face(t, res.Unit, plan.Front).Rows[0].Positions[0].Fronts[0].Box
	if holed.Y1-plain.Y1 != measure.Inch || holed.Y0-plain.Y0 != measure.Inch {
		t.Errorf("a card with its hole an inch down hangs at %v..%v, one without at %v..%v in",
			inches(holed.Y0), inches(holed.Y1), inches(plain.Y0), inches(plain.Y1))
	}
}

// TestSizeRun stacks boxed shoes by size under their sample.
func TestSizeRun(t *testing.T) {
	var found diag.List
	pl, _ := inputs(t, &found)
	cat := goods.NewCatalog()
	goods.Load(cat, "goods.csv", []byte("sku,name,form,width,height,depth,stack\nA,A,boxed,11,4,7,3\n"), measure.Inches, &found)
	shoe, _ := cat.Find("A")
	shoe.Sizes = []string{"36", "37", "38", "39", "40"}
	resolved := func(fronts int) unit.Result {
		return resolveWith(t, gondola+fmt.Sprintf("  front:\n    - {use: shelf-24x12, bay: 1, at: 36in, goods: {A: %d}}\n", fronts), pl, cat, found)
	}
	stacks := func(res unit.Result) string {
		return fmt.Sprint(face(t, res.Unit, plan.Front).Rows[0].Positions[0].Stacks())
	}
	if got, want := stacks(resolved(2)), "[[36 36 37] [38 39 40]]"; got != want {
		t.Errorf("two stacks of three: %s, want %s", got, want)
	}
	one := resolved(1)
	if got, want := stacks(one), "[[36 37 38]]"; got != want {
		t.Errorf("one stack of three: %s, want %s", got, want)
	}
	if text := codes(one); !strings.Contains(text, "broken-run") || !strings.Contains(text, "{A: 2}") {
		t.Errorf("no word that two sizes are left out:\n%s", text)
	}
	if text := codes(resolved(2)); strings.Contains(text, "broken-run") {
		t.Errorf("a whole run is called broken:\n%s", text)
	}
}

// TestNearestPart follows the fix of goods that do not fit their part, and wants
// it to clear the finding.
func TestNearestPart(t *testing.T) {
	const head = "sku,name,form,width,height,depth,weight\n"
	for _, c := range []struct{ code, goods, use, reason string }{
		{"wrong-form", "A,A,stand,4,5,4,1", "hook-6", "a tin on a hook"},
		{"wrong-form", "A,A,hanger,16,24,1,1", "shelf-24x12", "a coat on a shelf"},
		{"goods-too-deep", "A,A,peg,3,4,7,0.1", "hook-6", "deeper than the hook is long"},
		{"goods-too-deep", "A,A,stand,4,5,12.5,1", "shelf-24x12", "deeper than the shelf"},
		{"goods-too-wide", "A,A,stand,30,5,10,1", "shelf-24x12", "wider than the shelf"},
		{"goods-too-heavy", "A,A,peg,4,6,1,9", "hook-6", "one is heavier than the hook is rated for"},
	} {
		row := func(part string) unit.Result {
			return stocked(t, head+c.goods+"\n", "    - {use: "+part+", at: 45in, count: 1, goods: [A]}\n")
		}
		fix := ""
		for _, f := range func() []diag.Finding { res := row(c.use); return res.Findings.All() }() {
			if f.Code == c.code {
				fix = f.Fix
			}
		}
		part, ok := strings.CutPrefix(fix, "use: ")
		if !ok {
			t.Errorf("%s: no %s with a part for it: %q", c.reason, c.code, fix)
			continue
		}
		if res := row(part); strings.Contains(codes(res), c.code) || strings.Contains(codes(res), "wrong-form") {
			t.Errorf("%s: after %q still\n%s", c.reason, fix, codes(res))
		}
	}
}
