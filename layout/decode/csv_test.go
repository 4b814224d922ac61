package decode

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

func testColumns() Columns {
	return Columns{Needed: []string{"sku", "width"}, Optional: []string{"name", "price"}, Lengths: []string{"width"}, Decimals: []string{"price"}}
}

// rows reads a CSV text: each row as sku/width in mm/name/price.
func rows(text string) (got []string, found *diag.List) {
	found = &diag.List{}
	CSV("f.csv", []byte(text), testColumns(), found, func(m *Map) {
		var sku, name, price string
		var w measure.Length
		m.Text("sku", &sku)
		m.Size("width", measure.Inches, &w)
		m.Text("name", &name)
		m.Decimal("price", &price)
		got = append(got, fmt.Sprintf("%s/%s/%s/%s", sku, w.MM(), name, price))
	})
	return got, found
}

func TestCSVReads(t *testing.T) {
	for _, c := range []struct {
		text, want, reason string
	}{
		{"sku,width,name\nA,2,Jar\nB,3in,Tin\n", "A/50.8/Jar/ B/76.2/Tin/", "bare numbers in the plan's measure"},
		{"width (mm),sku\n20,A\n3in,B\n", "A/20// B/76.2//", "a unit in the header, overruled by a cell's own"},
		{"Width [cm],SKU\n2,A\n", "A/20//", "capitals and square brackets"},
		{"width (in),sku\n3½,A\n", "A/88.9//", "a fraction glyph in a column with a unit"},
		{"sku;width (mm);price\nA;20,5;3,50\n", "A/20.5//3.50", "semicolons bring the decimal comma"},
		{"sku\twidth\nA\t2\n", "A/50.8//", "tabs"},
		{"sep=;\r\nsku;width (mm)\r\nA;20\r\n", "A/20//", "a spreadsheet's own first line"},
		{"\ufeffsku,width\r\nA,2\r\n", "A/50.8//", "a byte order mark and CRLF"},
		{"sku,width\rA,2\rB,3\r", "A/50.8// B/76.2//", "CR alone"},
		{"sku,width,name\nA,2,\"Jar, large \"\"L\"\"\"\n", "A/50.8/Jar, large \"L\"/", "quoted cells"},
		{"sku,width,name\n\nA,2\n,,\n", "A/50.8//", "blank rows and missing cells"},
		{"sku,width", "", "no rows"},
		{"sku|width|price\nA|2|3.50\n", "A/50.8//3.50", "vertical bars"},
		{"sep=:\nsku:width\nA:2\n", "A/50.8//", "a separator that only a sep= line can tell"},
		{"sep=;\nsku,width\nA,2\n", "A/50.8//", "a sep= line that is wrong"},
		{"\"sep=;\"\nsku;width\nA;2\n", "A/50.8//", "a sep= line in quotes"},
		{"sku,\"width (in)\",\"a;b;c;d\"\nA,2,x\n", "A/50.8//", "separators inside a quoted head do not count"},
		{"sku,width (mm)\nA,\"20,5\"\n", "A/20.5//", "a decimal comma in quotes"},
		{"sku\twidth (mm)\nA\t20,5\n", "A/20.5//", "a decimal comma between tabs"},
		{"sku,width (mm),price\nA,\"1,219\",3.50\n", "A/1219//3.50", "thousands, as the price has a point"},
		{"sku;width (mm);price\nA;1.219,5;3,50\n", "A/1219.5//3.50", "thousands and decimals"},
		{"sku;width (mm);price\nA;1.219;3,50\n", "A/1219//3.50", "thousands, as the price has a comma"},
		{"sku;width (mm);price\nA;20.5;1.234,50 €\n", "A/20.5//1234.50", "a point and a comma, each beyond doubt"},
		{"sku,width,price\nA,2,$3.50\nB,2,3.50 EUR\nC,2,CHF 1'234.50\nD,2,£ 3\n",
			"A/50.8//3.50 B/50.8//3.50 C/50.8//1234.50 D/50.8//3", "currencies beside prices"},
		{"sku,width (in)\nA,4 1/2\nB,4ft 6-1/2\nC,6-1/2\nD,4½\n", "A/114.3// B/1384.3// C/165.1// D/114.3//", "fractions stay, and so do feet"},
		{"sku,width,name\n\"=\"\"00123\"\"\",2,\n", "00123/50.8//", "digits kept as text by a formula"},
		{"sku,width\nA,2\n,\n,\n", "A/50.8//", "blank rows at the end"},
	} {
		got, found := rows(c.text)
		if strings.Join(got, " ") != c.want || found.Worst() > diag.Note {
			t.Errorf("%q reads as %q, want %q: %s; %v", c.text, strings.Join(got, " "), c.want, c.reason, found.All())
		}
	}
}

