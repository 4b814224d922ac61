package untangle

import (
	"math/bits"
	"slices"
)

// bound is what every set costs at least, and some set. Cycles are found, the
// short ones first; the least of what is left of the costs of a cycle's nodes is
// part of the bound and is taken off each, so that no cost is counted twice. A
// node of which nothing is left goes into the set, if it has to in the end
// (Bar-Yehuda and Even, "A local-ratio theorem for approximating the weighted
// vertex cover problem", 1985, does the same with edges).
func (g *graph) bound(steps *int) (least cost, some set) {
	rest := slices.Clone(g.costs)
	live := slices.Clone(g.live)
	var gone []int
	for _, longest := range []int{2, 3, 5, len(g.names)} {
		for i := range g.live.all {
			for live.has(i) {
				cycle := g.cycle(i, longest, live, steps)
				if cycle == nil {
					break
				}
				part := rest[i]
				for _, j := range cycle {
					if rest[j].less(part) {
						part = rest[j]
					}
				}
				least = least.plus(part)
				for _, j := range cycle {
					if rest[j] = rest[j].minus(part); rest[j] == (cost{}) {
						live.drop(j)
						gone = append(gone, j)
					}
				}
			}
		}
	}
	for _, i := range slices.Backward(gone) {
		live.add(i)
		if g.cycle(i, len(g.names), live, steps) != nil {
			live.drop(i)
			some = some.with(set{[]int{g.names[i]}, g.costs[i]})
		}
	}
	return least, some
}

// cycle is the shortest cycle through a node among those that are live, if there is
// one with no more nodes than longest.
func (g *graph) cycle(start, longest int, live row, steps *int) (nodes []int) {
	if g.from == nil {
		g.from = make([]int, len(g.names))
	}
	g.unseen = append(g.unseen[:0], live...)
	g.queue = append(g.queue[:0], start)
	for head, length := 0, 1; head < len(g.queue) && length <= longest; length++ {
		for _, i := range g.queue[head:] {
			head++
			*steps -= 1 + len(g.unseen)
			if g.next[i].has(start) {
				for ; i != start; i = g.from[i] {
					nodes = append(nodes, i)
				}
				return append(nodes, start)
			}
			g.advance(i)
		}
	}
	return nil
}

// advance puts the nodes that arcs lead to from one, and that were not seen
// before, in the queue.
func (g *graph) advance(i int) {
	for k, w := range g.next[i] {
		w &= g.unseen[k]
		g.unseen[k] &^= w
		for ; w != 0; w &= w - 1 {
			j := k<<6 + bits.TrailingZeros64(w)
			g.from[j] = i
			g.queue = append(g.queue, j)
		}
	}
}
