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
		places, n := p.level()
		for _, t := range places[:n] {
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
		for _, t := range [...]float64{0, min(max(p.v/p.q, 0), end), end} {
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
		places, n := p.level()
		for _, t := range places[:n] {
			d = max(d, math.Abs(p.sink(t)))
		}
	}
	return d / s.ei
}

// level gives, ascending, both ends of a piece and the n−2 places in between where
// it lies level. Its slope is a cubic; between the places where the moment is
// zero that only rises or only falls, so each such length holds one zero at most.
func (p piece) level() (places [5]float64, n int) {
	end := p.to - p.from
	first, second := p.noMoment(end)
	n = 1 // the left end
	for _, ends := range [...][2]float64{{0, first}, {first, second}, {second, end}} {
		if a, b := ends[0], ends[1]; (p.turn(a) < 0) != (p.turn(b) < 0) {
			places[n] = p.noTurn(a, b)
			n++
		}
	}
	places[n] = end
	return places, n + 1
}

// noMoment gives the zeros of the moment, those outside the piece moved to its
// ends, ascending: of a quadratic, by the form that does not subtract like
// numbers. Where there are none both are the right end.
func (p piece) noMoment(end float64) (first, second float64) {
	root := p.v*p.v + 2*p.q*p.m
	if root < 0 {
		return end, end
	}
	inside := func(t float64) float64 {
		if t >= 0 { // neither before the start nor undefined
			return min(t, end)
		}
		return 0
	}
	big := p.v + math.Copysign(math.Sqrt(root), p.v)
	t1, t2 := inside(big/p.q), inside(-2*p.m/big)
	return min(t1, t2), max(t1, t2)
}

// noTurn halves the length from a to b, over which the slope changes sign once,
// down to neighbouring numbers.
func (p piece) noTurn(a, b float64) float64 {
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
