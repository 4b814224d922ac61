package solve

// choices are the options that a node of the search has left.
type choices struct {
	list  []int     // options by product
	first []int     // list[first[p]:first[p+1]] are product p's
	rows  [][]group // from and to are places in list
	fixed []bool    // by product: all that is left is in one row, and not left out
}

// prices are what the whole room and the whole load of each row cost, in parts of
// a value.
type prices struct{ room, load []int64 }

func (p prices) clone() prices {
	return prices{append([]int64(nil), p.room...), append([]int64(nil), p.load...)}
}

// unit gives the prices of a unit of a row's room and load.
func (s *allotter) unit(p prices, row int) (room, load int64) {
	if l := s.rows[row].Load; l != endlessLoad {
		load = p.load[row] / max(l, 1)
	}
	return p.room[row] / max(s.rows[row].Room, 1), load
}

// market is what comes of prices: each product's best option, and by how much
// the rows are over or under their limits then.
type market struct {
	bound int64
	picks []int
	best  []int64 // of each product, less the cost
	room  []int64 // left over by row, negative when over
	load  []int64
	unit  [][2]int64
}

func (s *allotter) newMarket() *market {
	n, r := s.products(), len(s.rows)
	return &market{picks: make([]int, n), best: make([]int64, n), room: make([]int64, r), load: make([]int64, r), unit: make([][2]int64, r)}
}

// trade has every product choose at prices. Any prices of nought or more give a
// bound.
func (s *allotter) trade(m *market, c *choices, p prices) {
	m.bound = 0
	for r, row := range s.rows {
		room, load := s.unit(p, r)
		m.unit[r] = [2]int64{room, load}
		m.room[r], m.load[r] = row.Room, max(row.Load, 0)
		m.bound += room * row.Room
		if row.Load != endlessLoad {
			m.bound += load * row.Load
		}
	}
	for product := range s.products() {
		best, at := int64(-1<<62), 0
		for _, id := range c.list[c.first[product]:c.first[product+1]] {
			if w := s.net(m, id); w > best {
				best, at = w, id
			}
		}
		m.best[product], m.picks[product] = best, at
		m.bound += best
		if o := &s.options[at]; o.row != nowhere {
			m.room[o.row] -= o.width
			m.load[o.row] -= o.weight
		}
	}
	s.pool(m)
	s.steps += int64(len(c.list)) * looks
}

// net is an option's value less what it costs.
func (s *allotter) net(m *market, id int) int64 {
	o := &s.options[id]
	if o.row == nowhere {
		return s.scale * o.value
	}
	return s.scale*o.value - m.unit[o.row][0]*o.width - m.unit[o.row][1]*o.weight
}

// settle finds first prices of each class of rows in turn: those at which its rows
// are just not overfull, the others as they are.
func (s *allotter) settle(c *choices, p prices) {
	m := s.newMarket()
	for range 2 {
		for _, class := range s.classes {
			s.settleOne(c, p, m, class, p.room, m.room)
			if s.rows[class[0]].Load != endlessLoad {
				s.settleOne(c, p, m, class, p.load, m.load)
			}
		}
	}
}

func (s *allotter) settleOne(c *choices, p prices, m *market, class []int, price, left []int64) {
	set := func(to int64) {
		for _, r := range class {
			price[r] = to
		}
	}
	lo, hi := int64(0), s.cap
	for hi-lo > s.cap>>26 {
		mid := lo + (hi-lo)/2
		set(mid)
		if s.trade(m, c, p); left[class[0]] >= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	set(hi)
}

// haggle lowers the bound by moving prices against what is left over or wanting
// (subgradient steps; M. Held, P. Wolfe and H. P. Crowder, Mathematical Programming 6,
// 1974). It gives the best prices and leaves their market in m.
func (s *allotter) haggle(c *choices, p prices, rounds int, m *market, see func(*market)) prices {
	best, bound, pace, idle := p.clone(), int64(1<<62), int64(256), 0
	p = p.clone()
	h := heading{make([]int64, len(s.rows)), make([]int64, len(s.rows))}
	for range rounds {
		s.trade(m, c, p)
		if m.bound < bound {
			bound, idle = m.bound, 0
			copy(best.room, p.room)
			copy(best.load, p.load)
		} else if idle++; idle == 6 {
			pace, idle = pace/2, 0
			copy(p.room, best.room)
			copy(p.load, best.load)
			s.trade(m, c, p)
		}
		if bound < s.target() || pace == 0 {
			break
		}
		if see != nil {
			see(m)
		}
		if length := s.turn(h, p, m); length > 0 {
			s.move(p, h, length, mulDiv(s.distance(m.bound), pace, 256))
		}
	}
	s.trade(m, c, best)
	return best
}

// distance is how far a bound may still fall.
func (s *allotter) distance(bound int64) int64 {
	if s.best == nil {
		return max(bound, -bound)/16 + 1
	}
	return max(bound-s.target(), 0) + 1
}

// heading is a direction that prices move in: part of the last one is kept, which
// steadies the way.
type heading struct{ room, load []int64 }

// turn bends the heading towards what is over (down) and wanting (up), each
// in parts of its row's limit. It gives the square of its length.
func (s *allotter) turn(h heading, p prices, m *market) (length int64) {
	bend := func(at *int64, price, left, limit int64) {
		over := -max(min(mulDiv(left, whole, max(limit, 1)), 64*whole), -64*whole)
		if *at = (*at*5 + over*3) / 8; price == 0 && *at < 0 {
			*at = 0
		}
		length += *at * *at
	}
	for r, row := range s.rows {
		bend(&h.room[r], p.room[r], m.room[r], row.Room)
		if row.Load != endlessLoad {
			bend(&h.load[r], p.load[r], m.load[r], row.Load)
		}
	}
	return length
}

// whole is one in the parts that headings are counted in.
const whole = 1 << 14

// move changes prices by a step of such a length that the bound would fall by
// distance if it were straight.
func (s *allotter) move(p prices, h heading, length, distance int64) {
	step := func(price *int64, way int64) {
		*price = min(max(*price+mulDiv(distance, way*whole, length), 0), s.cap)
	}
	for r := range s.rows {
		step(&p.room[r], h.room[r])
		step(&p.load[r], h.load[r])
	}
}

// strikeByPrices marks the options with which no allotment can be better than the
// best, by the market's bound.
func (s *allotter) strikeByPrices(c *choices, m *market, gone []bool) (any bool) {
	target := s.target()
	for _, id := range c.list {
		p := s.options[id].product
		if m.bound-m.best[p]+s.net(m, id) < target {
			gone[id], any = true, true
		}
	}
	return any
}
