package seasons

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
)

// pack is a pack of the unit of that name.
func pack(unit, date, revision, file string) Pack {
	return Pack{File: file, Mark: "mark of " + file, Summary: archive.Summary{
		Title: file, Date: date, Revision: revision,
		Unit: archive.Bare{Name: unit, Frame: "gondola", Stand: "casters", Panels: []archive.Panel{{Face: "front", Part: "grid", Bays: 2}}},
	}}
}

// said is a timeline in words: a line a pack.
func said(t *Timeline) string {
	var b strings.Builder
	for _, u := range t.Units {
		fmt.Fprintf(&b, "%s:", u.Label)
		for _, e := range u.Entries {
			fmt.Fprintf(&b, " %s %s", e.File, e.State)
			if e.State == Up {
				fmt.Fprintf(&b, " %s..%s", e.From, e.To)
			}
			b.WriteString(";")
		}
		b.WriteString("\n")
	}
	return b.String()
}

func TestWhatWasUpWhen(t *testing.T) {
	copied := pack("Door", "2027-02-15", "A", "b")
	copied.Mark = "mark of a"
	unnamed := func(frame, panel, file string) Pack {
		p := pack("", "2027-02-15", "", file)
		p.Unit.Frame, p.Unit.Panels[0].Part = frame, panel
		return p
	}
	for _, c := range []struct {
		packs  []Pack
		want   string
		codes  string
		reason string
	}{
		{nil, "", "", "an empty folder"},
		{[]Pack{pack("Door", "2027-02-15", "", "a")}, "Door: a up 2027-02-15..;\n", "", "one pack is up for good"},
		{[]Pack{pack("Door", "2027-03-01", "", "a"), pack("Door", "2027-02-15", "", "b")},
			"Door: b up 2027-02-15..2027-02-28; a up 2027-03-01..;\n", "", "up to the day before the next, whatever the names of files"},
		{[]Pack{pack("Door", "2028-02-15", "", "a"), pack("Door", "2028-03-01", "", "b")},
			"Door: a up 2028-02-15..2028-02-29; b up 2028-03-01..;\n", "", "a leap year"},
		{[]Pack{pack("Door", "2027-02-15", "B", "a"), pack("Door", "2027-02-15", "A", "b"), pack("Door", "2027-02-15", "", "c")},
			"Door: c superseded; b superseded; a up 2027-02-15..;\n", "", "the last revision of a date is up"},
		{[]Pack{pack("Door", "2027-02-15", "10", "a"), pack("Door", "2027-02-15", "9", "b")},
			"Door: b superseded; a up 2027-02-15..;\n", "", "10 is after 9"},
		{[]Pack{pack("Door", "2027-02-15", "aa", "a"), pack("Door", "2027-02-15", "Z", "b")},
			"Door: b superseded; a up 2027-02-15..;\n", "", "AA is after Z"},
		{[]Pack{pack("Door", "2027-02-15", "A", "a"), pack("Door", "2027-03-15", "B", "b")},
			"Door: a up 2027-02-15..2027-03-14; b up 2027-03-15..;\n", "", "a revision of a later date follows, as any pack does"},
		{[]Pack{pack("Door", "2027-02-15", "A", "a"), copied},
			"Door: a up 2027-02-15..; b copy;\n", "", "the same plan in two files"},
		{[]Pack{pack("Door", "2027-02-15", "A", "a"), pack("Door", "2027-02-15", "a", "b")},
			"Door: a superseded; b up 2027-02-15..;\n", "b same-revision", "nothing but the names of the files tells which is later"},
		{[]Pack{pack("Door", "", "", "a"), pack("Door", "2027-02-15", "", "b")},
			"Door: b up 2027-02-15..; a undated;\n", "a undated-pack", "without a date it comes last"},
		{[]Pack{pack("Door", "2027-02-30", "", "a")}, "Door: a undated;\n", "a undated-pack", "no such day"},
		{[]Pack{pack("Wall", "2027-02-15", "", "a"), pack("Door", "2027-03-15", "", "b")},
			"Door: b up 2027-03-15..;\nWall: a up 2027-02-15..;\n", "", "units by their names"},
		{[]Pack{unnamed("gondola", "grid", "a"), unnamed("tower", "grid", "b")},
			"gondola, casters: a up 2027-02-15..;\ntower, casters: b up 2027-02-15..;\n", "", "units without names, by what they stand on"},
		{[]Pack{unnamed("gondola", "slat", "a"), unnamed("gondola", "grid", "b")},
			"gondola, casters, F 2 × grid: b up 2027-02-15..;\ngondola, casters, F 2 × slat: a up 2027-02-15..;\n", "", "and by their panels if they must be"},
		{[]Pack{pack("Door", "2027-02-15", "", "a"), func() Pack { p := unnamed("tower", "grid", "b"); p.Unit.Name = "Door"; p.Date = "2027-03-01"; return p }()},
			"Door: a up 2027-02-15..2027-02-28; b up 2027-03-01..;\n", "b another-unit", "another unit under the same name is said"},
	} {
		line, found := Make(c.packs)
		var codes []string
		for _, f := range found {
			codes = append(codes, f.At.File+" "+f.Code)
		}
		if got := said(line); got != c.want || strings.Join(codes, ", ") != c.codes {
			t.Errorf("%s:\n%swith %q, want\n%swith %q", c.reason, got, codes, c.want, c.codes)
		}
	}
}

