package goods_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

const csvText = `Name,SKU,form,family,width (mm),height,depth,weight (g),gtin,case,weekly,price,cost,colour,image,min,max,stack,breakable,short,hole,sizes,look
"Tomato ""Roma"", seeds",00123,Peg,,82.55,4 1/2,0.1,15,2000 0000 0001 5,24,12,3.50,1,#0A0,img/tom.png,1,4,3,No,Roma,3/8,,5
Tea tin,TEA,stand,Tea,3in,5,3,300,,,,,,Grey,,,,,yes,,,,
Clog,CLOG,boxed,,180,4.5,11.5,600,,,,,,,,,,,,,,36-38 39.5,
`

const yamlText = `measure: in
goods:
  "00123": {name: 'Tomato "Roma", seeds', form: peg, family: "", width: 82.55mm, height: 4 1/2, depth: 0.1, weight: 15g,
    gtin: 2000000000015, case: 24, weekly: 12, price: 3.50, cost: 1, colour: "#00aa00", image: img/tom.png, min: 1, max: 4, stack: 3,
    short: Roma, hole: 3/8in, look: 5}
  TEA: {name: Tea tin, form: stand, family: Tea, width: 3, height: 5, depth: 3, weight: 300g, colour: gray, breakable: yes}
  CLOG: {name: Clog, form: boxed, width: 180mm, height: 4.5, depth: 11.5, weight: 600g, sizes: [36, 37, 38, 39.5]}
`

func products() []*goods.Product {
	in := measure.Inch
	return []*goods.Product{
		{SKU: "00123", Name: `Tomato "Roma", seeds`, Form: goods.Peg, Width: 13 * in / 4, Height: 9 * in / 2, Depth: in / 10,
			Weight: 15 * measure.Gram, GTIN: "2000000000015", Case: 24, Weekly: 12, Price: "3.50", Cost: "1",
			Colour: "#00aa00", Image: "img/tom.png", Min: 1, Max: 4, Stack: 3, Short: "Roma", Hole: 3 * in / 8, Look: 5},
		{SKU: "TEA", Name: "Tea tin", Family: "Tea", Form: goods.Stand, Width: 3 * in, Height: 5 * in, Depth: 3 * in,
			Weight: 300 * measure.Gram, Colour: "#808080", Breakable: true},
		{SKU: "CLOG", Name: "Clog", Form: goods.Boxed, Width: 180 * measure.Millimetre, Height: 9 * in / 2, Depth: 23 * in / 2,
			Weight: 600 * measure.Gram, Sizes: []string{"36", "37", "38", "39.5"}},
	}
}

func TestLoad(t *testing.T) {
	for _, c := range []struct{ file, text, image, reason string }{
		{"goods.csv", csvText, "img/tom.png", "a CSV file, columns in any order"},
		{"goods.CSV", strings.ReplaceAll(csvText, "\n", "\r\n"), "img/tom.png", "CRLF"},
		{"goods.yaml", yamlText, "img/tom.png", "the same goods as YAML"},
		{`sub\goods.YML`, yamlText, "sub/img/tom.png", "the ending in capitals; images lie by the goods file"},
	} {
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, c.file, []byte(c.text), measure.Inches, &found)
		if found.Len() > 0 {
			t.Errorf("%s: %v", c.reason, found.All())
		}
		want := products()
		want[0].Image = c.image
		if diff := cmp.Diff(want, cat.All(), cmpopts.IgnoreTypes(diag.Span{})); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.reason, diff)
		}
	}
}

func TestLaterFilesOverride(t *testing.T) {
	var found diag.List
	cat := goods.NewCatalog()
	head := "sku,name,form,width,height,depth\n"
	goods.Load(cat, "a.csv", []byte(head+"A,First,peg,1,1,1\nB,Bee,peg,1,1,1\n"), measure.Inches, &found)
	read := goods.Load(cat, "b.csv", []byte(head+"C,Sea,peg,1,1,1\nA,Second,peg,30,30,30\n"), measure.Millimetres, &found)
	var got []string
	for _, p := range cat.All() {
		got = append(got, p.SKU+" "+p.Name+" "+p.Width.MM()+" "+p.At.String())
	}
	want := []string{"A Second 30 b.csv:3:1", "B Bee 25.4 a.csv:3:1", "C Sea 1 b.csv:2:1"}
	if diff := cmp.Diff(want, got); diff != "" || found.Len() > 0 {
		t.Errorf("%v (-want +got):\n%s", found.All(), diff)
	}
	if len(read.Over) != 1 || read.Products != 2 || read.Over[0].SKU != "A" ||
		read.Over[0].Was.String() != "a.csv:2:1" || read.Over[0].Now.String() != "b.csv:3:1" {
		t.Errorf("understood %+v", read)
	}
}

