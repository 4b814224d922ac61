package check

import (
	"fmt"
	"math"

	"setwright/layout/measure"
)

// Standard gravity, m/s² (NIST SP 811, appendix B.8), and the pound-force that
// follows from it, N.
const (
	gravity    = 9.80665
	poundForce = 0.45359237 * gravity
)

// mm is a length as the mechanics use it.
func mm(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }

// kg is a weight as the mechanics use it.
func kg(m measure.Mass) float64 { return float64(m) / float64(measure.Kilogram) }

// newtons is the force of a weight.
func newtons(m measure.Mass) float64 { return kg(m) * gravity }

// length writes a place or size for people.
func (s *subject) length(l measure.Length) string { return l.Text(s.Plan.Measure) }

// mass writes a weight for people.
func (s *subject) mass(m measure.Mass) string { return m.Text(s.Plan.Measure) }

// carried writes a force that goods exert as the weight it is the force of, so
// that it compares with ratings.
func (s *subject) carried(n float64) string {
	return s.mass(measure.Mass(math.Round(n / gravity * float64(measure.Kilogram))))
}

// force writes a push or pull.
func (s *subject) force(n float64) string {
	if s.Plan.Measure == measure.Millimetres {
		return fmt.Sprintf("%.0f N", n)
	}
	return fmt.Sprintf("%.0f lb", n/poundForce)
}

// fine writes a sag or deflection, finer than a tape measures.
func (s *subject) fine(millimetres float64) string {
	if s.Plan.Measure == measure.Millimetres {
		return fmt.Sprintf("%.*f mm", digits(millimetres, 1), millimetres)
	}
	return fmt.Sprintf("%.*f in", digits(millimetres/25.4, 2), millimetres/25.4)
}

// digits is how many decimals show a size: one more than usual, where else
// nothing of it would be left.
func digits(size float64, usual int) int {
	if math.Abs(size)*math.Pow10(usual) < 1 {
		return usual + 1
	}
	return usual
}

// counted is a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
