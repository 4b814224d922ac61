package statics

import "math"

// Bound is a bound of the error of every deflection, as a share of the greatest
// deflection, up or down: no Deflection is farther from that of the exact beam
// (the numbers given taken as exact) than Bound times the greatest. Below 1e-12
// for a shelf; it grows where loads up and down nearly cancel, without limit.
func (s Solution) Bound() float64 {
	if s.scale == 0 {
		return 0
	}
	return s.scale / (s.greatest() * s.ei)
}

// errorScale bounds the rounding of EI·deflection. Every sum is worked out as in
// Solve but on the sizes of its terms: no rounding is then more than the unit
// roundoff times the number of operations that a term goes through. That number
// is at most some 20 and one for each load and piece on the way. The support
// moments are no larger than the greatest right side over the sum of its two
// spans, as the three-moment matrix is dominated twofold by its diagonal, and
// their rounding is to that.
func errorScale(all []stretch) float64 {
	last := len(all) - 1
	ends := [2]arm{all[0].arm(fromRight, math.Abs), all[last].arm(fromLeft, math.Abs)}
	moment := max(ends[0].moment, ends[1].moment)
	for i := 1; i < last-1; i++ {
		turn := all[i].simple(math.Abs).slopeRight + all[i+1].simple(math.Abs).slopeLeft
		moment = max(moment, turn/(all[i].length()+all[i+1].length()))
	}
	var drop float64
	operations := 20
	for i, s := range all {
		l := s.length()
		switch {
		case i > 0 && i < last:
			e := s.simple(math.Abs)
			force := s.weight()
			turn := e.slopeLeft/6 + l*moment/2
			drop = max(drop, l*(turn+l*(moment/2+(force+2*moment/l)*l/6+force*l/24)))
		case l > 0:
			beside, e := all[1], ends[0]
			if i == last {
				beside, e = all[last-1], ends[1]
			}
			span := beside.simple(math.Abs)
			turn := max(span.slopeLeft, span.slopeRight)/6 + beside.length()*moment/2
			drop = max(drop, l*(2*turn+e.slope)+2*e.tip+l*l*(e.moment/2+s.weight()*(l/6+l/24)))
		}
		operations = max(operations, 20+3*len(s.parts))
	}
	const roundoff = 0x1p-53
	return float64(operations+2*len(all)) * roundoff * drop
}

// weight is the size of all that lies on a stretch, without what is right over
// its right end and bends nothing.
func (s stretch) weight() float64 {
	var w float64
	for _, p := range s.parts {
		if p.right > 0 {
			w += math.Abs(p.load.Total)
		}
	}
	return w
}
