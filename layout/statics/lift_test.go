package statics

import (
	"math"
	"testing"
)

// TestLiftExamples: the worked examples of the Applications Manual, DHHS (NIOSH)
// 94-110. Its printed digits come from multipliers of two places, so Table mode
// must reproduce them to the printed digit; Formula mode is held to full
// precision. Example 4 is SEEN in a copy of the manual, examples 1 and 2
// are MEMORY; the formula's numbers are CALC.
func TestLiftExamples(t *testing.T) {
	for _, c := range []struct {
		why            string
		lift           Lift
		load           float64
		printed, index float64 // 0: not known
		formula        float64
	}{
		{"1, punch press stock, origin", Lift{System: Customary, Horizontal: 23, Vertical: 15, Travel: 49, Hours: 1, Coupling: Fair}, 44, 16.3, 2.7, 16.017},
		{"1, destination", Lift{System: Customary, Horizontal: 23, Vertical: 64, Travel: 49, Hours: 1, Coupling: Fair}, 44, 14.5, 3.0, 14.153},
		{"1 as another reader has it, origin", Lift{System: Customary, Horizontal: 23, Vertical: 15, Travel: 48, Hours: 1, Coupling: Fair}, 44, 16.3, 2.7, 16.03},
		{"1 as another reader has it, destination", Lift{System: Customary, Horizontal: 23, Vertical: 63, Travel: 48, Hours: 1, Coupling: Fair}, 44, 14.5, 3.0, 14.31},
		{"2, supply rolls, origin", Lift{System: Customary, Horizontal: 20, Vertical: 27, Travel: 17, Hours: 1, Coupling: Poor}, 35, 0, 1.7, 20.771},
		{"2, destination", Lift{System: Customary, Horizontal: 20, Vertical: 10, Travel: 17, Hours: 1, Coupling: Poor}, 35, 0, 1.9, 18.062},
		{"4, package inspection, origin", Lift{System: Customary, Horizontal: 10, Vertical: 22, Travel: 37, Frequency: 3, Hours: 1, Coupling: Fair}, 26, 34.9, 0.7, 34.81},
		{"4, destination", Lift{System: Customary, Horizontal: 20, Vertical: 59, Travel: 37, Frequency: 3, Hours: 1, Coupling: Fair}, 26, 15.2, 1.7, 15.25},
		{"the ideal lift", Lift{System: Customary, Horizontal: 10, Vertical: 30, Travel: 10, Hours: 1}, 51, 51, 1, 51},
		{"the ideal lift, metric", Lift{Horizontal: 25, Vertical: 75, Travel: 25, Hours: 1}, 23, 23, 1, 23},
		{"closer or shorter than the ideal is no better", Lift{Horizontal: 15, Vertical: 75, Hours: 1}, 23, 23, 1, 23},
		{"12 kg, a published exercise in metric", Lift{Horizontal: 25, Vertical: 55, Travel: 95, Frequency: 3, Hours: 1, Coupling: Fair}, 12, 15.7, 0.8, 15.68},
	} {
		near(t, c.why+": formula", c.lift.RWL(), c.formula, 5e-4)
		c.lift.Mode = Table
		if got := c.lift.RWL(); c.printed != 0 && math.Abs(got-c.printed) > 0.05 {
			t.Errorf("example %s: %.3f from the tables, printed %.1f", c.why, got, c.printed)
		}
		if got := c.lift.Index(c.load); math.Abs(got-c.index) > 0.051 {
			t.Errorf("example %s: index %.3f from the tables, printed %.1f", c.why, got, c.index)
		}
	}
}

