package boards

import (
	"math/bits"
	"slices"
)

// refill tries to cut all that is wanted by filling board after board, each time at
// values that were raised for the pieces that lay on badly filled boards or on none
// (sequential value correction: G. Belov and G. Scheithauer, INFORMS Journal on
// Computing 19, 2007, after E. A. Mukhacheva). What it finds is cheaper than a given cost
// and area.
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
