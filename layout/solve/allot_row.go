package solve

import (
	"cmp"
	"slices"
)

// rowFill is the problem of one row: every item takes exactly one of its
// options, all of them fit, and their value is greatest (the multiple-choice
// knapsack problem, with a second limit when load is not endlessLoad).
//
// The best is found with lists of states in which no state betters another,
// from which those are struck out that prices on room and load show to lead
// to nothing better than what is known (K. Dudzinski and S. Walukiewicz, European
// Journal of Operational Research 28, 1987; D. Pisinger, same journal 83, 1995; both
// cited from memory).
type rowFill struct {
	room, load int64
	items      [][]rowOption
	scale      int64
	prices     [][2]int64 // of a unit of room and of load, times scale; the tightest first
	picks      []int      // what each item chooses at the first prices
	rest       []rowRest  // of the items from each one on
	layers     [][]rowState
	best       rowEnd
	steps      int64
}

// rowOption is an option with the number that its owner knows it by.
type rowOption struct {
	width, weight, value int64
	id                   int
}

// rowRest tells about the items from one on.
type rowRest struct {
	width, weight int64    // the least they can take
	ideal         [3]int64 // width, weight and value of what they choose at the first prices
	worth         []int64  // the most they are worth at each of the prices
}

// rowState is a way to choose for the items before one.
type rowState struct {
	width, weight, value int64
	from, option         int32
}

// rowEnd is a whole choice: a state, and the first prices' choice for the rest.
type rowEnd struct {
	found        bool
	value        int64
	layer, state int
}

// solve gives the ids of the best options by item, and their value.
func (f *rowFill) solve() (ids []int, value int64, ok bool) {
	order := f.prepare()
	if f.rest[0].width > f.room || f.overloads(f.rest[0].weight) {
		return nil, 0, false
	}
	f.layers = [][]rowState{{{}}}
	f.complete(0)
	for i := range f.items {
		f.extend(i)
		f.complete(i + 1)
	}
	if !f.best.found {
		return nil, 0, false
	}
	return f.trace(order), f.best.value, true
}

func (f *rowFill) overloads(weight int64) bool { return f.load != endlessLoad && weight > f.load }

// prepare finds prices and puts the items that are surest of their choice first,
// so that the states become many only near the end, where little is left open. It
// gives the place that each item had.
func (f *rowFill) prepare() []int {
	var total int64 = 1
	for _, item := range f.items {
		var most int64
		for _, o := range item {
			most = max(most, o.value, -o.value)
		}
		total += most
	}
	for f.scale = 1; f.scale < 1<<40 && total < (1<<58)/int64(len(f.items)+4)/(f.scale*2); {
		f.scale *= 2
	}
	f.price(total * f.scale)
	order := make([]int, len(f.items))
	doubt := make([]int64, len(f.items))
	for i, item := range f.items {
		order[i] = i
		doubt[i] = f.doubt(item)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(doubt[b], doubt[a]) })
	items := make([][]rowOption, len(order))
	for i, o := range order {
		items[i] = f.items[o]
	}
	f.items = items
	f.sumUp()
	return order
}

// doubt is how much the second choice of an item loses against its first.
func (f *rowFill) doubt(item []rowOption) int64 {
	first, second := int64(-1<<62), int64(-1<<62)
	for _, o := range item {
		if w := f.worth(o, 0); w > first {
			first, second = w, first
		} else {
			second = max(second, w)
		}
	}
	return first - second
}

// worth of an option at one of the prices.
func (f *rowFill) worth(o rowOption, at int) int64 {
	return f.scale*o.value - f.prices[at][0]*o.width - f.prices[at][1]*o.weight
}

// price finds the prices at which the items' free choice about fits, and some
// about them, which bound the states with little left better.
func (f *rowFill) price(most int64) {
	room, load := f.unitPrice(most, f.room), int64(0)
	top := [2]int64{room, 0}
	if f.load != endlessLoad {
		load = f.unitPrice(most, f.load)
		top[1] = f.bisect(load, func(k int64) bool {
			_, weight := f.usage(f.bisect(room, func(l int64) bool { w, _ := f.usage(l, k); return w <= f.room }), k)
			return weight <= f.load
		})
	}
	top[0] = f.bisect(room, func(l int64) bool { w, _ := f.usage(l, top[1]); return w <= f.room })
	f.prices = [][2]int64{top}
	for _, eighths := range []int64{7, 9, 6, 10, 12, 4, 16, 0} {
		f.prices = append(f.prices, [2]int64{min(mulDiv(top[0], eighths, 8), room), top[1]})
	}
	if top[1] > 0 {
		for _, eighths := range []int64{7, 9, 4, 16} {
			f.prices = append(f.prices, [2]int64{top[0], min(mulDiv(top[1], eighths, 8), load)})
		}
	}
}

// unitPrice is the price of a unit at which nothing is worth the whole of it.
func (f *rowFill) unitPrice(most, whole int64) int64 { return most / max(whole, 1) }

