package boards

import (
	"errors"
	"fmt"
	"slices"
)

// checkProof verifies from nothing but the job that no plan costs less than a bound, or,
// where the bound is negative, that there is no plan.
func checkProof(job Job, bound int64, proof *Proof) error {
	for i, n := range proof.Needs {
		if len(n.Value) != len(job.Pieces) || len(n.Holds) != len(job.Boards) || len(n.Value) == 0 || slices.Min(n.Value) < 0 {
			return fmt.Errorf("need %d: %d values, %d boards, or a negative value", i, len(n.Value), len(n.Holds))
		}
		for b := range job.Boards {
			if most := mostOf(job, b, n.Value); job.Boards[b].Limit != 0 && most > n.Holds[b] {
				return fmt.Errorf("need %d: board %d holds %d, not only %d", i, b, most, n.Holds[b])
			}
		}
	}
	if len(proof.Needs) == 0 && bound > 0 {
		return errors.New("no needs")
	}
	if least := leastCost(job, proof); least != bound {
		return fmt.Errorf("the needs prove a cost of %d, not of %d", least, bound)
	}
	return nil
}

// leastCost tries all numbers of boards that the needs allow.
func leastCost(job Job, proof *Proof) int64 {
	left := make([]int64, len(proof.Needs))
	pieces := 0
	for p, piece := range job.Pieces {
		pieces += piece.Count
		for i, n := range proof.Needs {
			left[i] += n.Value[p] * int64(piece.Count)
		}
	}
	least := int64(-1)
	var try func(b int, cost int64)
	try = func(b int, cost int64) {
		if least >= 0 && cost >= least {
			return
		}
		if b == len(job.Boards) {
			if !slices.ContainsFunc(left, func(x int64) bool { return x > 0 }) {
				least = cost
			}
			return
		}
		most := job.Boards[b].Limit
		if most < 0 {
			most = pieces // one gives at least one piece
		}
		for n := 0; n <= most; n++ {
			try(b+1, cost+int64(n)*job.Boards[b].Cost)
			for i := range left {
				left[i] -= proof.Needs[i].Holds[b]
			}
		}
		for i := range left {
			left[i] += int64(most+1) * proof.Needs[i].Holds[b]
		}
	}
	try(0, 0)
	return least
}

// mostOf is the most that a board can be worth. A rectangle is as good as the largest in
// it whose sides are, with kerf, sums of sizes of different wanted pieces; otherwise no
// piece is limited in number.
func mostOf(job Job, b int, value []int64) int64 {
	length, width := job.Boards[b].Length-2*job.Trim+job.Kerf, job.Boards[b].Width-2*job.Trim+job.Kerf
	if length <= job.Kerf || width <= job.Kerf {
		return 0
	}
	c := cutter{down: [2][]int{reached(job, int(length), true), reached(job, int(width), false)}}
	pieces := c.table()
	put := func(l, w, v int64) {
		if l <= length && w <= width {
			pieces[l][w] = max(pieces[l][w], v)
		}
	}
	for p, piece := range job.Pieces {
		if piece.Count > 0 {
			put(piece.Length+job.Kerf, piece.Width+job.Kerf, value[p])
			if piece.Turn {
				put(piece.Width+job.Kerf, piece.Length+job.Kerf, value[p])
			}
		}
	}
	if job.Stages == 0 {
		return c.last(c.both(pieces))
	}
	parts := [2][][]int64{pieces, pieces}
	for range job.Stages {
		parts = [2][][]int64{c.strips(parts[1], true), c.strips(parts[0], false)}
	}
	if job.Stages == 1 { // nothing may be left over the other way
		return max(c.exactly(parts[0], 1), c.exactly(parts[1], 0))
	}
	return max(c.last(parts[0]), c.last(parts[1]))
}

// reached gives, for every size up to end, the largest sum of sizes of different pieces
// that is no more.
func reached(job Job, end int, lengthwise bool) []int {
	is := make([]bool, end+1)
	is[0] = true
	for _, p := range job.Pieces {
		sizes := []int64{p.Length + job.Kerf}
		if !lengthwise {
			sizes[0] = p.Width + job.Kerf
		}
		if p.Turn {
			sizes = append(sizes, p.Length+p.Width+2*job.Kerf-sizes[0])
		}
		for range min(p.Count, end) {
			for x := end; x >= 0; x-- {
				for _, size := range sizes {
					is[x] = is[x] || int64(x) >= size && is[x-int(size)]
				}
			}
		}
	}
	down := make([]int, end+1)
	for x := 1; x <= end; x++ {
		if down[x] = down[x-1]; is[x] {
			down[x] = x
		}
	}
	return down
}

// cutter tries every cut at every place that pieces can reach.
type cutter struct{ down [2][]int }

func (c *cutter) table() [][]int64 {
	t := make([][]int64, len(c.down[0]))
	for l := range t {
		t[l] = make([]int64, len(c.down[1]))
	}
	return t
}

func (c *cutter) last(t [][]int64) int64 {
	return t[c.down[0][len(c.down[0])-1]][c.down[1][len(c.down[1])-1]]
}

// exactly is the last value of a table if the board itself is a sum of pieces one way.
func (c *cutter) exactly(t [][]int64, way int) int64 {
	if end := len(c.down[way]) - 1; c.down[way][end] != end {
		return 0
	}
	return c.last(t)
}

// strips works out what rectangles give that are cut one way into what parts give.
func (c *cutter) strips(parts [][]int64, lengthwise bool) [][]int64 {
	t := c.table()
	c.each(func(l, w int) {
		if lengthwise {
			t[l][w] = t[c.down[0][l-1]][w]
			for at := 1; at <= l; at++ {
				t[l][w] = max(t[l][w], parts[at][w]+t[c.down[0][l-at]][w])
			}
			return
		}
		t[l][w] = t[l][c.down[1][w-1]]
		for at := 1; at <= w; at++ {
			t[l][w] = max(t[l][w], parts[l][at]+t[l][c.down[1][w-at]])
		}
	})
	return t
}

// both works out what rectangles give that are cut both ways any number of times.
func (c *cutter) both(pieces [][]int64) [][]int64 {
	t := c.table()
	c.each(func(l, w int) {
		best := max(pieces[l][w], t[c.down[0][l-1]][w], t[l][c.down[1][w-1]])
		for at := 1; at <= l/2; at++ {
			best = max(best, t[at][w]+t[c.down[0][l-at]][w])
		}
		for at := 1; at <= w/2; at++ {
			best = max(best, t[l][at]+t[l][c.down[1][w-at]])
		}
		t[l][w] = best
	})
	return t
}

// each goes through the rectangles whose sides are sums, the small ones first.
func (c *cutter) each(do func(l, w int)) {
	for l := range c.down[0] {
		for w := range c.down[1] {
			if l > 0 && w > 0 && c.down[0][l] == l && c.down[1][w] == w {
				do(l, w)
			}
		}
	}
}
