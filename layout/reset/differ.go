package reset

import (
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Difference is one thing in which the bare units differ, so that one cannot be
// made of the other without building anew.
type Difference struct {
	What     string      // frame, stand, panels, bays: a word of the lists
	Face     plan.FaceID // of panels and bays; else ""
	Old, New string      // "" where there is none: a face without panels
}

// Differences are what two bare units differ in.
func Differences(old, new *unit.Unit) []Difference { return nil }

func (r *Reset) compare() {}
