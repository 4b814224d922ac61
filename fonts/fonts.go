// Package fonts embeds the two faces every sheet is lettered in, and measures
// text. Text is measured here and nowhere else.
//
// The faces are cut beforehand (see README.md) and carry neither kerning nor
// ligatures: a text is as wide as the sum of its advances.
package fonts

import (
	_ "embed"

	"golang.org/x/text/unicode/norm"

	"setwright/layout/measure"
)

// Face is one of the embedded faces.
type Face uint8

// The faces: a condensed sans with tabular figures, and its bold.
const (
	Regular Face = iota
	Bold
)

// Faces is how many faces there are.
const Faces = 2

// Replacement is what is printed for a character the faces lack.
const Replacement = '\uFFFD'

const ellipsis = '…' // put where a text is cut short

// UnitsPerEm is how many font units make one em, in both faces.
const UnitsPerEm = 2048

// Heights in font units, alike in both faces: of capitals and figures, of the
// letters b and d over the baseline, of the letter g under it.
const (
	capHeight = 1493
	ascent    = 1556
	descent   = 442
)

// EmFor returns the em size whose capitals are height tall: sheets speak of
// lettering height as ISO 3098 does, fonts of the em.
func EmFor(height measure.Length) measure.Length {
	return scale(height, UnitsPerEm, capHeight)
}

// CapHeight returns how far capitals and figures rise over the baseline.
func CapHeight(_ Face, em measure.Length) measure.Length {
	return scale(em, capHeight, UnitsPerEm)
}

// Ascent returns how far letters rise over the baseline. Accents on capitals
// rise further, by up to a sixth of the em.
func Ascent(_ Face, em measure.Length) measure.Length {
	return scale(em, ascent, UnitsPerEm)
}

// Descent returns how far letters reach under the baseline, as a positive
// length.
func Descent(_ Face, em measure.Length) measure.Length {
	return scale(em, descent, UnitsPerEm)
}

// Width returns the advance width of s set at the given em size. Characters
// the face lacks count as the replacement the writers print.
func Width(f Face, s string, em measure.Length) measure.Length {
	return scale(em, Units(f, s), UnitsPerEm)
}

// Units returns the advance width of s in font units: exact, so that widths
// can be summed before they are rounded.
func Units(f Face, s string) int64 {
	var sum int64
	for _, r := range s {
		_, advance := Glyph(f, r)
		sum += int64(advance)
	}
	return sum
}

// Fit returns s when it is no wider than width, else as much of its beginning
// as fits with an ellipsis after it. It is empty when not even the ellipsis
// fits.
func Fit(f Face, s string, em, width measure.Length) string {
	if Width(f, s, em) <= width {
		return s
	}
	_, dots := Glyph(f, ellipsis)
	units, end := int64(dots), -1
	for i, r := range s {
		if scale(em, units, UnitsPerEm) > width {
			break
		}
		if i == 0 || s[i-1] != ' ' { // no blank before the ellipsis
			end = i
		}
		_, advance := Glyph(f, r)
		units += int64(advance)
	}
	if end < 0 {
		return ""
	}
	return s[:end] + string(ellipsis)
}

// Has reports whether the face holds the character.
func Has(f Face, r rune) bool {
	_, _, ok := lookUp(f, r)
	return ok
}

// Glyph returns the number of the character's glyph and its advance in font
// units: those of Replacement when the face lacks it.
func Glyph(f Face, r rune) (id, advance uint16) {
	id, advance, ok := lookUp(f, r)
	if !ok {
		id, advance, _ = lookUp(f, Replacement)
	}
	return id, advance
}

// Clean replaces each character the faces lack, and each byte that is not
// UTF-8, by Replacement, and lists those characters, each once, as they come.
// Accents written apart from their letters, as some systems do, are joined to
// them first.
func Clean(s string) (string, []rune) {
	if firstLacking(s) < 0 {
		return s, nil
	}
	s = norm.NFC.String(s)
	out := make([]rune, 0, len(s))
	var lacking []rune
	for _, r := range s {
		if r == Replacement || !Has(Regular, r) {
			lacking = addOnce(lacking, r)
			r = Replacement
		}
		out = append(out, r)
	}
	return string(out), lacking
}

func firstLacking(s string) int {
	for i, r := range s {
		if r == Replacement || !Has(Regular, r) {
			return i
		}
	}
	return -1
}

func addOnce(list []rune, r rune) []rune {
	for _, have := range list {
		if have == r {
			return list
		}
	}
	return append(list, r)
}

// scale returns length*num/den, rounded half away from zero. Lengths on paper
// stay under some metres, so the product fits an int64.
func scale(length measure.Length, num, den int64) measure.Length {
	product := int64(length) * num
	if product < 0 {
		return measure.Length((product - den/2) / den)
	}
	return measure.Length((product + den/2) / den)
}

// The faces as PDF embeds them and their character tables; never written to.
var (
	//go:embed regular.ttf.z
	regularFile string
	//go:embed bold.ttf.z
	boldFile string
	//go:embed regular.runes
	regularRunes string
	//go:embed bold.runes
	boldRunes string
)

const (
	pageIndex = 256     // bytes of page numbers before the first page
	pageSize  = 256 * 4 // bytes of one page
	noPage    = 0xFF
)

// lookUp reads the face's character table; README.md tells its form.
func lookUp(f Face, r rune) (id, advance uint16, ok bool) {
	table := regularRunes
	if f == Bold {
		table = boldRunes
	}
	if uint32(r) > 0xFFFF || table[r>>8] == noPage {
		return 0, 0, false
	}
	at := pageIndex + int(table[r>>8])*pageSize + int(r&0xFF)*4
	entry := table[at : at+4]
	id = uint16(entry[0])<<8 | uint16(entry[1])
	advance = uint16(entry[2])<<8 | uint16(entry[3])
	return id, advance, id != 0
}
