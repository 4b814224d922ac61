package untangle

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"slices"
	"testing"
)

// random is a graph in which each of all arcs is there with a chance of share, and
// weights are from 0 to heavy.
func random(rng *rand.Rand, nodes int, share float64, heavy int64) (before [][]int, weight []int64) {
	before, weight = make([][]int, nodes), make([]int64, nodes)
	for i := range before {
		weight[i] = rng.Int64N(heavy + 1)
		for j := range nodes {
			if rng.Float64() < share && (i != j || rng.IntN(4) == 0) {
				before[i] = append(before[i], j)
			}
		}
		rng.Shuffle(len(before[i]), func(a, b int) { before[i][a], before[i][b] = before[i][b], before[i][a] })
		if len(before[i]) > 0 && rng.IntN(5) == 0 {
			before[i] = append(before[i], before[i][0]) // an arc named twice
		}
	}
	return before, weight
}

// orderly says whether the nodes that are not out can go in order: as long as
// there is one that waits for no other, it goes.
func orderly(before [][]int, out []int) bool {
	gone := make([]bool, len(before))
	for _, i := range out {
		gone[i] = true
	}
	for again := true; again; {
		again = false
		for i := range before {
			if !gone[i] && !slices.ContainsFunc(before[i], func(j int) bool { return !gone[j] }) {
				gone[i], again = true, true
			}
		}
	}
	return !slices.Contains(gone, false)
}

// worth is what a set is judged by: weight, size, sum of numbers.
func worth(out []int, weight []int64) [3]int64 {
	var w [3]int64
	for _, i := range out {
		w[0] += weight[i]
		w[1]++
		w[2] += int64(i)
	}
	return w
}

// brute tries all sets of nodes.
func brute(before [][]int, weight []int64) (best [3]int64) {
	best[0] = 1 << 62
	for mask := range uint64(1) << len(before) {
		var out []int
		for ; mask != 0; mask &= mask - 1 {
			out = append(out, bits.TrailingZeros64(mask))
		}
		if w := worth(out, weight); slices.Compare(w[:], best[:]) < 0 && orderly(before, out) {
			best = w
		}
	}
	return best
}

// TestBrute wants the best of all sets.
func TestBrute(t *testing.T) {
	for _, c := range []struct {
		nodes int // at most
		share float64
		heavy int64
		cases int
	}{
		{8, 0.15, 0, 1000}, {8, 0.3, 1, 1000}, {9, 0.2, 5, 1000}, {9, 0.5, 3, 500},
		{10, 0.12, 100, 500}, {10, 0.25, 2, 300}, {7, 0.8, 1000, 500}, {12, 0.2, 9, 50},
	} {
		t.Run(fmt.Sprintf("%d nodes, %v of arcs, weights to %d", c.nodes, c.share, c.heavy), func(t *testing.T) {
			rng := rand.New(rand.NewPCG(uint64(c.nodes), uint64(c.heavy)))
			for range c.cases {
				before, weight := random(rng, 1+rng.IntN(c.nodes), c.share, c.heavy)
				out, proven := Fewest(before, weight)
				if !proven || !slices.IsSorted(out) || !orderly(before, out) {
					t.Fatalf("%v, weights %v: %v, proven %v", before, weight, out, proven)
				}
				if got, want := worth(out, weight), brute(before, weight); got != want {
					t.Fatalf("%v, weights %v: %v, worth %v, want %v", before, weight, out, got, want)
				}
			}
		})
	}
}

// TestKnown wants answers that can be seen.
func TestKnown(t *testing.T) {
	everyone := make([][]int, 9)
	for i := range everyone {
		for j := range everyone {
			if i != j {
				everyone[i] = append(everyone[i], j)
			}
		}
	}
	for _, c := range []struct {
		before [][]int
		weight []int64
		out    []int
		reason string
	}{
		{nil, nil, nil, "nothing"},
		{[][]int{{1}, {2}, nil}, []int64{1, 1, 1}, nil, "a line"},
		{[][]int{{1}, {0}}, []int64{5, 5}, []int{0}, "an exchange: the lower number"},
		{[][]int{{1}, {0}}, []int64{5, 4}, []int{1}, "an exchange: the lighter"},
		{[][]int{{0}, {0}}, []int64{9, 1}, []int{0}, "what waits for itself has to go"},
		{[][]int{{1}, {2}, {0, 3}, {2}}, []int64{1, 1, 1, 1}, []int{2}, "two circles through one"},
		{[][]int{{1}, {2}, {0, 3}, {2}}, []int64{1, 1, 3, 1}, []int{0, 3}, "the same, but that one is heavy"},
		{[][]int{{1}, {2}, {0, 3}, {2}}, []int64{1, 1, 2, 1}, []int{2}, "as heavy either way: fewer"},
		{everyone, []int64{1, 1, 1, 1, 1, 1, 1, 1, 1}, []int{0, 1, 2, 3, 4, 5, 6, 7}, "each with each: all but one"},
		{everyone, []int64{1, 1, 1, 1, 2, 1, 1, 1, 1}, []int{0, 1, 2, 3, 5, 6, 7, 8}, "all but the heaviest"},
	} {
		out, proven := Fewest(c.before, c.weight)
		if !proven || !slices.Equal(out, c.out) {
			t.Errorf("%s: %v, proven %v, want %v", c.reason, out, proven, c.out)
		}
	}
}

