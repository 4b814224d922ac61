package proof

import (
	"regexp"
	"strings"
	"testing"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/pdf/pdftest"
)

// capHeight is how high a text's capitals are on paper, in millimetres.
func capHeight(t pdftest.Text) float64 {
	return t.Size * float64(fonts.CapHeight(fonts.Regular, measure.Metre)) / float64(measure.Metre)
}

// TestLetteringSize measures the ink of lettering of flat-topped figures and
// capitals, so that what the fonts claim of themselves does not count, and
// wants 1.8 mm at least of all lettering (ISO 3098 nominal sizes).
func TestLetteringSize(t *testing.T) {
	flat := regexp.MustCompile(`^[147EFHLTZ-]*[147EFHLTZ][147EFHLTZ-]*$`)
	each(t, func(t *testing.T, p *plan) {
		measured := 0
		for _, pg := range p.sheets {
			for _, text := range pg.Texts {
				if capHeight(text) < 1.8-exact {
					t.Errorf("sheet %d: %q is %.2f mm high", pg.number, text.S, capHeight(text))
				}
				if !flat.MatchString(text.S) {
					continue
				}
				measured++
				high := text.Ink.Max.Y - text.Ink.Min.Y
				if text.Angle != 0 {
					high = text.Ink.Max.X - text.Ink.Min.X
				}
				if !near(high, capHeight(text), 0.02*capHeight(text)) {
					t.Errorf("sheet %d: the ink of %q is %.3f mm high, not %.3f", pg.number, text.S, high, capHeight(text))
				}
			}
		}
		if measured == 0 {
			t.Error("nothing measured")
		}
	})
}

// TestDrawingsAreLettered wants 2.5 mm at least of everything on elevations of
// hardware and on plan views, but in tables and under the drawing's foot.
func TestDrawingsAreLettered(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			if pg.den == 0 {
				continue
			}
			foot := pg.footFrom()
			for _, text := range pg.Texts {
				if capHeight(text) >= 2.5-exact || text.At.Y > foot || p.inTable(pg, &text) || pg.kind == goods {
					continue
				}
				t.Errorf("sheet %d (%s): %q is %.2f mm high", pg.number, pg.title, text.S, capHeight(text))
			}
		}
	})
}

// TestNoTextMeetsAnother holds the ink of every text against that of every
// other and against the sheet's frame.
func TestNoTextMeetsAnother(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			for _, pair := range pg.Clashes() {
				a := pg.Texts[pair[0]]
				if pair[1] < 0 {
					t.Errorf("sheet %d (%s): %q leaves the page", pg.number, pg.title, a.S)
					continue
				}
				t.Errorf("sheet %d (%s): %q and %q overlap at %.1f, %.1f", pg.number, pg.title, a.S, pg.Texts[pair[1]].S, a.At.X, a.At.Y)
			}
			frame := pg.frame()
			for _, text := range pg.Texts {
				if text.Ink != (pdftest.Box{}) && (text.Ink.Min.X < frame.Min.X || text.Ink.Min.Y < frame.Min.Y || text.Ink.Max.X > frame.Max.X || text.Ink.Max.Y > frame.Max.Y) {
					t.Errorf("sheet %d (%s): %q leaves the frame", pg.number, pg.title, text.S)
				}
			}
		}
	})
}

// TestNoTextIsHidden wants no rectangle or picture painted over lettering.
func TestNoTextIsHidden(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			for _, text := range pg.Texts {
				for _, path := range pg.Paths {
					if box, ok := rectangle(path); ok && path.Fill != nil && path.Order > text.Order && box.Overlaps(text.Ink) {
						t.Errorf("sheet %d (%s): %q at %.1f, %.1f is painted over", pg.number, pg.title, text.S, text.At.X, text.At.Y)
					}
				}
				for _, image := range pg.Images {
					if image.Order > text.Order && image.Box.Overlaps(text.Ink) {
						t.Errorf("sheet %d (%s): a picture hides %q", pg.number, pg.title, text.S)
					}
				}
			}
		}
	})
}

// rectangle is the box of a path that is an upright rectangle.
func rectangle(p pdftest.Path) (pdftest.Box, bool) {
	if len(p.Points) != 4 || !p.Closed || p.Curved {
		return pdftest.Box{}, false
	}
	b := pdftest.Box{Min: p.Points[0], Max: p.Points[0]}
	for i, at := range p.Points {
		next := p.Points[(i+1)%4]
		if !near(at.X, next.X, 1e-6) && !near(at.Y, next.Y, 1e-6) {
			return pdftest.Box{}, false
		}
		b.Min = pdftest.Point{X: min(b.Min.X, at.X), Y: min(b.Min.Y, at.Y)}
		b.Max = pdftest.Point{X: max(b.Max.X, at.X), Y: max(b.Max.Y, at.Y)}
	}
	return b, true
}

// frame is the rectangle drawn round the sheet: the largest.
func (pg *page) frame() pdftest.Box {
	var frame pdftest.Box
	for _, path := range pg.Paths {
		if b, ok := rectangle(path); ok && path.Pen != nil && area(b) > area(frame) {
			frame = b
		}
	}
	return frame
}

func area(b pdftest.Box) float64 { return (b.Max.X - b.Min.X) * (b.Max.Y - b.Min.Y) }

// TestNothingLacks wants every character printed as it is, none replaced.
func TestNothingLacks(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			for _, text := range pg.Texts {
				if text.Lacked > 0 || strings.ContainsRune(text.S, fonts.Replacement) {
					t.Errorf("sheet %d: %q lacks glyphs", pg.number, text.S)
				}
			}
		}
	})
}
