package pdftest

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
)

// The kinds of object (ISO 32000-1, 7.3). Numbers are float64, arrays []any,
// booleans bool, null nil.
type (
	name   string
	text   string // a string's bytes
	dict   map[name]any
	ref    struct{ number, generation int }
	stream struct {
		dict dict
		raw  []byte
	}
	keyword string // an operator, or a mark such as endobj
)

// lexer takes objects off the front of data.
type lexer struct {
	data []byte
	at   int
}

const (
	maxDepth = 50 // of arrays and dictionaries in each other
	blanks   = "\x00\t\n\f\r "
	marks    = "()<>[]{}/%"
)

func (l *lexer) errorf(format string, args ...any) error {
	return fmt.Errorf("at byte %d: %s", l.at, fmt.Sprintf(format, args...))
}

func (l *lexer) space() {
	for l.at < len(l.data) {
		switch c := l.data[l.at]; {
		case bytes.IndexByte([]byte(blanks), c) >= 0:
			l.at++
		case c == '%':
			for l.at < len(l.data) && l.data[l.at] != '\n' && l.data[l.at] != '\r' {
				l.at++
			}
		default:
			return
		}
	}
}

func (l *lexer) take(mark string) bool {
	if bytes.HasPrefix(l.data[l.at:], []byte(mark)) {
		l.at += len(mark)
		return true
	}
	return false
}

// word takes everything up to the next blank or mark.
func (l *lexer) word() string {
	from := l.at
	for l.at < len(l.data) && bytes.IndexByte([]byte(blanks+marks), l.data[l.at]) < 0 {
		l.at++
	}
	return string(l.data[from:l.at])
}

// object takes one object or keyword; an empty keyword is the end.
func (l *lexer) object(depth int) (any, error) {
	if depth > maxDepth {
		return nil, l.errorf("nested too deep")
	}
	l.space()
	switch {
	case l.at >= len(l.data):
		return keyword(""), nil
	case l.take("<<"):
		return l.dict(depth)
	case l.take("<"):
		return l.hexText()
	case l.take("("):
		return l.literal()
	case l.take("["):
		return l.array(depth)
	case l.take("/"):
		return l.name()
	}
	word := l.word()
	if word == "" {
		return nil, l.errorf("unexpected %q", l.data[l.at])
	}
	return l.plain(word), nil
}

func (l *lexer) plain(word string) any {
	switch word {
	case "true":
		return true
	case "false":
		return false
	case "null":
		return nil
	}
	n, err := strconv.ParseFloat(word, 64)
	if err != nil || strings.Trim(word, "+-.0123456789") != "" { // no exponents, no Inf
		return keyword(word)
	}
	return l.reference(n)
}

// reference looks whether a whole number begins "n g R".
func (l *lexer) reference(n float64) any {
	if n != float64(int(n)) || n < 0 {
		return n
	}
	back := l.at
	l.space()
	generation, err := strconv.Atoi(l.word())
	l.space()
	if err == nil && generation >= 0 && l.word() == "R" {
		return ref{int(n), generation}
	}
	l.at = back
	return n
}

func (l *lexer) name() (any, error) {
	word := []byte(l.word())
	for i := 0; i+2 < len(word); i++ {
		if word[i] != '#' {
			continue
		}
		c, err := hex.DecodeString(string(word[i+1 : i+3]))
		if err != nil {
			return nil, l.errorf("name with a bad escape")
		}
		word = append(append(word[:i:i], c...), word[i+3:]...)
	}
	return name(word), nil
}

func (l *lexer) array(depth int) (any, error) {
	list := []any{}
	for {
		l.space()
		if l.take("]") {
			return list, nil
		}
		o, err := l.object(depth + 1)
		if err != nil {
			return nil, err
		}
		if k, ok := o.(keyword); ok {
			return nil, l.errorf("%q in an array", k)
		}
		list = append(list, o)
	}
}

func (l *lexer) dict(depth int) (any, error) {
	d := dict{}
	for {
		l.space()
		if l.take(">>") {
			return d, nil
		}
		key, err := l.object(depth + 1)
		if err != nil {
			return nil, err
		}
		k, ok := key.(name)
		if !ok {
			return nil, l.errorf("key %v is no name", key)
		}
		if _, twice := d[k]; twice {
			return nil, l.errorf("key %s twice", k)
		}
		value, err := l.object(depth + 1)
		if err != nil {
			return nil, err
		}
		if w, ok := value.(keyword); ok {
			return nil, l.errorf("%q as a value", w)
		}
		d[k] = value
	}
}

func (l *lexer) hexText() (any, error) {
	end := bytes.IndexByte(l.data[l.at:], '>')
	if end < 0 {
		return nil, l.errorf("string without an end")
	}
	digits := bytes.Map(func(r rune) rune {
		if bytes.IndexByte([]byte(blanks), byte(r)) >= 0 {
			return -1
		}
		return r
	}, l.data[l.at:l.at+end])
	l.at += end + 1
	if len(digits)%2 == 1 {
		digits = append(digits, '0')
	}
	b, err := hex.DecodeString(string(digits))
	if err != nil {
		return nil, l.errorf("bad digit in a string")
	}
	return text(b), nil
}

// literal takes a string in parentheses, which may hold balanced ones.
func (l *lexer) literal() (any, error) {
	var out []byte
	for depth := 1; l.at < len(l.data); {
		c := l.data[l.at]
		l.at++
		switch c {
		case '(':
			depth++
		case ')':
			depth--
			if depth == 0 {
				return text(out), nil
			}
		case '\r':
			l.take("\n")
			c = '\n'
		case '\\':
			out = l.escape(out)
			continue
		}
		out = append(out, c)
	}
	return nil, l.errorf("string without an end")
}

func (l *lexer) escape(out []byte) []byte {
	if l.at >= len(l.data) {
		return out
	}
	c := l.data[l.at]
	l.at++
	if i := bytes.IndexByte([]byte("nrtbf"), c); i >= 0 {
		return append(out, "\n\r\t\b\f"[i])
	}
	switch {
	case c == '\r':
		l.take("\n")
		return out
	case c == '\n':
		return out
	case c < '0' || c > '7':
		return append(out, c)
	}
	code := int(c - '0')
	for i := 0; i < 2 && l.at < len(l.data) && l.data[l.at] >= '0' && l.data[l.at] <= '7'; i++ {
		code = code*8 + int(l.data[l.at]-'0')
		l.at++
	}
	return append(out, byte(code))
}
