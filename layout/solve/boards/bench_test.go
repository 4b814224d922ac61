package boards

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// BenchmarkOneBoard prices one board without limits; the last instance is the large one.
func BenchmarkOneBoard(b *testing.B) {
	for n := 1; n <= 13; n++ {
		s := readSheet(b, readShared(b, "gcut", fmt.Sprintf("gcut%d.txt", n)), false)
		s.unlimited()
		b.Run(fmt.Sprint("gcut", n), func(b *testing.B) {
			for b.Loop() {
				bestOf(b, s)
			}
		})
	}
}

// BenchmarkLimitedBoard proves the best of one board with limits.
func BenchmarkLimitedBoard(b *testing.B) {
	for n := 1; n <= 3; n++ {
		s := readSheet(b, readShared(b, "cgcut", fmt.Sprintf("cgcut%d.txt", n)), true)
		b.Run(fmt.Sprint("cgcut", n), func(b *testing.B) {
			for b.Loop() {
				bestLimited(b, s)
			}
		})
	}
}

// BenchmarkDemands cuts the instances with a demand of 1 to 100 for each piece, drawn with
// the instance's number as the seed, and reports boards and bound.
func BenchmarkDemands(b *testing.B) {
	for n := 1; n <= 12; n++ {
		s := readSheet(b, readShared(b, "gcut", fmt.Sprintf("gcut%d.txt", n)), false)
		s.demand(uint64(n))
		b.Run(fmt.Sprint("gcut", n), func(b *testing.B) {
			var plan *Plan
			for b.Loop() {
				plan = mustSolve(b, s.job, 1e10)
			}
			b.ReportMetric(float64(plan.Cost), "boards")
			b.ReportMetric(float64(plan.Bound), "bound")
		})
	}
}

// demand draws how many of each piece are wanted.
func (s *sheet) demand(seed uint64) {
	r := rand.New(rand.NewPCG(seed, 0))
	for i := range s.job.Pieces {
		s.job.Pieces[i].Count = 1 + r.IntN(100)
	}
}

func mustSolve(t testing.TB, job Job, effort int64) *Plan {
	t.Helper()
	plan, err := Solve(job, effort)
	if err != nil {
		t.Fatal(err)
	}
	if err := checkPlan(job, plan); err != nil {
		t.Fatal(err)
	}
	return plan
}
