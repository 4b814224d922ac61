package proof

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/parts"
	"setwright/render/pdf/pdftest"
)

// shown lists the rows of a face with hardware in the bays of a sheet.
func (f *face) shown(bays [2]int) []row {
	zone := f.zone(bays)
	var list []row
	for _, r := range f.Rows {
		if slices.ContainsFunc(r.all(), func(p piece) bool { return p.Box.X0 < zone[1] && p.Box.X1 > zone[0] }) {
			list = append(list, r)
		}
	}
	return list
}

// elevations lists the sheets that draw a face's hardware, and fails unless
// together they show each of its bays once.
func (p *plan) elevations(t *testing.T, f *face) []*page {
	t.Helper()
	var list []*page
	next := 1
	for _, pg := range p.of(hardware, f.Letter) {
		if pg.den == 0 {
			continue
		}
		if pg.bays[0] != next {
			t.Errorf("sheet %d begins with bay %d, not %d", pg.number, pg.bays[0], next)
		}
		next = pg.bays[1] + 1
		list = append(list, pg)
	}
	if len(list) > 0 && next != f.Bays+1 {
		t.Errorf("%s: the elevations end with bay %d of %d", f.Face, next-1, f.Bays)
	}
	if len(list) == 0 && len(f.Rows) > 0 {
		t.Errorf("%s: %d rows and no elevation", f.Face, len(f.Rows))
	}
	return list
}

// slotWord is what a slot is called on a face's surface.
func (p *plan) slotWord(letter string) string {
	for _, f := range p.project.Unit.Faces {
		if f.Letter != letter {
			continue
		}
		switch f.Panel.Panel.Surface {
		case parts.Wire:
			return p.words.Wire
		case parts.Slatwall:
			return p.words.Groove
		case parts.Pegboard:
			return p.words.Hole
		}
	}
	return p.words.Slot
}

// elevationChecks are what every elevation of hardware must pass. Each returns
// the faults it finds.
var elevationChecks = []struct {
	name  string
	check func(p *plan, f *face, pg *page) []string
}{
	{"heights", (*plan).heights},
	{"chains", (*plan).chainFaults},
	{"depths", (*plan).depths},
	{"widths", (*plan).widths},
	{"hooks", (*plan).hooks},
	{"pieces", (*plan).pieces},
}

// TestElevations rebuilds the hardware of every face from its elevations alone
// and holds it against the dressed unit.
func TestElevations(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				for _, c := range elevationChecks {
					for _, fault := range c.check(p, f, pg) {
						t.Errorf("sheet %d, %s: %s", pg.number, c.name, fault)
					}
				}
			}
		}
	})
}

// faults is all that is wrong with an elevation.
func (p *plan) faults(f *face, pg *page) []string {
	list := p.lengths(pg)
	for _, c := range elevationChecks {
		list = append(list, c.check(p, f, pg)...)
	}
	return list
}

// heights reads the running heights and the slot beside each: they are those
// of the rows that the sheet shows, and of nothing else.
func (p *plan) heights(f *face, pg *page) (faults []string) {
	heights, edges, faults := p.readHeights(f, pg)
	rows := f.shown(pg.bays)
	for _, r := range rows {
		if r.Height != f.SlotFirst+nm(r.Slot-1)*f.SlotPitch {
			faults = append(faults, fmt.Sprintf("%s: slot %d is not at %d", r.Address, r.Slot, r.Height))
		}
		if h, ok := heights[r.Slot]; !ok || !p.says(h, r.Height) {
			faults = append(faults, fmt.Sprintf("%s hangs on slot %d at %.2f mm, the sheet says %v", r.Address, r.Slot, r.Height.mm(), h))
		}
	}
	for slot := range heights {
		if !slices.ContainsFunc(rows, func(r row) bool { return r.Slot == slot }) {
			faults = append(faults, fmt.Sprintf("nothing hangs on slot %d", slot))
		}
	}
	for name, l := range map[string]nm{p.words.TopEdge: f.Top, p.words.BottomEdge: f.Bottom} {
		if h, ok := edges[name]; ok && !p.says(h, l) {
			faults = append(faults, fmt.Sprintf("%s is at %.2f mm, the sheet says %v", name, l.mm(), h))
		}
	}
	return faults
}

// readHeights reads the figures of the heights by slot, and by name.
func (p *plan) readHeights(f *face, pg *page) (heights map[int]figure, edges map[string]figure, faults []string) {
	heights, edges = map[int]figure{}, map[string]figure{}
	for _, c := range p.dimensions(pg).chains {
		if !c.upright {
			continue
		}
		for _, dim := range c.dims {
			word, number, _ := strings.Cut(dim.slot, " ")
			slot, err := strconv.Atoi(number)
			switch {
			case err != nil:
				edges[dim.slot] = dim.figure
			case word != p.slotWord(f.Letter):
				faults = append(faults, fmt.Sprintf("slots are called %s", word))
			default:
				heights[slot] = dim.figure
			}
		}
	}
	return heights, edges, faults
}

// floor is where on paper the finished floor is: where the heights begin.
func (d *drawing) floor() float64 {
	for _, c := range d.chains {
		if c.upright {
			return c.origin.Y
		}
	}
	return 0
}

