package cutfile

import (
	"slices"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/saw"
)

const in = measure.Inch

func TestParseSize(t *testing.T) {
	for _, c := range []struct {
		word   string
		bare   measure.System
		want   Size
		ok     bool
		reason string
	}{
		{"96", measure.Inches, Size{Length: 96 * in, Held: -1}, true, "a bar, any number, no price"},
		{"8ft@21.50", measure.Inches, Size{Length: 96 * in, Price: 2150, Priced: true, Held: -1}, true, "a unit and a price"},
		{"96 x 48 @ 42.5 * 3", measure.Inches, Size{Length: 96 * in, Width: 48 * in, Price: 4250, Priced: true, Held: 3}, true, "all of it, with blanks"},
		{"2440x1220*0", measure.Millimetres, Size{Length: 2440 * measure.Millimetre, Width: 1220 * measure.Millimetre, Held: 0}, true, "none on hand is none at all"},
		{"0", measure.Inches, Size{}, false, "no length"},
		{"96x", measure.Inches, Size{}, false, "a width that is not there"},
		{"96@", measure.Inches, Size{}, false, "a price that is not there"},
		{"96*-1", measure.Inches, Size{}, false, "fewer than none"},
		{"", measure.Inches, Size{}, false, "nothing"},
	} {
		got, err := ParseSize(c.word, c.bare)
		if (err == nil) != c.ok || c.ok && got != c.want {
			t.Errorf("%q: %+v, %v: %s", c.word, got, err, c.reason)
		}
	}
}

// TestStock holds what a size on the list means for what can be taken and bought.
func TestStock(t *testing.T) {
	for _, c := range []struct {
		size         string
		held, bought int
		reason       string
	}{
		{"{length: 96}", 0, 1, "any number"},
		{"{length: 96, price: 3}", 0, 1, "any number at that price"},
		{"{length: 96, on hand: 2}", 2, 0, "these and no more"},
		{"{length: 96, on hand: 2, price: 3}", 2, 1, "these, then more at that price"},
	} {
		var found diag.List
		f := YAML("list.yaml", []byte("cut: 1\ntitle: T\nstock: ["+c.size+"]\npieces: [{length: 10}]\n"), &found)
		if f == nil {
			t.Fatalf("%s: %v", c.size, found.All())
		}
		held := 0
		for _, h := range f.Job.OnHand {
			held += h.Count
		}
		if held != c.held || len(f.Job.Stock.Sizes) != c.bought {
			t.Errorf("%s: %d on hand, %d sizes to buy: %s", c.size, held, len(f.Job.Stock.Sizes), c.reason)
		}
	}
}

// TestCSVAgrees wants the same job of a list as YAML and as CSV.
func TestCSVAgrees(t *testing.T) {
	var found diag.List
	a := YAML("list", []byte("cut: 1\ntitle: list\nkerf: 1/8\ngrain: yes\nstock: [{length: 96, width: 48, price: 20}]\npieces: [{mark: A, length: 10, width: 5, count: 2}, {length: 7, width: 6, turn: yes}]\n"), &found)
	b := CSV("list", []byte("mark,length,width,count,turn\nA,10,5,2,\n,7,6,,yes\n"), measure.Inches, parts.Stock{Kerf: in / 8, Grain: true},
		[]Size{{Length: 96 * in, Width: 48 * in, Price: 2000, Priced: true, Held: -1}}, &found)
	if a == nil || b == nil {
		t.Fatal(found.All())
	}
	plain := func(f *File) []saw.Piece {
		list := slices.Clone(f.Job.Pieces)
		for i := range list {
			list[i].At = diag.Span{}
		}
		return list
	}
	same := func(x, y saw.Piece) bool {
		return x.Mark == y.Mark && x.Length == y.Length && x.Width == y.Width && x.Count == y.Count && x.Turn == y.Turn
	}
	if !slices.EqualFunc(plain(a), plain(b), same) {
		t.Errorf("pieces differ: %+v and %+v", a.Job.Pieces, b.Job.Pieces)
	}
	s, u := a.Job.Stock, b.Job.Stock
	if s.Kerf != u.Kerf || s.Grain != u.Grain || s.Sizes[0].Length != u.Sizes[0].Length || s.Sizes[0].Buy.Packs[0] != u.Sizes[0].Buy.Packs[0] {
		t.Errorf("stock differs: %+v and %+v", s, u)
	}
}

// FuzzRead reads anything as a list, YAML and CSV; what is read can be cut.
func FuzzRead(f *testing.F) {
	f.Add([]byte("cut: 1\ntitle: T\nkerf: 1/8\ntrim: 1\nkeep: 6\nstock: [{length: 96, width: 48, on hand: 1}]\npieces: [{length: 10, width: 95in, turn: yes, count: 3}]\n"))
	f.Add([]byte("cut: 1\ntitle: T\ngrooves: 3\nstock: [{length: 48, width: 96, price: 9}]\npieces: [{length: 10, width: 33, count: 3}]\n"))
	f.Add([]byte("mark,length,count\nA,10mm,4\nA,10mm,3\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, read := range []func(*diag.List) *File{
			func(found *diag.List) *File { return YAML("list.yaml", text, found) },
			func(found *diag.List) *File {
				return CSV("list.csv", text, measure.Inches, parts.Stock{Kerf: in / 8, Keep: 6 * in}, []Size{{Length: 96 * in, Held: 3}, {Length: 60 * in, Held: -1}}, found)
			},
		} {
			var found diag.List
			file := read(&found)
			if (file == nil) != found.Has(diag.Error) {
				t.Errorf("a list was read: %v; errors: %v", file != nil, found.All())
			}
			if file == nil || pieces(file) > 40 {
				continue // the solvers are fuzzed on their own
			}
			plan, _ := saw.Cut(file.Job)
			made := slices.Clone(plan.Missing)
			for _, p := range plan.Patterns {
				p.Root.Leaves(func(n *saw.Node) {
					if n.Kind == saw.Wanted {
						made[n.Piece] += p.Times
					}
				})
			}
			for i, p := range file.Job.Pieces {
				if made[i] != p.Count {
					t.Errorf("%d of piece %s, want %d", made[i], p.Mark, p.Count)
				}
			}
		}
	})
}

func pieces(f *File) int {
	n := 0
	for _, p := range f.Job.Pieces {
		n += p.Count
	}
	return n
}
