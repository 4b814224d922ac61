package check_test

import (
	"math"
	"testing"

	"setwright/layout/check"
	"setwright/layout/measure"
)

// TestStanceAgrees loads a unit piece by piece on its stance: it tips as the
// assessment of the whole says, which adds up in floats.
func TestStanceAgrees(t *testing.T) {
	tests := []struct {
		reason, row, form string
		pounds            float64
	}{
		{"a bare unit, nearly", "hook-6", "peg", 0.01},
		{"one side heavy", "shelf-24x12", "stand", 3},
		{"one side very heavy", "shelf-24x12", "stand", 40},
	}
	for _, test := range tests {
		u := hung(t, test.row, test.form, test.pounds)
		stance := check.NewStance(u, u.Extent.Z1)
		loaded := stance.Bare
		for _, f := range u.Faces {
			for _, row := range f.Rows {
				for _, p := range row.All() {
					loaded = loaded.Plus(check.WeightAt(check.PieceWeight(u.Parts, p), f.Solid(p.Box)))
				}
				for _, pos := range row.Positions {
					for _, front := range pos.Fronts {
						loaded = loaded.Plus(check.WeightAt(measure.Mass(front.Units)*pos.Product.Weight, f.Solid(front.Box)))
					}
				}
			}
		}
		share, tilt := stance.Tips(loaded)
		wantShare, wantTilt := math.Inf(1), math.Inf(1)
		for _, tip := range check.Run(u).Assessment.Tips {
			if tip.State == "full" {
				force := min(tip.Body.Mass*9.80665/5, 250) // UL 1863-2019, 22.3 to 22.6
				wantTilt, wantShare = min(wantTilt, tip.Tilt), min(wantShare, tip.ForceTop/force)
			}
		}
		if math.Abs(share-wantShare) > 1e-3 || math.Abs(tilt-wantTilt) > 1e-3 {
			t.Errorf("%s: share %v, tilt %v, want %v, %v", test.reason, share, tilt, wantShare, wantTilt)
		}
		if stance.Bare.Plus(loaded).Minus(loaded) != stance.Bare {
			t.Errorf("%s: taking off what was put on leaves something", test.reason)
		}
	}
}