func TestExtraColumnsAreKept(t *testing.T) {
	var found diag.List
	cat := goods.NewCatalog()
	goods.Load(cat, "a.csv", []byte("Shelf  life,sku,name,form,width,height,depth,Note,\n2 y,A,B,peg,1,1,1,,\n,B,B,peg,1,1,1,x,\n"),
		measure.Inches, &found)
	var got [][]goods.Extra
	for _, p := range cat.All() {
		got = append(got, p.Extra)
	}
	want := [][]goods.Extra{{{Name: "Shelf life", Text: "2 y"}}, {{Name: "Note", Text: "x"}}}
	if diff := cmp.Diff(want, got); diff != "" || found.Len() != 1 {
		t.Errorf("%v (-want +got):\n%s", found.All(), diff)
	}
}

func TestSameCodes(t *testing.T) {
	const head = "sku,name,form,width,height,depth,gtin\n"
	for _, c := range []struct{ first, second, want, reason string }{
		{"A,A,peg,1,1,1,2000000000015\nB,B,peg,1,1,1,2000000000022\n", "", "", "each its own"},
		{"A,A,peg,1,1,1,2000000000015\nB,B,peg,1,1,1,2000000000015\n", "", "b.csv:3:1 A", "two of one file"},
		{"A,A,peg,1,1,1,036000241457\nB,B,peg,1,1,1,0036000241457\n", "", "b.csv:3:1 A", "zeros in front are no other GTIN"},
		{"A,A,peg,1,1,1,2000000000015\n", "A,A,peg,1,1,1,2000000000015\n", "", "one overrides the other"},
		{"A,A,peg,1,1,1,2000000000015\nB,B,peg,1,1,1,2000000000015\n", "A,A,peg,1,1,1,2000000000022\n", "", "one of two is overridden"},
		{"A,A,peg,1,1,1,2000000000015\n", "B,B,peg,1,1,1,2000000000015\nC,C,peg,1,1,1,2000000000015\n", "c.csv:2:1 A c.csv:3:1 A", "across files, each with the first"},
	} {
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, "b.csv", []byte(head+c.first), measure.Inches, &found)
		goods.Load(cat, "c.csv", []byte(head+c.second), measure.Inches, &found)
		var got []string
		for _, f := range cat.SameCodes() {
			other := strings.Fields(strings.SplitAfter(f.Message, "GTIN as ")[1])[0]
			got = append(got, f.At.String(), strings.Trim(other, `":`))
		}
		if strings.Join(got, " ") != c.want || found.Len() > 0 {
			t.Errorf("%q, want %q: %s; %v", got, c.want, c.reason, found.All())
		}
	}
}

func TestAllErrorsInOneRun(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) != 6 && os.Getenv("SETWRIGHT_UPDATE") == "" {
		t.Fatalf("goldens: %v, %v", files, err)
	}
	for _, pattern := range []string{"testdata/*.csv", "testdata/*.yaml"} {
		golden.Each(t, pattern, func(t *testing.T, name string, text []byte) string {
			var found diag.List
			cat := goods.NewCatalog()
			goods.Load(cat, name, text, measure.Inches, &found)
			found.Add(cat.SameCodes()...)
			found.Sort()
			var b strings.Builder
			if err := found.WriteText(&b); err != nil {
				t.Fatal(err)
			}
			for _, p := range cat.All() {
				fmt.Fprintf(&b, "kept: %s %s\n", p.SKU, p.Name)
			}
			return b.String()
		})
	}
}

func fuzz(f *testing.F, file string, seeds ...string) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, file, []byte(text), measure.Inches, &found)
		cat.SameCodes()
		for _, p := range cat.All() {
			if p.SKU == "" || p.Name == "" || p.Form == "" || p.Width <= 0 || p.Height <= 0 || p.Depth <= 0 || p.Weight < 0 || p.At.Line < 1 ||
				p.GTIN != "" && !goods.IsGTIN(p.GTIN) || len(p.Sizes) > 100 || p.Look < 0 || p.Hole < 0 {
				t.Fatalf("%q: kept %+v", text, p)
			}
		}
	})
}

func FuzzCSV(f *testing.F) {
	wrong, err := os.ReadFile("testdata/wrong.csv")
	if err != nil {
		f.Fatal(err)
	}
	fuzz(f, "g.csv", csvText, string(wrong), strings.ReplaceAll(csvText, ",", ";"), "sep=|\n"+strings.ReplaceAll(csvText, ",", "|"),
		"\xff\xfes\x00k\x00u\x00", "sku;name;form;width;height;depth;sizes;gtin\nA;\xe9;boxed;1.219,5;3,25;0,5;36-41/42;6.29104E+12\n")
}

func FuzzYAML(f *testing.F) {
	wrong, err := os.ReadFile("testdata/wrong.yaml")
	if err != nil {
		f.Fatal(err)
	}
	fuzz(f, "g.yaml", yamlText, string(wrong))
}
