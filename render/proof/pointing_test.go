package proof

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"setwright/render/pdf/pdftest"
)

// ground is where on paper a face lies.
type ground struct {
	left, floor, den float64
	zone             [2]nm
}

// box is where on paper a box of the face is, cut off at the edges of the
// bays shown.
func (g ground) box(x0, x1, y0, y1 nm) pdftest.Box {
	x0, x1 = max(x0, g.zone[0]), min(x1, g.zone[1])
	return pdftest.Box{
		Min: pdftest.Point{X: g.left + (x0-g.zone[0]).mm()/g.den, Y: g.floor - y1.mm()/g.den},
		Max: pdftest.Point{X: g.left + (x1-g.zone[0]).mm()/g.den, Y: g.floor - y0.mm()/g.den},
	}
}

// groundOf finds a face on paper by its leftmost panel: the outline, 0.35 mm
// wide, of a panel's size.
func (pg *page) groundOf(f *face) (ground, error) {
	g := ground{left: math.Inf(1), den: pg.den, zone: f.zone(pg.bays)}
	wide, high := (f.Width/nm(f.Bays)).mm()/pg.den, (f.Top-f.Bottom).mm()/pg.den
	for _, path := range pg.Paths {
		b, ok := rectangle(path)
		if ok && path.Pen != nil && near(path.Pen.Width, 0.35, exact) && near(b.Max.X-b.Min.X, wide, exact) && near(b.Max.Y-b.Min.Y, high, exact) && b.Min.X < g.left {
			g.left, g.floor = b.Min.X, b.Max.Y+f.Bottom.mm()/pg.den
		}
	}
	if math.IsInf(g.left, 1) {
		return g, fmt.Errorf("sheet %d: no panel of %.2f × %.2f mm", pg.number, wide, high)
	}
	return g, nil
}

// TestGoodsAreDrawnAtTheirSize finds every front of every position on the
// elevations of goods, as an outline at its true place and size.
func TestGoodsAreDrawnAtTheirSize(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.of(goods, f.Letter) {
				g, err := pg.groundOf(f)
				if err != nil {
					t.Error(err)
					continue
				}
				outlines := pg.outlines(0.18)
				for _, r := range f.Rows {
					for _, at := range r.Positions {
						for _, front := range at.Fronts {
							b := front.Box
							if b.X0 >= g.zone[1] || b.X1 <= g.zone[0] {
								continue
							}
							if want := g.box(b.X0, b.X1, b.Y0, b.Y1); !slices.ContainsFunc(outlines, func(o pdftest.Box) bool { return alike(o, want) }) {
								t.Errorf("sheet %d: a front of %s is not drawn at %.1f", pg.number, at.Address, want)
							}
						}
					}
				}
			}
		}
	})
}

// outlines lists the boxes of rectangles outlined with a pen of some width.
func (pg *page) outlines(width float64) (list []pdftest.Box) {
	for _, path := range pg.Paths {
		if b, ok := rectangle(path); ok && path.Pen != nil && near(path.Pen.Width, width, exact) {
			list = append(list, b)
		}
	}
	return list
}

// TestAddressesPointAtTheirGoods wants every position's address in its block,
// or joined to it by a leader.
func TestAddressesPointAtTheirGoods(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			blocks := map[string]position{}
			for _, r := range f.Rows {
				for _, at := range r.Positions {
					blocks[at.Address] = at
				}
			}
			for _, pg := range p.of(goods, f.Letter) {
				g, err := pg.groundOf(f)
				if err != nil {
					t.Error(err)
					continue
				}
				for _, text := range pg.Texts {
					if !positionAddress.MatchString(text.S) {
						continue
					}
					if block := g.block(blocks[text.S]); !inside(center(text.Ink), block) && !pg.joined(text.Ink, block) {
						t.Errorf("sheet %d: %s at %.1f does not point at its goods at %.1f", pg.number, text.S, text.At, block)
					}
				}
			}
		}
	})
}

