// Package decode turns the designer's files into typed values that know their
// place: YAML mappings and CSV rows alike become a Map of Values. Every reader
// reports what it cannot use, at file, line and column, and goes on, so that
// one run shows all that is wrong with a file. Scalars are read from their
// spelling, never by YAML's own idea of their type: 012 is twelve and a date is
// just text.
//
// It is the only room that knows the YAML library.
package decode

import (
	"bytes"
	"fmt"
	"unicode/utf8"

	"setwright/layout/diag"
)

// maxFindings is how many findings one file may give: nobody reads more at
// once, and a hopeless file must not fill the memory.
const maxFindings = 100

// source is one file being read and where its findings go.
type source struct {
	file  string
	into  *diag.List
	count int
	lines int // of a YAML file
}

func (s *source) report(f diag.Finding) {
	s.count++
	switch {
	case s.count <= maxFindings:
		s.into.Add(f)
	case s.count == maxFindings+1:
		s.into.Add(diag.Finding{Level: diag.Error, Code: "too-many-errors", At: diag.Span{File: s.file},
			Message: fmt.Sprintf("there is more wrong with this file than the first %d findings tell", maxFindings),
			Fix:     "mend those and look again"})
	}
}

func (s *source) fail(code string, at diag.Span, message, expected, fix string) {
	s.report(diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Expected: expected, Fix: fix})
}

// plainText strips a byte order mark and reports every character that has no
// business in a text file. It returns false if there was any: what follows one
// would only confuse.
func (s *source) plainText(text []byte) ([]byte, bool) {
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		s.fail("not-utf-8", diag.Span{File: s.file, Line: 1, Col: 1}, "this file is saved as UTF-16",
			"UTF-8 text", `save it again with the encoding "UTF-8"`)
		return nil, false
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	clean := true
	line, col := 1, 1
	for i := 0; i < len(text); {
		r, size := rune(text[i]), 1
		if r >= utf8.RuneSelf {
			r, size = utf8.DecodeRune(text[i:])
		}
		if r == '\n' || r == '\r' && (i+1 == len(text) || text[i+1] != '\n') {
			line, col = line+1, 1
			i += size
			continue
		}
		if r != '\t' && r != '\r' && diag.Unprintable(r) {
			s.badCharacter(diag.Span{File: s.file, Line: line, Col: col, Len: 1}, r, text[i:i+size])
			clean = false
			if s.count > maxFindings {
				return nil, false
			}
		}
		col++
		i += size
	}
	return text, clean
}

func (s *source) badCharacter(at diag.Span, r rune, raw []byte) {
	if r == utf8.RuneError && len(raw) == 1 {
		s.fail("not-utf-8", at, fmt.Sprintf("the byte %02X here is not UTF-8", raw[0]),
			"UTF-8 text", `save the file again with the encoding "UTF-8"`)
		return
	}
	s.fail("bad-character", at, fmt.Sprintf("the invisible character U+%04X has no place in this file", r), "", "delete it")
}
