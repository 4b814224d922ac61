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

const csvText = `Name,SKU,form,family,width (mm),height,depth,weight (g),gtin,case,weekly,price,cost,colour,image,min,max,stack,breakable
"Tomato ""Roma"", seeds",00123,Peg,,82.55,4 1/2,0.1,15,2000 0000 0001 5,24,12,3.50,1,#0A0,img/tom.png,1,4,3,No
Tea tin,TEA,stand,Tea,3in,5,3,300,,,,,,Grey,,,,,yes
`

const yamlText = `measure: in
goods:
  "00123": {name: 'Tomato "Roma", seeds', form: peg, family: "", width: 82.55mm, height: 4 1/2, depth: 0.1, weight: 15g,
    gtin: 2000000000015, case: 24, weekly: 12, price: 3.50, cost: 1, colour: "#00aa00", image: img/tom.png, min: 1, max: 4, stack: 3}
  TEA: {name: Tea tin, form: stand, family: Tea, width: 3, height: 5, depth: 3, weight: 300g, colour: gray, breakable: yes}
`

func products() []*goods.Product {
	in := measure.Inch
	return []*goods.Product{
		{SKU: "00123", Name: `Tomato "Roma", seeds`, Form: goods.Peg, Width: 13 * in / 4, Height: 9 * in / 2, Depth: in / 10,
			Weight: 15 * measure.Gram, GTIN: "2000000000015", Case: 24, Weekly: 12, Price: "3.50", Cost: "1",
			Colour: "#00aa00", Image: "img/tom.png", Min: 1, Max: 4, Stack: 3},
		{SKU: "TEA", Name: "Tea tin", Family: "Tea", Form: goods.Stand, Width: 3 * in, Height: 5 * in, Depth: 3 * in,
			Weight: 300 * measure.Gram, Colour: "#808080", Breakable: true},
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
	goods.Load(cat, "b.csv", []byte(head+"C,Sea,peg,1,1,1\nA,Second,peg,30,30,30\n"), measure.Millimetres, &found)
	var got []string
	for _, p := range cat.All() {
		got = append(got, p.SKU+" "+p.Name+" "+p.Width.MM()+" "+p.At.String())
	}
	want := []string{"A Second 30 b.csv:3:1", "B Bee 25.4 a.csv:3:1", "C Sea 1 b.csv:2:1"}
	if diff := cmp.Diff(want, got); diff != "" || found.Len() > 0 {
		t.Errorf("%v (-want +got):\n%s", found.All(), diff)
	}
}

func TestAllErrorsInOneRun(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) != 3 && os.Getenv("SETWRIGHT_UPDATE") == "" {
		t.Fatalf("goldens: %v, %v", files, err)
	}
	for _, pattern := range []string{"testdata/*.csv", "testdata/*.yaml"} {
		golden.Each(t, pattern, func(t *testing.T, name string, text []byte) string {
			var found diag.List
			cat := goods.NewCatalog()
			goods.Load(cat, name, text, measure.Inches, &found)
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

// TestCheckDigits are worked examples of GS1 and its member organisations.
func TestCheckDigits(t *testing.T) {
	for _, c := range []struct{ gtin, source string }{
		{"6291041500213", "gs1.org, how to calculate a check digit manually"},
		{"7300011000017", "gs1.se"},
		{"8904000210037", "gs1india.org"},
		{"40987650000223", "ibm.com, a GTIN-14"},
	} {
		for digit := '0'; digit <= '9'; digit++ {
			code := c.gtin[:len(c.gtin)-1] + string(digit)
			var found diag.List
			goods.Load(goods.NewCatalog(), "g.csv", []byte("sku,name,form,width,height,depth,gtin\nA,B,peg,1,1,1,"+code+"\n"), measure.Inches, &found)
			if right := code == c.gtin; right != (found.Len() == 0) {
				t.Errorf("%s: accepted %v, want %v (%s)", code, !right, right, c.source)
			}
		}
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
		for _, p := range cat.All() {
			if p.SKU == "" || p.Name == "" || p.Form == "" || p.Width <= 0 || p.Height <= 0 || p.Depth <= 0 || p.Weight < 0 || p.At.Line < 1 {
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
	fuzz(f, "g.csv", csvText, string(wrong), strings.ReplaceAll(csvText, ",", ";"))
}

func FuzzYAML(f *testing.F) {
	wrong, err := os.ReadFile("testdata/wrong.yaml")
	if err != nil {
		f.Fatal(err)
	}
	fuzz(f, "g.yaml", yamlText, string(wrong))
}
