package decode

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Limits on a CSV file: no goods list has more rows, no line more cells.
const (
	maxRows  = 100_000
	maxCells = 1000
)

// Columns says which columns a CSV file may have.
type Columns struct {
	Needed   []string
	Optional []string
	Measured []string // those of either that may name a unit: width (in)
}

// CSV reads a file with a header row and hands each further row to row, as a
// Map by column name, which is only good until row returns. Columns stand in any order; cells are separated by
// commas, semicolons or tabs, whichever the header uses, and after semicolons
// numbers have a decimal comma. Blank rows are skipped, blank cells absent. A
// column that is not known is noted once and left alone.
func CSV(file string, text []byte, cols Columns, into *diag.List, row func(*Map)) {
	src := &source{file: file, into: into}
	text, ok := src.plainText(text)
	if !ok {
		return
	}
	if bytes.IndexByte(text, '\n') < 0 { // old spreadsheets end lines with a lone CR
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	t := &table{source: src, text: text, cols: cols}
	t.separator()
	if !t.narrow() {
		return
	}
	t.reader = csv.NewReader(bytes.NewReader(t.text))
	t.reader.Comma, t.reader.FieldsPerRecord, t.reader.ReuseRecord = t.comma, -1, true
	if !t.header() {
		return
	}
	for rows := 0; ; rows++ {
		cells, ok := t.next()
		if !ok {
			return
		}
		if rows == maxRows {
			src.fail("too-large", t.at(0, cells), fmt.Sprintf("this file has more than %d rows", maxRows), "", "")
			return
		}
		if m := t.row(cells); len(m.entries) > 0 {
			row(m)
		}
	}
}

// table is a CSV file being read.
type table struct {
	*source
	text   []byte
	cols   Columns
	comma  rune
	reader *csv.Reader
	heads  []head
	// The line where spans were last asked for, so that finding the next line
	// need not begin at the top again.
	line, offset int
	skipped      int // lines before the first the reader sees
	// The row being read, its storage used again for the next.
	last   Map
	values []Value
}

// head is a column: its name, "" if it is not known, and its unit if it has one.
type head struct {
	name, unit string
	at         diag.Span
}

// separator finds what separates the cells of the first line, and drops a
// spreadsheet's own line about it: sep=;
func (t *table) separator() {
	first, rest, _ := bytes.Cut(t.text, []byte("\n"))
	if sep, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimSpace(first)), []byte("sep=")); ok && len(sep) == 1 {
		t.text, t.skipped = rest, 1
		first, _, _ = bytes.Cut(rest, []byte("\n"))
	}
	t.comma = ','
	most := bytes.Count(first, []byte(","))
	for _, c := range ";\t" {
		if n := bytes.Count(first, []byte(string(c))); n > most {
			t.comma, most = c, n
		}
	}
}

// narrow reports a line with too many cells, before it is taken apart.
func (t *table) narrow() bool {
	line, cells := 1+t.skipped, 0
	for _, c := range t.text {
		switch c {
		case '\n':
			line, cells = line+1, 0
		case byte(t.comma):
			cells++
		}
		if cells > maxCells {
			t.fail("too-large", diag.Span{File: t.file, Line: line, Col: 1}, fmt.Sprintf("this line has more than %d cells", maxCells), "", "")
			return false
		}
	}
	return true
}

// next is the next row that can be read; rows that cannot are reported.
func (t *table) next() ([]string, bool) {
	for t.count <= maxFindings {
		cells, err := t.reader.Read()
		if err == nil {
			return cells, true
		}
		if errors.Is(err, io.EOF) {
			return nil, false
		}
		t.quotes(err)
	}
	return nil, false
}

// quotes reports what the library cannot read: it is always about quote marks.
func (t *table) quotes(err error) {
	var pe *csv.ParseError
	if !errors.As(err, &pe) {
		t.fail("csv-syntax", diag.Span{File: t.file}, fmt.Sprintf("this row cannot be read: %v", err), "", "")
		return
	}
	line := pe.Line
	if errors.Is(pe.Err, csv.ErrQuote) {
		line = pe.StartLine
	}
	at := diag.Span{File: t.file, Line: line + t.skipped}
	if line == pe.Line {
		at.Col = t.runeColumn(pe.Line, pe.Column)
		at.Len = 1
	}
	t.fail("csv-syntax", at, "a quote mark inside a cell does not open or close it",
		`a cell without quote marks, or quoted as a whole with marks inside it doubled: "4 1/2"""`,
		`write "in" for inches`)
}

