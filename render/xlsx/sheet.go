package xlsx

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"setwright/layout/list"
)

// Widths of columns, in figures of the body's font: the widest that is not
// wrapped, and the room beside a cell's text and beside a head's filter button.
const (
	widest    = 48
	cellRoom  = 2
	headRoom  = 4
	narrowest = 6
)

// sheet is the worksheet of one table: heads, rows, sums. Its settings come
// first, for the rows are written as they come.
func (b *book) sheet(t *list.Table, first bool) error {
	name := b.words.ListWord(t.Name)
	if first {
		if err := b.file.SetSheetName("Sheet1", name); err != nil { // which a new file has
			return err
		}
	} else if _, err := b.file.NewSheet(name); err != nil {
		return err
	}
	rows := b.rows(t)
	filled := "A1:" + at(len(t.Columns)-1, len(rows))
	if err := errors.Join(b.file.SetSheetDimension(name, filled), b.view(name, t), b.print(name)); err != nil {
		return err
	}
	out, err := b.file.NewStreamWriter(name)
	if err != nil {
		return err
	}
	for i := range slices.Backward(t.Columns) { // each is written before those set earlier
		if err := out.SetColWidth(i+1, i+1, float64(b.width(t, i))); err != nil {
			return err
		}
	}
	for i, row := range rows {
		if err := out.SetRow(at(0, i+1), row); err != nil {
			return err
		}
	}
	return out.Flush()
}

// view freezes the heads, with buttons to filter by.
func (b *book) view(name string, t *list.Table) error {
	body := "A1:" + at(len(t.Columns)-1, len(t.Rows)+1)
	return errors.Join(
		b.file.SetPanes(name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft",
			Selection: []excelize.Selection{{Pane: "bottomLeft"}}}),
		b.file.AutoFilter(name, body, nil),
		// A GTIN is digits and still a text: not a slip to be pointed out.
		b.file.AddIgnoredErrors(name, body, excelize.IgnoredErrorsNumberStoredAsText))
}

// rows are all that is written into a sheet.
func (b *book) rows(t *list.Table) [][]any {
	rows := [][]any{b.heads(t)}
	for _, row := range t.Rows {
		cells := make([]any, len(row))
		for i, c := range row {
			cells[i] = b.cell(t, c)
		}
		rows = append(rows, cells)
	}
	if len(t.Rows) > 0 {
		rows = append(rows, b.sums(t))
	}
	return rows
}

func (b *book) heads(t *list.Table) []any {
	heads := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		look := headEnd
		if c.Kind == list.Text || c.Kind == list.Word {
			look = headStyle
		}
		heads[i] = excelize.Cell{StyleID: b.styles[look], Value: b.head(t, c)}
	}
	return heads
}

// head is a column's head in the plan's language, with its unit.
func (b *book) head(t *list.Table, c list.Column) string {
	head := b.words.ListWord(c.Name)
	switch unit := t.Unit(c); unit {
	case "":
		return head
	case "in":
		return head + " (" + b.words.Inch + ")"
	default:
		return head + " (" + unit + ")"
	}
}

// cell is one cell of the body, nil if it has no value.
func (b *book) cell(t *list.Table, c list.Cell) any {
	if c.Kind == list.Nothing {
		return nil
	}
	return excelize.Cell{StyleID: b.styles[styleOf(t, c)], Value: b.value(t, c)}
}

// value is a string or a number: what is a string here is never a formula.
func (b *book) value(t *list.Table, c list.Cell) any {
	switch c.Kind {
	case list.Text:
		return literal(short(c.Text))
	case list.Word:
		return b.words.ListWord(c.Text)
	case list.Whole:
		return c.N
	}
	number, _ := strconv.ParseFloat(t.Number(c), 64) // digits and a point, twenty at most
	return number
}

// sums are the line under the body: of each column whose sum means something,
// the sum of the rows that the filter leaves.
func (b *book) sums(t *list.Table) []any {
	sums := make([]any, len(t.Columns))
	for i, c := range t.Columns {
		sum := excelize.Cell{StyleID: b.styles[allStyle]}
		switch {
		case c.Total:
			sum.StyleID = b.styles[sumStyle(c.Kind)]
			// Function 109 is SUM of what is not hidden.
			sum.Formula = fmt.Sprintf("SUBTOTAL(109,%s:%s)", at(i, 2), at(i, len(t.Rows)+1))
			sum.Value = b.value(t, t.Sum(i))
		case i == 0:
			sum.Value = b.words.ListWord("all")
		}
		sums[i] = sum
	}
	return sums
}

// width fits a column to its head and cells.
func (b *book) width(t *list.Table, column int) int {
	w := max(narrowest, utf8.RuneCountInString(b.head(t, t.Columns[column]))+headRoom)
	for _, row := range t.Rows {
		text := t.Figure(row[column])
		if row[column].Kind == list.Word {
			text = b.words.ListWord(text)
		}
		w = max(w, min(widest, utf8.RuneCountInString(text)+cellRoom))
	}
	return w
}

// at is a cell's reference by its column, from 0, and its row, from 1: B7. It is
// "" below the last row of a sheet, where the library refuses to write.
func at(column, row int) string {
	reference, _ := excelize.CoordinatesToCellName(column+1, row)
	return reference
}
