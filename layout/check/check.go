// Package check judges a dressed unit by rules and says what it finds, with
// the rule's source. It first works out the unit's mechanics, as an Assessment,
// and then applies the rules to unit and assessment. Places are the unit's; it
// measures nothing itself.
package check

import "setwright/layout/unit"

// Run assesses the unit and applies every rule.
func Run(u *unit.Unit) Report {
	s := &subject{Unit: u, a: &Assessment{}}
	report := Report{Assessment: s.a}
	for _, r := range judgedRules() {
		report.Findings = append(report.Findings, r.find(s, r.Rule)...)
	}
	return report
}

// subject is what the rules look at.
type subject struct {
	*unit.Unit
	a *Assessment
}