// TestSteps wants a set that untangles, and no claim, where the steps do not do.
func TestSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	claims := map[bool]int{}
	for range 30 {
		before, weight := random(rng, 40, 0.2, 9)
		best, proven := Fewest(before, weight)
		if !proven {
			t.Fatalf("40 nodes are not done in %d steps", mostSteps)
		}
		for _, steps := range []int{0, 100, 10_000, 100_000, 1_000_000} {
			out, proven := fewest(before, weight, steps)
			if !orderly(before, out) {
				t.Fatalf("%v: %v leaves a circle", before, out)
			}
			if proven && worth(out, weight) != worth(best, weight) {
				t.Fatalf("%v: %v in %d steps, %v is better", before, out, steps, best)
			}
			claims[proven]++
		}
	}
	if claims[false] == 0 || claims[true] == 0 {
		t.Errorf("proven or not: %v, want some of each", claims)
	}
}

// TestNegative wants a weight below 0 refused.
func TestNegative(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("taken")
		}
	}()
	Fewest([][]int{nil}, []int64{-1})
}

// FuzzFewest wants a set that untangles any graph, least where that can be tried:
// a byte for the number of nodes, one for each weight, then two for each arc.
func FuzzFewest(f *testing.F) {
	f.Add([]byte{3, 1, 1, 1, 0, 1, 1, 2, 2, 0})
	f.Add([]byte("\x0ccircles of letters that wait for each other"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) == 0 || len(data) <= int(data[0]%24) {
			return
		}
		nodes := int(data[0] % 24)
		before, weight := make([][]int, nodes), make([]int64, nodes)
		for i := range weight {
			weight[i] = int64(data[1+i])
		}
		for data = data[1+nodes:]; nodes > 0 && len(data) > 1; data = data[2:] {
			i := int(data[0]) % nodes
			before[i] = append(before[i], int(data[1])%nodes)
		}
		out, proven := Fewest(before, weight)
		if !orderly(before, out) {
			t.Fatalf("%v: %v leaves a circle", before, out)
		}
		if proven && nodes <= 8 && worth(out, weight) != brute(before, weight) {
			t.Fatalf("%v, weights %v: %v, worth %v, want %v", before, weight, out, worth(out, weight), brute(before, weight))
		}
	})
}

// BenchmarkUntangle takes graphs such as rearranging has them, where each of
// many pieces wants a place or two that others have, and denser ones.
func BenchmarkUntangle(b *testing.B) {
	for _, c := range []struct {
		name  string
		nodes int
		arcs  float64 // from each node, on average
	}{
		{"500_pieces", 500, 0.9},
		{"500_pieces_tangled", 500, 1.5},
		{"100_pieces_knotted", 100, 3},
		{"60_pieces_knotted", 60, 6},
		{"500_pieces_knotted", 500, 3},
		{"10000_pieces", 10_000, 0.9},
	} {
		b.Run(c.name, func(b *testing.B) {
			rng := rand.New(rand.NewPCG(uint64(c.nodes), 1))
			before, weight := make([][]int, c.nodes), make([]int64, c.nodes)
			for i := range before {
				weight[i] = 30 + rng.Int64N(60)
				for n := c.arcs; n > 0 && rng.Float64() < n; n-- {
					before[i] = append(before[i], rng.IntN(c.nodes))
				}
			}
			claim := 0.0
			for b.Loop() {
				claim = 0
				if _, proven := Fewest(before, weight); proven {
					claim = 1
				}
			}
			b.ReportMetric(claim, "proven")
		})
	}
}
