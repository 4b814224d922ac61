package draw

import (
	"strings"

	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/render/bars"
	"setwright/render/sheet"
)

// Tags draws the position tags, to be cut out, in walking order; none unless
// the plan asks for them.
func (j *Job) Tags() []*Page {
	t := j.Unit.Plan.Tags
	if t == nil || len(j.key) == 0 {
		return nil
	}
	s := &section{job: j, name: "tags", title: j.Words.Tags, under: j.Words.TagsUnder}
	if j.someBare(t) {
		s.under = j.Words.TagsBare
	}
	paper, columns, rows := j.tagGrid(t)
	for left := j.key; len(left) > 0; {
		n := min(columns*rows, len(left))
		s.page(paper).tags(t, left[:n], columns)
		left = left[n:]
	}
	return s.pages
}

const (
	cutMark = 3 * mm // cutting lines run on past the tags
	tagPad  = 1 * mm
)

// tagGrid is the paper, whichever way up it holds more, and how many tags lie
// beside and under one another on it.
func (j *Job) tagGrid(t *plan.Tags) (best paper, columns, rows int) {
	for _, p := range []paper{j.paper(), j.paper().turned()} {
		r := inset(j.field(p), cutMark)
		across, down := int(wide(r)/t.Width), int(high(r)/t.Height)
		if across*down > columns*rows {
			best, columns, rows = p, across, down
		}
	}
	return best, columns, rows
}

// tags draws a sheet of tags with the lines to cut along: those that meet share
// a line, so that one cut parts them.
func (p *Page) tags(t *plan.Tags, lines []list.KeyLine, columns int) {
	rows := (len(lines) + columns - 1) / columns
	columns = min(columns, len(lines))
	x0, y0 := p.Field.Min.X+cutMark, p.Field.Min.Y+cutMark
	x1, y1 := x0+t.Width*measure.Length(columns), y0+t.Height*measure.Length(rows)
	for i := range columns + 1 {
		x := x0 + t.Width*measure.Length(i)
		p.line(x, y0-cutMark, x, y1+cutMark, pen(hair))
	}
	for i := range rows + 1 {
		y := y0 + t.Height*measure.Length(i)
		p.line(x0-cutMark, y, x1+cutMark, y, pen(hair))
	}
	for i, line := range lines {
		x, y := x0+t.Width*measure.Length(i%columns), y0+t.Height*measure.Length(i/columns)
		p.tag(inset(box(x, y, x+t.Width, y+t.Height), tagPad), line)
	}
}

// tag sets name, address, price and bars in r.
func (p *Page) tag(r sheet.Rect, line list.KeyLine) {
	j, product := p.job, line.Position.Product
	s, name := tagName(product, r)
	for _, l := range name {
		p.write(r.Min.X, r.Min.Y+s.rise(), l, s)
		r.Min.Y += s.pitch()
	}
	address, price := line.Position.Address, j.price(product)
	symbol := j.symbols[product.GTIN]
	switch at, way := barsOn(r, symbol, address); way {
	case barsBeside:
		r.Max.X = at.Min.X
		p.write(r.Min.X, r.Min.Y+letter(plain).rise(), address, letter(plain).strong())
		r.Min.Y += letter(plain).pitch()
		s, price = priceStyle(r, price)
		p.write(r.Min.X, r.Max.Y-s.drop(), price, s)
		p.barcode(at.Min.X, at.Min.Y, high(at), symbol)
	case barsUnder:
		p.addressAndPrice(r, address, price)
		p.barcode(at.Min.X, at.Min.Y, high(at), symbol)
	default:
		y := p.addressAndPrice(r, address, price)
		if digits := letter(fine); y+digits.rise()+digits.drop() <= r.Max.Y {
			p.write(r.Min.X, r.Max.Y-digits.drop(), product.GTIN, digits)
		}
	}
}

