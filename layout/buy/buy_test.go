package buy

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

const sellers = `suppliers:
  fernhill: {name: Fernhill Fittings, minimum: 40, freight: 12, free: 100, duty: 4.5}
  oakbeck: {name: Oakbeck Boards, freight: 30, free: 200}
  marl: {name: Marl Metal}
`

func listOf(t testing.TB, text string) *parts.List {
	t.Helper()
	base, err := parts.BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	var found diag.List
	list := parts.Load(base, "house.yaml", []byte(text), &found)
	if found.Len() > 0 {
		t.Fatal(found.All())
	}
	return list
}

func item(id string, needed, onHand int, supplier string, minimum int, packs ...parts.Pack) Item {
	return Item{ID: id, Name: "A " + id, Needed: needed, OnHand: onHand,
		Buying: parts.Buying{Supplier: supplier, Packs: packs, Minimum: minimum, Usual: 25}}
}

// text is a purchase as lines a person can read.
func text(p Purchase) []string {
	var lines []string
	for _, o := range p.Orders {
		name := "nobody"
		if o.Supplier != nil {
			name = o.Supplier.ID
		}
		flags := ""
		for flag, set := range map[string]bool{" under": o.Under, " unproven": !o.Proven} {
			if set {
				flags += flag
			}
		}
		lines = append(lines, fmt.Sprintf("%s: goods %v freight %v duty %v total %v added %v unpriced %d%s",
			name, o.Goods, o.Freight, o.Duty, o.Total, o.Added, o.Unpriced, flags))
		for _, l := range o.Lines {
			lines = append(lines, lineText(l))
		}
	}
	for _, l := range p.Held {
		lines = append(lines, "held"+lineText(l))
	}
	return append(lines, fmt.Sprintf("all: goods %v freight %v duty %v total %v unpriced %d worth %v wants %d",
		p.Goods, p.Freight, p.Duty, p.Total, p.Unpriced, p.Worth, p.Wants))
}

func lineText(l Line) string {
	s := fmt.Sprintf("  %s: %d - %d = %d short;", l.ID, l.Needed, l.OnHand, l.Short)
	for _, p := range l.Packs {
		s += fmt.Sprintf(" %d x %d at %v", p.Count, p.Pieces, p.Price)
	}
	return s + fmt.Sprintf(" = %d for %v, %d spare, worth %v", l.Pieces, l.Cost, l.Spare, l.Worth)
}

