package solve

// Spaced asks for Count pieces exactly Every apart, between Lo and Hi, every
// centre on the lattice and none blocked. Of all ways, the one whose first centre
// is nearest to Wish is taken, the left one of two. Lengths are nanometres; Every
// is not negative.
type Spaced struct {
	Every        int64
	Count        int
	Lo, Hi, Wish int64
	Lattice      Lattice
	Blocked      []Interval
}

// Solve returns the first centre. It is not ok when there is no way, or nothing
// to place. It panics when Every, Wish or the lattice exceeds some eight
// kilometres.
func (p Spaced) Solve() (first int64, ok bool) {
	if p.Count < 1 || p.Every < 0 {
		return 0, false
	}
	regular := p.Lattice.List == nil
	if regular && p.Count > 1 && p.Every%max(p.Lattice.Step, 1) != 0 {
		return 0, false
	}
	mustBeShort(p.Every, p.Wish, p.Lattice.Origin, p.Lattice.Step)
	if int64(p.Count) > maxLength/max(p.Every, 1) {
		return 0, false // longer than any span
	}
	c := newLine(p.Lattice, p.Blocked, max(p.Lo, -maxLength), min(p.Hi, maxLength))
	right, rightOK := p.settle(p.Wish, c.next)
	left, leftOK := p.settle(p.Wish, c.prev)
	if !leftOK || rightOK && right-p.Wish < p.Wish-left {
		return right, rightOK
	}
	return left, true
}

// settle moves the first centre one way, from where it is wished, until every
// piece is on a place. Each piece in turn pushes the row on no further than it
// must, so the first rest is the nearest.
func (p Spaced) settle(first int64, move func(int64) (int64, bool)) (int64, bool) {
	for i, resting := 0, 0; resting < p.Count; i = (i + 1) % p.Count {
		offset := int64(i) * p.Every
		place, ok := move(first + offset)
		if !ok {
			return 0, false
		}
		if place != first+offset {
			first, resting = place-offset, 0
		}
		resting++
	}
	return first, true
}
