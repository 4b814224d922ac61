package statics

import (
	"fmt"
	"math"
	"testing"
)

// TestHooks: a hook of round wire as a cantilever. Numbers CALC from PL³/3EI (SEEN
// AISC 3-23 case 22) and 32PL/πd³; 29 million psi is steel (MEMORY AISC 360).
func TestHooks(t *testing.T) {
	tip := func(p, l float64) []Load { return []Load{{l, l, p}} }
	for _, c := range []struct {
		why          string
		d, length, e float64
		loads        []Load
		stress, sink float64
	}{
		{"8 in", 0.25, 8, 29e6, tip(5, 8), 26076, 0.15346},
		{"8 in, the stiffer steel of other tables", 0.25, 8, 30e6, tip(5, 8), 26076, 0.14834},
		{"10 in", 0.25, 10, 29e6, tip(5, 10), 32595, 0.29972},
		{"12 in", 0.25, 12, 29e6, tip(5, 12), 39114, 0.51792},
		{"thin wire", 0.1875, 8, 29e6, tip(5, 8), 61810, 0.48500},
		{"goods over all of it", 0.25, 8, 29e6, []Load{{0, 8, 5}}, 13038, 0.05755},
		{"goods at 6 of 8 in: the tip", 0.25, 8, 29e6, tip(5, 6), 19557, 0.09711},
		{"goods at 6 of 8 in: at the goods", 0.25, 6, 29e6, tip(5, 6), 19557, 0.06474},
		{"metric", 6, 200, 200e3, tip(20, 200), 188.6, 4.1917},
		{"two halves are the whole", 0.25, 8, 29e6, []Load{{0, 4, 2.5}, {4, 8, 2.5}}, 13038, 0.05755},
		{"beyond the end counts at the end", 0.25, 8, 29e6, tip(5, 9), 26076, 0.15346},
	} {
		arm := Cantilever{c.length, c.e * RoundI(c.d)}
		near(t, c.why+": tip", arm.Tip(c.loads), c.sink, 1e-4)
		near(t, c.why+": stress", arm.Moment(c.loads)/RoundS(c.d), c.stress, 2e-4)
	}
}

// TestSections: I and S of quarter-inch wire (CALC), and the board of 12 by 3/4 in.
func TestSections(t *testing.T) {
	near(t, "round I", RoundI(0.25), 1.917476e-4, 1e-6)
	near(t, "round S", RoundS(0.25), 1.533981e-3, 1e-6)
	near(t, "round J", RoundJ(0.25), 2*1.917476e-4, 1e-6)
	near(t, "board I", RectI(12, 0.75), 0.421875, 1e-15)
	near(t, "board S", RectS(12, 0.75), 1.125, 1e-15)
}

// TestCantileverAsOverhang: the wire's formula and the beam's solver know nothing of
// each other; an overhang whose support is nearly clamped is a cantilever.
func TestCantileverAsOverhang(t *testing.T) {
	const gap, l, ei = 1e-6, 250.0, 4e6
	loads := []Load{{20, 20, 3}, {60, 240, 12}, {250, 250, 2}, {0, 90, 4}}
	var moved []Load
	for _, p := range loads {
		moved = append(moved, Load{p.From + gap, p.To + gap, p.Total})
	}
	s := solved(t, Beam{l + gap, ei, []float64{0, gap}, moved})
	near(t, "tip", Cantilever{l, ei}.Tip(loads), s.Deflection(l+gap), 5e-8)
	near(t, "moment", Cantilever{l, ei}.Moment(loads), -s.Moment(gap), 1e-9)
}

// TestURailLimits: arms that cannot twist clamp the bar (Wood Handbook table
// 9-1, both ends clamped, SEEN), arms that twist freely leave it simple.
func TestURailLimits(t *testing.T) {
	const a, l, ei, w = 300.0, 600.0, 2e8, 150.0
	arm := w / 2 * a * a * a / (3 * ei)
	near(t, "stiff", URail{a, l, ei, 1e30}.Deflection(w), arm+w*l*l*l/(384*ei), 1e-9)
	near(t, "stiff: end moment", URail{a, l, ei, 1e30}.ArmTwist(w), w*l/12, 1e-9)
	near(t, "loose", URail{a, l, ei, 1e-12}.Deflection(w), arm+5*w*l*l*l/(384*ei), 1e-9)
	near(t, "no bar", URail{a, 0, ei, ei}.Deflection(w), arm, 1e-12)
	near(t, "moment at the panel", URail{a, l, ei, ei}.ArmMoment(w), w/2*a, 1e-12)
}

// TestURailByWork: the principle of virtual work on the whole frame, integrated
// numerically: the true moments must give no relative turn where half of the bar
// is cut at its middle, and the sink there.
func TestURailByWork(t *testing.T) {
	for _, u := range []URail{{300, 600, 2e8, 1.5e8}, {400, 200, 1e8, 9e7}, {50, 1200, 3e7, 3e8}} {
		const w, steps = 90.0, 2000
		end := -u.ArmTwist(w) // sagging moment at the bar's ends
		var turn, sink float64
		for i := range steps { // half of the bar, then one arm, by midpoints
			x := (float64(i) + 0.5) / steps * u.Bar / 2
			dx := u.Bar / 2 / steps
			m := end + w/2*x - w*x*x/(2*u.Bar)
			turn += m / u.EI * dx
			sink += m / u.EI * x / 2 * dx * 2 // a unit load at the middle bends the bar by x/2, both halves
			y := (float64(i) + 0.5) / steps * u.Arm
			sink += w / 2 * y / u.EI * y / 2 * (u.Arm / steps) * 2 // and each arm by half of it
		}
		turn += end * u.Arm / u.GJ // a unit turn at the cut twists the arm
		what := fmt.Sprintf("%+v", u)
		if free := w * u.Bar * u.Bar / (24 * u.EI); math.Abs(turn) > 1e-6*free {
			t.Errorf("%s: the frame gapes by %g of %g", what, turn, free)
		}
		near(t, what, u.Deflection(w), sink, 1e-5)
	}
}
