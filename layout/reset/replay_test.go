package reset_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"setwright/layout/oracle"
	"setwright/layout/parts"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// replay carries out all steps in their order.
func replay(r *reset.Reset) error {
	s := newSim(r)
	if err := s.stands(r.Start); err != nil {
		return fmt.Errorf("before the first step: %w", err)
	}
	seconds := 0
	for i, step := range r.Steps {
		if step.Number != i+1 || len(step.Acts) == 0 {
			return fmt.Errorf("step %d is numbered %d", i+1, step.Number)
		}
		for _, a := range step.Acts {
			if a.Verb != step.Verb {
				return fmt.Errorf("step %d: an act of another verb", i+1)
			}
			if err := s.act(a); err != nil {
				return fmt.Errorf("step %d, verb %d: %w", i+1, step.Verb, err)
			}
		}
		if err := s.stands(step.After); err != nil {
			return fmt.Errorf("after step %d: %w", i+1, err)
		}
		seconds += step.Seconds
	}
	if seconds != r.Seconds {
		return fmt.Errorf("the steps take %d s, the whole %d", seconds, r.Seconds)
	}
	if err := s.listed(); err != nil {
		return err
	}
	return s.ended()
}

// listed holds what went to stock and came from it against the pull sheet and the
// pick list.
func (s *sim) listed() error {
	for _, l := range s.r.FetchedGoods() {
		s.stock[l.Product.SKU] -= l.Units
	}
	for _, l := range s.r.PulledGoods() {
		s.stock[l.Product.SKU] += l.Units
	}
	for _, l := range s.r.Fetched() {
		if l.Part.Kind != parts.Fixing {
			s.parts[l.Part.ID] -= l.Quantity
		}
	}
	for _, l := range s.r.Pulled() {
		if l.Part.Kind != parts.Fixing {
			s.parts[l.Part.ID] += l.Quantity
		}
	}
	for _, count := range []map[string]int{s.stock, s.parts} {
		for id, n := range count {
			if n != 0 {
				return fmt.Errorf("%d more of %s come from stock than the lists say", n, id)
			}
		}
	}
	return nil
}

// TestReplay carries out the resets of random pairs of units.
func TestReplay(t *testing.T) { replayPairs(t, 20, 80) }

// TestReplayMany carries out those of 5,000 pairs.
func TestReplayMany(t *testing.T) {
	oracle.Long(t)
	if oracle.Racing {
		t.Skip("runs without the race detector: nothing here is shared")
	}
	replayPairs(t, 60, 1000)
}

// replayPairs dresses each bare unit in so many ways and carries out the resets of
// so many pairs of them.
func replayPairs(t *testing.T, ways, pairs int) {
	rng := rand.New(rand.NewPCG(11, 7))
	did, cautions, verbs := 0, 0, [reset.Nudge + 1]int{}
	for bare := range bareUnits {
		units := randomUnits(t, rng, bare, ways, 4)
		for range pairs {
			old, new := units[rng.IntN(len(units))], units[rng.IntN(len(units))]
			r := reset.Make(old, new, reset.Options{})
			if err := replay(r); err != nil {
				t.Fatalf("%s, pair %d: %v\n%s\n%s", bareUnits[bare].name, did, err, old.Plan.Text, new.Plan.Text)
			}
			did++
			caution := 0
			for _, s := range r.Steps {
				verbs[s.Verb] += len(s.Acts)
				if s.Caution != "" {
					caution = 1
				}
			}
			cautions += caution
		}
	}
	t.Logf("%d pairs, %d with a caution; acts by verb: %v", did, cautions, verbs)
	for v, n := range verbs {
		if n < did/40 {
			t.Errorf("only %d acts of verb %d in %d pairs: too few to mean anything", n, v, did)
		}
	}
}

