package assign

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// random is a table of costs from low to high.
func random(rng *rand.Rand, rows, columns int, low, high int64) [][]int64 {
	cost := make([][]int64, rows)
	for i := range cost {
		cost[i] = make([]int64, columns)
		for j := range cost[i] {
			cost[i][j] = low + rng.Int64N(high-low+1)
		}
	}
	return cost
}

// least tries every pairing.
func least(cost [][]int64) int64 {
	if len(cost) == 0 || len(cost[0]) == 0 {
		return 0
	}
	skip := max(0, len(cost)-len(cost[0])) // so many rows have no partner
	taken := make([]bool, len(cost[0]))
	best, found := int64(0), false
	var try func(i, skip int, sum int64)
	try = func(i, skip int, sum int64) {
		if i == len(cost) {
			if !found || sum < best {
				best, found = sum, true
			}
			return
		}
		if skip > 0 {
			try(i+1, skip-1, sum)
		}
		for j, c := range cost[i] {
			if !taken[j] {
				taken[j] = true
				try(i+1, skip, sum+c)
				taken[j] = false
			}
		}
	}
	try(0, skip, 0)
	return best
}

// solved solves and checks.
func solved(t testing.TB, cost [][]int64) Result {
	t.Helper()
	before := fmt.Sprint(cost)
	r := Solve(cost)
	if err := r.Check(cost); err != nil {
		t.Fatalf("%v: %v", cost, err)
	}
	if fmt.Sprint(cost) != before {
		t.Fatal("the costs were changed")
	}
	return r
}

// TestBrute wants the least total of all pairings.
func TestBrute(t *testing.T) {
	for _, c := range []struct {
		low, high int64
		size      int // at most
		cases     int
		reason    string
	}{
		{0, 1, 7, 1500, "nearly all ties"},
		{-3, 3, 6, 3000, "ties and negative costs"},
		{-100, -1, 6, 2000, "all negative"},
		{1, 1_000_000, 6, 2000, "no ties"},
		{1 - Limit, Limit - 1, 6, 2000, "as wide as costs may be: counted in 64 bits"},
		{1 << 39, 1<<39 + 5, 6, 1000, "great costs close together: counted in 32 bits"},
		{-1 << 26, 1 << 26, 6, 1000, "on the edge of 32 bits"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1, uint64(c.size)))
			for range c.cases {
				cost := random(rng, 1+rng.IntN(c.size), 1+rng.IntN(c.size), c.low, c.high)
				if r := solved(t, cost); r.Total != least(cost) {
					t.Fatalf("%v: total %d, want %d", cost, r.Total, least(cost))
				}
			}
		})
	}
}

// TestEmpty pairs nothing where there is nothing to pair.
func TestEmpty(t *testing.T) {
	for _, cost := range [][][]int64{nil, {}, {{}}, {{}, {}, {}}} {
		r := solved(t, cost)
		if r.Total != 0 || slices.ContainsFunc(r.Column, func(j int) bool { return j != -1 }) {
			t.Errorf("%v: %+v", cost, r)
		}
	}
}
