package bars

import (
	"math"
	"slices"

	"setwright/layout/solve/lp"
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
	// whole is how near to an integer a value is taken for one.
	whole = 1e-6
)

// master is the linear program over patterns: all kinds made, no more bars of any
// kind than stock, at the least price. Kinds from the number of widths of the shop
// on are pairs that a tree has glued together.
type master struct {
	*budget
	room  []int64
	price []float64 // by bar, the dearest 1
	width []int64   // by kind
	need  []int64
	stock []int64

	program lp.Program
	kinds   int // of the shop: row of kind k is k, that of bar b kinds+b, those of pairs follow
	penalty float64
	short   []int     // by kind: the column that makes up for pieces not made
	columns []pattern // by column of the program
	dead    []bool    // by column: never to be used again
	known   map[string]bool
	hasty   bool // good patterns will do, and no proof
	near    bool // it took a long search to find patterns that are hardly better
	clash   *clashes
	sack    knapsack
	filler  knapsack
	hunt    hunt
	worth   []int64 // the duals as integers, by kind
	over    []int64 // by bar: what a pattern must be worth to be of use
	best    []int64 // by bar: what a pattern is worth at most
}

func newMaster(s *shop, b *budget) *master {
	m := &master{budget: b, room: s.room, width: slices.Clone(s.width), need: slices.Clone(s.need), stock: slices.Clone(s.limit),
		penalty: penalty, kinds: len(s.width), known: map[string]bool{}, clash: &clashes{}}
	m.sack.room, m.hunt.room = s.room, s.room
	dearest := slices.Max(s.price)
	for _, p := range s.price {
		m.price = append(m.price, float64(p)/float64(dearest))
	}
	for _, n := range s.need {
		m.program.AddRow(lp.AtLeast, float64(n), nil)
	}
	for _, n := range s.limit {
		m.program.AddRow(lp.AtMost, float64(n), nil)
	}
	m.over, m.best = make([]int64, len(s.room)), make([]int64, len(s.room))
	for k := range s.width {
		m.addShort(k)
	}
	for k := range s.width {
		for b := range s.room {
			if n := min(s.need[k], s.room[b]/s.width[k]); n > 0 {
				m.add(pattern{b, []take{{int32(k), int32(n)}}})
			}
		}
	}
	return m
}

const (
	// penalty is what a piece not made costs at first, in bars of the dearest kind.
	penalty = 8
	// dearest is what it may come to.
	dearest = 8 << 20
)

// addShort adds the column that makes up for pieces of a kind.
func (m *master) addShort(kind int) {
	m.short = append(m.short, m.program.AddColumn(m.penalty, []lp.Entry{{Index: m.row(kind), Value: 1}}))
	m.columns = append(m.columns, pattern{bar: -1})
	m.dead = append(m.dead, false)
}

// raisePenalty makes pieces not made dearer: it paid to leave some out.
func (m *master) raisePenalty() {
	m.penalty *= 16
	for _, c := range m.short {
		m.program.SetCost(c, m.penalty)
	}
}

// row is the row of a kind.
func (m *master) row(kind int) int {
	if kind < m.kinds {
		return kind
	}
	return kind + len(m.room)
}

// add adds a pattern, unless it is there already.
func (m *master) add(p pattern) bool {
	key := p.key()
	if m.known[key] {
		return false
	}
	m.known[key] = true
	entries := []lp.Entry{{Index: m.kinds + p.bar, Value: 1}}
	for _, t := range p.takes {
		entries = append(entries, lp.Entry{Index: m.row(int(t.kind)), Value: float64(t.times)})
	}
	m.program.AddColumn(m.price[p.bar], entries)
	m.columns = append(m.columns, p)
	m.dead = append(m.dead, false)
	return true
}

// key tells patterns apart.
func (p *pattern) key() string {
	b := make([]byte, 0, 8+8*len(p.takes))
	put := func(v int32) { b = append(b, byte(v), byte(v>>8), byte(v>>16), byte(v>>24)) }
	put(int32(p.bar))
	for _, t := range p.takes {
		put(t.kind)
		put(t.times)
	}
	return string(b)
}

