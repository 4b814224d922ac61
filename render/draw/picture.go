package draw

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// The pictorial is a parallel projection seen from the front, the right and
// above: turned 30° and tilted 20°, the sines and cosines to three decimals.
const (
	cosTurn, sinTurn = 866, 500
	cosTilt          = 940
	xFall, yRise     = 171, 296 // sines of turn and tilt multiplied
)

// spot is a place on the picture plane: u to the right, v up.
type spot struct{ u, v measure.Length }

func project(x, y, z measure.Length) spot {
	return spot{(x*cosTurn + y*sinTurn) / 1000, (z*cosTilt - x*xFall + y*yRise) / 1000}
}

// block3 is one box of the picture, with the tones of its visible sides.
type block3 struct {
	unit.Solid
	front, side, top sheet.Color
	panel            *parts.PanelSpec // wires and grooves to rule on it
	faint            bool

	span [3]interval // its silhouette across the three directions of its edges
}

type interval struct{ lo, hi measure.Length }

// silhouette measures the box's outline, a hexagon, across each direction its
// edges have: two outlines meet if and only if all three measures overlap.
func (b *block3) silhouette() {
	first := true
	for _, x := range [2]measure.Length{b.X0, b.X1} {
		for _, y := range [2]measure.Length{b.Y0, b.Y1} {
			for _, z := range [2]measure.Length{b.Z0, b.Z1} {
				p := project(x, y, z)
				across := [3]measure.Length{p.u, (p.u*xFall + p.v*cosTurn) / 1000, (p.v*sinTurn - p.u*yRise) / 1000}
				for i, m := range across {
					if first {
						b.span[i] = interval{m, m}
					}
					b.span[i] = interval{min(b.span[i].lo, m), max(b.span[i].hi, m)}
				}
				first = false
			}
		}
	}
}

func (b *block3) overlaps(o *block3) bool {
	for i := range b.span {
		if b.span[i].lo >= o.span[i].hi-micron || o.span[i].lo >= b.span[i].hi-micron {
			return false
		}
	}
	return true
}

// behind reports whether b is to be drawn before o: some plane square to an
// axis parts them with b on the far side. Boxes that run into one another are
// parted where they do so least.
func (b *block3) behind(o *block3) bool {
	far := max(o.X0-b.X1, b.Y0-o.Y1, o.Z0-b.Z1)
	near := max(b.X0-o.X1, o.Y0-b.Y1, b.Z0-o.Z1)
	return far > near || far == near && b.rank() < o.rank()
}

// rank grows towards the viewer.
func (b *block3) rank() measure.Length {
	return (b.X0 + b.X1) - (b.Y0 + b.Y1) + (b.Z0+b.Z1)/2
}

// blocks3 lists the boxes of the whole unit.
func (j *Job) blocks3() []*block3 {
	var list []*block3
	for _, s := range j.Unit.Structure {
		b := &block3{Solid: s.Solid, front: grey(255), side: grey(238), top: grey(250)}
		if s.Part.Kind == parts.Panel {
			b.panel, b.faint = s.Part.Panel, true
		}
		list = append(list, b)
	}
	for _, f := range j.Unit.Faces {
		for _, r := range f.Rows {
			list = append(list, rowBlocks(f, r)...)
			list = append(list, j.goodsBlocks(f, r)...)
		}
	}
	for _, b := range list {
		b.silhouette()
	}
	return list
}

// rowBlocks are the row's hardware, simplified to boxes. A hook that carries
// goods is hidden in them and left out.
func rowBlocks(f *unit.Face, r *unit.Row) []*block3 {
	loaded := map[*unit.Piece]bool{}
	for _, p := range r.Positions {
		for _, fr := range p.Fronts {
			loaded[fr.Piece] = true
		}
	}
	var list []*block3
	add := func(b unit.Box) {
		list = append(list, &block3{Solid: f.Solid(b), front: grey(248), side: grey(225), top: grey(255)})
	}
	for _, p := range r.Pieces {
		b, at := p.Box, f.SlotHeight(p.Slot)+p.Part.Bearing
		const rod = measure.Inch / 4
		switch p.Part.Kind {
		case parts.Hook, parts.FaceOut:
			if !loaded[p] {
				mid := (b.X0 + b.X1) / 2
				add(unit.Box{X0: mid - rod, X1: mid + rod, Y0: at - rod, Y1: at + rod, D0: 0, D1: b.D1})
			}
		case parts.Rail, parts.Bar:
			add(unit.Box{X0: b.X0, X1: b.X1, Y0: at - rod, Y1: at + 2*rod, D0: b.D1 - 3*rod, D1: b.D1})
			for _, g := range p.Grips {
				add(unit.Box{X0: g.X0, X1: g.X1, Y0: at - rod, Y1: at + 2*rod, D0: 0, D1: b.D1 - 3*rod})
			}
		default:
			add(b)
		}
	}
	for _, p := range r.Extras {
		add(p.Box)
	}
	return list
}

// goodsBlocks are the row's fronts, in the tint of their family.
func (j *Job) goodsBlocks(f *unit.Face, r *unit.Row) []*block3 {
	var list []*block3
	for _, p := range r.Positions {
		tint := tintOf(j.familyOf(p.Product))
		for _, fr := range p.Fronts {
			list = append(list, &block3{Solid: f.Solid(fr.Box), front: tint, side: darker(tint, 88), top: lighter(tint)})
		}
	}
	return list
}

func darker(c sheet.Color, percent int) sheet.Color {
	d := func(v uint8) uint8 { return uint8(int(v) * percent / 100) }
	return sheet.Color{R: d(c.R), G: d(c.G), B: d(c.B)}
}

func lighter(c sheet.Color) sheet.Color {
	l := func(v uint8) uint8 { return uint8(255 - (255-int(v))/2) }
	return sheet.Color{R: l(c.R), G: l(c.G), B: l(c.B)}
}

// painter puts the boxes in an order in which each may be drawn over those
// before it, hiding what it hides. Where boxes hide one another in a ring,
// the farthest goes first.
func painter(list []*block3) []*block3 {
	over := make([][]int32, len(list)) // boxes to be drawn after this one
	waits := make([]int32, len(list))
	byLeft := order(len(list), func(a, b int) bool { return list[a].span[0].lo < list[b].span[0].lo })
	for n, i := range byLeft {
		for _, k := range byLeft[n+1:] {
			if list[k].span[0].lo >= list[i].span[0].hi {
				break
			}
			if !list[i].overlaps(list[k]) {
				continue
			}
			a, b := i, k
			if !list[a].behind(list[b]) {
				a, b = b, a
			}
			over[a] = append(over[a], int32(b))
			waits[b]++
		}
	}
	return release(list, over, waits)
}

// release hands out the boxes no other box waits to be drawn before, farthest first.
func release(list []*block3, over [][]int32, waits []int32) []*block3 {
	byRank := order(len(list), func(a, b int) bool { return list[a].rank() < list[b].rank() })
	done := make([]bool, len(list))
	out := make([]*block3, 0, len(list))
	var ready []int
	take := func(i int) {
		done[i] = true
		out = append(out, list[i])
		for _, k := range over[i] {
			if waits[k]--; waits[k] == 0 && !done[k] {
				ready = append(ready, int(k))
			}
		}
	}
	for _, i := range byRank {
		if waits[i] == 0 && !done[i] {
			take(i)
		}
		for len(ready) > 0 {
			next := ready[0]
			ready = ready[1:]
			if !done[next] {
				take(next)
			}
		}
	}
	for _, i := range byRank { // what a ring held up
		if !done[i] {
			take(i)
		}
	}
	return out
}
