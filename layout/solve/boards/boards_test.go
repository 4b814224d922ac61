package boards

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/oracle"
)

// tinyEffort is ample for a job that brute can do.
const tinyEffort = 1e7

// TestTinyJobs compares thousands of tiny jobs with every way of cutting them, and
// verifies every plan and every proof.
func TestTinyJobs(t *testing.T) {
	var seen struct{ plans, best, proven, short, misfit int }
	jobs := 4000
	if oracle.Racing {
		jobs = 400
	}
	for n := range jobs {
		job := tinyJob(rand.New(rand.NewPCG(uint64(n), 2)))
		want := newBrute(job).cost()
		plan, err := Solve(job, tinyEffort)
		var lack *ShortError
		var fit *FitError
		switch {
		case errors.As(err, &fit):
			seen.misfit++
			checkMisfits(t, n, job, fit)
		case errors.As(err, &lack):
			seen.short++
			checkShort(t, n, job, lack, want)
		case err != nil:
			t.Fatalf("job %d: %+v: %v", n, job, err)
		default:
			seen.plans++
			if err := errors.Join(checkPlan(job, plan), checkProof(job, plan.Bound, plan.Proof)); err != nil {
				t.Fatalf("job %d: %+v: %v\n%+v", n, job, err, plan)
			}
			if want < plan.Bound || want > plan.Cost {
				t.Fatalf("job %d: %+v: cost %d, bound %d, but %d is best", n, job, plan.Cost, plan.Bound, want)
			}
			if plan.Proven {
				seen.proven++
			}
			if plan.Cost == want {
				seen.best++
			}
		}
	}
	t.Logf("%+v", seen)
	if s := seen; s.short < jobs/40 || s.misfit < jobs/40 || s.best < s.plans*99/100 || s.proven < s.plans*98/100 {
		t.Errorf("too few of some: %+v", s)
	}
}

// checkMisfits verifies that each piece that is said to fit no board cannot be cut alone,
// and that all others can.
func checkMisfits(t *testing.T, n int, job Job, fit *FitError) {
	t.Helper()
	misfit := map[int]Misfit{}
	for _, m := range fit.Misfits {
		misfit[m.Piece] = m
	}
	for i, p := range job.Pieces {
		if p.Count == 0 {
			continue
		}
		alone := func(turn bool) bool {
			p.Count, p.Turn = 1, turn
			single := job
			single.Pieces = []Piece{p}
			return newBrute(single).cost() >= 0
		}
		m, is := misfit[i]
		if fits := alone(p.Turn); fits == is || is && m.Turned != alone(true) {
			t.Fatalf("job %d: %+v: piece %d fits %v, %+v", n, job, i, fits, fit)
		}
	}
}

// checkShort verifies what is said when boards do not do.
func checkShort(t *testing.T, n int, job Job, lack *ShortError, want int64) {
	t.Helper()
	if lack.Proven && want >= 0 {
		t.Fatalf("job %d: %+v: %v, but it costs %d", n, job, lack, want)
	}
	if lack.Proven {
		if err := checkProof(job, -1, lack.Proof); err != nil {
			t.Fatalf("job %d: %+v: %v", n, job, err)
		}
	}
	more := job
	more.Boards = append([]Board(nil), job.Boards...)
	priced, added := false, int64(0)
	for b, board := range job.Boards {
		priced = priced || board.Cost > 0
		added += int64(lack.More[b]) * board.Cost
		more.Boards[b].Cost = 0
		if more.Boards[b].Limit >= 0 {
			more.Boards[b].Limit += lack.More[b]
		}
	}
	plan := *lack.Plan
	if priced && plan.Cost != added {
		t.Fatalf("job %d: %+v: added boards cost %d, not %d", n, job, added, plan.Cost)
	}
	plan.Cost, plan.Bound, plan.Proven = 0, 0, true
	if err := checkPlan(more, &plan); err != nil {
		t.Fatalf("job %d: %+v: %v: %+v", n, job, err, lack)
	}
	missing := 0
	for i, m := range lack.Missing {
		missing += m
		if m > job.Pieces[i].Count {
			t.Fatalf("job %d: %+v: %+v", n, job, lack)
		}
	}
	if missing == 0 {
		t.Fatalf("job %d: %+v: nothing is missing: %+v", n, job, lack)
	}
}

