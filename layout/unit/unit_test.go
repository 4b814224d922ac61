package unit_test

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// gondola is the head of a plan for the double-sided 48 in gondola; rows follow
// under dress:.
const gondola = `plan: 1
title: Test
measure: in
unit:
  frame: gondola-h-48
  stand: casters-locking
  panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}
dress:
`

// shop is goods of every form, sizes in inches.
const shop = `sku,name,family,form,width,height,depth,weight
SEED,Seeds,seeds,peg,3.25,4.5,0.1,0.05
CARD,Small card,seeds,peg,2.5,4,0.1,0.02
SHEET,Sheet of cards,seeds,peg,23,6,0.1,0.2
WIDE,Wide card,seeds,peg,8,6,0.5,0.2
GLOVE,Gloves,wear,peg,5,10,1,0.3
JAR,Honey,food,stand,2.75,4,2.75,1
TIN,Tea,food,stand,4,5,4,0.5
TALL,Tall tin,food,stand,4,14,4,0.5
TOP,Folded top,wear,fold,11,1.25,11,0.6
COAT,Raincoat,wear,hanger,16,24,1.25,1
LONG,Long coat,wear,hanger,18,46,1.5,2
BOOT,Boots,shoes,boxed,12,4.5,7,2
BALL,Bouncy balls,toys,loose,2,2,2,0.1
BELT,Belt,wear,loop,2,30,1,0.4
HUGE,Banner,toys,stand,60,10,4,5
`

// resolve reads plan text against the built-in parts and the test shop.
func resolve(t testing.TB, text string) unit.Result {
	t.Helper()
	var found diag.List
	pl, cat := inputs(t, &found)
	return resolveWith(t, text, pl, cat, found)
}

func resolveWith(t testing.TB, text string, pl *parts.List, cat *goods.Catalog, found diag.List) unit.Result {
	t.Helper()
	p := plan.Decode("plan.yaml", []byte(text), &found)
	if found.Has(diag.Error) {
		t.Fatalf("the plan does not decode: %v", found.All())
	}
	return unit.Resolve(p, pl, cat)
}

// inputs is the built-in parts and the test shop's goods.
func inputs(t testing.TB, found *diag.List) (*parts.List, *goods.Catalog) {
	t.Helper()
	pl, err := parts.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	cat := goods.NewCatalog()
	goods.Load(cat, "goods.csv", []byte(shop), measure.Inches, found)
	return pl, cat
}

// dressed resolves the gondola with these rows and wants no stop or error.
func dressed(t testing.TB, rows string) *unit.Unit {
	t.Helper()
	res := resolve(t, gondola+rows)
	if res.Findings.Has(diag.Stop) || res.Findings.Has(diag.Error) {
		t.Fatalf("findings: %s", codes(res))
	}
	return res.Unit
}

func codes(res unit.Result) string {
	var list []string
	for _, f := range res.Findings.All() {
		list = append(list, fmt.Sprintf("%v %s: %s (%s)", f.Level, f.Code, f.Message, f.Fix))
	}
	return strings.Join(list, "\n")
}

func face(t testing.TB, u *unit.Unit, id plan.FaceID) *unit.Face {
	t.Helper()
	for _, f := range u.Faces {
		if f.ID == id {
			return f
		}
	}
	t.Fatalf("no %s face", id)
	return nil
}

func inches(l measure.Length) float64 { return float64(l) / float64(measure.Inch) }

// at prints the centre lines of pieces in inches.
func at(pieces []*unit.Piece) string {
	var list []string
	for _, p := range pieces {
		list = append(list, fmt.Sprint(inches(p.X)))
	}
	return strings.Join(list, " ")
}

