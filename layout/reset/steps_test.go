package reset_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// dress dresses the bare unit of that number with these rows of faces.
func dress(t *testing.T, bare int, faces string) *unit.Unit {
	t.Helper()
	text := "plan: 1\ntitle: Test\nmeasure: in\nlift: 5lb\ngoods: [wares.csv]\nunit: " + bareUnits[bare].unit + "\ndress:\n" + faces
	p := layout.Parse(fstest.MapFS{"wares.csv": {Data: []byte(wares)}}, "plan.yaml", []byte(text))
	if p.Unit == nil || p.Findings.Has(diag.Error) {
		t.Fatalf("%v\n%s", p.Findings.All(), text)
	}
	return p.Unit
}

// told is the steps in short: verb, rows, pieces or facings.
func told(r *reset.Reset) string {
	var b strings.Builder
	for _, s := range r.Steps {
		from, to := "-", "-"
		if s.From != nil {
			from = s.From.Address
		}
		if s.To != nil {
			to = s.To.Address
		}
		fmt.Fprintf(&b, "%s %s %s %d", s.Verb, from, to, len(s.Acts))
		if s.People > 1 {
			fmt.Fprintf(&b, ", %d people", s.People)
		}
		if s.Caution != "" {
			fmt.Fprintf(&b, ", %s", s.Caution)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// TestSteps holds small resets against the steps a crew would take, worked out by
// hand.
func TestSteps(t *testing.T) {
	tests := []struct{ reason, old, new, want string }{
		{"nothing changes", "  front:\n    - {use: hook-6, bay: 1, at: 60in, goods: [SEED]}\n", "  front:\n    - {use: hook-6, bay: 1, at: 60in, goods: [SEED]}\n", ""},
		{"a free place: straight there",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1, align: left}\n",
			"  front:\n    - {use: hook-6, bay: 2, at: 30in, count: 1, align: left}\n",
			"move F-1 F-1 1\n"},
		{"two pieces change places: one of them waits, the lighter",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1}\n    - {use: hook-8, bay: 1, at: 30in, count: 1}\n",
			"  front:\n    - {use: hook-8, bay: 1, at: 60in, count: 1}\n    - {use: hook-6, bay: 1, at: 30in, count: 1}\n",
			"set aside F-1 - 1\nmove F-2 F-1 1\nhang - F-2 1\n"},
		{"what goes makes room for what follows it",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1}\n    - {use: hook-8, bay: 1, at: 30in, count: 1}\n",
			"  front:\n    - {use: hook-8, bay: 1, at: 60in, count: 1}\n",
			"take down F-1 - 1\nmove F-2 F-1 1\n"},
		{"a shelf goes with its brackets: emptied, lifted off, laid on again; it is over the lift",
			"  front:\n    - {use: shelf-24x12, bay: 1, at: 51in, goods: [TIN]}\n",
			"  front:\n    - {use: shelf-24x12, bay: 2, at: 51in, goods: [TIN]}\n",
			"take off F-1 - 6\nset aside F-1 - 1, 2 people\nmove F-1 F-1 2\nhang - F-1 1, 2 people\nput on - F-1 6\n"},
		{"a spine is held from one side at a time",
			"  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 1}\n",
			"  back:\n    - {use: hook-8, bay: 2, at: 60in, count: 1}\n",
			"take down F-1 - 1\nhang - B-1 1\n"},
	}
	for _, test := range tests {
		r := reset.Make(dress(t, 0, test.old), dress(t, 0, test.new), reset.Options{})
		if err := replay(r); err != nil {
			t.Errorf("%s: %v", test.reason, err)
		}
		if got := told(r); got != test.want {
			t.Errorf("%s:\n%swant\n%s", test.reason, got, test.want)
		}
	}
}

// TestCautions moves the only shelf of one side, with heavy goods on both: it has
// to be emptied, no order keeps the sides alike, and the reset says from when to
// when and how far: nine boots of 3 lb on a shelf of 5.5 on two brackets of 0.9,
// and 5 kg as the least that is compared.
func TestCautions(t *testing.T) {
	const shelf = "    - {use: shelf-24x12, bay: 1, at: %din, goods: {BOOT: 3}}\n"
	tests := []struct {
		reason string
		rules  string
		want   string
	}{
		{"tipping is graver than balance", "", "after steps 1 to 4 a push of 49 % of the benchmark's lifts a foot; 55 % is the least tonight"},
		{"with tipping waived there is the balance", "rules: {tip-force: off, tip-tilt: off, because: it is bolted down}\n", "after steps 1 to 4 the back carries 34.3 lb and the front 1.8 lb: 32.5 lb more, and 11.0 lb is the limit tonight"},
	}
	for _, test := range tests {
		at := func(front int) *unit.Unit {
			return dress(t, 0, fmt.Sprintf("  front:\n"+shelf+"  back:\n"+shelf, front, 18)+test.rules)
		}
		r := reset.Make(at(18), at(24), reset.Options{})
		if err := replay(r); err != nil {
			t.Fatal(err)
		}
		if len(r.Findings) != 1 || r.Findings[0].Level != diag.Caution || r.Findings[0].Message != test.want {
			t.Errorf("%s:\n%s%v\nwant %s", test.reason, told(r), r.Findings, test.want)
		}
	}
}
