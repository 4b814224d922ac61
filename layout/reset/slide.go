package reset

import (
	"fmt"
	"sort"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// walls are what stops a piece that is slid along its slot, from the left: the
// edges of the panels and, on a wire grid, the vertical wires between them.
type walls []measure.Length

func wallsOf(f *unit.Face) walls {
	var at walls
	spec := f.Panel.Panel
	for i, edge := range f.BayEdges() {
		at = append(at, edge)
		if spec.Surface != parts.Wire || spec.AcrossPitch <= 0 || i == f.Bays {
			continue
		}
		for x := spec.AcrossFirst; x < f.Panel.Width; x += spec.AcrossPitch {
			at = append(at, edge+x)
		}
	}
	return at
}

// cellKey tells where along a face a piece can be slid: pieces of one part with
// the same key are between the same walls with each of their grips.
type cellKey struct {
	face  plan.FaceID
	slot  int
	grips string // for each grip, how many walls are left of it
}

// cell is where a piece can be slid, if it can be at all: along the wires of a
// grid or the grooves of slatwall. In the holes of pegboard and the slots of
// standards nothing slides, and what is as wide as its panel has nowhere to go.
func (w walls) cell(f *unit.Face, p *unit.Piece) (cellKey, bool) {
	switch s := f.Panel.Panel.Surface; {
	case s != parts.Wire && s != parts.Slatwall, len(p.Grips) == 0, p.Part.Width >= f.Panel.Width:
		return cellKey{}, false
	}
	key := cellKey{face: f.ID, slot: p.Slot}
	for _, g := range p.Grips {
		left := sort.Search(len(w), func(i int) bool { return w[i] >= (g.X0+g.X1)/2 })
		key.grips += fmt.Sprint(left, " ")
	}
	return key, true
}
