package statics

import "sort"

// stretch is the part of a beam between two neighbouring supports, or one of the
// overhangs: the first and the last stretch, which may have no length.
type stretch struct {
	from, to float64
	parts    []part
	alone    simple // of a span: how it would bend without its neighbours
}

// part is what lies on one stretch of one load. Its distances are taken from the
// stretch's own ends, so that no digits are lost on a stretch far from the
// beam's end.
type part struct {
	load        Load
	left, right float64 // from the stretch's ends to the middle of the load
	half        float64 // half of the length it is spread over
}

func (s stretch) length() float64 { return s.to - s.from }

// stretches cuts the loads at the supports. A point load on a support goes to
// the stretch on its left, where it bends nothing.
func (b Beam) stretches() []stretch {
	all := make([]stretch, len(b.Supports)+1)
	for i := range all {
		if i > 0 {
			all[i].from = b.Supports[i-1]
		}
		all[i].to = b.Length
		if i < len(b.Supports) {
			all[i].to = b.Supports[i]
		}
	}
	for _, l := range b.Loads {
		first := sort.SearchFloat64s(b.Supports, l.From)
		if l.From == l.To {
			all[first].add(l)
			continue
		}
		for i := first; i < len(all) && all[i].from < l.To; i++ {
			cut := Load{From: max(l.From, all[i].from), To: min(l.To, all[i].to)}
			if cut.From < cut.To {
				cut.Total = l.Total * ((cut.To - cut.From) / (l.To - l.From))
				all[i].add(cut)
			}
		}
	}
	for i := 1; i < len(all)-1; i++ {
		all[i].alone = all[i].simple(asIs)
	}
	return all
}

func (s *stretch) add(l Load) {
	s.parts = append(s.parts, part{
		load:  l,
		left:  ((l.From - s.from) + (l.To - s.from)) / 2,
		right: ((s.to - l.From) + (s.to - l.To)) / 2,
		half:  (l.To - l.From) / 2,
	})
}

// simple is a stretch cut loose from its neighbours: a simple beam.
type simple struct {
	left, right           float64 // what its ends carry, N
	slopeLeft, slopeRight float64 // how far its ends turn down towards its middle, times 6·EI
}

// simple adds up the loads. A point load P at a from the left and b from the
// right turns the left end by Pab(L+b)/6EIL (AISC Steel Construction Manual,
// table 3-23, case 8); as that is a cubic in a, the mean over a spread load is
// its value at the middle plus a sixth of its second derivative times the square
// of the half length.
func (s stretch) simple(weigh func(float64) float64) simple {
	var e simple
	l := s.length()
	for _, p := range s.parts {
		w := weigh(p.load.Total)
		e.left += w * p.right / l
		e.right += w * p.left / l
		e.slopeLeft += w * p.right * (p.left*(l+p.right) - p.half*p.half) / l
		e.slopeRight += w * p.left * (p.right*(l+p.left) - p.half*p.half) / l
	}
	return e
}

// arm is an overhang as a cantilever from its support, whose distance from the
// middle of each load reach gives.
type arm struct {
	force, moment float64 // on the support
	slope, tip    float64 // turn and drop of its free end, times EI
}

// arm adds up the loads: AISC table 3-23, cases 19 and 21, the mean over a
// spread load as in simple.
func (s stretch) arm(reach func(part) float64, weigh func(float64) float64) arm {
	var e arm
	for _, p := range s.parts {
		w, m, hh := weigh(p.load.Total), reach(p), p.half*p.half
		e.force += w
		e.moment += w * m
		e.slope += w * (m*m + hh/3) / 2
		e.tip += w * (m*m*(3*s.length()-m) + hh*(s.length()-m)) / 6
	}
	return e
}

func fromLeft(p part) float64  { return p.left }
func fromRight(p part) float64 { return p.right }

func asIs(w float64) float64 { return w }

// supportMoments gives the bending moment over each support, sagging positive,
// by Clapeyron's three-moment equation: one row for each inner support,
//
//	M₋·l₁ + 2·M·(l₁+l₂) + M₊·l₂ = −6·EI·(turn of the left span's right end + turn of the right span's left end)
//
// The diagonal is twice the sum of the rest of its row, so elimination without
// exchange of rows loses no digits, however unlike the spans are: its condition
// number is at most 3, where that of a stiffness matrix grows with the third
// power of the ratio of the spans. That is why this form is used.
func supportMoments(all []stretch) []float64 {
	n := len(all) - 1
	m := make([]float64, n)
	m[0] = -all[0].arm(fromRight, asIs).moment
	m[n-1] = -all[n].arm(fromLeft, asIs).moment
	diagonal, right := make([]float64, n), make([]float64, n)
	for i := 1; i < n-1; i++ {
		l1, l2 := all[i].length(), all[i+1].length()
		diagonal[i] = 2 * (l1 + l2)
		right[i] = -(all[i].alone.slopeRight + all[i+1].alone.slopeLeft)
		if i == 1 {
			right[i] -= m[0] * l1
		} else {
			diagonal[i] -= l1 * l1 / diagonal[i-1]
			right[i] -= right[i-1] * l1 / diagonal[i-1]
		}
	}
	for i := n - 2; i > 0; i-- {
		m[i] = (right[i] - m[i+1]*all[i+1].length()) / diagonal[i]
	}
	return m
}

// reactions gives what each support carries: its share of the two simple beams
// beside it, and what the moments shift from support to support.
func reactions(all []stretch, m []float64) []float64 {
	r := make([]float64, len(m))
	last := len(all) - 1
	r[0] = all[0].arm(fromRight, asIs).force
	r[len(r)-1] += all[last].arm(fromLeft, asIs).force
	for i := 1; i < last; i++ {
		e, shift := all[i].alone, (m[i]-m[i-1])/all[i].length()
		r[i-1] += e.left + shift
		r[i] += e.right - shift
	}
	return r
}
