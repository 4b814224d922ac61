package reset

import (
	"slices"

	"setwright/layout/measure"
	"setwright/layout/solve/untangle"
)

// An event is the leaving of a thing (twice its number) or its arriving (that and
// one). What goes straight does both at once.
func leaving(thing int) int32  { return int32(2 * thing) }
func arriving(thing int) int32 { return int32(2*thing + 1) }

// tangle is what must come before what, with every thing free to wait between
// its leaving and its arriving.
type tangle struct {
	things []*thing
	next   [][]int32 // of an event, those that must come after it
	slides [][]int32 // of an event, things that must not slide before it
	out    [][]int32 // of a thing that slides, events that must come after it
}

// order gathers what must come before what: a thing leaves before another takes
// its room; what is carried leaves before what carries it, and arrives after.
func order(things []*thing, c *clashes) *tangle {
	t := &tangle{things, make([][]int32, 2*len(things)), make([][]int32, 2*len(things)), make([][]int32, len(things))}
	then := func(a, b int32) { t.next[a] = append(t.next[a], b) }
	for i, it := range things {
		if it.leaves && it.arrives {
			then(leaving(i), arriving(i))
		}
		for _, carrier := range it.old {
			if it.leaves && things[carrier].leaves {
				then(leaving(i), leaving(carrier))
			}
		}
		for _, carrier := range it.new {
			if it.arrives && things[carrier].arrives {
				then(arriving(carrier), arriving(i))
			}
		}
	}
	for _, w := range c.waits {
		then(leaving(w[0]), arriving(w[1]))
	}
	for _, p := range c.past {
		t.slides[leaving(p[1])] = append(t.slides[leaving(p[1])], int32(p[0]))
	}
	for _, a := range c.ahead {
		t.out[a[0]] = append(t.out[a[0]], arriving(a[1]))
	}
	return t
}

// aside picks the things that cannot go straight to their new places, the fewest
// there are and of those the least trouble: as the graph of what goes straight
// has it, whose arcs lead past all that might wait.
//
// No arc leads from an arriving to a leaving, so that nothing would be in the way
// if everything waited. A thing taken out of the graph still has its leaving
// between what it carried and what takes its room, and its arriving between what
// held its room and what it will carry: the arcs found by walking on through
// events say so, and so taking out is all that waiting does.
func (t *tangle) aside() []int {
	number := make([]int, len(t.things)) // in the graph, from 1
	var nodes []int
	for i, it := range t.things {
		if it.straight {
			nodes = append(nodes, i)
			number[i] = len(nodes)
		}
	}
	before := make([][]int, len(nodes))
	weight := make([]int64, len(nodes))
	seen := make([]int32, len(t.next)) // by which node's walk
	for n, i := range nodes {
		weight[n] = t.trouble(i)
		t.walk(i, int32(n+1), seen, func(j int) {
			if m := number[j] - 1; m >= 0 {
				before[m] = append(before[m], n)
			}
		})
	}
	for m := range before {
		before[m] = slices.Compact(before[m])
	}
	out, _ := untangle.Fewest(before, weight)
	for n, m := range out {
		out[n] = nodes[m]
	}
	return out
}

// walk calls reach for every thing that must come after this one, some of them
// more than once.
func (t *tangle) walk(from int, mark int32, seen []int32, reach func(thing int)) {
	stack := slices.Clone(t.out[from])
	for _, e := range t.next[leaving(from)] {
		if e != arriving(from) { // its own, at the same time
			stack = append(stack, e)
		}
	}
	stack = append(stack, t.next[arriving(from)]...)
	slide := func(event int32) {
		for _, s := range t.slides[event] {
			reach(int(s))
		}
	}
	slide(leaving(from))
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if seen[e] == mark {
			continue
		}
		seen[e] = mark
		reach(int(e / 2))
		slide(e)
		stack = append(stack, t.next[e]...)
	}
}

// trouble is what it costs that a thing waits: first of all a piece more beside
// the unit, then its handling and its size.
func (t *tangle) trouble(i int) int64 {
	it := t.things[i]
	if it.facing != nil {
		return int64(1 + offSeconds(it.facing.From.Front.Units) + onSeconds(it.facing.To.Front.Units))
	}
	const piece = 10_000
	cost := piece + int64(it.item.Seconds) + int64(it.item.Part.Weight/(100*measure.Gram)) + int64(it.item.Part.Width/measure.Inch)
	for _, rider := range it.riders {
		if f := rider.facing; f != nil {
			cost += int64(offSeconds(f.From.Front.Units) + onSeconds(f.To.Front.Units))
		}
	}
	return cost
}
