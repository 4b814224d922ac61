package solve

import "slices"

// newFill begins a row's filling.
func (s *allotter) newFill(row int) *rowFill {
	return &rowFill{room: s.rows[row].Room, load: s.rows[row].Load}
}

// add adds a product with options to a row's filling; omit tells whether it may be
// left out.
func (s *allotter) add(f *rowFill, ids []int, omit bool) {
	var item []rowOption
	if omit {
		item = append(item, rowOption{id: s.first[s.options[ids[0]].product]})
	}
	for _, id := range ids {
		o := &s.options[id]
		item = append(item, rowOption{o.width, o.weight, o.value, id})
	}
	f.items = append(f.items, item)
}

// solveRow solves a problem of one row.
func (s *allotter) solveRow() {
	n := s.first1()
	c, ok := s.left(n)
	if !ok {
		return
	}
	v := &visit{allotter: s, node: n, c: c}
	v.node.record.finish()
	v.finish()
}

// plan is an allotment in the making: each product in a row or nowhere, each row
// filled as well as can be. A product that must be placed and is not costs lack.
type draft struct {
	*visit
	rows   []int // by product
	value  []int64
	filled [][]int // options by row
	lack   int64
}

// improve makes an allotment of wishes for rows and betters it by moving products.
func (v *visit) improve(wish []int) {
	d := &draft{visit: v, rows: slices.Clone(wish), value: make([]int64, len(v.rows)), filled: make([][]int, len(v.rows)), lack: v.cap/v.scale + 1}
	for r := range v.rows {
		d.value[r], d.filled[r] = d.refill(r, -1, -1)
	}
	d.drop()
	for d.insert() || d.shift() || d.swap() {
		if v.spent() && v.best != nil {
			break
		}
	}
	d.hand()
}

// options of a product in a row that the node leaves.
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

// refill fills a row with its products, less one and with another.
func (d *draft) refill(row, without, with int) (int64, []int) {
	f := d.newFill(row)
	for p, r := range d.rows {
		if (r != row || p == without) && p != with {
			continue
		}
		ids := d.optionsIn(p, row)
		if len(ids) == 0 {
			continue
		}
		item := []rowOption{{id: -1}}
		more := int64(0)
		if !d.canOmit(d.c, p) {
			more = d.lack
		}
		for _, id := range ids {
			o := &d.options[id]
			item = append(item, rowOption{o.width, o.weight, o.value + more, id})
		}
		f.items = append(f.items, item)
	}
	ids, value, _ := f.solve()
	d.steps += f.steps
	return value, slices.DeleteFunc(ids, func(id int) bool { return id < 0 })
}

// drop lets products go that their rows have no place for.
func (d *draft) drop() {
	placed := make([]bool, len(d.rows))
	for _, ids := range d.filled {
		for _, id := range ids {
			placed[d.options[id].product] = true
		}
	}
	for p := range d.rows {
		if !placed[p] {
			d.rows[p] = nowhere
		}
	}
}

// put moves products to rows if that betters the value of the rows touched.
func (d *draft) put(moves ...[2]int) bool {
	old := make([]int, len(moves))
	var touched []int
	touch := func(r int) {
		if r != nowhere && !slices.Contains(touched, r) {
			touched = append(touched, r)
		}
	}
	for i, m := range moves {
		old[i] = d.rows[m[0]]
		touch(old[i])
		touch(m[1])
		d.rows[m[0]] = m[1]
	}
	var gain int64
	value, filled := make([]int64, len(touched)), make([][]int, len(touched))
	for i, r := range touched {
		value[i], filled[i] = d.refill(r, -1, -1)
		gain += value[i] - d.value[r]
	}
	if gain <= 0 || !d.orderlyRows() {
		for i, m := range moves {
			d.rows[m[0]] = old[i]
		}
		return false
	}
	for i, r := range touched {
		d.value[r], d.filled[r] = value[i], filled[i]
	}
	d.drop()
	return true
}

func (d *draft) orderlyRows() bool {
	return true
}

func (d *draft) insert() (any bool) {
	for p, r := range d.rows {
		if r != nowhere {
			continue
		}
		for row := range d.value {
			if len(d.optionsIn(p, row)) > 0 && d.put([2]int{p, row}) {
				any = true
				break
			}
		}
	}
	return any
}

func (d *draft) shift() (any bool) {
	for p := range d.rows {
		for row := range d.value {
			if r := d.rows[p]; r != nowhere && row != r && len(d.optionsIn(p, row)) > 0 && d.put([2]int{p, row}) {
				any = true
			}
		}
	}
	return any
}

func (d *draft) swap() (any bool) {
	for p := range d.rows {
		for q := range p {
			a, b := d.rows[p], d.rows[q]
			if a == b || b != nowhere && len(d.optionsIn(p, b)) == 0 || a != nowhere && len(d.optionsIn(q, a)) == 0 {
				continue
			}
			if d.put([2]int{p, b}, [2]int{q, a}) {
				any = true
			}
		}
	}
	return any
}

func (d *draft) hand() {
	chosen := make([]int, len(d.rows))
	for p := range chosen {
		chosen[p] = -1
		if d.canOmit(d.c, p) {
			chosen[p] = d.first[p]
		}
	}
	for _, ids := range d.filled {
		for _, id := range ids {
			chosen[d.options[id].product] = id
		}
	}
	if !slices.Contains(chosen, -1) {
		d.offerBest(chosen)
	}
}
