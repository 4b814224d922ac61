package solve

import "slices"

// visit is the work on one node.
type visit struct {
	*allotter
	node  *node
	c     *choices
	gone  []bool
	tally []int64 // how often each product was placed in each row, nowhere last
}

// byPrices bounds the node by prices on rooms and loads. It tells whether there is
// hope left.
func (v *visit) byPrices() bool {
	m, rounds := v.newMarket(), laterHaggle
	if v.node.depth == 0 {
		v.classes = v.twins()
		v.settle(v.c, v.node.prices)
		v.node.prices = v.haggle(v.c, v.node.prices, cutHaggle, m, nil)
		v.classes = nil
		v.trade(m, v.c, v.node.prices)
		v.improve(v.rowsOf(m.picks), v.node.prices)
		rounds = firstHaggle
	} else if v.node.fresh {
		rounds = cutHaggle
	}
	for {
		v.node.prices = v.haggle(v.c, v.node.prices, rounds, m, func(m *market) { v.note(m.picks) })
		v.node.bound = min(v.node.bound, m.bound)
		v.multiply(v.node.record, v.node.prices, nil)
		if m.bound < v.target() {
			return false
		}
		if _, broken := v.worstCut(); v.node.fresh && !v.plain && !broken {
			v.improve(v.usual(), v.node.prices)
			v.diveByPrices()
			v.polish()
		}
		v.strikeByPrices(v.c, m, v.gone)
		before := len(v.c.list)
		var ok bool
		if v.c, ok = v.prune(v.node, v.gone); !ok {
			return false
		}
		if len(v.c.list)*10 > before*9 {
			break
		}
		rounds = laterHaggle
	}
	if v.node.product == nil || v.node.fresh {
		v.trade(m, v.c, v.node.prices)
		v.node.product = slices.Clone(m.best)
	}
	return true
}

// note counts where products are placed.
func (v *visit) note(ids []int) {
	for _, id := range ids {
		o := &v.options[id]
		v.tally[v.slot(o.product, o.row)]++
	}
}

// slot is a product's place in tally.
func (v *visit) slot(product, row int) int {
	if row == nowhere {
		row = len(v.rows)
	}
	return product*(len(v.rows)+1) + row
}

// byContest bounds the node by prices on products, unless a chain is to be split
// first. It tells whether there is hope left.
func (v *visit) byContest() bool {
	if _, ok := v.worstCut(); ok {
		return true
	}
	t, load := v.newContest(), make([]int64, len(v.rows))
	for row := range v.rows {
		_, load[row] = v.unit(v.node.prices, row)
	}
	rounds, fresh := laterBid, v.node.fresh && !v.plain
	if fresh {
		v.setCells(v.c)
		rounds = int(min(firstBid, max(bidEffort/(int64(len(v.c.list))*v.cells), laterBid)))
	}
	v.node.fresh = false
	product := slices.Clone(v.node.product)
	for round := 0; ; round++ {
		clear(v.tally)
		v.setCells(v.c)
		v.bid(v.c, product, load, rounds, t, v.noteContest)
		v.multiply(v.node.record, v.node.prices, product)
		if t.bound < never/2 {
			return false
		}
		v.node.bound, v.node.product = min(v.node.bound, t.bound), product
		if t.bound < v.target() {
			return false
		}
		if round == 0 && fresh {
			v.improve(v.usual(), v.node.prices)
			v.diveByContest(load)
			v.rework()
		}
		if v.best == nil {
			v.improve(v.usual(), v.node.prices)
		}
		if t.bound < v.target() {
			return false
		}
		v.setCells(v.c)
		v.compete(t, v.c, product, load)
		v.strikeByContest(v.c, t, product, load, v.gone)
		before := len(v.c.list)
		var ok bool
		if v.c, ok = v.prune(v.node, v.gone); !ok {
			return false
		}
		if len(v.c.list)*10 > before*9 || v.spent() {
			return true
		}
		rounds = laterBid
	}
}

// noteContest counts where a contest places products.
func (v *visit) noteContest(t *contest) {
	v.note(t.ids)
	for p, n := range t.out {
		if n > 0 {
			v.tally[v.slot(p, nowhere)]++
		}
	}
}

// rowsOf gives the row of each product, by options of which a product may have
// none or several: the one of most value then.
func (v *visit) rowsOf(ids []int) []int {
	rows := make([]int, v.products())
	most := make([]int64, v.products())
	for p := range rows {
		rows[p] = nowhere
	}
	for _, id := range ids {
		if o := &v.options[id]; rows[o.product] == nowhere || o.value > most[o.product] {
			rows[o.product], most[o.product] = o.row, o.value
		}
	}
	return rows
}

// usual gives the row where each product was placed most often.
func (v *visit) usual() []int {
	rows := make([]int, v.products())
	for p := range rows {
		most := int64(-1)
		for _, id := range v.c.list[v.c.first[p]:v.c.first[p+1]] {
			r := v.options[id].row
			if t := v.tally[v.slot(p, r)]; t > most {
				rows[p], most = r, t
			}
		}
	}
	return rows
}

// settled tells whether all that is left open is how each row is filled, and then
// does that.
func (v *visit) settled() bool {
	rows := make([]int, v.products())
	for p := range rows {
		list := v.c.list[v.c.first[p]:v.c.first[p+1]]
		rows[p] = v.options[list[len(list)-1]].row
		if slices.ContainsFunc(list, func(id int) bool { r := v.options[id].row; return r != rows[p] && r != nowhere }) {
			return false
		}
	}
	if _, ok := v.openCut(); ok {
		return false
	}
	v.node.record.finish()
	v.finish()
	return true
}

