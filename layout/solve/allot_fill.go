package solve

// A row's table has at most so many cells: fewer while many options are left, as it
// must be filled often. A row with more units of room is tabled in larger cells,
// widths rounded down, which still bounds it from above.
const leastCells, mostCells, cellsOfAll = 1300, 8000, 2_500_000

// never is the worth of what cannot be. Sums of what can be stay above half of it.
const never = int64(-1 << 60)

// filler holds the tables with which rows are filled.
type filler struct {
	before [][]int64 // before[g][w]: the most that groups before g are worth in w cells
	after  []int64   // the same of the groups after one
	spare  []int64
	groups []filling
	offers []offer
}

// filling is a group as its row sees it.
type filling struct {
	product, from, to int // places in offers
	must              bool
}

// offer is an option's width in cells and its worth at the present prices.
type offer struct {
	id, width int
	worth     int64
}

// setCells makes the tables as fine as the number of options left allows.
func (s *allotter) setCells(c *choices) {
	s.cells = min(max(cellsOfAll/int64(len(c.list)+1), leastCells), mostCells)
}

// grid gives the size of a row's table and how many units a cell has.
func (s *allotter) grid(row int) (size int, unit int64) {
	room := s.rows[row].Room
	unit = room/s.cells + 1
	return int(room / unit), unit
}

// lay sets up a row's groups: what each option is worth less the product's price
// and less what its weight costs. With all, those worth nothing are laid too.
func (s *allotter) lay(row int, c *choices, product []int64, load int64, all bool) {
	f := &s.fill
	f.groups, f.offers = f.groups[:0], f.offers[:0]
	_, unit := s.grid(row)
	for _, g := range c.rows[row] {
		from, must := len(f.offers), c.fixed[g.product]
		for _, id := range c.list[g.from:g.to] {
			o := &s.options[id]
			if worth := s.scale*o.value - product[g.product] - load*o.weight; worth > 0 || must || all {
				f.offers = append(f.offers, offer{id, int(o.width / unit), worth})
			}
		}
		if len(f.offers) > from {
			f.groups = append(f.groups, filling{g.product, from, len(f.offers), must})
		}
	}
}

// table fills f.before for the groups laid, and gives the row's worth.
func (s *allotter) table(size int) int64 {
	f := &s.fill
	for len(f.before) <= len(f.groups) {
		f.before = append(f.before, nil)
	}
	f.before[0] = sized(f.before[0], size+1)
	clear(f.before[0])
	for i, g := range f.groups {
		f.before[i+1] = sized(f.before[i+1], size+1)
		s.take(f.before[i+1], f.before[i], g)
	}
	return f.before[len(f.groups)][size]
}

// take works out the worths with one group more.
func (s *allotter) take(into, from []int64, g filling) {
	if g.must {
		for w := range into {
			into[w] = never
		}
	} else {
		copy(into, from)
	}
	for _, o := range s.fill.offers[g.from:g.to] {
		if o.worth <= 0 && !g.must || o.width >= len(into) {
			continue
		}
		to, worth := into[o.width:], o.worth
		for w, v := range from[:len(to)] {
			to[w] = max(to[w], v+worth)
		}
	}
	s.steps += int64(len(into) * (g.to - g.from + 1))
}

// pick adds the options of the row's best filling to ids.
func (s *allotter) pick(size int, ids []int) []int {
	f := &s.fill
	w := size
	for i := len(f.groups) - 1; i >= 0; i-- {
		g, here := f.groups[i], f.before[i+1][w]
		if !g.must && here == f.before[i][w] {
			continue
		}
		for _, o := range f.offers[g.from:g.to] {
			if o.width <= w && f.before[i][w-o.width]+o.worth == here {
				ids, w = append(ids, o.id), w-o.width
				break
			}
		}
	}
	return ids
}

// force tells for every offer laid what the row is worth at most when it is taken,
// and for every group what it is worth when none of its offers is.
func (s *allotter) force(size int, taken func(o offer, worth int64), none func(g filling, worth int64)) {
	f := &s.fill
	f.after, f.spare = sized(f.after, size+1), sized(f.spare, size+1)
	clear(f.after)
	for i := len(f.groups) - 1; i >= 0; i-- {
		g := f.groups[i]
		for _, o := range f.offers[g.from:g.to] {
			if o.width <= size {
				taken(o, o.worth+joined(f.before[i][:size-o.width+1], f.after))
			}
		}
		if !g.must {
			none(g, joined(f.before[i], f.after))
		}
		s.take(f.spare, f.after, g)
		f.after, f.spare = f.spare, f.after
		s.steps += int64(size * (g.to - g.from + 1))
	}
}

// joined is the most that two tables are worth in as many cells as the first has.
func joined(before, after []int64) int64 {
	best, last := never, len(before)-1
	for w, v := range before {
		best = max(best, v+after[last-w])
	}
	return best
}

func sized(s []int64, n int) []int64 {
	if cap(s) < n {
		return make([]int64, n)
	}
	return s[:n]
}

// contest is what comes of prices on products: each row filled with what it
// likes best, and how often each product is then placed.
type contest struct {
	bound int64
	worth []int64 // of each row
	ids   []int   // of all rows
	count []int64 // by product, being left out included
	out   []int64 // what being left out is worth, by product
}

func (s *allotter) newContest() *contest {
	n, r := s.products(), len(s.rows)
	return &contest{worth: make([]int64, r), count: make([]int64, n), out: make([]int64, n)}
}

// compete has every row fill itself at prices of products, loads costing load
// a unit. Any prices give a bound.
func (s *allotter) compete(t *contest, c *choices, product []int64, load []int64) {
	t.bound, t.ids = 0, t.ids[:0]
	clear(t.count)
	for p := range s.products() {
		t.bound += product[p]
		if t.out[p] = 0; s.canOmit(c, p) && product[p] < 0 {
			t.out[p] = -product[p]
			t.bound += t.out[p]
			t.count[p]++
		}
	}
	for r, row := range s.rows {
		size, _ := s.grid(r)
		s.lay(r, c, product, load[r], false)
		t.worth[r] = s.table(size)
		t.ids = s.pick(size, t.ids)
		t.bound += t.worth[r]
		if row.Load != endlessLoad {
			t.bound += load[r] * row.Load
		}
		if t.worth[r] < never/2 {
			t.bound = never
			return
		}
	}
	for _, id := range t.ids {
		t.count[s.options[id].product]++
	}
}

// canOmit tells whether a product may still be left out.
func (s *allotter) canOmit(c *choices, p int) bool {
	return c.first[p] < c.first[p+1] && s.options[c.list[c.first[p]]].row == nowhere
}
