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
// that could not become worth enough even if the best of the remaining pieces filled
// the rest, the last of them in part. Lists make no difference between lengths in inches and in
// nanometres; they are short where a table would be.
type knapsack struct {
	room  []int64
	items []item
	// thin is how long lists may get before every other state is dropped: that finds
	// good patterns and proves nothing. It was so if thinned.
	thin    int
	thinned bool
	// by bar: only patterns worth more than over are looked for. Afterwards worth
	// and last are those of the best; none is worth more than worth, which is
	// over where last is negative.
	worth []int64
	last  []int32

	lots         []lot
	states, next []state
	steps        []step
	reach        []int // by bar: where the lots that fill up a state end
	work         int64
}

// item is a kind on offer.
type item struct {
	kind         int32
	width, value int64
	most         int64
}

// lot is some pieces of an item that are taken or left together: lots of 1, 2, 4 and
// so on make up every number.
type lot struct {
	take
	width, value  int64
	rate          float64
	before, worth int64 // widths and values of the lots before it
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
	k.allot()
	k.states = append(k.states[:0], state{last: -1})
	for i := range len(k.lots) - 1 {
		if k.extend(i); len(k.states) == 0 {
			return
		}
	}
}

// allot parts the items into lots, and ends them with one of nothing.
func (k *knapsack) allot() {
	k.lots = k.lots[:0]
	width, worth := int64(0), int64(0)
	for _, it := range k.items {
		for left, n := it.most, int64(1); left > 0; left, n = left-n, 2*n {
			n = min(n, left)
			k.lots = append(k.lots, lot{take{it.kind, int32(n)}, n * it.width, n * it.value, it.rate(), width, worth})
			width, worth = width+n*it.width, worth+n*it.value
		}
	}
	k.lots = append(k.lots, lot{before: width, worth: worth})
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

// extend merges the states with the same states and a lot more, in order of width.
func (k *knapsack) extend(i int) {
	it := k.lots[i]
	k.reach = k.reach[:0]
	for range k.room {
		k.reach = append(k.reach, len(k.lots)-1)
	}
	states := k.states
	fits := narrower(states, slicesMax(k.room)-it.width)
	out := k.next[:0]
	top := int64(-1)
	for old, fresh := 0, 0; old < len(states) || fresh < fits; {
		var st state
		isOld := fresh == fits
		if !isOld {
			st = state{states[fresh].width + it.width, states[fresh].worth + it.value, states[fresh].last}
			isOld = old < len(states) && (states[old].width < st.width || states[old].width == st.width && states[old].worth >= st.worth)
		}
		if isOld {
			st = states[old]
			old++
		} else {
			fresh++
		}
		if st.worth <= top {
			continue
		}
		best := !isOld && k.improves(st)
		if !best && !k.promising(st, i+1) {
			continue
		}
		top = st.worth
		if !isOld {
			k.steps = append(k.steps, step{it.take, st.last})
			st.last = int32(len(k.steps) - 1)
		}
		if best {
			k.record(st)
		}
		out = append(out, st)
	}
	k.work += int64(4*len(states) + 8)
	k.states, k.next = out, states
	k.thinOut()
}

// narrower is how many states are no wider than that; they are in order of width.
func narrower(states []state, width int64) int {
	n, _ := slices.BinarySearchFunc(states, width+1, func(s state, w int64) int { return cmp.Compare(s.width, w) })
	return n
}

// thinOut drops states where there are too many for the search or for the memory.
func (k *knapsack) thinOut() {
	most := k.thin
	if len(k.steps) > longest*8 {
		most = min(most, brief)
	}
	for len(k.states) > most {
		k.thinned = true
		for i := range len(k.states) / 2 {
			k.states[i] = k.states[2*i+1]
		}
		k.states = k.states[:len(k.states)/2]
	}
}

// slack is more than rounding can do to a bound, as worths are below 2^48, and less
// than the 1 by which a worth that is better must be better.
const slack = 0.5

// promising says whether a state might become the best of a bar with lots from a
// number on, even if the last of them were taken in part (Dantzig 1957). States come in order of
// width, so that each bar is filled up with ever fewer lots.
func (k *knapsack) promising(st state, from int) bool {
	first := &k.lots[from]
	for b, room := range k.room {
		rest := room - st.width
		if rest < 0 {
			continue
		}
		at := max(k.reach[b], from)
		for at > from && k.lots[at].before-first.before > rest {
			at--
		}
		k.reach[b] = at
		last := &k.lots[at]
		rest -= last.before - first.before
		if float64(st.worth+last.worth-first.worth)+float64(float64(rest)*last.rate) > float64(k.worth[b])+slack {
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

const (
	// brief is how long lists may get at first: what they miss is only looked for
	// when they find nothing.
	brief = 150
	// longest is how long lists may get where none must be missed: some 6 MB.
	longest = 1 << 18
)

// infinite is more than any count.
const infinite = math.MaxInt64