func TestPlan(t *testing.T) {
	list := listOf(t, sellers)
	for _, c := range []struct {
		items []Item
		want  []string
		found []string
		why   string
	}{
		{nil, []string{"all: goods 0.00 freight 0.00 duty 0.00 total 0.00 unpriced 0 worth 0.00 wants 0"}, nil, "nothing is needed"},
		{[]Item{item("hook", 46, 4, "marl", 0, parts.Pack{Pieces: 10, Price: 900}, parts.Pack{Pieces: 25, Price: 1850})},
			[]string{
				"marl: goods 36.50 freight 0.00 duty 0.00 total 36.50 added 0.00 unpriced 0",
				"  hook: 46 - 4 = 42 short; 2 x 10 at 9.00 1 x 25 at 18.50 = 45 for 36.50, 3 spare, worth 34.04",
				"all: goods 36.50 freight 0.00 duty 0.00 total 36.50 unpriced 0 worth 34.04 wants 0"}, nil,
			"what is short, in the cheapest packs; 46 of the 50 that 37.00 would buy are worth 34.04"},
		{[]Item{item("hook", 5, 9, "marl", 0, parts.Pack{Pieces: 10, Price: 900}), item("sign", 1, 1, "", 0)},
			[]string{
				"held  hook: 5 - 9 = 0 short; = 0 for 0.00, 4 spare, worth 4.50",
				"held  sign: 1 - 1 = 0 short; = 0 for 0.00, 0 spare, worth 0.00",
				"all: goods 0.00 freight 0.00 duty 0.00 total 0.00 unpriced 0 worth 4.50 wants 1"}, nil, "all on hand, and worth something"},
		{[]Item{item("hook", 5, 0, "marl", 40, parts.Pack{Pieces: 10, Price: 900})},
			[]string{
				"marl: goods 36.00 freight 0.00 duty 0.00 total 36.00 added 0.00 unpriced 0",
				"  hook: 5 - 0 = 5 short; 4 x 10 at 9.00 = 40 for 36.00, 35 spare, worth 4.50",
				"all: goods 36.00 freight 0.00 duty 0.00 total 36.00 unpriced 0 worth 4.50 wants 0"}, nil, "the least number of pieces sent"},
		{[]Item{item("hook", 5, 0, "fernhill", 0, parts.Pack{Pieces: 10, Price: 900})},
			[]string{
				"fernhill: goods 45.00 freight 12.00 duty 2.03 total 59.03 added 36.00 unpriced 0",
				"  hook: 5 - 0 = 5 short; 5 x 10 at 9.00 = 50 for 45.00, 45 spare, worth 4.50",
				"all: goods 45.00 freight 12.00 duty 2.03 total 59.03 unpriced 0 worth 4.50 wants 0"},
			[]string{"note order-filled-up: goods for 36.00 more than needed are ordered of Fernhill Fittings, to reach the minimum of 40.00"},
			"packs added to reach a minimum"},
		{[]Item{item("shelf", 9, 0, "oakbeck", 0, parts.Pack{Pieces: 2, Price: 3700}), item("hook", 5, 0, "marl", 0, parts.Pack{Pieces: 1, Price: 9}),
			item("clip", 4, 0, "oakbeck", 0, parts.Pack{Pieces: 10, Price: 250})},
			[]string{
				"oakbeck: goods 200.00 freight 0.00 duty 0.00 total 200.00 added 12.50 unpriced 0",
				"  shelf: 9 - 0 = 9 short; 5 x 2 at 37.00 = 10 for 185.00, 1 spare, worth 166.50",
				"  clip: 4 - 0 = 4 short; 6 x 10 at 2.50 = 60 for 15.00, 56 spare, worth 1.00",
				"marl: goods 0.45 freight 0.00 duty 0.00 total 0.45 added 0.00 unpriced 0",
				"  hook: 5 - 0 = 5 short; 5 x 1 at 0.09 = 5 for 0.45, 0 spare, worth 0.45",
				"all: goods 200.45 freight 0.00 duty 0.00 total 200.45 unpriced 0 worth 167.95 wants 0"},
			[]string{"note order-filled-up: goods for 12.50 more than needed are ordered of Oakbeck Boards: from 200.00 delivery is free and saves 30.00"},
			"five packs of clips are cheaper than freight"},
		{[]Item{item("hook", 30, 0, "fernhill", 0), item("sign", 1, 0, "fernhill", 0, parts.Pack{Pieces: 1, Price: 350}), item("strip", 2, 0, "", 30)},
			[]string{
				"fernhill: goods 3.50 freight 12.00 duty 0.16 total 15.66 added 0.00 unpriced 1",
				"  hook: 30 - 0 = 30 short; 2 x 25 at 0.00 = 50 for 0.00, 20 spare, worth 0.00",
				"  sign: 1 - 0 = 1 short; 1 x 1 at 3.50 = 1 for 3.50, 0 spare, worth 3.50",
				"nobody: goods 0.00 freight 0.00 duty 0.00 total 0.00 added 0.00 unpriced 1",
				"  strip: 2 - 0 = 2 short; 2 x 25 at 0.00 = 50 for 0.00, 48 spare, worth 0.00",
				"all: goods 3.50 freight 12.00 duty 0.16 total 15.66 unpriced 2 worth 3.50 wants 2"},
			[]string{"note price-missing: 2 of 3 things to buy have no price, and sums are without them: hook, strip"},
			"no price: packs of the usual size, and nothing added to an order whose sum is not known"},
		{[]Item{item("hook", 30, 0, "", 0)},
			[]string{
				"nobody: goods 0.00 freight 0.00 duty 0.00 total 0.00 added 0.00 unpriced 1",
				"  hook: 30 - 0 = 30 short; 2 x 25 at 0.00 = 50 for 0.00, 20 spare, worth 0.00",
				"all: goods 0.00 freight 0.00 duty 0.00 total 0.00 unpriced 1 worth 0.00 wants 1"},
			[]string{"note price-missing: no price is known: what to buy is counted in pieces only"}, "no prices at all"},
		{[]Item{item("gift", 3, 0, "fernhill", 0, parts.Pack{Pieces: 1, Price: 0})},
			[]string{
				"fernhill: goods 0.00 freight 12.00 duty 0.00 total 12.00 added 0.00 unpriced 0 under",
				"  gift: 3 - 0 = 3 short; 3 x 1 at 0.00 = 3 for 0.00, 0 spare, worth 0.00",
				"all: goods 0.00 freight 12.00 duty 0.00 total 12.00 unpriced 0 worth 0.00 wants 0"},
			[]string{"caution under-minimum: the order of Fernhill Fittings comes to 0.00, under the minimum of 40.00"}, "no number of free pieces reaches a minimum"},
	} {
		p, found := Plan(c.items, list, measure.Inches)
		if diff := cmp.Diff(c.want, text(p)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.why, diff)
		}
		var said []string
		for _, f := range found {
			said = append(said, fmt.Sprintf("%v %s: %s", f.Level, f.Code, f.Message))
		}
		if diff := cmp.Diff(c.found, said); diff != "" {
			t.Errorf("%s: findings (-want +got):\n%s", c.why, diff)
		}
	}
}

