package check

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// heap adds up masses and their places.
type heap struct{ mass, x, y, z float64 }

// add puts a mass at the middle of a solid.
func (h *heap) add(m measure.Mass, at unit.Solid) {
	w := kg(m)
	h.mass += w
	h.x += w * (mm(at.X0) + mm(at.X1)) / 2
	h.y += w * (mm(at.Y0) + mm(at.Y1)) / 2
	h.z += w * (mm(at.Z0) + mm(at.Z1)) / 2
}

func (h heap) with(o heap) heap { return heap{h.mass + o.mass, h.x + o.x, h.y + o.y, h.z + o.z} }

// body is the heap's mass and centre.
func (h heap) body() Body {
	if h.mass == 0 {
		return Body{}
	}
	return Body{h.mass, h.x / h.mass, h.y / h.mass, h.z / h.mass}
}

// structure is the bare frame on its stand.
func (s *subject) structure() heap {
	var h heap
	weighStructure(s.Unit, h.add)
	return h
}

// weighStructure puts every weight of the bare unit where it is. A frame's weight
// is taken half in its deck and half in its uprights, as tall as the panels:
// common practice, where no maker says more.
func weighStructure(u *unit.Unit, put func(measure.Mass, unit.Solid)) {
	var uprights unit.Solid
	for _, piece := range u.Structure {
		if piece.Part.Kind == parts.Panel {
			if uprights == (unit.Solid{}) {
				uprights = piece.Solid
			}
			uprights = uprights.Union(piece.Solid)
		}
	}
	feet := measure.Mass(max(u.Stand.Stand.Feet, 1))
	for _, piece := range u.Structure {
		weight := piece.Part.Weight + u.Parts.FixedWeight(piece.Part)
		switch piece.Part.Kind {
		case parts.Frame:
			put(weight/2, piece.Solid)
			put(weight-weight/2, uprights)
		case parts.Stand:
			put(weight/feet, piece.Solid)
		default:
			put(weight, piece.Solid)
		}
	}
}

// hung is the hardware of one face with its fixings, which weigh where the
// piece does that they hold.
func (s *subject) hung(f *unit.Face) heap {
	var h heap
	for _, row := range f.Rows {
		for _, piece := range row.All() {
			h.add(PieceWeight(s.Parts, piece), f.Solid(piece.Box))
		}
	}
	return h
}

// PieceWeight is what a piece weighs as it hangs, its fixings included.
func PieceWeight(list *parts.List, p *unit.Piece) measure.Mass {
	return weightOf(p) + list.FixedWeight(p.Part)
}

// weightOf is the weight of a piece; that of what is cut to length goes by the
// length, the part's own being for its width.
func weightOf(p *unit.Piece) measure.Mass {
	if p.Cut == 0 {
		return p.Part.Weight
	}
	const step = measure.Micrometre // keeps the product within int64
	return p.Part.Weight * measure.Mass(p.Cut/step) / measure.Mass(p.Part.Width/step)
}

// stocked is the goods of one face that a state leaves on it.
func (s *subject) stocked(face int, keep func(held) bool) heap {
	var h heap
	for _, l := range s.faces[face] {
		for _, g := range l.held {
			if keep(g) {
				h.add(g.weight, l.face.Solid(g.front.Box))
			}
		}
	}
	return h
}

func every(held) bool { return true }

// weigh fills in the masses of faces and of the whole, bare and full.
func (s *subject) weigh() {
	bare := s.structure()
	var goods heap
	for i, f := range s.Unit.Faces {
		hardware, stock := s.hung(f), s.stocked(i, every)
		s.a.Faces = append(s.a.Faces, FaceCase{
			Face: f.ID, Hardware: hardware.mass, Goods: stock.mass,
			Bare: hardware.body(), Full: hardware.with(stock).body(),
		})
		bare, goods = bare.with(hardware), goods.with(stock)
	}
	s.a.Bare, s.a.Full = bare.body(), bare.with(goods).body()
}

// faceCase is what one face carries, or nil if the unit has no such face.
func (a *Assessment) faceCase(id plan.FaceID) *FaceCase {
	for i := range a.Faces {
		if a.Faces[i].Face == id {
			return &a.Faces[i]
		}
	}
	return nil
}
