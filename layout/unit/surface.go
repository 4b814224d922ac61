package unit

import (
	"slices"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/solve"
)

// offsets is where a part's grips are, from its centre line. Nil means it does
// not hold the panel by itself.
func offsets(p *parts.Part) []measure.Length {
	g := p.Grip
	if g.Sides < 2 {
		return make([]measure.Length, max(g.Sides, 0))
	}
	reach := p.Width - 2*g.Inset
	at := make([]measure.Length, g.Sides)
	for i := range at {
		at[i] = reach*measure.Length(i)/measure.Length(g.Sides-1) - reach/2 + g.Shift
	}
	return at
}

// baysOf is the range of bays, counted from 0, that x0 to x1 lies in.
func (f *Face) baysOf(x0, x1 measure.Length) (from, to int) {
	return max(0, int(x0/f.Panel.Width)), min(f.Bays, ceilDiv(x1, f.Panel.Width))
}

// points lists the only x between x0 and x1 at which the panel can be gripped,
// or nil if it is free sideways: the holes of pegboard, the uprights of slotted
// standards.
func (f *Face) points(x0, x1 measure.Length) []measure.Length {
	spec := f.Panel.Panel
	var at []measure.Length
	from, to := f.baysOf(x0, x1)
	for bay := from; bay < to; bay++ {
		left := measure.Length(bay) * f.Panel.Width
		switch spec.Surface {
		case parts.Standards:
			for _, u := range spec.Uprights {
				at = append(at, left+u)
			}
		case parts.Pegboard:
			for x := spec.AcrossFirst; x < f.Panel.Width && spec.AcrossPitch > 0; x += spec.AcrossPitch {
				at = append(at, left+x)
			}
		}
	}
	return at
}

// bars lists where between x0 and x1 the panel cannot be gripped by anything
// half a grip wide: over its vertical wires and across its edges and seams.
func (f *Face) bars(x0, x1, half measure.Length) []solve.Interval {
	spec := f.Panel.Panel
	var list []solve.Interval
	from, to := f.baysOf(x0, x1)
	for bay := from; bay <= to; bay++ {
		edge := measure.Length(bay) * f.Panel.Width
		if spec.Surface != parts.Standards && spec.Surface != parts.Pegboard {
			list = append(list, around(edge, spec.Edge+half))
		}
		if spec.Surface != parts.Wire || bay == to {
			continue
		}
		for x := spec.AcrossFirst; x <= f.Panel.Width && spec.AcrossPitch > 0; x += spec.AcrossPitch {
			list = append(list, around(edge+x, spec.WireWidth/2+half))
		}
	}
	return list
}

func around(x, half measure.Length) solve.Interval {
	return solve.Interval{Lo: int64(x - half), Hi: int64(x + half)}
}

// shifted moves intervals that bar a grip to where they bar the centre line of
// a part whose grips are at the given offsets.
func shifted(bars []solve.Interval, offs []measure.Length) []solve.Interval {
	if len(offs) == 1 && offs[0] == 0 {
		return bars
	}
	list := make([]solve.Interval, 0, len(bars)*len(offs))
	for _, o := range offs {
		for _, b := range bars {
			list = append(list, solve.Interval{Lo: b.Lo - int64(o), Hi: b.Hi - int64(o)})
		}
	}
	return list
}

// centres lists the centre lines at which every grip of a part meets one of the
// points.
func centres(points, offs []measure.Length) []int64 {
	list := []int64{}
	for _, p := range points {
		c, all := p-offs[0], true
		for _, o := range offs[1:] {
			_, found := slices.BinarySearch(points, c+o)
			all = all && found
		}
		if all {
			list = append(list, int64(c))
		}
	}
	return list
}

// heldGrips remembers which stretches of each slot of a face are taken, bay by
// bay, so that a long wall costs no more a row than a short one.
type heldGrips struct {
	face  *Face
	taken map[heldAt][]solve.Interval
}

type heldAt struct{ bay, slot int }

func newHeldGrips(f *Face) heldGrips { return heldGrips{f, map[heldAt][]solve.Interval{}} }

// add marks the grips of a row as taken.
func (h heldGrips) add(row *Row) {
	for _, p := range row.All() {
		for _, g := range p.Grips {
			bay, _ := h.face.baysOf(g.X0, g.X1)
			for n := range g.Slots {
				at := heldAt{bay, g.Slot - n}
				h.taken[at] = append(h.taken[at], solve.Interval{Lo: int64(g.X0), Hi: int64(g.X1)})
			}
		}
	}
}

// bars lists where between x0 and x1 the middle of a grip half wide that holds
// the slots cannot be.
func (h heldGrips) bars(x0, x1 measure.Length, slot, slots int, half measure.Length) []solve.Interval {
	if h.face == nil {
		return nil // nothing hangs there yet
	}
	var list []solve.Interval
	from, to := h.face.baysOf(x0, x1)
	for bay := from; bay < to; bay++ {
		for n := range slots {
			for _, t := range h.taken[heldAt{bay, slot - n}] {
				list = append(list, solve.Interval{Lo: t.Lo - int64(half), Hi: t.Hi + int64(half)})
			}
		}
	}
	return list
}

// mirrored turns intervals on one side of a spine into those on the other.
func mirrored(list []solve.Interval, width measure.Length) []solve.Interval {
	turned := make([]solve.Interval, len(list))
	for i, v := range list {
		turned[i] = solve.Interval{Lo: int64(width) - v.Hi, Hi: int64(width) - v.Lo}
	}
	return turned
}
