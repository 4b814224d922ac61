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

// ejectFrom makes place for p in a row.
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

// hand offers the draft as an allotment.
func (d *draft) hand() {
	if !slices.Contains(d.chosen, -1) {
		d.offerBest(d.chosen)
	}
}
