package untangle

import "slices"

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
func (g *graph) cycle(start, longest int, live row, steps *int) []int {
	from := map[int]int{}
	unseen := slices.Clone(live)
	front := []int{start}
	for n := 1; n <= longest && len(front) > 0; n++ {
		var ahead []int
		for _, i := range front {
			*steps -= len(unseen)
			if g.next[i].has(start) {
				cycle := []int{i}
				for i != start {
					i = from[i]
					cycle = append(cycle, i)
				}
				return cycle
			}
			for k, w := range g.next[i] {
				fresh := row{w & unseen[k]}
				unseen[k] &^= w
				for j := range fresh.all {
					from[k<<6+j] = i
					ahead = append(ahead, k<<6+j)
				}
			}
		}
		front = ahead
	}
	return nil
}
