package solve

import (
	"cmp"
	"slices"
)

// draft is an allotment in the making. What must be placed and is not yet costs
// lack, more than all values together.
type draft struct {
	*visit
	chosen []int // options by product, -1: not placed though it must be
	lack   int64
}

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

// draft makes one allotment. First each product goes to the row that it wishes for,
// or else where it is worth most after paying; then each row is filled as well as can
// be with its products, and what has no place goes where there is one.
func (v *visit) draft(wish []int, p prices) {
	d := &draft{visit: v, chosen: make([]int, v.products()), lack: v.cap/v.scale/64 + 1}
	for p := range d.chosen {
		d.chosen[p] = d.unplaced(p)
	}
	d.begin(wish, p)
	for r := range d.rows {
		d.fillWith(r, d.in(r))
	}
	d.insert()
	d.eject()
	d.hand()
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
		gained := v.within(func(o *option) bool {
			return v.options[v.best[o.product]].row == usual[o.product] && o.row == usual[o.product]
		},
			func(p int) bool { return v.options[v.best[p]].row != usual[p] })
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

// unplaced is what a product chooses that has no place.
func (d *draft) unplaced(p int) int {
	if d.canOmit(d.c, p) {
		return d.first[p]
	}
	return -1
}

// begin places the products, those first that must be placed and are wide, as
// far as room, load and chains let them.
func (d *draft) begin(wish []int, p prices) {
	m := d.newMarket()
	d.trade(m, d.c, p)
	room, load := make([]int64, len(d.rows)), make([]int64, len(d.rows))
	for r, row := range d.rows {
		room[r], load[r] = row.Room, row.Load
	}
	for _, p := range d.byNeed(m) {
		best, at := int64(-1<<62), -1
		for _, id := range d.c.list[d.c.first[p]:d.c.first[p+1]] {
			o, net := &d.options[id], d.net(m, id)
			if o.row != nowhere && (o.width > room[o.row] || load[o.row] != endlessLoad && o.weight > load[o.row]) {
				continue
			}
			if wish != nil && o.row == wish[p] {
				net += d.cap
			}
			if net > best && (o.row == nowhere || d.fits(p, o.row)) {
				best, at = net, id
			}
		}
		if at < 0 {
			continue
		}
		d.chosen[p] = at
		if o := &d.options[at]; o.row != nowhere {
			room[o.row] -= o.width
			if load[o.row] != endlessLoad {
				load[o.row] -= o.weight
			}
		}
	}
}

// byNeed lists the products: first those that must be placed, the widest first, then
// those that gain most.
func (d *draft) byNeed(m *market) []int {
	order, need := make([]int, d.products()), make([]int64, d.products())
	for p := range order {
		order[p], need[p] = p, m.best[p]
		if !d.canOmit(d.c, p) {
			list := d.c.list[d.c.first[p]:d.c.first[p+1]]
			need[p] = 1<<61 + d.options[list[0]].width
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(need[b], need[a]) })
	return order
}

// byValue lists the products, those of the most valuable options first.
func (d *draft) byValue() []int {
	order, value := make([]int, d.products()), make([]int64, d.products())
	for p := range order {
		order[p] = p
		for _, id := range d.c.list[d.c.first[p]:d.c.first[p+1]] {
			value[p] = max(value[p], d.options[id].value)
		}
		if !d.canOmit(d.c, p) {
			value[p] += d.lack
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(value[b], value[a]) })
	return order
}

// in lists the products placed in a row.
func (d *draft) in(row int) []int {
	var products []int
	for p, id := range d.chosen {
		if id >= 0 && d.options[id].row == row {
			products = append(products, p)
		}
	}
	return products
}

// optionsIn lists the options that the node leaves a product in a row.
func (v *visit) optionsIn(p, row int) []int {
	list := v.c.list[v.c.first[p]:v.c.first[p+1]]
	from := 0
	for from < len(list) && v.options[list[from]].row != row {
		from++
	}
	to := from
	for to < len(list) && v.options[list[to]].row == row {
		to++
	}
	return list[from:to]
}

// fits tells whether a product in a row keeps all chains with those placed.
func (d *draft) fits(product, row int) bool {
	for _, c := range d.chains {
		class := c.class[product]
		if class < 0 {
			continue
		}
		for p, id := range d.chosen {
			if id < 0 || p == product || d.options[id].row == nowhere || c.class[p] < 0 {
				continue
			}
			other := d.options[id].row
			if c.rank[other] < c.rank[row] && c.class[p] > class || c.rank[other] > c.rank[row] && c.class[p] < class {
				return false
			}
		}
	}
	return true
}

// fillWith fills a row as well as can be with some of products, the others lose
// their places. It gives the gain.
func (d *draft) fillWith(row int, products []int) int64 {
	f := &rowFill{room: d.rows[row].Room, load: d.rows[row].Load}
	var gain int64
	for _, p := range products {
		item := []rowOption{{id: d.unplaced(p)}}
		for _, id := range d.optionsIn(p, row) {
			o := &d.options[id]
			item = append(item, rowOption{o.width, o.weight, d.worth(id), id})
		}
		gain -= d.worth(d.chosen[p])
		f.items = append(f.items, item)
	}
	ids, value, _ := f.solve()
	d.steps += f.steps * looks
	for i, p := range products {
		d.chosen[p] = ids[i]
	}
	return gain + value
}

// worth is an option's value, more when the product must be placed.
func (d *draft) worth(id int) int64 {
	if id < 0 {
		return 0
	}
	o := &d.options[id]
	if o.row != nowhere && !d.canOmit(d.c, o.product) {
		return o.value + d.lack
	}
	return o.value
}

// insert tries every product without a place in every row.
func (d *draft) insert() {
	for _, p := range d.byValue() {
		for r := range d.rows {
			if d.chosen[p] != d.unplaced(p) {
				break
			}
			if len(d.optionsIn(p, r)) == 0 || !d.fits(p, r) {
				continue
			}
			old := slices.Clone(d.chosen)
			if d.fillWith(r, append(d.in(r), p)) <= 0 {
				d.chosen = old
			}
		}
	}
}

// eject makes place for what must be placed and is not, by moving a product out of
// a row and into another.
func (d *draft) eject() {
	for p := range d.chosen {
		for r := range d.rows {
			if d.chosen[p] >= 0 {
				break
			}
			if len(d.optionsIn(p, r)) > 0 && d.fits(p, r) {
				d.ejectFrom(p, r)
			}
		}
	}
}

func (d *draft) ejectFrom(p, row int) {
	for _, q := range d.in(row) {
		old := slices.Clone(d.chosen)
		lost := d.worth(d.chosen[q])
		d.chosen[q] = d.unplaced(q)
		gain := d.fillWith(row, append(d.in(row), p)) - lost
		for r := range d.rows {
			if d.chosen[q] != d.unplaced(q) || d.chosen[p] < 0 {
				break
			}
			if r != row && len(d.optionsIn(q, r)) > 0 && d.fits(q, r) {
				before := slices.Clone(d.chosen)
				if more := d.fillWith(r, append(d.in(r), q)); more > 0 {
					gain += more
				} else {
					d.chosen = before
				}
			}
		}
		if gain > 0 {
			return
		}
		d.chosen = old
	}
}

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

// hand offers the draft as an allotment.
func (d *draft) hand() {
	if !slices.Contains(d.chosen, -1) {
		d.offerBest(d.chosen)
	}
}
