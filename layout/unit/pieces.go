package unit

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/solve"
)

// piece puts a part at the row's slot with its centre line at x; out is how far
// from the panel it begins.
func (d *draft) piece(p *parts.Part, x, out measure.Length) *Piece {
	piece := &Piece{
		Part: p, X: x, Slot: d.row.Slot,
		Box: Box{
			X0: x - p.Width/2, X1: x - p.Width/2 + p.Width,
			Y0: d.row.Height - p.Below, Y1: d.row.Height + p.Above,
			D0: out, D1: out + p.Depth,
		},
	}
	for _, o := range offsets(p) {
		left := x + o - p.Grip.Width/2
		piece.Grips = append(piece.Grips, Grip{Slot: d.row.Slot, Slots: max(p.Grip.Slots, 1), X0: left, X1: left + p.Grip.Width})
	}
	return piece
}

// brackets puts brackets under one shelf: one near each end and as many between
// as keep them no further apart than the shelf allows, off wires and seams.
func (r *resolver) brackets(d *draft, shelf *Piece) {
	need := d.part.Needs
	n := bracketCount(shelf.Box.Width(), need.Every)
	inner := shelf.Box.Width() - 2*need.Inset
	p := solve.Places{Lattice: d.lattice(d.bracket)}
	for i := range n {
		target := shelf.Box.X0 + need.Inset + inner*measure.Length(i)/measure.Length(n-1)
		p.Targets = append(p.Targets, int64(target))
		p.Lo = append(p.Lo, int64(shelf.Box.X0+d.bracket.Width/2))
		p.Hi = append(p.Hi, int64(shelf.Box.X1-d.bracket.Width/2))
		if i > 0 {
			p.Gaps = append(p.Gaps, int64(d.bracket.Width))
		}
	}
	panel := d.face.bars(d.x0, d.x1, d.bracket.Grip.Width/2)
	p.Blocked = append(panel[:len(panel):len(panel)], r.taken(d, d.bracket)...)
	at, ok := p.Solve()
	if !ok {
		p.Blocked = panel
		if at, ok = p.Solve(); ok {
			r.stop(d.decl.Use.At, "grips-meet", fmt.Sprintf("the brackets of %s at %s cannot keep off the grips of other rows on the same slot or on the other side of the spine",
				d.part.ID, r.text(d.row.Height)), "move this row one slot up or down", r.rowWhere(d))
		} else {
			r.stop(d.decl.Use.At, "no-brackets", fmt.Sprintf("%s at %s needs %d brackets, and the panel has no places for them under it",
				d.part.ID, r.text(d.row.Height), n), "another bay or another align:", r.rowWhere(d))
			return
		}
	}
	for _, x := range lengths(at) {
		d.row.Brackets = append(d.row.Brackets, d.piece(d.bracket, x, 0))
	}
}

// bracketCount is two, and one more for each further stretch of every: a 24 in
// shelf takes two, a 48 in one three (common practice).
func bracketCount(length, every measure.Length) int {
	return 1 + max(1, ceilDiv(length, every))
}

// extend fixes the row's extras to the front of its pieces, cut to their length
// if they are cut to length.
func (d *draft) extend() {
	for _, part := range d.extras {
		for _, on := range d.row.Pieces {
			extra := d.piece(part, on.X, on.Box.D1)
			extra.Grips = nil
			if part.Kind == parts.Strip && part.Cut != nil {
				extra.Cut = on.Box.Width()
				extra.Box.X0, extra.Box.X1 = on.Box.X0, on.Box.X1
			}
			d.row.Extras = append(d.row.Extras, extra)
		}
	}
}
