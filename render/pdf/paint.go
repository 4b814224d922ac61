package pdf

import (
	"encoding/hex"
	"strconv"
	"unicode/utf16"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// painter writes one page's operators (ISO 32000-1, annex A). It keeps what
// the reader's graphics state holds, and writes a setting only on change.
type painter struct {
	out    []byte
	top    int64 // the page's height in thousandths of a point: PDF's y runs up
	used   *usage
	inText bool
	pen    pen
	ink    sheet.Color
	face   fonts.Face
	size   int64 // of the font, in thousandths of a point; 0 before the first
}

// pen is the state strokes depend on; lengths in thousandths of a point.
type pen struct {
	width int64
	color sheet.Color
	dash  string
}

// begin clears the page and sets every state painter relies on.
func (p *painter) begin(s *sheet.Sheet, used *usage) {
	*p = painter{out: p.out[:0], used: used}
	p.top = pageSide(s.Height)
	p.out = append(p.out, "1 J 1 j 0 w [] 0 d 0 0 0 RG 0 0 0 rg\n"...)
}

// take ends any text and returns what was written; it is good until the next
// mark.
func (p *painter) take() []byte {
	p.endText()
	out := p.out
	p.out = p.out[:0]
	return out
}

func (p *painter) line(l sheet.Line) {
	p.endText()
	p.stroke(l.Stroke)
	p.point(l.From)
	p.op("m ")
	p.point(l.To)
	p.op("l S\n")
}

func (p *painter) path(path sheet.Path) {
	if !path.Shows() {
		return
	}
	p.endText()
	p.style(path.Stroke, path.Fill)
	for i, at := range path.Points {
		p.point(at)
		if i == 0 {
			p.op("m ")
		} else {
			p.op("l ")
		}
	}
	if path.Closed {
		p.op("h ")
	}
	p.show(path.Stroke, path.Fill)
}

// boxes fills upright boxes. Their edges are rounded, not their widths, so that
// no two of a row drift apart.
func (p *painter) boxes(b sheet.Boxes) {
	p.endText()
	p.setInk(b.Fill)
	for _, r := range b.List {
		x, y := thousandths(r.Min.X), p.top-thousandths(r.Max.Y)
		for _, n := range [4]int64{x, y, thousandths(r.Max.X) - x, p.top - thousandths(r.Min.Y) - y} {
			p.number(n)
		}
		p.op("re f\n")
	}
}

// A quarter circle as one Bézier curve: its handles are 4/3*(sqrt(2)-1) of
// the radius, which strays from the circle by 0.03 % at most.
const (
	handleNum = 552_285
	handleDen = 1_000_000
)

func (p *painter) circle(c sheet.Circle) {
	if !c.Shows() {
		return
	}
	p.endText()
	p.style(c.Stroke, c.Fill)
	at := func(x, y measure.Length) { p.point(sheet.Point{X: c.Center.X + x, Y: c.Center.Y + y}) }
	r, k := c.Radius, c.Radius*handleNum/handleDen
	at(r, 0)
	p.op("m ")
	for _, q := range [4][6]measure.Length{
		{r, k, k, r, 0, r}, {-k, r, -r, k, -r, 0}, {-r, -k, -k, -r, 0, -r}, {k, -r, r, -k, r, 0},
	} {
		at(q[0], q[1])
		at(q[2], q[3])
		at(q[4], q[5])
		p.op("c ")
	}
	p.op("h ")
	p.show(c.Stroke, c.Fill)
}

func (p *painter) text(t sheet.Text) {
	if !t.Shows() {
		return
	}
	if !p.inText {
		p.op("BT\n")
		p.inText = true
	}
	p.setInk(t.Color)
	p.font(t.Face, thousandths(t.Size))
	if t.Up {
		p.op("0 1 -1 0 ")
	} else {
		p.op("1 0 0 1 ")
	}
	p.point(t.Origin())
	p.op("Tm <")
	for _, r := range t.S {
		id := p.used.add(t.Face, r)
		p.out = hex.AppendEncode(p.out, []byte{byte(id >> 8), byte(id)})
	}
	p.op("> Tj\n")
}

func (p *painter) endText() {
	if p.inText {
		p.op("ET\n")
		p.inText = false
	}
}

// alternative opens a mark that says in words what a picture shows.
func (p *painter) alternative(words string) {
	p.endText()
	if words != "" {
		p.op("/Span <</Alt ")
		p.op(textString(words))
		p.op(">> BDC\n")
	}
}

func (p *painter) endAlternative(words string) {
	if words != "" {
		p.op("EMC\n")
	}
}

func (p *painter) font(f fonts.Face, size int64) {
	if p.size == size && p.face == f {
		return
	}
	p.face, p.size = f, size
	p.op(fontName(f) + " ")
	p.number(size)
	p.op("Tf\n")
}

// style sets the pen and the ink; show then draws the path with them.
func (p *painter) style(s *sheet.Stroke, fill *sheet.Color) {
	if s != nil {
		p.stroke(*s)
	}
	if fill != nil {
		p.setInk(*fill)
	}
}

func (p *painter) show(s *sheet.Stroke, fill *sheet.Color) {
	switch {
	case fill == nil:
		p.op("S\n")
	case s == nil:
		p.op("f\n")
	default:
		p.op("B\n")
	}
}

func (p *painter) stroke(s sheet.Stroke) {
	next := pen{thousandths(s.Width), s.Color, dashes(s)}
	if next.width != p.pen.width {
		p.number(next.width)
		p.op("w ")
	}
	if next.dash != p.pen.dash {
		// Continuous lines end round, so that corners close; dashes end square, or they would grow together.
		if next.dash == "" {
			p.op("1 J ")
		} else if p.pen.dash == "" {
			p.op("0 J ")
		}
		p.op("[" + next.dash + "] 0 d ")
	}
	if next.color != p.pen.color {
		p.color(next.color)
		p.op("RG ")
	}
	p.pen = next
}

// dashes returns the inside of a dash array, empty for a continuous line.
func dashes(s sheet.Stroke) string {
	if !s.Dashed() {
		return ""
	}
	var b []byte
	for _, l := range s.Dash {
		b = append(appendThousandths(b, thousandths(l)), ' ')
	}
	return string(b[:len(b)-1])
}

func (p *painter) setInk(c sheet.Color) {
	if c != p.ink {
		p.ink = c
		p.color(c)
		p.op("rg ")
	}
}

func (p *painter) color(c sheet.Color) {
	for _, part := range [3]uint8{c.R, c.G, c.B} {
		p.number((int64(part)*1000 + 127) / 255)
	}
}

func (p *painter) point(at sheet.Point) {
	p.number(thousandths(at.X))
	p.number(p.top - thousandths(at.Y))
}

func (p *painter) number(n int64) {
	p.out = append(appendThousandths(p.out, n), ' ')
}

func (p *painter) op(s string) { p.out = append(p.out, s...) }

// thousandths returns a length in thousandths of a point, rounded half away
// from zero. A point is 1/72 in, so a nanometre is 72000/25400000 = 9/3175 of
// such a thousandth.
func thousandths(l measure.Length) int64 {
	const num, den = 9, 3175
	n := int64(l) * num
	if n < 0 {
		return (n - den/2) / den
	}
	return (n + den/2) / den
}

// appendThousandths prints n/1000 with no digit more than it needs.
func appendThousandths(b []byte, n int64) []byte {
	if n < 0 {
		b = append(b, '-')
		n = -n
	}
	b = strconv.AppendInt(b, n/1000, 10)
	rest := n % 1000
	if rest == 0 {
		return b
	}
	b = append(b, '.', byte('0'+rest/100), byte('0'+rest/10%10), byte('0'+rest%10))
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	return b
}

// textString is a PDF text string in hexadecimal UTF-16, which needs no
// escapes and can hold nothing that looks like an object's reference. What is
// too long for one is cut short.
func textString(s string) string {
	b := []byte("<feff")
	for _, unit := range utf16.Encode([]rune(short(s))) {
		b = hex.AppendEncode(b, []byte{byte(unit >> 8), byte(unit)})
	}
	return string(append(b, '>'))
}

// short is as much of s as a string may hold: 32,767 bytes (ISO 19005-3,
// 6.1.13), of which two say that the rest is UTF-16.
func short(s string) string {
	const most = (32_767 - 2) / 2
	if len(s) <= most {
		return s
	}
	units := 0
	for i, r := range s {
		if units += utf16.RuneLen(r); units > most {
			return s[:i]
		}
	}
	return s
}
