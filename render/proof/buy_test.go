package proof

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/buy"
	"setwright/layout/measure"
)

// titled returns the sheets of a title, those that continue it with them.
func (p *plan) titled(title string) []*page {
	var list []*page
	for _, pg := range p.sheets {
		if regexp.MustCompile(` \(\d+\)$`).ReplaceAllString(pg.title, "") == title {
			list = append(list, pg)
		}
	}
	return list
}

// cents reads a sum of money as the sheets print it.
func (p *plan) cents(t *testing.T, text string) measure.Money {
	t.Helper()
	number := strings.Trim(strings.ReplaceAll(text, p.project.Plan.Currency, ""), " \u00a0")
	if p.words.Comma {
		number = strings.Replace(number, ",", ".", 1)
	}
	m, ok := measure.ParseMoney(number)
	if !ok || len(number) < 4 || number[len(number)-3] != '.' {
		t.Fatalf("%q is no sum of money", text)
	}
	return m
}

// beside is the bold figure on the line of a label, "" if there is none.
func (pg *page) beside(label string) string {
	for _, l := range pg.Texts {
		if l.S != label || bold(l) || l.At.Y > pg.footFrom() {
			continue
		}
		for _, v := range pg.Texts {
			if bold(v) && near(v.At.Y, l.At.Y, exact) && v.At.X > l.At.X {
				return v.S
			}
		}
	}
	return ""
}

// first is a cell's first line: what follows the last row may stand under it.
func (e entry) first(head string) string {
	if len(e.cells[head]) == 0 {
		return ""
	}
	return e.cells[head][0]
}

func whole(t *testing.T, e entry, head string) int {
	t.Helper()
	n, err := strconv.Atoi(e.first(head))
	if err != nil {
		t.Fatalf("sheet %d: %q under %s", e.page.number, e.cells[head], head)
	}
	return n
}

// TestOrders adds up every order as it is printed, and holds it against the
// purchase and what hangs on the unit.
func TestOrders(t *testing.T) {
	orders := 0
	each(t, func(t *testing.T, p *plan) {
		for i := range p.project.Purchase.Orders {
			p.proveOrder(t, &p.project.Purchase.Orders[i])
			orders++
		}
	})
	if orders < 12 {
		t.Errorf("only %d orders", orders)
	}
}

func (p *plan) supplier(o *buy.Order) string {
	if o.Supplier == nil {
		return p.words.BuyNoSupplier
	}
	return o.Supplier.Name
}

func (p *plan) proveOrder(t *testing.T, o *buy.Order) {
	t.Helper()
	w := p.words
	pages := p.titled(fmt.Sprintf(w.BuyOrder, p.supplier(o)))
	heads := []string{w.BuyNeeded, w.Item, w.Part, w.BuyOnHand, w.BuyShort, w.BuyPacks, w.BuyPieces, w.BuySpare}
	if o.Priced() {
		heads = append(heads, w.BuyCost)
	}
	lines := table(pages, heads...)
	if len(lines) != len(o.Lines) {
		t.Fatalf("%s: %d lines are printed, %d ordered", p.supplier(o), len(lines), len(o.Lines))
	}
	goods := measure.Money(0)
	for i, e := range lines {
		goods += p.proveLine(t, e, &o.Lines[i])
		if whole(t, e, w.Item) != i+1 {
			t.Errorf("line %d is numbered %s", i+1, e.first(w.Item))
		}
	}
	if !o.Priced() {
		return
	}
	if said := p.reason(o); said != "" && !strings.Contains(pages[len(pages)-1].words(), said) {
		t.Errorf("%s: it is not said that %s", p.supplier(o), said)
	}
	last := pages[len(pages)-1]
	sums := goods
	for _, label := range []string{w.BuyFreight, fmt.Sprintf(w.BuyDutyAt, p.words.Decimal(rate(o)))} {
		if text := last.beside(label); text != "" {
			sums += p.cents(t, text)
		}
	}
	if got := p.cents(t, last.beside(w.BuyGoods)); got != goods || got != o.Goods {
		t.Errorf("%s: goods %v are printed, the lines come to %v", p.supplier(o), got, goods)
	}
	if got := p.cents(t, last.beside(w.BuyLanded)); got != sums || got != o.Total {
		t.Errorf("%s: %v landed is printed, the sums come to %v", p.supplier(o), got, sums)
	}
}

// reason is why there is more in an order than is needed.
func (p *plan) reason(o *buy.Order) string {
	sum := func(m measure.Money) string { return p.words.Money(m.String(), p.project.Plan.Currency) }
	switch {
	case o.Added == 0:
		return ""
	case o.Goods-o.Added < o.Supplier.Minimum:
		return fmt.Sprintf(p.words.BuyFilled, sum(o.Added), sum(o.Supplier.Minimum))
	}
	return fmt.Sprintf(p.words.BuyFree, sum(o.Added), sum(o.Supplier.Free), sum(o.Supplier.Freight))
}

// words is all that a page says, line by line.
func (pg *page) words() string {
	lines := make([]string, len(pg.Texts))
	for i, t := range pg.Texts {
		lines[i] = t.S
	}
	return strings.Join(lines, " ")
}

// rate is a supplier's duty in per cent, as short as it can be written.
func rate(o *buy.Order) string {
	if o.Supplier == nil {
		return ""
	}
	return strconv.FormatFloat(float64(o.Supplier.Duty)/100, 'f', -1, 64)
}

