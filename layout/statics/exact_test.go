package statics

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"
)

// exactly solves a beam in rational numbers, without rounding, by a way that has
// nothing in common with Solve: with Macaulay's brackets
//
//	EI·y(x) = c₀ + c₁·x − Σ R·⟨x−s⟩³/6 + Σ W·⟨x−a⟩³/6 + Σ q·(⟨x−from⟩⁴ − ⟨x−to⟩⁴)/24
//
// and one system for c₀, c₁ and all R: no support sinks, and forces and moments
// balance. It returns the reactions and EI·y as a function.
func exactly(b Beam) (reactions []*big.Rat, deflection func(x float64) *big.Rat) {
	n := len(b.Supports)
	var rows [][]*big.Rat // c₀, c₁, R..., right side
	for _, x := range b.Supports {
		row := []*big.Rat{rat(1), rat(x)}
		for _, s := range b.Supports {
			row = append(row, times(bracket(x, s, 3), big.NewRat(-1, 6)))
		}
		rows = append(rows, append(row, new(big.Rat).Neg(loadTerm(b.Loads, x))))
	}
	force, turn := []*big.Rat{rat(0), rat(0)}, []*big.Rat{rat(0), rat(0)}
	for _, s := range b.Supports {
		force, turn = append(force, rat(1)), append(turn, rat(s))
	}
	total, moment := rat(0), rat(0)
	for _, l := range b.Loads {
		w := rat(l.Total)
		total.Add(total, w)
		middle := new(big.Rat).Add(rat(l.From), rat(l.To))
		moment.Add(moment, times(times(w, middle), big.NewRat(1, 2)))
	}
	rows = append(rows, append(force, total), append(turn, moment))

	c := eliminate(rows)
	return c[2 : n+2], func(x float64) *big.Rat {
		y := loadTerm(b.Loads, x)
		y.Add(y, c[0])
		y.Add(y, times(c[1], rat(x)))
		for i, s := range b.Supports {
			y.Add(y, times(times(c[i+2], bracket(x, s, 3)), big.NewRat(-1, 6)))
		}
		return y
	}
}

func rat(x float64) *big.Rat          { return new(big.Rat).SetFloat64(x) }
func times(a, b *big.Rat) *big.Rat    { return new(big.Rat).Mul(a, b) }
func number(r *big.Rat) (out float64) { out, _ = r.Float64(); return out }

func bracket(x, from float64, power int) *big.Rat {
	out := rat(1)
	arm := new(big.Rat).Sub(rat(x), rat(from))
	if arm.Sign() <= 0 {
		return rat(0)
	}
	for range power {
		out.Mul(out, arm)
	}
	return out
}

func loadTerm(loads []Load, x float64) *big.Rat {
	sum := rat(0)
	for _, l := range loads {
		if l.From == l.To {
			sum.Add(sum, times(times(rat(l.Total), bracket(x, l.From, 3)), big.NewRat(1, 6)))
			continue
		}
		term := new(big.Rat).Sub(bracket(x, l.From, 4), bracket(x, l.To, 4))
		term.Mul(term, rat(l.Total)).Quo(term, new(big.Rat).Sub(rat(l.To), rat(l.From)))
		sum.Add(sum, times(term, big.NewRat(1, 24)))
	}
	return sum
}

// eliminate solves a square system with its right side in the last column.
func eliminate(rows [][]*big.Rat) []*big.Rat {
	n := len(rows)
	for i := range n {
		pivot := i
		for rows[pivot][i].Sign() == 0 {
			pivot++
		}
		rows[i], rows[pivot] = rows[pivot], rows[i]
		for k := range n {
			if k == i || rows[k][i].Sign() == 0 {
				continue
			}
			f := new(big.Rat).Quo(rows[k][i], rows[i][i])
			for j := i; j <= n; j++ {
				rows[k][j] = new(big.Rat).Sub(rows[k][j], times(f, rows[i][j]))
			}
		}
	}
	out := make([]*big.Rat, n)
	for i := range out {
		out[i] = new(big.Rat).Quo(rows[i][n], rows[i][i])
	}
	return out
}

