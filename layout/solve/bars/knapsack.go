package bars

import (
	"cmp"
	"math"
	"slices"
)

// take is how many pieces of a kind a pattern holds.
type take struct{ kind, times int32 }

// pattern is what one bar of a kind gives.
type pattern struct {
	bar   int
	takes []take
}

// knapsack finds the patterns that are worth most, for bars of every room at once.
//
// It keeps a list of what can be made from the kinds so far, each state wider and
// worth more than the one before (no other could be of use), and strikes out those
// that could not become worth enough even if the best of the remaining kinds filled
// the rest exactly. Lists make no difference between lengths in inches and in
// nanometres; they are short where a table would be.
type knapsack struct {
	room  []int64
	items []item
	// thin, if not zero, is how long lists may get before every other state is
	// dropped: that finds good patterns and proves nothing. It was so if thinned.
	thin    int
	thinned bool
	// by bar: only patterns worth more than over are looked for. Afterwards worth
	// and last are those of the best; none is worth more than worth, which is
	// over where last is negative.
	worth []int64
	last  []int32

	states, next []state
	steps        []step
	lines        []float64
	work         int64
}

// item is a kind on offer.
type item struct {
	kind         int32
	width, value int64
	most         int64
}

type state struct {
	width, worth int64
	last         int32 // of steps, or -1
}

// step is how a state came about.
type step struct {
	take
	before int32
}

// load offers the kinds that have a value, best value for its width first.
func (k *knapsack) load(width, value, most []int64) {
	widest := slicesMax(k.room)
	k.items = k.items[:0]
	for i, v := range value {
		if n := min(most[i], widest/width[i]); v > 0 && n > 0 {
			k.items = append(k.items, item{int32(i), width[i], v, n})
		}
	}
	slices.SortFunc(k.items, func(a, b item) int {
		return cmp.Or(cmp.Compare(float64(b.value)/float64(b.width), float64(a.value)/float64(a.width)), cmp.Compare(a.kind, b.kind))
	})
}

// solve finds the best pattern of each bar that is worth more than over.
func (k *knapsack) solve(over []int64) {
	k.begin(over)
	k.states = append(k.states[:0], state{last: -1})
	for i, it := range k.items {
		for left, chunk := it.most, int64(1); left > 0; chunk *= 2 {
			n := min(chunk, left)
			left -= n
			rate := it.rate()
			if left == 0 {
				rate = 0
				if i+1 < len(k.items) {
					rate = k.items[i+1].rate()
				}
			}
			if k.extend(it, n, rate); len(k.states) == 0 {
				return
			}
		}
	}
}

// begin sets what is to be beaten.
func (k *knapsack) begin(over []int64) {
	k.worth = append(k.worth[:0], over...)
	k.last = k.last[:0]
	for range over {
		k.last = append(k.last, -1)
	}
	k.steps = k.steps[:0]
	k.thinned = false
}

func (it item) rate() float64 { return float64(it.value) / float64(it.width) }

// extend merges the states with the same states and n more of an item; rate is what
// the room that is left can yet be worth at most.
func (k *knapsack) extend(it item, n int64, rate float64) {
	k.setLines(rate)
	widest := slicesMax(k.room)
	dw, dv := n*it.width, n*it.value
	out := k.next[:0]
	top := int64(-1)
	old, fresh := k.states, k.states
	for len(old) > 0 || len(fresh) > 0 {
		if len(fresh) > 0 && fresh[0].width+dw > widest {
			fresh = nil
			continue
		}
		if len(fresh) == 0 || len(old) > 0 && (old[0].width < fresh[0].width+dw || old[0].width == fresh[0].width+dw && old[0].worth >= fresh[0].worth+dv) {
			if st := old[0]; st.worth > top && k.promising(st.width, st.worth, rate) {
				top = st.worth
				out = append(out, st)
			}
			old = old[1:]
			continue
		}
		st := state{fresh[0].width + dw, fresh[0].worth + dv, fresh[0].last}
		fresh = fresh[1:]
		if st.worth <= top {
			continue
		}
		best := k.improves(st)
		if !best && !k.promising(st.width, st.worth, rate) {
			continue
		}
		top = st.worth
		k.steps = append(k.steps, step{take{it.kind, int32(n)}, st.last})
		st.last = int32(len(k.steps) - 1)
		if best {
			k.record(st)
			k.setLines(rate)
		}
		out = append(out, st)
	}
	k.work += int64(4*len(k.states) + 8)
	k.states, k.next = out, k.states
	for k.thin > 0 && len(k.states) > k.thin {
		k.thinned = true
		for i := range len(k.states) / 2 {
			k.states[i] = k.states[2*i+1]
		}
		k.states = k.states[:len(k.states)/2]
	}
}

// setLines prepares promising: a state must lie above the line of a bar.
func (k *knapsack) setLines(rate float64) {
	k.lines = k.lines[:0]
	for b, room := range k.room {
		k.lines = append(k.lines, float64(k.worth[b])-float64(room)*rate+slack)
	}
}

// slack is more than rounding can do to a line, as worths are below 2^48, and less
// than the 1 by which a worth that is better must be better.
const slack = 0.5

// promising says whether a state might become the best of a bar.
func (k *knapsack) promising(width, worth int64, rate float64) bool {
	height := float64(worth) - float64(width)*rate
	for b, line := range k.lines {
		if height > line && width <= k.room[b] {
			return true
		}
	}
	return false
}

// improves says whether a state is the best of a bar so far.
func (k *knapsack) improves(st state) bool {
	for b, room := range k.room {
		if st.width <= room && st.worth > k.worth[b] {
			return true
		}
	}
	return false
}

func (k *knapsack) record(st state) {
	for b, room := range k.room {
		if st.width <= room && st.worth > k.worth[b] {
			k.worth[b], k.last[b] = st.worth, st.last
		}
	}
}

// found says whether there is a pattern that is worth enough.
func (k *knapsack) found() bool {
	return slices.ContainsFunc(k.last, func(at int32) bool { return at >= 0 })
}

// best is the best pattern of a bar; of none it is empty.
func (k *knapsack) best(bar int) pattern {
	p := pattern{bar: bar}
	for at := k.last[bar]; at >= 0; at = k.steps[at].before {
		p.add(k.steps[at].take)
	}
	p.tidy()
	return p
}

// add puts more pieces into a pattern.
func (p *pattern) add(t take) {
	for i := range p.takes {
		if p.takes[i].kind == t.kind {
			p.takes[i].times += t.times
			return
		}
	}
	p.takes = append(p.takes, t)
}

func (p *pattern) tidy() {
	slices.SortFunc(p.takes, func(a, b take) int { return cmp.Compare(a.kind, b.kind) })
}

// count is how many pieces of a kind a pattern holds.
func (p *pattern) count(kind int) int64 {
	for _, t := range p.takes {
		if int(t.kind) == kind {
			return int64(t.times)
		}
	}
	return 0
}

// infinite is more than any count.
const infinite = math.MaxInt64
