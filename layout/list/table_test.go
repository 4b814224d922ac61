package list

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/buy"
	"setwright/layout/measure"
	"setwright/layout/oracle"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// tables are those of a dressed unit, its rows as declared.
func tables() []*Table {
	u := dressed()
	for _, row := range u.Faces[0].Rows {
		row.Declared = &plan.Row{Label: "shelf"}
	}
	cuts, _ := Cuts(u, Pick(u), nil)
	return Tables(u, cuts, bought())
}

// bought is a purchase of two lines, one without a price, and something on hand.
func bought() buy.Purchase {
	line := func(id string, needed, onHand int, priced bool, packs ...buy.Taken) buy.Line {
		l := buy.Line{Item: buy.Item{ID: id, Name: "A " + id, Needed: needed, OnHand: onHand}, Short: max(0, needed-onHand), Packs: packs, Priced: priced}
		for _, p := range packs {
			l.Pieces += p.Pieces * p.Count
			l.Cost += p.Price * measure.Money(p.Count)
		}
		return l
	}
	hooks := line("hook", 46, 4, true, buy.Taken{Pieces: 10, Count: 2, Price: 900}, buy.Taken{Pieces: 25, Count: 1, Price: 1850})
	return buy.Purchase{
		Orders: []buy.Order{
			{Supplier: &parts.Supplier{ID: "fernhill", Name: "Fernhill, Fittings"}, Lines: []buy.Line{hooks}, Goods: 3650, Freight: 1200, Duty: 55, Total: 4905},
			{Lines: []buy.Line{line("sign", 1, 0, false, buy.Taken{Pieces: 1, Count: 1})}, Unpriced: 1},
		},
		Held: []buy.Line{line("strip", 2, 5, true)},
	}
}

func TestTables(t *testing.T) {
	for _, table := range tables() {
		for i, row := range table.Rows {
			if len(row) != len(table.Columns) {
				t.Fatalf("%s: row %d has %d cells for %d columns", table.Name, i, len(row), len(table.Columns))
			}
			for n, cell := range row {
				if c := table.Columns[n]; cell.Kind != c.Kind && cell.Kind != Nothing {
					t.Errorf("%s: row %d: a cell of kind %d under %s, which is of kind %d", table.Name, i, cell.Kind, c.Name, c.Kind)
				}
			}
		}
	}
}

func TestTableNames(t *testing.T) {
	var got []string
	for _, table := range tables() {
		got = append(got, table.Name)
	}
	if diff := cmp.Diff(Names(), got); diff != "" {
		t.Errorf("names (-Names +Tables):\n%s", diff)
	}
}

