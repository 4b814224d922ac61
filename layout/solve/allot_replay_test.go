package solve

import (
	"errors"
	"fmt"
	"slices"
)

// replay checks a Proof with nothing but what Proof and Allot say: it shares no
// code with the search.
type replay struct {
	a           Allot
	p           *Proof
	need        int64   // what a bound must reach for a part to hold anything better, times scale
	room, load  []int64 // in units and parts, load -1: no limit
	wide, heavy [][]int64
}

// state is what a part has left: options by product, and whether each product
// may be left out.
type state struct {
	alive [][]bool
	omit  []bool
}

// replayProof tells what is wrong with a proof that no allotment is worth more than
// bound, or, with none, that there is no allotment.
func replayProof(a Allot, p *Proof, bound int64, none bool) error {
	r := &replay{a: a, p: p, need: (bound + 1) * p.Scale}
	if none {
		r.need = r.least() * p.Scale
	}
	s := state{omit: make([]bool, len(a.Products))}
	for i, product := range a.Products {
		s.omit[i] = !product.Must
		alive := make([]bool, len(product.Options))
		for o, option := range product.Options {
			alive[o] = r.possible(option)
		}
		s.alive = append(s.alive, alive)
	}
	if err := r.measure(s); err != nil {
		return err
	}
	return r.part(p.Root, s)
}

// least is what every allotment is worth at least.
func (r *replay) least() int64 {
	var sum int64
	for _, product := range r.a.Products {
		least := int64(-1)
		for _, o := range product.Options {
			if product.Must && r.possible(o) && (least < 0 || o.Value < least) {
				least = o.Value
			}
		}
		sum += max(least, 0)
	}
	return sum
}

func (r *replay) possible(o AllotOption) bool {
	if o.Row < 0 || o.Row >= len(r.a.Rows) || o.Width < 0 || o.Weight < 0 || o.Width > r.a.Rows[o.Row].Room {
		return false
	}
	return r.a.Rows[o.Row].Load == 0 || o.Weight <= r.a.Rows[o.Row].Load
}

// measure turns widths and weights into units and parts.
func (r *replay) measure(s state) error {
	sum := make([]int64, len(r.a.Rows))
	for p, product := range r.a.Products {
		wide, heavy := make([]int64, len(product.Options)), make([]int64, len(product.Options))
		widest := make([]int64, len(r.a.Rows))
		for i, o := range product.Options {
			if !s.alive[p][i] {
				continue
			}
			unit, part := r.p.Unit[o.Row], r.p.Part[o.Row]
			if unit < 1 || part < 1 || o.Width%unit != 0 || o.Weight%part != 0 {
				return fmt.Errorf("units %d and %d do not divide %+v", unit, part, o)
			}
			wide[i], heavy[i] = o.Width/unit, o.Weight/part
			widest[o.Row] = max(widest[o.Row], o.Width)
		}
		for row, w := range widest {
			sum[row] += w
		}
		r.wide, r.heavy = append(r.wide, wide), append(r.heavy, heavy)
	}
	for i, row := range r.a.Rows {
		r.room = append(r.room, max(min(row.Room, sum[i]), 0)/r.p.Unit[i])
		load := int64(-1)
		if row.Load > 0 {
			load = row.Load / r.p.Part[i]
		}
		r.load = append(r.load, load)
	}
	return nil
}

// part checks a node.
func (r *replay) part(n *ProofNode, s state) error {
	if n == nil {
		return errors.New("a part is left open")
	}
	if r.chains(s) {
		return nil
	}
	for _, prices := range n.Prices {
		var done bool
		if prices.Product == nil {
			done = r.byRoom(prices, s)
		} else {
			done = r.byProduct(prices, s)
		}
		if done || r.chains(s) {
			return nil
		}
	}
	switch {
	case n.Fill:
		return r.fill(s)
	case n.Row != nil:
		in, out := s.clone(), s
		in.omit[n.Row.Product] = false
		for i, o := range r.a.Products[n.Row.Product].Options {
			if o.Row == n.Row.Row {
				out.alive[n.Row.Product][i] = false
			} else {
				in.alive[n.Row.Product][i] = false
			}
		}
		return errors.Join(r.part(n.Parts[0], in), r.part(n.Parts[1], out))
	case n.Cut != nil:
		early, late := s.clone(), s
		c := r.a.Chains[n.Cut.Chain]
		r.each(s, func(p, i int, o AllotOption) {
			class, rank := c.Class[p], c.Rank[o.Row]
			if class >= 0 && class <= n.Cut.Class && rank > n.Cut.Rank {
				early.alive[p][i] = false
			}
			if class >= 0 && class > n.Cut.Class && rank <= n.Cut.Rank {
				late.alive[p][i] = false
			}
		})
		return errors.Join(r.part(n.Parts[0], early), r.part(n.Parts[1], late))
	}
	return errors.New("a part is neither done with nor split")
}

