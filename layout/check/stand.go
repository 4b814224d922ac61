package check

import (
	"fmt"
	"math"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// standRules judge how the unit stands.
func standRules() []judged {
	return []judged{
		{Rule{"balance", "Both sides balanced", diag.Caution, "common practice",
			"what hangs on the two sides of a unit, goods and hardware, differs by no more than a quarter of the heavier side"}, balance},
		{Rule{"tip-force", "Tipping by a push", diag.Stop,
			"house rule: no published tip test covers free-standing retail displays (EN 16121 and ASTM F2057 leave them out); benchmark UL 1863-2019 22.3-22.6",
			"a level push of a fifth of the weight, at most 250 N (56 lb), at the top, but no higher than 2.0 m, lifts no foot, be the unit full, bare, with one side stocked first or the low shelves empty: a caution; two fifths of it is a stop, but for the order of stocking, and so is going over by itself"}, tipForce},
		{Rule{"tip-tilt", "Tipping on a slope", diag.Caution,
			"house rule: no published tip test covers free-standing retail displays; benchmark UL 1678-2019 16.2",
			"the unit leans 10 degrees any way without going over, full, bare, with one side stocked first or the low shelves empty"}, tipTilt},
		{Rule{"casters-locked", "Casters locked", diag.Note, "common practice",
			"a unit on casters has all of them locked before it is loaded and when it is in place"}, castersLocked},
	}
}

// unbalanced is the share of the heavier side by which the lighter one may
// differ from it.
const unbalanced = 0.25

// balance compares opposite faces.
func balance(s *subject, r Rule) []diag.Finding {
	if !s.freestanding() {
		return nil
	}
	var found []diag.Finding
	for _, sides := range opposite() {
		a, b := s.a.faceCase(sides[0]), s.a.faceCase(sides[1])
		if a == nil || b == nil {
			continue
		}
		if a.all() < b.all() {
			a, b = b, a
		}
		if a.all()-b.all() <= unbalanced*a.all()*slack || a.all()-b.all() < lightest {
			continue
		}
		found = append(found, r.finding(s.panelAt(a.Face), nil,
			fmt.Sprintf("the %s carries %s and the %s %s, %.1f %% less: %s more than the %.0f %% that may be",
				a.Face, s.mass(grams(a.all())), b.Face, s.mass(grams(b.all())), 100*(1-b.all()/a.all()),
				s.mass(grams((1-unbalanced)*a.all()-b.all())), 100*unbalanced),
			fmt.Sprintf("move %s of goods from the %s to the %s", s.mass(grams((a.all()-b.all())/2)), a.Face, b.Face)))
	}
	return found
}

// opposite is the sides that are compared.
func opposite() [][2]plan.FaceID {
	return [][2]plan.FaceID{{plan.Front, plan.Back}, {plan.Right, plan.Left}}
}

// lightest is the difference, kg, below which sides are not compared: what one
// hand holds.
const lightest = 5

func (f *FaceCase) all() float64 { return f.Hardware + f.Goods }

// grams turns kilograms into an exact weight for printing.
func grams(kilograms float64) measure.Mass {
	return measure.Mass(math.Round(kilograms*1000)) * measure.Gram
}

// The benchmark of UL 1863-2019, sections 22.3 to 22.6: a push of a fifth of the
// weight, at most 250 N, at the top but no higher than 2.0 m; only for what is
// heavier than 25.0 kg and higher than 1.00 m.
const (
	pushShare  = 1.0 / 5
	pushMost   = 250.0  // N
	pushHeight = 2000.0 // mm
	pushMass   = 25.0   // kg
	pushLow    = 1000.0 // mm
)

// push is the benchmark's force in newtons and its height in millimetres, or
// not ok for units it does not apply to.
func push(mass, top float64) (force, height float64, ok bool) {
	if mass <= pushMass || top <= pushLow {
		return 0, 0, false
	}
	return min(mass*gravity*pushShare, pushMost), min(top, pushHeight), true
}

// tipShort is the share of the benchmark below which a unit as shoppers meet it
// must not be built (house rule).
const tipShort = 0.4

// tipForce reports the state that falls shortest of the push asked of it, those
// that must not be before those that only crews meet.
func tipForce(s *subject, r Rule) []diag.Finding {
	if t := s.falls(); t != nil {
		return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
			fmt.Sprintf("%s, it goes over by itself: its centre of gravity is %s outside its feet", stateText(t), s.fine(-t.Arm)),
			"load both sides alternately, or a deeper base")}
	}
	top := mm(s.height())
	var worst *TipCase
	level, least := diag.Caution, 1.0
	for i := range s.a.Tips {
		t := &s.a.Tips[i]
		share, ok := t.ofPush(top)
		if !ok || share >= 1/slack {
			continue
		}
		grave := diag.Caution
		if t.standing() && share < tipShort/slack {
			grave = diag.Stop
		}
		if worst == nil || grave > level || grave == level && share < least/slack {
			worst, level, least = t, grave, share
		}
	}
	if worst == nil {
		return nil
	}
	force, height, _ := push(worst.Body.Mass, top)
	return []diag.Finding{as(level, r.finding(s.Plan.Unit.Stand.At, nil,
		fmt.Sprintf("%s, a push of %s at %s lifts a foot; the benchmark asks for %s: %s short",
			stateText(worst), s.force(least*force), s.length(measure.Length(height*float64(measure.Millimetre))), s.force(force), s.force(force*(1-least))),
		"goods lower and on both sides, a deeper or heavier base, or fix it to the floor (stand: fixed)"))}
}

