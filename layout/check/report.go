package check

import "setwright/layout/diag"

// Report is what the rules say of a unit: what they found, the mechanics they
// judged by, and what the plan waives. It is complete when Run returns it.
type Report struct {
	Findings   []diag.Finding // in the order of the unit's faces and rows
	Assessment *Assessment
	Waived     []Waiver
}

// Waiver is a rule that the plan has switched off.
type Waiver struct {
	Rule    string // its id
	Because string // the plan's reason
}

// Rule is one thing that is checked.
type Rule struct {
	ID     string // kebab-case; the code of its findings
	Title  string // a few words, with a capital
	Level  diag.Level
	Source string // the standard and section, or "common practice"
	Says   string // one sentence: what it asks
}
