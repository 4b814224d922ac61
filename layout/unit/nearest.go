package unit

import (
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Nearest is the part most like one that would take a product it does not: one
// that hangs on the surface, takes the form, is wide and deep enough for it, and
// is rated for that load of it. Parts of the same kind come first, then those
// whose length and width differ least; nil if there is none.
func Nearest(list *parts.List, on parts.Surface, like *parts.Part, p *goods.Product, load measure.Mass) *parts.Part {
	var best *parts.Part
	miss := measure.MaxLength
	for _, q := range list.All() {
		if q == like || !q.MountsOn(on) || !takesWhole(q, p) || q.Rated > 0 && q.Rated < load {
			continue
		}
		off := abs(q.Usable-like.Usable) + abs(q.Width-like.Width)
		if q.Kind != like.Kind {
			off += 100 * measure.Foot // another kind is the last resort
		}
		if off < miss {
			best, miss = q, off
		}
	}
	return best
}

// takesWhole reports whether one front of a product fits a part by form, width
// and depth.
func takesWhole(q *parts.Part, p *goods.Product) bool {
	d := draft{part: q, x1: measure.MaxLength}
	return q.Takes(p.Form) && d.sectionWidth(p) <= d.room() && !d.sticksOut(p)
}

// nearestUse is the nearest part as a fix, "" if there is none.
func (r *resolver) nearestUse(d *draft, p *goods.Product, load measure.Mass) string {
	if q := Nearest(r.parts, d.face.Panel.Panel.Surface, d.part, p, load); q != nil {
		return "use: " + q.ID
	}
	return ""
}
