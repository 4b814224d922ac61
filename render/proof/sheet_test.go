package proof

import (
	"strings"
	"testing"

	"setwright/render/pdf/pdftest"
)

// TestFootprint wants the plan view to dimension the bare unit and the room
// that everything on it takes, both ways.
func TestFootprint(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		b, e := p.unit.Bare, p.unit.Extent
		pg := p.of(unitSheet, "")[0]
		for _, c := range []struct {
			level  bool
			length nm
			what   string
		}{
			{true, b.X1 - b.X0, "width of the bare unit"}, {false, b.Y1 - b.Y0, "depth of the bare unit"},
			{true, e.X1 - e.X0, "width over all"}, {false, e.Y1 - e.Y0, "depth over all"},
		} {
			found := false
			for _, dim := range p.dimensions(pg).plain {
				found = found || near(dim.from.Y, dim.to.Y, exact) == c.level && p.says(dim.figure, c.length)
			}
			if !found {
				t.Errorf("sheet %d: no dimension for the %s, %.1f mm", pg.number, c.what, c.length.mm())
			}
		}
	})
}

// TestFindingsAreListed wants every finding in the pack, with its code, its
// sentence and what to do about it.
func TestFindingsAreListed(t *testing.T) {
	squeezed := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }
	each(t, func(t *testing.T, p *plan) {
		var pages []*page
		for _, pg := range p.sheets {
			if pg.title == p.words.Findings || strings.HasPrefix(pg.title, p.words.Findings+" (") {
				pages = append(pages, pg)
			}
		}
		column := func(name string) string {
			var all strings.Builder
			for _, pg := range pages {
				if head := pg.head(name); head != nil {
					for _, text := range pg.column(head) {
						all.WriteString(text.S)
					}
				}
			}
			return squeezed(all.String())
		}
		sources, said := column(p.words.Source), column(p.words.Finding)
		for _, f := range p.project.Findings.All() {
			if !strings.Contains(sources, squeezed(f.Code)) || !strings.Contains(said, squeezed(f.Message)) || !strings.Contains(said, squeezed(f.Fix)) {
				t.Errorf("%s is not listed: %s", f.Code, f.Message)
			}
		}
		if len(p.project.Findings.All()) == 0 && said != "" {
			t.Errorf("findings are listed, there are none: %s", said)
		}
	})
}

// TestPictures wants a product's picture in every front of it, whole and not
// distorted, and each picture embedded once.
func TestPictures(t *testing.T) {
	drawn := 0
	each(t, func(t *testing.T, p *plan) {
		imageOf := map[string]string{} // by the addresses of goods with a picture
		files := map[string]bool{}
		for _, f := range p.project.Unit.Faces {
			for _, r := range f.Rows {
				for _, at := range r.Positions {
					if path := at.Product.Image; path != "" && p.project.Image(path) != nil {
						imageOf[at.Address], files[path] = path, true
					}
				}
			}
		}
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.of(goods, f.Letter) {
				drawn += len(pg.Images)
				p.pictures(t, f, pg, imageOf)
			}
		}
		if p.doc.Pictures != len(files) {
			t.Errorf("%d pictures embedded, the goods have %d", p.doc.Pictures, len(files))
		}
	})
	if drawn == 0 {
		t.Error("no plan has pictures")
	}
}

// pictures matches the pictures of a sheet with the fronts that want one.
func (p *plan) pictures(t *testing.T, f *face, pg *page, imageOf map[string]string) {
	t.Helper()
	g, err := pg.groundOf(f)
	if err != nil {
		t.Error(err)
		return
	}
	left := append([]pdftest.Image(nil), pg.Images...)
	for _, r := range f.Rows {
		for _, at := range r.Positions {
			for _, front := range at.Fronts {
				b := front.Box
				if imageOf[at.Address] == "" || b.X0 >= g.zone[1] || b.X1 <= g.zone[0] {
					continue
				}
				place := g.box(b.X0, b.X1, b.Y0, b.Y1)
				found := -1
				for i, image := range left {
					if inside(image.Box.Min, place) && inside(image.Box.Max, place) {
						found = i
					}
				}
				if found < 0 {
					t.Errorf("sheet %d: no picture in a front of %s", pg.number, at.Address)
					continue
				}
				image := left[found]
				left = append(left[:found], left[found+1:]...)
				wide, high := image.Box.Max.X-image.Box.Min.X, image.Box.Max.Y-image.Box.Min.Y
				across, up := p.project.Image(imageOf[at.Address]).Size()
				if shape := float64(across) / float64(up); !near(wide/high, shape, 0.001*shape) {
					t.Errorf("sheet %d: the picture of %s is drawn %.2f × %.2f mm, it has %d × %d pixels", pg.number, at.Address, wide, high, across, up)
				}
			}
		}
	}
	if len(left) > 0 {
		t.Errorf("sheet %d: %d pictures in no front", pg.number, len(left))
	}
}
