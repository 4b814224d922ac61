package plan_test

import (
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/plan"
)

// TestFillErrors is what may be wrong with aims and fills.
func TestFillErrors(t *testing.T) {
	head := "plan: 1\ntitle: T\nunit: {frame: f, stand: s, panels: {front: p}}\n"
	for _, c := range []struct{ text, code, says, reason string }{
		{"aim: most\n", "bad-word", "cover, profit, range", "a word that is no aim"},
		{"aim: {seconds: 5}\n", "missing-key", `"for"`, "seconds without an aim"},
		{"aim: {for: range, seconds: 0}\n", "bad-number", "1 to 600", "no time at all"},
		{"restock: -1\n", "bad-number", "0 to 366", "days backwards"},
		{"dress: {front: [{fill: []}]}\n", "no-goods", "a family", "nothing to fill from"},
		{"dress: {front: [{fill: [{famly: seeds}]}]}\n", "missing-key", `"family"`, "a key misspelt"},
		{"dress: {front: [{fill: [A, A]}]}\n", "duplicate-goods", `"A"`, "one product twice"},
		{"dress: {front: [{fill: [family: a, family: a]}]}\n", "duplicate-goods", `"a"`, "one family twice"},
		{"dress: {front: [{fill: [A], goods: [B]}]}\n", "unknown-key", "goods", "a fill is no row"},
		{"dress: {front: [{use: hook-6, fill: [A], goods: [B]}]}\n", "goods-and-fill", "not both", "a row with goods of its own"},
		{"dress: {front: {fill: [A]}}\n", "missing-key", `"rows"`, "a face with nothing to fill"},
		{"dress: {front: [{fill: [A], bay: 2-1}]}\n", "bad-bay", "backwards", "bays backwards"},
	} {
		var found diag.List
		plan.Decode("p.yaml", []byte(head+c.text), &found)
		hit := false
		for _, f := range found.All() {
			hit = hit || f.Code == c.code && strings.Contains(f.Message+f.Expected+f.Fix, c.says) && f.At.Line == 4
		}
		if !hit {
			t.Errorf("%s: no %s saying %q among %v", c.reason, c.code, c.says, found.All())
		}
	}
}
