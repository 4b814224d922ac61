package list

import (
	"strconv"
	"strings"

	"setwright/layout/measure"
)

// Kind says what a cell holds.
type Kind uint8

// The kinds. A cell that is Nothing has no value: it was not given, or does not
// apply.
const (
	Nothing Kind = iota
	Text         // as it stands in the plan, the parts list or the goods file
	Word         // one of the program's own words, in English
	Whole        // a whole number
	Decimal      // a decimal number, as it stands in the goods file
	Length       // in nanometres
	Mass         // in milligrams
	Money        // in hundredths of the table's currency
)

// Cell is one value of a table.
type Cell struct {
	Kind Kind
	Text string // of Text, Word and Decimal
	N    int64  // of Whole, Length, Mass and Money
}

// Column is what the cells of one column are.
type Column struct {
	Name   string // in English, whatever the plan's language
	Kind   Kind   // of all its cells but those that are Nothing
	Total  bool   // the sum of its cells means something
	Detail bool   // it is left out where room is short
}

// Table is one list as rows of cells: what is written as CSV, as text and into
// a workbook, so that these cannot differ.
type Table struct {
	Name     string // one of Names
	Measure  measure.System
	Currency string // a label, "" if none was given
	Columns  []Column
	Rows     [][]Cell // as many cells each as there are columns
}

// Unit is the unit of a column's numbers: in or mm, lb or kg, a currency, or "".
func (t *Table) Unit(c Column) string {
	switch {
	case c.Kind == Length:
		return t.Measure.String()
	case c.Kind == Mass && t.Measure == measure.Millimetres:
		return "kg"
	case c.Kind == Mass:
		return "lb"
	case c.Kind == Money:
		return t.Currency
	}
	return ""
}

// Number is the number of a cell in its column's unit, with a decimal point, as
// the Number of measure's Length and Mass have it; it is "" for a cell that holds
// none.
func (t *Table) Number(c Cell) string {
	switch c.Kind {
	case Whole:
		return strconv.FormatInt(c.N, 10)
	case Decimal:
		return c.Text
	case Length:
		return measure.Length(c.N).Number(t.Measure)
	case Mass:
		return measure.Mass(c.N).Number(t.Measure)
	case Money:
		return measure.Money(c.N).String()
	}
	return ""
}

// Figure is a cell as people read it, without a unit: lengths and weights to
// the precision of the sheets, and marked ~ where that rounds a length in
// inches.
func (t *Table) Figure(c Cell) string {
	switch c.Kind {
	case Text, Word:
		return c.Text
	case Length:
		return figure(measure.Length(c.N).Text(t.Measure))
	case Mass:
		return figure(measure.Mass(c.N).Text(t.Measure))
	}
	return t.Number(c)
}

// figure is a measure without its unit.
func figure(text string) string { return text[:strings.LastIndexByte(text, ' ')] }

// Sum adds up the cells of a column: whole numbers, lengths, weights or money.
func (t *Table) Sum(column int) Cell {
	sum := Cell{Kind: t.Columns[column].Kind}
	for _, row := range t.Rows {
		sum.N += row[column].N
	}
	return sum
}

func text(s string) Cell {
	if s == "" {
		return Cell{}
	}
	return Cell{Kind: Text, Text: s}
}

func word[W ~string](w W) Cell { return Cell{Kind: Word, Text: string(w)} }

func whole(n int) Cell { return Cell{Kind: Whole, N: int64(n)} }

// given is a number of which 0 stands for none.
func given(n int) Cell {
	if n == 0 {
		return Cell{}
	}
	return whole(n)
}

func price(s string) Cell {
	if s == "" {
		return Cell{}
	}
	return Cell{Kind: Decimal, Text: s}
}

func length(l measure.Length) Cell { return Cell{Kind: Length, N: int64(l)} }

func mass(m measure.Mass) Cell { return Cell{Kind: Mass, N: int64(m)} }
