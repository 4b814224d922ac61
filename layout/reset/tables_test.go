package reset

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/buy"
	"setwright/layout/golden"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// The tables from sample to sample, but for the steps, which the replay tests
// read: kept in testdata.
func TestTables(t *testing.T) {
	for _, of := range [][2]string{{"spring", "children"}, {"children", "shirts"}, {"shirts", "sweets"}, {"sweets", "boots"}} {
		t.Run(of[0]+" to "+of[1], func(t *testing.T) {
			r := paired(sample(t, of[0]), sample(t, of[1]), Options{})
			cuts, bought, found := r.Buying(nil)
			var b strings.Builder
			for _, f := range found {
				b.WriteString(f.Level.String() + " " + f.Code + ": " + f.Message + "\n")
			}
			tables := Tables(r, cuts, bought)[1:]
			if err := list.WriteText(&b, tables); err != nil {
				t.Fatal(err)
			}
			golden.Check(t, "testdata/"+of[0]+"-"+of[1]+"-tables.txt", b.String())
			checkTables(t, r, tables)
		})
	}
}

// checkTables holds the sums of the tables against the items and facings.
func checkTables(t *testing.T, r *Reset, tables []*list.Table) {
	t.Helper()
	pieces, units := map[Way]int{}, map[Way]int{}
	for _, it := range r.Items {
		pieces[it.Way]++
	}
	for _, f := range r.Facings {
		units[Fetch] += max(f.Stock, 0)
		units[Return] += max(-f.Stock, 0)
	}
	for name, way := range map[string]Way{"pull": Return, "pick": Fetch} {
		table := find(t, tables, name)
		hung, goods := 0, 0
		for i := range table.Rows {
			n := number(t, table, i, "quantity")
			if packs := number(t, table, i, "packs"); packs*number(t, table, i, "pack size")+number(t, table, i, "single") != n {
				t.Errorf("%s: packs and singles are not %d", cell(t, table, i, "code"), n)
			}
			switch cell(t, table, i, "what") {
			case "goods":
				goods += n
			case "part":
				hung += n
			}
		}
		if goods != units[way] || hung != pieces[way] {
			t.Errorf("%s: %d pieces, want %d; %d units, want %d", name, hung, pieces[way], goods, units[way])
		}
	}
	goods := find(t, tables, "goods")
	handled := 0
	for _, f := range r.Facings {
		if f.Way != Stay || f.More() != 0 {
			handled++
		}
	}
	if got := goods.Sum(column(t, goods, "fronts")).N; got != int64(handled) {
		t.Errorf("%d facings in the table, %d are handled", got, handled)
	}
}

func find(t *testing.T, tables []*list.Table, name string) *list.Table {
	t.Helper()
	i := slices.IndexFunc(tables, func(x *list.Table) bool { return x.Name == name })
	if i < 0 {
		t.Fatalf("no table %s", name)
	}
	return tables[i]
}

func column(t *testing.T, table *list.Table, name string) int {
	t.Helper()
	i := slices.IndexFunc(table.Columns, func(c list.Column) bool { return c.Name == name })
	if i < 0 {
		t.Fatalf("%s has no column %s", table.Name, name)
	}
	return i
}

func number(t *testing.T, table *list.Table, row int, name string) int {
	t.Helper()
	return int(table.Rows[row][column(t, table, name)].N)
}

func cell(t *testing.T, table *list.Table, row int, name string) string {
	t.Helper()
	return table.Rows[row][column(t, table, name)].Text
}

// A step in the table handles as many things as it has acts and takes as long.
func TestStepTable(t *testing.T) {
	r := Make(sample(t, "spring"), sample(t, "children"), Options{})
	table := Tables(r, nil, buy.Purchase{})[0]
	if table.Name != "steps" || len(table.Rows) != len(r.Steps) || len(r.Steps) == 0 {
		t.Fatalf("%s has %d rows, the reset %d steps", table.Name, len(table.Rows), len(r.Steps))
	}
	if got := int(table.Sum(column(t, table, "seconds")).N); got != r.Seconds {
		t.Errorf("the steps take %d s, the reset %d s", got, r.Seconds)
	}
	for i := range r.Steps {
		if cell(t, table, i, "from") == "" && cell(t, table, i, "to") == "" || cell(t, table, i, "what") == "" {
			t.Errorf("step %d does not say what goes where", i+1)
		}
	}
}

