package proof

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/render/pdf/pdftest"
)

// statics lists the statics sheets.
func (p *plan) statics() []*page {
	var list []*page
	for _, pg := range p.sheets {
		if title, _, _ := strings.Cut(pg.title, " ("); title == p.words.Statics {
			list = append(list, pg)
		}
	}
	return list
}

// parseDecimal reads a printed decimal: blanks between its thousands, a point or
// the language's comma.
func parseDecimal(s string) float64 {
	s = strings.NewReplacer("\u00a0", "", " ", "", ",", ".", "−", "-").Replace(s)
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// TestFeetCarryTheUnit adds up the loads printed at the feet: together they
// are the weight of everything in the pick list and of all goods.
func TestFeetCarryTheUnit(t *testing.T) {
	label := regexp.MustCompile(`^\d+: ([\d\x{00a0}.,]+)\x{00a0}(lb|N)$`)
	seen := 0
	each(t, func(t *testing.T, p *plan) {
		sum, rounding, n := 0.0, 0.0, 0
		for _, pg := range p.statics() {
			for _, text := range pg.Texts {
				m := label.FindStringSubmatch(text.S)
				if m == nil {
					continue
				}
				n++
				sum += parseDecimal(m[1])
				if strings.ContainsAny(m[1], ".,") {
					rounding += 0.05
				} else {
					rounding += 0.5
				}
			}
		}
		if n == 0 {
			return // fixed to the building
		}
		seen++
		s := list.Summarize(p.project.Unit)
		want := float64(s.Structure+s.Hardware+s.Goods) / float64(measure.Kilogram)
		if p.mm() {
			want *= 9.80665 // N, standard gravity (CGPM 1901)
		} else {
			want /= 0.45359237
		}
		if !near(sum, want, rounding) {
			t.Errorf("%d feet carry %.2f together, the unit weighs %.2f", n, sum, want)
		}
	})
	if seen < 4 {
		t.Errorf("only %d plans stand on feet", seen)
	}
}

// TestSagIsDrawnTrue measures the diagram of the shelf that sags most: its
// spans to the scale printed, its sag to that times the printed exaggeration.
func TestSagIsDrawnTrue(t *testing.T) {
	seen := 0
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.statics() {
			den, deeper, ok := p.sagScale(pg)
			if !ok {
				continue
			}
			seen++
			unit, spanStep, sagStep, sagUnit := 25.4, 0.05, 0.0005, p.words.Inch
			if p.mm() {
				unit, spanStep, sagStep, sagUnit = 1, 0.5, 0.005, p.words.Millimetre
			}
			spans := 0
			for i, text := range pg.Texts {
				if l := pg.ruled(&pg.Texts[i]); l != nil {
					spans++
					if off := l.Length() - parseDecimal(text.S)*unit/den; math.Abs(off) > spanStep*unit/den+exact {
						t.Errorf("sheet %d: the span %s is drawn %.3f mm too long", pg.number, text.S, off)
					}
				}
			}
			if spans == 0 {
				t.Errorf("sheet %d: no spans", pg.number)
			}
			sag, length, found := pg.deepest(sagUnit)
			if !found {
				t.Errorf("sheet %d: the sag is not pointed at", pg.number)
			} else if want := sag * unit * deeper / den; !near(length, want, sagStep*unit*deeper/den+exact) {
				t.Errorf("sheet %d: a sag of %g is drawn %.3f mm deep, %.3f wanted", pg.number, sag, length, want)
			}
		}
	})
	if seen < 6 {
		t.Errorf("only %d diagrams", seen)
	}
}

// sagScale reads the line that gives the diagram's scales.
func (p *plan) sagScale(pg *page) (den, deeper float64, ok bool) {
	said := func(words string) *regexp.Regexp {
		words = strings.NewReplacer("%d", `(\d+)`, "%s", `([\d\x{00a0}.,]+)`).Replace(regexp.QuoteMeta(words))
		return regexp.MustCompile("^" + words + "$")
	}
	for _, text := range pg.Texts {
		if m := said(p.words.SagScale).FindStringSubmatch(text.S); m != nil {
			return parseDecimal(m[1]), parseDecimal(m[2]), true
		}
		if m := said(p.words.SagTrue).FindStringSubmatch(text.S); m != nil {
			return parseDecimal(m[1]), 1, true
		}
	}
	return 0, 0, false
}

// ruled is the dimension line, from slash to slash, that a figure stands over.
func (pg *page) ruled(text *pdftest.Text) *pdftest.Line {
	if math.IsNaN(parseDecimal(text.S)) {
		return nil
	}
	slash := func(at pdftest.Point) bool {
		for _, l := range pg.Lines {
			if l.Pen.Width > hatched && near(l.From.X-l.To.X, l.To.Y-l.From.Y, exact) && l.Length() < 4 &&
				near((l.From.X+l.To.X)/2, at.X, exact) && near((l.From.Y+l.To.Y)/2, at.Y, exact) {
				return true
			}
		}
		return false
	}
	for i, l := range pg.Lines {
		if near(l.From.Y, l.To.Y, exact) && l.From.Y > text.At.Y && l.From.Y < text.At.Y+2 && slash(l.From) && slash(l.To) &&
			text.At.X > l.From.X-1 && text.At.X < l.To.X+3 {
			return &pg.Lines[i]
		}
	}
	return nil
}

// deepest is the sag that is printed under an upright arrow, and the arrow's
// length.
func (pg *page) deepest(unit string) (sag, length float64, ok bool) {
	for _, text := range pg.Texts {
		value, rest, _ := strings.Cut(text.S, "\u00a0")
		if rest != unit || !bold(text) || math.IsNaN(parseDecimal(value)) {
			continue
		}
		for _, l := range pg.Lines {
			if near(l.From.X, l.To.X, exact) && near(l.From.X, text.Middle().X, 0.1) && near(l.Pen.Width, 0.18, exact) && l.To.Y < text.At.Y && l.To.Y > text.At.Y-8 {
				return parseDecimal(value), l.Length(), true
			}
		}
	}
	return 0, 0, false
}

// TestStaticsSayWhatTheyRestOn wants the statement on tip tests, the basis and
// the tipping cases on the statics sheets of every plan.
func TestStaticsSayWhatTheyRestOn(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		var all strings.Builder
		for _, pg := range p.statics() {
			for _, text := range pg.Texts {
				all.WriteString(text.S + " ")
			}
		}
		squeezed := func(s string) string { return strings.Join(strings.Fields(s), "") }
		said := squeezed(all.String())
		wants := []string{p.words.BasisNoTest, p.words.BasisRatings, p.words.BasisLoads}
		if len(p.project.Report.Assessment.Tips) > 0 {
			wants = append(wants, p.words.Tipping, p.words.TiltHead, fmt.Sprintf("a, %s", p.words.SideFront))
		} else {
			wants = append(wants, p.words.FixedSays)
		}
		for _, want := range wants {
			if !strings.Contains(said, squeezed(want)) {
				t.Errorf("the statics sheets do not say %q", want)
			}
		}
	})
}
