package proof

import (
	"strings"
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestGoodsAreNamed counts the positions on elevations of goods whose block
// says, besides the address, what stands there: the first word of the name,
// whole. More than namedShare per cent of those of all samples do.
func TestGoodsAreNamed(t *testing.T) {
	const namedShare = 80
	named, all := 0, 0
	each(t, func(t *testing.T, p *plan) {
		if !p.sample() {
			t.Skip("samples are enough")
		}
		some, of := 0, 0
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.of(goods, f.Letter) {
				n, m := pg.named(t, f)
				some, of = some+n, of+m
			}
		}
		t.Logf("%d of %d", some, of)
		named, all = named+some, all+of
	})
	if all == 0 || named*100 < all*namedShare {
		t.Errorf("%d of %d positions are named on their block, less than %d %%", named, all, namedShare)
	}
	t.Logf("%d of %d positions are named on their block", named, all)
}

// named counts the positions of a face that a sheet shows, and those among them
// with their name on their block.
func (pg *page) named(t *testing.T, f *face) (named, all int) {
	t.Helper()
	g, err := pg.groundOf(f)
	if err != nil {
		t.Error(err)
		return 0, 0
	}
	for _, r := range f.Rows {
		for _, at := range r.Positions {
			var blocks []pdftest.Box
			for _, front := range at.Fronts {
				if b := front.Box; b.X0 < g.zone[1] && b.X1 > g.zone[0] {
					blocks = append(blocks, g.box(b.X0, b.X1, b.Y0, b.Y1))
				}
			}
			if len(blocks) == 0 {
				continue
			}
			all++
			if pg.says(strings.TrimRight(strings.Fields(at.Name)[0], ",;:"), around(blocks)) {
				named++
			}
		}
	}
	return named, all
}

func around(list []pdftest.Box) pdftest.Box {
	b := list[0]
	for _, o := range list[1:] {
		b.Min = pdftest.Point{X: min(b.Min.X, o.Min.X), Y: min(b.Min.Y, o.Min.Y)}
		b.Max = pdftest.Point{X: max(b.Max.X, o.Max.X), Y: max(b.Max.Y, o.Max.Y)}
	}
	return b
}

// says reports whether lettering in the box begins with a word.
func (pg *page) says(word string, in pdftest.Box) bool {
	for _, text := range pg.Texts {
		if strings.HasPrefix(text.S, word) && inside(text.Ink.Min, in) && inside(text.Ink.Max, in) {
			return true
		}
	}
	return false
}
