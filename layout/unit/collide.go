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
	seen := map[[2]*Row]bool{}
	Meetings(things, func(t *thing) Solid { return t.solid }, func(a, b *thing) {
		if related(a, b) || seen[[2]*Row{a.row, b.row}] {
			return
		}
		seen[[2]*Row{a.row, b.row}], seen[[2]*Row{b.row, a.row}] = true, true
		r.reportCollision(a, b)
	})
}

// Meetings calls meet once for every two things whose solids share more than a
// surface. It sorts the things by where they begin from the left, those that
// begin at one place staying as they were, and a is always before b.
func Meetings[T any](things []T, solid func(T) Solid, meet func(a, b T)) {
	slices.SortStableFunc(things, func(a, b T) int { return cmp.Compare(solid(a).X0, solid(b).X0) })
	const band = 12 * measure.Inch // those still open are kept by height, so that a long row meets its neighbours only
	type one struct {
		Solid
		of T
	}
	open := map[measure.Length][]one{}
	for _, t := range things {
		s := solid(t)
		for z := s.Z0 / band; z*band < s.Z1; z++ {
			kept := open[z][:0]
			for _, o := range open[z] {
				if o.X1 <= s.X0 {
					continue
				}
				kept = append(kept, o)
				// A pair sharing several bands is met in the lowest they share.
				if max(o.Z0, s.Z0)/band != z {
					continue
				}
				if dx, dy, dz := o.Overlap(s); dx > 0 && dy > 0 && dz > 0 {
					meet(o.of, t)
				}
			}
			open[z] = append(kept, one{s, t})
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
