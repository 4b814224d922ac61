package draw

import (
	"sort"
	"strings"
	"unicode"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// addresses puts every position's address on the drawing: in its block where
// it fits, with the product's name if there is room; else beside the block
// with a leader; else in the margins.
func (e *elevation) addresses(blocks []block, margin measure.Length) {
	var out []block
	for _, b := range blocks {
		if !e.labelInside(b) {
			out = append(out, b)
		}
	}
	var far []block
	for _, b := range out {
		if !e.labelNear(b) {
			far = append(far, b)
		}
	}
	e.labelMargins(far, margin)
}

const (
	labelPad  = 500 * micron
	inlineGap = 1 * mm
)

// lettering is one way to put a position's address and name on its block.
type lettering struct {
	address style
	name    []string // its lines, under the address
	inline  bool     // one line, behind the address
	told    told
}

// told is how much of a name is on a block.
type told int

const (
	nothing told = iota
	firstWords
	wholeName
)

// labelInside sets the address in the block, and as much of the name as there
// is room for: level if some of it fits so, else turned if that does better.
func (e *elevation) labelInside(b block) bool {
	r := e.visible(b)
	level, fitsLevel := letterings(b.position, wide(r), high(r))
	turned, fitsTurned := letterings(b.position, high(r), wide(r))
	switch {
	case fitsLevel && (level.told > nothing || !fitsTurned || turned.told == nothing):
		e.setLabel(r, b, level)
	case fitsTurned:
		turned.address = turned.address.turned()
		e.setLabel(r, b, turned)
	}
	return fitsLevel || fitsTurned
}

// letterings returns the way that tells most in a block so long along its lines
// and so high across them, of equals the largest.
func letterings(p *unit.Position, along, across measure.Length) (best lettering, fits bool) {
	name := letter(fine)
	for _, height := range []measure.Length{plain, fine} {
		s := letter(height).strong().middle()
		if s.width(p.Address)+2*labelPad > along || s.rise()+s.drop()+labelPad > across {
			continue
		}
		l := lettering{address: s}
		l.name, l.told = nameLines(p.Product, name, along-2*labelPad, int((across-labelPad-s.rise()-name.drop())/name.pitch()))
		if l.told == nothing {
			l.name, l.told = nameLines(p.Product, name, along-2*labelPad-s.width(p.Address)-inlineGap, 1)
			l.inline = l.told > nothing
		}
		if !fits || l.told > best.told {
			best, fits = l, true
		}
	}
	return best, fits
}

// visible is the part of a block no other lettering has taken.
func (e *elevation) visible(b block) sheet.Rect {
	r := b.round
	for _, w := range e.words {
		if !meet(r, w) {
			continue
		}
		over, under := r, r
		over.Max.Y, under.Min.Y = w.Min.Y, w.Max.Y
		if r = over; high(under) > high(over) {
			r = under
		}
	}
	return r
}

// setLabel writes address and name, each line on white.
func (e *elevation) setLabel(r sheet.Rect, b block, l lettering) {
	s, name := l.address, letter(fine).middle()
	name.up = s.up
	across := high(r)
	if s.up {
		across = wide(r)
	}
	total, behind := s.rise()+s.drop(), measure.Length(0)
	if l.inline {
		behind = inlineGap + name.width(l.name[0])
	} else if n := len(l.name); n > 0 {
		total = s.rise() + name.pitch()*measure.Length(n) + name.drop()
	}
	at := -total/2 + s.rise()
	if e.job.photo(b.position.Product) != nil {
		at = across/2 - total - labelPad + s.rise()
	}
	e.labelLine(r, b.position.Address, -behind/2, at, s)
	for _, line := range l.name {
		if l.inline {
			e.labelLine(r, line, (s.width(b.position.Address)+inlineGap)/2, at, name)
			break
		}
		at += name.pitch()
		e.labelLine(r, line, 0, at, name)
	}
}

// labelLine writes one line, centred so far along its direction from the middle
// of r, with its baseline so far across from there.
func (e *elevation) labelLine(r sheet.Rect, text string, along, across measure.Length, s style) {
	x, y := (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2
	if s.up {
		x, y = x+across, y-along
	} else {
		x, y = x+along, y+across
	}
	ground := inset(s.extent(x, y, text), -200*micron)
	e.fillBox(ground, white())
	e.keepWord(ground)
	e.write(x, y, text, s)
}

// nameLines is what at most n lines take of a product's name: the short one, the
// whole of it, or the first words that do.
func nameLines(p *goods.Product, s style, width measure.Length, n int) ([]string, told) {
	if lines := wholeWords(p.Short, s, width, n); lines != nil {
		return lines, wholeName
	}
	if lines := wholeWords(p.Name, s, width, n); lines != nil {
		return lines, wholeName
	}
	words := strings.Split(p.Name, " ")
	for k := len(words) - 1; k > 0; k-- {
		if !strings.ContainsFunc(words[k-1], unicode.IsLetter) {
			continue // a number without its unit says nothing
		}
		if lines := wholeWords(strings.TrimRight(strings.Join(words[:k], " "), ",;:"), s, width, n); lines != nil {
			return lines, firstWords
		}
	}
	return nil, nothing
}

// labelNear sets the address just over or under the block where the drawing
// is free, with a leader where it does not touch.
func (e *elevation) labelNear(b block) bool {
	s := letter(fine).strong()
	w, h := s.width(b.position.Address)+2*labelPad, s.rise()+s.drop()
	mid := (b.round.Min.X + b.round.Max.X) / 2
	limits := box(e.x(e.zone.x0)-6*mm, e.Field.Min.Y-3*mm, e.x(e.zone.x1)+6*mm, e.y(0)-500*micron)
	for step := range 5 {
		for _, shift := range []measure.Length{0, -w / 2, w / 2, -w, w} {
			lift := 700*micron + h*measure.Length(step)
			for _, y := range []measure.Length{b.round.Min.Y - lift - h, b.round.Max.Y + lift} {
				r := box(mid-w/2+shift, y, mid+w/2+shift, y+h)
				if within(r, limits) && e.clear(r) && e.leadTo(b, r) {
					e.write((r.Min.X+r.Max.X)/2, r.Max.Y-s.drop(), b.position.Address, s.middle())
					return true
				}
			}
		}
	}
	return false
}

// leadTo draws a leader from a label over or under a block to its nearest
// edge, unless it would run over lettering.
func (e *elevation) leadTo(b block, label sheet.Rect) bool {
	mid := (b.round.Min.X + b.round.Max.X) / 2
	from := pt(max(label.Min.X+labelPad, min(mid, label.Max.X-labelPad)), label.Max.Y)
	to := pt(mid, b.round.Min.Y+300*micron)
	if label.Min.Y > b.round.Min.Y {
		from.Y, to.Y = label.Min.Y, b.round.Max.Y-300*micron
	}
	if e.crossed(from, to) > 0 || e.hits(from, to) > 1 {
		return false
	}
	e.fillBox(label, white())
	e.keepWord(label)
	e.line(from.X, from.Y, to.X, to.Y, pen(hair))
	e.keepLine(from, to)
	return true
}

// labelMargins lists what is left beside the elevation, each with a leader to
// its block: on the nearer side, spread out from the top down.
func (e *elevation) labelMargins(blocks []block, margin measure.Length) {
	middle := (e.x(e.zone.x0) + e.x(e.zone.x1)) / 2
	var sides [2][]block
	for _, b := range blocks {
		k := 0
		if (b.round.Min.X+b.round.Max.X)/2 > middle {
			k = 1
		}
		sides[k] = append(sides[k], b)
	}
	s := letter(fine).strong()
	for k, list := range sides {
		sort.SliceStable(list, func(i, m int) bool { return list[i].round.Min.Y < list[m].round.Min.Y })
		labels := make([]slotted, len(list))
		for i, b := range list {
			labels[i] = slotted{(b.round.Min.Y + b.round.Max.Y) / 2, s.pitch()}
		}
		x, st, edge := e.x(e.zone.x0)-7*mm, s.end(), func(b block) measure.Length { return b.round.Min.X + 300*micron }
		if k == 1 {
			x, st, edge = e.x(e.zone.x1)+7*mm, s, func(b block) measure.Length { return b.round.Max.X - 300*micron }
		}
		for i, y := range spread(labels, e.Field.Min.Y, e.y(0)-2*mm) {
			e.keepWord(e.writeMid(x, y, list[i].position.Address, st))
			gap := 600 * micron
			if k == 0 {
				gap = -gap
			}
			e.line(x-gap, y, edge(list[i]), labels[i].want, pen(hair))
			e.keepFine(pt(x-gap, y), pt(edge(list[i]), labels[i].want))
		}
	}
}
