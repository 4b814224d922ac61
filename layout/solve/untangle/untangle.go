// Package untangle finds what must be taken out of a circle of things that wait
// for each other, so that the rest can go in order. It imports nothing of ours.
package untangle

// Fewest picks the nodes that weigh least together so that the arcs among the
// rest have no cycle. before[i] lists nodes that must come before i; it may name
// a node twice, and i itself. The nodes are in ascending order. Proven says that
// no others weigh less; where it is false the search ran out of steps.
func Fewest(before [][]int, weight []int64) (out []int, proven bool) {
	// Until the search is written: the node of least weight of any cycle goes.
	gone := make([]bool, len(before))
	for cycle := findCycle(before, gone); len(cycle) > 0; cycle = findCycle(before, gone) {
		least := cycle[0]
		for _, i := range cycle {
			if weight[i] < weight[least] || weight[i] == weight[least] && i < least {
				least = i
			}
		}
		gone[least] = true
	}
	for i, g := range gone {
		if g {
			out = append(out, i)
		}
	}
	return out, len(out) == 0
}

// findCycle returns the nodes of a cycle among those that are not gone, or none.
func findCycle(before [][]int, gone []bool) []int {
	state := make([]int, len(before)) // 0 unseen, 1 on the path, 2 done
	var path, cycle []int
	var visit func(i int) bool
	visit = func(i int) bool {
		state[i] = 1
		path = append(path, i)
		for _, j := range before[i] {
			if gone[j] || state[j] == 2 {
				continue
			}
			if state[j] == 1 {
				for k := len(path) - 1; ; k-- {
					cycle = append(cycle, path[k])
					if path[k] == j {
						return true
					}
				}
			}
			if visit(j) {
				return true
			}
		}
		path = path[:len(path)-1]
		state[i] = 2
		return false
	}
	for i := range before {
		if state[i] == 0 && !gone[i] && visit(i) {
			return cycle
		}
	}
	return nil
}
