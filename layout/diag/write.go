package diag

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// How findings are worded, kept everywhere: the first line is the place, the
// level and one sentence without capital or full stop; what follows is
// indented and labelled, so that a reader can skip it and a script can find it.

// WriteText prints the findings for people:
//
//	plan.yaml:12:9: error: unknown part "hok-6"
//	    expected: a part id
//	    fix: write "hook-6"
//	    at: F-2-3
//	    see plan.yaml:3:8: the parts file named here
//	    source: common practice
func (l *List) WriteText(w io.Writer) error {
	var b strings.Builder
	for _, f := range l.all {
		f.text(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (f Finding) text(b *strings.Builder) {
	fmt.Fprintf(b, "%s%s: %s\n", placed(f.At), f.Level, OneLine(f.Message))
	label := func(name, text string) {
		if text != "" {
			fmt.Fprintf(b, "    %s: %s\n", name, OneLine(text))
		}
	}
	label("expected", f.Expected)
	label("fix", f.Fix)
	label("at", strings.Join(f.Where, ", "))
	for _, n := range f.Notes {
		fmt.Fprintf(b, "    see %s%s\n", placed(n.At), OneLine(n.Message))
	}
	label("source", f.Source)
}

// placed is the place and a colon, or nothing for nowhere.
func placed(s Span) string {
	if at := OneLine(s.String()); at != "" {
		return at + ": "
	}
	return ""
}

// OneLine makes text from a file safe to print on one line of a terminal:
// control characters and the marks that turn the writing direction are shown
// as their code points, and so is what is not UTF-8.
func OneLine(s string) string {
	var b strings.Builder
	for _, r := range s {
		if Unprintable(r) {
			fmt.Fprintf(&b, "<U+%04X>", r)
			continue
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Unprintable says whether a rune would disturb a terminal or a sheet: control
// characters, direction marks (Unicode UAX #9), line separators, a byte order
// mark inside a text, and the replacement character that stands for bytes which
// are not UTF-8.
func Unprintable(r rune) bool {
	switch {
	case r < 0x20, 0x7f <= r && r < 0xa0:
		return true
	case r == 0x061c, 0x200e <= r && r <= 0x200f, 0x2028 <= r && r <= 0x202e, 0x2066 <= r && r <= 0x2069:
		return true
	}
	return r == 0xfeff || r == 0xfffd || r == 0xfffe || r == 0xffff
}

// jsonFinding gives the JSON of a finding its field names, which are stable.
// Fields that say nothing are left out, save level, code and message.
type jsonFinding struct {
	Level    Level         `json:"level"`
	Code     string        `json:"code"`
	At       *jsonSpan     `json:"at,omitempty"`
	Message  string        `json:"message"`
	Expected string        `json:"expected,omitempty"`
	Fix      string        `json:"fix,omitempty"`
	Source   string        `json:"source,omitempty"`
	Where    []string      `json:"where,omitempty"`
	Notes    []jsonRelated `json:"notes,omitempty"`
}

// jsonSpan is a place: line and column count from 1, columns and lengths are
// in Unicode code points.
type jsonSpan struct {
	File   string `json:"file,omitempty"`
	Line   int    `json:"line,omitempty"`
	Column int    `json:"column,omitempty"`
	Length int    `json:"length,omitempty"`
}

type jsonRelated struct {
	At      *jsonSpan `json:"at,omitempty"`
	Message string    `json:"message"`
}

// MarshalJSON writes a finding with the fields level, code, at {file, line,
// column, length}, message, expected, fix, source, where and notes [{at,
// message}].
func (f Finding) MarshalJSON() ([]byte, error) { return json.Marshal(f.json()) }

func (f Finding) json() jsonFinding {
	j := jsonFinding{Level: f.Level, Code: f.Code, At: f.At.json(), Message: f.Message,
		Expected: f.Expected, Fix: f.Fix, Source: f.Source, Where: f.Where}
	for _, n := range f.Notes {
		j.Notes = append(j.Notes, jsonRelated{n.At.json(), n.Message})
	}
	return j
}

func (s Span) json() *jsonSpan {
	if s == (Span{}) {
		return nil
	}
	return &jsonSpan{s.File, s.Line, s.Col, s.Len}
}

// WriteJSON prints the findings as one JSON array, [] if there are none.
func (l *List) WriteJSON(w io.Writer) error {
	all := make([]jsonFinding, len(l.all))
	for i, f := range l.all {
		all[i] = f.json()
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(all)
}
