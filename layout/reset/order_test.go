package reset_test

import (
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"testing"

	"setwright/layout"
	"setwright/layout/oracle"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// TestSafeOrders holds the order found against every order there is, on resets of
// few acts: it has a caution only where every order has one.
func TestSafeOrders(t *testing.T) {
	if oracle.Racing {
		t.Skip("runs without the race detector: nothing here is shared")
	}
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

// TestAnyOrder works out resets between all odd plans there are, those among them
// that cannot be built: whatever they are like, all acts come to be done.
func TestAnyOrder(t *testing.T) {
	disk := os.DirFS("../../testdata/odd")
	names, err := fs.Glob(disk, "*/plan.yaml")
	if err != nil || len(names) == 0 {
		t.Fatal("no odd plans: ", err)
	}
	var units []*unit.Unit
	for _, name := range names {
		folder, err := fs.Sub(disk, path.Dir(name))
		if err != nil {
			t.Fatal(err)
		}
		if p := layout.Load(folder, "plan.yaml"); p.Unit != nil {
			units = append(units, p.Unit)
		}
	}
	if len(units) < 5 {
		t.Fatalf("only %d odd plans have units", len(units))
	}
	for _, old := range units {
		for _, new := range units {
			r := reset.Make(old, new, reset.Options{Rebuild: len(reset.Differences(old, new)) > 0})
			acts := 0
			for _, s := range r.Steps {
				if s.Face != "" {
					acts += len(s.Acts)
				}
			}
			want := 0
			for _, it := range r.Items {
				if it.Way != reset.Stay && it.Way != reset.Ride {
					want++
				}
			}
			for _, f := range r.Facings {
				if f.Way != reset.Stay && f.Way != reset.Ride || f.More() != 0 {
					want++
				}
			}
			if acts < want {
				t.Errorf("%s to %s: %d acts for %d things", old.Plan.Title, new.Plan.Title, acts, want)
			}
		}
	}
}
