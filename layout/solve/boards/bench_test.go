package boards

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"setwright/layout/oracle"
)

// BenchmarkOneBoard prices one board without limits; the last instance is the large one.
func BenchmarkOneBoard(b *testing.B) {
	for n := 1; n <= 13; n++ {
		s := readSheet(b, oracle.Shared(b, "2d", "gcut", fmt.Sprintf("gcut%d.txt", n)), false)
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
		s := readSheet(b, oracle.Shared(b, "2d", "cgcut", fmt.Sprintf("cgcut%d.txt", n)), true)
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
		s := readSheet(b, oracle.Shared(b, "2d", "gcut", fmt.Sprintf("gcut%d.txt", n)), false)
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

// shopJob draws what a shop might cut from up to three sizes of panel, in nanometres, with a
// kerf of 3.2 mm and three stages; sizes are multiples of unit.
func shopJob(seed uint64, kinds, most, boards int, unit int64) Job {
	r := rand.New(rand.NewPCG(seed, 3))
	const mm = 1_000_000
	all := []Board{{2440 * mm, 1220 * mm, 3900, -1}, {3050 * mm, 1525 * mm, 6300, -1}, {2800 * mm, 2070 * mm, 8200, -1}}
	job := Job{Kerf: 3.2 * mm, Trim: 10 * mm, Stages: 3, Boards: all[:boards]}
	for range kinds {
		job.Pieces = append(job.Pieces, Piece{Length: (200 + r.Int64N(1000)) * mm / unit * unit,
			Width: (100 + r.Int64N(500)) * mm / unit * unit, Count: 1 + r.IntN(most), Turn: r.IntN(3) == 0})
	}
	return job
}

// shops are kinds of shop jobs.
var shops = []struct {
	name                string
	kinds, most, boards int
	unit                int64
}{
	{"24 pieces, 1 size, mm", 8, 5, 1, 1_000_000},
	{"24 pieces, 3 sizes, mm", 8, 5, 3, 1_000_000},
	{"30 pieces, 1 size, mm", 20, 2, 1, 1_000_000},
	{"25 pieces, 3 sizes, sixteenths", 10, 4, 3, 1_587_500},
	{"40 pieces, 1 size, cm", 40, 1, 1, 10_000_000},
	{"110 pieces, 3 sizes, mm", 20, 10, 3, 1_000_000},
}

// BenchmarkShop solves ten jobs of a kind, seeds 0 to 9, and reports how many are proven and
// the mean gap of all in percent.
func BenchmarkShop(b *testing.B) {
	for _, c := range shops {
		b.Run(c.name, func(b *testing.B) {
			proven, gap := 0, 0.0
			for b.Loop() {
				proven, gap = 0, 0
				for seed := range uint64(10) {
					plan := mustSolve(b, shopJob(seed, c.kinds, c.most, c.boards, c.unit), 5e8)
					if plan.Proven {
						proven++
					}
					gap += 10 * float64(plan.Cost-plan.Bound) / float64(plan.Bound)
				}
			}
			b.ReportMetric(float64(proven), "proven")
			b.ReportMetric(gap, "gap%")
		})
	}
}
