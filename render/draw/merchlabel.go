package draw

import (
	"sort"
	"strings"

	"setwright/layout/measure"
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

const labelPad = 500 * micron

// labelInside sets the address in the block: level, or turned if the block
// is tall and narrow.
func (e *elevation) labelInside(b block) bool {
	r := e.visible(b)
	for _, turned := range []bool{false, true} {
		for _, height := range []measure.Length{plain, fine} {
			s := letter(height).strong().middle()
			along, across := wide(r), high(r)
			if turned {
				along, across = across, along
			}
			if s.width(b.position.Address)+2*labelPad > along || s.rise()+s.drop()+labelPad > across {
				continue
			}
			if turned {
				s = s.turned()
			}
			e.setLabel(r, b, s)
			return true
		}
	}
	return false
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

// setLabel writes address and, if it fits, the name under it, on white.
func (e *elevation) setLabel(r sheet.Rect, b block, s style) {
	lines := []string{b.position.Address}
	name := letter(fine).middle()
	name.up = s.up
	along, across := wide(r), high(r)
	if s.up {
		along, across = across, along
	}
	addressHeight := s.rise() + s.drop()
	room := int((across - addressHeight - labelPad) / name.pitch())
	if room > 0 {
		lines = append(lines, nameLines(b.position.Product.Name, name, along-2*labelPad, room)...)
	}
	total := addressHeight + name.pitch()*measure.Length(len(lines)-1)
	start := -total/2 + s.rise()
	if e.job.photo(b.position.Product) != nil {
		start = across/2 - total - labelPad + s.rise()
	}
	cx, cy := (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2
	for i, line := range lines {
		st, at := s, start
		if i > 0 {
			st, at = name, start+s.drop()+name.pitch()*measure.Length(i)-name.drop()
		}
		x, y := cx, cy+at
		if s.up {
			x, y = cx+at, cy
		}
		ground := inset(st.extent(x, y, line), -200*micron)
		e.fillBox(ground, white())
		e.keepWord(ground)
		e.write(x, y, line, st)
	}
}

// nameLines is the name in at most n lines; nothing if it would be cut before
// it says anything, or a word would be broken.
func nameLines(name string, s style, width measure.Length, n int) []string {
	for _, word := range strings.Split(name, " ") {
		if s.width(word) > width {
			return nil
		}
	}
	if lines := wrap(name, s, width); len(lines) <= n {
		return lines
	}
	if n < 2 {
		return nil
	}
	return wrapTo(name, s, width, n)
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
