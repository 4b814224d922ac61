package reader

import (
	"math"
	"strings"
	"unicode"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// glyph is a letter at its place on the page, in points from its lower left
// corner.
type glyph struct {
	text string
	x, y float64
}

// matrix maps x, y to ax+cy+e, bx+dy+f.
type matrix [6]float64

// then is m followed by n.
func (m matrix) then(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

// moved is m after a step in its own coordinates.
func (m matrix) moved(x, y float64) matrix { return matrix{1, 0, 0, 1, x, y}.then(m) }

const (
	mostGlyphs = 1 << 17 // of a page
	mostForms  = 8       // in one another
)

// state is what text depends on and what q keeps (ISO 32000-1, 9.3).
type state struct {
	ctm                                   matrix
	font                                  *font
	size, chars, words, scale, lead, rise float64
}

// typesetter follows the operators that place text.
type typesetter struct {
	d         *Document
	fonts     map[string]*font
	resources types.Dict
	state
	kept       []state
	text, line matrix
	glyphs     []glyph
	operands   []token
}

// glyphs are all letters of a page, in the order they are drawn. Blanks are left
// out: programs that draw pages anew drop them.
func (p *Page) glyphs() ([]glyph, error) {
	t := &typesetter{d: p.d, state: state{ctm: matrix{1, 0, 0, 1, -p.box[0], -p.box[1]}, scale: 1}}
	content, err := p.content()
	if err != nil {
		return nil, err
	}
	resources, _ := p.d.dict(p.resources)
	t.run(content, resources, mostForms)
	if len(t.glyphs) > mostGlyphs {
		return nil, ErrTooLarge
	}
	return t.glyphs, nil
}

func (t *typesetter) run(content []byte, resources types.Dict, depth int) {
	outer, fonts := t.resources, t.fonts
	t.resources, t.fonts = resources, map[string]*font{}
	s := &scanner{data: content}
	for {
		w, ok := s.next()
		if !ok || len(t.glyphs) > mostGlyphs {
			break
		}
		switch {
		case w.kind != 'o':
			t.operands = append(t.operands, w)
			continue
		case w.text == "ID": // a picture within the content: anything until EI
			s.skipPicture()
		case w.text == "Do" && depth > 0:
			t.form(depth - 1)
		default:
			t.operate(w.text)
		}
		t.operands = t.operands[:0]
	}
	t.resources, t.fonts = outer, fonts
}

func (s *scanner) skipPicture() {
	if i := strings.Index(string(s.data[s.at:]), "EI"); i >= 0 {
		s.at += i
	} else {
		s.at = len(s.data)
	}
}

// form follows a form that the content draws.
func (t *typesetter) form(depth int) {
	if len(t.operands) == 0 {
		return
	}
	forms, _ := t.d.dict(t.resources["XObject"])
	stream, _, err := t.d.ctx.DereferenceStreamDict(forms[t.operands[0].text])
	if err != nil || stream == nil || nameOf(stream.Dict["Subtype"]) != "Form" || stream.DecodeWithLimit(mostDecoded) != nil {
		return
	}
	kept := t.state
	if m := t.d.array(stream.Dict["Matrix"]); len(m) == 6 {
		var own matrix
		for i := range own {
			own[i] = t.d.number(m[i])
		}
		t.ctm = own.then(t.ctm)
	}
	resources, ok := t.d.dict(stream.Dict["Resources"])
	if !ok {
		resources = t.resources
	}
	t.operands = nil
	t.run(stream.Content, resources, depth)
	t.state = kept
}

// arg is the operand so many from the last.
func (t *typesetter) arg(back int) float64 {
	if i := len(t.operands) - 1 - back; i >= 0 {
		return t.operands[i].n
	}
	return 0
}

func (t *typesetter) matrixArg() (m matrix) {
	for i := range m {
		m[i] = t.arg(5 - i)
	}
	return m
}

func (t *typesetter) operate(op string) {
	switch op {
	case "q":
		if len(t.kept) < mostGlyphs {
			t.kept = append(t.kept, t.state)
		}
	case "Q":
		if n := len(t.kept); n > 0 {
			t.state, t.kept = t.kept[n-1], t.kept[:n-1]
		}
	case "cm":
		t.ctm = t.matrixArg().then(t.ctm)
	case "BT":
		t.text, t.line = matrix{1, 0, 0, 1, 0, 0}, matrix{1, 0, 0, 1, 0, 0}
	case "Tf":
		t.setFont()
	case "Tc":
		t.chars = t.arg(0)
	case "Tw":
		t.words = t.arg(0)
	case "Tz":
		t.scale = t.arg(0) / 100
	case "TL":
		t.lead = t.arg(0)
	case "Ts":
		t.rise = t.arg(0)
	case "Tm":
		t.line = t.matrixArg()
		t.text = t.line
	case "Td":
		t.newLine(t.arg(1), t.arg(0))
	case "TD":
		t.lead = -t.arg(0)
		t.newLine(t.arg(1), t.arg(0))
	case "T*":
		t.newLine(0, -t.lead)
	case "Tj", "TJ":
		t.showAll()
	case "'":
		t.newLine(0, -t.lead)
		t.showAll()
	case `"`:
		t.words, t.chars = t.arg(2), t.arg(1)
		t.newLine(0, -t.lead)
		t.operands = t.operands[max(0, len(t.operands)-1):]
		t.showAll()
	}
}

func (t *typesetter) newLine(x, y float64) {
	t.line = t.line.moved(x, y)
	t.text = t.line
}

func (t *typesetter) setFont() {
	if len(t.operands) < 2 {
		return
	}
	name := t.operands[0].text
	if t.fonts[name] == nil {
		all, _ := t.d.dict(t.resources["Font"])
		t.fonts[name] = t.d.font(all[name])
	}
	t.font, t.size = t.fonts[name], t.arg(0)
}

// showAll shows the strings among the operands, moving back by the numbers
// between them.
func (t *typesetter) showAll() {
	for _, w := range t.operands {
		switch w.kind {
		case '0':
			t.text = t.text.moved(-w.n/1000*t.size*t.scale, 0)
		case '(':
			t.show(w.text)
		}
	}
}

func (t *typesetter) show(s string) {
	if t.font == nil {
		return
	}
	for len(s) > 0 {
		code, rest := t.font.first(s)
		at := t.text.moved(0, t.rise).then(t.ctm)
		if text := t.font.text[code]; strings.ContainsFunc(text, func(r rune) bool { return !unicode.IsSpace(r) }) {
			t.glyphs = append(t.glyphs, glyph{text, at[4], at[5]})
		}
		step := t.font.width(code)*t.size + t.chars
		if len(s)-len(rest) == 1 && code == ' ' {
			step += t.words
		}
		t.text = t.text.moved(step*t.scale, 0)
		s = rest
	}
}

// astray is how far a letter may be from where it was, in points: 0.07 mm. A
// program that draws a page anew rounds it to a tenth of a point or finer.
const astray = 0.2

// sameText says whether two pages have the same letters at the same places.
func sameText(p, q *Page) (bool, error) {
	mine, err := p.glyphs()
	if err != nil {
		return false, err
	}
	yours, err := q.glyphs()
	if err != nil || len(mine) != len(yours) || !sameSize(p, q) {
		return false, err
	}
	type cell struct {
		text string
		x, y int
	}
	at := func(g glyph, x, y int) cell {
		return cell{g.text, int(math.Floor(g.x/astray)) + x, int(math.Floor(g.y/astray)) + y}
	}
	left := map[cell][]glyph{}
	for _, g := range yours {
		left[at(g, 0, 0)] = append(left[at(g, 0, 0)], g)
	}
	take := func(g glyph) bool {
		for i := range 9 {
			c := at(g, i%3-1, i/3-1)
			for k, other := range left[c] {
				if math.Hypot(g.x-other.x, g.y-other.y) <= astray {
					last := len(left[c]) - 1
					left[c][k] = left[c][last]
					left[c] = left[c][:last]
					return true
				}
			}
		}
		return false
	}
	for _, g := range mine {
		if !take(g) {
			return false, nil
		}
	}
	return true, nil
}

// sameSize says whether two pages are of one size, to a tenth of a point.
func sameSize(p, q *Page) bool {
	return math.Abs((p.box[2]-p.box[0])-(q.box[2]-q.box[0])) < 0.1 && math.Abs((p.box[3]-p.box[1])-(q.box[3]-q.box[1])) < 0.1
}
