// Package check judges a dressed unit by rules and says what it finds, with
// the rule's source. It first works out the unit's mechanics, as an Assessment,
// and then applies the rules to unit and assessment. Places are the unit's; it
// measures nothing itself.
package check

import (
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Run assesses the unit and applies every rule that the plan does not switch
// off.
func Run(u *unit.Unit) Report {
	s := assessed(u, usual)
	report := Report{Assessment: s.a}
	report.Findings = s.judge()
	s.a.Heavier = newly(report.Findings, assessed(u, heavier).judge())
	for _, r := range Rules() {
		if set := waived(u.Plan, r.ID); set != nil {
			report.Waived = append(report.Waived, Waiver{Rule: r.ID, Because: set.Because})
		}
	}
	return report
}

// assessed is the unit with goods of that weight and its mechanics.
func assessed(u *unit.Unit, quarters measure.Mass) *subject {
	s := newSubject(u, quarters)
	s.a = &Assessment{}
	s.weigh()
	s.shelve()
	s.hold()
	s.stand()
	return s
}

// judge applies every rule that is not waived, in their order.
func (s *subject) judge() []diag.Finding {
	var found []diag.Finding
	for _, r := range judgedRules() {
		if waived(s.Plan, r.ID) == nil {
			found = append(found, r.find(s, r.Rule)...)
		}
	}
	return found
}

// waived returns the plan's setting that switches a rule off, or nil.
func waived(p *plan.Plan, id string) *plan.RuleSetting {
	i := slices.IndexFunc(p.Rules, func(set plan.RuleSetting) bool { return set.ID.Name == id && set.Off })
	if i < 0 {
		return nil
	}
	return &p.Rules[i]
}

// newly lists what is found in the second list and not, of the same rule, level
// and places, in the first. The sentences differ by their numbers.
func newly(before, after []diag.Finding) []Newly {
	key := func(f diag.Finding) string {
		return strings.Join(append([]string{f.Code, f.Level.String(), f.At.String()}, f.Where...), " ")
	}
	known := map[string]bool{}
	for _, f := range before {
		known[key(f)] = true
	}
	var list []Newly
	for _, f := range after {
		if !known[key(f)] {
			list = append(list, Newly{f.Code, f.Level, f.Where, f.Message})
		}
	}
	return list
}
