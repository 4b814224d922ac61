package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout"
	"setwright/layout/buy"
	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/render/words"
)

// sampler is a table with a cell of each kind.
func sampler(system measure.System, said string) *list.Table {
	text := func(s string) list.Cell { return list.Cell{Kind: list.Text, Text: s} }
	return &list.Table{
		Name: "pick", Measure: system,
		Columns: []list.Column{{Name: "name", Kind: list.Text}, {Name: "group", Kind: list.Word}, {Name: "quantity", Kind: list.Whole, Total: true},
			{Name: "price", Kind: list.Decimal}, {Name: "height", Kind: list.Length}, {Name: "weight", Kind: list.Mass, Total: true}},
		Rows: [][]list.Cell{
			{text(said), {Kind: list.Word, Text: "hooks"}, {Kind: list.Whole, N: -4}, {Kind: list.Decimal, Text: "3.50"},
				{Kind: list.Length, N: int64(54*measure.Inch + measure.Inch/2)}, {Kind: list.Mass, N: int64(measure.Pounds(2))}},
			{text("0012345678905"), {}, {Kind: list.Whole, N: 7}, {}, {Kind: list.Length, N: int64(1372 * measure.Millimetre)}, {}},
		},
	}
}

func planIn(language string, system measure.System) *plan.Plan {
	return &plan.Plan{Title: "Bulbs & bees <now>", Season: "Autumn 2027", By: "Store design", Revision: "B", Date: "2027-02-15",
		Measure: system, Paper: "a4", Language: language}
}

// written is the parts of a workbook by name, each well-formed XML.
func written(t *testing.T, p *plan.Plan, tables []*list.Table, o Options) map[string]string {
	t.Helper()
	var file bytes.Buffer
	if err := Write(&file, p, tables, o); err != nil {
		t.Fatal(err)
	}
	archive, err := zip.NewReader(bytes.NewReader(file.Bytes()), int64(file.Len()))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range archive.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		for d := xml.NewDecoder(bytes.NewReader(text)); ; {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", f.Name, err)
			}
		}
		parts[f.Name] = string(text)
	}
	return parts
}

// cells is the data of a worksheet, a line a cell: place, style, value, formula.
func cells(t *testing.T, sheet string) []string {
	t.Helper()
	var x struct {
		Cells []struct {
			R string `xml:"r,attr"`
			S int    `xml:"s,attr"`
			T string `xml:"is>t"`
			V string `xml:"v"`
			F string `xml:"f"`
		} `xml:"sheetData>row>c"`
	}
	if err := xml.Unmarshal([]byte(sheet), &x); err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, c := range x.Cells {
		line := fmt.Sprintf("%s %d %q%s", c.R, c.S, c.T, c.V)
		if c.F != "" {
			line += " =" + c.F
		}
		lines = append(lines, line)
	}
	return lines
}

