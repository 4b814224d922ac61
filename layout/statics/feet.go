package statics

import "math"

// FeetLoads gives what each foot carries, N, of a rigid unit on level ground whose
// feet give alike under load: casters or levellers of one kind. A foot that
// would lift off carries nothing. Where the centre of gravity is outside the
// footprint no loads could hold the unit; it is then taken to the nearest place of
// the footprint's edge, so these are the loads as it goes over. The loads
// add up to the weight.
func FeetLoads(feet []Point, body Point, weight float64) []float64 {
	loads := make([]float64, len(feet))
	if len(feet) == 0 {
		return loads
	}
	bearing, at := bearing(feet, body)
	chosen := make([]Point, len(bearing))
	for i, f := range bearing {
		chosen[i] = feet[f]
	}
	for i, n := range newSprings(chosen).carry(at, weight) {
		loads[bearing[i]] = n
	}
	return loads
}

// OneOff gives the most that each foot carries, N, with any one of the others off
// the floor, as on an uneven floor (common practice for casters). A foot that the
// unit would drop back on cannot be off; if that goes for all the others, this is
// what the foot carries with all on the floor.
func OneOff(feet []Point, body Point, weight float64) []float64 {
	most := FeetLoads(feet, body, weight)
	size := size(feet)
	for off := range feet {
		rest := make([]Point, 0, len(feet)-1)
		rest = append(append(rest, feet[:off]...), feet[off+1:]...)
		if _, outside := nearest(Footprint(rest), body); outside > size*1e-6 {
			continue
		}
		for i, n := range FeetLoads(rest, body, weight) {
			if i >= off {
				i++
			}
			most[i] = max(most[i], n)
		}
	}
	return most
}

// bearing says which feet can carry anything, by their index, and where the weight
// acts on them: all of them, or those in line with the edge that the centre of
// gravity is over or past.
func bearing(feet []Point, body Point) (which []int, at Point) {
	edges := Footprint(feet)
	over, outside := nearest(edges, body)
	near := size(feet) * 1e-9
	at = body
	switch {
	case len(edges) == 0: // one place only
		at = feet[0]
	case outside >= -near:
		at = over.nearest(body)
	}
	for i, f := range feet {
		if len(edges) == 0 || outside < -near || math.Abs(over.cross(f))/over.length() <= near {
			which = append(which, i)
		}
	}
	return which, at
}

// nearest finds the edge of a footprint that p is nearest to, and how far outside
// p is, below zero if it is inside; a line and a point have no inside.
func nearest(edges []Edge, p Point) (best Edge, outside float64) {
	side, least := -1.0, math.Inf(1)
	for _, e := range edges {
		if e.cross(p) < 0 {
			side = 1
		}
		q := e.nearest(p)
		if d := math.Hypot(p.X-q.X, p.Y-q.Y); d < least {
			best, least = e, d
		}
	}
	if len(edges) < 3 {
		side = 1
	}
	return best, side * least
}

// nearest is the place on the edge nearest to p.
func (e Edge) nearest(p Point) Point {
	dx, dy := e.To.X-e.From.X, e.To.Y-e.From.Y
	t := ((p.X-e.From.X)*dx + (p.Y-e.From.Y)*dy) / (dx*dx + dy*dy)
	t = min(max(t, 0), 1)
	return Point{e.From.X + t*dx, e.From.Y + t*dy}
}

// size is the longer side of the box round the feet.
func size(feet []Point) float64 {
	lo, hi := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, f := range feet {
		lo, hi = Point{min(lo.X, f.X), min(lo.Y, f.Y)}, Point{max(hi.X, f.X), max(hi.Y, f.Y)}
	}
	return max(hi.X-lo.X, hi.Y-lo.Y)
}
