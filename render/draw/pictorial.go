package draw

import (
	"sort"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

// order returns 0..n-1 sorted by less; equals stay in order.
func order(n int, less func(a, b int) bool) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	sort.SliceStable(list, func(i, k int) bool { return less(list[i], list[k]) })
	return list
}

// plane puts the picture plane on paper: u0, v0 at the origin, paper over
// model as size over extent.
type plane struct {
	origin       sheet.Point
	u0, v0       measure.Length
	size, extent measure.Length
}

func (p plane) at(x, y, z measure.Length) sheet.Point {
	s := project(x, y, z)
	return pt(p.origin.X+p.scale(s.u-p.u0), p.origin.Y-p.scale(s.v-p.v0))
}

// scale works in microns: a product of lengths in nanometres would overflow.
func (p plane) scale(l measure.Length) measure.Length {
	return l / micron * (p.size / micron) / (p.extent / micron) * micron
}

// pictorial draws the whole unit in parallel projection, hidden lines
// removed, as large as the area takes it, and returns the area it used.
func (p *Page) pictorial(area sheet.Rect) sheet.Rect {
	list := painter(p.job.blocks3())
	if len(list) == 0 {
		return area
	}
	u, v := bounds(list)
	pl := plane{u0: u.lo, v0: v.lo, size: wide(area), extent: u.hi - u.lo}
	if (v.hi-v.lo)/micron*(wide(area)/micron) > (u.hi-u.lo)/micron*(high(area)/micron) {
		pl.size, pl.extent = high(area), v.hi-v.lo
	}
	w, h := pl.scale(u.hi-u.lo), pl.scale(v.hi-v.lo)
	pl.origin = pt(area.Min.X+(wide(area)-w)/2, area.Min.Y+(high(area)+h)/2)
	for _, b := range list {
		p.box3(pl, b)
	}
	return box(pl.origin.X, pl.origin.Y-h, pl.origin.X+w, pl.origin.Y)
}

// bounds measures the picture across and up.
func bounds(list []*block3) (u, v interval) {
	for i, b := range list {
		lo, hi := project(b.X0, b.Y0, b.Z0).u, project(b.X1, b.Y1, b.Z1).u
		down, up := project(b.X1, b.Y0, b.Z0).v, project(b.X0, b.Y1, b.Z1).v
		if i == 0 {
			u, v = interval{lo, hi}, interval{down, up}
		}
		u = interval{min(u.lo, lo), max(u.hi, hi)}
		v = interval{min(v.lo, down), max(v.hi, up)}
	}
	return u, v
}

// box3 draws the three sides of a box that can be seen.
func (p *Page) box3(pl plane, b *block3) {
	edge := pen(hair)
	if b.faint {
		edge = pen(thin)
	}
	front := []sheet.Point{pl.at(b.X0, b.Y0, b.Z0), pl.at(b.X1, b.Y0, b.Z0), pl.at(b.X1, b.Y0, b.Z1), pl.at(b.X0, b.Y0, b.Z1)}
	side := []sheet.Point{front[1], pl.at(b.X1, b.Y1, b.Z0), pl.at(b.X1, b.Y1, b.Z1), front[2]}
	top := []sheet.Point{front[3], front[2], side[2], pl.at(b.X0, b.Y1, b.Z1)}
	p.polygon(front, &edge, &b.front)
	p.polygon(side, &edge, &b.side)
	p.polygon(top, &edge, &b.top)
	if b.panel != nil {
		p.ruled(pl, b)
	}
}

// ruled draws a panel's slots and wires, pale, on its broad side.
func (p *Page) ruled(pl plane, b *block3) {
	st := pencil(hair, 205)
	acrossX := b.X1-b.X0 > b.Y1-b.Y0
	at := func(along, z measure.Length) sheet.Point {
		if acrossX {
			return pl.at(b.X0+along, b.Y0, z)
		}
		return pl.at(b.X1, b.Y0+along, z)
	}
	width := max(b.X1-b.X0, b.Y1-b.Y0)
	step := max(b.panel.Pitch, 2*measure.Inch)
	for n := range measure.Length(b.panel.Count) {
		z := b.Z0 + b.panel.First + n*step
		if z > b.Z1 {
			break
		}
		p.Sheet.Add(sheet.Line{From: at(0, z), To: at(width, z), Stroke: st})
	}
	if b.panel.AcrossPitch < 2*measure.Inch {
		return
	}
	for x := b.panel.AcrossFirst; x <= width; x += b.panel.AcrossPitch {
		p.Sheet.Add(sheet.Line{From: at(x, b.Z0), To: at(x, b.Z1), Stroke: st})
	}
}
