package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/buy"
	"setwright/layout/measure"
)

// BuyList draws what to buy for the unit: what the orders come to and what is on
// hand, then each order on sheets of its own, to be sent off.
func (j *Job) BuyList() []*Page {
	if j.Purchase.Empty() {
		return nil
	}
	pages := j.buySummary()
	for i := range j.Purchase.Orders {
		pages = append(pages, j.order(i)...)
	}
	return pages
}

func (j *Job) buySummary() []*Page {
	p, w := &j.Purchase, j.Words
	s := &section{job: j, name: "buy-list", title: w.BuyList, under: w.BuyUnder}
	f := s.flowFresh()
	if len(p.Orders) > 0 {
		f.table(j.ordersTable())
		f.skip(3 * mm)
		f.without(p.Unpriced, p.Priced())
	} else {
		f.text(w.BuyNothing, letter(plain).strong(), 0)
	}
	switch {
	case !p.Priced():
	case p.Wants > 0:
		f.text(fmt.Sprintf(w.BuyWorthBut, j.sum(p.Worth), p.Wants), letter(plain), 0)
	default:
		f.text(fmt.Sprintf(w.BuyWorth, j.sum(p.Worth)), letter(plain), 0)
	}
	if len(p.Held) > 0 {
		f.skip(5 * mm)
		f.heading(w.BuyHeld, 15*mm)
		f.table(j.heldTable())
	}
	return s.pages
}

// without says how many lines the sums leave out.
func (f *flow) without(lines int, priced bool) {
	if lines > 0 && priced {
		f.text(fmt.Sprintf(f.section.job.Words.BuyWithout, lines), letter(plain).strong(), 0)
	}
}

// orderName is the name of an order's first sheet.
func orderName(i int) string { return "order-" + strconv.Itoa(i+1) }

func (j *Job) supplierName(o *buy.Order) string {
	if o.Supplier == nil {
		return j.Words.BuyNoSupplier
	}
	return o.Supplier.Name
}

// ordersTable has a line an order, and their sums; without any price it counts
// lines and pieces.
func (j *Job) ordersTable() table {
	w, p := j.Words, &j.Purchase
	t := table{columns: []column{{head: w.BuySupplier, flex: 1}, {head: w.BuyLines, end: true}, {head: w.BuyPieces, end: true}}}
	if p.Priced() {
		for _, head := range []string{w.BuyGoods, w.BuyFreight, w.BuyDuty, w.BuyLanded} {
			t.columns = append(t.columns, column{head: head, end: true})
		}
	}
	row := func(name string, lines, pieces int, sums ...measure.Money) *record {
		cells := []string{name, strconv.Itoa(lines), strconv.Itoa(pieces)}
		for _, m := range sums {
			cells = append(cells, j.sum(m))
		}
		t.records = append(t.records, record{cells: cells[:min(len(cells), len(t.columns))]})
		return &t.records[len(t.records)-1]
	}
	lines, pieces := 0, 0
	for i := range p.Orders {
		o, n := &p.Orders[i], 0
		for _, l := range o.Lines {
			n += l.Pieces
		}
		sums := []measure.Money{o.Goods, o.Freight, o.Duty, o.Total}
		if !o.Priced() {
			sums = nil
		}
		row(j.supplierName(o), len(o.Lines), n, sums...).link = orderName(i)
		lines, pieces = lines+len(o.Lines), pieces+n
	}
	row(w.BuyAll, lines, pieces, p.Goods, p.Freight, p.Duty, p.Total).bold = true
	return t
}

// heldTable lists what need not be bought.
func (j *Job) heldTable() table {
	w := j.Words
	t := table{columns: []column{{head: w.Part, flex: 1}, {head: w.BuyNeeded, end: true}, {head: w.BuyOnHand, end: true}, {head: w.BuyLeft, end: true}}}
	for i := range j.Purchase.Held {
		l := &j.Purchase.Held[i]
		t.records = append(t.records, record{cells: []string{j.itemName(l), strconv.Itoa(l.Needed), strconv.Itoa(l.OnHand), strconv.Itoa(l.Spare)}})
	}
	return t
}

// itemName is what a line is of, its id under it.
func (j *Job) itemName(l *buy.Line) string {
	name := l.Name
	if l.Stock() {
		name += ", " + j.cutSize(l.Length, l.Width)
	}
	if l.ID != l.Name {
		name += "\n" + l.ID
	}
	return name
}