func TestSlotsOfPinnedRows(t *testing.T) {
	// Wire grid of 3 in squares over a 6 in base: slot n is at 3 + 3n inches.
	u := dressed(t, `
  front:
    - {use: hook-6, bay: 1, at: 57in, count: 4, goods: {SEED: 4}}
    - {use: shelf-24x12, bay: 1, at: 33in, goods: [JAR]}
    - {use: rail-u-24, bay: 2, at: 54in, goods: [COAT]}
`)
	want := map[string][2]int{"hook-6": {18, 57}, "shelf-24x12": {10, 33}, "rail-u-24": {17, 54}}
	for _, row := range face(t, u, plan.Front).Rows {
		w := want[row.Part.ID]
		if row.Slot != w[0] || inches(row.Height) != float64(w[1]) {
			t.Errorf("%s: slot %d at %v in, want slot %d at %d in", row.Part.ID, row.Slot, inches(row.Height), w[0], w[1])
		}
	}
}

func TestTradeFacts(t *testing.T) {
	// Each is common practice in the trade; none has a published source.
	t.Run("a 48 in shelf takes three brackets and a 24 in one two", func(t *testing.T) {
		u := dressed(t, `
  front:
    - {use: shelf-48x12, at: 45in, goods: [JAR]}
    - {use: shelf-24x12, bay: 1, at: 24in, goods: [TIN]}
`)
		rows := face(t, u, plan.Front).Rows
		if n := len(rows[0].Brackets); n != 3 {
			t.Errorf("48 in shelf: %d brackets at %s", n, at(rows[0].Brackets))
		}
		if n := len(rows[1].Brackets); n != 2 {
			t.Errorf("24 in shelf: %d brackets at %s", n, at(rows[1].Brackets))
		}
	})
	t.Run("a 13 in bullnose shelf takes the 12 in bracket", func(t *testing.T) {
		u := dressed(t, "  front:\n    - {use: bullnose-48x13, at: 45in, goods: [JAR]}\n")
		row := face(t, u, plan.Front).Rows[0]
		if b := row.Brackets[0].Part; b.Usable != 12*measure.Inch {
			t.Errorf("bracket %s", b.ID)
		}
	})
	t.Run("a 24 in shelf takes two stacks of folded tops", func(t *testing.T) {
		u := dressed(t, "  front:\n    - {use: shelf-24x12, bay: 1, at: 45in, goods: [TOP]}\n")
		if n := len(face(t, u, plan.Front).Rows[0].Positions[0].Fronts); n != 2 {
			t.Errorf("%d stacks", n)
		}
	})
	t.Run("five sloped 48 in shelves fit one face of a 5 ft panel", func(t *testing.T) {
		u := dressed(t, "  front:\n    - {use: slope-48, repeat: 5, goods: [JAR]}\n")
		if n := len(face(t, u, plan.Front).Rows); n != 5 {
			t.Errorf("%d rows", n)
		}
	})
	t.Run("a U rail is as wide as one panel", func(t *testing.T) {
		u := dressed(t, "  front:\n    - {use: rail-u-24, bay: 2, at: 54in, goods: [COAT]}\n")
		box := face(t, u, plan.Front).Rows[0].Pieces[0].Box
		if inches(box.X0) != 24 || inches(box.X1) != 48 {
			t.Errorf("rail from %v to %v in", inches(box.X0), inches(box.X1))
		}
	})
}

// TestGripsKeepOffWires checks every grip of a busy unit against the panel it
// holds: off every vertical wire and seam, and off every grip from behind.
func TestGripsKeepOffWires(t *testing.T) {
	u := dressed(t, `
  front:
    - {use: hook-6, at: 63in, goods: [SEED, GLOVE]}
    - {use: shelf-48x12, at: 45in, goods: [JAR, TIN]}
    - {use: rail-u-24, bay: 2, at: 36in, goods: [COAT]}
  back: {same: front}
  right:
    - {use: hook-8, every: 6in, at: 54in, goods: [GLOVE]}
`)
	type hold struct {
		slot   int
		x0, x1 measure.Length
	}
	held := map[plan.FaceID][]hold{}
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				for _, g := range p.Grips {
					for x := measure.Length(0); x <= f.Width; x += 3 * measure.Inch {
						if g.X0 < x+measure.Inch/8 && x-measure.Inch/8 < g.X1 {
							t.Errorf("%s %s grips %v..%v in, over the wire at %v", row.Address, p.Part.ID, inches(g.X0), inches(g.X1), inches(x))
						}
					}
					for n := range g.Slots {
						held[f.ID] = append(held[f.ID], hold{g.Slot - n, g.X0, g.X1})
					}
				}
			}
		}
	}
	width := face(t, u, plan.Front).Width
	for _, a := range held[plan.Front] {
		for _, b := range held[plan.Back] {
			if a.slot == b.slot && a.x0 < width-b.x0 && width-b.x1 < a.x1 {
				t.Errorf("slot %d: front grip %v in meets the back's at %v in", a.slot, inches(a.x0), inches(width-b.x1))
			}
		}
	}
	if len(held[plan.Front]) < 15 || len(held[plan.Back]) < 15 {
		t.Errorf("%d front grips, %d back", len(held[plan.Front]), len(held[plan.Back]))
	}
}

