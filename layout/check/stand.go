package check

import (
	"fmt"
	"math"

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
			"a level push of a fifth of the weight, at most 250 N (56 lb), at the top or at 2.0 m lifts no caster (a caution), and one of 45 N (10 lb) at 1.4 m never does (a stop), full, bare, with one side stocked first or the low shelves empty"}, tipForce},
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
	for _, sides := range [][2]plan.FaceID{{plan.Front, plan.Back}, {plan.Right, plan.Left}} {
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
			fmt.Sprintf("the %s carries %s and the %s %s: %s lighter, more than %s",
				a.Face, s.mass(grams(a.all())), b.Face, s.mass(grams(b.all())), percent(1-b.all()/a.all()), percent(unbalanced)),
			fmt.Sprintf("move %s from the %s to the %s", s.mass(grams((a.all()-b.all())/2)), a.Face, b.Face)))
	}
	return found
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

// lightPush is what must never lift a caster: about what a small child pulls
// with, N (10 lb; house rule).
const lightPush = 10 * poundForce

// push is the benchmark's force in newtons and its height in millimetres, or
// not ok for units it does not apply to.
func push(mass, top float64) (force, height float64, ok bool) {
	if mass <= pushMass || top <= pushLow {
		return 0, 0, false
	}
	return min(mass*gravity*pushShare, pushMost), min(top, pushHeight), true
}

// tipForce reports the state that goes over most easily for the push asked of it.
func tipForce(s *subject, r Rule) []diag.Finding {
	at, top := s.Plan.Unit.Stand.At, mm(s.height())
	var weakest, worst *TipCase
	least := 1.0
	for i := range s.a.Tips {
		t := &s.a.Tips[i]
		if weakest == nil || t.Force1400 < weakest.Force1400/slack {
			weakest = t
		}
		force, height, ok := push(t.Body.Mass, top)
		if ok && t.ForceTop*top/height < force*least/slack {
			worst, least = t, t.ForceTop*top/(height*force)
		}
	}
	fix := "a deeper or heavier base, goods lower and on both sides, or fix it to the floor (stand: fixed)"
	if weakest != nil && weakest.Force1400 < lightPush/slack {
		return []diag.Finding{r.finding(at, nil,
			fmt.Sprintf("%s, a push of %s at %s lifts a caster: less than %s, the least that may",
				stateText(weakest), s.force(max(weakest.Force1400, 0)), s.length(measure.Length(min(shoulder, top))*measure.Millimetre), s.force(lightPush)), fix)}
	}
	if worst == nil {
		return nil
	}
	force, height, _ := push(worst.Body.Mass, top)
	return []diag.Finding{as(diag.Caution, r.finding(at, nil,
		fmt.Sprintf("%s, a push of %s at %s lifts a caster; the benchmark asks for %s: %s short",
			stateText(worst), s.force(worst.ForceTop*top/height), s.length(measure.Length(math.Round(height))*measure.Millimetre), s.force(force), s.force(force*(1-least))), fix))}
}

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

// leastTilt is UL 1678-2019, section 16.2: the incline that carts and stands are
// tested on, degrees.
const leastTilt = 10.0

func tipTilt(s *subject, r Rule) []diag.Finding {
	var worst *TipCase
	for i := range s.a.Tips {
		if t := &s.a.Tips[i]; worst == nil || t.Tilt < worst.Tilt-1e-9 {
			worst = t
		}
	}
	if worst == nil || worst.Tilt >= leastTilt-1e-9 {
		return nil
	}
	return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
		fmt.Sprintf("%s it goes over at a lean of %.1f°; the benchmark is %.0f°: %.1f° short", stateText(worst), worst.Tilt, leastTilt, leastTilt-worst.Tilt),
		"load both sides alternately from the bottom up, heavy goods low, or a deeper base")}
}

func castersLocked(s *subject, r Rule) []diag.Finding {
	if s.Stand.Stand.Form != "casters" {
		return nil
	}
	return []diag.Finding{r.finding(s.Plan.Unit.Stand.At, nil,
		"the unit stands on casters: lock every one before loading it, and once more when it is in place", "")}
}