func TestSheet(t *testing.T) {
	parts := written(t, planIn("en", measure.Inches), []*list.Table{sampler(measure.Inches, "=1+1")}, Options{Fingerprint: "AB-CD"})
	want := []string{
		`A1 1 "Name"`, `B1 1 "Group"`, `C1 2 "Quantity"`, `D1 2 "Price"`, `E1 2 "Height (in)"`, `F1 2 "Weight (lb)"`,
		`A2 4 "=1+1"`, `B2 3 "Hooks"`, `C2 5 ""-4`, `D2 6 ""3.5`, `E2 7 ""54.5`, `F2 9 ""2`,
		`A3 3 "0012345678905"`, `C3 5 ""7`, `E3 8 ""54.01574803`,
		`A4 10 "All"`, `B4 10 ""`, `C4 11 ""3 =SUBTOTAL(109,C2:C3)`, `D4 10 ""`, `E4 10 ""`, `F4 12 ""2 =SUBTOTAL(109,F2:F3)`,
	}
	if diff := cmp.Diff(want, cells(t, parts["xl/worksheets/sheet1.xml"])); diff != "" {
		t.Errorf("cells (-want +got):\n%s", diff)
	}
	for _, c := range []struct{ part, has, reason string }{
		{"xl/worksheets/sheet1.xml", `<pane activePane="bottomLeft" state="frozen" topLeftCell="A2" ySplit="1"></pane>`, "the heads stay"},
		{"xl/worksheets/sheet1.xml", `<autoFilter ref="$A$1:$F$3"></autoFilter>`, "the sums are not filtered"},
		{"xl/worksheets/sheet1.xml", `<pageSetup fitToHeight="0" fitToWidth="1" orientation="landscape" paperSize="9"></pageSetup>`, "lying A4"},
		{"xl/worksheets/sheet1.xml", `&amp;LBulbs &amp;&amp; bees &lt;now&gt;  Autumn 2027&amp;RB  2027-02-15`, "an ampersand is doubled in a header"},
		{"xl/worksheets/sheet1.xml", `&amp;LAB-CD&amp;C&amp;A&amp;R&amp;P / &amp;N`, "the plan's mark on every page"},
		{"xl/worksheets/sheet1.xml", `<pageSetUpPr fitToPage="true">`, "as wide as the page"},
		{"xl/worksheets/sheet1.xml", `<dimension ref="A1:F4">`, "what is filled, the sums too"},
		{"xl/worksheets/sheet1.xml", `<cols><col min="1" max="1" width="15" customWidth="1"/><col min="2" max="2" width="9"`, "widths in the order of columns"},
		{"xl/worksheets/sheet1.xml", `<ignoredError sqref="A1:F3" numberStoredAsText="true">`, "digits that are text"},
		{"xl/workbook.xml", `name="_xlnm.Print_Titles">&#39;Pick&#39;!$1:$1<`, "the heads are printed on every page"},
		{"xl/styles.xml", ` quotePrefix="true"`, "a text like a formula is marked as text"},
		{"docProps/core.xml", `<dcterms:created xsi:type="dcterms:W3CDTF">2027-02-15T00:00:00Z</dcterms:created>`, "the plan's date, not the clock's"},
		{"docProps/core.xml", `<dc:title>Bulbs &amp; bees &lt;now&gt;</dc:title>`, "the plan's title"},
	} {
		if !strings.Contains(parts[c.part], c.has) {
			t.Errorf("%s has no %s: %s\n%s", c.part, c.has, c.reason, parts[c.part])
		}
	}
}

// TestUntold wants nothing said of a plan that it does not tell: no maker, no day.
func TestUntold(t *testing.T) {
	p := planIn("en", measure.Inches)
	p.By, p.Date = "", ""
	core := written(t, p, []*list.Table{sampler(measure.Inches, "")}, Options{})["docProps/core.xml"]
	if !strings.Contains(core, "<dc:creator></dc:creator>") || strings.Contains(core, "<dcterms:") {
		t.Errorf("a maker or a day: %s", core)
	}
}

func TestEmptyList(t *testing.T) {
	table := sampler(measure.Inches, "")
	table.Rows = nil
	sheet := written(t, planIn("en", measure.Inches), []*list.Table{table}, Options{})["xl/worksheets/sheet1.xml"]
	if got := len(cells(t, sheet)); got != len(table.Columns) {
		t.Errorf("%d cells, want the heads only: %d", got, len(table.Columns))
	}
	if !strings.Contains(sheet, `<autoFilter ref="$A$1:$F$1"></autoFilter>`) {
		t.Errorf("no filter on the heads: %s", sheet)
	}
}

func TestLongText(t *testing.T) {
	for said, want := range map[string]string{
		strings.Repeat("a", 32_767): strings.Repeat("a", 32_767),
		strings.Repeat("a", 32_768): strings.Repeat("a", 32_766) + "…",
	} {
		sheet := written(t, planIn("en", measure.Inches), []*list.Table{sampler(measure.Inches, said)}, Options{})["xl/worksheets/sheet1.xml"]
		if !strings.Contains(sheet, ">"+want+"<") {
			t.Errorf("%d characters: not cut to what a cell takes", len(said))
		}
	}
}

