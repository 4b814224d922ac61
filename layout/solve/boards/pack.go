package boards

import "slices"

// pack cuts all that is wanted from at most so many of each board: it takes whole boards
// from the linear program's answer, fills board after board with what is then left, and
// takes more from the program to see whether that does better (diving). Boards to be filled
// are chosen by what they hold for what they pay. It gives the cheapest way it finds, or
// nil, or the first of all.
func (s *solver) pack(r *relaxation, counts []int, pays []int64, first bool) []pile {
	wanted, limits := s.wanted(), slices.Clone(counts)
	var fixed, best []pile
	least := [2]int64{dear, dear}
	for {
		taken := s.take(r, wanted, limits)
		fixed = append(fixed, taken...)
		spent, tries := s.spent(fixed), s.tries(wanted)
		if !first {
			tries = min(tries, 2)
		}
		if best != nil && s.demand(wanted) > fewBoards*worthOne {
			tries = 0
		}
		if rest := s.refill(wanted, limits, pays, tries, [2]int64{least[0] - spent[0], least[1] - spent[1]}); rest != nil {
			best = slices.Concat(fixed, rest)
			least = s.spent(best)
		}
		done := !slices.ContainsFunc(wanted, positive) || !slices.ContainsFunc(limits, positive)
		if done || best != nil && first || s.steps > s.effort {
			return best
		}
		r = s.relax(wanted, limits, r.cost)
		if len(taken) == 0 {
			one := s.takeOne(r, wanted, limits)
			if one == nil {
				return best
			}
			fixed = append(fixed, *one)
		}
	}
}

// cheaper compares by cost and then by area.
func cheaper(p, q [2]int64) bool { return p[0] < q[0] || p[0] == q[0] && p[1] < q[1] }

func positive(n int) bool { return n > 0 }

// tries is how many times the rest is worth filling: the fewer pieces the more.
func (s *solver) tries(wanted []int) int {
	n := 0
	for _, w := range wanted {
		n += w
	}
	return max(2, min(60, 1200/(n+1)))
}

// wanted counts the pieces of each kind.
func (s *solver) wanted() []int {
	n := make([]int, len(s.shop.kinds))
	for k := range n {
		n[k] = s.shop.kinds[k].count
	}
	return n
}

// take fixes the whole boards of a program's answer and takes them off what is wanted
// and what there is.
func (s *solver) take(r *relaxation, wanted, limits []int) []pile {
	var piles []pile
	for i, column := range r.columns {
		times := int(r.program.Value(column) + 1e-6)
		if times == 0 {
			continue
		}
		if p := s.cut(s.pool[i], times, wanted, limits); p.times > 0 {
			piles = append(piles, p)
		}
	}
	return piles
}

// cut cuts a layout some times, as long as all its pieces are wanted.
func (s *solver) cut(u use, times int, wanted, limits []int) pile {
	times = min(times, limits[u.board])
	for k, n := range u.counts {
		if n > 0 {
			times = min(times, wanted[k]/n)
		}
	}
	for k, n := range u.counts {
		wanted[k] -= n * times
	}
	limits[u.board] -= times
	return pile{u, times}
}

// takeOne fixes one board of the layout that the program uses most, without what is no
// longer wanted.
func (s *solver) takeOne(r *relaxation, wanted, limits []int) *pile {
	best, most := -1, 1e-6
	for i, column := range r.columns {
		if v := r.program.Value(column); v > most && limits[s.pool[i].board] > 0 {
			best, most = i, v
		}
	}
	if best < 0 {
		return nil
	}
	u := s.pool[best]
	l := u.layout.within(s.lies, wanted)
	if l == nil {
		return nil
	}
	limits[u.board]--
	return &pile{s.use(l, u.board), 1}
}

// use counts what a layout gives.
func (s *solver) use(l *block, b int) use {
	counts := make([]int, len(s.shop.kinds))
	l.count(s.lies, counts)
	return use{b, l, counts}
}
