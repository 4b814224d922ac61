package draw

import (
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// zone is the part of a face one elevation shows: some bays of it.
type zone struct {
	from, to int // bays, from 1
	x0, x1   measure.Length
	whole    bool
}

// zones splits a face into so many runs of bays, as even as can be.
func zones(f *unit.Face, n int) []zone {
	edges := f.BayEdges()
	list := make([]zone, 0, n)
	at := 0
	for i := range n {
		next := at + (f.Bays-at+n-i-1)/(n-i)
		list = append(list, zone{at + 1, next, edges[at], edges[next], n == 1})
		at = next
	}
	return list
}

func (z zone) width() measure.Length { return z.x1 - z.x0 }

// clamp is the place in the zone nearest to x.
func (z zone) clamp(x measure.Length) measure.Length { return max(z.x0, min(x, z.x1)) }

// shows reports whether any of the box lies in the zone.
func (z zone) shows(b unit.Box) bool { return b.X0 < z.x1 && b.X1 > z.x0 }

// holds reports whether a place along the face is to be shown in the zone.
func (z zone) holds(x measure.Length) bool { return x >= z.x0 && x <= z.x1 }

// rows lists the rows of the face with a piece in the zone.
func (z zone) rows(f *unit.Face) []*unit.Row {
	var rows []*unit.Row
	for _, r := range f.Rows {
		for _, p := range r.All() {
			if z.shows(p.Box) {
				rows = append(rows, r)
				break
			}
		}
	}
	return rows
}

// tallest is the height of the highest thing on the face: panel, hardware or goods.
func tallest(f *unit.Face) measure.Length {
	top := f.Top
	for _, r := range f.Rows {
		for _, p := range r.All() {
			top = max(top, p.Box.Y1)
		}
		for _, pos := range r.Positions {
			for _, fr := range pos.Fronts {
				top = max(top, fr.Box.Y1)
			}
		}
	}
	return top
}

// deepest is how far deck and hardware of the face reach out: what a section
// shows. Goods that reach out farther are cut off there.
func deepest(f *unit.Face) measure.Length {
	out := max(f.DeckDepth, measure.Inch)
	for _, r := range f.Rows {
		for _, p := range r.All() {
			out = max(out, p.Box.D1)
		}
	}
	return out
}
