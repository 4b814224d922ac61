package proof

import (
	"fmt"
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestDrawnLengthsAreTrue measures every dimension of every plan view and
// hardware elevation.
func TestDrawnLengthsAreTrue(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		n := 0
		for _, pg := range p.sheets {
			if pg.den == 0 || pg.kind == goods {
				continue
			}
			n += len(p.dimensions(pg).all())
			for _, fault := range p.lengths(pg) {
				t.Errorf("sheet %d (%s): %s", pg.number, pg.title, fault)
			}
		}
		if n < 10 {
			t.Errorf("only %d dimensions read", n)
		}
	})
}

// lengths checks that every dimension's length on paper times the printed
// scale is what its figure says, within 0.1 mm on paper; closer where the
// figure is exact: rounded to a sixteenth of an inch or a whole millimetre it
// may be off by half of that to scale, no more. Every figure on the drawing
// must belong to a dimension, and every dimension have a figure.
func (p *plan) lengths(pg *page) (faults []string) {
	const allowed = 0.1 + 0.0005 // mm on paper, and what writers round off
	d := p.dimensions(pg)
	faults = d.faults
	for _, dim := range d.all() {
		within := exact
		if p.mm() || dim.figure.rounded {
			step, _ := p.step().Float64()
			within = min(step/2/pg.den+exact, allowed)
		}
		off := dim.length() + d.start(p, dim) - p.mmOf(dim.figure)/pg.den
		if !near(off, 0, within) {
			faults = append(faults, fmt.Sprintf("%q is drawn %.3f mm too long on paper at 1:%g", dim.text.S, off, pg.den))
		}
	}
	for _, text := range d.strays(p) {
		faults = append(faults, fmt.Sprintf("the figure %q at %.1f, %.1f is on no dimension", text.S, text.At.X, text.At.Y))
	}
	return faults
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

// inTable reports whether a text stands in the table of a face, or in its
// head, of which the last line is on one line with the head of the items.
func (p *plan) inTable(pg *page, t *pdftest.Text) bool {
	head := pg.head(p.words.Item)
	if head == nil || t.At.X < head.At.X-5 {
		return false
	}
	return t.At.Y >= head.At.Y || bold(*t) && t.At.Y > head.At.Y-4*head.Size && near(t.Size, head.Size, exact)
}

// strays are figures of a drawing that belong to no dimension. Numbers in
// balloons and flags, the count of every fifth slot (pale) and tables are something else.
func (d *drawing) strays(p *plan) []*pdftest.Text {
	if d.page.kind != hardware {
		return nil // steps and tables of other sheets are numbered
	}
	var list []*pdftest.Text
	for _, turned := range []bool{false, true} {
		for _, text := range d.figures(turned) {
			switch {
			case d.claims[text] > 0, text.Color != pdftest.Color{}, text.At.Y > d.page.footFrom(), p.inTable(d.page, text):
			case d.page.inBalloon(text), d.page.inFlag(text):
			default:
				list = append(list, text)
			}
		}
	}
	return list
}
