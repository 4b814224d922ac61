// Package diag is the program's one way of telling its user that something is
// wrong: bad input, a plan that cannot be built, a caution, a note. Findings
// are collected, sorted and printed together; nothing stops at the first.
package diag

// Level says how much a finding matters.
type Level uint8

// The levels, least first. Error is bad input: the file could not be
// understood, nothing is drawn and the exit status is 2. Stop means the plan is
// understood but cannot be built, or is unsafe: it is drawn "not for
// construction" and the exit status is 1.
const (
	Note Level = iota
	Caution
	Stop
	Error
)

// Span is a place in a file: where a word starts and how long it is. Line and
// Col are 1-based, Col and Len count runes. The zero Span is nowhere; a Span
// with a File and no Line is the file as a whole.
type Span struct {
	File           string
	Line, Col, Len int
}

// Finding is one thing to tell the user.
type Finding struct {
	Level    Level
	Code     string   // stable, kebab-case: "unknown-part", "rows-do-not-fit"
	At       Span     // the place to look first
	Message  string   // one sentence, no capital, no full stop: what was found
	Expected string   // what would have been right; "" if the message says it
	Fix      string   // the nearest change that would clear it; "" if none is known
	Source   string   // the standard and section, or "common practice"; "" for bad input
	Where    []string // position addresses on the unit: F-2-3
	Notes    []Related
}

// Related is another place that contributes to a finding.
type Related struct {
	At      Span
	Message string
}

// List collects findings. The zero List is ready to use.
type List struct{ all []Finding }

// Add appends findings.
func (l *List) Add(f ...Finding) { l.all = append(l.all, f...) }
