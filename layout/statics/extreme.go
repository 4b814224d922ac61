package statics

import "math"

// same is the difference, relative, below which two extremes count as one: the
// spans of a symmetric beam differ by rounding only, and the leftmost is to be
// named on every machine.
const same = 1e-12

// MaxSag finds the greatest downward deflection in millimetres, where it is, and
// the length of the span or overhang it is in; the leftmost of equals. A beam
// that nowhere sinks below its supports has sag 0 at its first support.
func (s Solution) MaxSag() (x, sag, span float64) {
	x, stretch := s.supports[0], 1
	for _, p := range s.pieces {
		for _, t := range p.turningPoints() {
			if d := p.sink(t) / s.ei; d > sag*(1+same) {
				x, sag, stretch = p.from+t, d, p.stretch
			}
		}
	}
	return x, sag, s.span(stretch)
}

// MaxMoment finds the bending moment of the greatest size, N·mm, sagging
// positive, and where it is; the leftmost of equals.
func (s Solution) MaxMoment() (x, m float64) {
	for _, p := range s.pieces {
		end := p.to - p.from
		places := []float64{0, end}
		if t := p.v / p.q; t > 0 && t < end {
			places = []float64{0, t, end}
		}
		for _, t := range places {
			if at := p.moment(t); math.Abs(at) > math.Abs(m)*(1+same) {
				x, m = p.from+t, at
			}
		}
	}
	return x, m
}

func (s Solution) span(stretch int) float64 {
	from, to := 0.0, s.length
	if stretch > 0 {
		from = s.supports[stretch-1]
	}
	if stretch < len(s.supports) {
		to = s.supports[stretch]
	}
	return to - from
}

// greatest is the deflection of the greatest size, up or down, without sign.
func (s Solution) greatest() float64 {
	var d float64
	for _, p := range s.pieces {
		for _, t := range p.turningPoints() {
			d = max(d, math.Abs(p.sink(t)))
		}
	}
	return d / s.ei
}

// turningPoints gives both ends of a piece and where it lies level in between,
// ascending. The slope is a cubic; between the places where the moment is zero
// it only rises or only falls, so each such length holds one zero at most.
func (p piece) turningPoints() []float64 {
	end := p.to - p.from
	bends := append([]float64{0}, p.noMoment(end)...)
	bends = append(bends, end)
	out := []float64{0}
	for i := 1; i < len(bends); i++ {
		if a, b := bends[i-1], bends[i]; (p.turn(a) < 0) != (p.turn(b) < 0) {
			out = append(out, p.level(a, b))
		}
	}
	return append(out, end)
}

// noMoment gives the zeros of the moment strictly inside, ascending: of a
// quadratic, by the form that does not subtract like numbers.
func (p piece) noMoment(end float64) []float64 {
	var out []float64
	root := p.v*p.v + 2*p.q*p.m
	if root < 0 {
		return nil
	}
	big := p.v + math.Copysign(math.Sqrt(root), p.v)
	t1, t2 := big/p.q, -2*p.m/big
	if t1 > t2 {
		t1, t2 = t2, t1
	}
	for _, t := range []float64{t1, t2} {
		if t > 0 && t < end { // neither of infinite and undefined
			out = append(out, t)
		}
	}
	return out
}

// level halves the length from a to b, over which the slope changes sign once,
// down to neighbouring numbers.
func (p piece) level(a, b float64) float64 {
	falls := p.turn(a) >= 0
	for {
		mid := a + (b-a)/2
		if mid <= a || mid >= b {
			return a
		}
		if (p.turn(mid) >= 0) == falls {
			a = mid
		} else {
			b = mid
		}
	}
}
