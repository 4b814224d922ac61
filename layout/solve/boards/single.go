package boards

import (
	"container/heap"
	"slices"
)

// single finds the most that one board can give when no piece is taken more often than it
// is wanted. It builds blocks up from pieces, two side by side at a time, the most
// promising first, and leaves out those that even the best filling of the rest of the
// board, with pieces without number, does not make worth more than what was found
// (K. V. Viswanathan and A. Bagchi, Operations Research 41, 1993; M. Hifi, Computers and
// Operations Research 24, 1997).
type single struct {
	grid   *grid
	value  []int64
	rest   []int64 // the most that the board can give beside a block, by point and point
	open   queue
	closed []*growth
	known  map[string][]*growth // by size and counts
	best   *block
	worth  int64
	steps  int64
}

// growth is a block on its way.
type growth struct {
	block  *block
	size   [2]int64
	counts []int
	worth  int64
	bound  int64
	stages [2]int // of cuts in its own rectangle, and in a wider one
}

// newSingle makes ready for the only board of a shop. What is worth no more than least is
// not looked for. It gives nil where sizes would have to be rounded.
func newSingle(s *shop, value []int64, least int64) *single {
	g, err := newGrid(s, mostSinglePoints, true)
	if err != nil || !g.exact {
		return nil
	}
	f := &single{grid: g, value: value, worth: least, known: map[string][]*growth{}}
	f.surround()
	for i, l := range g.lies {
		if l.at[along] > 0 && l.at[across] > 0 {
			f.push(&block{lie: i})
		}
	}
	return f
}

// mostSinglePoints keeps the bounds of a single board quick to work out.
const mostSinglePoints = 200

// run searches until nothing can be better, or for so many steps.
func (f *single) run(effort int64) (best *block, worth int64, done bool) {
	for len(f.open) > 0 && f.open[0].bound > f.worth {
		if f.steps > effort {
			return f.best, f.worth, false
		}
		next := heap.Pop(&f.open).(*growth)
		f.closed = append(f.closed, next)
		for _, with := range f.closed {
			f.steps++
			if !f.within(next, with) {
				continue
			}
			for a := along; a <= across; a++ {
				f.steps += 10
				f.push(join(a, next.block, with.block))
			}
		}
	}
	return f.best, f.worth, true
}

// within tells whether two blocks together take no piece too often.
func (f *single) within(p, q *growth) bool {
	for k, n := range p.counts {
		if n+q.counts[k] > f.grid.shop.kinds[k].count {
			return false
		}
	}
	return true
}

// push notes a block that could come to more than is known.
func (f *single) push(b *block) {
	board := f.grid.shop.boards[0].size
	g := &growth{block: b, size: b.size(f.grid.lies), counts: make([]int, len(f.value))}
	if g.size[along] > board[along] || g.size[across] > board[across] {
		return
	}
	b.count(f.grid.lies, g.counts)
	for k, n := range g.counts {
		g.worth += int64(n) * f.value[k]
	}
	g.bound = g.worth + f.rest[f.at(f.grid.last(along, g.size[along]), f.grid.last(across, g.size[across]))]
	if b.parts != nil {
		g.stages = [2]int{b.depth(f.grid.lies, g.size[b.axis.other()]), b.depth(f.grid.lies, g.size[b.axis.other()]+1)}
	}
	if g.bound <= f.worth || g.stages[0] > f.grid.shop.stages || !f.fresh(g) {
		return
	}
	if g.worth > f.worth && f.grid.shop.fits(f.grid.lies, b, 0) {
		f.best, f.worth = b, g.worth
	}
	heap.Push(&f.open, g)
}

// fresh tells whether no block of this size and these pieces is known that takes no more
// stages wherever it goes.
func (f *single) fresh(g *growth) bool {
	key := make([]byte, 0, 16+2*len(g.counts))
	for _, n := range append([]int{f.grid.last(along, g.size[along]), f.grid.last(across, g.size[across])}, g.counts...) {
		key = append(key, byte(n), byte(n>>8))
	}
	for _, other := range f.known[string(key)] {
		if f.grid.shop.stages == endless || other.stages[0] <= g.stages[0] && other.stages[1] <= g.stages[1] && sameWay(other.block, g.block) {
			return false
		}
	}
	f.known[string(key)] = append(f.known[string(key)], g)
	return true
}

// sameWay tells whether blocks have their parts in one direction.
func sameWay(p, q *block) bool {
	return (p.parts == nil) == (q.parts == nil) && p.axis == q.axis
}

func (f *single) at(i, j int) int { return i*len(f.grid.rulers[across].at) + j }

// surround works out the most that can be put beside blocks of every size: the board is
// filled up by rectangles on one side or the other.
func (f *single) surround() {
	var steps int64
	inner := newFree(f.grid, &steps)
	inner.price(f.value)
	f.rest = make([]int64, len(inner.worth))
	end, length, width := f.grid.boards[0], &f.grid.rulers[along], &f.grid.rulers[across]
	for i := end[along]; i >= 0; i-- {
		for j := end[across]; j >= 0; j-- {
			best := int64(0)
			for to := i + 1; to <= end[along]; to++ {
				best = max(best, inner.row(int(length.left(to)[i]))[j]+f.rest[f.at(to, j)])
			}
			for to := j + 1; to <= end[across]; to++ {
				best = max(best, inner.row(i)[width.left(to)[j]]+f.rest[f.at(i, to)])
			}
			f.rest[f.at(i, j)] = best
		}
	}
}

// queue is a heap of growths, the greatest bound first, then what came first.
type queue []*growth

func (q queue) Len() int           { return len(q) }
func (q queue) Less(i, j int) bool { return q[i].bound > q[j].bound }
func (q queue) Swap(i, j int)      { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)        { *q = append(*q, x.(*growth)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = slices.Delete(*q, len(*q)-1, len(*q))
	return last
}
