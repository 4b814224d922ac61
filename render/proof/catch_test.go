package proof

import (
	"slices"
	"strings"
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestFaultsAreSeen draws one fault at a time into a sheet that has none, and
// wants the checks to see it: they can fail.
func TestFaultsAreSeen(t *testing.T) {
	list, err := plans()
	if err != nil {
		t.Fatal(err)
	}
	p := list[slices.IndexFunc(list, func(p *plan) bool { return p.name == "samples/spring" })]
	f := &p.unit.Faces[0]
	sound := p.elevations(t, f)[0]
	if faults := p.faults(f, sound); len(faults) > 0 {
		t.Fatalf("the sheet has faults: %v", faults)
	}
	chain := func(pg *page) *chain {
		for _, c := range p.dimensions(pg).chains {
			if !c.upright {
				return c
			}
		}
		return nil
	}
	for _, c := range []struct {
		reason string
		change func(pg *page)
	}{
		{"a tick 0.15 mm off", func(pg *page) {
			at := chain(pg).dims[1].to
			for i, l := range pg.Lines {
				if near((l.From.X+l.To.X)/2, at.X, exact) && near((l.From.Y+l.To.Y)/2, at.Y, exact) && l.From.Y != l.To.Y {
					pg.Lines[i].From.X += 0.15
					pg.Lines[i].To.X += 0.15
				}
			}
		}},
		{"another figure", func(pg *page) { chain(pg).dims[1].text.S = "5⁹⁄₁₆" }},
		{"a figure marked as rounded", func(pg *page) { text := chain(pg).dims[1].text; text.S = "≈" + text.S }},
		{"a figure too many", func(pg *page) {
			pg.Texts = append(pg.Texts, pdftest.Text{S: "7½", At: pdftest.Point{X: 100, Y: 100}, Size: 3.5, Width: 4})
		}},
		{"a figure missing", func(pg *page) { chain(pg).dims[2].text.S = "" }},
		{"another scale", func(pg *page) { pg.den = 16 }},
		{"a height's figure", func(pg *page) {
			for _, c := range p.dimensions(pg).chains {
				if c.upright {
					c.dims[2].text.S = "56"
				}
			}
		}},
		{"another slot", func(pg *page) {
			for i, text := range pg.Texts {
				if strings.HasPrefix(text.S, p.words.Wire+" ") {
					pg.Texts[i].S = p.words.Wire + " 2"
					return
				}
			}
		}},
		{"a chain that names one hook too few", func(pg *page) {
			last := chain(pg).dims[len(chain(pg).dims)-1]
			pg.Lines = slices.DeleteFunc(pg.Lines, func(l pdftest.Line) bool {
				return near((l.From.X+l.To.X)/2, last.to.X, exact) && near((l.From.Y+l.To.Y)/2, last.to.Y, exact)
			})
			last.text.S = ""
		}},
	} {
		bad := *sound
		copied := *sound.Page
		copied.Lines, copied.Texts = slices.Clone(copied.Lines), slices.Clone(copied.Texts)
		bad.Page, bad.drawing = &copied, nil
		c.change(&bad)
		bad.drawing = nil
		if len(p.faults(f, &bad)) == 0 {
			t.Errorf("%s: no check sees it", c.reason)
		}
	}
}
