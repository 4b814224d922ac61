package parts

import (
	"math"
	"slices"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// TestRigidity compares with the board's second moment worked by hand.
func TestRigidity(t *testing.T) {
	const psi = 0.00689475729 // N/mm²
	in := measure.Inch
	for _, c := range []struct {
		reason string
		s      Stiffness
		depth  measure.Length
		want   float64 // N·mm²
	}{
		// 326,300 psi x 0.421875 in4, in lb and in: the 48 in shelf of the
		// published sag formulas (CALC), 12 in deep and 3/4 in thick.
		{"a particleboard shelf", Stiffness{Material: &Material{E: 326300 * psi}, Thick: 3 * in / 4}, 12 * in,
			326300 * psi * 0.421875 * math.Pow(25.4, 4)},
		{"in millimetres: 2500 x 300 x 18^3 / 12", Stiffness{Material: &Material{E: 2500}, Thick: 18 * measure.Millimetre}, 300 * measure.Millimetre, 364.5e6},
		{"a board twice as deep is twice as stiff", Stiffness{Material: &Material{E: 2500}, Thick: 18 * measure.Millimetre}, 600 * measure.Millimetre, 729e6},
		{"a section given goes before material and depth", Stiffness{Material: &Material{E: 200000}, EI: 1e8}, 12 * in, 1e8},
		{"a section given, of no known material", Stiffness{EI: 1e8}, 12 * in, 1e8},
	} {
		if got := c.s.Rigidity(c.depth); math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("%s: %g N·mm², want %g", c.reason, got, c.want)
		}
	}
}

func TestLongTerm(t *testing.T) {
	if got := (&Stiffness{Material: &Material{LongTerm: 1.5}}).LongTerm(); got != 1.5 {
		t.Errorf("the material's: %g", got)
	}
	if got := (&Stiffness{EI: 1}).LongTerm(); got != 1 {
		t.Errorf("of no known material: %g", got)
	}
}

// TestWireShelf works the sloped shelf's stiffness from the wires that the list
// says it has.
func TestWireShelf(t *testing.T) {
	d := 6.35
	want := 13 * 200000 * math.Pi * math.Pow(d, 4) / 64
	for _, id := range []string{"slope-24", "slope-48"} {
		if got := find(t, builtIn(t), id).Bend.EI; math.Abs(got/want-1) > 1e-3 {
			t.Errorf("%s: %g N·mm², thirteen wires have %g", id, got, want)
		}
	}
}

// TestBuiltInBends wants a section for each shelf, a wire for all that goods
// hang from, and sense in both.
func TestBuiltInBends(t *testing.T) {
	for _, p := range builtIn(t).All() {
		bends := p.Kind == Shelf || p.Kind == Slope
		if bends != (p.Bend != nil) {
			t.Errorf("%s: bends %v, has a section %v", p.ID, bends, p.Bend != nil)
		}
		if s := p.Bend; s != nil && (s.Material == nil || s.Stop != DefaultStop || s.Caution != DefaultCaution) {
			t.Errorf("%s: %+v", p.ID, s)
		}
		wired := slices.Contains([]Kind{Hook, Bar, Rail, FaceOut}, p.Kind)
		if wired != (p.Wire > 0) || p.Wire > measure.Inch/2 {
			t.Errorf("%s: a wire of %s", p.ID, p.Wire.Text(measure.Inches))
		}
		if p.Kind == Hook && p.MountsOn(Pegboard) && p.Wire >= measure.Inch/4 {
			t.Errorf("%s: a wire of %s does not pass a 1/4 in hole", p.ID, p.Wire.Text(measure.Inches))
		}
		// The wire itself, 0.2836 lb/in3 (7850 kg/m3), may not weigh more than the part.
		if length := p.Depth; p.Wire > 0 && p.Kind != Bar {
			if p.Kind == Rail {
				length = p.Width + 2*p.Depth
			}
			d := millimetres(p.Wire)
			grams := math.Pi / 4 * d * d * millimetres(length) * 7850e-6
			if grams > float64(p.Weight)/float64(measure.Gram) {
				t.Errorf("%s: its wire weighs %.0f g, all of it %s", p.ID, grams, p.Weight.Text(measure.Millimetres))
			}
		}
	}
}

