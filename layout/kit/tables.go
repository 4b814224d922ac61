package kit

import (
	"cmp"
	"fmt"
	"strconv"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
)

// Tables are the kit as tables: the seasons with their cost (seasons), which
// parts to own and how many each season uses (kit), what to buy before each
// season (buy) and what lies idle (idle). A season's own column has its number
// for a name.
func Tables(k *Kit) []*list.Table {
	return []*list.Table{k.seasonTable(), k.kitTable(), k.buyTable(), k.idleTable()}
}

func (k *Kit) table(name string, columns ...list.Column) *list.Table {
	return &list.Table{Name: name, Measure: k.Seasons[0].Unit.Plan.Measure, Currency: k.Currency(), Columns: columns}
}

// partColumns and partCells say which part a row is about.
func partColumns() []list.Column {
	return []list.Column{{Name: "item", Kind: list.Whole}, {Name: "part", Kind: list.Text}, {Name: "name", Kind: list.Text}, {Name: "cut length", Kind: list.Length}}
}

// seasonColumns are a column of pieces for each season.
func (k *Kit) seasonColumns() []list.Column {
	columns := make([]list.Column, len(k.Seasons))
	for i := range columns {
		columns[i] = list.Column{Name: strconv.Itoa(i + 1), Kind: list.Whole, Total: true}
	}
	return columns
}

func (l *Line) partCells() []list.Cell {
	cut := list.Cell{}
	if l.Cut > 0 {
		cut = list.Cell{Kind: list.Length, N: int64(l.Cut)}
	}
	return []list.Cell{whole(l.Item), text(l.Part.ID), text(l.Part.Name), cut}
}

func (k *Kit) kitTable() *list.Table {
	columns := append(partColumns(), list.Column{Name: "group", Kind: list.Word, Detail: true})
	columns = append(columns, k.seasonColumns()...)
	columns = append(columns, list.Column{Name: "most at once", Kind: list.Whole, Total: true},
		list.Column{Name: "on hand", Kind: list.Whole, Total: true}, list.Column{Name: "to come", Kind: list.Whole, Total: true})
	t := k.table("kit", columns...)
	for i := range k.Lines {
		l := &k.Lines[i]
		row := append(l.partCells(), list.Cell{Kind: list.Word, Text: string(l.Group)})
		for _, n := range l.Used {
			row = append(row, whole(n))
		}
		t.Rows = append(t.Rows, append(row, whole(l.Most()), whole(l.OnHand), whole(sum(l.Come))))
	}
	return t
}

