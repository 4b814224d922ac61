package list

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"setwright/layout/diag"
)

// WriteText writes tables for people, one under the other, each with its sums.
// Columns of detail and columns without any value are left out.
func WriteText(w io.Writer, tables []*Table) error {
	out := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for i, t := range tables {
		if i > 0 {
			fmt.Fprintln(out)
		}
		t.writeText(out)
	}
	return out.Flush()
}

func (t *Table) writeText(w io.Writer) {
	var shown []int
	for i, c := range t.Columns {
		if !c.Detail && t.holds(i) {
			shown = append(shown, i)
		}
	}
	fmt.Fprintln(w, strings.ToUpper(t.Name))
	write := func(cell func(i int) string) {
		cells := make([]string, len(shown))
		for n, i := range shown {
			cells[n] = diag.OneLine(cell(i))
		}
		fmt.Fprintln(w, strings.TrimRight(strings.Join(cells, "\t"), "\t"))
	}
	if len(t.Rows) == 0 {
		fmt.Fprintln(w, "nothing")
		return
	}
	write(func(i int) string { return t.head(strings.ToUpper(t.Columns[i].Name), t.Columns[i]) })
	for _, row := range t.Rows {
		write(func(i int) string { return t.Figure(row[i]) })
	}
	if !slices.ContainsFunc(t.Columns, func(c Column) bool { return c.Total }) {
		return
	}
	write(func(i int) string {
		switch {
		case i == shown[0]:
			return "all"
		case t.Columns[i].Total:
			return t.Figure(t.Sum(i))
		}
		return ""
	})
}

// holds says whether any cell of a column has a value.
func (t *Table) holds(column int) bool {
	for _, row := range t.Rows {
		if row[column].Kind != Nothing {
			return true
		}
	}
	return false
}
