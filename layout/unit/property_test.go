package unit_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// randomRows writes rows for one face of the gondola: any of a few parts with
// goods they take, pinned, wished for or free.
func randomRows(rng *rand.Rand, bays int) string {
	menu := []struct{ use, goods string }{
		{"hook-6", "[SEED, GLOVE]"}, {"hook-8", "{SEED: 2}"}, {"hook-4", "[WIDE]"},
		{"shelf-24x12", "[JAR, TIN]"}, {"shelf-24x12", "{TOP: 2}"}, {"slope-24", "[JAR]"},
		{"basket-24", "[BALL]"}, {"bar-belt-22", "[BELT]"}, {"face-out-12", "[COAT]"}, {"rail-u-24", "[COAT]"},
	}
	var b strings.Builder
	for range 1 + rng.IntN(6) {
		pick := menu[rng.IntN(len(menu))]
		fmt.Fprintf(&b, "    - {use: %s, goods: %s", pick.use, pick.goods)
		if rng.IntN(4) > 0 {
			fmt.Fprintf(&b, ", bay: %d", 1+rng.IntN(bays))
		}
		switch rng.IntN(4) {
		case 0:
			fmt.Fprintf(&b, ", at: %din", 9+3*rng.IntN(20))
		case 1:
			fmt.Fprintf(&b, ", near: %din", 6+rng.IntN(60))
		}
		b.WriteString("}\n")
	}
	return b.String()
}

// TestRandomUnits resolves random plans and checks what must hold of any
// dressed unit, fitting or not.
func TestRandomUnits(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	var found diag.List
	pl, cat := inputs(t, &found)
	fit := 0
	for trial := range 400 {
		text := gondola + "  front:\n" + randomRows(rng, 2) + "  right:\n" + randomRows(rng, 1)
		if trial%2 == 0 {
			text += "  back: {same: front}\n"
		} else {
			text += "  back:\n" + randomRows(rng, 2)
		}
		res := resolveWith(t, text, pl, cat, found)
		if res.Unit == nil {
			t.Fatalf("trial %d: no unit\n%s\n%s", trial, text, codes(res))
		}
		if !res.Findings.Has(diag.Stop) {
			fit++
			checkNothingMeets(t, res.Unit)
		}
		for _, f := range res.Unit.Faces {
			for _, row := range f.Rows {
				checkRow(t, f, row, res.Findings.Has(diag.Stop))
			}
		}
		if again := resolveWith(t, text, pl, cat, found); dump(t, again.Unit) != dump(t, res.Unit) {
			t.Fatalf("trial %d: two runs differ", trial)
		}
		if t.Failed() {
			t.Fatalf("trial %d:\n%s", trial, text)
		}
	}
	if fit < 60 {
		t.Errorf("only %d of 400 random plans fit: too few to mean anything", fit)
	}
}

func dump(t *testing.T, u *unit.Unit) string {
	t.Helper()
	var b bytes.Buffer
	if err := unit.WriteTable(&b, u); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// checkRow checks a row against its panel: on a slot, pieces and goods within
// its span, grips off wires and edges.
func checkRow(t *testing.T, f *unit.Face, row *unit.Row, stopped bool) {
	t.Helper()
	if row.Height != f.SlotHeight(row.Slot) || row.Slot < 1 || row.Slot > f.Panel.Panel.Count {
		t.Errorf("%s: slot %d at %v in", row.Address, row.Slot, inches(row.Height))
	}
	if stopped {
		return
	}
	for _, p := range row.All() {
		if p.Box.X0 < row.X0 || p.Box.X1 > row.X1 {
			t.Errorf("%s: %s leaves its span", row.Address, p.Part.ID)
		}
		for _, g := range p.Grips {
			if f.Panel.Panel.Surface == parts.Wire {
				checkOffWires(t, f, row, g)
			}
		}
	}
	for _, pos := range row.Positions {
		for i, front := range pos.Fronts {
			if front.Box.X0 < row.X0 || front.Box.X1 > row.X1 {
				t.Errorf("%s: front %d leaves its span", pos.Address, i)
			}
			if front.High < 1 || front.Deep < 1 || pos.Units < len(pos.Fronts) {
				t.Errorf("%s holds %d units on %d fronts", pos.Address, pos.Units, len(pos.Fronts))
			}
		}
	}
}

func checkOffWires(t *testing.T, f *unit.Face, row *unit.Row, g unit.Grip) {
	t.Helper()
	spec := f.Panel.Panel
	for x := measure.Length(0); x <= f.Width; x += spec.AcrossPitch {
		if g.X0 < x+spec.WireWidth/2 && x-spec.WireWidth/2 < g.X1 {
			t.Errorf("%s: grip at %v in is over the wire at %v in", row.Address, inches(g.X0), inches(x))
		}
	}
}

// checkNothingMeets looks at every pair of goods boxes of a face, and at every
// pair of pieces of different rows.
func checkNothingMeets(t *testing.T, u *unit.Unit) {
	t.Helper()
	for _, f := range u.Faces {
		for i, a := range f.Rows {
			for _, b := range f.Rows[:i] {
				for _, p := range a.All() {
					for _, q := range b.All() {
						if p.Box.Meets(q.Box) {
							t.Errorf("%s and %s meet without a finding", a.Address, b.Address)
						}
					}
				}
			}
		}
	}
}

// wall writes a plan of one wall of bays with rows of n hooks a bay.
func wall(bays, rows, perBay int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "plan: 1\ntitle: Wall\nmeasure: in\nunit:\n  frame: wall-run\n  stand: fixed\n  bays: %d\n  panels: {front: grid-24x96}\ndress:\n  front:\n", bays)
	for row := range rows {
		for bay := range bays {
			fmt.Fprintf(&b, "    - {use: hook-6, bay: %d, at: %din, goods: {CARD: %d}}\n", bay+1, 100-row*6, perBay)
		}
	}
	return b.String()
}

func BenchmarkResolve(b *testing.B) {
	for _, bays := range []int{11, 22, 45, 90} {
		b.Run(fmt.Sprintf("hooks=%d", bays*16*7), func(b *testing.B) {
			var found diag.List
			p := plan.Decode("plan.yaml", []byte(wall(bays, 16, 7)), &found)
			pl, cat := inputs(b, &found)
			if found.Has(diag.Error) {
				b.Fatal(found.All())
			}
			b.ResetTimer()
			for range b.N {
				if res := unit.Resolve(p, pl, cat); res.Unit == nil || res.Findings.Has(diag.Stop) {
					b.Fatal(codes(res))
				}
			}
		})
	}
}
