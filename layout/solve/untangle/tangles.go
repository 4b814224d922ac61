package untangle

import "slices"

// tangles returns the strongly connected parts of a graph that have a cycle, each
// in ascending order, by their last nodes to be left (Tarjan, "Depth-first search
// and linear graph algorithms", SIAM Journal on Computing 1, 1972).
func tangles(next [][]int) (all [][]int) {
	const unseen, done = 0, -1
	seen := make([]int, len(next)) // when, from 1
	var stack []int
	clock := 0
	var visit func(i int) (earliest int)
	visit = func(i int) int {
		clock++
		seen[i] = clock
		when, earliest, loop, base := clock, clock, false, len(stack)
		stack = append(stack, i)
		for _, j := range next[i] {
			loop = loop || i == j
			switch seen[j] {
			case unseen:
				earliest = min(earliest, visit(j))
			case done:
			default:
				earliest = min(earliest, seen[j])
			}
		}
		if earliest == when {
			part := slices.Clone(stack[base:])
			stack = stack[:base]
			for _, j := range part {
				seen[j] = done
			}
			if len(part) > 1 || loop {
				slices.Sort(part)
				all = append(all, part)
			}
		}
		return earliest
	}
	for i := range next {
		if seen[i] == unseen {
			visit(i)
		}
	}
	return all
}
