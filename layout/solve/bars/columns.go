package bars

import (
	"math"
	"slices"

	"setwright/layout/solve/lp"
)

// whole is how near to an integer a value is taken for one.
const whole = 1e-6

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
	clash   *clashes
	pricing
	filler knapsack
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
	// highestPenalty is what it may come to.
	highestPenalty = 8 << 20
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

// arrange brings the program in line with need, stock and clashes.
func (m *master) arrange() {
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
	m.arrange()
	for {
		before := m.program.Work()
		status := m.program.Solve()
		m.spend(m.program.Work() - before)
		if status != lp.Optimal || m.spent() {
			return unknown
		}
		m.roundDuals()
		fresh := m.pricePatterns()
		switch {
		case m.complete && exceeds(m.worth, m.need, m.best, m.stock):
			return impossible
		case fresh && m.complete && m.near && m.shortage() <= whole:
			return possible
		case fresh:
		case !m.complete && !m.hasty:
			return unknown
		case m.shortage() <= whole:
			return possible
		case m.hasty || m.penalty >= highestPenalty:
			return unknown
		default:
			m.raisePenalty()
		}
	}
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
