package draw

import (
	"fmt"
	"strings"

	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// chain is the running dimensions along the face of the rows at one height.
type chain struct {
	xs          []measure.Length // places along the face
	left        measure.Length   // of the rows' span
	top, bottom measure.Length   // on paper, of the hardware measured to
	labels      []slotted
	level       []int
}

const (
	chainLevels = 3
	chainPitch  = 3600 * micron // from one level of figures to the next
	chainDrop   = 1 * mm        // from the line to the figures under it
	figurePad   = 200 * micron
)

// chains draws, for every height, the sideways places of all that hangs
// there, where that leaves the drawing clean. A row without them says which
// row has the same, or that they are in the table of the face, which has all.
func (e *elevation) chains(rows []*unit.Row) {
	var without []*unit.Row
	same := map[string]string{} // places drawn, to the address of the first row that has them
	drawn := func(rows []*unit.Row) {
		for _, r := range rows {
			if key := e.placesKey(r); same[key] == "" {
				same[key] = r.Address
			}
		}
	}
	for at := 0; at < len(rows); {
		next := at + 1
		for next < len(rows) && rows[next].Slot == rows[at].Slot {
			next++
		}
		group := rows[at:next]
		at = next
		if e.chain(group) {
			drawn(group)
			continue
		}
		for i, r := range group {
			if len(group) > 1 && e.chain(group[i:i+1]) {
				drawn(group[i : i+1])
			} else {
				without = append(without, r)
			}
		}
	}
	for _, r := range without {
		e.refer(r, same[e.placesKey(r)])
	}
}

// placesKey is the same for rows measured at the same places in the zone.
func (e *elevation) placesKey(r *unit.Row) string {
	var b strings.Builder
	for _, x := range places(r) {
		if e.zone.holds(x) {
			b.WriteString(x.MM() + " ")
		}
	}
	return b.String()
}

// refer writes by a row without a chain where its places are found, if there
// is room for that at least.
func (e *elevation) refer(r *unit.Row, as string) {
	text := e.job.Words.SeeTable
	if as != "" {
		text = fmt.Sprintf(e.job.Words.PlacesAs, as)
	}
	s := letter(plain)
	w, h := s.width(text)+600*micron, s.rise()+s.drop()
	for _, at := range e.addressPlaces(r, w, h) {
		try := sheet.Rect{Min: at, Max: pt(at.X+w, at.Y+h)}
		if try.Min.X >= e.x(e.zone.x0) && try.Max.X <= e.x(e.zone.x1) && e.clear(try) {
			e.fillBox(try, white())
			e.write(at.X+300*micron, try.Max.Y-s.drop(), text, s)
			e.keepWord(try)
			return
		}
	}
}

// chain draws the running dimensions of rows at one height, at the first
// level under or over them where nothing is in the way.
func (e *elevation) chain(rows []*unit.Row) bool {
	c := e.chainOf(rows)
	if len(c.xs) == 0 {
		return true
	}
	level, ok := stagger(c.labels, chainLevels, 800*micron)
	if !ok {
		return false
	}
	c.level = level
	for drop := 1200 * micron; drop <= 8*mm; drop += 800 * micron {
		if e.tryChain(c, c.bottom+drop) {
			return true
		}
	}
	height := c.height()
	for lift := height + 800*micron; lift <= height+12*mm; lift += 800 * micron {
		if e.tryChain(c, c.top-lift) {
			return true
		}
	}
	return false
}

func (c *chain) height() measure.Length {
	deepest := 0
	for _, l := range c.level {
		deepest = max(deepest, l)
	}
	return chainDrop + chainPitch*measure.Length(deepest+1)
}

func (e *elevation) chainOf(rows []*unit.Row) *chain {
	c := &chain{top: e.y(0), bottom: 0, left: max(rows[0].X0, e.zone.x0)}
	for _, r := range rows {
		c.left = max(min(c.left, r.X0), e.zone.x0)
		for _, p := range r.All() {
			if e.zone.shows(p.Box) {
				b := e.paper(p.Box)
				c.top, c.bottom = min(c.top, b.Min.Y), max(c.bottom, b.Max.Y)
			}
		}
		for _, x := range places(r) {
			if e.zone.holds(x) {
				c.xs = append(c.xs, x)
			}
		}
	}
	c.xs = sorted(c.xs)
	s := letter(plain)
	for _, x := range c.xs {
		c.labels = append(c.labels, slotted{e.x(x), s.width(e.job.figure(x))})
	}
	return c
}

// tryChain draws the chain with its line at y if the place is free.
func (e *elevation) tryChain(c *chain, y measure.Length) bool {
	s := letter(plain)
	figures := make([]sheet.Rect, len(c.xs))
	for i, l := range c.labels {
		base := y + chainDrop + s.height + chainPitch*measure.Length(c.level[i]) + 300*micron
		figures[i] = inset(s.middle().extent(l.want, base, e.job.figure(c.xs[i])), -figurePad)
		if !e.clear(figures[i]) || figures[i].Max.Y > e.y(0) {
			return false
		}
	}
	from, to := e.x(c.left), e.x(c.xs[len(c.xs)-1])
	if y < e.Field.Min.Y-1500*micron || !e.clear(box(from, y-1200*micron, to, y+1*mm)) {
		return false
	}
	for _, l := range c.labels {
		if e.crossed(pt(l.want, min(c.bottom, y)), pt(l.want, max(c.top, y))) > 0 {
			return false
		}
	}
	e.drawChain(c, y, from, to, figures)
	return true
}

func (e *elevation) drawChain(c *chain, y, from, to measure.Length, figures []sheet.Rect) {
	s := letter(plain).middle()
	e.line(from, y, to, y, pen(hair))
	e.keepLine(pt(from, y), pt(to, y))
	if from == e.x(0) {
		e.origin(from, y)
	} else {
		e.arrow(from, y)
	}
	for i, l := range c.labels {
		e.chainTick(l.want, y)
		to := y
		if c.level[i] > 0 {
			to = figures[i].Min.Y
		}
		if y < c.top {
			to = c.top
		}
		e.line(l.want, min(c.bottom, y), l.want, to, pencil(hair, 120))
		e.keepFine(pt(l.want, min(c.bottom, y)), pt(l.want, to))
	}
	for i, l := range c.labels {
		e.fillBox(figures[i], white())
		e.write(l.want, figures[i].Max.Y-s.drop()-figurePad, e.job.figure(c.xs[i]), s)
		e.keepWord(figures[i])
	}
}

// chainTick is a smaller slash, since chains stand close under the hardware.
func (e *elevation) chainTick(x, y measure.Length) {
	const half = 800 * micron
	e.line(x-half, y+half, x+half, y-half, pen(medium))
}

// arrow says that running dimensions start beyond the left edge of the drawing.
func (e *elevation) arrow(x, y measure.Length) {
	ink := black()
	e.polygon([]sheet.Point{pt(x, y), pt(x+2*mm, y-500*micron), pt(x+2*mm, y+500*micron)}, nil, &ink)
}