// usable says whether a column makes no more than is wanted, from bars that are
// there, with nothing on one bar that is to be kept apart.
func (m *master) usable(c int) bool {
	p := &m.columns[c]
	if m.dead[c] || p.bar >= 0 && m.stock[p.bar] == 0 {
		return false
	}
	for _, t := range p.takes {
		if int64(t.times) > m.need[t.kind] {
			return false
		}
	}
	return m.clash.allows(p)
}

// settle brings the program in line with need, stock and clashes.
func (m *master) settle() {
	for k, n := range m.need {
		m.program.SetBound(m.row(k), float64(n))
	}
	for b, n := range m.stock {
		m.program.SetBound(m.kinds+b, float64(n))
	}
	for c := range m.columns {
		m.program.Bar(c, !m.usable(c))
	}
}

// verdict is what is known of a linear program.
type verdict int8

const (
	possible   verdict = iota // in fractions of patterns
	impossible                // proven in integers by worth
	unknown                   // out of effort, or out of precision
)

// solve finds an optimum over all patterns. It ends early if the stock is proven not
// to be enough.
func (m *master) solve() verdict {
	m.settle()
	for {
		before := m.program.Work()
		status := m.program.Solve()
		m.spend(m.program.Work() - before)
		if status != lp.Optimal || m.spent() {
			return unknown
		}
		m.roundDuals()
		fresh, complete := m.pricePatterns()
		switch {
		case complete && exceeds(m.worth, m.need, m.best, m.stock):
			return impossible
		case fresh && complete && m.near && m.shortage() <= whole:
			return possible
		case fresh:
		case !complete && !m.hasty:
			return unknown
		case m.shortage() <= whole:
			return possible
		case m.hasty || m.penalty >= dearest:
			return unknown
		default:
			m.raisePenalty()
		}
	}
}

// roundDuals makes integers of the duals, in parts of the price of the dearest bar.
func (m *master) roundDuals() {
	rate := 0.0
	for k, w := range m.width {
		if m.need[k] > 0 {
			rate = max(rate, m.program.Dual(m.row(k))/float64(w))
		}
	}
	parts := math.Min(parts, manyParts/(1+rate*float64(slices.Max(m.room))))
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

// pricePatterns looks for patterns worth more than their price under the duals. It
// reports whether there are any, and whether best is what patterns are worth at most.
func (m *master) pricePatterns() (fresh, complete bool) {
	var found []pattern
	if m.clash.none() {
		found, complete = m.priceFreely()
	} else {
		m.hunt.load(m.width, m.worth, m.need)
		complete = m.hunt.solve(m.clash, m.over)
		copy(m.best, m.hunt.worth)
		for _, p := range m.hunt.found {
			if len(p.takes) > 0 {
				p.takes = slices.Clone(p.takes)
				p.tidy()
				found = append(found, p)
			}
		}
	}
	m.spend(m.sack.work + m.hunt.work)
	m.sack.work, m.hunt.work = 0, 0
	for _, p := range found {
		if m.add(p) {
			fresh = true
		}
	}
	return fresh, complete
}

const (
	// variety is how many times patterns are looked for in one round.
	variety = 20
	// tolerable is by how many parts patterns may then be better than those known.
	tolerable = parts >> 14
)

// priceFreely finds the best pattern of each bar, then the best without the kinds of
// those, and so on: the program moves on faster with patterns that share little.
func (m *master) priceFreely() (found []pattern, complete bool) {
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
			complete = !m.sack.thinned
			copy(m.best, m.sack.worth)
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
	return found, complete
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

// shortage is how many pieces the program leaves unmade.
func (m *master) shortage() float64 {
	sum := 0.0
	for _, c := range m.short {
		sum += m.program.Value(c)
	}
	return sum
}

// value is what the program gives to a column, near integers made whole.
func (m *master) value(c int) float64 {
	v := m.program.Value(c)
	if r := math.Round(v); math.Abs(v-r) < whole {
		return r
	}
	return v
}
