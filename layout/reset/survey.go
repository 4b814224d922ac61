package reset

import (
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// role is how a piece comes to be in its row.
type role uint8

const (
	carrier role = iota // named by the row
	bracket             // under a shelf
	extra               // fixed to another piece
)

// hung is a piece of one of the units with all that is handled with it.
type hung struct {
	Place
	role  role
	kind  int // pieces of one kind can take each other's places
	place int // the same number, the same place
	cell  int // the same number, one can be slid to where the other is; 0: it cannot be slid

	host   *hung   // what it is fixed to; of a bracket, the shelf on it
	extras []*hung // fixed to it
	rests  []*hung // brackets under it
	goods  []*shown

	partner *hung // in the other unit, nil while it has none
	way     Way
	item    *Item
}

// shown is one facing of one of the units.
type shown struct {
	Spot
	ware int // the same number, the same product
	on   *hung
	at   spot

	partner *shown
	way     Way
	facing  *Facing
}

// spot is where a facing is on its piece: the same spot, nothing to move.
type spot struct{ x, out measure.Length }

// survey is all that hangs and stands on one of the units, in sheet order.
type survey struct {
	pieces []*hung
	goods  []*shown
}

// numbers gives things numbers from 1, the same for equal keys.
type numbers[K comparable] map[K]int

func (n numbers[K]) of(key K) int {
	if n[key] == 0 {
		n[key] = len(n) + 1
	}
	return n[key]
}

type kindKey struct {
	id  string
	cut measure.Length
	old bool // of the old unit only: the new plan's part of that id is another
}

type placeKey struct {
	face plan.FaceID
	slot int
	box  unit.Box
}

type wareKey struct {
	sku string
	old bool // as kindKey
}

// surveyor surveys both units, so that what is the same in both has one number.
type surveyor struct {
	kinds  numbers[kindKey]
	places numbers[placeKey]
	cells  numbers[cellKey]
	wares  numbers[wareKey]

	otherParts map[string]bool // ids under which the new plan has another part
	otherGoods map[string]bool // SKUs under which it has another product
}

// survey lists one unit's pieces and goods.
func (s *surveyor) survey(u *unit.Unit, old bool) *survey {
	v := &survey{}
	for _, face := range u.Faces {
		walls := wallsOf(face)
		for _, row := range face.Rows {
			s.row(v, face, row, walls, old)
		}
	}
	return v
}

func (s *surveyor) row(v *survey, face *unit.Face, row *unit.Row, walls walls, old bool) {
	of := make(map[*unit.Piece]*hung, len(row.Pieces))
	add := func(p *unit.Piece, as role) *hung {
		h := &hung{role: as, Place: Place{Face: face, Row: row, Piece: p, Solid: face.Solid(p.Box)}}
		h.kind = s.kinds.of(kindKey{p.Part.ID, p.Cut, old && s.otherParts[p.Part.ID]})
		h.place = s.places.of(placeKey{face.ID, p.Slot, p.Box})
		of[p] = h
		v.pieces = append(v.pieces, h)
		return h
	}
	for _, p := range row.Pieces {
		h := add(p, carrier)
		if key, ok := walls.cell(face, p); ok && len(row.Brackets) == 0 {
			h.cell = s.cells.of(key)
		}
	}
	for _, p := range row.Brackets {
		h := add(p, bracket)
		if shelf := of[under(row.Pieces, p)]; shelf != nil {
			h.host, shelf.rests = shelf, append(shelf.rests, h)
		}
	}
	for _, p := range row.Extras {
		h := add(p, extra)
		if h.host = of[behind(row.Pieces, p)]; h.host != nil {
			h.host.extras = append(h.host.extras, h)
		}
	}
	for _, position := range row.Positions {
		for i := range position.Fronts {
			s.front(v, of, face, row, position, &position.Fronts[i], old)
		}
	}
}

func (s *surveyor) front(v *survey, of map[*unit.Piece]*hung, face *unit.Face, row *unit.Row, position *unit.Position, front *unit.Front, old bool) {
	sku := position.Product.SKU
	f := &shown{on: of[front.Piece], ware: s.wares.of(wareKey{sku, old && s.otherGoods[sku]}),
		Spot: Spot{Face: face, Row: row, Position: position, Front: front, Solid: face.Solid(front.Box)}}
	f.at = spot{x: front.Box.X0 - front.Piece.X, out: front.Box.D0}
	f.on.goods = append(f.on.goods, f)
	v.goods = append(v.goods, f)
}

// under is the shelf that a bracket holds: brackets stand within its length.
func under(shelves []*unit.Piece, bracket *unit.Piece) *unit.Piece {
	for _, p := range shelves {
		if p.Box.X0 <= bracket.X && bracket.X <= p.Box.X1 {
			return p
		}
	}
	return nil
}

// behind is the piece that an extra is fixed to the front of.
func behind(pieces []*unit.Piece, extra *unit.Piece) *unit.Piece {
	for _, p := range pieces {
		if p.X == extra.X {
			return p
		}
	}
	return nil
}

// runs says whether goods can be moved along a part without being lifted off.
func runs(p *parts.Part) bool {
	switch p.Kind {
	case parts.Shelf, parts.Slope, parts.Basket, parts.Rail:
		return true
	}
	return false
}

// sameProduct says whether what stands in one unit can stand in for what the
// other asks for. Price, sales and the like may change.
func sameProduct(a, b *goods.Product) bool {
	return a == b || a.SKU == b.SKU && a.Form == b.Form && a.Width == b.Width && a.Height == b.Height && a.Depth == b.Depth
}
