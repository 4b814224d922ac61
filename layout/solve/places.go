package solve

import (
	"fmt"
	"slices"
)

// Places asks where the pieces of one row (hooks, brackets, arms) go side by
// side. Lengths are nanometres from the left edge of the span; a piece is placed
// by its centre.
//
// The answer keeps every limit, and among all that do:
//
//  1. the greatest distance of a centre from its target is least;
//  2. then the total of these distances is least;
//  3. then as many centres as possible lie on a column;
//  4. then the first piece is as far left as it can be, then the second, and on.
type Places struct {
	Targets []int64    // where each centre would best be, from the left
	Gaps    []int64    // least distance between the centres of pieces i and i+1, one fewer than Targets
	Lo, Hi  []int64    // least and greatest centre of each piece
	Lattice Lattice    // where centres may lie at all
	Blocked []Interval // where none may lie, in any order: vertical wires, seams, grips from behind
	Columns []int64    // centres in the row above, in any order
}

// Solve returns the centre of each piece, and whether there is room for all. It
// panics when the slices do not match in length, or a target, a gap or the
// lattice exceeds some eight kilometres.
func (p Places) Solve() (centres []int64, ok bool) {
	r, ok := p.newPieces()
	if !ok {
		return nil, false
	}
	r.tighten()
	return r.settle(), true
}

// Feasible tells whether there is room for all pieces.
func (p Places) Feasible() bool {
	_, ok := p.newPieces()
	return ok
}

// pieces is Places in a form to compute with: limits that tighten as more becomes
// known.
type pieces struct {
	targets, gaps []int64
	lo, hi        []int64
	line          line
	columns       []int64 // ascending
}

// newPieces is ok when every piece has a place.
func (p Places) newPieces() (r *pieces, ok bool) {
	n := len(p.Targets)
	if len(p.Lo) != n || len(p.Hi) != n || len(p.Gaps) != max(n-1, 0) {
		panic(fmt.Sprintf("solve: %d targets, %d gaps, %d and %d limits", n, len(p.Gaps), len(p.Lo), len(p.Hi)))
	}
	mustBeShort(p.Targets...)
	mustBeShort(p.Gaps...)
	mustBeShort(p.Lattice.Origin, p.Lattice.Step)
	r = &pieces{targets: p.Targets, gaps: p.Gaps, lo: slices.Clone(p.Lo), hi: slices.Clone(p.Hi)}
	for i := range r.targets {
		r.lo[i], r.hi[i] = max(r.lo[i], -maxLength), min(r.hi[i], maxLength)
	}
	if n > 0 {
		r.line = newLine(p.Lattice, p.Blocked, slices.Min(r.lo), slices.Max(r.hi))
	}
	r.columns = slices.Clone(p.Columns)
	slices.Sort(r.columns)
	return r, r.fits(2 * maxLength)
}

// fits tells whether all pieces have a place no further than shift from their
// targets: each in turn goes as far left as it can.
func (r *pieces) fits(shift int64) bool {
	var left int64 // of the next piece, for those before it
	for i, t := range r.targets {
		least := max(r.lo[i], t-shift)
		if i > 0 {
			least = max(least, left)
		}
		place, ok := r.line.next(least)
		if !ok || place > min(r.hi[i], t+shift) {
			return false
		}
		if i < len(r.gaps) {
			left = place + r.gaps[i]
		}
	}
	return true
}

// tighten finds the least shift with which all pieces fit, and limits each to the
// places it may take then.
func (r *pieces) tighten() {
	least := int64(0) // no piece alone comes nearer
	for i := range r.targets {
		least = max(least, r.alone(i))
	}
	for miss, step := least, int64(1); ; step *= 2 { // feasible from there on, up to miss not
		if r.fits(least) {
			least = r.bisect(miss, least)
			break
		}
		miss, least = least+1, least+step
	}
	for i, t := range r.targets {
		r.lo[i], r.hi[i] = max(r.lo[i], t-least), min(r.hi[i], t+least)
	}
	r.squeeze()
}

// squeeze limits each piece to what the others leave it: from where it is when
// all go as far left as they can, to where it is when all go right.
func (r *pieces) squeeze() {
	for i := range r.targets {
		if i > 0 {
			r.lo[i] = max(r.lo[i], r.lo[i-1]+r.gaps[i-1])
		}
		r.lo[i], _ = r.line.next(r.lo[i])
	}
	for i := range slices.Backward(r.targets) {
		if i < len(r.gaps) {
			r.hi[i] = min(r.hi[i], r.hi[i+1]-r.gaps[i])
		}
		r.hi[i], _ = r.line.prev(r.hi[i])
	}
}

// bisect finds the least shift that fits, from lo to hi, where hi does.
func (r *pieces) bisect(lo, hi int64) int64 {
	for lo < hi {
		if mid := lo + (hi-lo)/2; r.fits(mid) {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}

// alone is how far piece i must be from its target were it the only one.
func (r *pieces) alone(i int) int64 {
	return r.distance(i, r.nearest(i))
}

func (r *pieces) distance(i int, x int64) int64 {
	return max(x-r.targets[i], r.targets[i]-x)
}

// nearest is the place that piece i would take were it the only one.
func (r *pieces) nearest(i int) int64 {
	t := r.targets[i]
	left, leftOK := r.line.prev(min(t, r.hi[i]))
	right, rightOK := r.line.next(max(t, r.lo[i]))
	leftOK, rightOK = leftOK && left >= r.lo[i], rightOK && right <= r.hi[i]
	switch {
	case !leftOK:
		return right
	case !rightOK || t-left < right-t:
		return left
	case right-t < t-left:
		return right
	case r.onColumn(right) && !r.onColumn(left):
		return right
	}
	return left
}

func (r *pieces) onColumn(x int64) bool {
	_, found := slices.BinarySearch(r.columns, x)
	return found
}

// settle solves each piece alone, then joins those that come too near each other
// and solves them together, until all are far enough apart. Where best answers of
// two parts of a row do not disturb each other, they make up the best answer of
// the whole.
func (r *pieces) settle() []int64 {
	centres := make([]int64, len(r.targets))
	starts := make([]int, 0, len(r.targets)+1) // first piece of each part
	for i := range centres {
		centres[i] = r.nearest(i)
		starts = append(starts, i)
	}
	for joined := true; joined; {
		joined = false
		kept, end := starts[:0], 0
		for k := 0; k < len(starts); k = end {
			from := starts[k]
			for end = k + 1; end < len(starts) && r.tooNear(centres, starts[end]); end++ {
			}
			if end > k+1 {
				to := len(centres)
				if end < len(starts) {
					to = starts[end]
				}
				copy(centres[from:to], r.together(from, to))
				joined = true
			}
			kept = append(kept, from)
		}
		starts = kept
	}
	return centres
}

// tooNear tells whether piece i disturbs the one before it.
func (r *pieces) tooNear(centres []int64, i int) bool {
	return centres[i]-centres[i-1] < r.gaps[i-1]
}
