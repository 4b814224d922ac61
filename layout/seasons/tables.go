package seasons

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
)

// Tables are the timeline as tables: what was up when (seasons), what changed
// from one pack to the next (changes), and the parts it took (kit). Lengths and
// weights are in one measure throughout.
func (t *Timeline) Tables(system measure.System) []*list.Table {
	return []*list.Table{t.seasonTable(system), t.changeTable(system), t.kitTable(system)}
}

// column is a column and how its cell is taken from a line.
type column[Line any] struct {
	name   string
	kind   list.Kind
	detail bool
	cell   func(Line) list.Cell
}

// table makes a table, to be filled with lines.
func table[Line any](name string, system measure.System, columns []column[Line]) *list.Table {
	t := &list.Table{Name: name, Measure: system}
	for _, c := range columns {
		t.Columns = append(t.Columns, list.Column{Name: c.name, Kind: c.kind, Detail: c.detail})
	}
	return t
}

func row[Line any](columns []column[Line], line Line) []list.Cell {
	cells := make([]list.Cell, len(columns))
	for i, c := range columns {
		cells[i] = c.cell(line)
	}
	return cells
}

// unitEntry is an entry with the unit it is of.
type unitEntry struct {
	*Entry
	unit *Unit
}

func (t *Timeline) seasonTable(system measure.System) *list.Table {
	columns := []column[unitEntry]{
		{"unit", list.Text, false, func(e unitEntry) list.Cell { return text(e.unit.Label) }},
		{"date", list.Text, false, func(e unitEntry) list.Cell { return text(e.Date) }},
		{"to", list.Text, false, func(e unitEntry) list.Cell { return text(e.last()) }},
		{"state", list.Word, false, func(e unitEntry) list.Cell { return list.Cell{Kind: list.Word, Text: string(e.State)} }},
		{"revision", list.Text, false, func(e unitEntry) list.Cell { return text(e.Revision) }},
		{"season", list.Text, false, func(e unitEntry) list.Cell { return text(e.Season) }},
		{"plan", list.Text, false, func(e unitEntry) list.Cell { return text(e.Title) }},
		{"by", list.Text, true, func(e unitEntry) list.Cell { return text(e.By) }},
		{"kinds of part", list.Whole, false, func(e unitEntry) list.Cell { return whole(len(e.Parts)) }},
		{"pieces", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Pieces()) }},
		{"products", list.Whole, false, func(e unitEntry) list.Cell { return whole(len(e.Products)) }},
		{"positions", list.Whole, true, func(e unitEntry) list.Cell { return whole(e.Positions()) }},
		{"units", list.Whole, true, func(e unitEntry) list.Cell { return whole(e.Units) }},
		{"weight bare", list.Mass, true, func(e unitEntry) list.Cell { return mass(e.Hardware) }},
		{"weight full", list.Mass, false, func(e unitEntry) list.Cell { return mass(e.Hardware + e.Goods) }},
		{"value of parts", list.Decimal, true, func(e unitEntry) list.Cell { return e.worth() }},
		{"currency", list.Text, true, func(e unitEntry) list.Cell { return text(e.Currency) }},
		{"stops", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Count(diag.Stop)) }},
		{"cautions", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Count(diag.Caution)) }},
		{"notes", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Count(diag.Note)) }},
		{"findings", list.Text, true, func(e unitEntry) list.Cell { return text(e.codes()) }},
		{"plan mark", list.Text, false, func(e unitEntry) list.Cell { return text(e.Mark) }},
		{"file", list.Text, false, func(e unitEntry) list.Cell { return text(e.File) }},
	}
	made := table("seasons", system, columns)
	for _, u := range t.Units {
		for i := range u.Entries {
			made.Rows = append(made.Rows, row(columns, unitEntry{&u.Entries[i], u}))
		}
	}
	return made
}

func (t *Timeline) changeTable(system measure.System) *list.Table {
	columns := []column[unitEntry]{
		{"unit", list.Text, false, func(e unitEntry) list.Cell { return text(e.unit.Label) }},
		{"on", list.Text, false, func(e unitEntry) list.Cell { return text(e.Date) }},
		{"pieces in", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.PiecesIn) }},
		{"pieces out", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.PiecesOut) }},
		{"pieces kept", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.PiecesKept) }},
		{"products in", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.ProductsIn) }},
		{"products out", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.ProductsOut) }},
		{"products kept", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.ProductsKept) }},
		{"positions moved", list.Whole, false, func(e unitEntry) list.Cell { return whole(e.Change.Moved) }},
		{"old file", list.Text, false, func(e unitEntry) list.Cell { return text(e.Change.Before.File) }},
		{"new file", list.Text, false, func(e unitEntry) list.Cell { return text(e.File) }},
	}
	made := table("changes", system, columns)
	for _, u := range t.Units {
		for i := range u.Entries {
			if u.Entries[i].Change != nil {
				made.Rows = append(made.Rows, row(columns, unitEntry{&u.Entries[i], u}))
			}
		}
	}
	return made
}

func (t *Timeline) kitTable(system measure.System) *list.Table {
	type unitLine struct {
		*Line
		unit *Unit
	}
	columns := []column[unitLine]{
		{"unit", list.Text, false, func(l unitLine) list.Cell { return text(l.unit.Label) }},
		{"part", list.Text, false, func(l unitLine) list.Cell { return text(l.ID) }},
		{"name", list.Text, false, func(l unitLine) list.Cell { return text(l.Name) }},
		{"cut length", list.Length, false, func(l unitLine) list.Cell { return length(l.Cut) }},
		{"group", list.Word, true, func(l unitLine) list.Cell { return list.Cell{Kind: list.Word, Text: l.Group} }},
		{"packs that use it", list.Whole, false, func(l unitLine) list.Cell { return whole(l.Packs) }},
		{"most at once", list.Whole, false, func(l unitLine) list.Cell { return whole(l.Most) }},
		{"in the last", list.Whole, false, func(l unitLine) list.Cell { return whole(l.Now) }},
	}
	made := table("kit", system, columns)
	for _, u := range t.Units {
		for i := range u.Kit {
			made.Rows = append(made.Rows, row(columns, unitLine{&u.Kit[i], u}))
		}
	}
	return made
}

// last is the last day that it was up, as far as that is known.
func (e *Entry) last() string {
	if e.State != Up {
		return ""
	}
	return e.To.String()
}

// Pieces is how many pieces of hardware there are, frame, stand and panels too.
func (p *Pack) Pieces() int {
	n := 0
	for _, part := range p.Parts {
		n += part.Count
	}
	return n
}

// Positions is how many there are.
func (p *Pack) Positions() int {
	n := 0
	for _, product := range p.Products {
		n += len(product.At)
	}
	return n
}

// codes are what was found: "4 × rating-assumed, 1 × tip".
func (p *Pack) codes() string {
	var words []string
	for _, f := range p.Findings {
		words = append(words, fmt.Sprintf("%d × %s", f.Count, f.Code))
	}
	return strings.Join(words, ", ")
}

// worth is the value of the parts, empty where no price is known.
func (p *Pack) worth() list.Cell {
	if p.Worth == 0 {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Decimal, Text: p.Worth.String()}
}

func text(s string) list.Cell {
	if s == "" {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Text, Text: s}
}

func whole(n int) list.Cell { return list.Cell{Kind: list.Whole, N: int64(n)} }

func mass(m measure.Mass) list.Cell { return list.Cell{Kind: list.Mass, N: int64(m)} }

func length(l measure.Length) list.Cell {
	if l == 0 {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Length, N: int64(l)}
}