func (s state) clone() state {
	c := state{omit: slices.Clone(s.omit)}
	for _, alive := range s.alive {
		c.alive = append(c.alive, slices.Clone(alive))
	}
	return c
}

// each calls do with every option left.
func (r *replay) each(s state, do func(p, i int, o AllotOption)) {
	for p, alive := range s.alive {
		for i, a := range alive {
			if a {
				do(p, i, r.a.Products[p].Options[i])
			}
		}
	}
}

// chains strikes out what no order allows beside the products sure to be placed,
// and tells whether some product has nothing left.
func (r *replay) chains(s state) (empty bool) {
	for again := true; again; {
		again = false
		for p, alive := range s.alive {
			if s.omit[p] {
				continue
			}
			if !slices.Contains(alive, true) {
				return true
			}
			r.each(s, func(q, i int, o AllotOption) {
				if q != p && !r.possibleBeside(s, p, q, o) {
					s.alive[q][i], again = false, true
				}
			})
		}
	}
	return false
}

// possibleBeside tells whether product p has an option left that keeps all chains
// with one of product q, each chain on its own.
func (r *replay) possibleBeside(s state, p, q int, o AllotOption) bool {
	for _, c := range r.a.Chains {
		if c.Class[p] < 0 || c.Class[q] < 0 || c.Class[p] == c.Class[q] {
			continue
		}
		some := false
		for i, alive := range s.alive[p] {
			if !alive {
				continue
			}
			mine, other := c.Rank[r.a.Products[p].Options[i].Row], c.Rank[o.Row]
			some = some || (c.Class[p] < c.Class[q] && mine <= other || c.Class[p] > c.Class[q] && mine >= other)
		}
		if !some {
			return false
		}
	}
	return true
}

// byRoom checks prices of rooms and loads, and tells whether the part is done with.
func (r *replay) byRoom(prices ProofPrices, s state) bool {
	bound := r.sales(prices, true)
	net := func(p, i int) int64 {
		o := r.a.Products[p].Options[i]
		return o.Value*r.p.Scale - prices.Room[o.Row]*r.wide[p][i] - prices.Load[o.Row]*r.heavy[p][i]
	}
	best := make([]int64, len(s.alive))
	for p, alive := range s.alive {
		best[p] = -1 << 60
		if s.omit[p] {
			best[p] = 0
		}
		for i, a := range alive {
			if a {
				best[p] = max(best[p], net(p, i))
			}
		}
		bound += best[p]
	}
	if bound < r.need {
		return true
	}
	for p := range s.alive {
		s.omit[p] = s.omit[p] && bound-best[p] >= r.need
	}
	r.each(s, func(p, i int, o AllotOption) {
		s.alive[p][i] = bound-best[p]+net(p, i) >= r.need
	})
	return false
}

// sales is what the rows get for all their load, and with room for all of that.
func (r *replay) sales(prices ProofPrices, room bool) (sum int64) {
	for row := range r.a.Rows {
		if prices.Room[row] < 0 || prices.Load[row] < 0 {
			panic("a price is negative")
		}
		if r.load[row] < 0 && prices.Load[row] != 0 {
			panic("a price of what is not limited")
		}
		sum += prices.Load[row] * max(r.load[row], 0)
		if room {
			sum += prices.Room[row] * r.room[row]
		}
	}
	return sum
}

// shelf is a row's options after paying, by product.
type shelf struct {
	products []int
	must     []bool
	options  [][]int
	worth    [][]int64
	row      int
}

// shelf gathers a row's options.
func (r *replay) shelf(prices ProofPrices, s state, row int) shelf {
	h := shelf{row: row}
	for p, alive := range s.alive {
		var options []int
		var worth []int64
		must := !s.omit[p]
		for i, a := range alive {
			o := r.a.Products[p].Options[i]
			if !a {
				continue
			}
			if o.Row != row {
				must = false
				continue
			}
			options = append(options, i)
			worth = append(worth, o.Value*r.p.Scale-prices.Product[p]-prices.Load[row]*r.heavy[p][i])
		}
		if len(options) > 0 {
			h.products, h.must = append(h.products, p), append(h.must, must)
			h.options, h.worth = append(h.options, options), append(h.worth, worth)
		}
	}
	return h
}

const replayNever = int64(-1 << 60)