// TestEveryDay asks, for random packs and every day, which pack was up, and works
// it out once more from the packs alone.
func TestEveryDay(t *testing.T) {
	random := rand.New(rand.NewSource(1))
	first, _ := ParseDay("2026-12-20")
	for range 300 {
		var packs []Pack
		for n := range 1 + random.Intn(12) {
			p := pack(string(rune('A'+random.Intn(2))), (first + Day(random.Intn(80))).String(), string(rune('A'+random.Intn(4))), fmt.Sprint(n))
			packs = append(packs, p)
		}
		line, _ := Make(slices.Clone(packs))
		for _, u := range line.Units {
			for day := first - 1; day < first+90; day++ {
				var want *Pack
				for i := range packs {
					p := &packs[i]
					if p.Unit.Name == u.Label && p.Date <= day.String() && (want == nil || p.Date > want.Date ||
						p.Date == want.Date && (p.Revision > want.Revision || p.Revision == want.Revision && p.File > want.File)) {
						want = p
					}
				}
				var up []string
				for _, e := range u.Shown() {
					if e.From <= day && day <= e.To {
						up = append(up, e.File)
					}
				}
				if want == nil && up != nil || want != nil && !slices.Equal(up, []string{want.File}) {
					t.Fatalf("%s on %s: %q is up, want %v of\n%s", u.Label, day, up, want, said(line))
				}
			}
		}
	}
}

func TestChange(t *testing.T) {
	part := func(id string, cut measure.Length, n int) archive.Part {
		return archive.Part{ID: id, Group: "hooks", Cut: cut, Count: n}
	}
	product := func(sku string, at ...string) archive.Product { return archive.Product{SKU: sku, At: at} }
	old := pack("Door", "2027-02-15", "", "old")
	old.Parts = []archive.Part{part("hook", 0, 6), part("strip", 100, 2), part("gone", 0, 1)}
	old.Products = []archive.Product{product("A", "F-1-1", "F-2-1"), product("B", "F-1-2"), product("C", "F-1-3")}
	new := pack("Door", "2027-03-15", "", "new")
	new.Parts = []archive.Part{part("hook", 0, 9), part("strip", 200, 2), part("strip", 100, 1)}
	new.Products = []archive.Product{product("A", "F-1-1", "F-3-1"), product("B", "F-1-2"), product("D", "F-1-3")}
	line, _ := Make([]Pack{old, new})
	u := line.Units[0]
	want := &Change{Before: u.Entries[0].Pack, PiecesIn: 5, PiecesOut: 2, PiecesKept: 7, ProductsIn: 1, ProductsOut: 1, ProductsKept: 2, Moved: 1}
	if diff := cmp.Diff(want, u.Entries[1].Change); diff != "" {
		t.Error(diff)
	}
	var kit []string
	for _, l := range u.Kit {
		kit = append(kit, fmt.Sprintf("%s %d: %d packs, most %d, now %d", l.ID, l.Cut, l.Packs, l.Most, l.Now))
	}
	if diff := cmp.Diff([]string{"gone 0: 1 packs, most 1, now 0", "hook 0: 2 packs, most 9, now 9", "strip 100: 2 packs, most 2, now 1", "strip 200: 1 packs, most 2, now 2"}, kit); diff != "" {
		t.Error(diff)
	}
}

// TestChangesAddUp: what was there and what comes is what is there and what
// goes, for random packs.
func TestChangesAddUp(t *testing.T) {
	random := rand.New(rand.NewSource(2))
	for range 500 {
		var packs []Pack
		for day := range 2 {
			p := pack("Door", fmt.Sprintf("2027-02-%02d", day+1), "", fmt.Sprint(day))
			for id := range 5 {
				if n := random.Intn(4); n > 0 {
					p.Parts = append(p.Parts, archive.Part{ID: fmt.Sprint(id), Count: n})
				}
				if random.Intn(2) == 0 {
					p.Products = append(p.Products, archive.Product{SKU: fmt.Sprint(id), At: []string{fmt.Sprintf("F-1-%d", random.Intn(3))}})
				}
			}
			packs = append(packs, p)
		}
		line, _ := Make(packs)
		old, new := line.Units[0].Entries[0], line.Units[0].Entries[1]
		c := new.Change
		if c.PiecesOut+c.PiecesKept != old.Pieces() || c.PiecesIn+c.PiecesKept != new.Pieces() ||
			c.ProductsOut+c.ProductsKept != len(old.Products) || c.ProductsIn+c.ProductsKept != len(new.Products) || c.Moved > c.ProductsKept {
			t.Fatalf("%+v does not add up between\n%+v\n%+v", c, old.Summary, new.Summary)
		}
	}
}

