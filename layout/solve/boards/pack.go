package boards

import (
	"math/bits"
	"slices"
)

// pack cuts all that is wanted from at most so many of each board: it takes whole boards
// from the linear program's answer, fills board after board with what is then left, and
// takes more from the program to see whether that does better (diving). Boards to be filled
// are chosen by what they hold for what they pay. It gives the cheapest way it finds, or
// nil; if any will do, the first.
func (s *solver) pack(r *relaxation, counts []int, pays []int64, any bool) []pile {
	wanted, limits := s.wanted(), slices.Clone(counts)
	var fixed, best []pile
	least := [2]int64{dear, dear}
	for {
		taken := s.take(r, wanted, limits)
		fixed = append(fixed, taken...)
		spent, tries := s.spent(fixed), s.tries(wanted)
		if !any {
			tries = min(tries, 2)
		}
		if best != nil && s.demand(wanted) > fewBoards*worthOne {
			tries = 0
		}
		if rest := s.refill(wanted, limits, pays, tries, [2]int64{least[0] - spent[0], least[1] - spent[1]}); rest != nil {
			best = slices.Concat(fixed, rest)
			least = s.spent(best)
		}
		if best != nil && any || !slices.ContainsFunc(wanted, positive) || !slices.ContainsFunc(limits, positive) || s.steps > s.effort {
			return best
		}
		r, _ = s.relax(wanted, limits, r.cost)
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

// refill tries to cut all that is wanted by filling board after board, each time at
// values that were raised for the pieces that lay on badly filled boards or on none
// (sequential value correction: G. Belov and G. Scheithauer, INFORMS Journal on
// Computing 19, 2007, after E. A. Mukhacheva).
// What it finds is cheaper than a given cost and area.
func (s *solver) refill(wanted, limits []int, pays []int64, tries int, than [2]int64) []pile {
	value := slices.Clone(s.share)
	for range tries {
		left, boards := slices.Clone(wanted), slices.Clone(limits)
		piles := []pile{}
		for slices.ContainsFunc(left, positive) && s.roomFor(left, boards) && cheaper(s.spent(piles), than) {
			p, used := s.fillNext(value, left, boards, pays)
			if p == nil {
				break
			}
			if !slices.ContainsFunc(boards, positive) && slices.ContainsFunc(left, positive) {
				p = s.instead(p, left)
			}
			s.correct(value, p, used)
			piles = append(piles, *p)
			if more := s.again(p.use, left, boards); more.times > 0 {
				piles = append(piles, more)
			}
		}
		if !slices.ContainsFunc(left, positive) && cheaper(s.spent(piles), than) {
			return piles
		}
		for k, n := range left {
			if n > 0 {
				value[k] += value[k] / 4
			}
		}
		if s.steps > s.effort {
			break
		}
	}
	return nil
}

// fewBoards is how many boards of the largest size what is left may take to be filled
// more than once.
const fewBoards = 12

// demand is the area of what is wanted.
func (s *solver) demand(wanted []int) (sum int64) {
	for k, n := range wanted {
		sum += int64(n) * s.share[k]
	}
	return sum
}

// again cuts a layout for half of what is left, as far as it goes, where filling boards one
// by one would take too long.
func (s *solver) again(u use, left, boards []int) pile {
	total, times := 0, boards[u.board]
	for k, n := range left {
		if total += n; u.counts[k] > 0 {
			times = min(times, n/u.counts[k])
		}
	}
	if total < manyPieces {
		times = 0
	}
	return s.cut(u, times/2, left, boards)
}

// manyPieces is when pieces are too many to fill boards one by one.
const manyPieces = 2000

// roomFor tells whether boards have the area of what is wanted.
func (s *solver) roomFor(wanted, boards []int) bool {
	room := int64(0)
	for b, n := range boards {
		room += int64(n) * (s.room[b] + 1)
	}
	return s.demand(wanted) <= room
}

// worthOne is the value of a piece that is as large as the largest board.
const worthOne = 1 << 24

// alone puts a single piece on a board: where sizes are rounded, filling may miss it.
func (s *solver) alone(b int, left []int) (*block, []int) {
	for i, l := range s.lies {
		if left[l.kind] > 0 && s.shop.holds(s.shop.boards[b], l.size) {
			after := slices.Clone(left)
			after[l.kind]--
			return &block{lie: i}, after
		}
	}
	return nil, nil
}

// areaShare is the area of one size in parts of another's, worthOne being all of it.
func areaShare(part, of [2]int64) int64 {
	hi, lo := bits.Mul64(uint64(part[along]), uint64(part[across]))
	ofHi, ofLo := bits.Mul64(uint64(of[along]), uint64(of[across]))
	for hi > 0 || ofHi > 0 || lo >= 1<<38 || ofLo >= 1<<38 {
		lo, ofLo = lo>>1|hi<<63, ofLo>>1|ofHi<<63
		hi, ofHi = hi>>1, ofHi>>1
	}
	return int64(lo * worthOne / max(ofLo, 1))
}

// fillNext fills the board that can be filled best for what it pays and tells what part
// of it is used.
func (s *solver) fillNext(value []int64, left, limits []int, pays []int64) (*pile, int64) {
	best, most := pile{times: 1}, int64(0)
	var rest []int
	for b, n := range limits {
		if n == 0 {
			continue
		}
		after := slices.Clone(left)
		l := s.short.fillBoard(b, value, after)
		if l == nil || !s.shop.fits(s.lies, l, b) {
			if l, after = s.alone(b, left); l == nil {
				continue
			}
		}
		u := s.use(l, b)
		if used := s.used(u); most == 0 || more(used, pays[best.board], most, pays[b]) {
			best.use, most, rest = u, used, after
		}
	}
	if most == 0 {
		return nil, 0
	}
	copy(left, rest)
	limits[best.board]--
	return &best, most * worthOne / s.room[best.board]
}

// used is the area of the pieces of a layout in parts of the largest board's.
func (s *solver) used(u use) int64 {
	sum := int64(0)
	for k, n := range u.counts {
		sum += int64(n) * s.share[k]
	}
	return sum
}

// correct moves the values of the pieces on a board towards what they would be if they
// had to pay for all of it.
func (s *solver) correct(value []int64, p *pile, used int64) {
	for k, n := range p.counts {
		if n > 0 {
			pays := s.share[k] * worthOne / max(used, 1)
			value[k] = max((2*value[k]+pays)/3, 1)
		}
	}
}

// instead tries to cut all that is left, and what a layout has, from that layout's board.
func (s *solver) instead(p *pile, left []int) *pile {
	all := slices.Clone(left)
	for k, n := range p.counts {
		all[k] += n
	}
	if s.demand(all) > s.room[p.board] {
		return p
	}
	l := s.last(p.board, all)
	if l == nil {
		return p
	}
	clear(left)
	return &pile{s.use(l, p.board), 1}
}

// last tries to cut all that is left from one board, by a search that finds a way if there
// is one and the search is short.
func (s *solver) last(b int, left []int) *block {
	sub := &shop{job: s.shop.job, stages: s.shop.stages, boards: s.shop.boards[b : b+1]}
	var value []int64
	var lies []int // of ours, by lie of sub
	sum := int64(0)
	for k, n := range left {
		if n == 0 {
			continue
		}
		for i, l := range s.lies {
			if l.kind == k {
				sub.lies = append(sub.lies, lie{len(sub.kinds), l.size})
				lies = append(lies, i)
			}
		}
		of := s.shop.kinds[k]
		of.count = n
		sub.kinds, value = append(sub.kinds, of), append(value, s.share[k])
		sum += int64(n) * s.share[k]
	}
	f := newSingle(sub, value, sum-1)
	if f == nil {
		return nil
	}
	l, _, _ := f.run(shortSearch)
	s.steps += f.steps
	if l == nil {
		return nil
	}
	return l.renumbered(lies)
}

// shortSearch is how many steps are spent on one board.
const shortSearch = 300_000