// falls returns the state and edge over which the unit goes by itself, that by
// most, or nil.
func (s *subject) falls() *TipCase {
	var worst *TipCase
	for i := range s.a.Tips {
		if t := &s.a.Tips[i]; t.Arm < 0 && (worst == nil || t.Arm < worst.Arm*slack) {
			worst = t
		}
	}
	return worst
}

// ofPush is the force that lifts the far feet over the benchmark's, at its
// height; not ok for units that the benchmark does not apply to.
func (t *TipCase) ofPush(top float64) (share float64, ok bool) {
	force, height, ok := push(t.Body.Mass, top)
	if !ok {
		return 0, false
	}
	return t.Body.Mass * gravity * t.Arm / height / force, true
}

// standing reports whether it is a state that shoppers meet, and not one on the
// way to it.
func (t *TipCase) standing() bool { return !strings.HasSuffix(t.State, " first") }

// stateText words a state for a sentence.
func stateText(t *TipCase) string {
	switch t.State {
	case "full", "bare":
		return "when " + t.State
	case "low shelves empty":
		return "with the low shelves empty"
	}
	return "stocked " + t.State
}

// LeastTilt is UL 1678-2019, section 16.2: the incline that carts and stands are
// tested on, degrees.
const LeastTilt = 10.0

func tipTilt(s *subject, r Rule) []diag.Finding {
	var worst *TipCase
	for i := range s.a.Tips {
		if t := &s.a.Tips[i]; worst == nil || t.Tilt < worst.Tilt-1e-9 {
			worst = t
		}
	}
	if worst == nil || worst.Tilt >= LeastTilt-1e-9 || s.falls() != nil { // which is tip-force's to say
		return nil
	}
	places := digits(LeastTilt-worst.Tilt, 1)
	return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
		fmt.Sprintf("%s, it goes over at a lean of %.*f°; the benchmark is %.0f°: %.*f° short", stateText(worst), places, worst.Tilt, LeastTilt, places, LeastTilt-worst.Tilt),
		"load both sides alternately from the bottom up, heavy goods low, or a deeper base")}
}

func castersLocked(s *subject, r Rule) []diag.Finding {
	if s.Stand.Stand.Form != "casters" {
		return nil
	}
	return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
		"the unit stands on casters: lock every one before loading it, and once more when it is in place", "")}
}
