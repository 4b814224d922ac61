package untangle

import (
	"math/bits"
	"slices"
)

// row is a set of nodes, one bit each.
type row []uint64

func (r row) has(i int) bool { return r[i>>6]>>(i&63)&1 == 1 }
func (r row) add(i int)      { r[i>>6] |= 1 << (i & 63) }
func (r row) drop(i int)     { r[i>>6] &^= 1 << (i & 63) }

func (r row) join(o row) {
	for k, w := range o {
		r[k] |= w
	}
}

// count is how many nodes there are, and the first of them.
func (r row) count() (n, first int) {
	for k := len(r) - 1; k >= 0; k-- {
		if r[k] != 0 {
			n += bits.OnesCount64(r[k])
			first = k<<6 + bits.TrailingZeros64(r[k])
		}
	}
	return n, first
}

// all goes through the nodes in ascending order; it may be changed on the way.
func (r row) all(yield func(i int) bool) {
	for k := range r {
		for w := r[k]; w != 0; w &= w - 1 {
			if !yield(k<<6 + bits.TrailingZeros64(w)) {
				return
			}
		}
	}
}

// graph is a graph that nodes are taken out of.
type graph struct {
	names      []int // of nodes in the whole
	costs      []cost
	live       row
	next, last []row // where arcs of each node go, and come from

	// of one search for a cycle
	from   []int // the node before each
	queue  []int
	unseen row
}

// pick makes a graph of some nodes of another and the arcs among them.
func pick(next [][]int, nodes, names []int, costs []cost) *graph {
	g := &graph{names: make([]int, len(nodes)), costs: make([]cost, len(nodes))}
	words := (len(nodes) + 63) >> 6
	table := make([]uint64, words*(2*len(nodes)+1))
	cut := func() (r row) {
		r, table = table[:words:words], table[words:]
		return r
	}
	g.live = cut()
	at := map[int]int{}
	for i, node := range nodes {
		at[node] = i
		g.names[i], g.costs[i] = names[node], costs[node]
		g.live.add(i)
		g.next, g.last = append(g.next, cut()), append(g.last, cut())
	}
	for i, node := range nodes {
		for _, other := range next[node] {
			if j, found := at[other]; found {
				g.next[i].add(j)
				g.last[j].add(i)
			}
		}
	}
	return g
}

// lists is where arcs go, as lists.
func (g *graph) lists() [][]int {
	lists := make([][]int, len(g.names))
	for i := range g.live.all {
		lists[i] = slices.Collect(g.next[i].all)
	}
	return lists
}

// size is how many words of bits the graph is.
func (g *graph) size() int { return 2 * len(g.names) * len(g.live) }

func (g *graph) clone() *graph {
	c := &graph{names: g.names, costs: g.costs, live: slices.Clone(g.live)}
	c.next, c.last = make([]row, len(g.next)), make([]row, len(g.last))
	words := len(g.live)
	table := make([]uint64, 0, g.size())
	for i := range g.names {
		table = append(append(table, g.next[i]...), g.last[i]...)
		c.next[i], c.last[i] = row(table[2*i*words:][:words]), row(table[(2*i+1)*words:][:words])
	}
	return c
}

// remove takes a node out with its arcs.
func (g *graph) remove(i int) {
	for j := range g.next[i].all {
		g.last[j].drop(i)
	}
	for j := range g.last[i].all {
		g.next[j].drop(i)
	}
	clear(g.next[i])
	clear(g.last[i])
	g.live.drop(i)
}

// bypass takes out a node that stays in the order, so that who waits for it
// waits for what it waits for. It must not wait for itself.
func (g *graph) bypass(i int) {
	for j := range g.next[i].all {
		g.last[j].join(g.last[i])
	}
	for j := range g.last[i].all {
		g.next[j].join(g.next[i])
	}
	g.remove(i)
}

// reduce takes out all nodes of which it is clear whether they are in a best set,
// and returns those that are.
func (g *graph) reduce() (out set) {
	todo := slices.Clone(g.live)
	for {
		n, i := todo.count()
		if n == 0 {
			return out
		}
		todo.drop(i)
		if !g.live.has(i) {
			continue
		}
		touched := slices.Clone(g.next[i])
		touched.join(g.last[i])
		switch {
		case g.next[i].has(i):
			out = out.with(set{[]int{g.names[i]}, g.costs[i]})
			g.remove(i)
		case g.passes(i):
			g.bypass(i)
		default:
			continue
		}
		todo.join(touched)
	}
}

// passes says whether a node need never be taken out: it is on no cycle, or all
// its cycles lead over one other node that costs less.
func (g *graph) passes(i int) bool {
	for _, arcs := range []row{g.next[i], g.last[i]} {
		n, j := arcs.count()
		if n == 0 || n == 1 && g.costs[j].less(g.costs[i]) {
			return true
		}
	}
	return false
}
