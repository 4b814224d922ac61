package statics

import "math"

// Lift is one lifting task of the revised NIOSH lifting equation (Applications
// Manual, DHHS (NIOSH) publication 94-110, revised 2021). The constants of its
// metric and its US form are not exact conversions of each other, so a task is
// stated and answered in one of them: centimetres and kilograms, or inches and
// pounds.
type Lift struct {
	System     System
	Mode       Mode
	Horizontal float64 // from the ankles to the hands
	Vertical   float64 // height of the hands
	Travel     float64 // how far up or down they move, without sign
	Angle      float64 // degrees that the body twists
	Frequency  float64 // lifts a minute
	Hours      float64 // of lifting: up to 1, 2 or 8
	Coupling   Coupling
}

// System says what a Lift is stated in.
type System int

// The systems.
const (
	Metric    System = iota // cm, kg
	Customary               // in, lb
)

// Mode says how the multipliers are found. The manual's printed examples use its
// tables, two decimals each; its equation gives about 2 % less in places.
type Mode int

// The modes. In Table mode a value between two of the printed table's is the
// formula's, rounded to two decimals.
const (
	Formula Mode = iota
	Table
)

// Coupling is how well the hands hold.
type Coupling int

// The couplings: handles or cut-outs that fit; a grip of 90°; neither.
const (
	Good Coupling = iota
	Fair
	Poor
)

// Multipliers are the six factors of the equation; each is 0 beyond its range.
type Multipliers struct{ HM, VM, DM, AM, FM, CM float64 }

// RWL is the recommended weight limit, kg or lb: the load constant times the
// multipliers.
func (l Lift) RWL() float64 {
	m := l.Multipliers()
	return l.constants().load * m.HM * m.VM * m.DM * m.AM * m.FM * m.CM
}

// Index is the lifting index of a load: the load over the recommended limit. The
// aim is 1 or less; above 3 nearly all workers are at more risk.
func (l Lift) Index(load float64) float64 { return load / l.RWL() }

// constants are the figures that differ between the systems.
type constants struct {
	load                 float64
	nearest, farthest    float64 // horizontal; also the least travel
	ideal, perUnit, high float64 // vertical
	travel, longest      float64
}

func (l Lift) constants() constants {
	if l.System == Customary {
		return constants{load: 51, nearest: 10, farthest: 25, ideal: 30, perUnit: 0.0075, high: 70, travel: 1.8, longest: 70}
	}
	return constants{load: 23, nearest: 25, farthest: 63, ideal: 75, perUnit: 0.003, high: 175, travel: 4.5, longest: 175}
}

// Multipliers works out the factors: manual, section 1.1, and tables 1 to 7.
func (l Lift) Multipliers() Multipliers {
	c := l.constants()
	m := Multipliers{FM: frequency(l.Frequency, l.Hours, l.Vertical >= c.ideal), CM: 1}
	if l.Horizontal <= c.farthest {
		m.HM = min(c.nearest/max(l.Horizontal, c.nearest), 1)
	}
	if l.Vertical <= c.high {
		m.VM = 1 - c.perUnit*math.Abs(max(l.Vertical, 0)-c.ideal)
	}
	if l.Travel <= c.longest {
		m.DM = min(0.82+c.travel/max(l.Travel, c.nearest), 1)
	}
	if l.Angle <= 135 {
		m.AM = 1 - 0.0032*max(l.Angle, 0)
	}
	switch {
	case l.Coupling == Poor:
		m.CM = 0.90
	case l.Coupling == Fair && l.Vertical < c.ideal:
		m.CM = 0.95
	}
	if l.Mode == Table {
		t := printed(l.System)
		m.HM = twoPlaces(t.horizontal, l.Horizontal, m.HM)
		m.VM = twoPlaces(t.vertical, l.Vertical, m.VM)
		m.DM = twoPlaces(t.travel, l.Travel, m.DM)
		m.AM = twoPlaces(t.angle, l.Angle, m.AM)
		m.FM = twoPlaces(nil, 0, m.FM)
	}
	return m
}

// twoPlaces is the table's entry for a value, or what the formula gives for it,
// rounded to two places, halves up.
func twoPlaces(table []entry, value, formula float64) float64 {
	for _, e := range table {
		if math.Abs(e.at-value) < 1e-9 {
			return e.factor
		}
	}
	return math.Floor(formula*100+0.5) / 100
}
