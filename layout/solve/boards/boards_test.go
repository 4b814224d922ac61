package boards

import (
	"errors"
	"math/rand/v2"
	"testing"
)

// TestTinyJobs compares thousands of tiny jobs with every way of cutting them.
func TestTinyJobs(t *testing.T) {
	proven, plans, best, short, misfit := 0, 0, 0, 0, 0
	for n := range 3000 {
		job := tinyJob(rand.New(rand.NewPCG(uint64(n), 2)))
		want := newBrute(job).cost()
		plan, err := Solve(job, 1e7)
		var lack *ShortError
		var fit *FitError
		switch {
		case errors.As(err, &fit):
			misfit++
			if want >= 0 {
				t.Fatalf("job %d: %+v: %v, but it costs %d", n, job, err, want)
			}
			continue
		case errors.As(err, &lack):
			short++
			if lack.Proven && want >= 0 || !lack.Proven && want < 0 {
				t.Logf("job %d: %+v: %v, but it costs %d", n, job, err, want)
			}
			if lack.Proven && want >= 0 {
				t.Fatal("wrong")
			}
			continue
		case err != nil:
			t.Fatalf("job %d: %+v: %v", n, job, err)
		}
		plans++
		if err := checkPlan(job, plan); err != nil {
			t.Fatalf("job %d: %+v: %v\n%+v", n, job, err, plan)
		}
		if want < plan.Bound || want > plan.Cost || want < 0 {
			t.Fatalf("job %d: %+v: cost %d, bound %d, but %d is best", n, job, plan.Cost, plan.Bound, want)
		}
		if plan.Proven {
			proven++
		}
		if plan.Cost == want {
			best++
		} else {
			t.Logf("job %d: %+v: cost %d, bound %d, best %d", n, job, plan.Cost, plan.Bound, want)
		}
	}
	t.Logf("%d plans: %d best, %d proven; %d short, %d misfit", plans, best, proven, short, misfit)
}