// TestLiftMultipliers: table entries against the formula, at every printed line:
// they agree to the second place but for those known not to.
func TestLiftMultipliers(t *testing.T) {
	for _, system := range []System{Metric, Customary} {
		tables := printed(system)
		for _, c := range []struct {
			name  string
			table []entry
			lift  func(x float64) Lift
			pick  func(Multipliers) float64
		}{
			{"HM", tables.horizontal, func(x float64) Lift { return Lift{Horizontal: x} }, func(m Multipliers) float64 { return m.HM }},
			{"VM", tables.vertical, func(x float64) Lift { return Lift{Vertical: x} }, func(m Multipliers) float64 { return m.VM }},
			{"DM", tables.travel, func(x float64) Lift { return Lift{Travel: x} }, func(m Multipliers) float64 { return m.DM }},
			{"AM", tables.angle, func(x float64) Lift { return Lift{Angle: x} }, func(m Multipliers) float64 { return m.AM }},
		} {
			for _, e := range c.table {
				l := c.lift(e.at)
				l.System = system
				if got := c.pick(l.Multipliers()); math.Abs(got-e.factor) > 0.0101 {
					t.Errorf("system %d: %s at %g: formula %.4f, printed %.2f", system, c.name, e.at, got, e.factor)
				}
				l.Mode = Table
				if got := c.pick(l.Multipliers()); got != e.factor {
					t.Errorf("system %d: %s at %g: %.4f, printed %.2f", system, c.name, e.at, got, e.factor)
				}
			}
			// One step beyond the last line nothing may be lifted.
			l := c.lift(c.table[len(c.table)-1].at + 0.01)
			for _, l.Mode = range []Mode{Formula, Table} {
				l.System = system
				if got := c.pick(l.Multipliers()); got != 0 {
					t.Errorf("system %d: %s beyond its range: %g", system, c.name, got)
				}
			}
		}
	}
}

// TestLiftTableValues: single values that readers of the table look up.
func TestLiftTableValues(t *testing.T) {
	for _, c := range []struct {
		why  string
		got  func(Multipliers) float64
		lift Lift
		want float64
	}{
		{"10/23 is 0.435, printed 0.44", func(m Multipliers) float64 { return m.HM }, Lift{System: Customary, Mode: Table, Horizontal: 23}, 0.44},
		{"between lines the formula to two places, halves up", func(m Multipliers) float64 { return m.VM }, Lift{System: Customary, Mode: Table, Vertical: 64}, 0.75},
		{"example 4", func(m Multipliers) float64 { return m.DM }, Lift{System: Customary, Mode: Table, Travel: 37}, 0.87},
		{"fair below the knuckles", func(m Multipliers) float64 { return m.CM }, Lift{Vertical: 74.9, Coupling: Fair}, 0.95},
		{"fair at the knuckles", func(m Multipliers) float64 { return m.CM }, Lift{Vertical: 75, Coupling: Fair}, 1},
		{"poor anywhere", func(m Multipliers) float64 { return m.CM }, Lift{Vertical: 100, Coupling: Poor}, 0.90},
		{"seldom", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 0.01, Hours: 1}, 1},
		{"seldom, all day", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 0.2, Hours: 8}, 0.85},
		{"two hours", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 5, Hours: 2}, 0.60},
		{"between two lines", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 4.5, Hours: 1}, 0.82},
		{"often and low", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 9, Hours: 8, Vertical: 74}, 0},
		{"often and high", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 9, Hours: 8, Vertical: 75}, 0.15},
		{"too often", func(m Multipliers) float64 { return m.FM }, Lift{Frequency: 15.1, Hours: 1, Vertical: 75}, 0},
		{"longer than a shift", func(m Multipliers) float64 { return m.FM }, Lift{Hours: 9}, 0},
	} {
		near(t, c.why, c.got(c.lift.Multipliers()), c.want, 1e-12)
	}
}

// TestLiftFalls: farther, farther from knuckle height, longer, more twisted, more
// often: none allows more.
func TestLiftFalls(t *testing.T) {
	base := Lift{Horizontal: 25, Vertical: 75, Travel: 25, Hours: 1}
	for name, set := range map[string]func(l *Lift, x float64){
		"horizontal": func(l *Lift, x float64) { l.Horizontal += x },
		"up":         func(l *Lift, x float64) { l.Vertical += x },
		"down":       func(l *Lift, x float64) { l.Vertical -= x * 0.75 },
		"travel":     func(l *Lift, x float64) { l.Travel += x },
		"angle":      func(l *Lift, x float64) { l.Angle += x },
		"frequency":  func(l *Lift, x float64) { l.Frequency += x / 8 },
		"hours":      func(l *Lift, x float64) { l.Hours += x / 12 },
	} {
		last := math.Inf(1)
		for x := range 200 {
			l := base
			set(&l, float64(x))
			if got := l.RWL(); got > last+1e-12 {
				t.Errorf("%s: %d more allows %g, after %g", name, x, got, last)
			} else {
				last = got
			}
		}
		if name != "down" && name != "hours" && last != 0 {
			t.Errorf("%s: never out of range: %g", name, last)
		}
	}
}
