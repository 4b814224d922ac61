package solve

// bid lowers the bound by moving the products' prices against how often each
// is placed, as haggle does. It changes product to the best prices and leaves their
// contest in t.
func (s *allotter) bid(c *choices, product []int64, load []int64, rounds int, t *contest, see func(*contest)) {
	at := append([]int64(nil), product...)
	bound, pace, idle := int64(1<<62), int64(256), 0
	if rounds < 100 {
		pace = 32
	}
	dir := make([]int64, len(at))
	for range rounds {
		s.compete(t, c, at, load)
		if t.bound < bound {
			bound, idle = t.bound, 0
			copy(product, at)
		} else if idle++; idle == 10 || idle == 5 && rounds < 100 {
			pace, idle = pace/2, 0
			copy(at, product)
			s.compete(t, c, at, load)
		}
		if bound < s.target() || bound < never/2 || pace < 1 || s.unanimous(t) || s.spent() {
			break
		}
		if see != nil {
			see(t)
		}
		s.outbid(at, t, dir, mulDiv(min(s.distance(t.bound), max(t.bound, -t.bound)/256+1), pace, 256))
	}
	s.compete(t, c, product, load)
}

// unanimous tells whether every product is placed once.
func (s *allotter) unanimous(t *contest) bool {
	for _, n := range t.count {
		if n != 1 {
			return false
		}
	}
	return true
}

// outbid moves prices by a step of such a length that the bound would fall by
// distance if it were straight.
func (s *allotter) outbid(product []int64, t *contest, dir []int64, distance int64) {
	const whole = 1 << 10
	var length int64
	for p, n := range t.count {
		dir[p] = (dir[p]*7 + (n-1)*whole*1) / 8
		length += dir[p] * dir[p]
	}
	if length == 0 {
		return
	}
	for p, d := range dir {
		if d != 0 {
			product[p] = max(min(product[p]+mulDiv(distance, d*whole, length), s.cap), -s.cap)
		}
	}
}

// strikeByContest marks the options with which no allotment can be better than the
// best, by what each forces on its row.
func (s *allotter) strikeByContest(c *choices, t *contest, product, load []int64, gone []bool) (any bool) {
	target := s.target()
	for r := range s.rows {
		size, _ := s.grid(r)
		s.lay(r, c, product, load[r], true)
		s.table(size)
		rest := t.bound - t.worth[r]
		s.force(size, func(o offer, worth int64) {
			if rest+worth-t.out[s.options[o.id].product] < target {
				gone[o.id], any = true, true
			}
		}, func(g filling, worth int64) {
			if rest+worth < target {
				any = s.keepOnly(c, g.product, r, gone) || any
			}
		})
	}
	for p := range s.products() {
		if s.canOmit(c, p) && t.bound-t.out[p]-product[p] < target {
			gone[c.list[c.first[p]]], any = true, true
		}
	}
	return any
}

// keepOnly marks a product's options outside a row.
func (s *allotter) keepOnly(c *choices, p, row int, gone []bool) (any bool) {
	for _, id := range c.list[c.first[p]:c.first[p+1]] {
		if s.options[id].row != row && !gone[id] {
			gone[id], any = true, true
		}
	}
	return any
}
