package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/fonts"
)

// usage is which glyphs of each face a pack shows, and for which character.
type usage [fonts.Faces][]rune // by glyph; 0 is not shown

// add notes a character and returns its glyph. Two characters that share a
// glyph, such as a blank and one that does not break, extract as the lower.
func (u *usage) add(f fonts.Face, r rune) uint16 {
	if !fonts.Has(f, r) {
		r = fonts.Replacement
	}
	id, _ := fonts.Glyph(f, r)
	for int(id) >= len(u[f]) {
		u[f] = append(u[f], make([]rune, 256)...)
	}
	if had := u[f][id]; had == 0 || r < had {
		u[f][id] = r
	}
	return id
}

// fontName is what page contents call the face.
func fontName(f fonts.Face) string { return "/F" + strconv.Itoa(int(f)) }

// addFont adds a face as a composite font whose codes are its glyph numbers
// (ISO 32000-1, 9.7.4) and returns its object's number.
func (f *file) addFont(face fonts.Face, shown []rune) int {
	p := fonts.Embedded(face)
	program := f.add(object{
		dict:   fmt.Sprintf("<</Filter/FlateDecode/Length1 %d", p.Size),
		stream: []byte(p.Deflated), form: ready,
	})
	const sansNonsymbolic = 32 // neither serif nor script
	descriptor := f.add(object{dict: fmt.Sprintf(
		"<</Type/FontDescriptor/FontName/%s/Flags %d/FontBBox%s/ItalicAngle 0/Ascent %s/Descent %s/CapHeight %s/StemV %s/FontFile2 %d 0 R>>",
		p.Name, sansNonsymbolic, bounds(p.Box), perMille(p.Ascent), perMille(p.Descent), perMille(p.CapHeight), perMille(p.StemWidth), program)})
	descendant := f.add(object{dict: fmt.Sprintf(
		"<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/CIDToGIDMap/Identity/FontDescriptor %d 0 R/W[%s]>>",
		p.Name, descriptor, widths(face, shown))})
	unicode := f.add(object{dict: "<<", stream: toUnicode(shown), form: deflate})
	return f.add(object{dict: fmt.Sprintf(
		"<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>",
		p.Name, descendant, unicode)})
}

// perMille turns font units into the thousandths of an em PDF counts in.
func perMille(units int) string {
	millionths := int64(units) * 1_000_000
	return string(appendThousandths(nil, roundDiv(millionths, fonts.UnitsPerEm)))
}

func roundDiv(n, d int64) int64 {
	if n < 0 {
		return -((-n + d/2) / d)
	}
	return (n + d/2) / d
}

func bounds(box [4]int) string {
	return fmt.Sprintf("[%s %s %s %s]", perMille(box[0]), perMille(box[1]), perMille(box[2]), perMille(box[3]))
}

// widths is the inside of /W: runs of neighbouring glyphs with their advances.
func widths(face fonts.Face, shown []rune) string {
	var b strings.Builder
	open := false
	for id, r := range shown {
		if r == 0 {
			if open {
				b.WriteByte(']')
			}
			open = false
			continue
		}
		if open {
			b.WriteByte(' ')
		} else {
			b.WriteString(strconv.Itoa(id) + "[")
			open = true
		}
		_, advance := fonts.Glyph(face, r)
		b.WriteString(perMille(int(advance)))
	}
	if open {
		b.WriteByte(']')
	}
	return b.String()
}

// mostInBlock is how many lines one block of a CMap may hold (Adobe Technical
// Note 5014).
const mostInBlock = 100

// toUnicode is the CMap that says which character each glyph shown stands for.
func toUnicode(shown []rune) []byte {
	var lines []string
	for id, r := range shown {
		if r != 0 {
			lines = append(lines, fmt.Sprintf("<%04x> <%04x>\n", id, r)) // the faces stop at U+FFFF
		}
	}
	var b strings.Builder
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n")
	for len(lines) > 0 {
		block := lines[:min(mostInBlock, len(lines))]
		lines = lines[len(block):]
		fmt.Fprintf(&b, "%d beginbfchar\n%sendbfchar\n", len(block), strings.Join(block, ""))
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return []byte(b.String())
}