// TestProofsThatLie makes sure that the verification of proofs can fail.
func TestProofsThatLie(t *testing.T) {
	job := Job{Kerf: 1, Trim: 1, Stages: 3,
		Boards: []Board{{Length: 14, Width: 9, Cost: 5, Limit: -1}, {Length: 9, Width: 9, Cost: 3, Limit: 1}},
		Pieces: []Piece{{Length: 5, Width: 3, Count: 9}, {Length: 4, Width: 2, Count: 3, Turn: true}}}
	for _, c := range []struct {
		reason string
		lie    func(p *Plan)
		holds  bool
	}{
		{"the truth", func(*Plan) {}, true},
		{"a higher bound", func(p *Plan) { p.Bound++ }, false},
		{"a lower bound than what is proven", func(p *Plan) { p.Bound-- }, false},
		{"a board that holds less than it does", func(p *Plan) { p.Proof.Needs[0].Holds[0]-- }, false},
		{"pieces worth more than they were priced at", func(p *Plan) { p.Proof.Needs[0].Value[0] *= 2 }, false},
		{"a piece worth less than nothing", func(p *Plan) { p.Proof.Needs[0].Value[1] = -1 }, false},
		{"no needs", func(p *Plan) { p.Proof.Needs = p.Proof.Needs[:0] }, false},
	} {
		plan, err := Solve(job, tinyEffort)
		if err != nil || !plan.Proven {
			t.Fatalf("%v, %+v", err, plan)
		}
		c.lie(plan)
		if err := checkProof(job, plan.Bound, plan.Proof); (err == nil) != c.holds {
			t.Errorf("%s: %v", c.reason, err)
		}
	}
}

// TestRounded cuts jobs with so many sums of sizes that these must be rounded. Plans are
// true all the same, and a piece as long as the trimmed board is not rounded out of it.
func TestRounded(t *testing.T) {
	alone(t)
	for seed := range uint64(6) {
		job := shopJob(seed, 14, 3, 2, 1)
		r := rand.New(rand.NewPCG(seed, 9))
		for i := range job.Pieces {
			job.Pieces[i].Length += r.Int64N(1_000_000)
			job.Pieces[i].Width += r.Int64N(1_000_000)
		}
		job.Pieces = append(job.Pieces, Piece{Length: job.Boards[1].Length - 2*job.Trim, Width: 123_456_789, Count: 2})
		job.Pieces = append(job.Pieces, Piece{Length: 2, Width: 3, Count: 0})
		if seed%2 == 0 {
			job.Stages = 0
		}
		s, err := newShop(&job)
		if err != nil {
			t.Fatal(err)
		}
		if g, err := newGrid(s, mostPoints(s.stages), true); err != nil || g.exact {
			t.Fatalf("job %d: nothing to round: %v", seed, err)
		}
		if plan := mustSolve(t, job, 1e8); plan.Cost > 2*plan.Bound {
			t.Errorf("job %d: costs %d, bound %d", seed, plan.Cost, plan.Bound)
		}
	}
}

// TestManyPieces cuts a great many pieces without wearing anyone out, and the same way
// twice.
func TestManyPieces(t *testing.T) {
	job := Job{Stages: 3, Kerf: 3, Boards: []Board{{Length: 2440, Width: 1220, Cost: 5, Limit: -1}, {Length: 1500, Width: 1000, Cost: 3, Limit: -1}},
		Pieces: []Piece{{600, 400, 300_000, true}, {700, 333, 200_000, false}, {250, 121, 500_000, false}}}
	for _, effort := range []int64{0, tinyEffort} {
		plan := mustSolve(t, job, effort)
		if diff := cmp.Diff(plan, mustSolve(t, job, effort)); diff != "" {
			t.Errorf("effort %d: two plans:\n%s", effort, diff)
		}
		if effort > 0 && !plan.Proven {
			t.Errorf("costs %d, bound %d", plan.Cost, plan.Bound)
		}
	}
}

// alone ends a long test of one goroutine, in which the race detector would find nothing in
// many minutes.
func alone(t *testing.T) {
	t.Helper()
	if oracle.Racing {
		t.Skip("runs without the race detector")
	}
}
