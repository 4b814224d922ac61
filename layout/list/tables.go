package list

import (
	"strings"

	"setwright/layout/buy"
	"setwright/layout/measure"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// Names are the names of the tables, in the order Tables gives them.
func Names() []string {
	return []string{"pick", "faces", "loads", "cut", "key", "restock", "buy", "orders"}
}

// Tables are the pick list, the same by face and by load, the cut list, the
// position key and the restock list of a unit, their lines in the order of Pick,
// Loads, of the patterns in cuts, Key and Stock, and what to buy for it.
func Tables(u *unit.Unit, cuts []saw.Plan, bought buy.Purchase) []*Table {
	system := u.Plan.Measure
	pick := Pick(u)
	return append([]*Table{
		tabled("pick", system, pickColumns(), pick),
		tabled("faces", system, faceColumns(), faceLines(pick)),
		tabled("loads", system, loadColumns(), loadLines(pick, Loads(u, pick))),
		CutTable(system, cuts),
		tabled("key", system, keyColumns(), Key(u)),
		tabled("restock", system, stockColumns(), Stock(u)),
	}, BuyTables(u, bought)...)
}

// column is a column and how its cell is taken from a line of a list.
type column[Line any] struct {
	Column
	cell func(Line) Cell
}

func tabled[Line any](name string, system measure.System, columns []column[Line], lines []Line) *Table {
	t := &Table{Name: name, Measure: system, Rows: make([][]Cell, len(lines))}
	for _, c := range columns {
		t.Columns = append(t.Columns, c.Column)
	}
	for i, line := range lines {
		for _, c := range columns {
			t.Rows[i] = append(t.Rows[i], c.cell(line))
		}
	}
	return t
}

func keyColumns() []column[KeyLine] {
	return []column[KeyLine]{
		{Column{Name: "address", Kind: Text}, func(l KeyLine) Cell { return text(l.Position.Address) }},
		{Column{Name: "face", Kind: Word, Detail: true}, func(l KeyLine) Cell { return word(l.Face.ID) }},
		{Column{Name: "row", Kind: Whole, Detail: true}, func(l KeyLine) Cell { return whole(l.Row.Number) }},
		{Column{Name: "row label", Kind: Text, Detail: true}, func(l KeyLine) Cell { return text(l.Row.Declared.Label) }},
		{Column{Name: "part", Kind: Text}, func(l KeyLine) Cell { return text(l.Row.Part.ID) }},
		{Column{Name: "place", Kind: Whole, Detail: true}, func(l KeyLine) Cell { return whole(l.Position.Place) }},
		{Column{Name: "sku", Kind: Text}, func(l KeyLine) Cell { return text(l.Position.Product.SKU) }},
		{Column{Name: "name", Kind: Text}, func(l KeyLine) Cell { return text(l.Position.Product.Name) }},
		{Column{Name: "family", Kind: Text, Detail: true}, func(l KeyLine) Cell { return text(l.Position.Product.Family) }},
		{Column{Name: "form", Kind: Word, Detail: true}, func(l KeyLine) Cell { return word(l.Position.Product.Form) }},
		{Column{Name: "fronts", Kind: Whole, Total: true}, func(l KeyLine) Cell { return whole(len(l.Position.Fronts)) }},
		{Column{Name: "units", Kind: Whole, Total: true}, func(l KeyLine) Cell { return whole(l.Position.Units) }},
		{Column{Name: "look full", Kind: Whole}, func(l KeyLine) Cell { return whole(l.Position.Look) }},
		{Column{Name: "reorder at", Kind: Whole}, func(l KeyLine) Cell { return whole(l.Reorder) }},
		{Column{Name: "whole cases", Kind: Whole, Detail: true}, func(l KeyLine) Cell { return l.wholeCases() }},
		{Column{Name: "days of supply", Kind: Whole, Detail: true}, func(l KeyLine) Cell { return days(l.Position.Days) }},
		{Column{Name: "height", Kind: Length}, func(l KeyLine) Cell { return length(l.Position.Height) }},
		{Column{Name: "gtin", Kind: Text, Detail: true}, func(l KeyLine) Cell { return text(l.Position.Product.GTIN) }},
		{Column{Name: "price", Kind: Decimal, Detail: true}, func(l KeyLine) Cell { return price(l.Position.Product.Price) }},
		{Column{Name: "weekly", Kind: Whole, Detail: true}, func(l KeyLine) Cell { return given(l.Position.Product.Weekly) }},
	}
}

func stockColumns() []column[StockLine] {
	return []column[StockLine]{
		{Column{Name: "sku", Kind: Text}, func(l StockLine) Cell { return text(l.Product.SKU) }},
		{Column{Name: "name", Kind: Text}, func(l StockLine) Cell { return text(l.Product.Name) }},
		{Column{Name: "family", Kind: Text, Detail: true}, func(l StockLine) Cell { return text(l.Product.Family) }},
		{Column{Name: "addresses", Kind: Text}, func(l StockLine) Cell { return joined(l.addresses()) }},
		{Column{Name: "fronts", Kind: Whole, Total: true}, func(l StockLine) Cell { return whole(l.Fronts) }},
		{Column{Name: "units", Kind: Whole, Total: true}, func(l StockLine) Cell { return whole(l.Units) }},
		{Column{Name: "case", Kind: Whole}, func(l StockLine) Cell { return given(l.Product.Case) }},
		{Column{Name: "cases", Kind: Whole, Total: true}, func(l StockLine) Cell { return given(l.Cases) }},
		{Column{Name: "over", Kind: Whole, Total: true}, func(l StockLine) Cell { return l.over() }},
		{Column{Name: "look full", Kind: Whole}, func(l StockLine) Cell { return whole(l.Look) }},
		{Column{Name: "reorder at", Kind: Whole}, func(l StockLine) Cell { return whole(l.Reorder) }},
		{Column{Name: "days of supply", Kind: Whole}, func(l StockLine) Cell { return days(l.Days) }},
		{Column{Name: "sizes", Kind: Text}, func(l StockLine) Cell { return joined(l.Product.Sizes) }},
		{Column{Name: "gtin", Kind: Text, Detail: true}, func(l StockLine) Cell { return text(l.Product.GTIN) }},
	}
}

// joined is several words in one cell, as the sheets join them.
func joined(words []string) Cell { return text(strings.Join(words, ", ")) }

func (l StockLine) addresses() []string {
	list := make([]string, len(l.Keys))
	for i, key := range l.Keys {
		list[i] = key.Position.Address
	}
	return list
}

func (l StockLine) over() Cell {
	if l.Product.Case == 0 {
		return Cell{}
	}
	return whole(l.Over)
}

// wholeCases is how many cases a position takes, 0 where one does not fit.
func (l KeyLine) wholeCases() Cell {
	if l.Position.Product.Case == 0 {
		return Cell{}
	}
	return whole(l.Position.Cases)
}

// days is how long goods last, empty if their sales are not known.
func days(n int) Cell {
	if n < 0 {
		return Cell{}
	}
	return whole(n)
}
