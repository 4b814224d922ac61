package solve

// stack is one set of rows joined by orders, at a feasible arrangement that
// descend turns into the best.
//
// The cost of an arrangement is a sum of convex functions of single slots and of
// differences of two slots, so it is L-natural-convex (K. Murota, Discrete Convex
// Analysis, SIAM 2003, ch. 7). An arrangement is therefore best as soon as no set
// of rows moved together one slot up, and none moved one slot down, improves it;
// and the best such set is a minimum cut.
type stack struct {
	slots    Slots
	rows     []Row
	at       []int // where the rows stand
	lo, hi   []int // where each could stand if it were for the orders alone
	gaps     []gap
	crown    []bool // nothing above
	foot     []bool // nothing below
	net      *network
	fed      []int  // arc from the source to each row
	drained  []int  // arc from each row to the sink
	moveCost []cost // of each row, scratch of step
}

// gap is a pair of neighbours and the arcs that price its closing when the lower
// row rises or the upper one sinks.
type gap struct {
	upper, lower int
	need         int64
	rise, sink   int
}

func newStack(p Slots, g *graph, rows []int, lo, hi []int) *stack {
	n := len(rows)
	s := &stack{
		slots: p, rows: make([]Row, n), at: make([]int, n), lo: make([]int, n), hi: make([]int, n),
		crown: make([]bool, n), foot: make([]bool, n),
		net: newNetwork(n + 2), fed: make([]int, n), drained: make([]int, n), moveCost: make([]cost, n),
	}
	for i, row := range rows {
		s.rows[i], s.at[i], s.lo[i], s.hi[i] = p.Rows[row], lo[row], lo[row], hi[row]
		s.crown[i], s.foot[i] = true, true
		s.fed[i], s.drained[i] = s.net.join(n, i), s.net.join(i, n+1)
	}
	for _, pair := range g.neighbours(rows) {
		upper, lower := pair[0], pair[1]
		s.crown[lower], s.foot[upper] = false, false
		s.gaps = append(s.gaps, gap{
			upper: upper, lower: lower, need: p.need(rows[upper], rows[lower]),
			rise: s.net.join(lower, upper), sink: s.net.join(upper, lower),
		})
	}
	return s
}

// descend moves the rows to their best arrangement, the lowest of the best.
//
// Wide moves first only save time. At one slot, once nothing better is found
// upwards some best arrangement lies wholly below, hence the lowest does too; then
// moving down the largest set that does no harm never passes it and stops only
// there.
func (s *stack) descend() {
	reach := 0
	for i := range s.at {
		reach = max(reach, s.hi[i]-s.lo[i])
	}
	width := 1
	for width*4 <= reach {
		width *= 2
	}
	for ; width > 1; width /= 2 {
		for s.step(width, false) {
		}
		for s.step(-width, false) {
		}
	}
	for s.step(1, false) {
	}
	for s.step(-1, true) {
	}
}

// step moves by the given number of slots the set of rows for which that is
// best, and tells whether there was one. Of equals it takes the smallest set, so
// that a move without gain is not made; when eager, the largest.
func (s *stack) step(slots int, eager bool) bool {
	s.price(slots)
	source, sink := len(s.rows), len(s.rows)+1
	s.net.saturate(source, sink)
	var stays []bool
	if eager {
		stays = s.net.feeds(sink)
	}
	moved := false
	for i := range s.rows {
		if eager && !stays[i] || !eager && s.net.level[i] >= 0 {
			s.at[i] += slots
			moved = true
		}
	}
	return moved
}

// price sets the capacities so that a cut costs what moving its source side by
// the given number of slots costs, up to a constant.
func (s *stack) price(slots int) {
	move := int64(slots) * s.slots.Pitch
	for i := range s.rows {
		s.moveCost[i] = s.alone(i, move)
	}
	wide := max(move, -move)
	bend := squared(wide).add(squared(wide))
	for _, g := range s.gaps {
		opener, closer, bar, idle := g.upper, g.lower, g.rise, g.sink
		if move < 0 {
			opener, closer, bar, idle = g.lower, g.upper, g.sink, g.rise
		}
		// Opened, the gap costs opening; closed, bend-opening; both moved, nothing.
		// So the opener pays, the closer earns as much, and a closer moving alone
		// pays bend.
		spare := s.slots.height(s.at[g.upper]) - s.slots.height(s.at[g.lower]) - g.need
		opening := squared(spare + wide).sub(squared(spare))
		s.moveCost[opener] = s.moveCost[opener].add(opening)
		s.moveCost[closer] = s.moveCost[closer].sub(opening)
		s.net.set(idle, cost{})
		if spare < wide {
			s.net.set(bar, endless)
		} else {
			s.net.set(bar, bend)
		}
	}
	for i, c := range s.moveCost {
		s.net.set(s.fed[i], cost{})
		s.net.set(s.drained[i], cost{})
		switch to := s.at[i] + slots; {
		case to < s.lo[i] || to > s.hi[i]:
			s.net.set(s.drained[i], endless)
		case c.positive():
			s.net.set(s.drained[i], c)
		default:
			s.net.set(s.fed[i], cost{}.sub(c))
		}
	}
}

// alone is what moving row i changes besides its gaps to neighbours.
func (s *stack) alone(i int, move int64) cost {
	r, from := s.rows[i], s.slots.height(s.at[i])
	change := func(price func(height int64) cost) cost { return price(from + move).sub(price(from)) }
	var c cost
	if r.HasWish {
		c = c.add(change(func(h int64) cost { return shifted(h - r.Wish) }))
	}
	if s.crown[i] {
		c = c.add(change(func(h int64) cost { return squared(s.slots.Top - h - r.Above) }))
	}
	if s.foot[i] {
		c = c.add(change(func(h int64) cost { return squared(h - r.Below - s.slots.Bottom) }))
	}
	return c
}
