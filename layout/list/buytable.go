package list

import (
	"fmt"
	"strings"

	"setwright/layout/buy"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// BuyTables are what to buy line by line, order by order and then what is on hand
// in full; and the orders with their sums. They are empty if the purchase is.
func BuyTables(u *unit.Unit, bought buy.Purchase) []*Table {
	var lines []buyLine
	for _, o := range bought.Orders {
		for _, l := range o.Lines {
			lines = append(lines, buyLine{l, supplierName(o)})
		}
	}
	for _, l := range bought.Held {
		lines = append(lines, buyLine{l, ""})
	}
	tables := []*Table{
		tabled("buy", u.Plan.Measure, buyColumns(u.Plan.Measure), lines),
		tabled("orders", u.Plan.Measure, orderColumns(), bought.Orders),
	}
	for _, t := range tables {
		t.Currency = u.Plan.Currency
	}
	return tables
}

// buyLine is a line of an order, or of what is on hand.
type buyLine struct {
	buy.Line
	supplier string
}

func supplierName(o buy.Order) string {
	if o.Supplier == nil {
		return ""
	}
	return o.Supplier.Name
}

func buyColumns(system measure.System) []column[buyLine] {
	return []column[buyLine]{
		{Column{Name: "supplier", Kind: Text}, func(l buyLine) Cell { return text(l.supplier) }},
		{Column{Name: "part", Kind: Text}, func(l buyLine) Cell { return text(l.ID) }},
		{Column{Name: "name", Kind: Text}, func(l buyLine) Cell { return text(l.Name) }},
		{Column{Name: "size", Kind: Text}, func(l buyLine) Cell { return text(l.Size(system)) }},
		{Column{Name: "needed", Kind: Whole, Total: true}, func(l buyLine) Cell { return whole(l.Needed) }},
		{Column{Name: "on hand", Kind: Whole, Total: true}, func(l buyLine) Cell { return whole(l.OnHand) }},
		{Column{Name: "short", Kind: Whole, Total: true}, func(l buyLine) Cell { return whole(l.Short) }},
		{Column{Name: "packs", Kind: Text}, func(l buyLine) Cell { return text(l.packs()) }},
		{Column{Name: "cost", Kind: Money, Total: true}, func(l buyLine) Cell { return ifPriced(l.Priced, l.Cost) }},
		{Column{Name: "pieces", Kind: Whole, Total: true}, func(l buyLine) Cell { return whole(l.Pieces) }},
		{Column{Name: "spare", Kind: Whole, Total: true}, func(l buyLine) Cell { return whole(l.Spare) }},
		{Column{Name: "worth", Kind: Money, Total: true, Detail: true}, func(l buyLine) Cell { return ifPriced(l.Priced, l.Worth) }},
	}
}

func orderColumns() []column[buy.Order] {
	return []column[buy.Order]{
		{Column{Name: "supplier", Kind: Text}, func(o buy.Order) Cell { return text(supplierName(o)) }},
		{Column{Name: "goods", Kind: Money, Total: true}, func(o buy.Order) Cell { return ifPriced(o.Priced(), o.Goods) }},
		{Column{Name: "freight", Kind: Money, Total: true}, func(o buy.Order) Cell { return ifPriced(o.Priced(), o.Freight) }},
		{Column{Name: "duty", Kind: Money, Total: true}, func(o buy.Order) Cell { return ifPriced(o.Priced(), o.Duty) }},
		{Column{Name: "landed", Kind: Money, Total: true}, func(o buy.Order) Cell { return ifPriced(o.Priced(), o.Total) }},
		{Column{Name: "without price", Kind: Whole, Total: true}, func(o buy.Order) Cell { return given(o.Unpriced) }},
		{Column{Name: "lines", Kind: Whole, Total: true}, func(o buy.Order) Cell { return whole(len(o.Lines)) }},
	}
}

// packs is what to order, each size of pack at its price.
func (l buyLine) packs() string {
	var list []string
	for _, p := range l.Packs {
		pack := fmt.Sprintf("%d x %d", p.Count, p.Pieces)
		if l.Priced {
			pack += " at " + p.Price.String()
		}
		list = append(list, pack)
	}
	return strings.Join(list, ", ")
}

// ifPriced is a sum, nothing if the prices that it is of are not known.
func ifPriced(priced bool, m measure.Money) Cell {
	if !priced {
		return Cell{}
	}
	return Cell{Kind: Money, N: int64(m)}
}