func (k *Kit) idleTable() *list.Table {
	t := k.table("idle", append(partColumns(), k.seasonColumns()...)...)
	for i := range k.Lines {
		l := &k.Lines[i]
		if !l.everIdle() {
			continue
		}
		row := l.partCells()
		for season := range k.Seasons {
			row = append(row, whole(l.Idle(season)))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (l *Line) everIdle() bool {
	for season := range l.Used {
		if l.Idle(season) > 0 {
			return true
		}
	}
	return false
}

func (k *Kit) buyTable() *list.Table {
	t := k.table("buy", list.Column{Name: "season", Kind: list.Whole}, list.Column{Name: "supplier", Kind: list.Text},
		list.Column{Name: "part", Kind: list.Text}, list.Column{Name: "name", Kind: list.Text}, list.Column{Name: "size", Kind: list.Text},
		list.Column{Name: "packs", Kind: list.Whole, Total: true}, list.Column{Name: "pack size", Kind: list.Whole}, list.Column{Name: "price", Kind: list.Money},
		list.Column{Name: "pieces", Kind: list.Whole, Total: true}, list.Column{Name: "cost", Kind: list.Money, Total: true})
	for season, c := range k.Changes {
		for _, o := range c.Purchase.Orders {
			for _, l := range o.Lines {
				for _, p := range l.Packs {
					t.Rows = append(t.Rows, []list.Cell{whole(season + 1), text(supplier(o)), text(l.ID), text(l.Name), text(l.Size(t.Measure)),
						whole(p.Count), whole(p.Pieces), money(p.Price, l.Priced), whole(p.Count * p.Pieces), money(measure.Money(p.Count)*p.Price, l.Priced)})
				}
			}
		}
	}
	return t
}

func supplier(o buy.Order) string {
	if o.Supplier == nil {
		return ""
	}
	return o.Supplier.Name
}

// seasonTable has the sums of each season. Money is left out where no price is
// known.
func (k *Kit) seasonTable() *list.Table {
	count := func(name string) list.Column { return list.Column{Name: name, Kind: list.Whole} }
	sums := func(name string) list.Column { return list.Column{Name: name, Kind: list.Money, Total: true} }
	t := k.table("seasons", count("season"), list.Column{Name: "name", Kind: list.Text}, list.Column{Name: "plan", Kind: list.Text},
		list.Column{Name: "file", Kind: list.Text}, list.Column{Name: "plan mark", Kind: list.Text},
		count("pieces used"), list.Column{Name: "pieces to come", Kind: list.Whole, Total: true}, count("pieces idle"),
		sums("goods"), sums("freight"), sums("duty"), sums("cost"), list.Column{Name: "without a price", Kind: list.Whole, Total: true})
	for i, s := range k.Seasons {
		p := &k.Changes[i].Purchase
		f := k.Figures(i)
		t.Rows = append(t.Rows, []list.Cell{whole(i + 1), text(s.Name), text(s.Unit.Plan.Title), text(s.File), text(s.Mark),
			whole(f.Used), whole(f.Come), whole(f.Idle),
			money(p.Goods, k.Priced()), money(p.Freight, k.Priced()), money(p.Duty, k.Priced()), money(p.Total, k.Priced()), whole(p.Unpriced)})
	}
	return t
}

// Figures are the pieces of one season, all lines together.
type Figures struct{ Used, Come, Idle int }

// Figures adds up a season.
func (k *Kit) Figures(season int) Figures {
	var f Figures
	for i := range k.Lines {
		l := &k.Lines[i]
		f.Used += l.Used[season]
		f.Come += l.Come[season]
		f.Idle += l.Idle(season)
	}
	return f
}

// Priced says whether the price of anything in the kit is known.
func (k *Kit) Priced() bool { return k.AtOnce.Priced() }

// Compared is options as a table, a row an option.
func Compared(options []Option) *list.Table {
	t := &list.Table{Name: "options", Measure: options[0].Unit.Plan.Measure}
	for i := range options {
		t.Currency = cmp.Or(t.Currency, options[i].Unit.Plan.Currency)
	}
	for i := range options {
		t.Rows = append(t.Rows, options[i].cells(t))
	}
	return t
}

// cells are an option's figures; the columns are put into the table on the way.
func (o *Option) cells(t *list.Table) []list.Cell {
	var row []list.Cell
	var columns []list.Column
	add := func(name string, kind list.Kind, c list.Cell) {
		columns = append(columns, list.Column{Name: name, Kind: kind})
		row = append(row, c)
	}
	count := func(name string, n int) { add(name, list.Whole, whole(n)) }
	add("option", list.Text, text(o.Name))
	add("plan", list.Text, text(o.Unit.Plan.Title))
	add("file", list.Text, text(o.File))
	add("plan mark", list.Text, text(o.Mark))
	count("kinds of part", o.AllKinds)
	count("pieces", o.AllPieces)
	priced := o.Purchase.Priced()
	add("value of parts", list.Money, money(o.Purchase.Worth, priced))
	add("to buy", list.Money, money(o.Purchase.Total, priced))
	count("without a price", o.Purchase.Wants)
	add("weight bare", list.Mass, list.Cell{Kind: list.Mass, N: int64(o.Bare)})
	add("weight full", list.Mass, list.Cell{Kind: list.Mass, N: int64(o.Full)})
	add("shelf", list.Length, list.Cell{Kind: list.Length, N: int64(o.Shelf)})
	add("hang rail", list.Length, list.Cell{Kind: list.Length, N: int64(o.Rail)})
	count("hooks", o.Hooks)
	count("positions", o.Positions)
	count("products", o.Products)
	count("units held", o.Units)
	count("setup minutes, estimate", o.Minutes())
	for _, level := range []diag.Level{diag.Stop, diag.Caution, diag.Note} {
		count(fmt.Sprintf("%vs", level), o.Found[level])
	}
	t.Columns = columns
	return row
}

// Minutes is the setup time in minutes, rounded up.
func (o *Option) Minutes() int { return (o.Setup + 59) / 60 }

func whole(n int) list.Cell { return list.Cell{Kind: list.Whole, N: int64(n)} }

func text(s string) list.Cell {
	if s == "" {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Text, Text: s}
}

// money is a sum, or nothing if it is not known.
func money(m measure.Money, known bool) list.Cell {
	if !known {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Money, N: int64(m)}
}
