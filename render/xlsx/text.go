package xlsx

import (
	"bytes"
	"strings"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"
)

// short is a text cut to what a cell takes, with a sign that it was: only the
// addresses of a product in thousands of places are that long.
func short(text string) string {
	if units := utf16.Encode([]rune(text)); len(units) > excelize.TotalCellChars {
		return string(utf16.Decode(units[:excelize.TotalCellChars-1])) + "…"
	}
	return text
}

// standIn takes the place of an underscore until the library has written it. It
// is one of the characters that Unicode keeps for a program's own use.
const standIn = "\uFDD0"

// literal keeps a text from being read as one with escapes: _x0041_ would be
// taken for A, so its first underscore is to be written as _x005F_ (ECMA-376,
// part 1, ST_Xstring). The library does so too, but loses _xDEAD_, and does not
// see an escape that begins with the underscore that ends another.
func literal(text string) string {
	const length = len("_x0041_")
	text = strings.ReplaceAll(text, standIn, "\uFFFD")
	var b strings.Builder
	for i := range len(text) {
		if i+length <= len(text) && looksEscaped(text[i:i+length]) {
			b.WriteString(standIn)
		} else {
			b.WriteByte(text[i])
		}
	}
	return b.String()
}

func looksEscaped(s string) bool {
	return strings.HasPrefix(s, "_x") && s[6] == '_' && strings.Trim(s[2:6], "0123456789ABCDEFabcdef") == ""
}

// finish writes the underscores that literal kept back.
func finish(part []byte) []byte {
	return bytes.ReplaceAll(part, []byte(standIn), []byte("_x005F_"))
}
