package unit

import (
	"slices"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// pourFills settles which rows of a face each of its fills is for, and reports
// fills that are for none or of goods that there are not.
func (r *resolver) pourFills(drafts []*draft, dress *plan.Dress) {
	for _, d := range drafts {
		if d.decl.Fill != nil {
			d.fill = d.decl.Fill
		}
	}
	for i := range dress.Fill {
		fill, rows := &dress.Fill[i], 0
		for _, d := range drafts {
			if d.fill == nil && len(d.decl.Goods) == 0 && len(d.part.Holds) > 0 && fill.Covers(d.decl) {
				d.fill = fill
			}
			if d.fill == fill {
				rows++
			}
		}
		if rows == 0 {
			r.fail(fill.Span, "fill-without-rows", "no row here is free to be filled",
				"rows of the same bays that name no goods of their own", "")
		}
		r.goodsToFill(fill, drafts)
	}
	for i := range dress.Rows {
		if fill := dress.Rows[i].Fill; fill != nil {
			r.goodsToFill(fill, drafts)
		}
	}
}

// goodsToFill looks up what a fill names, and gives its rows what they could
// take of it, so that they ask for room.
func (r *resolver) goodsToFill(fill *plan.Fill, drafts []*draft) {
	var all []*goods.Product
	for i := range fill.Goods {
		g := &fill.Goods[i]
		list := r.goodsOf(g)
		switch {
		case len(list) > 0:
			all = append(all, list...)
		case g.SKU != "":
			r.unknown(plan.Ref{Name: g.SKU, At: g.At}, "goods", "a sku of the plan's goods files, or {family: NAME}", r.skus())
		default:
			r.unknown(plan.Ref{Name: g.Family, At: g.At}, "family", "a family of the plan's goods files", r.families())
		}
	}
	for _, d := range drafts {
		if d.fill != fill {
			continue
		}
		for _, p := range all {
			if d.part.Takes(p.Form) && d.sectionWidth(p) <= d.room() && !d.sticksOut(p) {
				d.pool = append(d.pool, p)
			}
		}
		d.needOfPool(true)
	}
}

func (r *resolver) families() []string {
	var names []string
	for _, p := range r.goods.All() {
		if p.Family != "" && !slices.Contains(names, p.Family) {
			names = append(names, p.Family)
		}
	}
	return names
}

// needOfPool is the room a row asks for before its goods are chosen: enough for
// the tallest of them, or only for the lowest.
func (d *draft) needOfPool(tallest bool) {
	d.need()
	if len(d.pool) == 0 {
		return
	}
	above, below := d.goodsNeed(d.pool[0])
	for _, p := range d.pool[1:] {
		a, b := d.goodsNeed(p)
		if tallest {
			above, below = max(above, a), max(below, b)
		} else {
			above, below = min(above, a), min(below, b)
		}
	}
	d.above, d.below = max(d.above, above), max(d.below, below)
}

// easeFills lets rows that are to be filled ask for less room, where a face
// cannot take them with room for the tallest goods in each.
func (r *resolver) easeFills(f *Face, drafts []*draft) {
	if !slices.ContainsFunc(drafts, func(d *draft) bool { return len(d.pool) > 0 }) {
		return
	}
	problem := r.slotProblem(f, drafts)
	if _, conflict := problem.Place(); conflict == nil {
		return
	}
	for _, d := range drafts {
		if len(d.pool) > 0 {
			d.needOfPool(false)
		}
	}
}

// rooms is the room there is over and under each row's slot, up to what other
// rows that share a bay ask for. Room between a row whose goods hang and one
// whose goods stand is shared between the two.
func rooms(f *Face, drafts []*draft) (over, under []measure.Length) {
	over, under = make([]measure.Length, len(drafts)), make([]measure.Length, len(drafts))
	lowest := make([]int, f.Bays) // 1 + index of the lowest row so far in each bay
	for i, d := range drafts {
		over[i], under[i] = f.Top-d.row.Height, d.row.Height-f.Deck
		from, to := f.baysOf(d.x0, d.x1)
		for bay := from; bay < to; bay++ {
			if up := lowest[bay] - 1; up >= 0 {
				u := drafts[up]
				spare := u.row.Height - u.below - d.row.Height - d.above
				down, rise := spare, spare
				if hanging(u.part.Kind) && !hanging(d.part.Kind) && (u.fill != nil || d.fill != nil) {
					down, rise = spare/2, spare/2
				}
				under[up] = min(under[up], u.below+down)
				over[i] = min(over[i], d.above+rise)
			}
			lowest[bay] = i + 1
		}
	}
	for i, d := range drafts {
		over[i], under[i] = max(over[i], d.above), max(under[i], d.below)
	}
	return over, under
}
