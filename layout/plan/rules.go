package plan

import (
	"fmt"

	"setwright/layout/decode"
	"setwright/layout/diag"
)

// rules reads which rules are off and why: a mapping of rule ids to off, with
// the reason beside them, or a list of such mappings, each with its own reason.
//
//	rules: {sag: off, because: "the maker tested this load"}
//
// Which rules there are is not known here.
func (r *reader) rules(v *decode.Value) {
	items := []*decode.Value{v}
	if v.IsList() {
		items = v.List()
	}
	for _, item := range items {
		if m := item.Map(); m != nil {
			r.waiver(m)
		}
	}
}

func (r *reader) waiver(m *decode.Map) {
	because, off := "", false
	m.Name("because", &because)
	for _, e := range m.Entries() {
		if e.Key == "because" {
			continue
		}
		name, named := e.Name()
		if word, read := e.Value.OneOf("off", "on"); named && read {
			off = off || word == "off"
			r.setRule(m, RuleSetting{ID: Ref{name, e.At}, Off: word == "off", Because: because, At: e.At})
		}
	}
	if off && !m.There("because") {
		m.Fail("missing-key", `a rule is off here without "because"`, "why it does not apply here: sheets print it",
			`write {RULE: off, because: "the reason"}`)
	}
}

// setRule records a setting, unless there is one of the same rule.
func (r *reader) setRule(m *decode.Map, set RuleSetting) {
	if at, twice := r.ruled[set.ID.Name]; twice {
		m.Report(diag.Finding{Level: diag.Error, Code: "duplicate-rule", At: set.At,
			Message: fmt.Sprintf("the rule %q is set twice", set.ID.Name), Fix: "delete one of them",
			Notes: []diag.Related{{At: at, Message: "it is set here already"}}})
		return
	}
	r.ruled[set.ID.Name] = set.At
	r.plan.Rules = append(r.plan.Rules, set)
}
