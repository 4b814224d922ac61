package decode

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"setwright/layout/diag"
)

// Dialect is how a CSV file is written, as it was detected, as far as it could
// be read.
type Dialect struct {
	Encoding  string // UTF8, UTF16LE, UTF16BE or Windows1252
	Separator rune   // between cells: a comma, semicolon, tab or vertical bar, or what a sep= line says
	Decimals  Decimals
	Columns   []Column // in the order of the file
	Rows      int      // that hold anything, without the header
}

// Column is one column of a CSV file. Columns that are not known have the name
// they are written with, the others the one they are known by.
type Column struct {
	Name     string // "" if its head is blank
	Unit     string // what its bare numbers are in, "" if the header does not say
	Known    bool
	Measured bool // lengths or weights
}

// separator finds what separates the cells of the first line, and drops a
// spreadsheet's own line about it: sep=;
func (t *table) separator() {
	first, rest, _ := bytes.Cut(t.text, []byte("\n"))
	line := bytes.TrimRight(first, "\r\n\"")
	if sep, ok := bytes.CutPrefix(bytes.ToLower(bytes.TrimLeft(line, "\"")), []byte("sep=")); ok && len(sep) <= 1 {
		t.text, t.skipped = rest, 1
		first, _, _ = bytes.Cut(rest, []byte("\n"))
		if len(sep) == 1 && isSeparator(sep[0]) && outsideQuotes(first, sep[0]) > 0 {
			t.dialect.Separator = rune(sep[0])
			return
		}
	}
	t.dialect.Separator = ','
	most := 0
	for _, c := range []byte(separators) {
		if n := outsideQuotes(first, c); n > most {
			t.dialect.Separator, most = rune(c), n
		}
	}
}

// separators are those that are looked for, the likelier first.
const separators = ",;\t|"

// isSeparator says whether a sep= line may name the character: a mark that no
// number, word or quoted cell is made of.
func isSeparator(c byte) bool {
	return strings.IndexByte(separators+":!#%&*/<=>?@^_`{}~ ", c) >= 0
}

// outsideQuotes counts a character in a line, quoted cells left out.
func outsideQuotes(line []byte, sep byte) int {
	n, quoted := 0, false
	for _, c := range line {
		switch {
		case c == '"':
			quoted = !quoted
		case c == sep && !quoted:
			n++
		}
	}
	return n
}

// detectDecimals reads the file once for the decimal sign of its numbers.
func (t *table) detectDecimals() {
	var counts tally
	r := t.newReader()
	for header := true; ; header = false {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil || header {
			continue
		}
		for i, cell := range cells[:min(len(cells), len(t.heads))] {
			h := &t.heads[i]
			if !h.measured && !h.decimals || strings.IndexByte(cell, '.') < 0 && strings.IndexByte(cell, ',') < 0 {
				continue
			}
			counts.add(withoutCurrency(cell))
		}
	}
	t.figures, t.dialect.Decimals = counts.settle(t.dialect.Separator)
}

// noteDialect says how the file was read, unless it is written in the plainest
// way.
func (t *table) noteDialect() {
	words, fix := "", ""
	if t.dialect.Encoding != UTF8 {
		words = " as " + t.dialect.Encoding + " text"
	}
	if t.dialect.Encoding == Windows1252 {
		fix = `if accents come out wrong, save it again with the encoding "UTF-8"`
	}
	var with []string
	if t.dialect.Separator != ',' {
		with = append(with, SeparatorName(t.dialect.Separator)+" between its cells")
	}
	switch t.dialect.Decimals {
	case Commas:
		with = append(with, "decimal commas")
	case Both:
		with = append(with, "decimal points as well as commas")
		fix = "write all of them in one way"
	}
	if with != nil {
		words += " with " + strings.Join(with, " and ")
	}
	if words != "" {
		t.report(diag.Finding{Level: diag.Note, Code: "csv-dialect", At: diag.Span{File: t.file},
			Message: "this file is read" + words, Fix: fix})
	}
}

// SeparatorName is the plural of what stands between cells, in words: commas.
func SeparatorName(c rune) string {
	switch c {
	case ',':
		return "commas"
	case ';':
		return "semicolons"
	case '\t':
		return "tabs"
	case '|':
		return "vertical bars"
	}
	return fmt.Sprintf("%q", c)
}

// formulas counts the cells that a spreadsheet would run instead of showing
// them. Nothing runs them here: they stay the text they are.
type formulas struct {
	count int
	first string
	at    diag.Span
}

// look counts a cell that begins as formulas do; plain numbers do not count, nor
// does a dash alone, which stands for nothing.
func (f *formulas) look(cell string, at diag.Span) {
	if strings.IndexByte("=+-@\t\r", cell[0]) < 0 {
		return
	}
	text := strings.TrimSpace(cell)
	if strings.Trim(text, "+-0123456789., ") == "" {
		return
	}
	if f.count == 0 {
		f.first, f.at = text, at
	}
	f.count++
}

func (t *table) noteFormulas() {
	f := t.formulas
	if f.count == 0 {
		return
	}
	message := fmt.Sprintf("this cell begins as a formula does, %s, and is kept as text; exported lists neutralise it", quote(f.first))
	if f.count > 1 {
		message = fmt.Sprintf("%d cells begin as formulas do, %s first, and are kept as text; exported lists neutralise them", f.count, quote(f.first))
	}
	t.report(diag.Finding{Level: diag.Note, Code: "formula-cell", At: f.at, Message: message,
		Fix:    "take the mark in front away: a spreadsheet that opens such a list would run it",
		Source: "OWASP, CSV Injection: cells that begin with = + - @, tab or CR (from memory)"})
}

// known are the names of all columns that may be there.
func (c Columns) known() []string { return slices.Concat(c.Needed, c.Optional) }
