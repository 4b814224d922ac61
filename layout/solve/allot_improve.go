package solve

import "slices"

// improve makes an allotment of wishes for rows. While none is known and what must
// be placed finds no place, it tries again with dearer room and no wishes, so that
// products make do with less.
func (v *visit) improve(wish []int, p prices) {
	v.draft(wish, p)
	for tries := 0; v.best == nil && tries < 16; tries++ {
		p = p.clone()
		for r := range p.room {
			p.room[r] = min(p.room[r]/4*5, v.cap)
			p.load[r] = min(p.load[r]/4*5, v.cap)
		}
		v.draft(nil, p)
	}
}

// dive keeps products to the rows where they are nearly always placed, has again
// bound what is left, and so on until every product has its row.
func (v *visit) dive(again func(d *visit) (prices, bool)) {
	d := &visit{allotter: v.allotter, node: v.half(func(*option) bool { return false }), c: v.c, gone: make([]bool, len(v.gone)),
		tally: slices.Clone(v.tally)}
	for share := int64(15); !d.spent() && d.narrow(&share); {
		var ok bool
		if d.c, ok = d.prune(d.node, d.gone); !ok {
			return
		}
		clear(d.tally)
		prices, ok := again(d)
		if !ok {
			return
		}
		v.improve(d.usual(), prices)
	}
}

// narrow marks what keeps products to the rows where they are placed in share
// sixteenths of the times or, when there are none, in fewer; at last it settles the
// product most in doubt. It tells whether anything was open.
func (v *visit) narrow(share *int64) bool {
	for ; *share >= 8; *share-- {
		if v.commit(*share) {
			return true
		}
	}
	p, row, ok := v.doubtful()
	return ok && v.keepOnly(v.c, p, row, v.gone)
}

// diveByPrices is a dive that bounds by prices on rooms.
func (v *visit) diveByPrices() {
	m, p := v.newMarket(), v.node.prices
	v.dive(func(d *visit) (prices, bool) {
		p = d.haggle(d.c, p, 40, m, func(m *market) { d.note(m.picks) })
		return p, m.bound >= d.target()
	})
}

// diveByContest is a dive that bounds by prices on products.
func (v *visit) diveByContest(load []int64) {
	t, product := v.newContest(), slices.Clone(v.node.product)
	v.dive(func(d *visit) (prices, bool) {
		d.setCells(d.c)
		d.bid(d.c, product, load, 24, t, d.noteContest)
		return v.node.prices, t.bound >= never/2 && t.bound >= d.target()
	})
}

// commit marks what keeps products to the rows where they were placed in so many
// sixteenths of the times.
func (v *visit) commit(share int64) (any bool) {
	for p := range v.products() {
		list := v.c.list[v.c.first[p]:v.c.first[p+1]]
		var total int64
		for r := range len(v.rows) + 1 {
			total += v.tally[v.slot(p, r)]
		}
		for _, id := range list {
			if r := v.options[id].row; v.tally[v.slot(p, r)]*16 >= total*share && total > 0 {
				any = v.keepOnly(v.c, p, r, v.gone) || any
			}
		}
	}
	return any
}

// rework betters the best allotment: what differs from the usual rows is allotted
// anew, then pairs of rows are, until neither gains.
func (v *visit) rework() {
	for v.best != nil && !v.plain {
		usual := v.usual()
		free := func(p int) bool { return v.options[v.best[p]].row != usual[p] }
		gained := v.within(func(o *option) bool { return o.row == usual[o.product] }, free)
		for b := range v.rows {
			for a := range b {
				if v.spent() {
					return
				}
				if v.reworkRows(a, b) {
					gained = true
				}
			}
		}
		if !gained {
			return
		}
	}
}

// reworkRows allots two rows anew.
func (v *visit) reworkRows(a, b int) bool {
	in := func(r int) bool { return r == a || r == b || r == nowhere }
	return v.within(func(o *option) bool {
		if r := v.options[v.best[o.product]].row; !in(r) {
			return o.row == r
		}
		return in(o.row)
	}, func(int) bool { return false })
}

// within searches the part of the node where products keep to some options, but for
// those that are free or have none left.
func (v *visit) within(keep func(*option) bool, free func(p int) bool) bool {
	bound := make([]bool, v.products())
	for _, id := range v.c.list {
		o := &v.options[id]
		bound[o.product] = bound[o.product] || keep(o)
	}
	before := v.value
	h := v.half(func(o *option) bool { return bound[o.product] && !free(o.product) && !keep(o) })
	v.plain = true
	v.search(h, &nodes{}, v.steps+partEffort)
	v.plain = false
	return v.value > before
}

// partEffort is how long a part is worked at.
const partEffort = StepsPerSecond / 150

// polish betters the best allotment by moving one product to another row, or
// swapping two, and filling both rows anew, until nothing gains.
func (v *visit) polish() {
	if v.best == nil {
		return
	}
	d := &draft{visit: v, chosen: slices.Clone(v.best)}
	for gained := true; gained && !v.spent(); {
		gained = false
		for p := range d.chosen {
			for r := range d.rows {
				gained = d.move(p, r) || gained
			}
			for q := range p {
				gained = d.swap(p, q) || gained
			}
		}
		d.hand()
	}
}

// rowOf is the row where a product is, or nowhere.
func (d *draft) rowOf(p int) int { return d.options[d.chosen[p]].row }

// move puts a product in a row if that gains.
func (d *draft) move(p, row int) bool {
	from := d.rowOf(p)
	if row == from || len(d.optionsIn(p, row)) == 0 || d.spent() {
		return false
	}
	return d.try(func() {
		d.chosen[p] = d.optionsIn(p, row)[0]
	}, from, row)
}

// swap changes the rows of two products if that gains.
func (d *draft) swap(p, q int) bool {
	a, b := d.rowOf(p), d.rowOf(q)
	if a == b || d.spent() || b != nowhere && len(d.optionsIn(p, b)) == 0 || a != nowhere && len(d.optionsIn(q, a)) == 0 {
		return false
	}
	return d.try(func() {
		d.put(p, b)
		d.put(q, a)
	}, a, b)
}

// put places a product in a row or nowhere.
func (d *draft) put(p, row int) {
	if row == nowhere {
		d.chosen[p] = d.unplaced(p)
		return
	}
	d.chosen[p] = d.optionsIn(p, row)[0]
}

// try makes a change, fills the rows that it touches anew, and takes it back if that
// does not gain or what must be placed loses its place.
func (d *draft) try(change func(), rows ...int) bool {
	old := slices.Clone(d.chosen)
	change()
	var gain int64
	for p, id := range d.chosen {
		if id != old[p] {
			if id < 0 || d.options[id].row != nowhere && !d.fits(p, d.options[id].row) {
				d.chosen = old
				return false
			}
			gain += d.worth(id) - d.worth(old[p])
		}
	}
	for _, r := range rows {
		if r != nowhere {
			gain += d.fillWith(r, d.in(r))
		}
	}
	if gain <= 0 || slices.Contains(d.chosen, -1) {
		d.chosen = old
		return false
	}
	return true
}
