package decode

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"setwright/layout/diag"
)

// Limits on a CSV file: no goods list has more lines than a header and a hundred
// thousand products take, no line more cells.
const (
	maxLines = 100_001
	maxCells = 1000
)

// Columns says which columns a CSV file may have. Those with lengths or weights
// may name a unit: width (in).
type Columns struct {
	Needed, Optional []string
	Lengths, Weights []string // of either
	Decimals         []string // of either, those with other numbers that may have decimals: prices
}

// CSV reads a file with a header row and hands each further row to row, as a
// Map by column name, which is only good until row returns. Columns stand in any
// order; the file is in any dialect that a spreadsheet writes, which is detected
// and returned, and noted where it is not the plainest: UTF-8, commas, decimal
// points. Blank rows are skipped, blank cells absent. Columns that are not known
// are noted once; Map.Extras has their cells. Quoted or not, a cell is text.
func CSV(file string, text []byte, cols Columns, into *diag.List, row func(*Map)) Dialect {
	t := &table{source: &source{file: file, into: into}, cols: cols}
	if !t.open(text) || !t.header() {
		return t.dialect
	}
	t.detectDecimals()
	t.noteDialect()
	for {
		cells, ok := t.next()
		if !ok {
			break
		}
		if m := t.row(cells); m != nil {
			t.dialect.Rows++
			row(m)
		}
	}
	t.noteFormulas()
	return t.dialect
}

// table is a CSV file being read.
type table struct {
	*source
	text    []byte
	cols    Columns
	reader  *csv.Reader
	dialect Dialect
	figures figures
	heads   []head
	index   map[string]int // of heads, by the names that are known
	skipped int            // lines before the first the reader sees
	// The place where a span was last asked for, so that finding the next need
	// not begin at the top again: a line, the offset of its first byte, and so
	// many bytes into it so many characters.
	line, offset, passed, runes int
	unnamed                     bool // a cell under a blank head was noted
	formulas                    formulas
	// The row being read, its storage used again for the next.
	last   Map
	values []Value
}

