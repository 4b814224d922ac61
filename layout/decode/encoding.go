package decode

import (
	"bytes"
	"encoding/binary"
	"unicode/utf16"
	"unicode/utf8"

	"setwright/layout/diag"
)

// The encodings a spreadsheet saves text in.
const (
	UTF8        = "UTF-8"
	UTF16LE     = "UTF-16LE"
	UTF16BE     = "UTF-16BE"
	Windows1252 = "Windows-1252"
)

// unicodeText is a spreadsheet's text as UTF-8, and the encoding it was in. Text
// without a byte order mark that is not UTF-8 is taken for Windows-1252, unless
// some of it can only be UTF-8: then it is damaged, and plainText says where.
// It returns false, with the reason reported, for what is no text.
func (s *source) unicodeText(text []byte) ([]byte, string, bool) {
	start := diag.Span{File: s.file, Line: 1, Col: 1}
	if bytes.HasPrefix(text, []byte("PK\x03\x04")) || bytes.HasPrefix(text, []byte("\xd0\xcf\x11\xe0")) {
		s.fail("not-text", start, "this file is a spreadsheet's workbook, not a text", "CSV text",
			`open it in the spreadsheet and save it as CSV with the encoding "UTF-8"`)
		return nil, "", false
	}
	if order, name := utf16Order(text); order != nil {
		if len(text)%2 != 0 {
			s.fail("cut-short", start, "this file is saved as "+name+" and its last character is cut in half", "", "save it again")
			return nil, name, false
		}
		return fromUTF16(text, order), name, true
	}
	if !utf8.Valid(text) && isWindows1252(text) {
		return fromWindows1252(text), Windows1252, true
	}
	return text, UTF8, true
}

// utf16Order is the byte order of UTF-16 text, nil if it is none: by its byte
// order mark or, where that is lost, by the zero halves of its first letters.
func utf16Order(text []byte) (binary.ByteOrder, string) {
	switch {
	case len(text) < 4:
	case bytes.HasPrefix(text, []byte("\xff\xfe")), text[0] != 0 && text[1] == 0 && text[2] != 0 && text[3] == 0:
		return binary.LittleEndian, UTF16LE
	case bytes.HasPrefix(text, []byte("\xfe\xff")), text[0] == 0 && text[1] != 0 && text[2] == 0 && text[3] != 0:
		return binary.BigEndian, UTF16BE
	}
	return nil, ""
}

// fromUTF16 leaves a byte order mark in; halves of pairs that stand alone become
// U+FFFD.
func fromUTF16(text []byte, order binary.ByteOrder) []byte {
	out := make([]byte, 0, len(text))
	for i := 0; i+1 < len(text); i += 2 {
		r := rune(order.Uint16(text[i:]))
		if utf16.IsSurrogate(r) {
			low := rune(0)
			if i+3 < len(text) {
				low = rune(order.Uint16(text[i+2:]))
			}
			if r = utf16.DecodeRune(r, low); r != utf8.RuneError {
				i += 2
			}
		}
		out = utf8.AppendRune(out, r)
	}
	return out
}

// isWindows1252 says whether text that is not UTF-8 may be Windows-1252: it has
// no control characters, no byte without a letter, and no run of bytes that is a
// letter in UTF-8.
func isWindows1252(text []byte) bool {
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c >= utf8.RuneSelf:
			if _, size := utf8.DecodeRune(text[i:]); size > 1 || letter1252(c) == utf8.RuneError {
				return false
			}
		case c < ' ' && c != '\t' && c != '\r' && c != '\n':
			return false
		}
		i++
	}
	return true
}

func fromWindows1252(text []byte) []byte {
	out := make([]byte, 0, len(text)+len(text)/8)
	for _, c := range text {
		out = utf8.AppendRune(out, letter1252(c))
	}
	return out
}

// letter1252 is a byte of Windows-1252: Latin-1, with letters and marks where
// that has control characters (the table registered with IANA; five bytes stand
// for nothing).
func letter1252(c byte) rune {
	const controls = "€\uFFFD‚ƒ„…†‡ˆ‰Š‹Œ\uFFFDŽ\uFFFD\uFFFD‘’“”•–—˜™š›œ\uFFFDžŸ"
	if c < 0x80 || c >= 0xa0 {
		return rune(c)
	}
	return []rune(controls)[c-0x80]
}