func TestPlaces(t *testing.T) {
	tests := []struct {
		reason, rows, want string
	}{
		{"four cards share 24 in, each a little left of its wire", "hook-6, bay: 1, at: 57in, goods: {SEED: 4}", "2.5 8.5 14.5 20.5"},
		{"every keeps its spacing and finds the nearest offset to the middle", "hook-6, bay: 1, at: 57in, every: 6in, count: 3, goods: {SEED: 3}", "5.5 11.5 17.5"},
		{"packed left with a finger's gap, off the wire at 9 in", "hook-6, bay: 1, at: 57in, align: left, goods: {SEED: 3}", "1.75 5.5 9.5"},
		{"every with an open list deals only what finds places", "hook-6, bay: 1, at: 57in, every: 5-1/2in, goods: [GLOVE]", "2.5 8 13.5 19"},
		{"every keeps goods inside the span, not only their hooks", "hook-6, bay: 1, at: 57in, every: 5-1/2in, align: left, goods: {GLOVE: 3}", "2.5 8 13.5"},
		{"one in the second bay", "hook-6, bay: 2, at: 57in, count: 1, goods: [SEED]", "35.5"},
		{"a plain list takes as many as fit", "hook-6, bay: 1, at: 57in, goods: [WIDE]", "5.5 17.5"},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			u := dressed(t, "  front:\n    - {use: "+tt.rows+"}\n")
			if got := at(face(t, u, plan.Front).Rows[0].Pieces); got != tt.want {
				t.Errorf("hooks at %s, want %s", got, tt.want)
			}
		})
	}
}

func TestColumnsLineUpWhereItCostsNothing(t *testing.T) {
	// One card in the second bay has two equally good places, half an inch
	// either side of the wire at 36 in. Alone it takes the left one; under a hook
	// at 36 1/2 in it takes the right one.
	u := dressed(t, `
  front:
    - {use: hook-6, bay: 2, at: 60in, align: right, goods: {SHEET: 1}}
    - {use: hook-6, bay: 2, at: 48in, goods: {SEED: 1}}
`)
	rows := face(t, u, plan.Front).Rows
	if up, low := at(rows[0].Pieces), at(rows[1].Pieces); up != "36.5" || low != "36.5" {
		t.Errorf("hooks at %s over %s, want one column at 36.5", up, low)
	}
	u = dressed(t, "  front:\n    - {use: hook-6, bay: 2, at: 48in, goods: {SEED: 1}}\n")
	if got := at(face(t, u, plan.Front).Rows[0].Pieces); got != "35.5" {
		t.Errorf("alone the hook is at %s, want 35.5", got)
	}
}

