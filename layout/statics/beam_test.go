package statics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// randomBeam makes a beam on 2 to 6 supports with up to 8 loads, some of them on
// supports, over the whole beam, or upward if lift is set. All places are whole
// steps of a 240th of the length.
func randomBeam(r *rand.Rand, lift bool) Beam {
	const steps = 240
	length := 200 + 2800*r.Float64()
	place := func(k int) float64 {
		if k == steps {
			return length
		}
		return length / steps * float64(k)
	}
	b := Beam{Length: length, EI: math.Exp(14 + 10*r.Float64())}
	var supports []int
	for len(supports) < 2+r.IntN(5) {
		k := r.IntN(steps + 1)
		if r.IntN(4) == 0 {
			k = steps * r.IntN(2)
		}
		if !slices.Contains(supports, k) {
			supports = append(supports, k)
		}
	}
	slices.Sort(supports)
	for _, k := range supports {
		b.Supports = append(b.Supports, place(k))
	}
	for range 1 + r.IntN(8) {
		from, to := r.IntN(steps+1), r.IntN(steps+1)
		switch r.IntN(5) {
		case 0:
			from, to = 0, steps
		case 1:
			to = from
		case 2:
			from = supports[r.IntN(len(supports))]
			to = from
		}
		total := 1 + 300*r.Float64()
		if lift && r.IntN(3) == 0 {
			total = -total
		}
		b.Loads = append(b.Loads, Load{place(min(from, to)), place(max(from, to)), total})
	}
	return b
}

func eachRandomBeam(t *testing.T, n uint64, check func(b Beam, s Solution, name string)) {
	t.Helper()
	for seed := range n {
		b := randomBeam(rand.New(rand.NewPCG(seed, 3)), seed%2 == 1)
		check(b, solved(t, b), fmt.Sprintf("seed %d", seed))
	}
}

// scales gives the size of forces, moments and deflections of a beam, to hold
// differences against.
func scales(b Beam, s Solution) (force, moment, sag float64) {
	for _, l := range b.Loads {
		force += math.Abs(l.Total)
	}
	for _, r := range s.Reactions {
		force = max(force, math.Abs(r))
	}
	return force, force * b.Length, s.greatest()
}

// TestEquilibrium: supports carry what is on the beam, and its moment about the
// left end; the free ends carry nothing.
func TestEquilibrium(t *testing.T) {
	eachRandomBeam(t, 500, func(b Beam, s Solution, name string) {
		force, moment, _ := scales(b, s)
		var up, turn float64
		for i, r := range s.Reactions {
			up += r
			turn += r * b.Supports[i]
		}
		for _, l := range b.Loads {
			up -= l.Total
			turn -= l.Total * (l.From + l.To) / 2
		}
		if math.Abs(up) > 1e-12*force || math.Abs(turn) > 1e-12*moment {
			t.Errorf("%s: %g N and %g N·mm are left over", name, up, turn)
		}
		if m := max(math.Abs(s.Moment(0)), math.Abs(s.Moment(b.Length))); m > 1e-12*moment {
			t.Errorf("%s: moment %g at a free end", name, m)
		}
	})
}

// TestCurve: the moment's slope is the shear and the deflection's bend is the
// moment, between neighbouring places where anything changes; supports do not sink.
func TestCurve(t *testing.T) {
	eachRandomBeam(t, 500, func(b Beam, s Solution, name string) {
		force, moment, sag := scales(b, s)
		for _, x := range b.Supports {
			if d := s.Deflection(x); math.Abs(d) > 1e-12*sag {
				t.Errorf("%s: support at %g sinks by %g of %g", name, x, d, sag)
			}
		}
		breaks := slices.Concat([]float64{0, b.Length}, b.Supports)
		for _, l := range b.Loads {
			breaks = append(breaks, l.From, l.To)
		}
		slices.Sort(breaks)
		for i := 1; i < len(breaks); i++ {
			from, to := breaks[i-1], breaks[i]
			h := (to - from) / 4
			if h < b.Length/1000 {
				continue
			}
			m := from + 2*h
			if d := s.Moment(m+h) - s.Moment(m-h) - 2*h*s.Shear(m); math.Abs(d) > 1e-12*moment {
				t.Errorf("%s: the moment's rise is off by %g", name, d)
			}
			// The second difference of a quartic is h²y″ + h⁴y⁗/12, and the load is the
			// shear's fall.
			second := b.EI * (s.Deflection(m-h) - 2*s.Deflection(m) + s.Deflection(m+h))
			q := (s.Shear(m-h) - s.Shear(m+h)) / (2 * h)
			if d := second + h*h*s.Moment(m) - h*h*h*h*q/12; math.Abs(d) > 1e-11*(b.EI*sag+h*h*moment) {
				t.Errorf("%s: the bend at %g is off by %g of %g", name, m, d, b.EI*sag)
			}
			if force < math.Abs(s.Shear(m)) {
				t.Errorf("%s: shear %g is more than all forces", name, s.Shear(m))
			}
		}
	})
}

