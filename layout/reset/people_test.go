package reset_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/reset"
)

// trouble is how badly a standing breaks the limits of the night, worked out from
// nothing but what the reset tells: 0 for what keeps within them.
func trouble(r *reset.Reset, s reset.Standing) (tip, balance float64) {
	end := r.Start
	if len(r.Steps) > 0 {
		end = r.Steps[len(r.Steps)-1].After
	}
	asked := func(benchmark, start, end float64) float64 {
		if start < benchmark || end < benchmark {
			return min(start, end, 0.9*min(start, end))
		}
		return benchmark
	}
	if !math.IsInf(s.Share, 1) {
		tip = max(tip, asked(1, r.Start.Share, end.Share)-s.Share)
	}
	if !math.IsInf(s.Tilt, 1) {
		tip = max(tip, (asked(10, r.Start.Tilt, end.Tilt)-s.Tilt)/10)
		for _, pair := range [][2]plan.FaceID{{plan.Front, plan.Back}, {plan.Right, plan.Left}} {
			apart := func(s reset.Standing) measure.Mass {
				d := s.Carried[pair[0]] - s.Carried[pair[1]]
				return max(d, -d)
			}
			if _, ok := s.Carried[pair[0]]; !ok {
				continue
			}
			if _, ok := s.Carried[pair[1]]; !ok {
				continue
			}
			heaviest := max(r.Start.Carried[pair[0]], r.Start.Carried[pair[1]], end.Carried[pair[0]], end.Carried[pair[1]])
			limit := max(5*measure.Kilogram, heaviest/4, apart(r.Start), apart(end))
			balance = max(balance, float64(apart(s)-limit)/float64(limit))
		}
	}
	if tip < 1e-3 { // the two ways of adding up differ by that
		tip = 0
	}
	return tip, balance
}

// together replays two people who are as quick or slow as it happens.
func together(r *reset.Reset, rng *rand.Rand) error {
	worstTip, worstBalance := 0.0, 0.0
	for _, s := range r.Steps {
		tip, balance := trouble(r, s.After)
		worstTip, worstBalance = max(worstTip, tip), max(worstBalance, balance)
	}
	s := newSim(r)
	done := make([]bool, len(r.Steps)+1)
	done[0] = true
	next := func(person int) int { // the first step they have not done, 0 if none
		for _, step := range r.Steps {
			if !done[step.Number] && (step.Person == person || step.Person == 0) {
				return step.Number
			}
		}
		return 0
	}
	for range r.Steps {
		var can []int
		for person := 1; person <= 2; person++ {
			n := next(person)
			if n == 0 {
				continue
			}
			step := r.Steps[n-1]
			if step.Person == 0 && next(3-person) != n || step.Person != 0 && !done[step.Wait] {
				continue
			}
			can = append(can, n)
		}
		if len(can) == 0 {
			return fmt.Errorf("both wait for each other")
		}
		n := can[rng.IntN(len(can))]
		if rng.IntN(3) > 0 { // more often than not one is far ahead
			n = can[0]
		}
		for _, a := range r.Steps[n-1].Acts {
			if err := s.act(a); err != nil {
				return fmt.Errorf("step %d out of its turn: %w", n, err)
			}
		}
		done[n] = true
		if tip, balance := trouble(r, s.standing()); worstTip == 0 && tip > 0 || tip > worstTip+1e-3 || worstTip == 0 && balance > worstBalance+1e-9 {
			return fmt.Errorf("after step %d out of its turn: tip %.3f (one person at worst %.3f), balance %.3f (%.3f)", n, tip, worstTip, balance, worstBalance)
		}
	}
	return s.ended()
}

// makespan is when both have done if each step takes what it says.
func makespan(r *reset.Reset) int {
	end := make([]int, len(r.Steps)+1)
	free := [3]int{}
	for _, s := range r.Steps {
		begin := max(free[s.Person], end[s.Wait])
		if s.Person == 0 {
			begin = max(free[1], free[2])
		}
		end[s.Number] = begin + s.Seconds
		free[s.Person] = end[s.Number]
		if s.Person == 0 {
			free[1], free[2] = end[s.Number], end[s.Number]
		}
	}
	return max(free[1], free[2])
}

// TestTogether replays two people at every pace, and holds what is promised
// against what one person takes.
func TestTogether(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 9))
	offered, waits := 0, 0
	for bare := range bareUnits {
		units := randomUnits(t, rng, bare, 20, 4)
		for range 60 {
			old, new := units[rng.IntN(len(units))], units[rng.IntN(len(units))]
			r := reset.Make(old, new, reset.Options{})
			for _, s := range r.Steps {
				if r.Together == 0 && (s.Person != 0 || s.Wait != 0) {
					t.Fatal("a step has a person where no two are asked for")
				}
				if s.Wait != 0 {
					waits++
					if s.Wait >= s.Number || r.Steps[s.Wait-1].Person == s.Person {
						t.Fatalf("step %d of %d waits for %d", s.Number, s.Person, s.Wait)
					}
				}
			}
			if r.Together == 0 {
				continue
			}
			offered++
			if got := makespan(r); got != r.Together || 10*got > 9*r.Seconds {
				t.Fatalf("two take %d s by the steps, %d by the reset, one %d", got, r.Together, r.Seconds)
			}
			for range 6 {
				if err := together(r, rng); err != nil {
					t.Fatalf("%s: %v\n%s\n%s", bareUnits[bare].name, err, old.Plan.Text, new.Plan.Text)
				}
			}
		}
	}
	if offered < 100 || waits < 100 {
		t.Errorf("only %d resets for two, %d waits: too few to mean anything", offered, waits)
	}
}