func TestFindings(t *testing.T) {
	tests := []struct {
		reason, rows, code string
		level              diag.Level
		says               string
	}{
		{"rows pinned too near", "    - {use: shelf-24x12, bay: 1, at: 30in, goods: [TALL]}\n    - {use: shelf-24x12, bay: 1, at: 27in, goods: [TALL]}", "rows-do-not-fit", diag.Stop, "miss by"},
		{"a pin over the panel", "    - {use: hook-6, at: 90in, goods: [SEED]}", "at-between-slots", diag.Stop, "slot 21"},
		{"a pin between wires", "    - {use: hook-6, at: 55in, goods: [SEED]}", "at-between-slots", diag.Note, "54 in"},
		{"no such bay", "    - {use: hook-6, bay: 3, goods: [SEED]}", "no-such-bay", diag.Error, "bay 3"},
		{"a part that is no row", "    - {use: bracket-12, goods: [SEED]}", "wrong-kind", diag.Error, "bracket"},
		{"a part for another panel", "    - {use: hook-6-slat, goods: [SEED]}", "does-not-mount", diag.Error, "grid-24x60"},
		{"goods on the wrong part", "    - {use: hook-6, goods: [JAR]}", "wrong-form", diag.Stop, "stand"},
		{"goods wider than the unit", "    - {use: shelf-24x12, goods: [HUGE]}", "goods-too-wide", diag.Error, "60 in"},
		{"more fronts than the bay takes", "    - {use: hook-6, bay: 1, goods: {WIDE: 5}}", "fronts-do-not-fit", diag.Stop, "5 fronts"},
		{"more hooks than anyone could hang", "    - {use: hook-2, count: 10000, repeat: 11}", "too-many-pieces", diag.Error, "100000"},
		{"rows without end", strings.Repeat("    - {use: shelf-48x12, goods: [TALL]}\n", 20), "rows-do-not-fit", diag.Stop, "still more rows"},
		{"more rows than wires", "    - {use: hook-2, bay: 1, repeat: 22}", "rows-do-not-fit", diag.Stop, "21 slots"},
		{"unknown goods", "    - {use: hook-6, goods: [SEAD]}", "unknown-goods", diag.Error, "SEAD"},
		{"a garment too long for where it hangs", "    - {use: rail-u-24, bay: 1, at: 30in, goods: [LONG]}", "rows-do-not-fit", diag.Stop, "rail-u-24"},
		{"hooks for some of the goods only", "    - {use: hook-6, count: 2, goods: {SEED: 3}}", "too-few-hooks", diag.Stop, "count: 3"},
		{"spacing closer than the goods", "    - {use: hook-6, every: 3in, count: 3, goods: {WIDE: 3}}", "every-too-close", diag.Stop, "8 in"},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			res := resolve(t, gondola+"  front:\n"+tt.rows+"\n")
			for _, f := range res.Findings.All() {
				if f.Code == tt.code && f.Level == tt.level && strings.Contains(f.Message+f.Fix, tt.says) {
					if f.At.Line == 0 || f.At.File != "plan.yaml" {
						t.Errorf("finding is nowhere: %+v", f)
					}
					return
				}
			}
			t.Errorf("no %v %s saying %q among:\n%s", tt.level, tt.code, tt.says, codes(res))
		})
	}
}

// TestFixesWork follows the fix of each conflict and wants it to clear it.
func TestFixesWork(t *testing.T) {
	rows := "  front:\n    - {use: shelf-24x12, bay: 1, at: 30in, goods: [TALL]}\n    - {use: shelf-24x12, bay: 1, at: %s, goods: [TALL]}\n"
	res := resolve(t, gondola+fmt.Sprintf(rows, "27in"))
	var fix string
	for _, f := range res.Findings.All() {
		if f.Code == "rows-do-not-fit" {
			fix = f.Fix
		}
	}
	height, rest, ok := strings.Cut(strings.TrimPrefix(fix, "at: "), " for ")
	if !ok {
		t.Fatalf("fix %q names no height", fix)
	}
	text := gondola + fmt.Sprintf(rows, "27in")
	if strings.Contains(rest, "line 10") {
		text = strings.Replace(text, "30in", height, 1)
	} else {
		text = strings.Replace(text, "27in", height, 1)
	}
	if res := resolve(t, text); res.Findings.Has(diag.Stop) {
		t.Errorf("after %q:\n%s", fix, codes(res))
	}
}

