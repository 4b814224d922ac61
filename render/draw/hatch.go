package draw

import (
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// pattern is how a family of goods is told from the others without colour.
type pattern struct {
	slopes  []slope
	spacing measure.Length // across from one line to the next, along x or y
	dashed  bool
}

// slope is a direction of hatching: dy for every dx.
type slope struct{ dx, dy measure.Length }

// patternOf returns the hatch of family i: twelve that differ in direction,
// then the same again wider apart.
func patternOf(i int) pattern {
	rising, falling := slope{1, -1}, slope{1, 1}
	level, upright := slope{1, 0}, slope{0, 1}
	steep, steepDown := slope{1, -2}, slope{1, 2}
	list := []pattern{
		{[]slope{rising}, 2200 * micron, false},
		{[]slope{falling}, 2200 * micron, false},
		{[]slope{level}, 1600 * micron, false},
		{[]slope{upright}, 1600 * micron, false},
		{[]slope{rising, falling}, 3200 * micron, false},
		{[]slope{level, upright}, 2600 * micron, false},
		{[]slope{rising}, 1800 * micron, true},
		{[]slope{falling}, 1800 * micron, true},
		{[]slope{level}, 1300 * micron, true},
		{[]slope{upright}, 1300 * micron, true},
		{[]slope{steep}, 2600 * micron, false},
		{[]slope{steepDown}, 2600 * micron, false},
	}
	p := list[i%len(list)]
	p.spacing += p.spacing * measure.Length(i/len(list)) * 3 / 5
	return p
}

// tintOf is the light fill of family i; it tells nothing the hatch does not.
// Families that share a direction of hatching get another tint.
func tintOf(i int) sheet.Color {
	list := []sheet.Color{
		{R: 226, G: 239, B: 218}, {R: 252, G: 228, B: 214}, {R: 221, G: 235, B: 247}, {R: 255, G: 242, B: 204},
		{R: 234, G: 225, B: 240}, {R: 216, G: 238, B: 236}, {R: 248, G: 220, B: 227}, {R: 237, G: 231, B: 218},
		{R: 228, G: 228, B: 246}, {R: 240, G: 244, B: 206}, {R: 250, G: 232, B: 246}, {R: 230, G: 230, B: 230},
	}
	return list[(i+i/len(list)*5)%len(list)]
}

// hatch fills a rectangle with a pattern, each line cut off at the edges.
// Lines lie on one raster over the whole sheet, so that neighbouring fronts
// are hatched as one.
func (p *Page) hatch(r sheet.Rect, pat pattern) {
	st := pencil(hair, 165)
	if pat.dashed {
		st.Dash = []measure.Length{1200 * micron, 700 * micron}
	}
	for _, s := range pat.slopes {
		p.rule(r, s, pat.spacing, st)
	}
}

// rule draws the lines of one direction.
func (p *Page) rule(r sheet.Rect, s slope, spacing measure.Length, st sheet.Stroke) {
	if s.dx == 0 {
		for x := ceil(r.Min.X, spacing); x < r.Max.X; x += spacing {
			p.line(x, r.Min.Y, x, r.Max.Y, st)
		}
		return
	}
	// A line is y = c + x*dy/dx; c runs over the raster between the corners'.
	lo := min(r.Min.Y-r.Min.X*s.dy/s.dx, r.Min.Y-r.Max.X*s.dy/s.dx)
	hi := max(r.Max.Y-r.Min.X*s.dy/s.dx, r.Max.Y-r.Max.X*s.dy/s.dx)
	for c := ceil(lo, spacing); c < hi; c += spacing {
		if a, b, ok := clip(r, s, c); ok {
			p.line(a.X, a.Y, b.X, b.Y, st)
		}
	}
}

// ceil is the least multiple of step that is not less than l.
func ceil(l, step measure.Length) measure.Length {
	n := l / step
	if n*step < l {
		n++
	}
	return n * step
}

// clip cuts the line y = c + x*dy/dx off at the edges of a rectangle.
func clip(r sheet.Rect, s slope, c measure.Length) (a, b sheet.Point, ok bool) {
	x0, x1 := r.Min.X, r.Max.X
	if s.dy != 0 {
		u, v := (r.Min.Y-c)*s.dx/s.dy, (r.Max.Y-c)*s.dx/s.dy
		x0, x1 = max(x0, min(u, v)), min(x1, max(u, v))
	} else if c <= r.Min.Y || c >= r.Max.Y {
		return a, b, false
	}
	if x0 >= x1 {
		return a, b, false
	}
	at := func(x measure.Length) sheet.Point { return pt(x, min(r.Max.Y, max(r.Min.Y, c+x*s.dy/s.dx))) }
	return at(x0), at(x1), true
}
