package parts

import (
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// TestGrooves reads sheets with grooves, and panels that are cut from them.
func TestGrooves(t *testing.T) {
	base, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	const sheet = "stock:\n  s: {name: S, grooves: 3, sheets: [{length: 48, width: 96}]}\n"
	for _, c := range []struct {
		list, want string
		reason     string
	}{
		{sheet + "parts:\n  p: {like: slat-48x48, cut: {from: s}}\n", "", "a slatwall panel with slots as far apart"},
		{sheet + "parts:\n  p: {like: slat-48x48, cut: {from: s, grain: width}}\n", "", "the grooves run along its width, and it may say so"},
		{sheet + "parts:\n  p: {like: slat-48x48, cut: {from: s, grain: height}}\n", "bad-word", "not along its height"},
		{sheet + "parts:\n  p: {like: slat-48x48, panel: {pitch: 6, count: 8}, cut: {from: s}}\n", "bad-stock", "slots elsewhere than grooves"},
		{sheet + "parts:\n  p: {like: peg-24x48, cut: {from: s}}\n", "bad-stock", "pegboard has no grooves"},
		{sheet + "parts:\n  p: {like: shelf-24x12, cut: {from: s}}\n", "bad-stock", "nor has a shelf"},
		{"stock:\n  b: {name: B, grooves: 3, bars: [{length: 96}]}\n", "wrong-section", "bars have no grooves"},
		{"stock:\n  s: {name: S, grooves: 1/16, sheets: [{length: 48, width: 96}]}\n", "bad-length", "no panel has them as close"},
		{"stock:\n  s: {name: S, grooves: 0, sheets: [{length: 48, width: 96}]}\n", "bad-length", "a distance of nothing"},
	} {
		var found diag.List
		list := Load(base, "house.yaml", []byte(c.list), &found)
		got := ""
		if found.Len() > 0 {
			got = found.All()[0].Code
		}
		if got != c.want {
			t.Errorf("%s: %v, want %q", c.reason, found.All(), c.want)
		}
		if p, ok := list.Find("p"); c.want == "" && (!ok || p.Blank() != (Blank{Along: 48 * measure.Inch, Across: 48 * measure.Inch})) {
			t.Errorf("%s: cut to %+v", strings.TrimSpace(c.list), p.Blank())
		}
	}
}