func TestMirror(t *testing.T) {
	u := dressed(t, `
  front:
    - {use: hook-6, bay: 1, at: 57in, goods: {SEED: 2, GLOVE: 1}}
  back: {same: front}
`)
	back := face(t, u, plan.Back).Rows[0]
	if inches(back.X0) != 24 || inches(back.X1) != 48 {
		t.Errorf("mirrored span %v..%v", inches(back.X0), inches(back.X1))
	}
	if back.Positions[0].Product.SKU != "GLOVE" {
		t.Errorf("first on the back is %s", back.Positions[0].Product.SKU)
	}
	u = dressed(t, "  front:\n    - {use: hook-6, bay: 1, at: 57in, align: left, goods: {SEED: 2}}\n  back: {same: front}\n")
	if got := at(face(t, u, plan.Back).Rows[0].Pieces); got != "41.5 45.5" {
		t.Errorf("packed left, the mirror hangs at %s, want it packed right but off the hooks behind", got)
	}
	if back.Address != "B-1" || back.Positions[1].Address != "B-1-2" {
		t.Errorf("addresses %s, %s", back.Address, back.Positions[1].Address)
	}
}

func TestCollisionOfGoodsInOneRow(t *testing.T) {
	res := resolve(t, gondola+"  front:\n    - {use: hook-6, every: 3in, count: 3, goods: {WIDE: 3}}\n")
	for _, f := range res.Findings.All() {
		if f.Code == "collision" && strings.Contains(f.Message, "WIDE") && len(f.Where) == 2 {
			return
		}
	}
	t.Errorf("8 in cards 3 in apart do not collide:\n%s", codes(res))
}

// TestFacesStandSquare checks every frame form: a box on each face must turn
// into a solid outside the structure, on the side its viewer stands.
func TestFacesStandSquare(t *testing.T) {
	forms := []struct{ frame, panels, faces string }{
		{"gondola-h-48", "front: grid-24x60, right: grid-24x60, left: grid-24x60", "front right back left"},
		{"gondola-box-48", "front: grid-24x60, right: grid-24x60, back: grid-24x60, left: grid-24x60", "front right back left"},
		{"tower-24", "front: grid-24x60, right: grid-24x60, back: grid-24x60, left: grid-24x60", "front right back left"},
		{"wall-run", "front: grid-24x60", "front"},
	}
	for _, form := range forms {
		t.Run(form.frame, func(t *testing.T) {
			text := "plan: 1\ntitle: T\nmeasure: in\nunit:\n  frame: " + form.frame + "\n  stand: casters-locking\n  panels: {" + form.panels + "}\ndress:\n"
			for _, f := range strings.Fields(form.faces) {
				text += "  " + f + ":\n    - {use: hook-6, bay: 1, at: 54in, goods: [SEED]}\n"
			}
			res := resolve(t, text)
			if res.Findings.Has(diag.Stop) || res.Unit == nil {
				t.Fatal(codes(res))
			}
			for _, f := range res.Unit.Faces {
				checkSquare(t, res.Unit, f)
			}
		})
	}
}

func checkSquare(t *testing.T, u *unit.Unit, f *unit.Face) {
	t.Helper()
	hook := f.Solid(f.Rows[0].Pieces[0].Box)
	if hook.X0 >= hook.X1 || hook.Y0 >= hook.Y1 || hook.Z0 >= hook.Z1 {
		t.Errorf("%s: hook is inside out: %+v", f.ID, hook)
	}
	middle := (u.Bare.X0 + u.Bare.X1) / 2
	var outside bool
	switch f.ID {
	case plan.Front:
		outside = hook.Y1 <= 0
	case plan.Back:
		outside = hook.Y0 >= 0
	case plan.Right:
		outside = hook.X0 > middle
	default:
		outside = hook.X1 < middle
	}
	if !outside {
		t.Errorf("%s: hook at %+v is on the wrong side", f.ID, hook)
	}
	for _, s := range u.Structure {
		if x, y, z := s.Solid.Overlap(hook); s.Bay > 0 && x > 0 && y > 0 && z > 0 {
			t.Errorf("%s: hook stands in the panel of the %s", f.ID, s.Face)
		}
	}
}
