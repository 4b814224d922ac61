package unit

import (
	"math/rand/v2"
	"testing"

	"setwright/layout/measure"
)

// TestSweepAgainstAllPairs compares the sweep with looking at every pair.
func TestSweepAgainstAllPairs(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	side := func(n int64) (measure.Length, measure.Length) {
		a := measure.Length(rng.Int64N(n)) * measure.Inch
		return a, a + measure.Length(1+rng.Int64N(14))*measure.Inch
	}
	for trial := range 300 {
		things := make([]*thing, 1+rng.IntN(40))
		for i := range things {
			things[i] = &thing{}
			s := &things[i].solid
			s.X0, s.X1 = side(40)
			s.Y0, s.Y1 = side(20)
			s.Z0, s.Z1 = side(60)
		}
		want := 0
		for i := range things {
			for j := range i {
				if x, y, z := things[i].solid.Overlap(things[j].solid); x > 0 && y > 0 && z > 0 {
					want++
				}
			}
		}
		got := map[[2]*thing]int{}
		Meetings(things, func(t *thing) Solid { return t.solid }, func(a, b *thing) { got[[2]*thing{a, b}]++ })
		for pair, n := range got {
			if n > 1 {
				t.Fatalf("trial %d: %v met %d times", trial, pair, n)
			}
		}
		if len(got) != want {
			t.Fatalf("trial %d: %d pairs meet, the sweep found %d", trial, want, len(got))
		}
	}
}
