package list

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// picked is a pick list of hooks that weigh so many kilograms each, a line for
// each, all for the front.
func picked(counts []int, weights []measure.Mass) []PickLine {
	lines := make([]PickLine, len(counts))
	for i, n := range counts {
		lines[i] = PickLine{Balloon: i + 1, Part: &parts.Part{Kind: parts.Hook}, Quantity: n, Weight: measure.Mass(n) * weights[i],
			Portions: []Portion{{plan.Front, n, nil}}}
	}
	return lines
}

func limited(limit measure.Mass) *unit.Unit { return &unit.Unit{Plan: &plan.Plan{Lift: limit}} }

func TestLoads(t *testing.T) {
	const kg = measure.Kilogram
	for _, c := range []struct {
		counts  []int
		weights []measure.Mass
		want    string
		reason  string
	}{
		{[]int{4}, []measure.Mass{5 * kg}, "4 of 1", "exactly the limit is one load"},
		{[]int{5}, []measure.Mass{5 * kg}, "4 of 1; 1 of 1", "one more is another"},
		{[]int{1, 1, 1}, []measure.Mass{12 * kg, 12 * kg, 8 * kg}, "1 of 1; 1 of 2, 1 of 3", "a closed carton stays closed, or the order would be lost"},
		{[]int{1, 2, 1}, []measure.Mass{5 * kg, 21 * kg, 5 * kg}, "1 of 1, 1 of 3; two: 1 of 2; two: 1 of 2", "what two carry goes into no carton, and the carton waits"},
		{[]int{1, 900, 1}, []measure.Mass{20 * kg, 0, 1}, "1 of 1, 900 of 2; 1 of 3", "what weighs nothing always fits"},
		{[]int{1}, []measure.Mass{20*kg + 1}, "two: 1 of 1", "a milligram over"},
		{[]int{1}, []measure.Mass{40*kg + 1}, "three: 1 of 1", "and more than two may"},
	} {
		if got := said(Loads(limited(20*kg), picked(c.counts, c.weights))); got != c.want {
			t.Errorf("%v of %v: %s, want %s: %s", c.counts, c.weights, got, c.want, c.reason)
		}
	}
	panels := picked([]int{1, 2, 3}, []measure.Mass{kg, kg, kg})
	panels[1].Part = grid
	if got, want := said(Loads(limited(20*kg), panels)), "1 of 1, 3 of 3; two: 1 of 2; two: 1 of 2"; got != want {
		t.Errorf("light panels: %s, want %s: two people carry each", got, want)
	}
	if got := said(Loads(limited(0), picked([]int{2}, []measure.Mass{plan.DefaultLift}))); got != "1 of 1; 1 of 1" {
		t.Errorf("without a limit of its own: %s, want the usual one", got)
	}
}

// said is loads in words: how many of which balloon, and what two people lift.
func said(loads []Load) string {
	all := ""
	for i, l := range loads {
		if i > 0 {
			all += "; "
		}
		if l.People > 1 {
			all += []string{"two", "three"}[l.People-2] + ": "
		}
		for n, item := range l.Items {
			if n > 0 {
				all += ", "
			}
			all += fmt.Sprintf("%d of %d", item.Pieces, item.Balloon)
		}
	}
	return all
}

