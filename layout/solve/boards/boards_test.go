package boards

import (
	"errors"
	"math/rand/v2"
	"testing"
)

// tinyEffort is ample for a job that brute can do.
const tinyEffort = 1e7

// TestTinyJobs compares thousands of tiny jobs with every way of cutting them, and
// verifies every plan and every proof.
func TestTinyJobs(t *testing.T) {
	var seen struct{ plans, best, proven, short, misfit int }
	for n := range 4000 {
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
	if s := seen; s.short < 100 || s.misfit < 100 || s.best < s.plans*99/100 || s.proven < s.plans*98/100 {
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
