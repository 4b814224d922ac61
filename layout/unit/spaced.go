package unit

import (
	"fmt"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/solve"
)

// spaced is the problem of placing pieces exactly every: apart, the goods on
// them inside the span.
func (d *draft) spaced(fronts []*goods.Product, taken []solve.Interval) solve.Spaced {
	n := measure.Length(len(fronts))
	run := d.decl.Every * max(n-1, 0)
	lo, hi := d.x0+d.part.Width/2, d.x1-d.part.Width/2
	first, last := lo, hi
	for i, w := range d.widths(fronts) {
		before := d.decl.Every * measure.Length(i)
		first = max(first, d.x0+w/2-before)
		last = min(last, d.x1-w/2+run-before)
	}
	wish := d.x0 + (d.x1-d.x0-run)/2
	switch d.align() {
	case plan.AlignLeft:
		wish = first
	case plan.AlignRight:
		wish = last - run
	}
	return solve.Spaced{
		Every: int64(d.decl.Every), Count: len(fronts), Lo: int64(first), Hi: int64(last), Wish: int64(wish),
		Lattice: d.spacedLattice(), Blocked: append(d.bars(), taken...),
	}
}

// solveSpaced is the places of a row with every:.
func (r *resolver) solveSpaced(d *draft, taken []solve.Interval) ([]measure.Length, bool) {
	fronts := d.fronts
	if !single(d.part.Kind) {
		fronts = make([]*goods.Product, d.pieces)
	}
	first, ok := d.spaced(fronts, taken).Solve()
	if !ok {
		return nil, false
	}
	at := make([]measure.Length, d.pieces)
	for i := range at {
		at[i] = measure.Length(first) + measure.Length(i)*d.decl.Every
	}
	return at, true
}

// spacedLattice is the lattice, made fine enough for every: to keep to it.
func (d *draft) spacedLattice() solve.Lattice {
	l := d.lattice(d.part)
	if l.List == nil {
		for a, b := int64(d.decl.Every), l.Step; b != 0; a, b = b, a%b {
			l.Step = b
		}
	}
	return l
}

// crowded reports fronts that every: puts closer than they are wide.
func (r *resolver) crowded(d *draft) {
	if d.copy > 1 {
		return
	}
	for i := 1; i < len(d.fronts); i++ {
		a, b := d.fronts[i-1], d.fronts[i]
		if a == nil || b == nil {
			continue
		}
		if need := (a.Width + b.Width) / 2; need > d.decl.Every {
			r.stop(d.decl.EveryAt, "every-too-close", fmt.Sprintf("every %s is too close: %s and %s side by side take %s", r.text(d.decl.Every), a.SKU, b.SKU, r.text(need)),
				"every: "+r.text(need+d.gap()))
			return
		}
	}
}