// block is the box round all fronts of a position.
func (g ground) block(at position) pdftest.Box {
	if len(at.Fronts) == 0 {
		return pdftest.Box{}
	}
	all := at.Fronts[0].Box
	for _, front := range at.Fronts {
		b := front.Box
		all.X0, all.X1 = min(all.X0, b.X0), max(all.X1, b.X1)
		all.Y0, all.Y1 = min(all.Y0, b.Y0), max(all.Y1, b.Y1)
	}
	return g.box(all.X0, all.X1, all.Y0, all.Y1)
}

func center(b pdftest.Box) pdftest.Point {
	return pdftest.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
}

func inside(at pdftest.Point, b pdftest.Box) bool {
	return at.X > b.Min.X-exact && at.X < b.Max.X+exact && at.Y > b.Min.Y-exact && at.Y < b.Max.Y+exact
}

// away is how far a point is from a box.
func away(at pdftest.Point, b pdftest.Box) float64 {
	return math.Hypot(max(b.Min.X-at.X, at.X-b.Max.X, 0), max(b.Min.Y-at.Y, at.Y-b.Max.Y, 0))
}

// joined reports whether a hair line runs from a text to a box.
func (pg *page) joined(text, to pdftest.Box) bool {
	return slices.ContainsFunc(pg.Lines, func(l pdftest.Line) bool {
		return near(l.Pen.Width, 0.13, exact) && (away(l.From, text) < 1.5 && inside(l.To, to) || away(l.To, text) < 1.5 && inside(l.From, to))
	})
}

// TestBalloonsPointAtTheirParts follows the leader of every row of balloons to
// its dot: it lies on hardware of a row that has all those parts.
func TestBalloonsPointAtTheirParts(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				d := p.dimensions(pg)
				g := ground{d.left(), d.floor(), pg.den, f.zone(pg.bays)}
				for y, numbers := range pg.balloons() {
					row := pg.pointed(g, f, y)
					if row == nil {
						t.Errorf("sheet %d: balloons %v point at nothing", pg.number, numbers)
						continue
					}
					for _, n := range numbers {
						if !slices.Contains(items[n].rows, row.Address) {
							t.Errorf("sheet %d: balloon %d points at %s, which has none", pg.number, n, row.Address)
						}
					}
				}
			}
		}
	})
}

// balloons lists the numbers in balloons by the height they stand at, in
// hundredths of a millimetre.
func (pg *page) balloons() map[int][]int {
	rows := map[int][]int{}
	for _, text := range pg.Texts {
		if n, err := strconv.Atoi(text.S); err == nil && pg.inBalloon(&text) {
			y := int(math.Round(100 * text.At.Y))
			rows[y] = append(rows[y], n)
		}
	}
	return rows
}

// pointed follows the leader that begins at balloons whose baseline is at y.
func (pg *page) pointed(g ground, f *face, y int) *row {
	for _, l := range pg.Lines {
		if !near(l.From.Y, float64(y)/100-1.25, 0.1) || !near(l.Pen.Width, 0.13, exact) || l.From.X < l.To.X {
			continue
		}
		dot := slices.ContainsFunc(pg.Circles, func(c pdftest.Circle) bool {
			return near(c.Radius, 0.45, exact) && c.Fill != nil && near(c.Center.X, l.To.X, exact) && near(c.Center.Y, l.To.Y, exact)
		})
		if !dot {
			continue
		}
		for i, r := range f.Rows {
			for _, piece := range r.all() {
				b := piece.Box
				if b.X0 < g.zone[1] && b.X1 > g.zone[0] && inside(l.To, g.box(b.X0, b.X1, b.Y0, b.Y1)) {
					return &f.Rows[i]
				}
			}
		}
	}
	return nil
}

// TestNoLineCrossesLettering wants no dark line through the ink of a text,
// unless white was laid over it before the text was written.
func TestNoLineCrossesLettering(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			if pg.den == 0 {
				continue
			}
			lines := pg.Segments()
			for _, text := range pg.Texts {
				for _, l := range lines {
					if l.Pen.Color[0] < 0.6 && cuts(l, text.Ink, 0.15) && !pg.covered(l, text) {
						t.Errorf("sheet %d (%s): a line from %.1f to %.1f runs through %q", pg.number, pg.title, l.From, l.To, text.S)
					}
				}
			}
		}
	})
}

