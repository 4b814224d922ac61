package goods_test

import (
	"encoding/csv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"golang.org/x/text/encoding/charmap"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

const plainGoods = `sku,name,form,width (mm),height (mm),depth (mm),weight (kg),price,weekly,sizes,aisle note
A,"Crème brûlée, 2 jars",stand,82.5,1219,40.25,1.5,1234.50,1250,,cool
B,Thé,boxed,180,114.3,290,0.6,49,12,36-38,
`

const commaGoods = `sku;name;form;width (mm);height (mm);depth (mm);weight (kg);price;weekly;sizes;aisle note
A;Crème brûlée, 2 jars;stand;82,5;1.219;40,25;1,5;1.234,50;1.250;;cool
B;Thé;boxed;180;114,3;290;0,6;49;12;36/37/38;
`

const tabGoods = "sku\tname\tform\twidth (mm)\theight (mm)\tdepth (mm)\tweight (kg)\tprice\tweekly\tsizes\taisle note\n" +
	"A\tCrème brûlée, 2 jars\tstand\t82,5\t1 219\t40,25\t1,5\t1 234,50 €\t1 250\t\tcool\n" +
	"B\tThé\tboxed\t180\t114,3\t290\t0,6\t49 €\t12\t36 37 38\t\n"

const moneyGoods = `sku,name,form,width (mm),height (mm),depth (mm),weight (kg),price,weekly,sizes,aisle note
A,"Crème brûlée, 2 jars",stand,82.5,"1,219",40.25,1.5,"$1,234.50","1,250",,cool
B,Thé,boxed,180.0,114.3,290,0.6,$49,12.0,"36, 37, 38",
`

// TestDialects reads the same products in every dialect of a spreadsheet.
func TestDialects(t *testing.T) {
	latin := func(s string) string {
		text, err := charmap.Windows1252.NewEncoder().String(s)
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	crlf := func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") }
	want := read(t, plainGoods, decode.Dialect{Encoding: decode.UTF8, Separator: ',', Decimals: decode.Points})
	for _, c := range []struct {
		text, encoding string
		separator      rune
		decimals       decode.Decimals
		reason         string
	}{
		{crlf(plainGoods), decode.UTF8, ',', decode.Points, "CRLF"},
		{strings.ReplaceAll(plainGoods, "\n", "\r"), decode.UTF8, ',', decode.Points, "CR alone"},
		{"\ufeff" + plainGoods, decode.UTF8, ',', decode.Points, "a byte order mark"},
		{"sep=,\n" + plainGoods, decode.UTF8, ',', decode.Points, "a sep= line"},
		{moneyGoods, decode.UTF8, ',', decode.Points, "thousands, dollars and whole numbers with decimals"},
		{commaGoods, decode.UTF8, ';', decode.Commas, "semicolons and decimal commas"},
		{"sep=;\n" + crlf(commaGoods), decode.UTF8, ';', decode.Commas, "the same after a sep= line"},
		{latin(crlf(commaGoods)), decode.Windows1252, ';', decode.Commas, "an old spreadsheet's"},
		{strings.ReplaceAll(commaGoods, ";", "|"), decode.UTF8, '|', decode.Commas, "vertical bars"},
		{tabGoods, decode.UTF8, '\t', decode.Commas, "tabs, spaces between thousands, currency behind"},
		{inUTF16("\ufeff"+crlf(tabGoods), false), decode.UTF16LE, '\t', decode.Commas, "Unicode text"},
		{inUTF16("\ufeff"+crlf(tabGoods), true), decode.UTF16BE, '\t', decode.Commas, "Unicode text the other way round"},
		{allQuoted(t, plainGoods), decode.UTF8, ',', decode.Points, "every cell in quotes"},
		{plainGoods + strings.Repeat(",,,,,,,,,,\n", 1000), decode.UTF8, ',', decode.Points, "blank rows at the end"},
	} {
		got := read(t, c.text, decode.Dialect{Encoding: c.encoding, Separator: c.separator, Decimals: c.decimals})
		if diff := cmp.Diff(want, got, cmpopts.IgnoreTypes(diag.Span{})); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.reason, diff)
		}
	}
}

// read loads a text that is in a dialect, and checks that it is noted where it is
// not the plainest.
func read(t *testing.T, text string, want decode.Dialect) []*goods.Product {
	t.Helper()
	var found diag.List
	cat := goods.NewCatalog()
	file := goods.Load(cat, "g.csv", []byte(text), measure.Inches, &found)
	got := *file.CSV
	if len(got.Columns) != 11 || got.Rows != 2 {
		t.Errorf("%.40q: %d columns, %d rows", text, len(got.Columns), got.Rows)
	}
	if got.Encoding != want.Encoding || got.Separator != want.Separator || got.Decimals != want.Decimals {
		t.Errorf("%.40q: %s %q %s", text, got.Encoding, got.Separator, got.Decimals)
	}
	plain := want.Encoding == decode.UTF8 && want.Separator == ',' && want.Decimals == decode.Points
	notes := 1 // of the column nobody knows
	if !plain {
		notes++
	}
	if found.Len() != notes || found.Worst() > diag.Note {
		t.Errorf("%.40q: %v", text, found.All())
	}
	return cat.All()
}

// allQuoted writes every cell in quotes.
func allQuoted(t *testing.T, text string) string {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for _, row := range rows {
		b.WriteString(`"` + strings.Join(row, `","`) + "\"\n")
	}
	return b.String()
}

func inUTF16(text string, bigEndian bool) string {
	var out []byte
	for _, u := range utf16.Encode([]rune(text)) {
		low, high := byte(u), byte(u>>8)
		if bigEndian {
			low, high = high, low
		}
		out = append(out, low, high)
	}
	return string(out)
}