// TestFewestLoads holds loads of random pieces against every way of cutting
// their sequence into runs.
func TestFewestLoads(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for range 2000 {
		limit := measure.Mass(1 + r.IntN(12))
		var counts []int
		var weights, order []measure.Mass
		for range 1 + r.IntN(5) {
			n, each := 1+r.IntN(3), measure.Mass(r.IntN(14))
			counts, weights = append(counts, n), append(weights, each)
			for range n {
				if each <= limit {
					order = append(order, each)
				}
			}
		}
		loads := Loads(limited(limit), picked(counts, weights))
		packed, cartons := make([]int, len(counts)), 0
		for i, l := range loads {
			weight, pieces := measure.Mass(0), 0
			for _, item := range l.Items {
				packed[item.Balloon-1] += item.Pieces
				pieces += item.Pieces
				weight += measure.Mass(item.Pieces) * weights[item.Balloon-1]
			}
			switch {
			case l.Number != i+1 || l.Face != plan.Front || l.Weight != weight || l.Pieces != pieces || pieces == 0:
				t.Errorf("load %+v weighs %d and has %d pieces", l, weight, pieces)
			case l.People > 1 && (pieces != 1 || weight <= limit) || weight > measure.Mass(l.People)*limit:
				t.Errorf("load %+v, limit %d", l, limit)
			case l.People == 1:
				cartons++
			}
		}
		if diff := cmp.Diff(counts, packed); diff != "" {
			t.Errorf("pieces packed (-listed +packed):\n%s", diff)
		}
		if want := fewest(order, limit); cartons != want {
			t.Errorf("%v of %v within %d: %d loads, %d would do", counts, weights, limit, cartons, want)
		}
	}
}

// fewest is the least number of runs, none over the limit, that a sequence is
// cut into, found by trying every first run.
func fewest(order []measure.Mass, limit measure.Mass) int {
	if len(order) == 0 {
		return 0
	}
	best, weight := len(order), measure.Mass(0)
	for i, w := range order {
		if weight += w; weight > limit {
			break
		}
		best = min(best, 1+fewest(order[i+1:], limit))
	}
	return best
}

// TestDivide holds the split of random faces against every other.
func TestDivide(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		var pick []PickLine
		var each []int
		for i, face := range plan.FaceIDs()[:r.IntN(5)] {
			each = append(each, 1+r.IntN(60))
			pick = append(pick, PickLine{Balloon: i + 1, Part: &parts.Part{Setup: each[i]}, Quantity: 1, Weight: 1, Portions: []Portion{{face, 1, nil}}})
		}
		best := 1 << 30
		for mask := range 1 << len(each) {
			var two [2]int
			for i, s := range each {
				two[mask>>i&1] += s
			}
			best = min(best, max(two[0], two[1]))
		}
		got := Divide(pick)
		faces := append(append([]plan.FaceID{}, got.Each[0].Faces...), got.Each[1].Faces...)
		if last := max(got.Each[0].Seconds, got.Each[1].Seconds); last != best || len(faces) != len(each) || got.Each[0].Pieces+got.Each[1].Pieces != len(each) {
			t.Errorf("%v s: %+v takes %d, the best is %d", each, got, last, best)
		}
		for _, face := range plan.FaceIDs()[:len(each)] {
			if got.Each[0].Has(face) == got.Each[1].Has(face) {
				t.Errorf("%v s: %s is not one person's", each, face)
			}
		}
		if len(each) > 0 && !got.Each[0].Has(plan.Front) {
			t.Errorf("%v s: the front is the second person's", each)
		}
	}
}

func TestSharesPacks(t *testing.T) {
	by := func(front, back int) []Portion { return []Portion{{plan.Front, front, nil}, {plan.Back, back, nil}} }
	for _, c := range []struct {
		part     *parts.Part
		portions []Portion
		want     int // faces
		reason   string
	}{
		{short, by(4, 5), 1, "one pack of ten for both"},
		{short, by(10, 10), 0, "a pack each"},
		{short, by(6, 6), 0, "two packs, a started one each"},
		{rail, by(1, 1), 0, "in packs of one"},
		{strip, by(1, 1), 0, "in no packs"},
		{short, []Portion{{plan.Front, 4, nil}}, 0, "on one face"},
	} {
		line := PickLine{Part: c.part, Portions: c.portions}
		for _, p := range c.portions {
			line.Quantity += p.Pieces
		}
		line.Packs = packs(&line)
		if got := line.SharesPacks(plan.Front); len(got) != c.want {
			t.Errorf("%v of %s: the front shares packs with %v: %s", c.portions, c.part.ID, got, c.reason)
		}
	}
}
