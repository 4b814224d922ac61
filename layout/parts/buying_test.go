package parts

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

const priced = `measure: in
suppliers:
  fernhill: {name: Fernhill Fittings, minimum: 25, freight: 9.50, free: 150, duty: 4.5}
  oakbeck: {name: Oakbeck Boards}
stock:
  strip-ticket:
    bars: [{length: 96, pack: 10, price: 24, supplier: fernhill}, {length: 48, packs: [{pieces: 5, price: 7}, {pieces: 1, price: 1.60}]}]
parts:
  hook-6: {price: 18.5, supplier: fernhill}
  hook-7: {like: hook-6, name: Peg hook 7}
  hook-8: {supplier: fernhill, minimum: 50, packs: [{pieces: 25, price: 21}, {pieces: 10, price: 9.00}]}
  shelf-24x12: {pack: 6, price: 0}
`

func TestBuying(t *testing.T) {
	list := withHouse(t, priced)
	strip, _ := list.Stock("strip-ticket")
	for _, c := range []struct {
		got, want Buying
		why       string
	}{
		{find(t, list, "hook-6").Buy, Buying{"fernhill", []Pack{{25, 1850}}, 0, 25}, "the price of a pack of the built-in size"},
		{find(t, list, "hook-7").Buy, Buying{"fernhill", []Pack{{25, 1850}}, 0, 25}, "bought like what it is like"},
		{find(t, list, "hook-8").Buy, Buying{"fernhill", []Pack{{10, 900}, {25, 2100}}, 50, 25}, "packs in order of their size"},
		{find(t, list, "shelf-24x12").Buy, Buying{"", []Pack{{6, 0}}, 0, 6}, "free of charge is a price"},
		{find(t, list, "hook-4").Buy, Buying{"", nil, 0, 25}, "no price, and the usual pack"},
		{strip.Sizes[0].Buy, Buying{"fernhill", []Pack{{10, 2400}}, 0, 10}, "bars by the pack"},
		{strip.Sizes[1].Buy, Buying{"", []Pack{{1, 160}, {5, 700}}, 0, 1}, "bars in packs of two sizes"},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.why, diff)
		}
	}
	if p := find(t, list, "strip-ticket"); p.Cut.From != strip || find(t, builtIn(t), "strip-ticket").Cut.From == strip {
		t.Error("a part is not cut from its stock as the last list has it")
	}
	if strip.Name != "Ticket strip" || strip.Kerf != measure.Inch/8 {
		t.Errorf("new sizes of stock take the rest away: %+v", strip)
	}
}

func TestSuppliers(t *testing.T) {
	var found diag.List
	first := withHouse(t, priced)
	second := Load(first, "second.yaml", []byte("suppliers:\n  fernhill: {free: 99.99}\n  marl: {name: Marl Metal, duty: 0.25}\n"), &found)
	want := []*Supplier{
		{ID: "fernhill", Name: "Fernhill Fittings", Minimum: 2500, Freight: 950, Free: 9999, Duty: 450},
		{ID: "oakbeck", Name: "Oakbeck Boards"},
		{ID: "marl", Name: "Marl Metal", Duty: 25},
	}
	if diff := cmp.Diff(want, second.Suppliers(), cmpopts.IgnoreTypes(diag.Span{})); diff != "" || found.Len() > 0 {
		t.Errorf("a list over another (-want +got):\n%s%v", diff, found.All())
	}
	if s, _ := first.Supplier("fernhill"); s.Free != 15000 || len(first.Suppliers()) != 2 {
		t.Errorf("the first list changed: %+v", s)
	}
	if _, found := second.Supplier("nobody"); found {
		t.Error("nobody is a supplier")
	}
}

// checkBuying holds a list to what everything read from it promises.
func checkBuying(t *testing.T, list *List) {
	t.Helper()
	check := func(id string, b Buying) {
		if _, found := list.Supplier(b.Supplier); b.Supplier != "" && !found || b.Minimum < 0 {
			t.Fatalf("kept %s: %+v", id, b)
		}
		for i, p := range b.Packs {
			if p.Pieces < 1 || p.Price < 0 || p.Price > measure.MaxMoney || i > 0 && p.Pieces <= b.Packs[i-1].Pieces {
				t.Fatalf("kept %s: %+v", id, b)
			}
		}
	}
	for _, p := range list.All() {
		check(p.ID, p.Buy)
		if p.Cut != nil && p.Cut.From == nil {
			t.Fatalf("kept %s, cut from nothing", p.ID)
		}
	}
	for _, s := range list.Stocks() {
		for _, z := range s.Sizes {
			check(s.ID, z.Buy)
			if z.Length <= 2*s.Trim || (z.Width > 0) != s.Sheet() {
				t.Fatalf("kept %s: %+v", s.ID, z)
			}
		}
	}
	for _, s := range list.Suppliers() {
		if s.Name == "" || s.Minimum < 0 || s.Freight < 0 || s.Free < 0 || s.Duty < 0 {
			t.Fatalf("kept %+v", s)
		}
	}
}
