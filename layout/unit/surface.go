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

// points lists the only x at which the panel can be gripped, or nil if it is
// free sideways: the holes of pegboard, the uprights of slotted standards.
func (f *Face) points() []measure.Length {
	spec := f.Panel.Panel
	var at []measure.Length
	for bay := range f.Bays {
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

// bars lists where the panel cannot be gripped by anything half a grip wide:
// over its vertical wires and across its edges and seams.
func (f *Face) bars(half measure.Length) []solve.Interval {
	spec := f.Panel.Panel
	var list []solve.Interval
	for bay := range f.Bays + 1 {
		edge := measure.Length(bay) * f.Panel.Width
		if spec.Surface != parts.Standards && spec.Surface != parts.Pegboard {
			list = append(list, around(edge, spec.Edge+half))
		}
		if spec.Surface != parts.Wire || bay == f.Bays {
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

// heldGrips remembers which stretches of each slot of a face are taken.
type heldGrips map[int][]solve.Interval

func (h heldGrips) add(g Grip) {
	for n := range g.Slots {
		h[g.Slot-n] = append(h[g.Slot-n], solve.Interval{Lo: int64(g.X0), Hi: int64(g.X1)})
	}
}

// bars lists where a grip half wide that holds the slots cannot be.
func (h heldGrips) bars(slot, slots int, half measure.Length) []solve.Interval {
	var list []solve.Interval
	for n := range slots {
		for _, taken := range h[slot-n] {
			list = append(list, solve.Interval{Lo: taken.Lo - int64(half), Hi: taken.Hi + int64(half)})
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