// TestReplaySamples carries out the resets between all samples of one unit.
func TestReplaySamples(t *testing.T) {
	names := []string{"spring", "children", "shirts", "sweets", "boots"}
	units := make([]*unit.Unit, len(names))
	for i, name := range names {
		units[i] = sampleUnit(t, name)
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for i, old := range units {
		for k, new := range units {
			r := reset.Make(old, new, reset.Options{})
			if err := replay(r); err != nil {
				t.Errorf("%s to %s: %v", names[i], names[k], err)
			}
			if i == k && (len(r.Steps) > 0 || r.Seconds > 0) {
				t.Errorf("%s to itself takes %d steps", names[i], len(r.Steps))
			}
			if r.Together > 0 {
				if err := together(r, rng); err != nil {
					t.Errorf("%s to %s, two people: %v", names[i], names[k], err)
				}
			}
			cautions, acts, aside, worst := 0, 0, 0, r.Start.Share
			for _, s := range r.Steps {
				if s.Caution != "" {
					cautions++
				}
				acts += len(s.Acts)
				worst = min(worst, s.After.Share)
				if s.Verb == reset.SetAside {
					aside += len(s.Acts)
				}
			}
			t.Logf("%-8s to %-8s %3d steps %3d acts %3d aside %2d cautions, at worst %.2f of the push, %3d min, two %3d min", names[i], names[k], len(r.Steps), acts, aside, cautions, worst, (r.Seconds+59)/60, (r.Together+59)/60)
		}
	}
}

// TestReplayRebuild builds anew: everything comes off one bare unit before it is
// changed and anything hangs on the other.
func TestReplayRebuild(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	units := make([][]*unit.Unit, len(bareUnits))
	for bare := range bareUnits {
		units[bare] = randomUnits(t, rng, bare, 6, 4)
	}
	changed := 0
	for range 300 {
		a, b := rng.IntN(len(units)), rng.IntN(len(units))
		r := reset.Make(units[a][rng.IntN(6)], units[b][rng.IntN(6)], reset.Options{Rebuild: true})
		s := newSim(r)
		s.bare = r.Old
		if err := s.stands(r.Start); err != nil {
			t.Fatal("before the first step: ", err)
		}
		bare := bareCount(r.Old)
		for i, step := range r.Steps {
			if step.Number != i+1 {
				t.Fatalf("step %d is numbered %d", i+1, step.Number)
			}
			if step.Face == "" { // the bare unit
				if s.bare = r.New; len(s.things) > 0 || step.People < 2 || step.Person != 0 {
					t.Fatalf("step %d changes the bare unit with %d things on it", i+1, len(s.things))
				}
				for _, act := range step.Acts {
					if act.Verb == reset.Hang {
						bare[act.Item.Part.ID]++
					} else {
						bare[act.Item.Part.ID]--
					}
				}
				changed++
				continue
			}
			if a == b && len(s.things) == 0 {
				s.bare = r.New
			}
			for _, act := range step.Acts {
				if err := s.act(act); err != nil {
					t.Fatalf("step %d: %v", i+1, err)
				}
			}
			if len(s.things) > 0 {
				if err := s.stands(step.After); err != nil {
					t.Fatalf("after step %d: %v", i+1, err)
				}
			}
		}
		if err := s.ended(); err != nil {
			t.Fatal(err)
		}
		for id, n := range bareCount(r.New) {
			bare[id] -= n
		}
		for id, n := range bare {
			if n != 0 {
				t.Fatalf("%s to %s: %d of %s too many in the end", bareUnits[a].name, bareUnits[b].name, n, id)
			}
		}
		if r.Together > 0 && makespan(r) != r.Together {
			t.Fatalf("two take %d s by the steps, %d by the reset", makespan(r), r.Together)
		}
	}
	if changed < 300 {
		t.Errorf("only %d steps change a bare unit", changed)
	}
}

// bareCount counts frame, stand and panels; a stand is one.
func bareCount(u *unit.Unit) map[string]int {
	count := map[string]int{}
	for _, s := range u.Structure {
		if s.Part.Kind != parts.Stand || count[s.Part.ID] == 0 {
			count[s.Part.ID]++
		}
	}
	return count
}
