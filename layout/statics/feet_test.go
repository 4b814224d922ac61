package statics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func square(side float64) []Point {
	return []Point{{0, 0}, {side, 0}, {side, side}, {0, side}}
}

// about compares numbers to nine digits of a hundred.
func about(got, want []float64) bool {
	return slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-7 })
}

// TestFeet: hand-worked; a rigid plate on equal springs (statics). On four springs
// at the corners of a square each carries W/4·(1 ± 2x/side ± 2y/side).
func TestFeet(t *testing.T) {
	row := []Point{{0, 0}, {10, 0}, {20, 0}}
	for _, c := range []struct {
		why    string
		feet   []Point
		body   Point
		loads  []float64
		oneOff []float64
	}{
		{"in the middle; on an uneven floor it stands on two opposite corners", square(10), Point{5, 5},
			[]float64{25, 25, 25, 25}, []float64{50, 50, 50, 50}},
		{"off to the left", square(10), Point{4, 5}, []float64{30, 20, 20, 30}, []float64{50, 40, 40, 50}},
		{"towards a corner: the far foot just touches", square(10), Point{2.5, 2.5}, []float64{50, 25, 0, 25}, []float64{75, 25, 25, 25}},
		{"nearer: the far foot has lifted, three carry", square(10), Point{2, 2}, []float64{60, 20, 0, 20}, []float64{80, 20, 20, 20}},
		{"on an edge: the others carry nothing", square(10), Point{5, 0}, []float64{50, 50, 0, 0}, []float64{50, 50, 0, 0}},
		{"over a foot", square(10), Point{10, 10}, []float64{0, 0, 100, 0}, []float64{0, 0, 100, 0}},
		{"outside: as it goes over", square(10), Point{-3, 5}, []float64{50, 0, 0, 50}, []float64{50, 0, 0, 50}},
		{"outside past a corner", square(10), Point{-3, -4}, []float64{100, 0, 0, 0}, []float64{100, 0, 0, 0}},
		{"three feet: none can be off the floor", []Point{{0, 0}, {10, 0}, {0, 10}}, Point{2, 3}, []float64{50, 20, 30}, []float64{50, 20, 30}},
		{"six feet in two rows, in the middle", []Point{{0, 0}, {10, 0}, {20, 0}, {0, 10}, {10, 10}, {20, 10}}, Point{10, 5},
			[]float64{100. / 6, 100. / 6, 100. / 6, 100. / 6, 100. / 6, 100. / 6}, nil},
		{"three in a line, over the line", row, Point{10, 0}, []float64{100. / 3, 100. / 3, 100. / 3}, []float64{50, 100, 50}},
		{"three in a line, to one end: W(1/3 ± d/2a)", row, Point{5, 0}, []float64{175. / 3, 100. / 3, 25. / 3}, []float64{75, 50, 25}},
		{"three in a line, beside it: as it goes over", row, Point{10, 7}, []float64{100. / 3, 100. / 3, 100. / 3}, []float64{100. / 3, 100. / 3, 100. / 3}},
		{"one foot", []Point{{3, 3}}, Point{9, 9}, []float64{100}, []float64{100}},
		{"two feet in one place share", []Point{{0, 0}, {0, 0}, {10, 0}}, Point{5, 0}, []float64{25, 25, 50}, []float64{50, 50, 50}},
		{"no feet", nil, Point{1, 1}, []float64{}, nil},
	} {
		if got := FeetLoads(c.feet, c.body, 100); !about(got, c.loads) {
			t.Errorf("%s: loads %.6g, want %.6g", c.why, got, c.loads)
		}
		if got := OneOff(c.feet, c.body, 100); c.oneOff != nil && !about(got, c.oneOff) {
			t.Errorf("%s: one off the floor %.6g, want %.6g", c.why, got, c.oneOff)
		}
	}
}

// randomFeet are corners and a few more, some of them in line, and a centre of
// gravity that is mostly between them.
func randomFeet(r *rand.Rand) ([]Point, Point) {
	feet := square(600)
	for range r.IntN(5) {
		feet = append(feet, Point{float64(r.IntN(13)) * 50, float64(r.IntN(13)) * 50})
	}
	return feet[r.IntN(2):], Point{-50 + 700*r.Float64(), -50 + 700*r.Float64()}
}

// TestFeetAgainstSearch compares with every set of feet that might carry: the right
// set balances without pulling, and the plate it leaves is above all other feet.
func TestFeetAgainstSearch(t *testing.T) {
	inside := 0
	for seed := range uint64(300) {
		feet, body := randomFeet(rand.New(rand.NewPCG(seed, 5)))
		got := FeetLoads(feet, body, 100)
		total := 0.0
		for i, n := range got {
			total += n
			if n < 0 {
				t.Errorf("seed %d: foot %d pulls by %g", seed, i, n)
			}
		}
		if math.Abs(total-100) > 1e-9 {
			t.Errorf("seed %d: the feet carry %.12g of 100", seed, total)
		}
		want, found := searchFeet(feet, body)
		if !found {
			if _, outside := nearest(Footprint(feet), body); outside < -1 {
				t.Fatalf("seed %d: the search found nothing", seed)
			}
			continue
		}
		inside++
		if !about(got, want) {
			t.Errorf("seed %d: %v, centre %v: %.8g, want %.8g", seed, feet, body, got, want)
		}
	}
	if inside < 150 {
		t.Errorf("only %d of the cases stand", inside)
	}
}

