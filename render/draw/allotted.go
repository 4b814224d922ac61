package draw

import (
	"fmt"
	"strings"

	"setwright/layout/plan"
	"setwright/layout/unit"
)

// allottedHere says what the fronts that the plan leaves open on a face were
// allotted for, and how good the allotment is proven to be; "" if the plan
// gives them all.
func (j *Job) allottedHere(f *unit.Face) string {
	var texts []string
	for _, aim := range plan.Aims() {
		var proven []string
		for _, a := range j.Unit.Allotted {
			if a.Face != f || a.Aim != aim {
				continue
			}
			if a.Proven() {
				proven = append(proven, a.Addresses()...)
				continue
			}
			gap := j.Words.Decimal(strings.Replace(a.GapText(), " ", "\u00a0", 1))
			texts = append(texts, fmt.Sprintf(j.Words.AllottedWithin, strings.Join(a.Addresses(), ", "), j.aimName(aim), gap))
		}
		if len(proven) > 0 {
			texts = append(texts, fmt.Sprintf(j.Words.AllottedBest, strings.Join(proven, ", "), j.aimName(aim)))
		}
	}
	return strings.Join(texts, " ")
}

// aimName is what fronts are allotted for, as sentences name it.
func (j *Job) aimName(a plan.Aim) string {
	switch a {
	case plan.Profit:
		return j.Words.AimProfit
	case plan.Range:
		return j.Words.AimRange
	}
	return j.Words.AimCover
}