// covered reports whether a fill between line and text hides the line there.
func (pg *page) covered(l pdftest.Line, text pdftest.Text) bool {
	ink := text.Ink
	ink.Min.X, ink.Min.Y, ink.Max.X, ink.Max.Y = ink.Min.X+0.15, ink.Min.Y+0.15, ink.Max.X-0.15, ink.Max.Y-0.15
	return slices.ContainsFunc(pg.Paths, func(path pdftest.Path) bool {
		return path.Fill != nil && path.Order > l.Order && path.Order < text.Order && holds(path, ink)
	})
}

// holds reports whether a box lies in a path that is a convex polygon.
func holds(path pdftest.Path, b pdftest.Box) bool {
	n := len(path.Points)
	if n < 3 || path.Curved || !path.Closed {
		return false
	}
	for _, at := range []pdftest.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		left, right := false, false
		for i, from := range path.Points {
			to := path.Points[(i+1)%n]
			turn := (to.X-from.X)*(at.Y-from.Y) - (to.Y-from.Y)*(at.X-from.X)
			left, right = left || turn > exact, right || turn < -exact
		}
		if left && right {
			return false
		}
	}
	return true
}

// cuts reports whether a line runs through a box made smaller by a margin
// (Liang and Barsky's clipping).
func cuts(l pdftest.Line, b pdftest.Box, margin float64) bool {
	from, to := 0.0, 1.0
	dx, dy := l.To.X-l.From.X, l.To.Y-l.From.Y
	for _, side := range [4][2]float64{
		{-dx, l.From.X - b.Min.X - margin}, {dx, b.Max.X - margin - l.From.X},
		{-dy, l.From.Y - b.Min.Y - margin}, {dy, b.Max.Y - margin - l.From.Y},
	} {
		switch d, q := side[0], side[1]; {
		case d == 0 && q <= 0:
			return false
		case d < 0:
			from = max(from, q/d)
		case d > 0:
			to = min(to, q/d)
		}
	}
	return from < to
}

// TestRowAddressesStandByTheirRows wants each row's address over, under or
// between its pieces, or with the balloons whose leader points at them.
func TestRowAddressesStandByTheirRows(t *testing.T) {
	const reach = 2.0 // mm from the hardware, up or down
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				d := p.dimensions(pg)
				g := ground{d.left(), d.floor(), pg.den, f.zone(pg.bays)}
				right := g.box(g.zone[0], g.zone[1], 0, f.Top).Max.X
				for _, text := range pg.Texts {
					if !rowAddress.MatchString(text.S) {
						continue
					}
					at := center(text.Ink)
					if at.X > right {
						if r := pg.pointed(g, f, int(math.Round(100*text.At.Y))); r == nil || r.Address != text.S {
							t.Errorf("sheet %d: the leader of %s points at another row", pg.number, text.S)
						}
						continue
					}
					band := g.band(f, text.S)
					if off := max(band.Min.Y-text.Ink.Max.Y, text.Ink.Min.Y-band.Max.Y); off > reach {
						t.Errorf("sheet %d: %s at %.1f stands away from its row at %.1f", pg.number, text.S, at, band)
					}
				}
			}
		}
	})
}

// band is the box round the hardware of a row in the bays shown.
func (g ground) band(f *face, address string) pdftest.Box {
	var all pdftest.Box
	for _, r := range f.Rows {
		if r.Address != address {
			continue
		}
		for _, piece := range r.all() {
			b := piece.Box
			if b.X0 >= g.zone[1] || b.X1 <= g.zone[0] {
				continue
			}
			on := g.box(b.X0, b.X1, b.Y0, b.Y1)
			if all == (pdftest.Box{}) {
				all = on
			}
			all.Min = pdftest.Point{X: min(all.Min.X, on.Min.X), Y: min(all.Min.Y, on.Min.Y)}
			all.Max = pdftest.Point{X: max(all.Max.X, on.Max.X), Y: max(all.Max.Y, on.Max.Y)}
		}
	}
	return all
}
