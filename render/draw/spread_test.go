package draw

import (
	"math/rand"
	"testing"

	"setwright/layout/measure"
)

// slowSpread tries every order-keeping arrangement on a grid and returns the
// least sum of squares.
func slowSpread(labels []slotted, lo, hi, step measure.Length) int64 {
	best := int64(-1)
	var place func(i int, from measure.Length, cost int64)
	place = func(i int, from measure.Length, cost int64) {
		if best >= 0 && cost >= best {
			return
		}
		if i == len(labels) {
			best = cost
			return
		}
		for at := from + labels[i].size/2; at+labels[i].size/2 <= hi; at += step {
			d := int64(at - labels[i].want)
			place(i+1, at+labels[i].size/2, cost+d*d)
		}
	}
	place(0, lo, 0)
	return best
}

func TestSpreadIsLeast(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	// Wants on a grid of 12 and up to 4 labels: every mean is a whole number,
	// so nothing is rounded and a grid of 1 holds the optimum.
	for n := range 300 {
		labels := make([]slotted, 1+rnd.Intn(4))
		for i := range labels {
			labels[i] = slotted{measure.Length(12 * rnd.Intn(4)), 12}
		}
		lo, hi := measure.Length(-12*rnd.Intn(3)), measure.Length(48+12*rnd.Intn(3))
		at := spread(labels, lo, hi)
		var cost int64
		for i, m := range at {
			if m-labels[i].size/2 < lo || m+labels[i].size/2 > hi || i > 0 && m-at[i-1] < (labels[i].size+labels[i-1].size)/2 {
				t.Fatalf("case %d: %v at %v overlap or leave %d..%d", n, labels, at, lo, hi)
			}
			d := int64(m - labels[i].want)
			cost += d * d
		}
		if best := slowSpread(labels, lo, hi, 2); cost > best {
			t.Fatalf("case %d: %v in %d..%d at %v costs %d, could be %d", n, labels, lo, hi, at, cost, best)
		}
	}
}

func TestSpreadKeepsWhatFits(t *testing.T) {
	got := spread([]slotted{{10, 4}, {20, 4}, {30, 4}}, 0, 40)
	for i, want := range []measure.Length{10, 20, 30} {
		if got[i] != want {
			t.Errorf("label %d moved from %d to %d: none needs to move", i, want, got[i])
		}
	}
}

func TestStagger(t *testing.T) {
	for _, c := range []struct {
		reason string
		labels []slotted
		levels int
		want   []int
		ok     bool
	}{
		{"room for all on one level", []slotted{{10, 8}, {20, 8}, {30, 8}}, 3, []int{0, 0, 0}, true},
		{"neighbours too close take turns", []slotted{{10, 8}, {15, 8}, {20, 8}}, 3, []int{0, 1, 0}, true},
		{"touching is too close with a gap of 1", []slotted{{10, 8}, {18, 8}}, 2, []int{0, 1}, true},
		{"four in one place need four levels", []slotted{{10, 8}, {10, 8}, {10, 8}, {10, 8}}, 3, nil, false},
	} {
		got, ok := stagger(c.labels, c.levels, 1)
		if ok != c.ok {
			t.Errorf("%s: ok is %v", c.reason, ok)
			continue
		}
		for i := range c.want {
			if got[i] != c.want[i] {
				t.Errorf("%s: got %v, want %v", c.reason, got, c.want)
			}
		}
	}
}
