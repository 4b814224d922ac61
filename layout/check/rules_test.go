package check

import (
	"math"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// plain is a unit that no rule finds anything wrong with: one face of a gondola
// on levellers, with nothing on it.
func plain() *subject {
	face := &unit.Face{ID: plan.Front, Letter: "F", Bays: 1, Width: 48 * in, Bottom: 6 * in, Top: 66 * in,
		Panel: &parts.Part{ID: "panel", Kind: parts.Panel, Width: 48 * in, Panel: &parts.PanelSpec{}}}
	return &subject{
		Unit: &unit.Unit{
			Plan:  &plan.Plan{},
			Frame: &parts.Part{ID: "frame", Frame: &parts.FrameSpec{Form: parts.HForm, Bays: 1}},
			Stand: &parts.Part{ID: "stand", Stand: &parts.StandSpec{Form: "levellers", Feet: 4}},
			Faces: []*unit.Face{face},
		},
		quarters: usual, faces: make([][]*laden, 1), of: map[*unit.Piece]*laden{}, a: &Assessment{},
	}
}

// hang puts one piece of that kind at a height on the face, its box from the
// panel to that depth, with so many units of that weight on it.
func (s *subject) hang(kind parts.Kind, height, depth measure.Length, units int, weight measure.Mass) *unit.Position {
	f := s.Unit.Faces[0]
	part := &parts.Part{ID: string(kind), Kind: kind, Width: 48 * in, Depth: depth}
	piece := &unit.Piece{Part: part, X: 24 * in, Box: unit.Box{X1: 48 * in, Y0: height, Y1: height + in, D1: depth}}
	row := &unit.Row{Part: part, Height: height, Declared: &plan.Row{}, Pieces: []*unit.Piece{piece}, Address: "F-1"}
	row.Positions = []*unit.Position{{Address: "F-1-1", Product: &goods.Product{SKU: "A", Weight: weight}, Height: height, Units: units,
		Fronts: []unit.Front{{Piece: piece, Units: units, Box: unit.Box{X1: 48 * in, Y0: height, Y1: height + in, D1: depth}}}}}
	f.Rows = append(f.Rows, row)
	s.faces[0] = append(s.faces[0], s.load(f, row)...)
	return row.Positions[0]
}

// times is a length so many times, for limits crossed by a thousandth.
func times(l measure.Length, k float64) measure.Length {
	return measure.Length(math.Round(float64(l) * k))
}

func held1(kind parts.Kind, load, rated, tip float64) HoldCase {
	part := &parts.Part{Kind: kind, Depth: 200 * measure.Millimetre, Usable: 200 * measure.Millimetre}
	return HoldCase{Row: &unit.Row{Part: part, Declared: &plan.Row{}}, Piece: &unit.Piece{Part: part}, Load: load, Rated: rated, Tip: tip}
}

func board(width measure.Length, supports int, span, sag float64) ShelfCase {
	part := &parts.Part{Kind: parts.Shelf, Bend: &parts.Stiffness{Stop: parts.DefaultStop, Caution: parts.DefaultCaution}}
	return ShelfCase{Row: &unit.Row{Part: part, Declared: &plan.Row{}}, Piece: &unit.Piece{Part: part, Box: unit.Box{X1: width}},
		Supports: []float64{0, span, 2 * span}[:supports], Span: span, Sag: sag, SagX: span / 2}
}

func tilting(arm, tilt float64) []TipCase {
	return []TipCase{{State: "full", Body: Body{Mass: 100}, Arm: arm, Tilt: tilt}}
}

// footed gives the unit feet, so that it stands by itself.
func (s *subject) footed(form string) {
	s.Stand.Stand.Form = form
	for i := range 4 {
		x, y := measure.Length(i%2)*in, measure.Length(i/2)*in
		s.Structure = append(s.Structure, unit.Structural{Part: &parts.Part{Kind: parts.Stand}, Solid: unit.Solid{X0: x, X1: x, Y0: y, Y1: y}})
	}
}

// limits sets up each rule so that k = 1 is just within its limit and a little
// more is not.
var limits = []struct {
	rule, reason string
	level        diag.Level
	set          func(s *subject, k float64)
}{
	{"over-rating", "the rated load", diag.Stop, func(s *subject, k float64) {
		s.hang(parts.Hook, 20*in, in, 1, measure.Mass(1e7*k))
		s.Unit.Faces[0].Rows[0].Part.Rated = 1e7
	}},
	{"bracket-load", "the rated load", diag.Stop, func(s *subject, k float64) {
		s.a.Holds = []HoldCase{held1(parts.Bracket, 50, 100, 0), held1(parts.Bracket, 100*k, 100, 0)}
	}},
	{"panel-load", "the rated load", diag.Stop, func(s *subject, k float64) {
		s.Unit.Faces[0].Panel.Rated = 100 * measure.Kilogram
		s.a.Panels = []PanelCase{{Face: plan.Front, Bay: 1, Load: 100 * gravity * k}}
	}},
	{"panel-load", "the frame's rated load", diag.Stop, func(s *subject, k float64) {
		s.Frame.Rated = 100 * measure.Kilogram
		s.a.Faces = []FaceCase{{Face: plan.Front, Hardware: 40, Goods: 100*k - 40}}
	}},
	{"foot-load", "a foot's share on a level floor", diag.Stop, func(s *subject, k float64) {
		s.a.Feet = []FootCase{{Load: 100 * k, OneOff: 100 * k, Rated: 100}, {Load: 50, OneOff: 60, Rated: 100}}
	}},
	{"foot-load", "a caster's share with one off the floor", diag.Caution, func(s *subject, k float64) {
		s.footed("casters")
		s.a.Feet = []FootCase{{Load: 60, OneOff: 60, Rated: 100}, {Load: 50, OneOff: 100 * k, Rated: 100}}
	}},
	{"sag", "span/144", diag.Stop, func(s *subject, k float64) { s.a.Shelves = []ShelfCase{board(24*in, 2, 1440, 10*k)} }},
	{"sag", "span/240", diag.Caution, func(s *subject, k float64) { s.a.Shelves = []ShelfCase{board(24*in, 2, 1440, 6*k)} }},
	{"three-brackets", "just short of 48 in on two", diag.Caution, func(s *subject, k float64) {
		s.a.Shelves = []ShelfCase{board(times(48*in, k/more1), 2, 1000, 0)}
	}},
	{"hook-tip", "a twentieth of 200 mm", diag.Caution, func(s *subject, k float64) {
		s.a.Holds = []HoldCase{held1(parts.Hook, 1, 0, 10*k)}
	}},
	{"hook-tip", "a twentieth of a rail", diag.Caution, func(s *subject, k float64) {
		s.a.Holds = []HoldCase{held1(parts.Rail, 1, 0, 10*k)}
	}},
	{"balance", "three quarters of the heavier side", diag.Caution, func(s *subject, k float64) {
		s.footed("levellers")
		s.a.Faces = []FaceCase{{Face: plan.Front, Goods: 75 / k}, {Face: plan.Back, Goods: 100}}
	}},
	{"tip-force", "a fifth of the weight", diag.Caution, func(s *subject, k float64) {
		s.Extent.Z1 = 1500 * measure.Millimetre
		s.a.Tips = tilting(300/k, 45)
	}},
	{"tip-force", "two fifths of that", diag.Stop, func(s *subject, k float64) {
		s.Extent.Z1 = 1500 * measure.Millimetre
		s.a.Tips = tilting(120/k, 45)
	}},
	{"tip-force", "the centre of gravity over the edge of what is too light for the benchmark", diag.Stop, func(s *subject, k float64) {
		s.a.Tips = []TipCase{{State: "front first", Body: Body{Mass: 10}, Arm: 1 - k, Tilt: 90 * (1 - k)}}
	}},
	{"tip-tilt", "10 degrees", diag.Caution, func(s *subject, k float64) { s.a.Tips = tilting(1000, 10/k) }},
	{"casters-locked", "levellers, then casters", diag.Note, func(s *subject, k float64) {
		if k > 1 {
			s.footed("casters")
		}
	}},
	{"aisle", "36 in", diag.Caution, func(s *subject, k float64) { s.Plan.Site.Aisle = times(36*in, 1/k) }},
	{"aisle", "30 in", diag.Stop, func(s *subject, k float64) { s.Plan.Site.Aisle = times(30*in, 1/k) }},
	{"protrude", "4 in", diag.Caution, func(s *subject, k float64) { s.hang(parts.Shelf, 50*in, times(4*in, k), 1, 0) }},
	{"protrude", "4 in past a low shelf", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Shelf, 50*in, times(16*in, k), 1, 0)
		s.hang(parts.Shelf, 27*in, 12*in, 1, 0)
	}},
	{"protrude", "an edge at 27 in", diag.Caution, func(s *subject, k float64) { s.hang(parts.Shelf, times(27*in, k), 12*in, 1, 0) }},
	{"reach", "48 in", diag.Note, func(s *subject, k float64) { s.hang(parts.Shelf, times(48*in, k), in, 1, 0) }},
	{"reach", "46 in over a base", diag.Note, func(s *subject, k float64) {
		s.Unit.Faces[0].DeckDepth, s.Unit.Faces[0].Deck = 12*in, 6*in
		s.hang(parts.Shelf, times(46*in, k), in, 1, 0)
	}},
	{"reach", "48 in where goods must be reached", diag.Caution, func(s *subject, k float64) {
		s.Plan.Site.MustReach = true
		s.hang(parts.Shelf, times(48*in, k), in, 1, 0)
	}},
	{"reach", "15 in", diag.Note, func(s *subject, k float64) { s.hang(parts.Shelf, times(15*in, 1/k), in, 1, 0) }},
	{"sprinkler", "18 in below deflectors at 116 in", diag.Stop, func(s *subject, k float64) {
		s.Plan.Site = plan.Site{Sprinklers: true, Deflectors: 116 * in}
		s.Extent.Z1 = times(98*in, k)
	}},
	{"sprinkler", "deflectors 12 in below a ceiling of 128 in", diag.Caution, func(s *subject, k float64) {
		s.Plan.Site = plan.Site{Sprinklers: true, Ceiling: 128 * in}
		s.Extent.Z1 = times(98*in, k)
	}},
	{"ceiling", "24 in below 120 in", diag.Stop, func(s *subject, k float64) {
		s.Plan.Site = plan.Site{Ceiling: 120 * in}
		s.Extent.Z1 = times(96*in, k)
	}},
	{"heavy-low", "5 kg apiece at 48 in", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Shelf, times(48*in, k), in, 1, 5*measure.Kilogram)
	}},
	{"heavy-low", "just short of 5 kg apiece", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Shelf, 50*in, in, 1, measure.Mass(5e6*k/more1))
	}},
	{"heavy-low", "just short of 25 kg over less", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Shelf, 50*in, in, 100, measure.Mass(math.Round(0.25e6*k/more1)))
		s.hang(parts.Shelf, 30*in, in, 100, 0.1e6)
	}},
	{"hook-eye", "an inch past what is below", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Hook, 60*in, 9*in+times(in, k), 1, 0)
		s.hang(parts.Shelf, 30*in, 9*in, 1, 0)
	}},
	{"hook-eye", "just over an adult's eyes", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Hook, times(adultEye, more1/k), 6*in, 1, 0)
	}},
	{"hook-eye", "just under a child's eyes", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Hook, times(childEye, k/more1), 6*in, 1, 0)
	}},
	{"breakables", "1.5 m", diag.Caution, func(s *subject, k float64) {
		s.hang(parts.Shelf, times(breakHeight, k), in, 1, 0).Product.Breakable = true
	}},
	{"lift", "an ideal lift: 51 lb less what half of 12 in take", diag.Caution, func(s *subject, k float64) {
		pos := s.hang(parts.Shelf, 30*in, 12*in, 1, 0)
		pos.Product.Case = 10
		pos.Product.Weight = measure.Mass(51 * 10 / 16.0 * k / 10 * 0.45359237e6)
	}},
}

// more1 is by how much a limit is crossed.
const more1 = 1.001

// TestLimits wants each rule silent at its limit and not a thousandth past it.
// Limits of the standards are those of the sources that the rules name.
func TestLimits(t *testing.T) {
	tested := map[string]bool{}
	for _, tt := range limits {
		tested[tt.rule] = true
		for _, k := range []float64{1, more1} {
			s := plain()
			tt.set(s, k)
			found := 0
			for _, r := range judgedRules() {
				if r.ID != tt.rule {
					continue
				}
				for _, f := range r.find(s, r.Rule) {
					if f.Level == tt.level {
						found++
					}
				}
			}
			if want := map[bool]int{true: 1}[k > 1]; found != want {
				t.Errorf("%s, %s, times %g: %d findings of level %s, want %d", tt.rule, tt.reason, k, found, tt.level, want)
			}
		}
	}
	for _, r := range Rules() {
		if !tested[r.ID] {
			t.Errorf("the limit of %s is not tested", r.ID)
		}
	}
}

// TestPlain wants no rule to find anything where nothing is.
func TestPlain(t *testing.T) {
	if found := plain().judge(); len(found) > 0 {
		t.Errorf("an empty unit: %+v", found)
	}
}
