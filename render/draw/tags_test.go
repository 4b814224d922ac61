package draw

import (
	"strings"
	"testing"

	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
	"setwright/render/bars"
	"setwright/render/sheet"
	"setwright/render/words"
)

// One tag of the greatest size a plan may ask for fits on every paper, in its
// measure, marked as not for construction or not.
func TestLargestTagFits(t *testing.T) {
	for _, paper := range []string{"letter", "tabloid", "a4", "a3"} {
		for _, stop := range []bool{false, true} {
			j := desk()
			j.Unit.Plan.Paper, j.stop = paper, stop
			size := &plan.Tags{}
			size.Width, size.Height = plan.TagRoom(paper)
			if _, columns, rows := j.tagGrid(size); columns < 1 || rows < 1 {
				t.Errorf("%s: no room for a tag of %s by %s mm (stop: %v)", paper, size.Width.MM(), size.Height.MM(), stop)
			}
		}
	}
}

// tagOf draws one tag.
func tagOf(j *Job, size plan.Tags, product *goods.Product) *sheet.Sheet {
	p := j.newPage(j.paper(), "tag", "Tag")
	line := list.KeyLine{Position: &unit.Position{Address: "F-10-12", Product: product}}
	p.Sheet.Items = nil
	p.tag(inset(box(20*mm, 40*mm, 20*mm+size.Width, 40*mm+size.Height), tagPad), line)
	return p.Sheet
}

// Tags of every size, of goods with short and long names, keep within their
// edges, show address and price, and have bars where there is room.
func TestTagsOfEverySize(t *testing.T) {
	const in = measure.Inch
	for _, c := range []struct {
		width, height measure.Length
		gtin          string
		barred        bool
		digits        bool
		reason        string
	}{
		{5 * in / 2, 5 * in / 4, "7300011000017", true, true, "bars beside the price"},
		{42 * mm, 35 * mm, "7300011000017", true, true, "bars under it"},
		{40 * mm, 35 * mm, "7300011000017", false, true, "a millimetre too narrow for the quiet zones"},
		{40 * mm, 35 * mm, "96385074", true, true, "EAN-8 is narrower"},
		{5 * in / 2, 16 * mm, "7300011000017", false, true, "too low for bars of 8 mm"},
		{25 * mm, 12 * mm, "7300011000017", false, true, "the smallest"},
		{60 * mm, 40 * mm, "17300011000014", false, true, "a case's number has no bars"},
		{60 * mm, 40 * mm, "", false, false, "no number"},
		{13 * in / 2, 7 * in, "036000241457", true, true, "the largest on letter"},
	} {
		for _, name := range []string{"Dill", "The very long name of a product that nobody would sell but somebody will, in a tin"} {
			j := desk()
			product := &goods.Product{Name: name, GTIN: c.gtin, Price: "12.50"}
			j.Unit.Plan.Currency, j.symbols = "$", symbolsOf([]list.StockLine{{Product: product}})
			s := tagOf(j, plan.Tags{Width: c.width, Height: c.height}, product)
			edge := box(20*mm, 40*mm, 20*mm+c.width, 40*mm+c.height)
			barred, said := false, ""
			for _, item := range s.Items {
				if !within(sheet.Bounds(item), edge) {
					t.Errorf("%s: %+v leaves the tag", c.reason, item)
				}
				if b, ok := item.(sheet.Boxes); ok {
					barred = true
					if h := high(sheet.Bounds(b)) - guardDrop; h < leastBars {
						t.Errorf("%s: bars %s mm high", c.reason, h.MM())
					}
				}
				if text, ok := item.(sheet.Text); ok {
					said += text.S + "|"
				}
			}
			for _, clash := range sheet.Clashes(s) {
				t.Errorf("%s: items %d and %d clash: %s", c.reason, clash.A, clash.B, said)
			}
			number := strings.Contains(strings.ReplaceAll(said, "|", ""), c.gtin)
			if barred != c.barred && name == "Dill" || !strings.Contains(said, "F-10-12|") || !strings.Contains(said, "$12.50|") || name == "Dill" && number != c.digits && c.gtin != "" {
				t.Errorf("%s: barred %v, says %s", c.reason, barred, said)
			}
		}
	}
}