// TestPlanAddsUp: everything needed is there once, covered, and every sum is the
// sum of its parts, whatever is needed.
func TestPlanAddsUp(t *testing.T) {
	list := listOf(t, sellers)
	for seed := range uint64(500) {
		r := rand.New(rand.NewPCG(seed, 31))
		var items []Item
		for i := range r.IntN(9) {
			it := item(fmt.Sprint("p", i), r.IntN(60), r.IntN(30), []string{"", "fernhill", "oakbeck", "marl", "gone"}[r.IntN(5)], r.IntN(3)*7)
			for k := range r.IntN(3) {
				it.Buying.Packs = append(it.Buying.Packs, parts.Pack{Pieces: 1 + 9*k + r.IntN(9), Price: measure.Money(r.IntN(2000))})
			}
			items = append(items, it)
		}
		p, _ := Plan(items, list, measure.Inches)
		checkSums(t, p)
		seen := map[string]bool{}
		for _, l := range allLines(p) {
			if seen[l.ID] {
				t.Fatalf("seed %d: %s is there twice", seed, l.ID)
			}
			seen[l.ID] = true
			if l.OnHand+l.Pieces < l.Needed || l.Spare != l.OnHand+l.Pieces-l.Needed || l.Pieces > 0 && l.Pieces < l.Buying.Minimum {
				t.Fatalf("seed %d: %s", seed, lineText(l))
			}
		}
		if len(seen) != len(items) {
			t.Fatalf("seed %d: %d of %d items", seed, len(seen), len(items))
		}
	}
}

func allLines(p Purchase) []Line {
	lines := p.Held
	for _, o := range p.Orders {
		lines = append(lines[:len(lines):len(lines)], o.Lines...)
	}
	return lines
}

func checkSums(t *testing.T, p Purchase) {
	t.Helper()
	var all, worth measure.Money
	for _, o := range p.Orders {
		var goods measure.Money
		for _, l := range o.Lines {
			var cost measure.Money
			pieces := 0
			for _, k := range l.Packs {
				cost += k.Price * measure.Money(k.Count)
				pieces += k.Pieces * k.Count
			}
			if cost != l.Cost || pieces != l.Pieces {
				t.Fatalf("%s comes to %d for %v", lineText(l), pieces, cost)
			}
			goods += cost
		}
		all += o.Goods + o.Freight + o.Duty
		if goods != o.Goods || o.Total != o.Goods+o.Freight+o.Duty || !o.Proven {
			t.Fatalf("goods %v: %+v", goods, o)
		}
		if s := o.Supplier; s != nil && o.Unpriced == 0 && o.Goods < s.Minimum != o.Under {
			t.Fatalf("under the minimum, or not: %+v", o)
		}
	}
	for _, l := range allLines(p) {
		worth += l.Worth
	}
	if all != p.Total || p.Total != p.Goods+p.Freight+p.Duty || worth != p.Worth {
		t.Fatalf("in all %v worth %v: %+v", all, worth, p)
	}
}

func TestShortage(t *testing.T) {
	list := listOf(t, sellers)
	var items []Item
	for i := range 10 {
		items = append(items, item(fmt.Sprint("p", i), i, 1, "", 0))
	}
	p, _ := Plan(items, list, measure.Inches)
	found := p.Shortage(measure.Inches)
	want := "what is on hand is short of 36 pieces, 8 things: 1 p2, 2 p3, 3 p4, 4 p5, 5 p6, 6 p7, 7 p8, 8 p9"
	if len(found) != 1 || found[0].Message != want {
		t.Errorf("%v, want %s", found, want)
	}
	items = append(items, Item{ID: "tube", Length: 96 * measure.Inch, Needed: 3})
	p, _ = Plan(items, list, measure.Inches)
	if got := p.Shortage(measure.Inches)[0].Message; got != "what is on hand is short of 39 pieces, 9 things: 1 p2, 2 p3, 3 p4, 4 p5, 5 p6, 6 p7, 7 p8, 8 p9 and 1 more" {
		t.Errorf("many things: %s", got)
	}
	if p, _ = Plan(items[:2], list, measure.Inches); p.Shortage(measure.Inches) != nil || p.Empty() {
		t.Errorf("nothing is short: %v", p.Shortage(measure.Inches))
	}
}

func BenchmarkPlan(b *testing.B) {
	list := listOf(b, sellers)
	var items []Item
	for i := range 30 {
		pieces := 5 + i%9
		price := measure.Money(95*pieces + 7*i)
		items = append(items, item(fmt.Sprint("p", i), 10+7*i%50, i%8, []string{"fernhill", "oakbeck", "marl"}[i%3], 0,
			parts.Pack{Pieces: pieces, Price: price}, parts.Pack{Pieces: 4 * pieces, Price: 4*price - 121}))
	}
	b.ReportAllocs()
	for b.Loop() {
		Plan(items, list, measure.Inches)
	}
}