// depths holds the running depths under the section against how far the
// hardware of the rows shown reaches out.
func (p *plan) depths(f *face, pg *page) []string {
	var depths []nm
	if f.DeckDepth > 0 {
		depths = append(depths, f.DeckDepth)
	}
	for _, r := range f.shown(pg.bays) {
		for _, piece := range r.all() {
			depths = append(depths, piece.Box.D1)
		}
	}
	slices.Sort(depths)
	depths = slices.Compact(depths)
	d := p.dimensions(pg)
	drawn := slices.ContainsFunc(d.chains, func(c *chain) bool {
		return !c.upright && c.origin.Y > d.floor() && p.same(c, depths)
	})
	if !drawn && len(depths) > 0 {
		return []string{fmt.Sprintf("the section's depths are not those of the hardware: %v", depths)}
	}
	return nil
}

// widths holds the widths under the elevation against the face's bays.
func (p *plan) widths(f *face, pg *page) (faults []string) {
	n := pg.bays[1] - pg.bays[0] + 1
	bays, whole := 0, 0
	for _, dim := range p.dimensions(pg).plain {
		switch {
		case n > 1 && p.says(dim.figure, f.Width/nm(f.Bays)*nm(n)):
			whole++
		case p.says(dim.figure, f.Width/nm(f.Bays)):
			bays++
		default:
			faults = append(faults, "a width of "+dim.text.S)
		}
	}
	if bays != n || n > 1 && whole != 1 {
		faults = append(faults, fmt.Sprintf("%d widths of bays and %d over all, of %d bays", bays, whole, n))
	}
	return faults
}

// hooks rebuilds the hooks from their symbols alone: a plate with one dot on
// its middle line. Measured from the floor and the left end of the bays, at
// the printed scale, they are the hooks of the dressed unit.
func (p *plan) hooks(f *face, pg *page) (faults []string) {
	d := p.dimensions(pg)
	drawn := pg.plates()
	zone := f.zone(pg.bays)
	for _, r := range f.shown(pg.bays) {
		for _, piece := range r.Pieces {
			if r.Kind != "hook" || piece.X < zone[0] || piece.X > zone[1] {
				continue
			}
			want := pdftest.Box{
				Min: pdftest.Point{X: d.left() + (piece.Box.X0-zone[0]).mm()/pg.den, Y: d.floor() - piece.Box.Y1.mm()/pg.den},
				Max: pdftest.Point{X: d.left() + (piece.Box.X1-zone[0]).mm()/pg.den, Y: d.floor() - piece.Box.Y0.mm()/pg.den},
			}
			at := slices.IndexFunc(drawn, func(b pdftest.Box) bool { return alike(b, want) })
			if at < 0 {
				faults = append(faults, fmt.Sprintf("the hook of %s at %.1f mm is not drawn at its place", r.Address, piece.X.mm()))
				continue
			}
			drawn = slices.Delete(drawn, at, at+1)
		}
	}
	if len(drawn) > 0 {
		faults = append(faults, fmt.Sprintf("hooks are drawn where there are none: %v", drawn))
	}
	return faults
}

// pieces looks for the outline of every piece of hardware at its true place
// and size: of its whole box, or of each grip's arm where it is a frame.
func (p *plan) pieces(f *face, pg *page) (faults []string) {
	d := p.dimensions(pg)
	g := ground{d.left(), d.floor(), pg.den, f.zone(pg.bays)}
	var outlines []pdftest.Box
	for _, width := range []float64{0.25, 0.13} { // edges, and what is fixed to others
		outlines = append(outlines, pg.outlines(width)...)
	}
	for _, r := range f.shown(pg.bays) {
		for _, piece := range r.all() {
			for _, want := range g.outlined(r, piece) {
				if !slices.ContainsFunc(outlines, func(b pdftest.Box) bool { return alike(b, want) }) {
					faults = append(faults, fmt.Sprintf("%s of %s at %.1f mm is not drawn at its place", piece.Part, r.Address, piece.X.mm()))
				}
			}
		}
	}
	return faults
}

// outlined lists the outlines that a piece shows in the bays drawn. A shoe
// shelf is drawn slimmer than its box.
func (g ground) outlined(r row, p piece) (list []pdftest.Box) {
	b := p.Box
	spans := [][2]nm{{b.X0, b.X1}}
	switch {
	case p.Part == r.Part && (r.Kind == "rail" || r.Kind == "bar"):
		spans = nil
		for _, grip := range p.Grips {
			spans = append(spans, [2]nm{grip.X0, grip.X1})
		}
	case p.Part == r.Part && r.Kind == "shoe":
		return nil
	}
	for _, x := range spans {
		if x[0] < g.zone[1] && x[1] > g.zone[0] {
			list = append(list, g.box(x[0], x[1], b.Y0, b.Y1))
		}
	}
	return list
}

func alike(a, b pdftest.Box) bool {
	return near(a.Min.X, b.Min.X, exact) && near(a.Min.Y, b.Min.Y, exact) && near(a.Max.X, b.Max.X, exact) && near(a.Max.Y, b.Max.Y, exact)
}

// plates lists the symbols of hooks: a small rectangle, outlined 0.25 mm and
// filled with white, and right after it a dot on its middle line.
func (pg *page) plates() []pdftest.Box {
	var list []pdftest.Box
	for _, path := range pg.Paths {
		b, ok := rectangle(path)
		if !ok || path.Pen == nil || !near(path.Pen.Width, 0.25, exact) || path.Fill == nil {
			continue
		}
		for _, c := range pg.Circles {
			if c.Order == path.Order+1 && c.Pen == nil && near(c.Center.X, (b.Min.X+b.Max.X)/2, exact) && c.Center.Y > b.Min.Y-exact && c.Center.Y < b.Max.Y+exact && 2*c.Radius < b.Max.X-b.Min.X {
				list = append(list, b)
			}
		}
	}
	return list
}
