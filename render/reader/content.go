package reader

import (
	"bytes"
	"encoding/hex"
	"strconv"
)

// token is one word of a page's content (ISO 32000-1, 7.2 and 7.8.2): a number,
// a name, a string, a bracket or an operator.
type token struct {
	kind byte   // '0' number, '/' name, '(' string, '[' ']' '<' '>' brackets, 'o' operator
	text string // of a string, its bytes
	n    float64
}

// scanner reads a page's content word by word. What makes no sense is skipped.
type scanner struct {
	data []byte
	at   int
}

func blank(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}

func delimiter(c byte) bool { return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0 }

// next returns the next word, false at the end.
func (s *scanner) next() (token, bool) {
	for s.at < len(s.data) {
		switch c := s.data[s.at]; {
		case blank(c) || c == '{' || c == '}' || c == ')':
			s.at++
		case c == '%':
			s.until("\r\n")
		case c == '(':
			return token{kind: '(', text: s.literal()}, true
		case c == '<' && !s.follows('<'):
			return token{kind: '(', text: s.hexadecimal()}, true
		case c == '<' || c == '>':
			s.at += min(2, len(s.data)-s.at)
			return token{kind: c}, true
		case c == '[' || c == ']':
			s.at++
			return token{kind: c}, true
		case c == '/':
			s.at++
			return token{kind: '/', text: s.word()}, true
		default:
			return number(s.word()), true
		}
	}
	return token{}, false
}

func number(word string) token {
	if n, err := strconv.ParseFloat(word, 64); err == nil && word[0] != 'N' && word[0] != 'I' && word[0] != 'n' && word[0] != 'i' {
		return token{kind: '0', n: n}
	}
	return token{kind: 'o', text: word}
}

func (s *scanner) follows(c byte) bool { return s.at+1 < len(s.data) && s.data[s.at+1] == c }

func (s *scanner) until(ends string) {
	for s.at < len(s.data) && bytes.IndexByte([]byte(ends), s.data[s.at]) < 0 {
		s.at++
	}
}

func (s *scanner) word() string {
	from := s.at
	for s.at < len(s.data) && !blank(s.data[s.at]) && !delimiter(s.data[s.at]) {
		s.at++
	}
	return string(s.data[from:s.at])
}

func (s *scanner) hexadecimal() string {
	s.at++
	from := s.at
	s.until(">")
	var digits []byte
	for _, c := range s.data[from:s.at] {
		if !blank(c) {
			digits = append(digits, c)
		}
	}
	s.at = min(s.at+1, len(s.data))
	if len(digits)%2 == 1 {
		digits = append(digits, '0')
	}
	text, err := hex.DecodeString(string(digits))
	if err != nil {
		return ""
	}
	return string(text)
}

// literal is a string in round brackets, with its escapes undone.
func (s *scanner) literal() string {
	var text []byte
	depth := 0
	for ; s.at < len(s.data); s.at++ {
		c := s.data[s.at]
		switch c {
		case '\\':
			text = s.escaped(text)
			continue
		case '(':
			if depth++; depth == 1 {
				continue
			}
		case ')':
			if depth--; depth == 0 {
				s.at++
				return string(text)
			}
		}
		text = append(text, c)
	}
	return string(text)
}

// escaped appends what a backslash and what follows stand for, and stays on the
// last byte of it.
func (s *scanner) escaped(text []byte) []byte {
	if s.at++; s.at >= len(s.data) {
		return text
	}
	const letters, signs = "nrtbf", "\n\r\t\b\f"
	c := s.data[s.at]
	if i := bytes.IndexByte([]byte(letters), c); i >= 0 {
		return append(text, signs[i])
	}
	switch {
	case c == '\n':
		return text
	case c == '\r':
		if s.follows('\n') {
			s.at++
		}
		return text
	case c < '0' || c > '7':
		return append(text, c)
	}
	n := int(c - '0')
	for range 2 {
		if s.at+1 < len(s.data) && s.data[s.at+1] >= '0' && s.data[s.at+1] <= '7' {
			s.at++
			n = n*8 + int(s.data[s.at]-'0')
		}
	}
	return append(text, byte(n))
}

// plainSpace is a content with a single blank wherever there is blank space
// outside of strings.
func plainSpace(content []byte) []byte {
	out := make([]byte, 0, len(content))
	s := &scanner{data: content}
	for s.at < len(content) {
		c := content[s.at]
		from := s.at
		switch {
		case blank(c):
			for s.at < len(content) && blank(content[s.at]) {
				s.at++
			}
			if len(out) > 0 && s.at < len(content) {
				out = append(out, ' ')
			}
			continue
		case c == '(':
			s.literal()
		default:
			s.at++
		}
		out = append(out, content[from:s.at]...)
	}
	return out
}