func TestCSVReports(t *testing.T) {
	for _, c := range []struct{ text, want, reason string }{
		{"", "1:1 empty-file", "no header"},
		{"sku,name\nA,x\n", "1:1 missing-column there is no column \"width\"", "a needed column"},
		{"sku,width,sku\nA,2,B\n", "1:11 duplicate-column", "a column twice"},
		{"sku,width,color\nA,2,red\n", "1:11 unknown-column", "a column nobody reads"},
		{"sku,width (furlong)\nA,2\n", "1:5 bad-unit", "a unit that is none"},
		{"sku,width\nÄÄ,0\n", "2:4 bad-length this length is zero", "columns count characters"},
		{"sku,width\n\"Ä\nÄ\",x\n", "3:4 bad-length", "a cell after one of two lines"},
		{"sku,width\nA,2,stray\n", "2:5 extra-cell", "more cells than columns"},
		{"sku,width\nA,3\"\n", "2:4 csv-syntax", "an inch mark that is no quote"},
		{"sku,width\n\"A,2\nB,3\n", "2:1 csv-syntax this quote mark opens", "a quote that is never closed, where it opens"},
		{"sku,width\nÄ,\"2\nB,3\nC,\"4\"\n", "2:3 csv-syntax this quote mark opens", "a quote that is closed by one meant to open"},
		{"sku,width\nÄ,\"2", "2:3 csv-syntax this quote mark opens", "on the last line"},
		{"sku:width:name\nA:2:B\n", "1:1 one-column the header is a single cell", "another separator"},
		{"sku width name\nA 2 B\n", "1:1 one-column", "spaces"},
		{"\"sku,width\"\n\"A,2\"\n", "1:1 one-column", "lines that are quoted as a whole"},
		{"name\nA\n", "1:1 missing-column there is no column \"sku\", \"width\"", "all that are missing at once"},
		{"sku,width,a,name,b\nA,2\n", "1:11 unknown-column the columns \"a\", \"b\" are not known", "unknown columns in one note"},
		{"sku,width,\nA,2,x\nB,2,y\n", "2:5 unnamed-column", "a cell under a blank head"},
		{"sku,width,name\nA,2,=1+1\nB,2,@x\nC,2,-\nD,2,-4\n", "2:5 formula-cell 2 cells begin as formulas do, \"=1+1\" first", "formulas, no dash and no number"},
		{"sku,width\nA,\"1,219\"\n", "2:3 bad-number \"1,219\" may be read in two ways", "a comma that may be either"},
		{"sku;width\nA;1.219\n", "2:3 bad-number \"1.219\" may be read in two ways", "a point that may be either"},
		{"sku,width,price\nA,2,1.250\nB,2,\"3,5\"\nC,2,3.5\n", "2:5 bad-number \"1.250\" may be read in two ways", "its own sign in a file that mixes them"},
		{"sku,width (kg)\nA,2\n", "1:5 bad-unit \"kg\" is no unit of length", "a weight's unit on a length"},
		{"Our goods,,\nof spring\n\nsku,name,width (in)\nA,B,2\n", "1:1 late-header this row is not the header", "a title above the header"},
		{"Our goods of spring\nsku,name,width (in)\nA,B,2\n", "1:1 late-header this row is not the header", "a title of a single cell"},
		{"PK\x03\x04\x14\x00", "1:1 not-text this file is a spreadsheet's workbook", "a workbook"},
		{"\xff\xfes\x00k\x00u", "1:1 cut-short", "half a letter of UTF-16"},
		{"sku,width\nA,\xe9\x00\n", "2:3 not-utf-8", "bytes that are no text"},
		{"sku,width\nA,2" + strings.Repeat(",", 2000), "2:1 too-large", "a bomb of cells"},
		{"sku,width\nA,\x00\n", "2:3 bad-character", "a control character"},
		{"sku,width,name\nA,2,\xe9 é\n", "2:5 not-utf-8", "UTF-8 with a byte that is none"},
	} {
		_, found := rows(c.text)
		if found.Len() == 0 {
			t.Errorf("%q is read without a finding: %s", c.text, c.reason)
			continue
		}
		worst := slices.IndexFunc(found.All(), func(f diag.Finding) bool { return f.Level == found.Worst() })
		f := found.All()[worst]
		got := fmt.Sprintf("%d:%d %s %s", f.At.Line, f.At.Col, f.Code, f.Message)
		if !strings.HasPrefix(got, c.want) {
			t.Errorf("%q: %q, want %q: %s", c.text, got, c.want, c.reason)
		}
	}
}

