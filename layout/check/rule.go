package check

import (
	"slices"

	"setwright/layout/diag"
)

// Deference ends the source of every finding: none of the rules is a
// certificate.
const Deference = "local code and the makers' ratings come first"

// judged is a rule and what applies it.
type judged struct {
	Rule
	find func(*subject, Rule) []diag.Finding
}

// Rules lists every rule, in the order the findings sheet tells them.
func Rules() []Rule {
	var list []Rule
	for _, r := range judgedRules() {
		list = append(list, r.Rule)
	}
	return list
}

// judgedRules is every rule there is.
func judgedRules() []judged {
	return slices.Concat(loadRules(), bendingRules(), standRules(), accessRules(), siteRules(), stockRules())
}

// finding is what every finding of the rule has in common.
func (r Rule) finding(at diag.Span, where []string, message, fix string) diag.Finding {
	return diag.Finding{
		Level: r.Level, Code: r.ID, At: at, Where: where, Message: message, Fix: fix,
		Source: r.Source + "; " + Deference,
	}
}

// as is the finding at another level than the rule's gravest.
func as(level diag.Level, f diag.Finding) diag.Finding {
	f.Level = level
	return f
}
