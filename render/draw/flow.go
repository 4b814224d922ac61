package draw

import (
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// flow sets text and tables from the top of an area down, and goes on to a
// further sheet of its section when the area is full.
type flow struct {
	section *section
	page    *Page
	area    sheet.Rect
	y       measure.Length
}

// flowOn starts a flow in an area of a page.
func (s *section) flowOn(p *Page, area sheet.Rect) *flow {
	return &flow{section: s, page: p, area: area, y: area.Min.Y}
}

// flowFresh starts a flow on a new upright sheet.
func (s *section) flowFresh() *flow {
	p := s.upright()
	return s.flowOn(p, p.Field)
}

func (f *flow) left() measure.Length { return f.area.Max.Y - f.y }

// turn goes on to the next sheet, the same way up.
func (f *flow) turn() {
	f.page = f.section.page(f.page.paper)
	f.area = f.page.Field
	f.y = f.area.Min.Y
}

// room makes sure that so much height is left, on this sheet or the next.
func (f *flow) room(h measure.Length) {
	if f.left() < h && f.y > f.area.Min.Y {
		f.turn()
	}
}

func (f *flow) skip(h measure.Length) { f.y += h }

// heading sets a heading that stays with at least keep of what follows.
func (f *flow) heading(text string, keep measure.Length) {
	f.headed(text, letter(large).strong(), keep)
}

// headed is heading in lettering of one's choice.
func (f *flow) headed(text string, s style, keep measure.Length) {
	f.room(s.pitch() + 2*mm + keep)
	for _, line := range wrap(text, s, wide(f.area)) {
		f.page.write(f.area.Min.X, f.y+s.rise(), line, s)
		f.y += s.pitch()
	}
	f.y += 1 * mm
}

// headedBeside is headed with a remark at the right end of its line, over it
// where both do not fit.
func (f *flow) headedBeside(text, remark string, s style, keep measure.Length) {
	beside := s.width(text)+letter(plain).width(remark)+6*mm <= wide(f.area)
	if !beside {
		f.room(letter(plain).pitch()*2 + s.pitch() + 2*mm + keep)
		f.text(remark, letter(plain), 0)
		f.skip(1 * mm)
	}
	f.headed(text, s, keep)
	if beside {
		f.page.write(f.area.Max.X, f.y-1*mm-s.pitch()+s.rise(), remark, letter(plain).end())
	}
}

// text sets a paragraph, line by line over as many sheets as it takes.
func (f *flow) text(text string, s style, indent measure.Length) {
	for _, line := range wrap(text, s, wide(f.area)-indent) {
		f.room(s.pitch())
		f.page.write(f.area.Min.X+indent, f.y+s.rise(), line, s)
		f.y += s.pitch()
	}
}

// framed sets a paragraph in a frame, whole on one sheet.
func (f *flow) framed(text string) {
	h := framedHeight(text, wide(f.area))
	f.room(h)
	f.page.outlineBox(box(f.area.Min.X, f.y+framePad/2, f.area.Max.X, f.y+h-framePad/2), pen(medium))
	s := letter(plain).strong()
	y := f.y + 2*framePad
	for _, line := range wrap(text, s, wide(f.area)-4*framePad) {
		f.page.write(f.area.Min.X+2*framePad, y+s.rise(), line, s)
		y += s.pitch()
	}
	f.y += h
}

// framedHeight is what a framed paragraph takes.
func framedHeight(text string, width measure.Length) measure.Length {
	s := letter(plain).strong()
	return s.pitch()*measure.Length(len(wrap(text, s, width-4*framePad))) + 4*framePad
}

const framePad = 700 * micron

// item sets a paragraph with a mark before it: a number, a tick box.
func (f *flow) item(mark, text string, s style, indent measure.Length) {
	f.room(s.pitch() * measure.Length(min(2, len(wrap(text, s, wide(f.area)-indent)))))
	if mark == tickMark {
		f.page.tickBox(f.area.Min.X, f.y+s.rise()-s.height/2, s.height)
	} else {
		f.page.write(f.area.Min.X, f.y+s.rise(), mark, s.strong())
	}
	f.text(text, s, indent)
	f.y += itemGap
}

// itemsHeight is the height items take on one sheet, in lettering of plain
// height and so much width beside their marks.
func itemsHeight(items []string, width measure.Length) measure.Length {
	return itemsHeightIn(letter(plain), items, width)
}

func itemsHeightIn(s style, items []string, width measure.Length) measure.Length {
	h := measure.Length(0)
	for _, text := range items {
		h += s.pitch()*measure.Length(len(wrap(text, s, width))) + itemGap
	}
	return h
}

const itemGap = 1 * mm // between items

// tickMark as an item's mark or a table's cell is a box to tick.
const tickMark = "\x00tick"

// tickBox draws a square to tick whose left edge is at x, centred on y.
func (p *Page) tickBox(x, y, height measure.Length) {
	side := max(height*5/4, 2500*micron)
	p.outlineBox(box(x, y-side/2, x+side, y+side/2), pen(thin))
}
