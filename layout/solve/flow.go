package solve

// network finds minimum cuts among a few hundred nodes by Dinic's method
// (E. A. Dinic, Soviet Mathematics Doklady 11, 1970), whose number of steps
// does not depend on the capacities: they may be any ordered group.
type network struct {
	arcs  []arc   // arc a and its reverse a^1
	from  [][]int // arcs leaving each node
	level []int   // distance from the source in the last search, -1 when cut off
	next  []int   // first arc of each node not yet exhausted in this phase
	queue []int
}

type arc struct {
	to   int
	room cost // capacity left
}

func newNetwork(nodes int) *network {
	return &network{
		from:  make([][]int, nodes),
		level: make([]int, nodes),
		next:  make([]int, nodes),
		queue: make([]int, 0, nodes),
	}
}

// join adds an arc without capacity and returns its number.
func (n *network) join(from, to int) int {
	a := len(n.arcs)
	n.arcs = append(n.arcs, arc{to: to}, arc{to: from})
	n.from[from] = append(n.from[from], a)
	n.from[to] = append(n.from[to], a^1)
	return a
}

// set gives arc a its capacity and takes the flow off it.
func (n *network) set(a int, capacity cost) {
	n.arcs[a].room = capacity
	n.arcs[a^1].room = cost{}
}

// saturate sends as much as can flow from source to sink.
func (n *network) saturate(source, sink int) {
	for n.search(source, sink) {
		clear(n.next)
		for n.push(source, sink, endless).positive() {
		}
	}
}

// search levels the nodes by their distance from source, and tells whether sink
// can still be reached. When it cannot, the levelled nodes are the smallest
// source side of a minimum cut.
func (n *network) search(source, sink int) bool {
	for i := range n.level {
		n.level[i] = -1
	}
	n.level[source] = 0
	n.queue = append(n.queue[:0], source)
	for i := 0; i < len(n.queue); i++ {
		for _, a := range n.from[n.queue[i]] {
			to := n.arcs[a].to
			if n.level[to] < 0 && n.arcs[a].room.positive() {
				n.level[to] = n.level[n.queue[i]] + 1
				n.queue = append(n.queue, to)
			}
		}
	}
	return n.level[sink] >= 0
}

// push sends up to limit from node to sink along rising levels.
func (n *network) push(node, sink int, limit cost) cost {
	if node == sink {
		return limit
	}
	var sent cost
	for ; n.next[node] < len(n.from[node]); n.next[node]++ {
		a := n.from[node][n.next[node]]
		to, room := n.arcs[a].to, n.arcs[a].room
		if n.level[to] != n.level[node]+1 || !room.positive() {
			continue
		}
		if left := limit.sub(sent); left.less(room) {
			room = left
		}
		part := n.push(to, sink, room)
		n.arcs[a].room = n.arcs[a].room.sub(part)
		n.arcs[a^1].room = n.arcs[a^1].room.add(part)
		if sent = sent.add(part); !sent.less(limit) {
			break // this arc may have room left
		}
	}
	return sent
}

// feeds marks the nodes from which sink can still be reached. After saturate the
// others are the largest source side of a minimum cut.
func (n *network) feeds(sink int) []bool {
	marked := make([]bool, len(n.from))
	marked[sink] = true
	n.queue = append(n.queue[:0], sink)
	for i := 0; i < len(n.queue); i++ {
		for _, a := range n.from[n.queue[i]] {
			to := n.arcs[a].to
			if !marked[to] && n.arcs[a^1].room.positive() {
				marked[to] = true
				n.queue = append(n.queue, to)
			}
		}
	}
	return marked
}