// Fixings stay with the pieces that are used again, and what is put up with the
// others is not fetched where as much comes free.
func TestFixingsAndStock(t *testing.T) {
	const house = `measure: in
suppliers: {moor: {name: Moor}}
stock:
  strip: {name: Strip, bars: [{length: 96, packs: [{pieces: 1, price: 4}], supplier: moor}]}
parts:
  screw: {name: Screw, kind: fixing, weight: 0.01, pack: 10, supplier: moor, packs: [{pieces: 10, price: 2}]}
  shelf-24x12: {fixed: {screw: 4}}
  shelf-48x12: {fixed: {screw: 6}}
  strip-ticket: {cut: {from: strip}}
  hook-6: {supplier: moor, packs: [{pieces: 5, price: 6}]}
`
	text := func(dress string) string {
		return "plan: 1\ntitle: Test\nmeasure: in\nparts: [house.yaml]\n" + wires + "dress:\n" + dress
	}
	old := dressed(t, text("  front:\n    - {use: shelf-24x12, bay: 1, at: 30in}\n"), "house.yaml", house)
	new := dressed(t, text("  front:\n    - {use: hook-6, bay: 1, at: 60in, count: 3}\n    - {use: shelf-48x12, at: 30in, with: [strip-ticket]}\n"), "house.yaml", house)
	r := paired(old, new, Options{})
	if got := quantities(r.Pulled()); got != "1 shelf-24x12" {
		t.Error("pulled: ", got)
	}
	if got := quantities(r.Fetched()); got != "1 bracket-12, 1 shelf-48x12, 3 hook-6, 1 strip-ticket, 2 screw" {
		t.Error("fetched: ", got)
	}
	hook, _ := new.Parts.Find("hook-6")
	cuts, bought, _ := r.Buying([]parts.OnHand{{Part: hook, Count: 1}})
	if len(cuts) != 1 || len(cuts[0].Used) != 1 || cuts[0].Used[0].Length != 96*measure.Inch {
		t.Errorf("the strip is not sawn from one bar: %+v", cuts)
	}
	short := map[string]int{}
	for _, o := range bought.Orders {
		for _, l := range o.Lines {
			short[l.ID] = l.Short
		}
	}
	if short["hook-6"] != 2 || short["screw"] != 2 || short["strip"] != 1 {
		t.Errorf("short of %v", short)
	}
}

func quantities(lines []list.PickLine) string {
	var words []string
	for _, l := range lines {
		pieces := 0
		for _, p := range l.Portions {
			pieces += p.Pieces
		}
		if pieces != l.Quantity {
			words = append(words, "portions differ:")
		}
		words = append(words, strconv.Itoa(l.Quantity)+" "+l.Part.ID)
	}
	return strings.Join(words, ", ")
}

// A rebuild changes the bare unit: its panels go back and others come, and all
// pieces that serve again are hung anew.
func TestRebuild(t *testing.T) {
	rows := "  front:\n    - {use: hook-6, bay: 1, at: 45in, count: 2, goods: {CARD: 1}}\n"
	old := of(t, wires, rows)
	low := of(t, strings.ReplaceAll(wires, "grid-24x60", "grid-24x48"), rows)
	if r := Make(old, low, Options{}); len(r.Differences) != 4 || len(r.Items)+len(r.Steps) != 0 || r.Findings[0].Code != "another-unit" {
		t.Fatalf("not refused: %+v", r)
	}
	r := paired(old, low, Options{Rebuild: true})
	checkWhole(t, r)
	if got := r.tally(); got != "2 rehang hook-6, 1 rehang CARD" {
		t.Error(got)
	}
	if p, f := quantities(r.Pulled()), quantities(r.Fetched()); p != "4 grid-24x60" || f != "4 grid-24x48" {
		t.Errorf("pulled %s, fetched %s", p, f)
	}
}