func TestStopped(t *testing.T) {
	for _, stopped := range []bool{true, false} {
		sheet := written(t, planIn("fr", measure.Millimetres), []*list.Table{sampler(measure.Millimetres, "")}, Options{Stopped: stopped})["xl/worksheets/sheet1.xml"]
		if strings.Contains(sheet, "&amp;CNE PAS MONTER : voir les constats&amp;R") != stopped {
			t.Errorf("stopped %v: %s", stopped, sheet)
		}
	}
}

// TestHeader wants headers that are short enough whatever the plan says.
func TestHeader(t *testing.T) {
	for _, tag := range words.Languages() {
		p := planIn(tag, measure.Inches)
		p.Title, p.Season, p.Revision = strings.Repeat("&", 200), strings.Repeat("é", 200), strings.Repeat("&", 200)
		sheet := written(t, p, []*list.Table{sampler(measure.Inches, "")}, Options{Stopped: true})["xl/worksheets/sheet1.xml"]
		var x struct {
			Head string `xml:"headerFooter>oddHeader"`
		}
		if err := xml.Unmarshal([]byte(sheet), &x); err != nil {
			t.Fatal(err)
		}
		if n := len([]rune(x.Head)); n > 255 || n < 150 {
			t.Errorf("%s: a header of %d characters, at most 255: %s", tag, n, x.Head)
		}
	}
}

// TestEveryWordIsTranslated wants a word of its own, or one known to be the
// same, for every list, column, group, face and form.
func TestEveryWordIsTranslated(t *testing.T) {
	all := []string{"all", "both", "first", "second"}
	project := layout.Load(os.DirFS("../../samples/spring"), "plan.yaml")
	for _, table := range list.Tables(project.Unit, project.Cuts, buy.Purchase{}) {
		all = append(all, table.Name)
		for _, c := range table.Columns {
			all = append(all, c.Name)
		}
	}
	for _, g := range []list.Group{list.Structure, list.Shelving, list.Hooks, list.Rails, list.Other} {
		all = append(all, string(g))
	}
	for _, f := range plan.FaceIDs() {
		all = append(all, string(f))
	}
	for _, f := range goods.Forms() {
		all = append(all, string(f))
	}
	same := map[string]string{"sku": "es", "gtin": "es fr", "face": "fr", "faces": "fr", "place": "fr"}
	for _, tag := range []string{"es", "fr"} {
		for _, word := range all {
			if words.In(tag).ListWord(word) == words.In("en").ListWord(word) && !strings.Contains(same[word], tag) {
				t.Errorf("%s has no word for %q", tag, word)
			}
		}
	}
}

// FuzzText writes a text and reads it back, as SpreadsheetML has it read.
func FuzzText(f *testing.F) {
	for _, text := range []string{`=HYPERLINK("http://a.example","x")`, "_x0041_", "_x005F_x0041_", "_xx0041_", "_x0041_x0042_", "_xDEAD_", "\uFDD0x0041_", "two\nlines\r\n", "]]>&<'\"", " room ", "漢😀"} {
		f.Add(text)
	}
	escaped := regexp.MustCompile(`_x([0-9A-Fa-f]{4})_`)
	f.Fuzz(func(t *testing.T, text string) {
		table := sampler(measure.Inches, text)
		sheet := written(t, planIn("en", measure.Inches), []*list.Table{table}, Options{})["xl/worksheets/sheet1.xml"]
		var x struct {
			Texts []string `xml:"sheetData>row>c>is>t"`
		}
		if err := xml.Unmarshal([]byte(sheet), &x); err != nil {
			t.Fatal(err)
		}
		got := escaped.ReplaceAllStringFunc(x.Texts[len(table.Columns)], func(code string) string {
			var r rune
			fmt.Sscanf(code, "_x%x_", &r)
			return string(r)
		})
		if want := readable(text); got != want {
			t.Errorf("%q came back as %q", want, got)
		}
		if n := strings.Count(sheet, "<f>"); n != 2 {
			t.Errorf("%d formulas, want those of the sums: 2", n)
		}
	})
}

// readable is a text with a replacement for each character that XML cannot hold,
// and for the one that stands in for underscores.
func readable(text string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 && r != '\t' && r != '\n' && r != '\r' || r == 0xFDD0 || r == 0xFFFE || r == 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, string([]rune(text)))
}
