package draw

import (
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// clutter remembers what is on a drawing, so that lettering put on later
// keeps clear of it.
type clutter struct {
	boxes []sheet.Rect // things lettering may not lie on
	words []sheet.Rect // lettering: nothing may cross it
	lines []segment    // leaders and dimension lines
	fine  []segment    // extension lines: only flags keep off them
}

type segment struct{ a, b sheet.Point }

func (c *clutter) keepBox(r sheet.Rect)      { c.boxes = append(c.boxes, r) }
func (c *clutter) keepWord(r sheet.Rect)     { c.words = append(c.words, r) }
func (c *clutter) keepLine(a, b sheet.Point) { c.lines = append(c.lines, segment{a, b}) }

func (c *clutter) keepFine(a, b sheet.Point) { c.fine = append(c.fine, segment{a, b}) }

// clear reports whether lettering may be set in r.
func (c *clutter) clear(r sheet.Rect) bool {
	for _, o := range c.boxes {
		if meet(r, o) {
			return false
		}
	}
	return c.clearOfWords(r) && c.clearOfLines(r)
}

func (c *clutter) clearOfWords(r sheet.Rect) bool {
	for _, o := range c.words {
		if meet(r, o) {
			return false
		}
	}
	return true
}

func (c *clutter) clearOfLines(r sheet.Rect) bool {
	for _, l := range c.lines {
		if l.cuts(r) {
			return false
		}
	}
	return true
}

func (c *clutter) clearOfFine(r sheet.Rect) bool {
	for _, l := range c.fine {
		if l.cuts(r) {
			return false
		}
	}
	return true
}

// crossed counts the lettering a line from a to b would run over.
func (c *clutter) crossed(a, b sheet.Point) int {
	n, l := 0, segment{a, b}
	for _, r := range c.words {
		if l.cuts(r) {
			n++
		}
	}
	return n
}

// crossings counts the lines a line from a to b would cross.
func (c *clutter) crossings(a, b sheet.Point) int {
	n := 0
	for _, l := range c.lines {
		if crosses(l, segment{a, b}) {
			n++
		}
	}
	return n
}

// cuts reports whether a segment passes through the inside of a rectangle. Coordinates
// on paper are under a metre; microns keep the products far inside an int64.
func (l segment) cuts(r sheet.Rect) bool {
	if max(l.a.X, l.b.X) <= r.Min.X || min(l.a.X, l.b.X) >= r.Max.X || max(l.a.Y, l.b.Y) <= r.Min.Y || min(l.a.Y, l.b.Y) >= r.Max.Y {
		return false
	}
	var left, right bool
	for _, c := range [4]sheet.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}} {
		switch s := side(l, c); {
		case s > 0:
			left = true
		case s < 0:
			right = true
		}
	}
	return left && right
}

// side is positive if q lies on the one side of the line through l, negative on the other.
func side(l segment, q sheet.Point) int64 {
	ax, ay := micro(l.b.X-l.a.X), micro(l.b.Y-l.a.Y)
	bx, by := micro(q.X-l.a.X), micro(q.Y-l.a.Y)
	return ax*by - ay*bx
}

func micro(l measure.Length) int64 { return int64(l / micron) }

func crosses(s, t segment) bool {
	a, b := side(s, t.a), side(s, t.b)
	c, d := side(t, s.a), side(t, s.b)
	return (a > 0) != (b > 0) && (c > 0) != (d > 0)
}