// proveLine holds a printed line of an order against the model, and returns what
// its packs cost.
func (p *plan) proveLine(t *testing.T, e entry, l *buy.Line) measure.Money {
	t.Helper()
	w := p.words
	needed, hand, short := whole(t, e, w.BuyNeeded), whole(t, e, w.BuyOnHand), whole(t, e, w.BuyShort)
	pieces, spare := whole(t, e, w.BuyPieces), whole(t, e, w.BuySpare)
	if !strings.Contains(" "+e.text(w.Part)+" ", " "+l.ID+" ") {
		t.Errorf("%q is printed for %s", e.text(w.Part), l.ID)
	}
	if needed != l.Needed || hand != l.OnHand || short != max(0, needed-hand) || spare != hand+pieces-needed || pieces < short {
		t.Errorf("%s: %d needed, %d on hand, %d short, %d bought, %d spare", l.ID, needed, hand, short, pieces, spare)
	}
	if !l.Stock() && p.hangs(l.ID) > 0 && needed != p.hangs(l.ID) {
		t.Errorf("%s: %d needed, %d hang on the unit", l.ID, needed, p.hangs(l.ID))
	}
	cost, packed := measure.Money(0), 0
	for _, text := range e.cells[w.BuyPacks] {
		n := regexp.MustCompile(`^(\d+) × (\d+)(?: \S+ (.+))?$`).FindStringSubmatch(text)
		if n == nil {
			t.Fatalf("%s: packs %q", l.ID, text)
		}
		count, _ := strconv.Atoi(n[1])
		each, _ := strconv.Atoi(n[2])
		packed += count * each
		if n[3] != "" {
			cost += measure.Money(count) * p.cents(t, n[3])
		}
	}
	if packed != pieces {
		t.Errorf("%s: packs of %d pieces, %d printed", l.ID, packed, pieces)
	}
	switch text := e.text(w.BuyCost); {
	case text == "" || text == w.BuyNoPrice:
		if l.Priced {
			t.Errorf("%s: its price is not printed", l.ID)
		}
	case p.cents(t, text) != cost:
		t.Errorf("%s: %s is printed for packs at %v", l.ID, text, cost)
	}
	return cost
}

// hangs counts the pieces of a part in the dump of the unit.
func (p *plan) hangs(id string) int {
	n := 0
	for _, f := range p.unit.Faces {
		for _, r := range f.Rows {
			for _, piece := range r.all() {
				if piece.Part == id {
					n++
				}
			}
		}
	}
	return n
}

// TestBuyList holds the sums of all orders and what is on hand against the
// purchase; a plan that names neither stock nor prices has no such sheet.
func TestBuyList(t *testing.T) {
	lists := 0
	each(t, func(t *testing.T, p *plan) {
		w, bought := p.words, &p.project.Purchase
		pages := p.titled(w.BuyList)
		if (len(pages) == 0) != bought.Empty() {
			t.Fatalf("%d sheets of a purchase of %d orders", len(pages), len(bought.Orders))
		}
		if bought.Empty() {
			return
		}
		lists++
		rows := table(pages, w.BuyLines, w.BuySupplier, w.BuyPieces, w.BuyGoods, w.BuyFreight, w.BuyDuty, w.BuyLanded)
		rows = slices.DeleteFunc(rows, func(e entry) bool { return e.top > e.page.boldAt(w.BuyAll) })
		if len(rows) != len(bought.Orders) {
			t.Fatalf("%d orders are listed of %d", len(rows), len(bought.Orders))
		}
		total := measure.Money(0)
		for i, e := range rows {
			if o := &bought.Orders[i]; !strings.HasPrefix(e.text(w.BuySupplier), p.supplier(o)) || whole(t, e, w.BuyLines) != len(o.Lines) {
				t.Errorf("%v is printed for %s", e.cells, p.supplier(o))
			} else if o.Priced() {
				landed := p.cents(t, e.first(w.BuyLanded))
				if landed != p.cents(t, e.first(w.BuyGoods))+p.cents(t, e.first(w.BuyFreight))+p.cents(t, e.first(w.BuyDuty)) {
					t.Errorf("%v does not add up", e.cells)
				}
				total += landed
			}
		}
		if total != bought.Total || pages[0].boldAt(w.Money(total.String(), p.project.Plan.Currency)) == 0 {
			t.Errorf("the orders come to %v, %v is bought", total, bought.Total)
		}
		held := table(pages, w.BuyNeeded, w.Part, w.BuyOnHand, w.BuyLeft)
		if len(held) != len(bought.Held) {
			t.Fatalf("%d things on hand are listed of %d", len(held), len(bought.Held))
		}
		for _, e := range held {
			if whole(t, e, w.BuyLeft) != whole(t, e, w.BuyOnHand)-whole(t, e, w.BuyNeeded) {
				t.Errorf("%v does not add up", e.cells)
			}
		}
	})
	if lists < 6 {
		t.Errorf("only %d buy lists", lists)
	}
}

// boldAt is how far down a page a text stands in bold, 0 if it does not.
func (pg *page) boldAt(text string) float64 {
	for _, t := range pg.Texts {
		if t.S == text && bold(t) {
			return t.At.Y
		}
	}
	return 0
}