// bisect finds the least price from 0 to most at which things fit, else most.
func (f *rowFill) bisect(most int64, fits func(int64) bool) int64 {
	lo, hi := int64(0), most
	for lo < hi {
		mid := lo + (hi-lo)/2
		if fits(mid) {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// usage is the room and load that the items take when they choose at prices.
func (f *rowFill) usage(room, load int64) (width, weight int64) {
	for _, item := range f.items {
		best, at := int64(-1<<63), 0
		for j, o := range item {
			if w := f.scale*o.value - room*o.width - load*o.weight; w > best {
				best, at = w, j
			}
		}
		width, weight = width+item[at].width, weight+item[at].weight
		f.steps += int64(len(item))
	}
	return width, weight
}

// sumUp fills in picks and rest, from the last item back.
func (f *rowFill) sumUp() {
	f.rest = make([]rowRest, len(f.items)+1)
	f.rest[len(f.items)].worth = make([]int64, len(f.prices))
	f.picks = make([]int, len(f.items))
	for i := len(f.items) - 1; i >= 0; i-- {
		f.rest[i] = f.rest[i+1]
		r := &f.rest[i]
		r.worth = slices.Clone(r.worth)
		wide, heavy := int64(1<<62), int64(1<<62)
		for _, o := range f.items[i] {
			wide, heavy = min(wide, o.width), min(heavy, o.weight)
		}
		r.width, r.weight = r.width+wide, r.weight+heavy
		for at := range f.prices {
			best, j := int64(-1<<63), 0
			for k, o := range f.items[i] {
				if w := f.worth(o, at); w > best {
					best, j = w, k
				}
			}
			r.worth[at] += best
			if at == 0 {
				o := f.items[i][j]
				f.picks[i] = j
				r.ideal[0], r.ideal[1], r.ideal[2] = r.ideal[0]+o.width, r.ideal[1]+o.weight, r.ideal[2]+o.value
			}
		}
		f.steps += int64(len(f.prices) * len(f.items[i]))
	}
}

// extend makes the states after item i from those before it.
func (f *rowFill) extend(i int) {
	var next []rowState
	for from, s := range f.layers[i] {
		for j, o := range f.items[i] {
			n := rowState{s.width + o.width, s.weight + o.weight, s.value + o.value, int32(from), int32(j)}
			if f.hopeful(n, &f.rest[i+1]) {
				next = append(next, n)
			}
		}
	}
	f.steps += int64(len(f.layers[i]) * len(f.items[i]))
	slices.SortFunc(next, func(a, b rowState) int {
		return cmp.Or(cmp.Compare(a.width, b.width), cmp.Compare(a.weight, b.weight), cmp.Compare(b.value, a.value),
			cmp.Compare(a.from, b.from), cmp.Compare(a.option, b.option))
	})
	f.layers = append(f.layers, f.unbettered(next))
}

// hopeful tells whether a state can be completed, and to better than the best.
func (f *rowFill) hopeful(s rowState, rest *rowRest) bool {
	if s.width+rest.width > f.room || f.overloads(s.weight+rest.weight) {
		return false
	}
	if !f.best.found {
		return true
	}
	target := (f.best.value + 1 - s.value) * f.scale
	for at, p := range f.prices {
		bound := rest.worth[at] + p[0]*(f.room-s.width)
		if p[1] > 0 {
			bound += p[1] * (f.load - s.weight)
		}
		if bound < target {
			return false
		}
	}
	return true
}

// unbettered keeps of states in order of width those that no narrower one matches
// in weight and value. It overwrites them.
func (f *rowFill) unbettered(states []rowState) []rowState {
	kept := states[:0]
	var stairs []rowState // kept ones by weight, of rising value
	for _, s := range states {
		weight := s.weight
		if f.load == endlessLoad {
			weight = 0
		}
		k, _ := slices.BinarySearchFunc(stairs, weight+1, func(t rowState, w int64) int { return cmp.Compare(t.weight, w) })
		if k > 0 && stairs[k-1].value >= s.value {
			continue
		}
		kept = append(kept, s)
		from := k
		if k > 0 && stairs[k-1].weight == weight {
			from--
		}
		to := k
		for to < len(stairs) && stairs[to].value <= s.value {
			to++
		}
		stairs = slices.Replace(stairs, from, to, rowState{weight: weight, value: s.value})
	}
	return kept
}

// complete looks whether a state before item i with the first prices' choice for
// the rest is better than the best.
func (f *rowFill) complete(i int) {
	ideal := f.rest[i].ideal
	for k, s := range f.layers[i] {
		if value := s.value + ideal[2]; s.width+ideal[0] <= f.room && !f.overloads(s.weight+ideal[1]) &&
			(!f.best.found || value > f.best.value) {
			f.best = rowEnd{true, value, i, k}
		}
	}
}

// trace follows the best choice back and gives its ids in the items' first order.
func (f *rowFill) trace(order []int) []int {
	ids := make([]int, len(f.items))
	for i := f.best.layer; i < len(f.items); i++ {
		ids[order[i]] = f.items[i][f.picks[i]].id
	}
	k := f.best.state
	for i := f.best.layer; i > 0; i-- {
		s := f.layers[i][k]
		ids[order[i-1]] = f.items[i-1][s.option].id
		k = int(s.from)
	}
	return ids
}
