package list

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
)

// WriteCSV writes a table for other programs, after RFC 4180: UTF-8, commas,
// lines that end in CR LF, cells quoted where they must be. A header comes
// first, names with their units: "height (in)". Numbers have a decimal point,
// no other marks, and lose nothing but what measure.Mass.Number says. Text that
// a spreadsheet would run as a formula is made harmless: see Harmless.
//
// There is no byte order mark: most programs would take it for a part of the
// first name.
func WriteCSV(w io.Writer, t *Table) error {
	cells := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		cells[i] = t.head(c.Name, c)
	}
	if err := writeRecord(w, cells); err != nil {
		return err
	}
	for _, row := range t.Rows {
		for i, c := range row {
			if cells[i] = t.Number(c); cells[i] == "" {
				cells[i] = Harmless(c.Text)
			}
		}
		if err := writeRecord(w, cells); err != nil {
			return err
		}
	}
	return nil
}

// writeRecord writes one line, its own end as CR LF. The library's way to do so
// would rewrite the ends of lines inside cells too.
func writeRecord(w io.Writer, cells []string) error {
	var line bytes.Buffer
	out := csv.NewWriter(&line)
	_ = out.Write(cells) // into a buffer: it cannot fail
	out.Flush()
	_, err := fmt.Fprintf(w, "%s\r\n", bytes.TrimSuffix(line.Bytes(), []byte("\n")))
	return err
}

// head is a column's name with its unit.
func (t *Table) head(name string, c Column) string {
	if unit := t.Unit(c); unit != "" {
		return name + " (" + unit + ")"
	}
	return name
}

// Harmless puts a single quote before a text that a spreadsheet would run as a
// formula, as OWASP's page on CSV injection advises (from memory). A text that
// looks like that behind quotes of its own gets one more, so that taking one
// away always gives what there was.
func Harmless(text string) string {
	if Runs(strings.TrimLeft(text, "'")) {
		return "'" + text
	}
	return text
}

// Runs says whether a spreadsheet might take a text for a formula: by its first
// character, also where that is the wide form of East Asian keyboards.
func Runs(text string) bool {
	for _, first := range text {
		return strings.ContainsRune("=+-@\t\r\n＝＋－＠", first)
	}
	return false
}
