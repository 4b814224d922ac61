package reset

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"setwright/layout/unit"
)

// randomWall is a wall or gondola with random rows of few kinds, so that rows of
// two of them often share a height.
func randomWall(t testing.TB, rnd *rand.Rand, bare string, kinds []string, bays int) *unit.Unit {
	var s strings.Builder
	skus := []string{"CARD", "TAG", "TIN", "JAR"}
	for bay := 1; bay <= bays; bay++ {
		for at := 56; at > 20; at -= 9 {
			kind := kinds[rnd.Intn(len(kinds))]
			switch {
			case rnd.Intn(4) == 0:
			case strings.HasPrefix(kind, "shelf"):
				with := []string{"", ", with: [strip-ticket]"}[rnd.Intn(2)]
				first := rnd.Intn(2)
				fmt.Fprintf(&s, "    - {use: %s, bay: %d, at: %din, count: 1%s, goods: {%s: %d, %s: %d}}\n", kind, bay, at, with, skus[2+first], 1+rnd.Intn(2), skus[3-first], 1+rnd.Intn(2))
			default:
				n := 1 + rnd.Intn(4)
				fmt.Fprintf(&s, "    - {use: %s, bay: %d, at: %din, count: %d, align: %s, goods: {%s: %d}}\n", kind, bay, at, n, []string{"left", "center", "right"}[rnd.Intn(3)], skus[rnd.Intn(2)], n)
			}
		}
	}
	if s.Len() == 0 {
		return of(t, bare, "  front: []\n")
	}
	return of(t, bare, "  front:\n"+s.String())
}

// Pairs that are made before anything is solved, and those of kinds too many to
// be solved at once, take no longer than the best of all pairs.
func TestShortcutsAreExact(t *testing.T) {
	rnd := rand.New(rand.NewSource(1))
	stays := 0
	for range 300 {
		bare, kinds := slats, []string{"hook-6-slat", "shelf-48x12"}
		switch rnd.Intn(3) {
		case 0:
			bare, kinds = wires, []string{"hook-6", "shelf-24x12"}
		case 1:
			bare, kinds = holes, []string{"hook-6-peg", "hook-4-peg"}
		}
		old, new := randomWall(t, rnd, bare, kinds, 2), randomWall(t, rnd, bare, kinds, 2)
		best := paired(old, new, Options{})
		checkWhole(t, best)
		for _, it := range best.Items {
			if it.Way == Stay {
				stays++
			}
		}
		unpinned := byHand(old, new, func(m *matcher) {
			for i := range m.kinds {
				b := &m.kinds[i][carrier]
				m.slide(b.old, b.new)
				m.pair(single(b.old), single(b.new), m.saves)
			}
		})
		if unpinned.Handling() != best.Handling() {
			t.Fatalf("pinned %d s, not pinned %d s\n%s\n%s", best.Handling(), unpinned.Handling(), best.dump(), unpinned.dump())
		}
		inOrder := byHand(old, new, func(m *matcher) {
			for i := range m.kinds {
				b := &m.kinds[i][carrier]
				m.slide(b.old, b.new)
				pairInOrder(single(b.old), single(b.new), m.saves)
			}
		})
		if best.strips() == 0 && inOrder.Handling() != best.Handling() || inOrder.Handling() < best.Handling() {
			t.Fatalf("in order %d s, at best %d s\n%s", inOrder.Handling(), best.Handling(), best.dump())
		}
	}
	if stays < 300 {
		t.Errorf("only %d pieces stayed: the units have too little in common to tell", stays)
	}
}

// byHand is a reset of which the carriers are paired some other way.
func byHand(old, new *unit.Unit, carriers func(*matcher)) *Reset {
	r := &Reset{Old: old, New: new}
	m := r.matcher()
	carriers(m)
	m.brackets()
	m.extras()
	m.leftovers()
	r.Items = m.items()
	m.carried()
	m.onCart()
	r.Facings = m.facings()
	return r
}

// strips counts what is fixed to pieces.
func (r *Reset) strips() int {
	n := 0
	for _, it := range r.Items {
		if it.From != nil && it.From.Host != nil || it.To != nil && it.To.Host != nil {
			n++
		}
	}
	return n
}

// aligned finds what trying every alignment finds.
func TestAligned(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	for range 2000 {
		old, new := make([]int, rnd.Intn(6)), make([]int, rnd.Intn(6))
		for i := range old {
			old[i] = i
		}
		for i := range new {
			new[i] = i
		}
		var worth [6][6]int64
		for i := range worth {
			for k := range worth[i] {
				worth[i][k] = int64(rnd.Intn(12) - 4)
			}
		}
		var best func(i, k int) int64
		best = func(i, k int) int64 { // of the old from i on, each paired with a new from k on or left out
			if i == len(old) {
				return 0
			}
			most := best(i+1, k)
			for to := k; to < len(new); to++ {
				most = max(most, worth[i][to]+best(i+1, to+1))
			}
			return most
		}
		got, last := int64(0), [2]int{-1, -1}
		for _, p := range aligned(old, new, func(o, n int) int64 { return worth[o][n] }) {
			if p[0] <= last[0] || p[1] <= last[1] {
				t.Fatalf("%v crosses %v", p, last)
			}
			got, last = got+worth[p[0]][p[1]], p
		}
		if want := best(0, 0); got != want {
			t.Fatalf("worth %d, want %d", got, want)
		}
	}
}
