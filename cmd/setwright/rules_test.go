package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"setwright/layout/check"
	"setwright/layout/diag"
)

// TestEveryRuleIsTold wants each rule listed once, with all that a designer must
// know of it.
func TestEveryRuleIsTold(t *testing.T) {
	var b strings.Builder
	if err := writeRules(&b, check.Rules()); err != nil {
		t.Fatal(err)
	}
	told := "\n" + b.String()
	for _, r := range check.Rules() {
		if strings.Count(told, "\n"+r.ID+" (") != 1 {
			t.Errorf("%s is not listed once", r.ID)
		}
		if r.Title == "" || r.Says == "" || r.Source == "" || r.Level > diag.Stop {
			t.Errorf("%s lacks something: %+v", r.ID, r)
		}
		if r.ID == "because" || strings.Trim(r.ID, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
			t.Errorf("a plan cannot name the rule %q", r.ID)
		}
	}
	for line := range strings.Lines(told) {
		if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
			t.Errorf("a line of %d characters: %s", n, line)
		}
	}
}

func TestWrapped(t *testing.T) {
	long := strings.Repeat("x", 100)
	for _, c := range []struct{ text, want, reason string }{
		{"one two", "    one two\n", "a short line"},
		{strings.Repeat("seven77 ", 10), "    seven77 seven77 seven77 seven77 seven77 seven77 seven77 seven77 seven77\n    seven77\n", "a tenth word would end at column 83"},
		{"a " + long + " b", "    a\n    " + long + "\n    b\n", "a word longer than a line keeps whole"},
	} {
		var b strings.Builder
		wrapped(&b, c.text)
		if b.String() != c.want {
			t.Errorf("%s: %q, want %q", c.reason, b.String(), c.want)
		}
	}
}
