package bars

import (
	"math"
	"slices"
)

// used is a pattern and how many bars are cut by it.
type used struct {
	pattern
	times int64
}

// dive looks for a plan within need and stock: it solves the linear program, fixes
// what is whole of it or else its largest fraction, and goes on with the rest.
// On the way good takes the plans that come of filling up in haste, and may end it.
func (m *master) dive(good func(plan []used) bool) {
	need, stock := slices.Clone(m.need), slices.Clone(m.stock)
	defer func() { copy(m.need, need); copy(m.stock, stock); m.hasty = false }()
	m.hasty = true
	var plan []used
	for {
		if rest, done := m.greedy(); done && (good(append(slices.Clip(plan), rest...)) || len(rest) == 0) {
			return
		}
		if m.solve() != possible {
			return
		}
		fixed := m.fix()
		if len(fixed) == 0 {
			return // nothing but rounding errors
		}
		plan = append(plan, fixed...)
	}
}

// fix takes the whole part of the program's values, or one bar of the pattern with
// the largest value.
func (m *master) fix() (plan []used) {
	best, most := -1, 0.0
	for c := range m.columns {
		v := m.value(c)
		if m.columns[c].bar < 0 || v <= 0 {
			continue
		}
		if v >= 1 {
			if u := m.take(m.columns[c], int64(math.Floor(v))); u.times > 0 {
				plan = append(plan, u)
			}
		} else if v > most {
			best, most = c, v
		}
	}
	if len(plan) == 0 && best >= 0 {
		plan = append(plan, m.take(m.columns[best], 1))
	}
	return plan
}

// take cuts bars by a pattern, as many as asked for or as need and stock allow.
func (m *master) take(p pattern, times int64) used {
	times = min(times, m.stock[p.bar])
	for _, t := range p.takes {
		times = min(times, m.need[t.kind]/int64(t.times))
	}
	m.stock[p.bar] -= times
	for _, t := range p.takes {
		m.need[t.kind] -= times * int64(t.times)
	}
	return used{p, times}
}

// listed is how long lists may get when a bar is filled in haste.
const listed = 100

// greedy makes a plan by filling one bar after the other as full as it gets, always
// with the widest piece left, and takes the kind of bar that is cheapest for what
// is in it.
func (m *master) greedy() (plan []used, done bool) {
	need, stock := slices.Clone(m.need), slices.Clone(m.stock)
	defer func() { copy(m.need, need); copy(m.stock, stock) }()
	for {
		first := slices.IndexFunc(m.need, func(n int64) bool { return n > 0 })
		if first < 0 {
			return plan, true
		}
		for k, n := range m.need {
			if n > 0 && m.width[k] > m.width[first] {
				first = k
			}
		}
		p, found := m.fill(first)
		if !found {
			return nil, false
		}
		plan = append(plan, m.take(p, infinite))
	}
}

// fill finds the bar that is cheapest for what it can hold beside a piece of a kind.
func (m *master) fill(first int) (best pattern, found bool) {
	sack := &m.filler
	sack.thin = listed
	sack.room = sack.room[:0]
	zero := make([]int64, len(m.room))
	for b, room := range m.room {
		if m.stock[b] > 0 {
			sack.room = append(sack.room, room-m.width[first])
		} else {
			sack.room = append(sack.room, -1)
		}
	}
	if slicesMax(sack.room) < 0 {
		return best, false
	}
	m.need[first]--
	sack.load(m.width, m.width, m.need)
	m.need[first]++
	sack.solve(zero)
	m.spend(sack.work)
	sack.work = 0
	cheapest := math.Inf(1)
	for b, room := range sack.room {
		if room < 0 {
			continue
		}
		if each := m.price[b] / float64(sack.worth[b]+m.width[first]); each < cheapest {
			cheapest, found = each, true
			best = sack.best(b)
			best.add(take{int32(first), 1})
			best.tidy()
		}
	}
	return best, found
}
