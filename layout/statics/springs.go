package statics

import "math"

// springs are feet as springs of stiffness one that push only, under a rigid
// plate. The plate sinks at (x, y) by s₀ + s₁·x + s₂·y; each spring that is
// pressed pushes back by as much. The loads sought make the energy
// ½·Σ max(sink, 0)² − weight·(sink under it) least. It is convex and its
// second derivative is constant while the same springs are pressed, so Newton's
// method with halved steps ends after few of them, exactly.
type springs struct {
	arms   [][3]float64 // 1, x, y of each, from their middle, in units of reach
	middle Point
	reach  float64
}

func newSprings(feet []Point) springs {
	var s springs
	n := float64(len(feet))
	for _, f := range feet {
		s.middle.X += f.X / n
		s.middle.Y += f.Y / n
	}
	for _, f := range feet {
		s.reach = max(s.reach, math.Hypot(f.X-s.middle.X, f.Y-s.middle.Y))
	}
	if s.reach == 0 {
		s.reach = 1
	}
	for _, f := range feet {
		s.arms = append(s.arms, s.arm(f))
	}
	return s
}

func (s springs) arm(p Point) [3]float64 {
	return [3]float64{1, (p.X - s.middle.X) / s.reach, (p.Y - s.middle.Y) / s.reach}
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// carry gives the push of each spring under weight at a place inside or on the
// edge of their hull.
func (s springs) carry(at Point, weight float64) []float64 {
	unit := s.arm(at) // the load per newton, along sink and the two tilts
	sink := [3]float64{1 / float64(len(s.arms))}
	for range 100 {
		step, missing := s.newton(sink, unit)
		if missing < 1e-15 {
			break
		}
		limit := s.energy(sink, unit)
		limit += 1e-12 * math.Abs(limit) // near the end all that differs is rounding
		part := 1.0
		for part > 1e-12 && s.energy(along(sink, step, part), unit) > limit {
			part /= 2
		}
		sink = along(sink, step, part)
	}
	loads := make([]float64, len(s.arms))
	for i, a := range s.arms {
		loads[i] = weight * max(dot(a, sink), 0)
	}
	return loads
}

func along(from, step [3]float64, part float64) [3]float64 {
	for k := range from {
		from[k] += part * step[k]
	}
	return from
}

func (s springs) energy(sink, unit [3]float64) float64 {
	e := -dot(unit, sink)
	for _, a := range s.arms {
		push := max(dot(a, sink), 0)
		e += push * push / 2
	}
	return e
}

// newton gives the step to where the springs now pressed would balance the load,
// and how far from balance they are. A ridge far below any stiffness holds
// what they leave free, such as the tilt of a plate on two feet.
func (s springs) newton(sink, unit [3]float64) (step [3]float64, missing float64) {
	const ridge = 1e-9
	var h [3][3]float64
	g := unit
	for k := range h {
		h[k][k] = ridge
	}
	for _, a := range s.arms {
		push := dot(a, sink)
		if push <= 0 {
			continue
		}
		for i := range a {
			g[i] -= push * a[i]
			for k := range a {
				h[i][k] += a[i] * a[k]
			}
		}
	}
	return solve3(h, g), max(math.Abs(g[0]), math.Abs(g[1]), math.Abs(g[2]))
}

// solve3 solves h·x = g for a symmetric h above zero, by elimination.
func solve3(h [3][3]float64, g [3]float64) (x [3]float64) {
	for i := range h {
		for k := i + 1; k < 3; k++ {
			f := h[k][i] / h[i][i]
			for j := i; j < 3; j++ {
				h[k][j] -= f * h[i][j]
			}
			g[k] -= f * g[i]
		}
	}
	for i := 2; i >= 0; i-- {
		x[i] = g[i]
		for j := i + 1; j < 3; j++ {
			x[i] -= h[i][j] * x[j]
		}
		x[i] /= h[i][i]
	}
	return x
}
