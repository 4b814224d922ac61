package solve

// ladder is a Chain with its classes and ranks numbered from 0 without gaps.
type ladder struct {
	class, rank    []int // by product (-1: not in the chain) and by row
	classes, ranks int
	number         int   // among the caller's chains
	classAt        []int // the caller's class of each of ours, and rank
	rankAt         []int
}

// cut splits a chain in two: either the classes up to class keep to the ranks up
// to rank, or the later classes keep to the later ranks. In an allotment that
// keeps the chain one of them holds: were a product of the first kind on a later
// rank and one of the second kind not, they would be out of order.
type cut struct{ chain, class, rank int }

func newChain(c Chain, products, rows int) ladder {
	made := ladder{class: make([]int, products), rank: make([]int, rows)}
	var classes, ranks []int
	for p := range made.class {
		if k := c.class(p); k >= 0 {
			classes = append(classes, k)
		}
	}
	for r := range made.rank {
		ranks = append(ranks, c.rank(r))
	}
	classes, ranks = levels(classes), levels(ranks)
	made.classes, made.ranks = len(classes), len(ranks)
	made.classAt, made.rankAt = classes, ranks
	for p := range made.class {
		made.class[p] = place(classes, c.class(p))
	}
	for r := range made.rank {
		made.rank[r] = place(ranks, c.rank(r))
	}
	return made
}

// astray tells whether an option is of the kind that a side of a cut forbids: of a
// class up to the cut's on a later rank, or of a later class on one up to it.
func (s *allotter) astray(o *option, k cut, late bool) bool {
	c := &s.chains[k.chain]
	class := c.class[o.product]
	if class < 0 || o.row == nowhere {
		return false
	}
	if late {
		return class > k.class && c.rank[o.row] <= k.rank
	}
	return class <= k.class && c.rank[o.row] > k.rank
}

// cuts calls do with every cut there is.
func (s *allotter) cuts(do func(cut)) {
	for i, c := range s.chains {
		for class := range c.classes - 1 {
			for rank := range c.ranks - 1 {
				do(cut{i, class, rank})
			}
		}
	}
}

// orderly tells whether a choice of options keeps every chain.
func (s *allotter) orderly(chosen []int) bool {
	for _, c := range s.chains {
		low, high := make([]int, c.ranks), make([]int, c.ranks)
		for r := range low {
			low[r], high[r] = c.classes, -1
		}
		for p, id := range chosen {
			if row := s.options[id].row; row != nowhere && c.class[p] >= 0 {
				r := c.rank[row]
				low[r], high[r] = min(low[r], c.class[p]), max(high[r], c.class[p])
			}
		}
		top := -1
		for r := range low {
			if low[r] < top {
				return false
			}
			top = max(top, high[r])
		}
	}
	return true
}

// strikeByChains marks what products that are sure to be placed leave no room for:
// where such a product keeps to ranks from one on, so do all later classes, and
// where it keeps to ranks up to one, so do all earlier classes.
func (s *allotter) strikeByChains(c *choices, gone []bool) (any bool) {
	for _, k := range s.chains {
		least, most := s.reach(k, c)
		for _, id := range c.list {
			o := &s.options[id]
			class := k.class[o.product]
			if class < 0 || o.row == nowhere {
				continue
			}
			if r := k.rank[o.row]; r < least[class] || r > most[class] {
				gone[id], any = true, true
			}
		}
	}
	return any
}

// reach gives for each class the ranks that its products can keep to, as far as the
// products that are sure to be placed tell.
func (s *allotter) reach(k ladder, c *choices) (least, most []int) {
	least, most = make([]int, k.classes), make([]int, k.classes)
	for i := range most {
		most[i] = k.ranks
	}
	for p, class := range k.class {
		if class < 0 || s.canOmit(c, p) {
			continue
		}
		lo, hi := k.ranks, -1
		for _, id := range c.list[c.first[p]:c.first[p+1]] {
			r := k.rank[s.options[id].row]
			lo, hi = min(lo, r), max(hi, r)
		}
		for later := class + 1; later < k.classes; later++ {
			least[later] = max(least[later], lo)
		}
		for earlier := range class {
			most[earlier] = min(most[earlier], hi)
		}
	}
	return least, most
}
