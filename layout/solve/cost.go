package solve

import "math/bits"

// cost is what an arrangement, or a change to it, costs: first the distance from
// wishes in nanometres, then, however small, the sum of squared spares. Costs
// compare in that order, and form an ordered group under addition, which is all
// that a minimum cut asks of its capacities.
type cost struct {
	shift  int64
	square wide
}

// wide is a signed 128-bit integer: the square of a hundred metres in
// nanometres overflows 64 bits.
type wide struct {
	hi int64
	lo uint64
}

// endless stands for what cannot be. No sum of real costs reaches it, and it
// may be added to them without overflow.
var endless = cost{shift: 1 << 61}

func (a cost) add(b cost) cost {
	lo, carry := bits.Add64(a.square.lo, b.square.lo, 0)
	return cost{a.shift + b.shift, wide{a.square.hi + b.square.hi + int64(carry), lo}}
}

func (a cost) sub(b cost) cost {
	lo, borrow := bits.Sub64(a.square.lo, b.square.lo, 0)
	return cost{a.shift - b.shift, wide{a.square.hi - b.square.hi - int64(borrow), lo}}
}

func (a cost) less(b cost) bool {
	if a.shift != b.shift {
		return a.shift < b.shift
	}
	if a.square.hi != b.square.hi {
		return a.square.hi < b.square.hi
	}
	return a.square.lo < b.square.lo
}

func (a cost) positive() bool { return cost{}.less(a) }

// squared is the cost of a spare gap; one overshot costs nothing.
func squared(spare int64) cost {
	if spare <= 0 {
		return cost{}
	}
	hi, lo := bits.Mul64(uint64(spare), uint64(spare))
	return cost{square: wide{int64(hi), lo}}
}

// shifted is the cost of standing this far from a wish.
func shifted(distance int64) cost { return cost{shift: max(distance, -distance)} }
