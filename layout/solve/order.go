package solve

import "slices"

// graph is the order of the rows: who stands above whom.
type graph struct {
	below  [][]int // of each row, the rows it is ordered above, ascending
	rising []int   // every row after all the rows below it
	rank   []int   // position of each row in rising
}

// newGraph sorts the rows from the bottom up. It panics on a cycle.
func newGraph(p Slots) *graph {
	n := len(p.Rows)
	g := &graph{below: make([][]int, n), rank: make([]int, n)}
	above := make([][]int, n)
	for _, o := range p.Orders {
		g.below[o.Upper] = append(g.below[o.Upper], o.Lower)
	}
	waits := make([]int, n)
	for upper := range g.below {
		slices.Sort(g.below[upper])
		g.below[upper] = slices.Compact(g.below[upper])
		waits[upper] = len(g.below[upper])
		for _, lower := range g.below[upper] {
			above[lower] = append(above[lower], upper)
		}
	}
	g.rising = make([]int, 0, n)
	for row, w := range waits {
		if w == 0 {
			g.rising = append(g.rising, row)
		}
	}
	for i := 0; i < len(g.rising); i++ {
		g.rank[g.rising[i]] = i
		for _, upper := range above[g.rising[i]] {
			if waits[upper]--; waits[upper] == 0 {
				g.rising = append(g.rising, upper)
			}
		}
	}
	if len(g.rising) < n {
		panic("solve: the orders form a cycle")
	}
	return g
}

// bounds gives the lowest and the highest slot each row can take when all limits
// and orders are kept. All rows at their lowest is itself an arrangement, as is
// all at their highest.
func (g *graph) bounds(p Slots) (lo, hi []int, fits bool) {
	lo, hi = make([]int, len(p.Rows)), make([]int, len(p.Rows))
	for i := range p.Rows {
		lo[i], hi[i] = p.limits(i)
	}
	for _, upper := range g.rising {
		for _, lower := range g.below[upper] {
			lo[upper] = max(lo[upper], lo[lower]+p.steps(p.need(upper, lower)))
		}
		if lo[upper] > hi[upper] {
			return nil, nil, false
		}
	}
	for _, upper := range slices.Backward(g.rising) {
		for _, lower := range g.below[upper] {
			hi[lower] = min(hi[lower], hi[upper]-p.steps(p.need(upper, lower)))
		}
	}
	return lo, hi, true
}

// stacks splits the rows into sets that no order joins, each rising.
func (g *graph) stacks() [][]int {
	leader := make([]int, len(g.below))
	for i := range leader {
		leader[i] = i
	}
	find := func(i int) int {
		for leader[i] != i {
			leader[i] = leader[leader[i]]
			i = leader[i]
		}
		return i
	}
	for upper, lowers := range g.below {
		for _, lower := range lowers {
			leader[find(lower)] = find(upper)
		}
	}
	number := make([]int, len(g.below)) // 1 more than the stack a leader leads
	var stacks [][]int
	for _, row := range g.rising {
		l := find(row)
		if number[l] == 0 {
			stacks = append(stacks, nil)
			number[l] = len(stacks)
		}
		stacks[number[l]-1] = append(stacks[number[l]-1], row)
	}
	return stacks
}

// neighbours lists the pairs of one stack with no third row between them, as
// indexes into rows. The orders left out follow from these, since no row needs
// less than no room.
func (g *graph) neighbours(rows []int) [][2]int {
	local := make(map[int]int, len(rows))
	for i, row := range rows {
		local[row] = i
	}
	words := (len(rows) + 63) / 64
	under := make([]uint64, len(rows)*words) // bit l of row u: l is somewhere below u
	var pairs [][2]int
	for u, row := range rows {
		set := under[u*words : (u+1)*words]
		lowers := make([]int, 0, len(g.below[row]))
		for _, lower := range g.below[row] {
			lowers = append(lowers, local[lower])
		}
		slices.Sort(lowers)
		for _, l := range slices.Backward(lowers) { // whatever has l below it comes before l
			if set[l/64]>>(l%64)&1 == 1 {
				continue
			}
			pairs = append(pairs, [2]int{u, l})
			set[l/64] |= 1 << (l % 64)
			for w, bits := range under[l*words : (l+1)*words] {
				set[w] |= bits
			}
		}
	}
	return pairs
}
