package check

import (
	"math"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

const in = measure.Inch

// hundredths of an inch, for limits that are crossed by little.
func hundredths(n int64) measure.Length { return measure.Length(n) * in / 100 }

// TestSagLimit has the limits of the Architectural Woodwork Standards, 2009,
// section 1.2.21 (seen), and of the trade bodies' span/240 (seen second hand).
func TestSagLimit(t *testing.T) {
	tests := []struct {
		reason   string
		span     float64 // in
		overhang bool
		ratio    int
		want     float64
	}{
		{"a 48 in span at span/144", 48, false, 144, 0.3333},
		{"a 48 in span at span/240", 48, false, 240, 0.2},
		{"a 24 in span at span/144", 24, false, 144, 0.1667},
		{"a 24 in span at span/240", 24, false, 240, 0.1},
		{"an overhang counts twice", 12, true, 144, 0.1667},
	}
	for _, tt := range tests {
		if got := sagLimit(tt.span, tt.overhang, tt.ratio); math.Abs(got-tt.want) > 5e-5 {
			t.Errorf("%s: %g, want %g", tt.reason, got, tt.want)
		}
	}
}

// TestPush has the benchmark of UL 1863-2019, 22.3 to 22.6 (seen; the sums are
// ours).
func TestPush(t *testing.T) {
	tests := []struct {
		reason        string
		mass, top     float64 // kg, mm
		force, height float64
		ok            bool
	}{
		{"180 kg: a fifth is 353 N, capped", 180, 1700, 250, 1700, true},
		{"100 kg: a fifth", 100, 1700, 196.133, 1700, true},
		{"a tall unit is pushed at 2.0 m", 100, 2400, 196.133, 2000, true},
		{"20 kg is too light to be asked", 20, 1700, 0, 0, false},
		{"25.0 kg is not more than 25.0 kg", 25, 1700, 0, 0, false},
		{"0.9 m is too low to be asked", 180, 900, 0, 0, false},
		{"1.00 m is not more than 1.00 m", 180, 1000, 0, 0, false},
	}
	for _, tt := range tests {
		force, height, ok := push(tt.mass, tt.top)
		if math.Abs(force-tt.force) > 1e-3 || height != tt.height || ok != tt.ok {
			t.Errorf("%s: %g N at %g, %v", tt.reason, force, height, ok)
		}
	}
}

// TestOfPush has a unit of 150 lb, its centre of gravity 12 in inside the edge:
// 33.333 lb at 54 in lift it, more than a fifth of its weight, and 25 lb at 72 in,
// less (calculated).
func TestOfPush(t *testing.T) {
	for _, tt := range []struct {
		top, want float64 // in, share of the benchmark
	}{{54, 33.333 / 30}, {72, 25.0 / 30}} {
		c := TipCase{Body: Body{Mass: 150 * 0.45359237}, Arm: 12 * 25.4}
		if got, ok := c.ofPush(tt.top * 25.4); !ok || math.Abs(got-tt.want) > 1e-4 {
			t.Errorf("top at %g in: %g of the benchmark, want %g", tt.top, got, tt.want)
		}
	}
}

// TestProtruding has the limits of the 2010 ADA Standards, 307.2 (seen).
func TestProtruding(t *testing.T) {
	tests := []struct {
		reason     string
		edge, past measure.Length
		want       bool
	}{
		{"at 27.00 in a cane finds it, however deep", 27 * in, 20 * in, false},
		{"just over 27 in and over 4 in", hundredths(2701), hundredths(401), true},
		{"just over 27 in and 4 in", hundredths(2701), 4 * in, false},
		{"at 80 in and over 4 in", 80 * in, hundredths(401), true},
		{"over 80 in it is overhead", hundredths(8001), hundredths(401), false},
		{"3 in past a base", 54 * in, 3 * in, false},
		{"5 in past a base", 54 * in, 5 * in, true},
	}
	for _, tt := range tests {
		if got := protruding(tt.edge, tt.past); got != tt.want {
			t.Errorf("%s: %v", tt.reason, got)
		}
	}
}

// TestSideReach has the limits of the 2010 ADA Standards, 308.3 (seen).
func TestSideReach(t *testing.T) {
	tests := []struct {
		reason        string
		depth, height measure.Length
		want          measure.Length
	}{
		{"nothing to reach over", 0, 0, 48 * in},
		{"over 10 in", 10 * in, 34 * in, 48 * in},
		{"over a shade more than 10 in", hundredths(1010), 34 * in, 46 * in},
		{"over 24 in", 24 * in, 34 * in, 46 * in},
		{"over a shade more than 24 in", hundredths(2410), 34 * in, 0},
		{"over 12 in that are too high", 12 * in, hundredths(3410), 0},
	}
	for _, tt := range tests {
		if got := sideReach(tt.depth, tt.height); got != tt.want {
			t.Errorf("%s: %s", tt.reason, got.Text(measure.Inches))
		}
	}
}

// TestPinches has the limits of the 2010 ADA Standards, 403.5.1 (seen).
func TestPinches(t *testing.T) {
	tests := []struct {
		reason string
		list   []stretch
		want   bool
	}{
		{"36 in all along", []stretch{{0, 96 * in, 36 * in}}, true},
		{"a shade under 36 in all along", []stretch{{0, 96 * in, hundredths(3599)}}, false},
		{"32 in for 24 in", []stretch{{0, 24 * in, 32 * in}}, true},
		{"32 in for a shade more", []stretch{{0, hundredths(2410), 32 * in}}, false},
		{"a shade under 32 in for 24 in", []stretch{{0, 24 * in, hundredths(3199)}}, false},
		{"two of 32 in, 48 in apart", []stretch{{0, 24 * in, 32 * in}, {72 * in, 96 * in, 32 * in}}, true},
		{"two of 32 in, 47 in apart", []stretch{{0, 24 * in, 32 * in}, {71 * in, 95 * in, 32 * in}}, false},
		{"hooks side by side are one", []stretch{{0, in, 33 * in}, {10 * in, 11 * in, 32 * in}, {23 * in, 24 * in, 33 * in}}, true},
	}
	for _, tt := range tests {
		got := true
		for _, p := range pinches(tt.list) {
			got = got && p.passable()
		}
		if got != tt.want {
			t.Errorf("%s: passable %v", tt.reason, got)
		}
	}
}

// TestTipOf has 5 lb spread along a hook of 1/4 in wire 8 in long: 0.05755 in with
// E = 29,000,000 psi (calculated from 64WL³/8πEd⁴), which is 199,948 N/mm².
func TestTipOf(t *testing.T) {
	s := plain()
	s.hang(parts.Hook, 50*in, 8*in, 1, measure.Pounds(5))
	l := s.faces[0][0]
	if got := tipOf(l); got != 0 {
		t.Errorf("a hook of no round wire sinks %g", got)
	}
	l.piece.Part.Wire = in / 4
	if got, want := tipOf(l)/25.4, 0.05755*199_948/steelE; math.Abs(got-want) > 1e-5 {
		t.Errorf("the tip sinks %g in, want %g", got, want)
	}
	l.piece.Part.Kind, l.piece.Part.Usable = parts.Rail, 23*in
	if tip := tipOf(l); tip <= 0 {
		t.Errorf("the rail sinks %g", tip)
	}
}

// TestShelfCase has a shelf of 48 in, 12 in deep, of 3/4 in board with E = 326,300
// psi, evenly loaded with 160 lb, on brackets at its ends and its middle:
// 80 and 80 lb, 1.6737 in; 30, 100, 30 lb, 0.04351 in (calculated from the
// handbook's cases).
func TestShelfCase(t *testing.T) {
	for _, tt := range []struct {
		brackets  []measure.Length
		reactions []float64
		sag       float64
	}{
		{[]measure.Length{0, 48 * in}, []float64{80, 80}, 1.6737},
		{[]measure.Length{0, 24 * in, 48 * in}, []float64{30, 100, 30}, 0.04351},
	} {
		s := plain()
		s.hang(parts.Shelf, 50*in, 12*in, 1, measure.Pounds(160))
		l := s.faces[0][0]
		l.piece.Part.Bend = &parts.Stiffness{Material: &parts.Material{E: 326_300 * 0.006894757, LongTerm: 1}, Thick: in * 3 / 4, Stop: 144, Caution: 240}
		for _, x := range tt.brackets {
			l.row.Brackets = append(l.row.Brackets, &unit.Piece{Part: &parts.Part{Kind: parts.Bracket}, X: x})
		}
		c, ok := s.shelfCase(l)
		if !ok || math.Abs(c.Sag/25.4-tt.sag) > 1e-4*tt.sag+5e-6 {
			t.Errorf("%d brackets: sag %g in, want %g", len(tt.brackets), c.Sag/25.4, tt.sag)
		}
		for i, want := range tt.reactions {
			if got := c.Reaction[i] / poundForce; math.Abs(got-want) > 1e-6 {
				t.Errorf("%d brackets: reaction %g lb, want %g", len(tt.brackets), got, want)
			}
		}
	}
}

// TestResting has a shelf on three brackets with all its load on the left span:
// held down at its right end it would pull there by a sixteenth of the load; it
// lifts off instead, and the two others share.
func TestResting(t *testing.T) {
	beam := statics.Beam{Length: 1000, EI: 1e9, Supports: []float64{0, 500, 1000}, Loads: []statics.Load{{From: 0, To: 500, Total: 160}}}
	pulled, err := beam.Solve()
	if err != nil || math.Abs(pulled.Reactions[2]+10) > 1e-9 {
		t.Fatalf("held down: %v, %v", pulled.Reactions, err)
	}
	_, reactions, err := resting(beam)
	if err != nil || math.Abs(reactions[0]-80) > 1e-9 || math.Abs(reactions[1]-80) > 1e-9 || reactions[2] != 0 {
		t.Errorf("resting: %v, %v", reactions, err)
	}
	beam.Loads = append(beam.Loads, statics.Load{From: 0, To: 1000, Total: 200})
	if _, reactions, _ = resting(beam); reactions[2] <= 0 {
		t.Errorf("its own weight holds it down: %v", reactions)
	}
}