// header reads the first row and reports what is wrong with it.
func (t *table) header() bool {
	cells, ok := t.next()
	if !ok {
		if t.count == 0 {
			t.fail("empty-file", diag.Span{File: t.file, Line: 1, Col: 1}, "this file is empty", "a header row", "")
		}
		return false
	}
	known := slices.Concat(t.cols.Needed, t.cols.Optional)
	good := true
	for i, cell := range cells {
		h := head{at: t.at(i, cells)}
		name, unit := headWords(cell)
		switch {
		case name == "":
		case slices.ContainsFunc(t.heads, func(h head) bool { return h.name == name }):
			t.fail("duplicate-column", h.at, fmt.Sprintf("the column %s is there twice", quote(name)), "", "delete one of them")
			good = false
		case slices.Contains(known, name):
			h.name = name
			if h.unit, ok = t.headUnit(name, unit, h.at); !ok {
				good = false
			}
		default:
			t.report(diag.Finding{Level: diag.Note, Code: "unknown-column", At: h.at,
				Message:  fmt.Sprintf("the column %s is not known and is left alone", quote(name)),
				Expected: oneOf(known), Fix: Suggest(name, known)})
		}
		t.heads = append(t.heads, h)
	}
	return t.needed(cells) && good
}

// needed reports the columns that must be there and are not.
func (t *table) needed(cells []string) bool {
	good := true
	for _, name := range t.cols.Needed {
		if !slices.ContainsFunc(t.heads, func(h head) bool { return h.name == name }) {
			at := t.at(0, cells)
			at.Len = 1
			t.fail("missing-column", at, fmt.Sprintf("there is no column %s", quote(name)),
				"a header row with "+strings.Join(t.cols.Needed, ", "), "")
			good = false
		}
	}
	return good
}

// headWords splits "Width (in)" into its name and unit.
func headWords(cell string) (name, unit string) {
	cell = strings.ToLower(strings.TrimSpace(cell))
	i := strings.IndexAny(cell, "([")
	if i < 0 {
		return cell, ""
	}
	return strings.TrimSpace(cell[:i]), strings.Trim(cell[i:], "()[] ")
}

// headUnit checks the unit of a column that may have one; on other columns
// words in brackets, such as a currency, mean nothing here.
func (t *table) headUnit(name, unit string, at diag.Span) (string, bool) {
	if unit == "" || !slices.Contains(t.cols.Measured, name) {
		return "", true
	}
	_, notLength := measure.ParseLength("1"+unit, measure.Inches)
	_, notMass := measure.ParseMass("1"+unit, measure.Inches)
	if notLength != nil && notMass != nil {
		t.fail("bad-unit", at, fmt.Sprintf("there is no unit %s", quote(unit)), "a unit such as in, mm, lb, oz, kg or g", "")
		return "", false
	}
	return unit, true
}

// row is a row's cells by column.
func (t *table) row(cells []string) *Map {
	m := &t.last
	*m = Map{At: t.at(0, cells), src: t.source, entries: m.entries[:0], columns: true}
	if t.values == nil {
		t.values = make([]Value, len(t.heads))
	}
	for i, cell := range cells {
		text := strings.TrimSpace(cell)
		if text == "" {
			continue
		}
		at := t.at(i, cells)
		if i >= len(t.heads) {
			t.fail("extra-cell", at, "this cell is in no column of the header", fmt.Sprintf("%d cells", len(t.heads)),
				"quote a cell that holds a separator")
			break
		}
		if h := t.heads[i]; h.name != "" {
			t.values[i] = Value{At: at, src: t.source, text: text, unit: h.unit, comma: t.comma == ';'}
			m.entries = append(m.entries, Entry{Key: h.name, At: h.at, Value: &t.values[i]})
		}
	}
	return m
}

// at is the place of cell i of the row last read.
func (t *table) at(i int, cells []string) diag.Span {
	line, col := t.reader.FieldPos(i)
	return diag.Span{File: t.file, Line: line + t.skipped, Col: t.runeColumn(line, col), Len: max(1, utf8.RuneCountInString(cells[i]))}
}

// runeColumn turns the reader's column, in bytes, into one in runes.
func (t *table) runeColumn(line, col int) int {
	if t.line == 0 || line < t.line {
		t.line, t.offset = 1, 0
	}
	for t.line < line {
		end := bytes.IndexByte(t.text[t.offset:], '\n')
		if end < 0 {
			break
		}
		t.line, t.offset = t.line+1, t.offset+end+1
	}
	end := min(t.offset+col-1, len(t.text))
	return utf8.RuneCount(t.text[t.offset:max(end, t.offset)]) + 1
}