func TestPrice(t *testing.T) {
	for _, c := range []struct{ language, currency, price, want, reason string }{
		{"en", "$", "3.95", "$3.95", "a sign stands before the number"},
		{"en", "EUR", "3.95", "EUR\u00a03.95", "a code with a blank"},
		{"en", "", "3.95", "3.95", "the bare number"},
		{"fr", "€", "3.95", "3,95\u00a0€", "after it in French, with a comma"},
		{"es", "€", "1234", "1234\u00a0€", "and in Spanish"},
		{"en", "$", "", "", "no price, no currency"},
	} {
		j := desk()
		j.Words, j.Unit.Plan.Currency = words.In(c.language), c.currency
		if got := j.price(&goods.Product{Price: c.price}); got != c.want {
			t.Errorf("%s: %q, want %q", c.reason, got, c.want)
		}
	}
}

// Sizes of symbols on paper are GS1's, in proportion to the module.
func TestBarcodeSizes(t *testing.T) {
	for _, c := range []struct {
		gtin          string
		width, height measure.Length // at a module of 0.33 mm
		reason        string
	}{
		{"7300011000017", 37290 * micron, 22850 * micron, "EAN-13 (gs1ie.org: 37.29 mm)"},
		{"036000241457", 37290 * micron, 22850 * micron, "UPC-A"},
		{"96385074", 26730 * micron, 18230 * micron, "EAN-8: 81 modules (from memory), 18.23 mm (gs1.se)"},
	} {
		s, ok := bars.Encode(c.gtin)
		width, height := barsWidth(s)*330*micron/module, fullHeight(s)*330*micron/module
		if !ok || abs(width-c.width) > micron || abs(height-c.height) > micron {
			t.Errorf("%s: %s by %s mm at 0.33 mm a module", c.reason, width.MM(), height.MM())
		}
	}
	if module < 264*micron || module > 660*micron {
		t.Errorf("a module of %s mm: GS1 allows 0.264 to 0.66", module.MM())
	}
}

// A block says the whole name if it fits, else the short one, else first words.
func TestNameLines(t *testing.T) {
	s := letter(fine)
	product := &goods.Product{Name: "Terracotta pot, 4 in, glazed", Short: "Pot 4"}
	for _, c := range []struct {
		width  measure.Length
		n      int
		short  string
		want   string
		told   told
		reason string
	}{
		{60 * mm, 1, "", "Terracotta pot, 4 in, glazed", wholeName, "all of it"},
		{24 * mm, 2, "", "Terracotta pot, 4 in,|glazed", wholeName, "on two lines"},
		{24 * mm, 1, "", "Terracotta pot, 4 in", firstWords, "without the comma"},
		{18 * mm, 1, "", "Terracotta pot", firstWords, "not with a number that lacks its unit"},
		{60 * mm, 1, "Pot 4", "Pot 4", wholeName, "the short name where both fit: it is read from farther off"},
		{18 * mm, 1, "Pot 4", "Pot 4", wholeName, "the short name rather than first words"},
		{8 * mm, 3, "", "", nothing, "no word is broken"},
		{60 * mm, 0, "", "", nothing, "no line"},
	} {
		product.Short = c.short
		lines, told := nameLines(product, s, c.width, c.n)
		if got := strings.Join(lines, "|"); got != c.want || told != c.told {
			t.Errorf("%s: %q (%d), want %q", c.reason, got, told, c.want)
		}
	}
}

// Figures that do not fit on a line go on to the next, none over another.
func TestFigureLines(t *testing.T) {
	all := func() []figure {
		return []figure{{label: "Facings", value: "1"}, {label: "Units", value: "1000000"}, {label: "Reorder at", value: "999999"}, {label: "Height (mm)", value: "1371.6"}}
	}
	for _, width := range []measure.Length{90 * mm, 50 * mm, 30 * mm, 20 * mm} {
		n := 0
		for _, line := range figureLines(width, all()) {
			end := measure.Length(0)
			for _, f := range line {
				w := max(letter(fine).width(f.label), letter(plain).strong().width(f.value))
				if f.left < end || f.left+w > width {
					t.Errorf("%s mm: %q from %s mm", width.MM(), f.label, f.left.MM())
				}
				end = f.left + w
				n++
			}
		}
		if n != 4 {
			t.Errorf("%s mm: %d figures", width.MM(), n)
		}
	}
}
