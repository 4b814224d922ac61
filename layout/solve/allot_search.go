package solve

import "container/heap"

// How long prices are moved: at the first node, where nothing is known, and below
// it, where the parent's prices are near.
const (
	firstHaggle, cutHaggle, laterHaggle = 1000, 60, 20
	firstBid, laterBid                  = 400, 12
)

// bidEffort is about how many steps the first bidding may take.
const bidEffort = 800_000_000

// node is a part of the problem: options struck out, and what is known of it.
type node struct {
	alive   []uint64 // by option
	bound   int64    // times scale
	prices  prices
	product []int64 // prices of products, nil while there are none
	depth   int
	seq     int
	fresh   bool // there has been no contest yet
	record  *ProofNode
}

// nodes is a heap with the highest bound on top.
type nodes []*node

func (h nodes) Len() int { return len(h) }
func (h nodes) Less(i, j int) bool {
	if h[i].bound != h[j].bound {
		return h[i].bound > h[j].bound
	}
	return h[i].seq > h[j].seq
}
func (h nodes) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *nodes) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	last := (*h)[len(*h)-1]
	*h = (*h)[:len(*h)-1]
	return last
}

// search splits the problem until no part is left that could hold better than
// the best, or the effort is spent. It always goes on with the likelier half of
// the last part split, and when that is done with, as takeFrom says.
func (s *allotter) search(next *node, open *nodes, until int64) {
	for {
		if next == nil {
			if len(*open) == 0 || (*open)[0].bound < s.target() {
				*open = nil
				return
			}
			next = s.takeFrom(open)
		}
		if s.best != nil && until > 0 && s.steps >= until {
			heap.Push(open, next)
			return
		}
		likely, other := s.explore(next)
		if other != nil {
			heap.Push(open, other)
		}
		next = likely
	}
}

// takeFrom takes the part of the highest bound or, while there is no allotment to
// measure bounds by, the one split off last.
func (s *allotter) takeFrom(open *nodes) *node {
	last := 0
	for i, n := range *open {
		if s.best == nil && n.seq > (*open)[last].seq {
			last = i
		}
	}
	return heap.Remove(open, last).(*node)
}

func (s *allotter) spent() bool { return s.effort > 0 && s.steps >= s.effort }

// beginning is the whole problem.
func (s *allotter) beginning() *node {
	n := &node{alive: make([]uint64, (len(s.options)+63)/64), bound: s.cap, fresh: true}
	for o := range s.options {
		n.alive[o/64] |= 1 << (o % 64)
	}
	if s.want {
		s.root = &ProofNode{}
		n.record = s.root
	}
	n.prices = prices{make([]int64, len(s.rows)), make([]int64, len(s.rows))}
	return n
}

// bound is the most that any allotment is worth, as far as the search knows.
func (s *allotter) bound() int64 {
	if s.best == nil {
		return 0
	}
	most := s.value
	for _, n := range s.open {
		most = max(most, floorDiv(n.bound, s.scale))
	}
	return most
}

// left lists the options of a node, less those that are gone.
func (s *allotter) left(n *node) (*choices, bool) {
	c := &choices{first: make([]int, 0, s.products()+1), rows: make([][]group, len(s.rows)), fixed: make([]bool, s.products())}
	for p := range s.products() {
		c.first = append(c.first, len(c.list))
		from, groups := len(c.list), 0
		for o := s.first[p]; o < s.first[p+1]; o++ {
			if n.alive[o/64]>>(o%64)&1 == 0 {
				continue
			}
			row := s.options[o].row
			if at := len(c.list); at == from || s.options[c.list[at-1]].row != row {
				groups++
				if row != nowhere {
					c.rows[row] = append(c.rows[row], group{p, at, at})
				}
			}
			c.list = append(c.list, o)
			if row != nowhere {
				c.rows[row][len(c.rows[row])-1].to = len(c.list)
			}
		}
		if len(c.list) == from {
			return nil, false
		}
		c.fixed[p] = groups == 1 && s.options[c.list[from]].row != nowhere
	}
	c.first = append(c.first, len(c.list))
	return c, true
}

// strike takes the options that are gone off a node, and marks none as gone.
func (s *allotter) strike(n *node, gone []bool) {
	for o, g := range gone {
		if g {
			n.alive[o/64] &^= 1 << (o % 64)
		}
	}
	clear(gone)
}

// prune strikes options out of a node until the chains strike no more.
func (s *allotter) prune(n *node, gone []bool) (*choices, bool) {
	s.strike(n, gone)
	for {
		c, ok := s.left(n)
		if !ok || !s.strikeByChains(c, gone) {
			return c, ok
		}
		s.strike(n, gone)
	}
}

// explore bounds a node and splits it in two, the likelier half first. Both are nil
// when the node is done with.
func (s *allotter) explore(n *node) (likely, other *node) {
	v := &visit{allotter: s, node: n, gone: make([]bool, len(s.options)), tally: make([]int64, s.products()*(len(s.rows)+1))}
	var ok bool
	if v.c, ok = s.prune(n, v.gone); !ok {
		return nil, nil
	}
	if !v.byPrices() || !v.byContest() || v.settled() {
		return nil, nil
	}
	return v.split()
}