func searchFeet(feet []Point, body Point) ([]float64, bool) {
	for set := 1; set < 1<<len(feet); set++ {
		h, g := [3][3]float64{}, [3]float64{100, 100 * body.X, 100 * body.Y}
		arm := func(p Point) [3]float64 { return [3]float64{1, p.X, p.Y} }
		for i, f := range feet {
			for j := range 3 {
				for k := range 3 {
					h[j][k] += float64(set>>i&1) * arm(f)[j] * arm(f)[k]
				}
			}
		}
		// Three feet of a line, or fewer than three, balance nothing to the side.
		det := h[0][0]*(h[1][1]*h[2][2]-h[1][2]*h[2][1]) - h[0][1]*(h[1][0]*h[2][2]-h[1][2]*h[2][0]) + h[0][2]*(h[1][0]*h[2][1]-h[1][1]*h[2][0])
		if det < 1 {
			continue
		}
		sink := solve3(h, g)
		loads, right := make([]float64, len(feet)), true
		for i, f := range feet {
			push := dot(arm(f), sink)
			if set>>i&1 == 1 {
				loads[i] = push
			}
			right = right && (set>>i&1 == 1 && push >= -1e-9 || set>>i&1 == 0 && push <= 1e-9)
		}
		if right {
			return loads, true
		}
	}
	return nil, false
}

// TestOneOffIsAtLeast: a foot carries no less for another's being off the floor, and
// the order of the feet does not matter.
func TestOneOffIsAtLeast(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 6))
		feet, body := randomFeet(r)
		all, off := FeetLoads(feet, body, 100), OneOff(feet, body, 100)
		order := r.Perm(len(feet))
		var mixed []Point
		for _, i := range order {
			mixed = append(mixed, feet[i])
		}
		all2, off2 := FeetLoads(mixed, body, 100), OneOff(mixed, body, 100)
		for k, i := range order {
			if off[i] < all[i] || off[i] > 100+1e-9 {
				t.Errorf("seed %d: foot %d: %g on all, %g with one off", seed, i, all[i], off[i])
			}
			if math.Abs(all[i]-all2[k]) > 1e-6 || math.Abs(off[i]-off2[k]) > 1e-6 {
				t.Errorf("seed %d: foot %d: %g and %g, in another order %g and %g", seed, i, all[i], off[i], all2[k], off2[k])
			}
		}
	}
}

// TestTurnedFeet: a unit at an angle loads its feet alike. Feet and centre are then
// only nearly in line, where they were in line.
func TestTurnedFeet(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 8))
		feet, body := []Point{{0, 0}, {300, 0}, {700, 0}}, Point{700 * r.Float64(), 0}
		if seed%2 == 0 {
			feet = append(feet, Point{0, 500}, Point{700, 500})
		}
		sin, cos := math.Sincos(2 * math.Pi * r.Float64())
		turn := func(p Point) Point { return Point{90 + cos*p.X - sin*p.Y, 40 + sin*p.X + cos*p.Y} }
		var turned []Point
		for _, p := range feet {
			turned = append(turned, turn(p))
		}
		if a, b := FeetLoads(feet, body, 100), FeetLoads(turned, turn(body), 100); !about(a, b) {
			t.Errorf("seed %d: loads %.9g, turned %.9g", seed, a, b)
		}
		if a, b := OneOff(feet, body, 100), OneOff(turned, turn(body), 100); !about(a, b) {
			t.Errorf("seed %d: one off the floor %.9g, turned %.9g", seed, a, b)
		}
	}
}

func TestFootprint(t *testing.T) {
	for _, c := range []struct {
		why  string
		feet []Point
		want []Edge
	}{
		{"anticlockwise from the left", []Point{{9, 0}, {0, 5}, {9, 5}, {0, 0}},
			[]Edge{{Point{0, 0}, Point{9, 0}}, {Point{9, 0}, Point{9, 5}}, {Point{9, 5}, Point{0, 5}}, {Point{0, 5}, Point{0, 0}}}},
		{"inside and in line do not count", []Point{{0, 0}, {2, 1}, {4, 0}, {2, 0}, {2, 4}},
			[]Edge{{Point{0, 0}, Point{4, 0}}, {Point{4, 0}, Point{2, 4}}, {Point{2, 4}, Point{0, 0}}}},
		{"a line has two sides", []Point{{5, 0}, {0, 0}, {2, 0}}, []Edge{{Point{0, 0}, Point{5, 0}}, {Point{5, 0}, Point{0, 0}}}},
		{"twice the same foot", []Point{{1, 1}, {1, 1}}, nil},
		{"one foot", []Point{{1, 1}}, nil},
		{"none", nil, nil},
	} {
		if diff := cmp.Diff(c.want, Footprint(c.feet)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.why, diff)
		}
	}
}