// off is the greatest error of any of a few deflections, as a share of the
// greatest deflection, and the greatest error of a reaction in newtons.
func off(t *testing.T, b Beam) (deflection, reaction float64, s Solution) {
	t.Helper()
	s = solved(t, b)
	reactions, exact := exactly(b)
	for i, r := range reactions {
		reaction = max(reaction, math.Abs(number(new(big.Rat).Sub(r, rat(s.Reactions[i])))))
	}
	places := slices.Clone(b.Supports)
	for k := range 12 {
		places = append(places, b.Length*float64(k)/11)
	}
	for _, x := range places {
		y := exact(x)
		y.Quo(y, rat(b.EI)).Sub(y, rat(s.Deflection(x)))
		deflection = max(deflection, math.Abs(number(y)))
	}
	if deflection > 0 {
		deflection /= s.greatest()
	}
	return deflection, reaction, s
}

// TestBound: the error is within the bound stated, and the bound is of use: below
// 1e-11 wherever loads do not cancel.
func TestBound(t *testing.T) {
	var worst, loosest float64
	for seed := range uint64(150) {
		b := randomBeam(rand.New(rand.NewPCG(seed, 3)), seed%2 == 1)
		deflection, reaction, s := off(t, b)
		force, _, _ := scales(b, s)
		if reaction > 1e-12*force {
			t.Errorf("seed %d: a reaction is off by %g of %g", seed, reaction, force)
		}
		if deflection > s.Bound() {
			t.Errorf("seed %d: off by %g, more than the bound of %g", seed, deflection, s.Bound())
		}
		if deflection > 0 {
			worst = max(worst, deflection/s.Bound())
		}
		if seed%2 == 0 {
			loosest = max(loosest, s.Bound())
		}
	}
	t.Logf("at worst the error is %.2g of the bound; the greatest bound is %.2g", worst, loosest)
	if loosest > 1e-11 {
		t.Errorf("a bound of %g says nothing", loosest)
	}
}

// TestBoundOfOddBeams: where digits are lost the bound must know it.
func TestBoundOfOddBeams(t *testing.T) {
	even := []Load{{0, 1000, 50}}
	for _, c := range []struct {
		why  string
		beam Beam
	}{
		{"supports almost in one place", Beam{1000, 1e9, []float64{0, 1e-7, 1000}, even}},
		{"spans from very short to very long", Beam{1000, 1e9, []float64{0, 1e-9, 1e-6, 1e-3, 1, 1000}, even}},
		{"short spans far from the left end", Beam{1e6, 1e9, []float64{999999, 999999.5, 1e6}, []Load{{999999.1, 999999.9, 3}}}},
		{"a long overhang on a short span", Beam{1000, 1e9, []float64{499, 501}, []Load{{0, 1000, 40}, {0, 0, 3}}}},
		{"up and down nearly cancel", Beam{1000, 1e9, []float64{0, 1000}, []Load{{500, 500, 1e6}, {500, 500, -1e6 + 1e-6}}}},
		{"a spread load and its opposite in points", Beam{1000, 1e9, []float64{0, 1000}, []Load{{0, 1000, 1}, {250, 250, -.5}, {750, 750, -.5}}}},
		{"many loads", manyLoads()},
		{"a load as thin as numbers allow", Beam{1000, 1e9, []float64{0, 1000}, []Load{{300, math.Nextafter(300, 301), 9}}}},
	} {
		deflection, _, s := off(t, c.beam)
		t.Logf("%s: off by %.2g, bound %.2g", c.why, deflection, s.Bound())
		if !(deflection <= s.Bound()) {
			t.Errorf("%s: off by %g, more than the bound of %g", c.why, deflection, s.Bound())
		}
	}
}

func manyLoads() Beam {
	b := Beam{Length: 3000, EI: 1e9, Supports: []float64{10, 700, 1500, 2900}}
	for i := range 150 {
		x := 20 * float64(i)
		b.Loads = append(b.Loads, Load{x, x + 17.3, 1 + math.Mod(x*0.37, 5)})
	}
	return b
}

// TestExactHasTeeth: the exact solution notices a wrong beam.
func TestExactHasTeeth(t *testing.T) {
	b := Beam{1000, 1e9, []float64{0, 400, 1000}, []Load{{0, 1000, 50}}}
	_, exact := exactly(b)
	b.Supports[1] += 1e-6
	s := solved(t, b)
	if d := math.Abs(number(exact(700))/b.EI - s.Deflection(700)); d < 1e-12*s.greatest() {
		t.Errorf("a support moved by a millionth of a millimetre changes %g", d)
	}
}