func TestCSVGoesOnAfterABadRow(t *testing.T) {
	got, found := rows("sku,width\nA,3\"\nB,3\nC,x\nD,4\n")
	if len(got) != 3 || !strings.HasPrefix(got[0], "B/") || found.Len() != 2 {
		t.Errorf("read %q with %d findings", got, found.Len())
	}
}

func TestCSVLineLimit(t *testing.T) {
	most := "sku,width\n" + strings.Repeat("A,2\n", maxLines-1)
	if got, found := rows(most); len(got) != maxLines-1 || found.Len() > 0 {
		t.Errorf("%d rows, %v", len(got), found.All())
	}
	if got, found := rows(most + strings.Repeat(",\r\n", 1_000_000)); len(got) != maxLines-1 || found.Len() > 0 {
		t.Errorf("with blank rows at the end: %d rows, %v", len(got), found.All())
	}
	got, found := rows(most + "B,2\n")
	if len(got) > 0 || found.Len() != 1 || found.All()[0].Code != "too-large" || found.All()[0].At.Line != maxLines+1 {
		t.Errorf("%d rows, findings: %v", len(got), found.All())
	}
}

func FuzzCSV(f *testing.F) {
	f.Add("sku,width (mm),name,price\nA,20,\"x,y\",3\n")
	f.Add("sep=;\nsku;width\nA;2,5\n")
	f.Add("sku\twidth\r\"\n")
	f.Add("sep=|\nsku|width|price\nA|1.219,5 mm|€ 3'000.50\n=x|4' 6-1/2|1,250\n,,,\n")
	f.Add("Title\n\nsku,width\n\"=\"\"001\"\"\",2\n")
	f.Add("\xff\xfes\x00k\x00u\x00,\x00w\x00i\x00d\x00t\x00h\x00\n\x00A\x00,\x002\x00")
	f.Add("sku;width\nCr\xe8me;2,5\n")
	f.Fuzz(func(t *testing.T, text string) {
		_, found := rows(text)
		lines := 1 + strings.Count(text, "\n") + strings.Count(text, "\r")
		for _, x := range found.All() {
			if x.At.Line > lines || x.At.Col < 0 || x.At.Col > len(text)+1 {
				t.Fatalf("%q: finding at %v", text, x.At)
			}
		}
	})
}
