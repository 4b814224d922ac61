package statics

import (
	"slices"
	"sort"
)

// Solution is a solved beam. It is not changed after Solve returns it.
type Solution struct {
	Reactions []float64 // what each support carries, N, up positive: below zero it holds the beam down

	ei       float64
	length   float64
	supports []float64
	pieces   []piece
	scale    float64 // see errorScale
}

// piece is a length of beam under one even load. With t from its left end:
//
//	moment       m + v·t − q·t²/2
//	EI·slope     slope − m·t − v·t²/2 + q·t³/6
//	EI·deflection drop + slope·t − m·t²/2 − v·t³/6 + q·t⁴/24
type piece struct {
	from, to    float64
	drop, slope float64 // times EI
	m, v, q     float64 // sagging moment, shear, load on each millimetre
	stretch     int
}

func (p piece) moment(t float64) float64 { return p.m + t*(p.v-t*p.q/2) }
func (p piece) shear(t float64) float64  { return p.v - t*p.q }
func (p piece) turn(t float64) float64   { return p.slope - t*(p.m+t*(p.v/2-t*p.q/6)) }
func (p piece) sink(t float64) float64 {
	return p.drop + t*(p.slope-t*(p.m/2+t*(p.v/6-t*p.q/24)))
}

// pieces walks each stretch from its left end, whose state the support moments
// give, so that rounding does not run on from stretch to stretch.
func pieces(all []stretch, m []float64) []piece {
	last, most := len(all)-1, len(all)
	for _, s := range all {
		most += 2 * len(s.parts)
	}
	out := make([]piece, 0, most)
	for i, s := range all {
		if s.length() == 0 {
			continue
		}
		start := piece{stretch: i}
		switch i {
		case 0:
			e, turn := s.arm(fromRight, asIs), leftTurn(all[1], 0, m)
			start.slope, start.drop = turn-e.slope, e.tip-turn*s.length()
		case last:
			start.slope = rightTurn(all[i-1], i-2, m)
			start.m, start.v = m[i-1], s.arm(fromLeft, asIs).force
		default:
			start.slope = leftTurn(s, i-1, m)
			start.m, start.v = m[i-1], s.alone.left+(m[i]-m[i-1])/s.length()
		}
		out = s.walk(out, start)
	}
	return out
}

// leftTurn is the slope of the span s, between supports i and i+1, at its left
// end, times EI.
func leftTurn(s stretch, i int, m []float64) float64 {
	return (s.alone.slopeLeft + s.length()*(2*m[i]+m[i+1])) / 6
}

func rightTurn(s stretch, i int, m []float64) float64 {
	return -(s.alone.slopeRight + s.length()*(m[i]+2*m[i+1])) / 6
}

// walk adds pieces end to end from the state at the stretch's left end.
func (s stretch) walk(out []piece, state piece) []piece {
	breaks := append(make([]float64, 0, 2+2*len(s.parts)), s.from, s.to)
	for _, p := range s.parts {
		breaks = append(breaks, p.load.From, p.load.To)
	}
	slices.Sort(breaks)
	breaks = slices.Compact(breaks)

	for i, x := range breaks[:len(breaks)-1] {
		state.from, state.to, state.q = x, breaks[i+1], 0
		for _, p := range s.parts {
			switch l := p.load; {
			case l.From == l.To && l.From == x:
				state.v -= l.Total
			case l.From <= x && l.To > x:
				state.q += l.Total / (l.To - l.From)
			}
		}
		out = append(out, state)
		t := state.to - state.from
		state.drop, state.slope, state.m, state.v = state.sink(t), state.turn(t), state.moment(t), state.shear(t)
	}
	return out
}

// at finds the piece that x is on, the right one of two that meet there, and how
// far along it; x is held to the beam.
func (s Solution) at(x float64) (piece, float64) {
	x = min(max(x, 0), s.length)
	i := sort.Search(len(s.pieces), func(i int) bool { return s.pieces[i].from > x }) - 1
	return s.pieces[i], x - s.pieces[i].from
}

// Moment is the bending moment at x, N·mm, positive where the beam sags.
func (s Solution) Moment(x float64) float64 {
	p, t := s.at(x)
	return p.moment(t)
}

// Shear is the force that the beam left of x puts on the rest, N, up positive:
// just right of x where a support or a point load makes it jump, and at the right
// end just left of it.
func (s Solution) Shear(x float64) float64 {
	p, t := s.at(x)
	return p.shear(t)
}

// Deflection is how far the beam at x is below its supports, mm; above them it
// is negative.
func (s Solution) Deflection(x float64) float64 {
	p, t := s.at(x)
	return p.sink(t) / s.ei
}
