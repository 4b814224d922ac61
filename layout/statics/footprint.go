package statics

import (
	"cmp"
	"math"
	"slices"
)

// Point is a place on the floor, mm.
type Point struct{ X, Y float64 }

// Edge is one side of a footprint: a line that a unit can go over. The footprint
// is on its left.
type Edge struct{ From, To Point }

// Body3 is a weight and its centre of gravity; Z is up from the floor.
type Body3 struct{ Weight, X, Y, Z float64 } // N, mm

// Together is many bodies as one: Σw and Σwx/Σw.
func Together(bodies ...Body3) Body3 {
	var all Body3
	for _, b := range bodies {
		all.Weight += b.Weight
		all.X += b.Weight * b.X
		all.Y += b.Weight * b.Y
		all.Z += b.Weight * b.Z
	}
	if all.Weight != 0 {
		all.X, all.Y, all.Z = all.X/all.Weight, all.Y/all.Weight, all.Z/all.Weight
	}
	return all
}

// Footprint gives the edges of the convex hull of the feet, anticlockwise as seen
// from above, from the leftmost foot on (of those the one with the least Y). Feet
// in line with an edge are not its ends. Feet all in one line have two edges, one
// over each side; fewer than two feet have none.
func Footprint(feet []Point) []Edge {
	hull := hull(feet)
	if len(hull) < 2 {
		return nil
	}
	edges := make([]Edge, len(hull))
	for i, p := range hull {
		edges[i] = Edge{p, hull[(i+1)%len(hull)]}
	}
	return edges
}

// hull is Andrew's monotone chain (A. M. Andrew, Information Processing Letters
// 9, 1979).
func hull(feet []Point) []Point {
	points := slices.Clone(feet)
	slices.SortFunc(points, func(a, b Point) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	points = slices.Compact(points)
	if len(points) < 3 {
		return points
	}
	var out []Point
	for range 2 {
		start := len(out)
		for _, p := range points {
			for len(out)-start >= 2 && (Edge{out[len(out)-2], out[len(out)-1]}).cross(p) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		out = out[:len(out)-1]
		slices.Reverse(points)
	}
	return out
}

// cross is twice the area of the triangle of the edge and p, positive for p on its
// left.
func (e Edge) cross(p Point) float64 {
	return (e.To.X-e.From.X)*(p.Y-e.From.Y) - (e.To.Y-e.From.Y)*(p.X-e.From.X)
}

func (e Edge) length() float64 { return math.Hypot(e.To.X-e.From.X, e.To.Y-e.From.Y) }

// Inward moves an edge towards the footprint by offset, the distance from
// kingpin to axle of swivelling casters, measured level. Whichever way the
// casters have turned, each touches the floor within that distance of its
// kingpin; those along one edge are at their worst when all have turned straight
// in. That goes for each edge by itself (UL 1678 and UL 1863 ask for casters in
// the position most likely to tip).
func Inward(edge Edge, offset float64) Edge {
	l := edge.length()
	dx, dy := -(edge.To.Y-edge.From.Y)/l*offset, (edge.To.X-edge.From.X)/l*offset
	return Edge{Point{edge.From.X + dx, edge.From.Y + dy}, Point{edge.To.X + dx, edge.To.Y + dy}}
}

// Arm is how far p is inside the edge, mm; below zero it is outside.
func (e Edge) Arm(p Point) float64 { return e.cross(p) / e.length() }

// Tipping is how a unit goes over an edge.
type Tipping struct {
	Arm    float64   // mm, level from the edge to the centre of gravity; below zero it goes over by itself
	Forces []float64 // N, the level force at each height asked for that lifts the far feet
	Tilt   float64   // degrees to lean before it goes over by itself
}

// Tip works out a body going over an edge: the force F at height h for which F·h
// is the weight times the arm, without end at the floor; and the tilt at which
// the centre of gravity is over the edge, atan(arm/z). Moments about the fulcrum
// as in 29 CFR 1910.178, appendix A.
func Tip(edge Edge, body Body3, heights ...float64) Tipping {
	t := Tipping{Arm: edge.Arm(Point{body.X, body.Y})}
	t.Tilt = math.Atan2(t.Arm, body.Z) * 180 / math.Pi
	for _, h := range heights {
		f := math.Inf(1)
		if h > 0 {
			f = body.Weight * t.Arm / h
		}
		t.Forces = append(t.Forces, f)
	}
	return t
}
