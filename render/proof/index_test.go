package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"setwright/layout/list"
	"setwright/render/pdf/pdftest"
)

// band is one row of a ruled table: the lines of each column's cell, by head,
// between one rule and the next.
type band map[string][]string

// bands reads ruled tables: rows stand between level lines of 0.13 mm, the first
// under the heads' line of 0.35 mm. What has no cell under must ends the row
// before it, which was split over sheets.
func bands(pages []*page, must string, heads ...string) (rows []band) {
	for _, pg := range pages {
		var rules []float64
		for _, l := range pg.Lines {
			if near(l.From.Y, l.To.Y, exact) && l.Length() > 100 && l.From.Y < pg.footFrom()-exact && (near(l.Pen.Width, 0.13, exact) || near(l.Pen.Width, 0.35, exact)) {
				rules = append(rules, l.From.Y)
			}
		}
		slices.Sort(rules)
		for i := 1; i < len(rules); i++ {
			row := band{}
			for _, head := range heads {
				row[head] = pg.cell(head, rules[i-1], rules[i])
			}
			if len(row[must]) > 0 || len(rows) == 0 {
				rows = append(rows, row)
				continue
			}
			for _, head := range heads {
				rows[len(rows)-1][head] = append(rows[len(rows)-1][head], row[head]...)
			}
		}
	}
	return rows
}

// cell lists the texts under a head between two heights.
func (pg *page) cell(name string, from, to float64) (lines []string) {
	head := pg.head(name)
	if head == nil {
		return nil
	}
	for _, text := range pg.column(head) {
		if text.At.Y > from && text.At.Y < to {
			lines = append(lines, text.S)
		}
	}
	return lines
}

// TestIndexesSayWhatIsThere holds the key's indexes against the unit: every
// position under its product, once, and the products in order.
func TestIndexesSayWhatIsThere(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w := p.words
		for k, head := range map[kind]string{keyByName: w.Product, keyBySKU: w.SKU} { // in either order
			rows := bands(p.of(k, ""), w.SKU, w.Product, w.SKU, w.Address, w.Facings, w.Units, w.ReorderAt, p.heightHead())
			var got []string
			for i, row := range rows {
				sorted := func(row band) string {
					said := strings.Join(row[head], " ")
					if k == keyBySKU {
						return squeezed(said)
					}
					return w.SortKey(said)
				}
				if i > 0 && sorted(rows[i-1]) > sorted(row) {
					t.Errorf("%q comes after %q", row[head], rows[i-1][head])
				}
				for n, address := range row[w.Address] {
					line := []string{squeezed(strings.Join(row[w.Product], "")), squeezed(strings.Join(row[w.SKU], "")), address}
					for _, head := range []string{w.Facings, w.Units, w.ReorderAt} {
						line = append(line, nth(row[head], n))
					}
					got = append(got, strings.Join(line, " "))
					h, ok := parseFigure(nth(row[p.heightHead()], n))
					if !ok || !p.says(h, p.heightOf()[address]) {
						t.Errorf("%s is at %v", address, row[p.heightHead()])
					}
				}
			}
			slices.Sort(got)
			if diff := gocmp.Diff(p.positions(), got); diff != "" {
				t.Errorf("positions (-unit +index by %s): %s", head, diff)
			}
		}
	})
}

func nth(list []string, n int) string {
	if n < len(list) {
		return list[n]
	}
	return ""
}

// heightOf is how high each position is, by address.
func (p *plan) heightOf() map[string]nm {
	at := map[string]nm{}
	for _, f := range p.unit.Faces {
		for _, r := range f.Rows {
			for _, position := range r.Positions {
				at[position.Address] = position.Height
			}
		}
	}
	return at
}

// positions lists what the indexes should say of every position, sorted.
func (p *plan) positions() (lines []string) {
	reorder := p.reorders()
	for _, f := range p.unit.Faces {
		for _, r := range f.Rows {
			for _, at := range r.Positions {
				lines = append(lines, fmt.Sprintf("%s %s %s %d %d %d", squeezed(at.Name), squeezed(at.SKU), at.Address, at.Facings, at.Units, reorder[at.Address]))
			}
		}
	}
	slices.Sort(lines)
	return lines
}