// open makes the text UTF-8 with lines that end as the reader knows them, and
// finds what separates its cells.
func (t *table) open(text []byte) bool {
	text, encoding, ok := t.unicodeText(text)
	t.dialect.Encoding = encoding
	if !ok {
		return false
	}
	if bytes.IndexByte(text, '\n') < 0 { // old spreadsheets end lines with a lone CR
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	text = withoutBlankEnd(text)
	if n := bytes.Count(bytes.TrimRight(text, "\r\n"), []byte("\n")) + 1; n > maxLines {
		t.fail("too-large", diag.Span{File: t.file, Line: maxLines + 1, Col: 1}, fmt.Sprintf("this file has %d lines", n),
			fmt.Sprintf("at most %d: a header and %d products", maxLines, maxLines-1), "keep the goods that the plan is about")
		return false
	}
	if t.text, ok = t.plainText(text); !ok {
		return false
	}
	t.separator()
	if !t.narrow() {
		return false
	}
	t.reader = t.newReader()
	return true
}

func (t *table) newReader() *csv.Reader {
	r := csv.NewReader(bytes.NewReader(t.text))
	r.Comma, r.FieldsPerRecord, r.ReuseRecord = t.dialect.Separator, -1, true
	return r
}

// withoutBlankEnd drops the rows without a word that a spreadsheet writes after
// the last, up to a million of them.
func withoutBlankEnd(text []byte) []byte {
	end := len(bytes.TrimRight(text, ",;|\t \r\n"))
	if i := bytes.IndexByte(text[end:], '\n'); i >= 0 {
		return text[:end+i+1]
	}
	return text
}

// narrow reports a line with too many cells, before it is taken apart.
func (t *table) narrow() bool {
	line, cells := 1+t.skipped, 0
	for _, c := range t.text {
		switch c {
		case '\n':
			line, cells = line+1, 0
		case byte(t.dialect.Separator):
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
	const expected = `a cell without quote marks, or quoted as a whole with marks inside it doubled: "4 1/2"""`
	at := diag.Span{File: t.file, Line: pe.Line + t.skipped, Col: t.runeColumn(pe.Line, pe.Column), Len: 1}
	if errors.Is(pe.Err, csv.ErrQuote) && (pe.Line > pe.StartLine || t.atEnd(pe)) {
		line, col := t.openQuote(pe.StartLine)
		at.Line, at.Col = line+t.skipped, t.runeColumn(line, col)
		t.fail("csv-syntax", at, "this quote mark opens a cell that runs on over the end of its line", expected,
			"close the cell with a quote mark, or take this one away")
		return
	}
	t.fail("csv-syntax", at, "a quote mark inside a cell does not open or close it", expected, `write "in" for inches`)
}

// atEnd says whether the reader ran out of text where it failed.
func (t *table) atEnd(pe *csv.ParseError) bool {
	t.seek(pe.Line)
	return t.offset+pe.Column-1 >= len(bytes.TrimRight(t.text, "\r\n"))
}

// openQuote is the place, in bytes, of the quote mark that begins the last cell
// of the line which is not closed on it.
func (t *table) openQuote(line int) (int, int) {
	t.seek(line)
	rest, _, _ := bytes.Cut(t.text[t.offset:], []byte("\n"))
	col, open := 1, false
	for i, c := range rest {
		if c == '"' {
			if open = !open; open {
				col = i + 1
			}
		}
	}
	return line, col
}

// row is a row's cells by column, nil if there are none.
func (t *table) row(cells []string) *Map {
	m := &t.last
	*m = Map{At: t.at(0, cells), src: t.source, entries: m.entries, extras: m.extras[:0], index: t.index, columns: true}
	if t.values == nil {
		t.values, m.entries = make([]Value, len(t.heads)), make([]Entry, len(t.heads))
	}
	clear(m.entries)
	filled := false
	for i, cell := range cells {
		text := unwrapped(strings.TrimSpace(cell))
		if text == "" {
			continue
		}
		at := t.at(i, cells)
		if i >= len(t.heads) {
			t.fail("extra-cell", at, "this cell is in no column of the header", fmt.Sprintf("%d cells", len(t.heads)),
				"quote a cell that holds a separator")
			break
		}
		h := &t.heads[i]
		if !h.measured && !h.decimals && len(text) == len(strings.TrimSpace(cell)) {
			t.formulas.look(cell, at)
		}
		t.values[i] = Value{At: at, src: t.source, text: text, unit: h.unit, cell: true, figures: t.figures}
		e := Entry{Key: h.name, At: h.at, Value: &t.values[i]}
		switch {
		case h.known:
			m.entries[i] = e
			filled = true
		case h.name != "":
			m.extras = append(m.extras, Extra{Name: h.name, Text: text})
		default:
			t.noteUnnamed(h, at)
		}
	}
	if !filled {
		return nil
	}
	return m
}

// unwrapped takes a text out of the formula that spreadsheets keep digits as text
// with: ="00123".
func unwrapped(text string) string {
	if inner, ok := strings.CutPrefix(text, `="`); ok {
		if inner, ok = strings.CutSuffix(inner, `"`); ok && !strings.Contains(inner, `"`) {
			return strings.TrimSpace(inner)
		}
	}
	return text
}

// noteUnnamed reports the first cell under a blank head.
func (t *table) noteUnnamed(h *head, at diag.Span) {
	if t.unnamed {
		return
	}
	t.unnamed = true
	t.report(diag.Finding{Level: diag.Note, Code: "unnamed-column", At: at,
		Message: "this cell is left alone: its column has no name",
		Fix:     "name the column in the header, or delete it", Notes: []diag.Related{{At: h.at, Message: "the head is blank here"}}})
}

// at is the place of cell i of the row last read.
func (t *table) at(i int, cells []string) diag.Span {
	line, col := t.reader.FieldPos(i)
	return diag.Span{File: t.file, Line: line + t.skipped, Col: t.runeColumn(line, col), Len: max(1, utf8.RuneCountInString(cells[i]))}
}

// runeColumn turns the reader's column, in bytes, into one in runes.
func (t *table) runeColumn(line, col int) int {
	t.seek(line)
	if col-1 < t.passed {
		t.passed, t.runes = 0, 0
	}
	from, to := min(t.offset+t.passed, len(t.text)), min(t.offset+col-1, len(t.text))
	t.runes += utf8.RuneCount(t.text[from:to])
	t.passed = to - t.offset
	return t.runes + 1
}

// seek finds a line of the text.
func (t *table) seek(line int) {
	if line == t.line {
		return
	}
	if t.line == 0 || line < t.line {
		t.line, t.offset = 1, 0
	}
	t.passed, t.runes = 0, 0
	for t.line < line {
		end := bytes.IndexByte(t.text[t.offset:], '\n')
		if end < 0 {
			break
		}
		t.line, t.offset = t.line+1, t.offset+end+1
	}
}