// add is a table of a row's worth with one product more.
func (r *replay) add(table []int64, h shelf, k int) []int64 {
	next := slices.Clone(table)
	if h.must[k] {
		for w := range next {
			next[w] = replayNever
		}
	}
	for j, i := range h.options[k] {
		wide := int(r.wide[h.products[k]][i])
		for w := wide; w < len(table); w++ {
			next[w] = max(next[w], table[w-wide]+h.worth[k][j])
		}
	}
	return next
}

// byProduct checks prices of products, and tells whether the part is done with.
func (r *replay) byProduct(prices ProofPrices, s state) bool {
	bound := r.sales(prices, false)
	out := make([]int64, len(s.alive))
	for p := range s.alive {
		if s.omit[p] {
			out[p] = max(0, -prices.Product[p])
		}
		bound += prices.Product[p] + out[p]
	}
	var shelves []shelf
	var before, after [][][]int64
	var worth []int64
	for row := range r.a.Rows {
		h := r.shelf(prices, s, row)
		n, size := len(h.products), r.room[row]+1
		b, a := make([][]int64, n+1), make([][]int64, n+1)
		b[0], a[n] = make([]int64, size), make([]int64, size)
		for k := range n {
			b[k+1] = r.add(b[k], h, k)
			a[n-1-k] = r.add(a[n-k], h, n-1-k)
		}
		if b[n][size-1] < replayNever/2 {
			return true
		}
		shelves, before, after, worth = append(shelves, h), append(before, b), append(after, a), append(worth, b[n][size-1])
		bound += b[n][size-1]
	}
	if bound < r.need {
		return true
	}
	next := s.clone()
	for row, h := range shelves {
		for k, p := range h.products {
			rest := func(wide int64) int64 {
				best, size := replayNever, r.room[row]-wide
				for w := int64(0); w <= size; w++ {
					best = max(best, before[row][k][w]+after[row][k+1][size-w])
				}
				return best
			}
			for j, i := range h.options[k] {
				if bound-worth[row]-out[p]+h.worth[k][j]+rest(r.wide[p][i]) < r.need {
					next.alive[p][i] = false
				}
			}
			if !h.must[k] && bound-worth[row]+rest(0) < r.need {
				next.omit[p] = false
				for i, o := range r.a.Products[p].Options {
					next.alive[p][i] = next.alive[p][i] && o.Row == row
				}
			}
		}
	}
	for p := range s.alive {
		if s.omit[p] && bound-out[p]-prices.Product[p] < r.need {
			next.omit[p] = false
		}
	}
	for p := range s.alive {
		copy(s.alive[p], next.alive[p])
	}
	copy(s.omit, next.omit)
	return false
}

// fill checks a part in which each row is filled on its own.
func (r *replay) fill(s state) error {
	var err error
	r.each(s, func(p, i int, o AllotOption) {
		r.each(s, func(q, j int, other AllotOption) {
			if p == q && o.Row != other.Row {
				err = fmt.Errorf("product %d may be in rows %d and %d", p, o.Row, other.Row)
			}
			for _, c := range r.a.Chains {
				if c.Class[p] >= 0 && c.Class[p] < c.Class[q] && c.Rank[o.Row] > c.Rank[other.Row] {
					err = fmt.Errorf("products %d and %d may be out of order", p, q)
				}
			}
		})
	})
	if err != nil {
		return err
	}
	var total int64
	for row := range r.a.Rows {
		value, ok := r.fillRow(s, row)
		if !ok {
			return nil
		}
		total += value
	}
	if total*r.p.Scale >= r.need {
		return fmt.Errorf("a part holds an allotment worth %d", total)
	}
	return nil
}

// fillRow fills a row with what is left, by going through all sums of width and
// weight.
func (r *replay) fillRow(s state, row int) (int64, bool) {
	sums := map[[2]int64]int64{{}: 0}
	for p, alive := range s.alive {
		next := map[[2]int64]int64{}
		keep := func(at [2]int64, value int64) {
			if old, ok := next[at]; !ok || value > old {
				next[at] = value
			}
		}
		elsewhere := true
		for i, a := range alive {
			elsewhere = elsewhere && !(a && r.a.Products[p].Options[i].Row == row)
		}
		for at, value := range sums {
			if s.omit[p] || elsewhere {
				keep(at, value)
			}
			for i, o := range r.a.Products[p].Options {
				to := [2]int64{at[0] + r.wide[p][i], at[1] + r.heavy[p][i]}
				if alive[i] && o.Row == row && to[0] <= r.room[row] && (r.load[row] < 0 || to[1] <= r.load[row]) {
					keep(to, value+o.Value)
				}
			}
		}
		sums = next
	}
	best, ok := int64(0), false
	for _, value := range sums {
		if !ok || value > best {
			best, ok = value, true
		}
	}
	return best, ok
}
