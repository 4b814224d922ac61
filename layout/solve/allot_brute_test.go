package solve

import (
	"math/rand/v2"
	"testing"
)

// bruteAllot looks at every choice of options, -1 included.
func bruteAllot(a Allot) (best int64, ok bool) {
	chosen := make([]int, len(a.Products))
	var try func(p int)
	try = func(p int) {
		if p == len(a.Products) {
			if value, fits := worthOf(a, chosen); fits && (!ok || value > best) {
				best, ok = value, true
			}
			return
		}
		for o := -1; o < len(a.Products[p].Options); o++ {
			chosen[p] = o
			try(p + 1)
		}
	}
	try(0)
	return best, ok
}

// worthOf adds up a choice, and tells whether it is allowed, straight from what
// Allot says.
func worthOf(a Allot, chosen []int) (value int64, ok bool) {
	room, load := make([]int64, len(a.Rows)), make([]int64, len(a.Rows))
	for p, o := range chosen {
		if o < 0 {
			if a.Products[p].Must {
				return 0, false
			}
			continue
		}
		option := a.Products[p].Options[o]
		if option.Row < 0 || option.Row >= len(a.Rows) || option.Width < 0 || option.Weight < 0 {
			return 0, false
		}
		room[option.Row] += option.Width
		load[option.Row] += option.Weight
		value += option.Value
		if room[option.Row] > a.Rows[option.Row].Room || a.Rows[option.Row].Load != 0 && load[option.Row] > a.Rows[option.Row].Load {
			return 0, false
		}
	}
	for _, c := range a.Chains {
		for p, o := range chosen {
			for q, r := range chosen {
				if o < 0 || r < 0 || c.Class[p] < 0 || c.Class[q] < 0 {
					continue
				}
				lower, upper := c.Rank[a.Products[p].Options[o].Row], c.Rank[a.Products[q].Options[r].Row]
				if lower < upper && c.Class[p] > c.Class[q] {
					return 0, false
				}
			}
		}
	}
	return value, true
}

// smallAllot makes a case that brute force can do, odd in every way that Allot
// allows.
func smallAllot(r *rand.Rand) Allot {
	a := Allot{Rows: make([]AllotRow, 1+r.IntN(4)), Products: make([]AllotProduct, r.IntN(6))}
	unit := int64(1 + r.IntN(3)*r.IntN(1000))
	for i := range a.Rows {
		a.Rows[i].Room = int64(r.IntN(20)) * unit
		if r.IntN(3) == 0 {
			a.Rows[i].Load = int64(1 + r.IntN(15))
		}
	}
	for p := range a.Products {
		product := &a.Products[p]
		product.Must = r.IntN(4) == 0
		for range r.IntN(5) {
			product.Options = append(product.Options, AllotOption{Row: r.IntN(len(a.Rows)), Fronts: 1,
				Width: int64(r.IntN(12)) * unit, Weight: int64(r.IntN(8)), Value: int64(r.IntN(15))})
		}
	}
	for range r.IntN(3) {
		c := Chain{Class: make([]int, len(a.Products)), Rank: make([]int, len(a.Rows))}
		for p := range c.Class {
			c.Class[p] = r.IntN(4) - 1
		}
		for i := range c.Rank {
			c.Rank[i] = r.IntN(len(a.Rows)) * 7
		}
		a.Chains = append(a.Chains, c)
	}
	return a
}

func TestAllotAgainstBruteForce(t *testing.T) {
	solved, impossible, chained := 0, 0, 0
	for seed := range uint64(20_000) {
		a := smallAllot(rand.New(rand.NewPCG(seed, 21)))
		a.WantProof = true
		want, wantOK := bruteAllot(a)
		got, ok := a.Solve()
		if ok != wantOK || got.Value != want || got.Bound != want {
			t.Fatalf("seed %d: %+v\ngot %+v %v, want %d %v", seed, a, got, ok, want, wantOK)
		}
		if err := replayProof(a, got.Proof, got.Bound, !ok); err != nil {
			t.Fatalf("seed %d: %+v\nproof of %d: %v", seed, a, got.Bound, err)
		}
		if !ok {
			impossible++
			continue
		}
		if value, fits := worthOf(a, got.Chosen); !fits || value != got.Value {
			t.Fatalf("seed %d: %+v\n%v is not an allotment worth %d", seed, a, got.Chosen, got.Value)
		}
		solved++
		if len(a.Chains) > 0 && len(a.Rows) > 1 {
			chained++
		}
	}
	if solved < 5000 || impossible < 1000 || chained < 2000 {
		t.Errorf("%d solved, %d impossible, %d with chains", solved, impossible, chained)
	}
}
