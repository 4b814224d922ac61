package boards

import (
	"math/bits"
	"slices"
)

// need is a cut of the proof in the solver's terms: boards hold so much at most, and
// all that is wanted is worth demand.
type need struct {
	value  []int64 // by kind
	holds  []int64 // by board of the shop
	demand int64
}

// chooser finds the cheapest numbers of boards that meet every need.
type chooser struct {
	shop  *shop
	needs []need
	tried [][]int // numbers that no layouts were found for

	counts []int
	best   []int
	cost   [2]int64 // of best: cost and then area
	nodes  int
}

// mostNodes ends a choice that has become too long; the bound is then a weaker one.
const mostNodes = 1 << 20

// choose gives the numbers of boards that cost least, of these the ones with the least
// area, among all that are better than a cost and area known already and were not tried.
// It gives nil if there are none, and whole is false if it was cut short.
func (c *chooser) choose(known [2]int64) (best []int, whole bool) {
	c.counts, c.best, c.nodes, c.cost = make([]int, len(c.shop.boards)), nil, 0, known
	c.visit(0, c.demands(), [2]int64{})
	return c.best, c.nodes < mostNodes
}

func (c *chooser) demands() []int64 {
	left := make([]int64, len(c.needs))
	for i, n := range c.needs {
		left[i] = n.demand
	}
	return left
}

// bound is what no numbers of boards that meet all needs can cost less than, or dear if
// none meet them.
func (c *chooser) bound() int64 {
	all := chooser{shop: c.shop, needs: c.needs}
	if _, whole := all.choose([2]int64{dear, dear}); whole {
		return all.cost[0]
	}
	all.counts = make([]int, len(c.shop.boards))
	return all.least(0, all.demands(), [2]int64{})[0]
}

// dear is more than any plan costs, and twice as much is no overflow yet.
const dear = int64(1) << 62

// visit chooses the number of board b and of all after it.
func (c *chooser) visit(b int, left []int64, spent [2]int64) {
	if c.nodes++; c.nodes >= mostNodes {
		return
	}
	low := c.least(b, left, spent)
	if !cheaper(low, c.cost) {
		return
	}
	if b == len(c.shop.boards) {
		if !slices.ContainsFunc(c.tried, func(t []int) bool { return slices.Equal(t, c.counts) }) {
			c.best, c.cost = slices.Clone(c.counts), spent
		}
		return
	}
	of := c.shop.boards[b]
	rest := make([]int64, len(left))
	for n := c.enough(b, left); n >= 0; n-- {
		for i := range left {
			rest[i] = left[i] - int64(n)*c.needs[i].holds[b]
		}
		c.counts[b] = n
		c.visit(b+1, rest, [2]int64{spent[0] + int64(n)*of.cost, spent[1] + int64(n)*of.area})
	}
	c.counts[b] = 0
}

// enough is the number of a board beyond which more of it never help: what meets every
// need alone, and one more for each try that failed.
func (c *chooser) enough(b int, left []int64) int {
	most := int64(0)
	for i, x := range left {
		if h := c.needs[i].holds[b]; h > 0 && x > 0 {
			most = max(most, (x+h-1)/h)
		}
	}
	return int(min(most+int64(len(c.tried)), int64(c.shop.boards[b].limit)))
}

// least bounds what meeting the needs costs, and what area it takes, with board b and
// those after it: of each need by itself, with parts of boards.
func (c *chooser) least(b int, left []int64, spent [2]int64) [2]int64 {
	low := spent
	for i, x := range left {
		if x <= 0 {
			continue
		}
		n := c.needs[i]
		for k := range low {
			more, met := fraction(c.shop.boards[b:], n.holds[b:], x, k)
			if !met {
				return [2]int64{dear, dear}
			}
			low[k] = max(low[k], spent[k]+more)
		}
	}
	return low
}

// fraction meets one need at the least cost (0) or area (1) with parts of boards,
// rounded down.
func fraction(boards []board, holds []int64, x int64, what int) (sum int64, met bool) {
	used := make([]bool, len(boards))
	for x > 0 {
		at := -1
		for b := range boards {
			if !used[b] && holds[b] > 0 && (at < 0 || more(boards[at].rate(what), holds[b], boards[b].rate(what), holds[at])) {
				at = b
			}
		}
		if at < 0 {
			return 0, false
		}
		used[at] = true
		if n := int64(boards[at].limit); n <= x/holds[at] {
			sum, x = min(sum+n*boards[at].rate(what), dear-1), x-n*holds[at]
			continue
		}
		hi, lo := bits.Mul64(uint64(x), uint64(boards[at].rate(what)))
		part, _ := bits.Div64(hi, lo, uint64(holds[at])) // x/holds is less than the limit, so it fits
		return min(sum+int64(part), dear-1), true
	}
	return sum, true
}

// rate is a board's cost (0) or area (1).
func (b board) rate(what int) int64 { return [...]int64{b.cost, b.area}[what] }