// TestCasters holds the built-in casters to their own drawing.
func TestCasters(t *testing.T) {
	p := find(t, builtIn(t), "casters-locking")
	if s, wheel := p.Stand, 3*measure.Inch; s.Offset+wheel/2 != s.Radius {
		t.Errorf("an offset of %d and half a wheel do not make the swivel radius %d", s.Offset, s.Radius)
	}
	if got := p.PerFoot(); got != p.Rated/4 || got == 0 {
		t.Errorf("one of four casters carries %d", got)
	}
	for _, id := range []string{"fixed", "hook-6"} {
		if got := find(t, builtIn(t), id).PerFoot(); got != 0 {
			t.Errorf("%s has no feet, and they carry %d", id, got)
		}
	}
}

const materialsOnly = `materials:
  mdf: {e: 2700}
  mdf-black: {name: Black MDF, e: 3000.5, long-term: 1.25, source: the maker's sheet}
`

const boards = `parts:
  shelf-24x12: {bend: {material: mdf-black}}
  slope-24: {bend: {material: mdf, thick: 1}}
  shelf-48x12: {bend: {ei: 123000000, stop: 180, caution: 360}}
  shoe-glass: {like: shelf-shoe, name: Glass shoe shelf, bend: {ei: 50000000}}
  hook-6: {wire: 6mm}
  casters-locking: {stand: {offset: 1 1/4}}
`

// TestHouseMaterials reads materials from one file and parts made of them from
// another.
func TestHouseMaterials(t *testing.T) {
	base := builtIn(t)
	var found diag.List
	list := Load(Load(base, "materials.yaml", []byte(materialsOnly), &found), "boards.yaml", []byte(boards), &found)
	if found.Len() > 0 {
		t.Fatalf("findings: %v", found.All())
	}
	black, _ := list.Material("mdf-black")
	if black == nil || black.E != 3000.5 || black.LongTerm != 1.25 || black.Source != "the maker's sheet" {
		t.Fatalf("a new material: %+v", black)
	}
	if mdf, _ := list.Material("mdf"); mdf.E != 2700 || mdf.LongTerm != 1.5 || mdf.Name != "MDF" {
		t.Errorf("an override keeps what is not written anew: %+v", mdf)
	}
	if mdf, _ := base.Material("mdf"); mdf.E != 2500 {
		t.Errorf("the base list changed: %+v", mdf)
	}
	if n := len(list.Materials()); n != len(base.Materials())+1 {
		t.Errorf("%d materials", n)
	}
	if s := find(t, list, "shelf-24x12").Bend; s.Material != black || s.Thick != 3*measure.Inch/4 || s.Stop != 144 {
		t.Errorf("a board of another material: %+v", s)
	}
	if s := find(t, list, "slope-24").Bend; s.EI != 0 || s.Thick != measure.Inch {
		t.Errorf("a slope made a board: %+v", s)
	}
	if s := find(t, list, "shelf-48x12").Bend; s.EI != 123e6 || s.Thick != 0 || s.Stop != 180 || s.Caution != 360 {
		t.Errorf("a board given a section of its own: %+v", s)
	}
	if s := find(t, list, "shoe-glass").Bend; s.EI != 5e7 || s.Material != nil || s.Stop != 144 || s.Caution != 240 {
		t.Errorf("a part that did not bend: %+v", s)
	}
	if p := find(t, list, "hook-6"); p.Wire != 6*measure.Millimetre {
		t.Errorf("a wire: %d", p.Wire)
	}
	if s := find(t, list, "casters-locking").Stand; s.Offset != 5*measure.Inch/4 || s.Radius != 5*measure.Inch/2 {
		t.Errorf("casters: %+v", s)
	}
	if s := find(t, base, "shelf-24x12").Bend; s.Material.ID != "particleboard-m2" {
		t.Errorf("the base list changed: %+v", s)
	}
}