// order draws the order of one supplier, to be sent off: it says nothing of other
// suppliers.
func (j *Job) order(i int) []*Page {
	o, w := &j.Purchase.Orders[i], j.Words
	s := &section{job: j, name: orderName(i), title: fmt.Sprintf(w.BuyOrder, j.supplierName(o)),
		under: fmt.Sprintf(w.BuyOrderUnder, j.Unit.Plan.Title)}
	f := s.flowFresh()
	f.fields(field{w.BuyNumber, 24}, field{w.Date, 15}, field{w.BuyDeliver, 36}, field{w.BuyBy, 25}) // filled in before it is sent
	f.skip(4 * mm)
	f.table(j.orderTable(o))
	f.skip(3 * mm)
	f.orderSums(o)
	f.without(o.Unpriced, o.Priced())
	if said := j.orderSays(o); said != "" {
		f.text(said, letter(plain), 0)
	}
	return s.pages
}

func (j *Job) orderTable(o *buy.Order) table {
	w := j.Words
	t := table{columns: []column{{head: w.Item, end: true}, {head: w.Part, flex: 1}, {head: stacked(w.BuyNeeded), end: true},
		{head: stacked(w.BuyOnHand), end: true}, {head: w.BuyShort, end: true}, {head: w.BuyPacks, end: true},
		{head: w.BuyPieces, end: true}, {head: stacked(w.BuySpare), end: true}}}
	if o.Priced() {
		t.columns = append(t.columns, column{head: w.BuyCost, end: true})
	}
	for i := range o.Lines {
		l := &o.Lines[i]
		name := j.itemName(l)
		if l.Buying.Minimum > 0 {
			name += "\n" + fmt.Sprintf(w.BuyAtLeast, l.Buying.Minimum)
		}
		cost := w.BuyNoPrice
		if l.Priced {
			cost = j.sum(l.Cost)
		}
		cells := []string{strconv.Itoa(i + 1), name, strconv.Itoa(l.Needed), strconv.Itoa(l.OnHand), strconv.Itoa(l.Short),
			j.packsToOrder(l), strconv.Itoa(l.Pieces), strconv.Itoa(l.Spare), cost}
		t.records = append(t.records, record{cells: cells[:len(t.columns)]})
	}
	return t
}

// packsToOrder has a line for each size of pack.
func (j *Job) packsToOrder(l *buy.Line) string {
	lines := make([]string, len(l.Packs))
	for i, p := range l.Packs {
		lines[i] = fmt.Sprintf("%d × %d", p.Count, p.Pieces)
		if l.Priced {
			lines[i] = fmt.Sprintf(j.Words.BuyPackAt, p.Count, p.Pieces, j.sum(p.Price))
		}
	}
	return strings.Join(lines, "\n")
}

// orderSums sets what the order comes to at the right end of the sheet.
func (f *flow) orderSums(o *buy.Order) {
	if !o.Priced() {
		return
	}
	j := f.section.job
	sums := [][2]string{{j.Words.BuyGoods, j.sum(o.Goods)}}
	if s := o.Supplier; s != nil {
		if s.Freight > 0 {
			sums = append(sums, [2]string{j.Words.BuyFreight, j.sum(o.Freight)})
		}
		if s.Duty > 0 {
			rate := strings.TrimSuffix(strings.TrimRight(measure.Money(s.Duty).String(), "0"), ".")
			sums = append(sums, [2]string{fmt.Sprintf(j.Words.BuyDutyAt, j.Words.Decimal(rate)), j.sum(o.Duty)})
		}
	}
	sums = append(sums, [2]string{j.Words.BuyLanded, j.sum(o.Total)})
	f.room(measure.Length(len(sums)) * 7 * mm)
	for _, pair := range sums {
		f.y = f.page.pair(box(f.area.Max.X-75*mm, f.y, f.area.Max.X, f.area.Max.Y), f.y, pair[0], pair[1])
	}
	f.skip(3 * mm)
}

// orderSays is what a buyer should know of an order before sending it.
func (j *Job) orderSays(o *buy.Order) string {
	switch s, w := o.Supplier, j.Words; {
	case o.Under:
		return fmt.Sprintf(w.BuyTooSmall, j.sum(s.Minimum))
	case o.FilledUp():
		return fmt.Sprintf(w.BuyFilled, j.sum(o.Added), j.sum(s.Minimum))
	case o.Added > 0:
		return fmt.Sprintf(w.BuyFree, j.sum(o.Added), j.sum(s.Free), j.sum(s.Freight))
	}
	return ""
}
