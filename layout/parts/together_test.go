package parts

import (
	"testing"

	"setwright/layout/diag"
)

func TestTogether(t *testing.T) {
	var found diag.List
	load := func(text string) *List { return Load(nil, "parts.yaml", []byte(text), &found) }
	const hook = "{kind: hook, name: Hook, mounts: wire, width: 1, depth: 6, usable: 5, above: 1, below: 1, holds: peg, grip: {slots: 1, sides: 1, width: 1}, price: "
	a := load("suppliers: {fernhill: {name: Fernhill}}\nparts:\n  hook-a: " + hook + "1}\n")
	b := load("suppliers: {oakbeck: {name: Oakbeck}, fernhill: {name: Other}}\nstock: {strip: {name: Strip, bars: [{length: 96}]}}\nparts:\n  hook-b: " + hook + "2}\n  hook-a: " + hook + "3}\n")
	for _, f := range found.All() {
		t.Fatal(f.At, f.Message)
	}
	all := Together(a, b)
	if ids := all.IDs(); len(ids) != 2 || ids[0] != "hook-a" || ids[1] != "hook-b" {
		t.Errorf("parts %q: those of the first list, then what the second adds", ids)
	}
	if p, _ := all.Find("hook-a"); p.Buy.Packs[0].Price != 100 {
		t.Errorf("hook-a costs %v: what both have is as the first has it", p.Buy.Packs[0].Price)
	}
	if s, _ := all.Supplier("fernhill"); s.Name != "Fernhill" || len(all.Suppliers()) != 2 || len(all.Stocks()) != 1 {
		t.Errorf("suppliers and stock come together too: %v, %v", all.Suppliers(), all.Stocks())
	}
	if len(a.IDs()) != 1 || len(a.Suppliers()) != 1 {
		t.Error("the first list has changed")
	}
}