// finish fills every row as well as can be with what the node leaves it.
func (v *visit) finish() {
	chosen := make([]int, v.products())
	for p := range chosen {
		chosen[p] = v.first[p]
	}
	for r := range v.rows {
		f := &rowFill{room: v.rows[r].Room, load: v.rows[r].Load}
		for _, g := range v.c.rows[r] {
			f.items = append(f.items, v.item(g))
		}
		ids, _, ok := f.solve()
		v.steps += f.steps * looks
		if !ok {
			return
		}
		for _, id := range ids {
			chosen[v.options[id].product] = id
		}
	}
	v.offerBest(chosen)
}

// item is a product in a row as the row's filling sees it.
func (v *visit) item(g group) []rowOption {
	var item []rowOption
	if v.canOmit(v.c, g.product) {
		item = append(item, rowOption{id: v.allotter.first[g.product]})
	}
	for _, id := range v.c.list[g.from:g.to] {
		o := &v.options[id]
		item = append(item, rowOption{o.width, o.weight, o.value, id})
	}
	return item
}

// solveRow solves a problem of one row.
func (s *allotter) solveRow() {
	n := s.beginning()
	if c, ok := s.left(n); ok {
		v := &visit{allotter: s, node: n, c: c}
		v.node.record.finish()
		v.finish()
	}
}

// offerBest keeps a choice when it is allowed and better than the best.
func (s *allotter) offerBest(chosen []int) {
	var value int64
	for _, id := range chosen {
		value += s.options[id].value
	}
	if s.best != nil && value <= s.value || !s.orderly(chosen) {
		return
	}
	s.value, s.best = value, slices.Clone(chosen)
}

// worstCut is the cut of a chain that was broken most often, if any was.
func (v *visit) worstCut() (worst cut, ok bool) {
	var most int64
	v.cuts(func(k cut) {
		var early, late int64
		for _, id := range v.c.list {
			o := &v.options[id]
			t := v.tally[v.slot(o.product, o.row)]
			if v.astray(o, k, false) {
				early += t
			} else if v.astray(o, k, true) {
				late += t
			}
		}
		if broken := min(early, late); broken > most {
			worst, most, ok = k, broken, true
		}
	})
	return worst, ok
}

// openCut is a cut that options left could break.
func (v *visit) openCut() (open cut, ok bool) {
	v.cuts(func(k cut) {
		early := slices.ContainsFunc(v.c.list, func(id int) bool { return v.astray(&v.options[id], k, false) })
		late := slices.ContainsFunc(v.c.list, func(id int) bool { return v.astray(&v.options[id], k, true) })
		if !ok && early && late {
			open, ok = k, true
		}
	})
	return open, ok
}

// split makes two nodes of one: at the cut broken most, else at the product
// most in doubt, else at a cut that is open.
func (v *visit) split() (likely, other *node) {
	if k, ok := v.worstCut(); ok {
		return v.splitCut(k)
	}
	if p, row, ok := v.doubtful(); ok {
		in := func(o *option) bool { return o.product == p && o.row == row }
		out := func(o *option) bool { return o.product == p && o.row != row }
		likely, other = v.half(out), v.half(in)
		likely.record, other.record = v.node.record.splitRow(p, row)
		return likely, other
	}
	k, _ := v.openCut()
	return v.splitCut(k)
}

// splitCut makes two nodes of one at a cut, the side that was kept more first.
func (v *visit) splitCut(k cut) (likely, other *node) {
	var count [2]int64
	for _, id := range v.c.list {
		o := &v.options[id]
		t := v.tally[v.slot(o.product, o.row)]
		if v.astray(o, k, false) {
			count[0] += t
		} else if v.astray(o, k, true) {
			count[1] += t
		}
	}
	early := v.half(func(o *option) bool { return v.astray(o, k, false) })
	late := v.half(func(o *option) bool { return v.astray(o, k, true) })
	early.record, late.record = v.writeCut(v.node.record, k)
	if count[0] > count[1] {
		return late, early
	}
	return early, late
}

// half is the node without the options that gone tells.
func (v *visit) half(gone func(*option) bool) *node {
	v.seq++
	h := &node{alive: slices.Clone(v.node.alive), bound: v.node.bound, prices: v.node.prices, product: v.node.product,
		depth: v.node.depth + 1, seq: v.seq, fresh: v.node.fresh}
	for _, id := range v.c.list {
		if gone(&v.options[id]) {
			h.alive[id/64] &^= 1 << (id % 64)
		}
	}
	return h
}

// doubtful finds the product that was placed most differently from time to time,
// and the row where it was most.
func (v *visit) doubtful() (product, row int, ok bool) {
	score := int64(-1)
	for p := range v.products() {
		list := v.c.list[v.c.first[p]:v.c.first[p+1]]
		top, total, at := int64(-1), int64(0), nowhere
		for i, id := range list {
			r := v.options[id].row
			if i > 0 && r == v.options[list[i-1]].row {
				continue
			}
			t := v.tally[v.slot(p, r)]
			total += t
			if t > top && r != nowhere {
				top, at = t, r
			}
		}
		rows := v.options[list[0]].row != v.options[list[len(list)-1]].row
		if !rows || at == nowhere {
			continue
		}
		if doubt := min(top, total-top); doubt > score {
			score, product, row, ok = doubt, p, at, true
		}
	}
	return product, row, ok
}
