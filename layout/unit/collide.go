package unit

import (
	"cmp"
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// thing is one box of the dressed unit, and what to call it.
type thing struct {
	solid Solid
	face  *Face
	row   *Row // nil for structure
	pos   *Position
	piece *Piece
	name  string
}

// collisions finds every two boxes, goods or hardware, on any two faces, that
// share more than a surface, and says by how much. One finding is enough for
// two rows; what is fixed together by design does not count.
func (r *resolver) collisions(u *Unit) {
	things := everything(u)
	slices.SortStableFunc(things, func(a, b *thing) int { return cmp.Compare(a.solid.X0, b.solid.X0) })
	seen := map[[2]*Row]bool{}
	sweep(things, func(a, b *thing) {
		if related(a, b) || seen[[2]*Row{a.row, b.row}] {
			return
		}
		seen[[2]*Row{a.row, b.row}], seen[[2]*Row{b.row, a.row}] = true, true
		r.reportCollision(a, b)
	})
}

// sweep calls meet for every pair of things whose solids overlap. Things are
// sorted by X0; those still open are kept in bands of height, so that a long
// row is compared with its neighbours only.
func sweep(things []*thing, meet func(a, b *thing)) {
	const band = 12 * measure.Inch
	open := map[measure.Length][]*thing{}
	for _, t := range things {
		for z := t.solid.Z0 / band; z*band < t.solid.Z1; z++ {
			kept := open[z][:0]
			for _, o := range open[z] {
				if o.solid.X1 <= t.solid.X0 {
					continue
				}
				kept = append(kept, o)
				// A pair sharing several bands is met in the lowest they share.
				if max(o.solid.Z0, t.solid.Z0)/band != z {
					continue
				}
				if dx, dy, dz := o.solid.Overlap(t.solid); dx > 0 && dy > 0 && dz > 0 {
					meet(o, t)
				}
			}
			open[z] = append(kept, t)
		}
	}
}

func everything(u *Unit) []*thing {
	var list []*thing
	for _, s := range u.Structure {
		list = append(list, &thing{solid: s.Solid, name: s.Part.ID})
	}
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				list = append(list, &thing{solid: f.Solid(p.Box), face: f, row: row, piece: p, name: p.Part.ID})
			}
			for _, pos := range row.Positions {
				for _, front := range pos.Fronts {
					list = append(list, &thing{solid: f.Solid(front.Box), face: f, row: row, pos: pos, piece: front.Piece, name: pos.Product.SKU})
				}
			}
		}
	}
	return list
}

// related reports pairs that touch by design: two parts of the structure, the
// hardware of one row, and goods with the hardware of their own row.
func related(a, b *thing) bool {
	if a.row == nil && b.row == nil {
		return true
	}
	if a.row != b.row {
		return false
	}
	return a.pos == nil || b.pos == nil
}

// reportCollision says which two things meet and by how much; the least of the
// three overlaps is what would have to be cleared.
func (r *resolver) reportCollision(a, b *thing) {
	x, y, z := a.solid.Overlap(b.solid)
	f := diag.Finding{
		Level: diag.Stop, Code: "collision",
		Message: fmt.Sprintf("%s and %s meet: they share %s across, %s up and %s deep", a.describe(), b.describe(), r.text(x), r.text(z), r.text(y)),
		Fix:     fmt.Sprintf("move one of them by %s", r.text(min(x, y, z))),
	}
	for _, t := range []*thing{a, b} {
		if t.row == nil {
			continue
		}
		f.Where = append(f.Where, t.address())
		if f.At.Line == 0 {
			f.At = t.row.Declared.Span
		} else {
			f.Notes = append(f.Notes, diag.Related{At: t.row.Declared.Span, Message: "the other is here"})
		}
	}
	r.findings.Add(f)
}

func (t *thing) describe() string {
	if t.row == nil {
		return t.name
	}
	return t.name + " at " + t.address()
}

func (t *thing) address() string {
	if t.pos != nil {
		return t.pos.Address
	}
	return t.row.Address
}