func TestBuyTables(t *testing.T) {
	u := dressed()
	u.Plan.Currency = "$"
	var got strings.Builder
	for _, table := range BuyTables(u, bought()) {
		if err := WriteCSV(&got, table); err != nil {
			t.Fatal(err)
		}
	}
	want := `supplier,part,name,size,needed,on hand,short,packs,cost ($),pieces,spare,worth ($)
"Fernhill, Fittings",hook,A hook,,46,4,42,"2 x 10 at 9.00, 1 x 25 at 18.50",36.50,45,0,0.00
,sign,A sign,,1,0,1,1 x 1,,1,0,
,strip,A strip,,2,5,0,,0.00,0,0,0.00
supplier,goods ($),freight ($),duty ($),landed ($),without price,lines
"Fernhill, Fittings",36.50,12.00,0.55,49.05,,1
,,,,,1,1
`
	if diff := cmp.Diff(want, strings.ReplaceAll(got.String(), "\r\n", "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestSums holds what a table adds up against the summary.
func TestSums(t *testing.T) {
	s := Summarize(dressed())
	want := map[string]map[string]int64{
		"pick": {"weight": int64(s.Hardware + s.Structure)}, "faces": {"weight": int64(s.Hardware + s.Structure)},
		"loads": {"weight": int64(s.Hardware + s.Structure)},
		"cut":   {},
		"key":   {"units": int64(s.Units)}, "restock": {"units": int64(s.Units)},
		"buy": {"needed": 49, "short": 43, "cost": 3650}, "orders": {"lines": 2, "landed": 4905},
	}
	for _, table := range tables() {
		got := map[string]int64{}
		for i, c := range table.Columns {
			if _, there := want[table.Name][c.Name]; there && c.Total {
				got[c.Name] = table.Sum(i).N
			}
		}
		if diff := cmp.Diff(want[table.Name], got); diff != "" {
			t.Errorf("sums of %s (-summary +table):\n%s", table.Name, diff)
		}
	}
}

// sampler is a table with a cell of each kind.
func sampler(system measure.System, said string) *Table {
	return &Table{
		Name: "sampler", Measure: system,
		Columns: []Column{{Name: "said", Kind: Text}, {Name: "group", Kind: Word}, {Name: "over", Kind: Whole, Total: true},
			{Name: "price", Kind: Decimal}, {Name: "height", Kind: Length}, {Name: "weight", Kind: Mass, Total: true}, {Name: "label", Kind: Text}},
		Rows: [][]Cell{
			{text(said), word(Hooks), whole(-4), price("3.50"), length(54*measure.Inch + measure.Inch/2), mass(measure.Pounds(2)), {}},
			{{}, {}, {}, {}, length(1372 * measure.Millimetre), mass(measure.Kilogram), {}},
		},
	}
}

func TestWriteCSV(t *testing.T) {
	for _, c := range []struct {
		system measure.System
		said   string
		want   string
	}{
		{measure.Inches, "Crème, brûlée", "said,group,over,price,height (in),weight (lb),label\r\n" +
			"\"Crème, brûlée\",hooks,-4,3.50,54.5,2,\r\n" +
			",,,,54.01574803,2.205,\r\n"},
		{measure.Millimetres, "=1+1", "said,group,over,price,height (mm),weight (kg),label\r\n" +
			"'=1+1,hooks,-4,3.50,1384.3,0.907185,\r\n" +
			",,,,1372,1,\r\n"},
	} {
		var got bytes.Buffer
		if err := WriteCSV(&got, sampler(c.system, c.said)); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(c.want, got.String()); diff != "" {
			t.Errorf("%v (-want +got):\n%s", c.system, diff)
		}
	}
}

func TestWriteText(t *testing.T) {
	const want = `SAMPLER
SAID             GROUP  OVER  PRICE  HEIGHT (in)  WEIGHT (lb)
two<U+000A>ends  hooks  -4    3.50   54 1/2       2.0
                                     ~54          2.2
all                     -4                        4.2

BARE
nothing
`
	var got bytes.Buffer
	if err := WriteText(&got, []*Table{sampler(measure.Inches, "two\nends"), {Name: "bare"}}); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got.String()); diff != "" {
		t.Errorf("text (-want +got):\n%s", diff)
	}
}

func TestHarmless(t *testing.T) {
	for _, c := range []struct{ text, want, reason string }{
		{`=HYPERLINK("http://a.example","x")`, `'=HYPERLINK("http://a.example","x")`, "a formula"},
		{"+1", "'+1", "spreadsheets take a plus for the start of one"},
		{"-2+3", "'-2+3", "and a minus"},
		{"@SUM(A1)", "'@SUM(A1)", "and an at sign"},
		{"\t=1", "'\t=1", "a tab that is dropped leaves a formula"},
		{"\r=1", "'\r=1", "so does a line end"},
		{"＝1", "'＝1", "the wide form is read as the narrow one"},
		{"'=1", "''=1", "one quote more, so that taking one away gives what was there"},
		{"'twas", "'twas", "a quote of no harm"},
		{"2 = 1 + 1", "2 = 1 + 1", "only the first character counts"},
		{"", "", "nothing"},
	} {
		if got := Harmless(c.text); got != c.want {
			t.Errorf("%q became %q, want %q: %s", c.text, got, c.want, c.reason)
		}
	}
}

// randomTexts are made of what is hard to write and to read back.
func randomTexts(n int) []string {
	rng := rand.New(rand.NewPCG(3, 4))
	hard := []rune("\"',;=+-@\t\r\n ＝\\.#é漢😀|09aZ")
	texts := make([]string, n)
	for i := range texts {
		text := make([]rune, rng.IntN(9))
		for k := range text {
			text[k] = hard[rng.IntN(len(hard))]
		}
		texts[i] = string(text)
	}
	return texts
}

func TestRandomTextsReadBack(t *testing.T) {
	for _, said := range randomTexts(3000) {
		readsBack(t, said)
	}
}

// TestPythonReadsTheSame has Python's strict reader find the same cells, the
// ends of lines inside them too.
func TestPythonReadsTheSame(t *testing.T) {
	python := oracle.NeedPython(t, "csv")
	table := sampler(measure.Inches, "")
	var want []string
	table.Rows = nil
	for _, said := range randomTexts(3000) {
		table.Rows = append(table.Rows, []Cell{text(said), {}, {}, {}, {}, {}, text(said)})
		want = append(want, Harmless(said))
	}
	var file bytes.Buffer
	if err := WriteCSV(&file, table); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "-c", `import csv, io, json, sys
text = io.TextIOWrapper(sys.stdin.buffer, encoding="utf-8", newline="")
rows = list(csv.reader(text, strict=True))[1:]
assert all(len(row) == 7 and row[0] == row[6] for row in rows)
print(json.dumps([row[0] for row in rows]))`)
	cmd.Stdin, cmd.Stderr = &file, os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("cells (-written +read):\n%s", diff)
	}
}

func FuzzReadBack(f *testing.F) {
	f.Add(`=HYPERLINK("http://a.example","x")`)
	f.Add("two\nlines, \"quoted\"")
	f.Fuzz(readsBack)
}

// readsBack reads a text back as another program would: it is there again,
// whole, behind one single quote if a spreadsheet might run it.
func readsBack(t *testing.T, said string) {
	t.Helper()
	var file bytes.Buffer
	if err := WriteCSV(&file, sampler(measure.Inches, said)); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&file).ReadAll()
	if err != nil {
		t.Fatalf("%q: %v", said, err)
	}
	got := rows[1][0]
	if Runs(got) {
		t.Fatalf("%q is written as %q, which a spreadsheet would run", said, got)
	}
	if Runs(strings.TrimLeft(said, "'")) {
		got = got[1:]
	}
	// Go's reader takes CR LF inside a cell for LF; Python's does not.
	if want := strings.ReplaceAll(said, "\r\n", "\n"); got != want {
		t.Fatalf("%q came back as %q", said, got)
	}
}
