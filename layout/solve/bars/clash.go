package bars

import "slices"

// clashes are pairs of kinds that may not be on one bar. A pair of a kind with
// itself means one piece of it to a bar.
type clashes struct {
	pairs [][2]int
	with  [][]int // by kind: kinds it clashes with
}

func (c *clashes) none() bool { return len(c.pairs) == 0 }

func (c *clashes) push(i, j int) {
	c.pairs = append(c.pairs, [2]int{i, j})
	for len(c.with) <= max(i, j) {
		c.with = append(c.with, nil)
	}
	c.with[i] = append(c.with[i], j)
	if i != j {
		c.with[j] = append(c.with[j], i)
	}
}

// shrink takes pairs back until n are left.
func (c *clashes) shrink(n int) {
	for len(c.pairs) > n {
		i, j := c.pairs[len(c.pairs)-1][0], c.pairs[len(c.pairs)-1][1]
		c.pairs = c.pairs[:len(c.pairs)-1]
		c.with[i] = c.with[i][:len(c.with[i])-1]
		if i != j {
			c.with[j] = c.with[j][:len(c.with[j])-1]
		}
	}
}

// of lists the kinds that clash with a kind.
func (c *clashes) of(kind int) []int {
	if kind < len(c.with) {
		return c.with[kind]
	}
	return nil
}

// allows says whether a pattern holds no pair.
func (c *clashes) allows(p *pattern) bool {
	if c.none() {
		return true
	}
	for _, t := range p.takes {
		for _, j := range c.of(int(t.kind)) {
			if j == int(t.kind) && t.times > 1 || j != int(t.kind) && p.count(j) > 0 {
				return false
			}
		}
	}
	return true
}

// hunt finds the patterns that are worth most among those without clashes: a
// search in depth over kinds, best value for its width first, that gives up where
// the next kinds would not make up enough, clashes or not.
type hunt struct {
	knapsack // its items and what is to be beaten, not its lists
	clash    *clashes
	blocked  []int32 // by kind: pieces taken that clash with it
	path     []take
	found    []pattern // by bar: the best pattern, without takes if none is worth enough
	limit    int64
}

// patience is how many steps one hunt may take.
const patience = 20_000_000

// solve finds the best pattern of each bar that is worth more than over, and says
// whether it got to the end.
func (h *hunt) solve(clash *clashes, over []int64) (complete bool) {
	h.clash = clash
	kinds := 0
	for i := range h.items {
		it := &h.items[i]
		kinds = max(kinds, int(it.kind)+1)
		if slices.Contains(clash.of(int(it.kind)), int(it.kind)) {
			it.most = 1
		}
	}
	for _, p := range clash.pairs {
		kinds = max(kinds, p[0]+1, p[1]+1)
	}
	h.blocked = append(h.blocked[:0], make([]int32, kinds)...)
	h.worth = append(h.worth[:0], over...)
	h.found = h.found[:0]
	for b := range h.room {
		h.found = append(h.found, pattern{bar: b})
	}
	h.limit = h.work + patience
	h.descend(0, 0, 0)
	return h.work < h.limit
}

// descend tries all ways to go on from a width and worth with items from number i on.
func (h *hunt) descend(i int, width, worth int64) {
	widest := slicesMax(h.room)
	for ; i < len(h.items) && h.work < h.limit; i++ {
		h.work++
		it := &h.items[i]
		if h.blocked[it.kind] > 0 || width+it.width > widest {
			continue
		}
		if !h.reaches(i, width, worth) {
			return
		}
		h.block(it.kind, 1)
		for n := min(it.most, (widest-width)/it.width); n > 0; n-- {
			h.path = append(h.path, take{it.kind, int32(n)})
			h.note(width+n*it.width, worth+n*it.value)
			h.descend(i+1, width+n*it.width, worth+n*it.value)
			h.path = h.path[:len(h.path)-1]
		}
		h.block(it.kind, -1)
	}
}

// note keeps the path for bars of which it is the best pattern.
func (h *hunt) note(width, worth int64) {
	for b, room := range h.room {
		if width <= room && worth > h.worth[b] {
			h.worth[b] = worth
			h.found[b].takes = append(h.found[b].takes[:0], h.path...)
		}
	}
}

// reaches says whether a state might become the best of a bar with items from
// number i on, clashes or not, even if the last of them were taken in part.
func (h *hunt) reaches(i int, width, worth int64) bool {
	for b, room := range h.room {
		rest, sum := room-width, worth
		if rest < 0 {
			continue
		}
		for j := i; j < len(h.items); j++ {
			it := &h.items[j]
			h.work++
			if n := rest / it.width; n < it.most {
				if float64(sum)+float64(float64(rest)*it.rate()) > float64(h.worth[b])+slack {
					return true
				}
				break
			}
			rest -= it.most * it.width
			if sum += it.most * it.value; sum > h.worth[b] {
				return true
			}
		}
	}
	return false
}

func (h *hunt) block(kind, by int32) {
	for _, j := range h.clash.of(int(kind)) {
		if j != int(kind) {
			h.blocked[j] += by
		}
	}
}
