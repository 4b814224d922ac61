package unit

import (
	"fmt"

	"setwright/layout/measure"
)

// pushAside moves the rows behind this one, on the other side of a shared spine
// and on the same slots, as far to their left as they go: seen from here that is
// to the right, and leaves this row the other half of the slack. It reports
// whether any row was moved.
func (r *resolver) pushAside(d *draft) bool {
	twin := d.face.Twin
	if twin == "" {
		return false
	}
	moved := false
	behind := r.drafted[twin]
	for _, b := range behind {
		if b.row.Pieces == nil || b.pushed || b.decl.Every > 0 || !d.sharesWires(b) {
			continue
		}
		b.pushed, moved = true, true
		held := newHeldGrips(b.face)
		for _, other := range behind {
			if other != b {
				held.add(other.row)
			}
		}
		r.held[twin] = held
		if at, ok := r.solvePlaces(b, r.taken(b, b.part), nil); ok {
			r.hang(b, at)
		} else {
			held.add(b.row)
		}
	}
	return moved
}

// sharesWires reports whether a row behind holds any of the slots this one does,
// behind some of its span.
func (d *draft) sharesWires(b *draft) bool {
	top, btop := d.row.Slot, b.row.Slot
	if top-d.gripSlots() >= btop || btop-b.gripSlots() >= top {
		return false
	}
	return b.x0 < d.face.Width-d.x0 && d.face.Width-d.x1 < b.x1
}

// giveUpFronts drops fronts the plan left open, one at a time from the product
// that has most, until the row keeps off the grips of others.
func (r *resolver) giveUpFronts(d *draft, columns []int64) ([]measure.Length, bool) {
	if !single(d.part.Kind) || d.decl.Count > 0 || d.decl.Every > 0 {
		return nil, false
	}
	counts := make([]int, len(d.asks))
	for _, p := range d.fronts {
		for i, a := range d.asks {
			if a.product == p {
				counts[i]++
				break
			}
		}
	}
	least := d.opening()
	for i, a := range d.asks {
		if a.fronts > 0 {
			least[i] = counts[i] // given, not open
		}
	}
	all, taken := d.fronts, r.taken(d, d.part)
	for dropped := 1; shrink(counts, least); dropped++ {
		d.fronts = d.spell(counts)
		d.pieces = len(d.fronts)
		if at, ok := r.solvePlaces(d, taken, columns); ok {
			r.note(d.decl.Use.At, "fronts-given-up", fmt.Sprintf("%d of %d fronts are left out so that %s at %s keeps off the grips behind it",
				dropped, len(all), d.part.ID, r.text(d.row.Height)), r.rowWhere(d))
			return at, true
		}
	}
	d.fronts, d.pieces = all, len(all)
	return nil, false
}
