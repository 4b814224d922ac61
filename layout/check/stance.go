package check

import (
	"math"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// Weights is weights and where they are, added up in whole numbers, so that
// what is put on and taken off again leaves nothing behind: the mass, and its
// moments in milligrams times hundredths of a millimetre.
type Weights struct {
	Mass    measure.Mass
	x, y, z int64
}

// WeightAt is one weight in the middle of a solid.
func WeightAt(m measure.Mass, at unit.Solid) Weights {
	const step = measure.Millimetre / 100
	middle := func(a, b measure.Length) int64 { return int64((a + b) / (2 * step)) }
	return Weights{m, int64(m) * middle(at.X0, at.X1), int64(m) * middle(at.Y0, at.Y1), int64(m) * middle(at.Z0, at.Z1)}
}

// Plus is both together.
func (w Weights) Plus(o Weights) Weights {
	return Weights{w.Mass + o.Mass, w.x + o.x, w.y + o.y, w.z + o.z}
}

// Minus is what is left without the other.
func (w Weights) Minus(o Weights) Weights {
	return Weights{w.Mass - o.Mass, w.x - o.x, w.y - o.y, w.z - o.z}
}

// body is the mass and its centre, kg and mm.
func (w Weights) body() Body {
	if w.Mass == 0 {
		return Body{}
	}
	m := float64(w.Mass)
	return Body{kg(w.Mass), float64(w.x) / m / 100, float64(w.y) / m / 100, float64(w.z) / m / 100}
}

// Stance is how a bare unit stands on its feet, made once to judge many ways of
// loading it.
type Stance struct {
	Bare  Weights // frame, panels and stand
	free  bool
	edges []statics.Edge
	top   float64
}

// NewStance is how a unit stands. Top is the height of all that ever is on it.
func NewStance(u *unit.Unit, top measure.Length) *Stance {
	s := &Stance{free: freestanding(u), top: mm(max(u.Bare.Z1, top))}
	weighStructure(u, func(m measure.Mass, at unit.Solid) { s.Bare = s.Bare.Plus(WeightAt(m, at)) })
	if s.free {
		for _, edge := range statics.Footprint(feetOf(u)) {
			s.edges = append(s.edges, statics.Inward(edge, mm(u.Stand.Stand.Offset)))
		}
	}
	return s
}

// Tips gives how a loaded unit would go over: the push that lifts a foot as a
// share of the benchmark's (below 0 it goes over by itself; +Inf where the
// benchmark does not apply), and the degrees it may lean. Both are +Inf for what
// does not stand by itself.
func (s *Stance) Tips(loaded Weights) (share, tilt float64) {
	share, tilt = math.Inf(1), math.Inf(1)
	if len(s.edges) == 0 {
		return share, tilt
	}
	body := loaded.body()
	at := statics.Point{X: body.X, Y: body.Y}
	nearest, arm := s.edges[0], math.Inf(1) // push and lean are both least over the nearest edge
	for _, edge := range s.edges {
		if a := edge.Arm(at); a < arm {
			nearest, arm = edge, a
		}
	}
	tilt = statics.Tip(nearest, statics.Body3{Weight: body.Mass * gravity, X: body.X, Y: body.Y, Z: body.Z}).Tilt
	t := TipCase{Body: body, Arm: arm}
	if of, ok := t.ofPush(s.top); ok {
		share = of
	}
	return share, tilt
}

// Opposite lists the pairs of faces that are to carry about the same, or none
// for a unit that does not stand by itself.
func (s *Stance) Opposite() [][2]plan.FaceID {
	if !s.free {
		return nil
	}
	return opposite()
}

// Unbalanced is by how much one of two opposite faces may be the heavier: a
// quarter of what it carries, and never less than what one hand holds.
func Unbalanced(heavier measure.Mass) measure.Mass {
	return max(measure.Mass(lightest)*measure.Kilogram, heavier/4)
}

// Waived says whether the plan switches a rule off.
func Waived(p *plan.Plan, rule string) bool { return waived(p, rule) != nil }