// TestTip: worked cases of going over. Tilt is in degrees.
func TestTip(t *testing.T) {
	front := func(y float64) Edge { return Edge{Point{-10, y}, Point{10, y}} }
	back := func(y float64) Edge { return Edge{Point{10, y}, Point{-10, y}} }
	for _, c := range []struct {
		why, source      string
		edge             Edge
		body             Body3
		height           float64
		arm, force, tilt float64
	}{
		{why: "3000 lb at 24 in: 2400 lb at 30 in", source: "SEEN 29 CFR 1910.178 appendix A-5",
			edge: front(0), body: Body3{3000, 0, 24, 24}, height: 30, arm: 24, force: 2400, tilt: 45},
		{why: "3 ft wide, centre 1 ft up: 56.3°", source: "SEEN worked example of a leaning vessel, ±0.05°",
			edge: front(-18), body: Body3{1, 0, 0, 12}, height: 12, arm: 18, force: 1.5, tilt: 56.3099},
		{why: "150 lb on 24 in", source: "CALC", edge: front(-12), body: Body3{150, 0, 0, 30}, height: 54, arm: 12, force: 33.3333, tilt: 21.8014},
		{why: "pushed at 72 in it goes at less than a fifth of its weight", source: "CALC", edge: front(-12), body: Body3{150, 0, 0, 30}, height: 72,
			arm: 12, force: 25, tilt: 21.8014},
		{why: "kingpins 20 in apart", source: "CALC", edge: front(-10), body: Body3{150, 0, 0, 30}, height: 54, arm: 10, force: 27.7778, tilt: 18.4349},
		{why: "the same, casters 1.25 in off and turned in", source: "CALC", edge: Inward(front(-10), 1.25), body: Body3{150, 0, 0, 30}, height: 54,
			arm: 8.75, force: 24.3056, tilt: 16.2602},
		{why: "both sides dressed unlike: over the front", source: "CALC", edge: back(12), body: unlike(), height: 60, arm: 10.0667, force: 150 * 10.06667 / 60, tilt: 17.395},
		{why: "and over the back", source: "CALC", edge: front(-12), body: unlike(), height: 60, arm: 13.9333, force: 150 * 13.93333 / 60, tilt: 23.442},
		{why: "outside: over by itself", source: "statics", edge: front(5), body: Body3{100, 0, 0, 5}, height: 50, arm: -5, force: -10, tilt: -45},
		{why: "a slanting edge", source: "statics", edge: Edge{Point{0, 0}, Point{30, -40}}, body: Body3{100, 25, 0, 20}, height: 20, arm: 20, force: 100, tilt: 45},
	} {
		got := Tip(c.edge, c.body, c.height, 0)
		name := fmt.Sprintf("%s (%s)", c.why, c.source)
		near(t, name+": arm", got.Arm, c.arm, 1e-5)
		near(t, name+": force", got.Forces[0], c.force, 1e-5)
		near(t, name+": tilt", got.Tilt, c.tilt, 5e-5)
		if !math.IsInf(got.Forces[1], 1) {
			t.Errorf("%s: %g N at the floor tips it", c.why, got.Forces[1])
		}
	}
}

// unlike is 80 lb in the middle, 60 on the front and 10 on the back (CALC: 150 lb at
// 1.9333 forward and 32.1333 up).
func unlike() Body3 {
	return Together(Body3{80, 0, 0, 24}, Body3{60, 0, 6, 40}, Body3{10, 0, -7, 50})
}

func TestTogether(t *testing.T) {
	b := unlike()
	near(t, "weight", b.Weight, 150, 1e-12)
	near(t, "forward", b.Y, 1.93333, 1e-5)
	near(t, "up", b.Z, 32.1333, 2e-6)
	if got := Together(); got != (Body3{}) {
		t.Errorf("nothing weighs %v", got)
	}
}

// TestInwardIsTheWorst: with every caster turned any way, no arm is less than that
// over the edge moved in.
func TestInwardIsTheWorst(t *testing.T) {
	const offset = 40
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 9))
		kingpins := []Point{{0, 0}, {600, 0}, {600, 500}, {0, 500}, {300, -60 * r.Float64()}}
		body := Body3{100, 200 + 200*r.Float64(), 150 + 200*r.Float64(), 700}
		least := math.Inf(1)
		for _, e := range Footprint(kingpins) {
			least = min(least, Tip(Inward(e, offset), body).Arm)
		}
		var turned []Point
		for _, p := range kingpins {
			a := 2 * math.Pi * r.Float64()
			turned = append(turned, Point{p.X + offset*math.Cos(a), p.Y + offset*math.Sin(a)})
		}
		for _, e := range Footprint(turned) {
			if got := Tip(e, body).Arm; got < least-1e-9 {
				t.Errorf("seed %d: %s: arm %g, less than %g", seed, fmt.Sprint(turned), got, least)
			}
		}
	}
}
