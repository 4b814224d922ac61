package bars

import (
	"math"
	"slices"
)

const (
	// parts is how many parts the price of the dearest bar is cut into when duals are
	// rounded to integers, or fewer.
	parts = 1 << 32
	// manyParts is more than any bar can be worth in parts.
	manyParts = 1 << 48
	// margin is what a pattern must be worth beyond its price, in those parts, to be
	// of use to the linear program.
	margin = 1 << 5
	// variety is how many times patterns are looked for in one round.
	variety = 20
	// tolerable is by how many parts patterns may be better than those known, where
	// it takes long to find any.
	tolerable = parts >> 14
)

// pricing is what a master knows of the last search for patterns.
type pricing struct {
	worth    []int64 // the duals as integers, by kind
	over     []int64 // by bar: what a pattern must be worth to be of use
	best     []int64 // by bar: what a pattern is worth at most,
	complete bool    // if the search left nothing out
	near     bool    // it took long to find patterns that are hardly better
	sack     knapsack
	hunt     hunt
}

// roundDuals makes integers of the duals, in parts of the price of the dearest bar.
func (m *master) roundDuals() {
	rate := 0.0
	for k, w := range m.width {
		if m.need[k] > 0 {
			rate = max(rate, m.program.Dual(m.row(k))/float64(w))
		}
	}
	parts := math.Min(parts, manyParts/(1+float64(rate*float64(slices.Max(m.room)))))
	m.worth = m.worth[:0]
	for k := range m.width {
		v := int64(0)
		if m.need[k] > 0 {
			v = int64(m.program.Dual(m.row(k)) * parts)
		}
		m.worth = append(m.worth, v)
	}
	for b := range m.room {
		m.over[b] = int64((m.price[b]-m.program.Dual(m.kinds+b))*parts) + margin
		if m.stock[b] == 0 {
			m.over[b] = manyParts
		}
	}
}

// pricePatterns looks for patterns worth more than their price under the duals, and
// says whether there are any that are new.
func (m *master) pricePatterns() (fresh bool) {
	found := m.priceApart
	if m.clash.none() {
		found = m.priceFreely
	}
	patterns := found()
	m.spend(m.sack.work + m.hunt.work)
	m.sack.work, m.hunt.work = 0, 0
	for _, p := range patterns {
		if m.add(p) {
			fresh = true
		}
	}
	return fresh
}

// priceFreely finds the best pattern of each bar, then the best without the kinds of
// those, and so on: the program moves on faster with patterns that share little.
func (m *master) priceFreely() (found []pattern) {
	left := slices.Clone(m.need)
	m.sack.thin = brief
	m.near = false
	for turn := range variety {
		m.sack.load(m.width, m.worth, left)
		m.sack.solve(m.over)
		if turn == 0 && m.sack.thinned && !m.hasty && !m.sack.found() {
			m.sack.thin = longest
			m.sack.solve(m.over)
			m.near = m.close()
		}
		if turn == 0 {
			m.complete = !m.sack.thinned
			copy(m.best, m.sack.worth)
			m.sack.thin = brief // what else there is need not be the best
		}
		before := len(found)
		for b := range m.room {
			if m.sack.last[b] >= 0 {
				found = append(found, m.sack.best(b))
			}
		}
		if len(found) == before {
			break
		}
		for _, p := range found[before:] {
			for _, t := range p.takes {
				left[t.kind] = 0
			}
		}
	}
	return found
}

// priceApart finds the best pattern of each bar without clashes.
func (m *master) priceApart() (found []pattern) {
	m.near = false
	m.hunt.load(m.width, m.worth, m.need)
	m.complete = m.hunt.solve(m.clash, m.over)
	copy(m.best, m.hunt.worth)
	for _, p := range m.hunt.found {
		if len(p.takes) > 0 {
			p.takes = slices.Clone(p.takes)
			p.tidy()
			found = append(found, p)
		}
	}
	return found
}

// close says whether patterns are worth so little more than asked for that another
// long search for better ones is not worth while.
func (m *master) close() bool {
	for b, v := range m.sack.worth {
		if v-m.over[b] > tolerable {
			return false
		}
	}
	return true
}
