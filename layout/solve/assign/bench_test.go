package assign

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// instance is a table to measure with.
type instance struct {
	name string
	cost func(t testing.TB) [][]int64
}

// instances are the published ones, then such as the literature measures with
// (costs from small and large ranges), and some that are worse: rows of near
// equal worth, and costs of which no sort of preparation pairs many rows.
func instances() (all []instance) {
	for _, p := range published {
		all = append(all, instance{p.name, func(t testing.TB) [][]int64 { return readPublished(t, p.name) }})
	}
	of := func(rows, columns int, high int64) {
		all = append(all, instance{fmt.Sprintf("%dx%d_to_%d", rows, columns, high), func(testing.TB) [][]int64 {
			return random(rand.New(rand.NewPCG(uint64(rows), uint64(high))), rows, columns, 1, high)
		}})
	}
	of(1000, 1000, 100)
	of(1000, 1000, 1_000_000)
	of(1000, 1000, 1<<39)
	of(500, 800, 100)
	of(500, 800, 1_000_000)
	of(800, 500, 1_000_000)
	all = append(all,
		instance{"1000x1000_product", func(testing.TB) [][]int64 { return product(1000) }},
		instance{"1000x1000_distance", func(testing.TB) [][]int64 { return distance(1000, 1000) }},
		instance{"500x800_distance", func(testing.TB) [][]int64 { return distance(500, 800) }},
	)
	return all
}

// product is the table (i+1)(j+1), on which methods of shortest paths pass nearly
// every column for nearly every row (Machol and Wien, "A hard assignment
// problem", Operations Research 24, 1976).
func product(size int) [][]int64 {
	cost := make([][]int64, size)
	for i := range cost {
		cost[i] = make([]int64, size)
		for j := range cost[i] {
			cost[i][j] = int64(i+1) * int64(j+1)
		}
	}
	return cost
}

// distance is the table of distances between random places in a square, as what
// is carried from places to places has it.
func distance(rows, columns int) [][]int64 {
	rng := rand.New(rand.NewPCG(uint64(rows), uint64(columns)))
	type place struct{ x, y int64 }
	places := make([]place, rows+columns)
	for i := range places {
		places[i] = place{rng.Int64N(10_000), rng.Int64N(10_000)}
	}
	cost := make([][]int64, rows)
	for i := range cost {
		cost[i] = make([]int64, columns)
		for j := range cost[i] {
			a, b := places[i], places[rows+j]
			cost[i][j] = max(a.x-b.x, b.x-a.x) + max(a.y-b.y, b.y-a.y)
		}
	}
	return cost
}

// BenchmarkAssign solves each instance; reading and checking are not measured.
func BenchmarkAssign(b *testing.B) {
	for _, in := range instances() {
		b.Run(in.name, func(b *testing.B) {
			cost := in.cost(b)
			solved(b, cost)
			b.ReportAllocs()
			for b.Loop() {
				Solve(cost)
			}
		})
	}
}