// TestRestockSaysWhatToBring holds the restock list against the unit and the
// goods file: a line a product, its units, whole cases and what is left of the
// last, the days its sales leave it, and the totals.
func TestRestockSaysWhatToBring(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w := p.words
		pages := p.of(restock, "")
		rows := bands(pages, w.SKU, w.Product, w.SKU, w.Where, w.Bring, w.Cases, w.LeftOver, w.FullLook, w.ReorderAt, w.LastsDays)
		stock := list.Stock(p.project.Unit)
		slices.SortStableFunc(stock, func(a, b list.StockLine) int {
			return cmp.Compare(w.SortKey(a.Product.Name), w.SortKey(b.Product.Name))
		})
		if len(rows) != len(stock) {
			t.Fatalf("%d lines for %d products", len(rows), len(stock))
		}
		units, cases := 0, 0
		for i, row := range rows {
			want := p.stocked(stock[i].Product.SKU)
			product := stock[i].Product
			units += want.units
			name := squeezed(strings.Join(row[w.Product], ""))
			said := []string{squeezed(strings.Join(row[w.SKU], "")), squeezed(strings.Join(row[w.Where], "")), nth(row[w.Bring], 0), nth(row[w.FullLook], 0), nth(row[w.ReorderAt], 0)}
			should := []string{squeezed(product.SKU), strings.Join(want.addresses, ","), strconv.Itoa(want.units), strconv.Itoa(stock[i].Look), strconv.Itoa(want.reorder)}
			boxes, over, days := "", "", ""
			if product.Case > 0 {
				n := (want.units + product.Case - 1) / product.Case
				cases += n
				boxes, over = fmt.Sprintf("%d × %d", n, product.Case), strconv.Itoa(n*product.Case-want.units)
			}
			if product.Weekly > 0 {
				days = strconv.Itoa(want.units * 7 / product.Weekly)
			}
			said = append(said, nth(row[w.Cases], 0), nth(row[w.LeftOver], 0), nth(row[w.LastsDays], 0))
			if diff := gocmp.Diff(append(should, boxes, over, days), said); diff != "" || !strings.HasPrefix(name, squeezed(product.Name)) {
				t.Errorf("%s, %s (-unit +list): %s", product.SKU, name, diff)
			}
		}
		if total := fmt.Sprintf(w.RestockTotal, len(stock), units, cases); len(stock) > 0 && !pages[len(pages)-1].shows(total) {
			t.Errorf("the list does not end with %q", total)
		}
	})
}

func (pg *page) shows(s string) bool {
	return slices.ContainsFunc(pg.Texts, func(t pdftest.Text) bool { return t.S == s })
}

// stocked is where a product is and how much of it.
type stocked struct {
	addresses      []string
	units, reorder int
}

func (p *plan) stocked(sku string) (s stocked) {
	reorder := p.reorders()
	for _, f := range p.unit.Faces {
		for _, r := range f.Rows {
			for _, at := range r.Positions {
				if at.SKU == sku {
					s.addresses = append(s.addresses, at.Address)
					s.units, s.reorder = s.units+at.Units, s.reorder+reorder[at.Address]
				}
			}
		}
	}
	return s
}

// TestTags wants a tag for every position in walking order, of the plan's size
// to a hundredth of a millimetre, with its address and its price, nothing over
// a cutting line, and no tags where the plan asks for none.
func TestTags(t *testing.T) {
	tagged := 0
	each(t, func(t *testing.T, p *plan) {
		var got, want []string
		size := p.project.Plan.Tags
		for _, pg := range p.of(tags, "") {
			got = append(got, p.tagsOn(t, pg)...)
		}
		for _, k := range list.Key(p.project.Unit) {
			if size != nil {
				want = append(want, k.Position.Address+" "+k.Position.Product.Price)
			}
		}
		if diff := gocmp.Diff(want, got); diff != "" {
			t.Errorf("tags (-unit +sheets): %s", diff)
		}
		tagged += len(got)
	})
	if tagged == 0 {
		t.Error("no plan has tags")
	}
}

// tagsOn reads the tags of a sheet by the lines they are cut along: address and
// price of each.
func (p *plan) tagsOn(t *testing.T, pg *page) (list []string) {
	t.Helper()
	var xs, ys []float64
	for _, l := range pg.Lines {
		switch {
		case !near(l.Pen.Width, 0.13, exact) || l.From.Y > pg.footFrom():
		case near(l.From.X, l.To.X, exact):
			xs = append(xs, l.From.X)
		case near(l.From.Y, l.To.Y, exact):
			ys = append(ys, l.From.Y)
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	size, read := p.project.Plan.Tags, 0
	for r := 1; r < len(ys); r++ {
		for c := 1; c < len(xs); c++ {
			cell := pdftest.Box{Min: pdftest.Point{X: xs[c-1], Y: ys[r-1]}, Max: pdftest.Point{X: xs[c], Y: ys[r]}}
			if math.Abs(xs[c]-xs[c-1]-float64(size.Width)/1e6) > 0.01 || math.Abs(ys[r]-ys[r-1]-float64(size.Height)/1e6) > 0.01 {
				t.Errorf("sheet %d: a tag of %v", pg.number, cell)
			}
			within := pg.within(cell)
			read += len(within)
			if tag := p.tag(within); tag != "" {
				list = append(list, tag)
			}
		}
	}
	for _, text := range pg.Texts {
		if text.At.Y < pg.footFrom() && text.At.Y > ys[0] {
			read--
		}
	}
	if read != 0 {
		t.Errorf("sheet %d: %d texts lie in no tag", pg.number, -read)
	}
	return list
}

// tag reads address and price of a tag, "" of an empty one.
func (p *plan) tag(texts []pdftest.Text) string {
	address, price := "", ""
	slices.SortStableFunc(texts, func(a, b pdftest.Text) int { return cmp.Compare(a.Order, b.Order) })
	for _, text := range texts {
		if positionAddress.MatchString(text.S) {
			address = text.S
			continue
		}
		number := strings.Replace(text.S, ",", ".", 1)
		if currency := p.project.Plan.Currency; currency != "" && strings.Contains(number, currency) {
			price = strings.Trim(strings.Replace(number, currency, "", 1), " \u00a0")
		}
	}
	if address == "" {
		return ""
	}
	return address + " " + price
}
