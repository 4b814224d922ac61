// Package untangle finds what must be taken out of things that wait for each
// other in circles, so that the rest can go in order: a least feedback vertex
// set. It imports nothing of ours.
//
// What is on no cycle goes, nodes that only pass a cycle on are joined to the next
// (Levy and Low, "A contraction algorithm for finding small cycle cutsets",
// Journal of Algorithms 9, 1988, with weights heeded), each tangle that is left
// is searched by itself, and cycles that share no weight bound the search from below.
package untangle

import (
	"fmt"
	"slices"
)

// Fewest picks the nodes that weigh least together so that the arcs among the
// rest have no cycle; of several such sets one with the fewest nodes, of these one
// with the lowest sum of numbers. before[i] lists nodes that must come before i;
// it may name a node twice, and i itself. The nodes are in ascending order.
// Proven says that no set is better; if it is false the search ran out of
// steps. It panics if a weight is negative.
func Fewest(before [][]int, weight []int64) (out []int, proven bool) {
	return fewest(before, weight, mostSteps)
}

// mostSteps is how many words of bits are read or written before the search ends:
// about half a second.
const mostSteps = 60_000_000

func fewest(before [][]int, weight []int64, steps int) (out []int, proven bool) {
	costs := price(weight)
	names := make([]int, len(before))
	for i := range names {
		names[i] = i
	}
	s := &search{left: steps, proven: true}
	for _, tangle := range tangles(before) {
		out = append(out, s.solve(pick(before, tangle, names, costs), most).nodes...)
	}
	slices.Sort(out)
	return out, s.proven
}

// cost is what it costs to take out a node or several: their weight, then how
// many they are and their numbers.
type cost struct{ weight, tie int64 }

// most is above every cost.
var most = cost{1 << 62, 0}

func price(weight []int64) []cost {
	costs := make([]cost, len(weight))
	one := int64(len(weight)) * int64(len(weight)) // more than all numbers together
	for i, w := range weight {
		if w < 0 {
			panic(fmt.Sprintf("untangle: node %d weighs %d", i, w))
		}
		costs[i] = cost{w, one + int64(i)}
	}
	return costs
}

func (c cost) plus(d cost) cost  { return cost{c.weight + d.weight, c.tie + d.tie} }
func (c cost) minus(d cost) cost { return cost{c.weight - d.weight, c.tie - d.tie} }

func (c cost) less(d cost) bool {
	return c.weight < d.weight || c.weight == d.weight && c.tie < d.tie
}

// set is some nodes, by their numbers in the whole, and what they cost.
type set struct {
	nodes []int
	cost  cost
}

func (s set) with(o set) set {
	return set{slices.Concat(s.nodes, o.nodes), s.cost.plus(o.cost)}
}
