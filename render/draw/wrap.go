package draw

import (
	"strings"

	"setwright/fonts"
	"setwright/layout/measure"
)

// wrap breaks text into lines no wider than width: between words, and within
// a word that is wider than a line by itself. Newlines in the text are kept.
func wrap(text string, s style, width measure.Length) []string {
	text, _ = fonts.Clean(strings.ReplaceAll(text, "\n", lineMark))
	var lines []string
	for _, para := range strings.Split(text, lineMark) {
		lines = append(lines, wrapLine(para, s, width)...)
	}
	return lines
}

// lineMark stands for a newline while a text is cleaned of characters the
// faces lack, which newlines are.
const lineMark = "\u00b6"

func wrapLine(text string, s style, width measure.Length) []string {
	if s.width(text) <= width {
		return []string{text}
	}
	em := fonts.EmFor(s.height)
	room := int64(width) * fonts.UnitsPerEm / int64(em)
	blank := fonts.Units(s.face, " ")
	var lines []string
	line, used := "", int64(0)
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		w := fonts.Units(s.face, word)
		switch {
		case line == "":
			line, used = word, w
		case used+blank+w <= room:
			line, used = line+" "+word, used+blank+w
		default:
			lines = append(lines, line)
			line, used = word, w
		}
		for used > room {
			head := chop(line, s, room)
			lines = append(lines, head)
			line = line[len(head):]
			used = fonts.Units(s.face, line)
		}
	}
	return append(lines, line)
}

// chop is as much of the beginning of a word as fits, at least one character.
func chop(word string, s style, room int64) string {
	used := int64(0)
	for i, r := range word {
		_, advance := fonts.Glyph(s.face, r)
		used += int64(advance)
		if used > room && i > 0 {
			return word[:i]
		}
	}
	return word
}

// wrapTo breaks text into at most n lines, the last cut short with an
// ellipsis if there is more.
func wrapTo(text string, s style, width measure.Length, n int) []string {
	lines := wrap(text, s, width)
	if len(lines) <= n {
		return lines
	}
	rest := strings.Join(lines[n-1:], " ")
	return append(lines[:n-1:n-1], fonts.Fit(s.face, rest, fonts.EmFor(s.height), width))
}

// paragraph sets text from the top left corner at x, y down and returns the
// y under its last line.
func (p *Page) paragraph(x, y, width measure.Length, text string, s style) measure.Length {
	for _, line := range wrap(text, s, width) {
		p.write(x, y+s.rise(), line, s)
		y += s.pitch()
	}
	return y
}