func TestTables(t *testing.T) {
	a, b := pack("Door", "2027-02-15", "A", "a.pdf"), pack("Door", "", "", "b.pdf")
	a.Hardware, a.Goods, a.Worth, a.Currency = 2*measure.Kilogram, 500*measure.Gram, 12345, "$"
	a.Parts = []archive.Part{{ID: "strip", Name: "Strip", Group: "other", Cut: measure.Inch, Count: 3}}
	a.Products = []archive.Product{{SKU: "S", At: []string{"F-1-1", "F-2-1"}}}
	a.Findings = []archive.Finding{{Level: "stop", Code: "tip", Count: 1}, {Level: "note", Code: "assumed", Count: 4}}
	line, _ := Make([]Pack{b, a})
	var text, csv strings.Builder
	tables := line.Tables(measure.Millimetres)
	if err := list.WriteText(&text, tables); err != nil {
		t.Fatal(err)
	}
	want := `SEASONS
UNIT  DATE        STATE    REVISION  PLAN   KINDS OF PART  PIECES  PRODUCTS  WEIGHT FULL (kg)  STOPS  CAUTIONS  NOTES  PLAN MARK      FILE
Door  2027-02-15  up       A         a.pdf  1              3       1         2.50              1      0         4      mark of a.pdf  a.pdf
Door              undated            b.pdf  0              0       0         0.00              0      0         0      mark of b.pdf  b.pdf

CHANGES
nothing

KIT
UNIT  PART   NAME   CUT LENGTH (mm)  PACKS THAT USE IT  MOST AT ONCE  IN THE LAST
Door  strip  Strip  25               1                  3             3
`
	if diff := cmp.Diff(want, text.String()); diff != "" {
		t.Error(diff)
	}
	if err := list.WriteCSV(&csv, tables[0]); err != nil {
		t.Fatal(err)
	}
	if want := "Door,2027-02-15,,up,A,,a.pdf,,1,3,1,2,0,2,2.5,123.45,$,1,0,4,\"1 × tip, 4 × assumed\",mark of a.pdf,a.pdf\r\n"; !strings.Contains(csv.String(), want) {
		t.Errorf("CSV without %q:\n%s", want, csv.String())
	}
}

func TestDay(t *testing.T) {
	for _, c := range []struct {
		day         string
		year, month int
		reason      string
	}{
		{"1970-01-01", 1970, 1, "day 0"},
		{"1969-12-31", 1969, 12, "the day before it"},
		{"2000-02-29", 2000, 2, "a leap day"},
		{"0001-01-01", 1, 1, "long ago"},
		{"9999-12-31", 9999, 12, "the last that ISO 8601 writes in ten characters"},
	} {
		d, ok := ParseDay(c.day)
		if year, month := d.Month(); !ok || d.String() != c.day || year != c.year || month != c.month {
			t.Errorf("%s is read as %s, in %d-%d: %s", c.day, d, year, month, c.reason)
		}
		if first := MonthStart(c.year, c.month); first > d || MonthStart(c.year, c.month+1) <= d {
			t.Errorf("%s is not in its month: %s", c.day, c.reason)
		}
	}
	if MonthStart(2027, 13) != MonthStart(2028, 1) {
		t.Error("month 13 is not January")
	}
}

// TestOrderDoesNotMatter shuffles packs and wants the same timeline.
func TestOrderDoesNotMatter(t *testing.T) {
	packs := []Pack{pack("Door", "2027-02-15", "A", "a"), pack("Door", "2027-02-15", "B", "b"), pack("Wall", "2027-01-15", "", "c"),
		pack("Door", "", "", "d"), pack("", "2027-03-15", "", "e"), pack("Door", "2027-04-15", "", "f")}
	line, found := Make(slices.Clone(packs))
	want := said(line)
	random := rand.New(rand.NewSource(3))
	for range 50 {
		random.Shuffle(len(packs), func(i, j int) { packs[i], packs[j] = packs[j], packs[i] })
		again, foundAgain := Make(slices.Clone(packs))
		if got := said(again); got != want || !slices.EqualFunc(found, foundAgain, func(a, b diag.Finding) bool { return a.Message == b.Message }) {
			t.Fatalf("in another order:\n%swant\n%s", got, want)
		}
	}
}