// tagName is the product's name as a tag has it, and its lettering: the whole
// name if it fits, the short one, or as much as fits.
func tagName(product *goods.Product, r sheet.Rect) (style, []string) {
	n, heights := 1, []measure.Length{plain, fine}
	if high(r) >= 18*mm {
		n = 2
	}
	if high(r) >= 28*mm {
		heights = []measure.Length{large, plain, fine}
	}
	for _, height := range heights {
		s := letter(height).strong()
		for _, name := range []string{product.Name, product.Short} {
			if lines := wholeWords(name, s, wide(r), n); lines != nil {
				return s, lines
			}
		}
	}
	s := letter(fine).strong()
	return s, wrapTo(product.Name, s, wide(r), n)
}

// barsPlace says where on a tag the bars stand.
type barsPlace int

const (
	noBars     barsPlace = iota // they find no room: a house rule keeps them leastBars high
	barsBeside                  // right of address and price
	barsUnder
)

// barsOn finds room for a symbol in what the name leaves of a tag: the
// rectangle of its quiet zones and bars, as high as there is room, its height
// truncated where that is less than the full one.
func barsOn(r sheet.Rect, s bars.Symbol, address string) (sheet.Rect, barsPlace) {
	if s.Modules == 0 {
		return sheet.Rect{}, noBars
	}
	width, bottom := barsWidth(s), r.Max.Y-digitsDrop()
	text := letter(plain).strong()
	if h := min(fullHeight(s), bottom-r.Min.Y); h >= leastBars && wide(r)-width >= text.width(address)+1*mm {
		return box(r.Max.X-width, bottom-h, r.Max.X, bottom), barsBeside
	}
	if h := min(fullHeight(s), bottom-r.Min.Y-text.pitch()); h >= leastBars && wide(r) >= width {
		x := (r.Min.X + r.Max.X - width) / 2
		return box(x, bottom-h, x+width, bottom), barsUnder
	}
	return sheet.Rect{}, noBars
}

// someBare reports whether a product has bars for which its tag has no room.
func (j *Job) someBare(t *plan.Tags) bool {
	for _, line := range j.key {
		r := inset(box(0, 0, t.Width, t.Height), tagPad)
		s, name := tagName(line.Position.Product, r)
		r.Min.Y += s.pitch() * measure.Length(len(name))
		if symbol, ok := j.symbols[line.Position.Product.GTIN]; ok {
			if _, way := barsOn(r, symbol, line.Position.Address); way == noBars {
				return true
			}
		}
	}
	return false
}

// addressAndPrice sets both on the first line of r and returns the y under it.
func (p *Page) addressAndPrice(r sheet.Rect, address, price string) measure.Length {
	s := letter(plain).strong()
	if s.width(address)+2*mm+s.width(price) > wide(r) {
		s = letter(fine).strong()
	}
	p.write(r.Min.X, r.Min.Y+s.rise(), address, s)
	for _, text := range wrapTo(price, s, wide(r)-s.width(address)-2*mm, 1) {
		p.write(r.Max.X, r.Min.Y+s.rise(), text, s.end())
	}
	return r.Min.Y + s.pitch()
}

// priceStyle is the largest lettering in which a price fits on one line of r.
func priceStyle(r sheet.Rect, price string) (style, string) {
	s := letter(fine).strong()
	for _, height := range []measure.Length{grand, large, plain, fine} {
		s = letter(height).strong()
		if s.width(price) <= wide(r) && s.rise()+s.drop() <= high(r) {
			return s, price
		}
	}
	return s, wrapTo(price, s, wide(r), 1)[0]
}

// price is a product's price with the plan's currency, "" if it has none.
func (j *Job) price(product *goods.Product) string {
	return j.Words.Money(product.Price, j.Unit.Plan.Currency)
}

// wholeWords is text in at most n lines, or nil if it takes more, a word is
// wider than a line, or there is none.
func wholeWords(text string, s style, width measure.Length, n int) []string {
	if text == "" || n < 1 {
		return nil
	}
	for _, word := range strings.Split(text, " ") {
		if s.width(word) > width {
			return nil
		}
	}
	if lines := wrap(text, s, width); len(lines) <= n {
		return lines
	}
	return nil
}
