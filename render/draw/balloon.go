package draw

import (
	"strconv"

	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// callout is what the column beside the elevation says of one row: its
// balloons, and its address where the drawing has no room for it.
type callout struct {
	row     *unit.Row
	numbers []int
	address string // "" if it stands on the drawing
}

const (
	balloonRadius = 2800 * micron
	balloonPitch  = 6200 * micron // from one callout to the next
	leaderSpace   = 6 * mm
)

// callouts lists one a row, with a balloon for each kind of part in it.
func (e *elevation) callouts(rows []*unit.Row, aside map[*unit.Row]bool) []callout {
	var list []callout
	for _, r := range rows {
		c := callout{row: r}
		seen := map[int]bool{}
		for _, p := range r.All() {
			n := e.job.balloon(p.Part, p.Cut)
			if !seen[n] && e.zone.shows(p.Box) {
				seen[n] = true
				c.numbers = append(c.numbers, n)
			}
		}
		if aside[r] {
			c.address = r.Address
		}
		list = append(list, c)
	}
	return list
}

// thin drops balloons that an earlier row has shown already, if there are
// more callouts than the height takes. Every kind of part keeps one.
func thinned(list []callout, room measure.Length) []callout {
	if measure.Length(len(list))*balloonPitch <= room {
		return list
	}
	var kept []callout
	seen := map[int]bool{}
	for _, c := range list {
		var fresh []int
		for _, n := range c.numbers {
			if !seen[n] {
				seen[n] = true
				fresh = append(fresh, n)
			}
		}
		if c.numbers = fresh; len(fresh) > 0 || c.address != "" {
			kept = append(kept, c)
		}
	}
	return kept
}

func balloonWidth(n int) measure.Length {
	return max(2*balloonRadius, letter(plain).width(strconv.Itoa(n))+1400*micron)
}

func (c callout) width() measure.Length {
	w := measure.Length(0)
	if c.address != "" {
		w = letter(plain).strong().width(c.address) + 1*mm
	}
	for _, n := range c.numbers {
		w += balloonWidth(n)
	}
	return w
}

// calloutColumn is how wide the column of callouts is, leaders included.
func calloutColumn(list []callout) measure.Length {
	w := measure.Length(0)
	for _, c := range list {
		w = max(w, c.width())
	}
	if w == 0 {
		return 0
	}
	return leaderSpace + w
}

// drawCallouts draws the column with its left edge at x. A leader runs to the
// place on its row where it crosses least.
func (e *elevation) drawCallouts(list []callout, x measure.Length) {
	labels := make([]slotted, len(list))
	for i, c := range list {
		labels[i] = slotted{e.y(c.row.Height), balloonPitch}
	}
	middles := spread(labels, e.Field.Min.Y-3*mm, max(e.y(0), e.Field.Min.Y+measure.Length(len(list))*balloonPitch))
	for i, c := range list {
		from := pt(x+leaderSpace, middles[i])
		e.leader(e.target(c.row, from), from)
		at := from.X
		if c.address != "" {
			e.keepWord(e.writeMid(at+500*micron, middles[i], c.address, letter(plain).strong()))
			at += letter(plain).strong().width(c.address) + 1*mm
		}
		for _, n := range c.numbers {
			w := balloonWidth(n)
			e.balloon(at+w/2, middles[i], n)
			at += w
		}
	}
}

// balloon draws one balloon centred at x, y; it leads to the pick list.
func (p *Page) balloon(x, y measure.Length, n int) {
	st, fill := pen(medium), white()
	r := balloonWidth(n) / 2
	p.circle(x, y, r, &st, &fill)
	p.writeMid(x, y, strconv.Itoa(n), letter(plain).middle())
	p.link(box(x-r, y-r, x+r, y+r), "pick-list")
}

// leader is a thin line that ends in a dot on what it points at (ISO 128-2).
func (e *elevation) leader(to, from sheet.Point) {
	ink := black()
	e.line(from.X, from.Y, to.X, to.Y, pen(hair))
	e.circle(to.X, to.Y, 450*micron, nil, &ink)
	e.keepLine(from, to)
}

// target finds where on the row a leader from a callout should end: on its
// last pieces, where it runs over no lettering and crosses least.
func (e *elevation) target(r *unit.Row, from sheet.Point) sheet.Point {
	best, least := from, -1
	tried := 0
	for i := len(r.Pieces) - 1; i >= 0 && tried < 5; i-- {
		if !e.zone.shows(r.Pieces[i].Box) {
			continue
		}
		tried++
		b := e.paper(r.Pieces[i].Box)
		for _, to := range targets(b) {
			cost := 1000*e.crossed(from, to) + 40*e.crossings(from, to) + 20*e.hits(from, to) + int((from.X-to.X)/mm)
			if least < 0 || cost < least {
				best, least = to, cost
			}
		}
	}
	return best
}

// targets lists the points of a piece a leader may end on: near its right
// end, and farther in on a wide one.
func targets(b sheet.Rect) []sheet.Point {
	var list []sheet.Point
	xs := []measure.Length{b.Max.X - min(600*micron, wide(b)/3)}
	for x := xs[0] - 6*mm; x > b.Min.X+2*mm && len(xs) < 6; x -= 6 * mm {
		xs = append(xs, x)
	}
	for _, x := range xs {
		list = append(list, pt(x, (b.Min.Y+b.Max.Y)/2), pt(x, b.Min.Y+high(b)/4), pt(x, b.Max.Y-high(b)/4))
	}
	return list
}

// hits counts the pieces of hardware a line would run over.
func (e *elevation) hits(a, b sheet.Point) int {
	n, l := 0, segment{a, b}
	for _, r := range e.boxes {
		if l.cuts(r) {
			n++
		}
	}
	return n
}
