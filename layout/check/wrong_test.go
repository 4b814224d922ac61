package check_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/golden"
)

// wrongPlan loads a plan of samples/wrong, changed.
func wrongPlan(t *testing.T, name string, change func(string) string) *layout.Project {
	t.Helper()
	files := fstest.MapFS{}
	for _, file := range []string{name, "goods.csv", "parts.yaml"} {
		text, err := os.ReadFile(filepath.Join("..", "..", "samples", "wrong", file))
		if err != nil {
			t.Fatal(err)
		}
		if file == name {
			text = []byte(change(string(text)))
		}
		files[file] = &fstest.MapFile{Data: text}
	}
	p := layout.Load(files, name)
	if p.Unit == nil {
		t.Fatalf("%s is not even a plan: %+v", name, p.Findings.All())
	}
	return p
}

func asItIs(text string) string { return text }

func unsprinkled(text string) string {
	return strings.Replace(text, "sprinklers: true, deflectors: 7ft", "sprinklers: false", 1)
}

// TestWrong wants every rule to find the wrong gondola wrong, at the rule's own
// level, and none of them the mended one.
func TestWrong(t *testing.T) {
	wrong, open := wrongPlan(t, "plan.yaml", asItIs), wrongPlan(t, "plan.yaml", unsprinkled)
	for _, r := range check.Rules() {
		found := fired(wrong.Report, r.ID)
		if r.ID == "ceiling" { // asked only where there are no sprinklers
			found = fired(open.Report, r.ID)
		}
		if len(found) == 0 {
			t.Errorf("%s finds nothing wrong with the wrong gondola", r.ID)
			continue
		}
		if !slices.ContainsFunc(found, func(f diag.Finding) bool { return f.Level == r.Level }) && r.ID != "aisle" {
			t.Errorf("%s finds nothing of level %s: %v", r.ID, r.Level, found)
		}
	}
	for _, change := range []func(string) string{asItIs, unsprinkled} {
		mended := wrongPlan(t, "mended.yaml", change)
		if found := mended.Findings.All(); len(found) > 0 {
			t.Errorf("the mended gondola has findings: %+v", found)
		}
	}
}

// TestWrongSays wants every finding to say by how much, why, and what would
// clear it.
func TestWrongSays(t *testing.T) {
	for _, f := range wrongPlan(t, "plan.yaml", asItIs).Report.Findings {
		if f.Code != "casters-locked" && (!strings.ContainsAny(f.Message, "0123456789") || f.Fix == "") {
			t.Errorf("%s: no numbers or no fix: %+v", f.Code, f)
		}
		if !strings.HasSuffix(f.Source, check.Deference) {
			t.Errorf("%s does not defer: %s", f.Code, f.Source)
		}
		if f.At.Line == 0 {
			t.Errorf("%s is nowhere in the plan", f.Code)
		}
	}
}

// TestWrongText keeps every sentence the rules can say where it can be read.
func TestWrongText(t *testing.T) {
	var text strings.Builder
	wrong, open := wrongPlan(t, "plan.yaml", asItIs), wrongPlan(t, "plan.yaml", unsprinkled)
	for _, r := range check.Rules() {
		found := fired(wrong.Report, r.ID)
		if r.ID == "ceiling" {
			found = fired(open.Report, r.ID)
		}
		for _, f := range found {
			fmt.Fprintf(&text, "%s (%s): %s\n    fix: %s\n    at: %s\n    source: %s\n", f.Code, f.Level, f.Message, f.Fix, strings.Join(f.Where, ", "), f.Source)
		}
	}
	golden.Check(t, filepath.Join("testdata", "wrong.txt"), text.String())
}