// TestSuperposition: a beam under two sets of loads answers with the sum, and under
// twice the load with twice.
func TestSuperposition(t *testing.T) {
	eachRandomBeam(t, 300, func(b Beam, s Solution, name string) {
		cut := len(b.Loads) / 2
		one, two, twice := b, b, b
		one.Loads, two.Loads = b.Loads[:cut], b.Loads[cut:]
		twice.Loads = append(slices.Clone(b.Loads), b.Loads...)
		s1, s2, double := solved(t, one), solved(t, two), solved(t, twice)
		force, moment, sag := scales(b, s)
		sag = max(sag, s1.greatest(), s2.greatest())
		for i, r := range s.Reactions {
			near := func(got float64) bool { return math.Abs(got-r) <= 1e-12*force }
			if !near(s1.Reactions[i]+s2.Reactions[i]) || !near(double.Reactions[i]/2) {
				t.Errorf("%s: reaction %d: %g, not %g and %g", name, i, r, s1.Reactions[i], s2.Reactions[i])
			}
		}
		for k := range 50 {
			x := b.Length * float64(k) / 49
			if d := s1.Deflection(x) + s2.Deflection(x) - s.Deflection(x); math.Abs(d) > 1e-12*sag {
				t.Errorf("%s: deflection at %g is off by %g of %g", name, x, d, sag)
			}
			if d := s1.Moment(x) + s2.Moment(x) - s.Moment(x); math.Abs(d) > 1e-12*moment {
				t.Errorf("%s: moment at %g is off by %g", name, x, d)
			}
		}
	})
}

// TestMirror: a beam seen from behind sags alike and is carried alike.
func TestMirror(t *testing.T) {
	eachRandomBeam(t, 300, func(b Beam, s Solution, name string) {
		behind := Beam{Length: b.Length, EI: b.EI}
		for _, x := range slices.Backward(b.Supports) {
			behind.Supports = append(behind.Supports, b.Length-x)
		}
		for _, l := range b.Loads {
			behind.Loads = append(behind.Loads, Load{b.Length - l.To, b.Length - l.From, l.Total})
		}
		m := solved(t, behind)
		force, _, sag := scales(b, s)
		last := len(s.Reactions) - 1
		for i, r := range s.Reactions {
			if math.Abs(r-m.Reactions[last-i]) > 1e-11*force {
				t.Errorf("%s: reaction %d: %g and %g", name, i, r, m.Reactions[last-i])
			}
		}
		for k := range 50 {
			x := b.Length * float64(k) / 49
			if d := s.Deflection(x) - m.Deflection(b.Length-x); math.Abs(d) > 1e-11*sag {
				t.Errorf("%s: deflection at %g is off by %g of %g", name, x, d, sag)
			}
		}
		_, sag1, _ := s.MaxSag()
		_, sag2, _ := m.MaxSag()
		if math.Abs(sag1-sag2) > 1e-11*sag {
			t.Errorf("%s: sag %g and %g", name, sag1, sag2)
		}
	})
}

// TestExtremes: nothing on a fine grid is beyond the extremes, and they are on the
// curve, in the span they name.
func TestExtremes(t *testing.T) {
	eachRandomBeam(t, 300, func(b Beam, s Solution, name string) {
		x, sag, span := s.MaxSag()
		mx, m := s.MaxMoment()
		_, moment, size := scales(b, s)
		if math.Abs(s.Deflection(x)-sag) > 1e-12*size {
			t.Errorf("%s: sag %g at %g, where the deflection is %g", name, sag, x, s.Deflection(x))
		}
		if math.Abs(s.Moment(mx)-m) > 1e-12*moment {
			t.Errorf("%s: greatest moment %g at %g, where it is %g", name, m, mx, s.Moment(mx))
		}
		for k := range 3001 {
			at := b.Length * float64(k) / 3000
			if s.Deflection(at) > sag+1e-11*size {
				t.Fatalf("%s: sag %g at %g is less than %g at %g", name, sag, x, s.Deflection(at), at)
			}
			if math.Abs(s.Moment(at)) > math.Abs(m)+1e-11*moment {
				t.Fatalf("%s: moment %g is less than %g at %g", name, m, s.Moment(at), at)
			}
		}
		ends := slices.Concat([]float64{0}, b.Supports, []float64{b.Length})
		i, _ := slices.BinarySearch(ends[1:], x)
		if between := ends[i+1] - ends[i]; sag > 0 && math.Abs(span-between) > 1e-9*b.Length {
			t.Errorf("%s: sag at %g in a span of %g, not %g", name, x, between, span)
		}
	})
}

