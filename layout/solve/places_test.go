package solve

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// bruteFree tells whether a centre may lie at x.
func bruteFree(l Lattice, blocked []Interval, x int64) bool {
	for _, b := range blocked {
		if b.Lo < x && x < b.Hi {
			return false
		}
	}
	if l.List != nil {
		return slices.Contains(l.List, x)
	}
	return (x-l.Origin)%max(l.Step, 1) == 0
}

// brutePlaces tries every choice of centres, the leftmost first.
func brutePlaces(p Places) (best []int64, ok bool) {
	var least [3]int64 // greatest shift, total shift, pieces off the columns
	centres := make([]int64, 0, len(p.Targets))
	var try func()
	try = func() {
		i := len(centres)
		if i == len(p.Targets) {
			var c [3]int64
			for k, x := range centres {
				d := max(x-p.Targets[k], p.Targets[k]-x)
				c[0], c[1] = max(c[0], d), c[1]+d
				if !slices.Contains(p.Columns, x) {
					c[2]++
				}
			}
			if !ok || slices.Compare(c[:], least[:]) < 0 {
				best, least, ok = slices.Clone(centres), c, true
			}
			return
		}
		for x := p.Lo[i]; x <= p.Hi[i]; x++ {
			if i > 0 && x-centres[i-1] < p.Gaps[i-1] || !bruteFree(p.Lattice, p.Blocked, x) {
				continue
			}
			centres = append(centres, x)
			try()
			centres = centres[:i]
		}
	}
	try()
	return best, ok
}

func randomLattice(r *rand.Rand, span int) Lattice {
	switch r.IntN(3) {
	case 0:
		return Lattice{}
	case 1:
		return Lattice{Origin: int64(r.IntN(9) - 4), Step: int64(1 + r.IntN(4))}
	}
	l := Lattice{List: []int64{}}
	for x := range span {
		if r.IntN(3) == 0 {
			l.List = append(l.List, int64(x))
		}
	}
	return l
}

func randomBlocked(r *rand.Rand, span int) []Interval {
	var blocked []Interval
	for range r.IntN(5) {
		lo := int64(r.IntN(span+4) - 3)
		blocked = append(blocked, Interval{lo, lo + int64(r.IntN(5))})
	}
	return blocked
}

func randomPlaces(r *rand.Rand) Places {
	n := r.IntN(5)
	span := 6 + r.IntN(14)
	p := Places{Lattice: randomLattice(r, span), Blocked: randomBlocked(r, span)}
	for i := range n {
		lo, hi := 0, span
		if r.IntN(3) == 0 {
			lo, hi = r.IntN(4), span-r.IntN(4)
		}
		p.Targets = append(p.Targets, int64(r.IntN(span)))
		p.Lo, p.Hi = append(p.Lo, int64(lo)), append(p.Hi, int64(hi))
		if i > 0 {
			p.Gaps = append(p.Gaps, int64(r.IntN(2+2*span/(n+1))))
		}
	}
	slices.Sort(p.Targets)
	for range r.IntN(4) {
		p.Columns = append(p.Columns, int64(r.IntN(span)))
	}
	return p
}

func TestPlacesAgainstBruteForce(t *testing.T) {
	placed, refused := 0, 0
	for seed := range uint64(20000) {
		p := randomPlaces(rand.New(rand.NewPCG(seed, 2)))
		want, wantOK := brutePlaces(p)
		got, ok := p.Solve()
		if ok != wantOK || ok && !slices.Equal(got, want) {
			t.Fatalf("seed %d: %+v\ngot  %v %v\nwant %v %v", seed, p, got, ok, want, wantOK)
		}
		if p.Feasible() != wantOK {
			t.Fatalf("seed %d: %+v\nfeasible is %v", seed, p, !wantOK)
		}
		if ok {
			placed++
		} else {
			refused++
		}
	}
	if placed < 2000 || refused < 2000 {
		t.Errorf("%d placed and %d refused: too few of one to prove much", placed, refused)
	}
}

func TestSpacedAgainstBruteForce(t *testing.T) {
	placed, refused := 0, 0
	for seed := range uint64(20000) {
		r := rand.New(rand.NewPCG(seed, 3))
		span := 6 + r.IntN(30)
		p := Spaced{
			Every: int64(r.IntN(8)), Count: r.IntN(5), Lo: int64(r.IntN(4)), Hi: int64(span - r.IntN(4)),
			Wish: int64(r.IntN(span+8) - 4), Lattice: randomLattice(r, span), Blocked: randomBlocked(r, span),
		}
		var want int64
		wantOK := false
	first:
		for f := p.Lo; f <= p.Hi && p.Count > 0; f++ {
			for i := range int64(p.Count) {
				if x := f + i*p.Every; x > p.Hi || !bruteFree(p.Lattice, p.Blocked, x) {
					continue first
				}
			}
			if !wantOK || max(f-p.Wish, p.Wish-f) < max(want-p.Wish, p.Wish-want) {
				want, wantOK = f, true
			}
		}
		got, ok := p.Solve()
		if ok != wantOK || ok && got != want {
			t.Fatalf("seed %d: %+v\ngot  %v %v\nwant %v %v", seed, p, got, ok, want, wantOK)
		}
		if ok {
			placed++
		} else {
			refused++
		}
	}
	if placed < 2000 || refused < 2000 {
		t.Errorf("%d placed and %d refused: too few of one to prove much", placed, refused)
	}
}
