package solve

import (
	"cmp"
	"slices"
	"sort"
)

// Lattice says where centres may lie at all, in nanometres: at Origin and every
// whole number of Steps from it, or, when List is not nil, only at the points
// listed, in any order. A Step of nought means 1 nm.
type Lattice struct {
	Origin, Step int64
	List         []int64
}

// Interval is open: its ends are not in it.
type Interval struct{ Lo, Hi int64 }

// line is the set of places where a centre may lie: runs of points one step
// apart, ascending, none touching. A listed point is a run of its own.
type line struct {
	step int64
	runs []run
}

// run is closed: both ends are places.
type run struct{ lo, hi int64 }

// newLine cuts the blocked intervals out of the part of a lattice from lo to hi.
func newLine(l Lattice, blocked []Interval, lo, hi int64) line {
	blocked = merge(blocked)
	if l.List != nil {
		return line{1, listed(l.List, blocked, lo, hi)}
	}
	c := line{step: max(l.Step, 1)}
	for _, b := range blocked {
		c.add(l.Origin, lo, min(b.Lo, hi))
		lo = max(lo, b.Hi)
	}
	c.add(l.Origin, lo, hi)
	return c
}

// add appends the lattice points from lo to hi as a run, if there are any.
func (c *line) add(origin, lo, hi int64) {
	r := run{origin + ceilDiv(lo-origin, c.step)*c.step, origin + floorDiv(hi-origin, c.step)*c.step}
	if r.lo <= r.hi {
		c.runs = append(c.runs, r)
	}
}

// listed keeps the points from lo to hi that no interval blocks.
func listed(list []int64, blocked []Interval, lo, hi int64) []run {
	var runs []run
	for _, x := range slices.Sorted(slices.Values(list)) {
		i := sort.Search(len(blocked), func(i int) bool { return x < blocked[i].Hi })
		free := i == len(blocked) || x <= blocked[i].Lo
		if lo <= x && x <= hi && free && (len(runs) == 0 || x > runs[len(runs)-1].lo) {
			runs = append(runs, run{x, x})
		}
	}
	return runs
}

// merge sorts intervals and joins those that overlap. Two that only meet stay
// apart, for the point between them is free.
func merge(intervals []Interval) []Interval {
	sorted := slices.Clone(intervals)
	slices.SortFunc(sorted, func(a, b Interval) int {
		return cmp.Or(cmp.Compare(a.Lo, b.Lo), cmp.Compare(a.Hi, b.Hi))
	})
	merged := sorted[:0]
	for _, v := range sorted {
		last := len(merged) - 1
		switch {
		case v.Lo >= v.Hi: // nothing is inside
		case last >= 0 && v.Lo < merged[last].Hi:
			merged[last].Hi = max(merged[last].Hi, v.Hi)
		default:
			merged = append(merged, v)
		}
	}
	return merged
}

// from is the index of the first run that does not lie wholly left of x.
func (c line) from(x int64) int {
	return sort.Search(len(c.runs), func(i int) bool { return c.runs[i].hi >= x })
}

// next is the first place at or right of x.
func (c line) next(x int64) (place int64, ok bool) {
	i := c.from(x)
	if i == len(c.runs) {
		return 0, false
	}
	r := c.runs[i]
	if x <= r.lo {
		return r.lo, true
	}
	return r.lo + ceilDiv(x-r.lo, c.step)*c.step, true
}

// prev is the last place at or left of x.
func (c line) prev(x int64) (place int64, ok bool) {
	i := sort.Search(len(c.runs), func(i int) bool { return c.runs[i].lo > x }) - 1
	if i < 0 {
		return 0, false
	}
	r := c.runs[i]
	if x >= r.hi {
		return r.hi, true
	}
	return r.lo + floorDiv(x-r.lo, c.step)*c.step, true
}

// has tells whether x is a place.
func (c line) has(x int64) bool {
	place, ok := c.next(x)
	return ok && place == x
}