// TestLeftmost: of two alike the left one is named, whatever the last digits are.
func TestLeftmost(t *testing.T) {
	for n := 2; n < 9; n++ {
		b := Beam{Length: 48 * 25.4, EI: 1e9, Loads: []Load{{0, 48 * 25.4, 100}}}
		for i := range n + 1 {
			b.Supports = append(b.Supports, b.Length*float64(i)/float64(n))
		}
		s := solved(t, b)
		if x, _, _ := s.MaxSag(); x > b.Supports[1] {
			t.Errorf("%d spans: the greatest sag is at %g, past the first span", n, x)
		}
		if x, _ := s.MaxMoment(); x > b.Supports[1] {
			t.Errorf("%d spans: the greatest moment is at %g, past the second support", n, x)
		}
	}
}

func TestNothingSags(t *testing.T) {
	for _, c := range []struct {
		why   string
		from  float64
		loads []Load
	}{
		{"no load", 10, nil},
		{"lifted", 0, []Load{{40, 60, -5}}},
		{"loads on the supports", 10, []Load{{10, 10, 5}, {90, 90, 5}}},
	} {
		x, sag, span := solved(t, Beam{100, 1e6, []float64{c.from, 100 - c.from}, c.loads}).MaxSag()
		if x != c.from || sag != 0 || span != 100-2*c.from {
			t.Errorf("%s: sag %g at %g in a span of %g", c.why, sag, x, span)
		}
	}
	if b := solved(t, Beam{100, 1e6, []float64{10, 90}, nil}).Bound(); b != 0 {
		t.Errorf("no load: bound %g", b)
	}
}

// TestSolutionKeepsItsOwn: what the caller does to its slices afterwards is its
// own affair.
func TestSolutionKeepsItsOwn(t *testing.T) {
	b := Beam{100, 1e6, []float64{0, 100}, []Load{{0, 100, 8}}}
	s := solved(t, b)
	x, sag, span := s.MaxSag()
	b.Supports[1], b.Loads[0].Total = 3, 99
	if x2, sag2, span2 := s.MaxSag(); x != x2 || sag != sag2 || span != span2 {
		t.Errorf("sag %g at %g in %g has become %g at %g in %g", sag, x, span, sag2, x2, span2)
	}
}

func TestNotABeam(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		why, says string
		beam      Beam
	}{
		{"no length", "above zero", Beam{0, 1, []float64{0, 0}, nil}},
		{"endless", "above zero", Beam{inf, 1, []float64{0, 1}, nil}},
		{"no stiffness", "above zero", Beam{9, 0, []float64{0, 9}, nil}},
		{"stiffness undefined", "above zero", Beam{9, nan, []float64{0, 9}, nil}},
		{"nothing under it", "two supports", Beam{9, 1, nil, nil}},
		{"one support is a seesaw", "two supports", Beam{9, 1, []float64{4}, nil}},
		{"two supports in one place", "come after", Beam{9, 1, []float64{4, 4}, nil}},
		{"supports out of order", "come after", Beam{9, 1, []float64{5, 4}, nil}},
		{"support off the end", "not on the beam", Beam{9, 1, []float64{0, 10}, nil}},
		{"support undefined", "not on the beam", Beam{9, 1, []float64{nan, 9}, nil}},
		{"load before the start", "load from -1", Beam{9, 1, []float64{0, 9}, []Load{{-1, 2, 1}}}},
		{"load past the end", "load from 1", Beam{9, 1, []float64{0, 9}, []Load{{1, 10, 1}}}},
		{"load backwards", "load from 3", Beam{9, 1, []float64{0, 9}, []Load{{3, 2, 1}}}},
		{"load undefined", "not a number", Beam{9, 1, []float64{0, 9}, []Load{{3, 4, nan}}}},
		{"load without limit", "not a number", Beam{9, 1, []float64{0, 9}, []Load{{3, 4, inf}}}},
	} {
		if _, err := c.beam.Solve(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want ... %s ...", c.why, err, c.says)
		}
	}
}

// BenchmarkSolve: a shelf on three brackets with a product every two inches.
func BenchmarkSolve(b *testing.B) {
	shelf := Beam{Length: 1219.2, EI: 4e8, Supports: []float64{25.4, 609.6, 1193.8}, Loads: []Load{{0, 1219.2, 40}}}
	for i := range 24 {
		x := float64(i) * 50.8
		shelf.Loads = append(shelf.Loads, Load{x, x + 45, 6})
	}
	for b.Loop() {
		s, err := shelf.Solve()
		if err != nil {
			b.Fatal(err)
		}
		if _, sag, _ := s.MaxSag(); sag <= 0 {
			b.Fatal("no sag")
		}
	}
}
