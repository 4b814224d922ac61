package reset_test

import (
	"math/rand/v2"
	"testing"

	"setwright/layout/reset"
)

// TestSafeOrders holds the order found against every order there is, on resets of
// few acts: it has a caution only where every order has one.
func TestSafeOrders(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 4))
	safe, unsafe, missed := 0, 0, 0
	for _, bare := range []int{0, 1, 2, 4} { // a wall has nothing to be cautioned about
		units := randomUnits(t, rng, bare, 60, 1)
		for range 3000 {
			old, new := units[rng.IntN(len(units))], units[rng.IntN(len(units))]
			exists, known := reset.Safe(old, new, 15)
			if !known {
				continue
			}
			cautions := 0
			for _, s := range reset.Make(old, new, reset.Options{}).Steps {
				if s.Caution != "" {
					cautions++
				}
			}
			switch {
			case !exists:
				unsafe++
			case cautions > 0:
				missed++
			default:
				safe++
			}
		}
	}
	t.Logf("%d resets with a safe order, %d without, %d missed", safe, unsafe, missed)
	if missed > 0 {
		t.Errorf("%d of %d safe orders were not found", missed, safe+missed)
	}
	if safe < 50 || unsafe < 10 {
		t.Errorf("%d resets with a safe order, %d without: too few to mean anything", safe, unsafe)
	}
}
