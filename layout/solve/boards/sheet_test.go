package boards

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// bestOf prices the one board of an instance without limits.
func bestOf(t testing.TB, s sheet) int64 {
	t.Helper()
	shop, err := newShop(&s.job)
	if err != nil {
		t.Fatal(err)
	}
	g, err := newGrid(shop, 4000, true)
	if err != nil || !g.exact {
		t.Fatal("sizes were rounded", err)
	}
	var steps int64
	p := newPricer(g, &steps)
	p.price(shop.values(s.value))
	return p.best(0)
}

// optima reads the published or proven values of the shared instances.
func optima(t testing.TB) map[string]int64 {
	t.Helper()
	values := map[string]int64{}
	for line := range strings.Lines(oracle.Shared(t, "2d", "optima.tsv")) {
		var name string
		var value int64
		if n, _ := fmt.Sscan(line, &name, &value); n == 2 {
			values[name] = value
		}
	}
	return values
}

// TestOneBoard compares the most that one board gives, pieces without limit and any number
// of stages, with J. E. Beasley's instances (Journal of the Operational Research Society
// 36, 1985).
func TestOneBoard(t *testing.T) {
	alone(t)
	want := optima(t)
	for n := 1; n <= 13; n++ {
		name := fmt.Sprint("gcut", n)
		s := readSheet(t, oracle.Shared(t, "2d", "gcut", name+".txt"), false)
		s.unlimited()
		if got := bestOf(t, s); got != want[name] || got == 0 {
			t.Errorf("%s: %d, want %d", name, got, want[name])
		}
	}
}

// bestLimited finds the most that the one board of an instance gives.
func bestLimited(t testing.TB, s sheet) int64 {
	t.Helper()
	shop, err := newShop(&s.job)
	if err != nil {
		t.Fatal(err)
	}
	f := newSingle(shop, shop.values(s.value), 0)
	_, worth, done := f.run(1e10)
	if !done {
		t.Fatal("not done")
	}

	return worth
}

// TestLimitedBoard finds the optimum that N. Christofides and C. Whitlock give for the
// first instance of their paper (Operations Research 25, 1977, table 2).
func TestLimitedBoard(t *testing.T) {
	text, err := os.ReadFile("testdata/christofides-whitlock-1.txt")
	if err != nil {
		t.Fatal(err)
	}
	if got := bestLimited(t, readSheet(t, string(text), true)); got != 244 {
		t.Errorf("%d, published 244", got)
	}
}

// TestLimitedBoards does the same for all three instances of that paper.
func TestLimitedBoards(t *testing.T) {
	want := optima(t)
	for n := 1; n <= 3; n++ {
		name := fmt.Sprint("cgcut", n)
		if got := bestLimited(t, readSheet(t, oracle.Shared(t, "2d", "cgcut", name+".txt"), true)); got != want[name] {
			t.Errorf("%s: %d, published %d", name, got, want[name])
		}
	}
}

// TestDemands cuts the same instances with demands and replays every proof. No published
// values go with these demands, which are drawn.
func TestDemands(t *testing.T) {
	alone(t)
	proven := 0
	for n := 1; n <= 12; n++ {
		s := readSheet(t, oracle.Shared(t, "2d", "gcut", fmt.Sprintf("gcut%d.txt", n)), false)
		s.demand(uint64(n))
		plan := mustSolve(t, s.job, 1e9)
		if err := checkProof(s.job, plan.Bound, plan.Proof); err != nil {
			t.Errorf("gcut%d: %v", n, err)
		}
		if plan.Cost > plan.Bound+2 {
			t.Errorf("gcut%d: %d boards, bound %d", n, plan.Cost, plan.Bound)
		}
		if plan.Proven {
			proven++
		}
	}
	if proven < 11 {
		t.Errorf("%d of 12 proven", proven)
	}
}

// TestTinyLimitedBoards compares the best of one board with every way of cutting it. Sizes
// are multiples of three, so that marks are not units.
func TestTinyLimitedBoards(t *testing.T) {
	for n := range 1000 {
		r := rand.New(rand.NewPCG(uint64(n), 7))
		job := tinyJob(r)
		job.Trim, job.Kerf, job.Boards = 0, 0, job.Boards[:1]
		job.Boards[0].Limit = -1
		var value []int64
		for i := range job.Pieces {
			job.Pieces[i].Length, job.Pieces[i].Width = 1+r.Int64N(4), 1+r.Int64N(4)
			value = append(value, 1+r.Int64N(9))
			for k, p := range job.Pieces[:i] { // kinds have one value
				if p.Length == job.Pieces[i].Length && p.Width == job.Pieces[i].Width {
					value[i] = value[k]
				}
			}
		}
		want := newBrute(job).most(value)
		job.Boards[0].Length, job.Boards[0].Width = 3*job.Boards[0].Length, 3*job.Boards[0].Width
		for i := range job.Pieces {
			job.Pieces[i].Length, job.Pieces[i].Width = 3*job.Pieces[i].Length, 3*job.Pieces[i].Width
		}
		shop, err := newShop(&job)
		if err != nil || len(shop.kinds) == 0 {
			continue
		}
		best, worth, done := newSingle(shop, shop.values(value), 0).run(1e9)
		if !done || worth != want || worth > 0 && !shop.fits(gridOf(t, shop).lies, best, 0) {
			t.Fatalf("job %d: %+v %v: %d, want %d", n, job, value, worth, want)
		}
	}
}

func gridOf(t *testing.T, s *shop) *grid {
	t.Helper()
	g, err := newGrid(s, 1000, true)
	if err != nil {
		t.Fatal(err)
	}
	return g
}
