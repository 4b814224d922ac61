package untangle

// search is for the best set, branch and bound, until no steps are left.
type search struct {
	left   int
	proven bool
}

// largest is of how many nodes a tangle may be to be searched.
const largest = 2000

// solve returns some set that untangles a graph: the best, if that costs less than
// limit and steps are left. It uses the graph up.
func (s *search) solve(g *graph, limit cost) set {
	s.left -= g.size()
	out := g.reduce()
	type part struct {
		*graph
		least cost
		some  set
	}
	var parts []part
	lists := g.lists()
	least := out.cost
	for _, nodes := range tangles(lists) {
		p := part{graph: pick(lists, nodes, g.names, g.costs)}
		p.least, p.some = p.bound(&s.left)
		least = least.plus(p.least)
		parts = append(parts, p)
	}
	for _, p := range parts {
		others := least.minus(p.least)
		found := s.branch(p.graph, limit.minus(others), p.least, p.some)
		out = out.with(found)
		least = others.plus(found.cost)
	}
	return out
}

// branch searches one tangle of which no set costs less than least, and some is
// one.
func (s *search) branch(g *graph, limit, least cost, some set) set {
	if some.cost.less(limit) {
		limit = some.cost
	}
	if !least.less(limit) {
		return some
	}
	if s.left <= 0 || len(g.names) > largest {
		s.proven = false
		return some
	}
	i := g.busiest()
	with, without := g.clone(), g
	with.remove(i)
	one := set{[]int{g.names[i]}, g.costs[i]}
	if found := one.with(s.solve(with, limit.minus(one.cost))); found.cost.less(limit) {
		some, limit = found, found.cost
	}
	without.bypass(i)
	if found := s.solve(without, limit); found.cost.less(limit) {
		some = found
	}
	return some
}

// busiest is the node with the most ways through it.
func (g *graph) busiest() (best int) {
	most := -1
	for i := range g.live.all {
		in, _ := g.last[i].count()
		out, _ := g.next[i].count()
		if in*out > most {
			best, most = i, in*out
		}
	}
	return best
}
