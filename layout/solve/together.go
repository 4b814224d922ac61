package solve

import "slices"

// together solves pieces from..to-1 as one, by dynamic programming over the
// centres that matter.
func (r *pieces) together(from, to int) []int64 {
	choices := r.choices(from, to)
	worths := make([][]worth, len(choices)) // of a choice with the best of all pieces right of it
	for i := len(choices) - 1; i >= 0; i-- {
		worths[i] = make([]worth, len(choices[i]))
		best, k := worthless, len(choices[i])
		if i+1 < len(choices) {
			k = len(choices[i+1])
		}
		for j, x := range slices.Backward(choices[i]) {
			w := r.worth(from+i, x)
			if i+1 < len(choices) {
				for ; k > 0 && choices[i+1][k-1]-x >= r.gaps[from+i]; k-- {
					best = best.better(worths[i+1][k-1])
				}
				w = w.add(best)
			}
			worths[i][j] = w
		}
	}
	return r.pick(from, choices, worths)
}

// pick takes, from the left, the leftmost choice of each piece with which the
// best can still be had.
func (r *pieces) pick(from int, choices [][]int64, worths [][]worth) []int64 {
	centres := make([]int64, len(choices))
	for i, xs := range choices {
		start := 0
		if i > 0 {
			start, _ = slices.BinarySearch(xs, centres[i-1]+r.gaps[from+i-1])
		}
		best, at := worthless, start
		for j := start; j < len(xs); j++ {
			if w := worths[i][j]; best.better(w) != best {
				best, at = w, j
			}
		}
		centres[i] = xs[at]
	}
	return centres
}

// worth of a choice: the less shift the better, then the more columns.
type worth struct {
	shift   int64
	columns int
}

// worthless stands for no way at all.
var worthless = worth{shift: 1 << 60}

func (a worth) better(b worth) worth {
	if b.shift < a.shift || b.shift == a.shift && b.columns > a.columns {
		return b
	}
	return a
}

func (a worth) add(b worth) worth {
	if b == worthless {
		return b
	}
	return worth{a.shift + b.shift, a.columns + b.columns}
}

func (r *pieces) worth(i int, x int64) worth {
	w := worth{shift: r.distance(i, x)}
	if r.onColumn(x) {
		w.columns = 1
	}
	return w
}

// choices lists for each of the pieces from..to-1 the centres that may be in the
// best answer, ascending.
//
// Pieces as close as their gaps allow form a block. In the best answer every
// block holds a piece that stands at a bend: otherwise the block could move a
// step to either side without leaving a column, and one of the two is no worse,
// or lies further left. So it is enough to look at the bends of each piece and at
// where a block puts it from a bend of a piece left or right of it. On a list
// every point is a bend.
func (r *pieces) choices(from, to int) [][]int64 {
	n := to - from
	bends := make([][]int64, n)
	for i := range bends {
		bends[i] = r.bends(from + i)
	}
	pushed, pulled := make([][]int64, n), make([][]int64, n)
	for i := range n {
		pushed[i] = bends[i]
		if i > 0 {
			pushed[i] = r.along(pushed[i-1], r.reach(from+i-1), bends[i], from+i)
		}
	}
	for i := n - 1; i >= 0; i-- {
		pulled[i] = bends[i]
		if i+1 < n {
			pulled[i] = r.along(pulled[i+1], -r.reach(from+i), bends[i], from+i)
		}
	}
	all := make([][]int64, n)
	for i := range all {
		all[i] = union(pushed[i], pulled[i])
	}
	return all
}

// reach is the distance between pieces i and i+1 in a block.
func (r *pieces) reach(i int) int64 { return ceilDiv(r.gaps[i], r.line.step) * r.line.step }

// along adds to the bends of piece i the choices of a neighbour, moved.
func (r *pieces) along(choices []int64, by int64, bends []int64, i int) []int64 {
	moved := make([]int64, 0, len(choices)+len(bends))
	for _, x := range choices {
		if x += by; r.lo[i] <= x && x <= r.hi[i] && r.line.has(x) {
			moved = append(moved, x)
		}
	}
	return union(moved, bends)
}

// bends lists where the worth of piece i bends or its freedom ends: the places
// about its target, on columns, and at the ends of each run within its limits.
func (r *pieces) bends(i int) []int64 {
	lo, hi := r.lo[i], r.hi[i]
	var xs []int64
	add := func(x int64, ok bool) {
		if ok && lo <= x && x <= hi {
			xs = append(xs, x)
		}
	}
	add(r.line.prev(r.targets[i]))
	add(r.line.next(r.targets[i]))
	add(lo, true)
	add(hi, true)
	for k := r.line.from(lo); k < len(r.line.runs) && r.line.runs[k].lo <= hi; k++ {
		add(r.line.runs[k].lo, true)
		add(r.line.runs[k].hi, true)
	}
	k, _ := slices.BinarySearch(r.columns, lo)
	for ; k < len(r.columns) && r.columns[k] <= hi; k++ {
		add(r.columns[k], r.line.has(r.columns[k]))
	}
	slices.Sort(xs)
	return slices.Compact(xs)
}

// union merges two ascending lists.
func union(a, b []int64) []int64 {
	u := make([]int64, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0] < b[0]:
			u, a = append(u, a[0]), a[1:]
		case a[0] > b[0]:
			u, b = append(u, b[0]), b[1:]
		default:
			u, a, b = append(u, a[0]), a[1:], b[1:]
		}
	}
	return append(append(u, a...), b...)
}
