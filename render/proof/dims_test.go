package proof

import (
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestDrawnLengthsAreTrue measures every dimension of every plan view and
// hardware elevation: its length on paper times the printed scale is what its
// figure says, within 0.1 mm on paper. A figure rounded to a sixteenth of an
// inch or a whole millimetre may be off by half of that, to scale, no more.
func TestDrawnLengthsAreTrue(t *testing.T) {
	const allowed = 0.1 // mm on paper
	each(t, func(t *testing.T, p *plan) {
		n := 0
		for _, pg := range p.sheets {
			if pg.den == 0 || pg.kind == goods {
				continue
			}
			d := p.dimensions(pg)
			for _, fault := range d.faults {
				t.Errorf("sheet %d (%s): %s", pg.number, pg.title, fault)
			}
			for _, dim := range d.all() {
				n++
				step, _ := p.step().Float64()
				off := dim.length() + d.start(p, dim) - p.mmOf(dim.figure)/pg.den
				half := 0.0
				if p.mm() || dim.figure.rounded {
					half = step / 2 / pg.den
				}
				if !near(off, 0, half+exact) {
					t.Errorf("sheet %d (%s): %q is drawn %.3f mm too long on paper at 1:%g", pg.number, pg.title, dim.text.S, off, pg.den)
				}
				if half == 0 && !near(off, 0, allowed) {
					t.Errorf("sheet %d (%s): %q is off by %.3f mm on paper", pg.number, pg.title, dim.text.S, off)
				}
			}
			for _, text := range d.strays(p) {
				t.Errorf("sheet %d (%s): the figure %q at %.1f, %.1f is on no dimension", pg.number, pg.title, text.S, text.At.X, text.At.Y)
			}
		}
		if n < 10 {
			t.Errorf("only %d dimensions read", n)
		}
	})
}

// all lists the dimensions of a page.
func (d *drawing) all() []dimension {
	list := append([]dimension(nil), d.plain...)
	for _, c := range d.chains {
		list = append(list, c.dims...)
	}
	return list
}

// start is how far on paper the arrow is from the origin beyond it, the left
// edge of the face: the bays that the sheet leaves out on the left, and the
// room between the edge of the drawing and the arrow.
func (d *drawing) start(p *plan, dim dimension) float64 {
	if dim.chain == nil || !dim.chain.beyond {
		return 0
	}
	f := p.face(d.page.face)
	return f.zone(d.page.bays)[0].mm()/d.page.den + dim.from.X - d.left()
}

// zone is the stretch of a face that some of its bays take.
func (f *face) zone(bays [2]int) [2]nm {
	bay := f.Width / nm(f.Bays)
	return [2]nm{bay * nm(bays[0]-1), bay * nm(bays[1])}
}

func (p *plan) face(letter string) *face {
	for i, f := range p.unit.Faces {
		if f.Letter == letter {
			return &p.unit.Faces[i]
		}
	}
	return nil
}

// inTable reports whether a text stands in the table of a face.
func (p *plan) inTable(pg *page, t *pdftest.Text) bool {
	head := pg.head(p.words.Item)
	return head != nil && t.At.Y >= head.At.Y && t.At.X > head.At.X-5
}

// strays are figures of a drawing that belong to no dimension. Numbers in
// balloons, the count of every fifth slot (pale) and tables are something else.
func (d *drawing) strays(p *plan) []*pdftest.Text {
	if d.page.kind != hardware {
		return nil // steps and tables of other sheets are numbered
	}
	var list []*pdftest.Text
	for _, turned := range []bool{false, true} {
		for _, text := range d.figures(turned) {
			switch {
			case d.claims[text] > 0, text.Color != pdftest.Color{}, text.At.Y > d.page.footFrom(), p.inTable(d.page, text):
			case d.page.inBalloon(text):
			default:
				list = append(list, text)
			}
		}
	}
	return list
}
