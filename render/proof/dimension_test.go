package proof

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"setwright/render/pdf/pdftest"
)

// A dimension as drawn (ISO 129-1). A tick is a short stroke at 45°, thicker
// than a hatch. A plain dimension is a level or upright line from tick to
// tick, its figure over its middle or behind its end. Running dimensions are
// a line with many ticks that begins at an origin circle, or at an arrow if
// the origin lies beyond the drawing; each figure stands under its tick, or,
// on an upright line, at the far end of the leader from its tick.

// tick is one end of a dimension, at the middle of its stroke.
type tick struct {
	at   pdftest.Point
	used bool
}

// dimension is one figure and the stretch of paper it is for.
type dimension struct {
	from, to pdftest.Point // on the dimension line
	text     *pdftest.Text
	figure   figure
	chain    *chain // of running dimensions, nil if plain
	slot     string // what the box beside a running height says
}

// length is what the dimension measures on paper.
func (d dimension) length() float64 { return math.Hypot(d.to.X-d.from.X, d.to.Y-d.from.Y) }

// chain is a line of running dimensions.
type chain struct {
	origin  pdftest.Point // of the running dimensions, or of the arrow
	beyond  bool          // the origin lies beyond the arrow
	upright bool
	dims    []dimension
}

// drawing is the dimensions of one page.
type drawing struct {
	page   *page
	words  string // that stand before the figure of an aisle
	ticks  []*tick
	plain  []dimension
	chains []*chain
	claims map[*pdftest.Text]int
	faults []string
}

func (d *drawing) fault(format string, args ...any) {
	d.faults = append(d.faults, fmt.Sprintf(format, args...))
}

const (
	exact   = 0.01 // mm: the same place on paper
	hatched = 0.2  // mm: hatches are thinner, ticks are not
)

// left is where on paper the part of a face that an elevation shows begins:
// at the left end of the dimensions of its bays.
func (d *drawing) left() float64 {
	left := math.Inf(1)
	for _, dim := range d.plain {
		left = min(left, dim.from.X, dim.to.X)
	}
	return left
}

// dimensions reads the dimensions of a page. What it cannot make sense of,
// a tick on no line, a tick or a line without a figure, is a fault.
func (p *plan) dimensions(pg *page) *drawing {
	if pg.drawing == nil {
		pg.drawing = p.readDimensions(pg)
	}
	return pg.drawing
}

func (p *plan) readDimensions(pg *page) *drawing {
	d := &drawing{page: pg, words: p.words.Aisle + " ", claims: map[*pdftest.Text]int{}}
	d.findTicks()
	d.findChains()
	d.findPlain()
	for _, t := range d.ticks {
		if !t.used {
			d.fault("a tick at %.1f, %.1f that is on no dimension line", t.at.X, t.at.Y)
		}
	}
	for text, n := range d.claims {
		if n > 1 {
			d.fault("%d dimensions claim the figure %q at %.1f, %.1f", n, text.S, text.At.X, text.At.Y)
		}
	}
	sort.Strings(d.faults)
	return d
}

func (d *drawing) findTicks() {
	for _, l := range d.page.Lines {
		dx, dy := l.To.X-l.From.X, l.To.Y-l.From.Y
		if l.Pen.Width < hatched || math.Abs(dx+dy) > exact || l.Length() > 4 || l.Length() < 1 {
			continue
		}
		at := pdftest.Point{X: (l.From.X + l.To.X) / 2, Y: (l.From.Y + l.To.Y) / 2}
		if d.tickAt(at) == nil {
			d.ticks = append(d.ticks, &tick{at: at})
		}
	}
}

func (d *drawing) tickAt(at pdftest.Point) *tick {
	for _, t := range d.ticks {
		if near(t.at.X, at.X, exact) && near(t.at.Y, at.Y, exact) {
			return t
		}
	}
	return nil
}

// origins lists the circles and arrows that running dimensions begin at: a
// circle of 0.7 mm filled with white, a small solid triangle by its tip.
func (d *drawing) origins() (list []chain) {
	for _, c := range d.page.Circles {
		if near(c.Radius, 0.7, exact) && c.Fill != nil && *c.Fill == (pdftest.Color{1, 1, 1}) {
			list = append(list, chain{origin: c.Center})
		}
	}
	for _, p := range d.page.Paths {
		if len(p.Points) == 3 && p.Closed && p.Fill != nil && *p.Fill == (pdftest.Color{}) && p.Pen == nil &&
			near(p.Points[1].X, p.Points[0].X+2, exact) && near(p.Points[1].X, p.Points[2].X, exact) {
			list = append(list, chain{origin: p.Points[0], beyond: true})
		}
	}
	return list
}

func (d *drawing) findChains() {
	for _, c := range d.origins() {
		line := d.axis(c.origin)
		if line == nil {
			d.fault("an origin at %.1f, %.1f without a line", c.origin.X, c.origin.Y)
			continue
		}
		c.upright = near(line.From.X, line.To.X, exact)
		d.chains = append(d.chains, d.follow(c, line))
	}
	slices.SortFunc(d.chains, func(a, b *chain) int {
		return cmp.Or(cmp.Compare(a.origin.Y, b.origin.Y), cmp.Compare(a.origin.X, b.origin.X))
	})
}

// axis is the line with the most ticks that begins at an origin.
func (d *drawing) axis(at pdftest.Point) *pdftest.Line {
	var best *pdftest.Line
	most := 0
	for i, l := range d.page.Lines {
		if !near(l.From.X, at.X, exact) || !near(l.From.Y, at.Y, exact) {
			continue
		}
		if n := len(d.on(l)); n > most {
			best, most = &d.page.Lines[i], n
		}
	}
	return best
}

// on lists the ticks on a level or upright line, its first point apart.
func (d *drawing) on(l pdftest.Line) []*tick {
	var list []*tick
	for _, t := range d.ticks {
		level := near(l.From.Y, l.To.Y, exact) && near(t.at.Y, l.From.Y, exact) &&
			t.at.X > min(l.From.X, l.To.X)-exact && t.at.X < max(l.From.X, l.To.X)+exact
		upright := near(l.From.X, l.To.X, exact) && near(t.at.X, l.From.X, exact) &&
			t.at.Y > min(l.From.Y, l.To.Y)-exact && t.at.Y < max(l.From.Y, l.To.Y)+exact
		if level || upright {
			list = append(list, t)
		}
	}
	return list
}

// follow reads the figures of running dimensions along a line.
func (d *drawing) follow(c chain, line *pdftest.Line) *chain {
	out := &c
	for _, t := range d.on(*line) {
		t.used = true
		dim := dimension{from: c.origin, to: t.at, chain: out}
		if c.upright {
			dim.text, dim.slot = d.byLeader(t)
		} else {
			dim.text = d.under(t)
		}
		d.keep(dim, &out.dims)
	}
	return out
}

// keep reads the figure of a dimension and adds it to a list.
func (d *drawing) keep(dim dimension, to *[]dimension) {
	if dim.text == nil {
		d.fault("a dimension from %.1f, %.1f to %.1f, %.1f without a figure", dim.from.X, dim.from.Y, dim.to.X, dim.to.Y)
		return
	}
	d.claims[dim.text]++
	dim.figure, _ = d.parse(dim.text.S)
	*to = append(*to, dim)
}

func (d *drawing) parse(s string) (figure, bool) {
	return parseFigure(strings.TrimPrefix(s, d.words))
}

// figures lists the figures of the page that stand level, or turned.
func (d *drawing) figures(turned bool) []*pdftest.Text {
	var list []*pdftest.Text
	for i, t := range d.page.Texts {
		if _, ok := d.parse(t.S); ok && (math.Abs(t.Angle) > 45) == turned {
			list = append(list, &d.page.Texts[i])
		}
	}
	return list
}

// under is the figure centred under a tick.
func (d *drawing) under(t *tick) *pdftest.Text {
	var best *pdftest.Text
	for _, text := range d.figures(false) {
		if near(text.Middle().X, t.at.X, 0.1) && text.At.Y > t.at.Y+2 && text.At.Y < t.at.Y+40 && (best == nil || text.At.Y < best.At.Y) {
			best = text
		}
	}
	return best
}

// byLeader is the figure at the far end of the leader that begins left of a
// tick, and the words beside it.
func (d *drawing) byLeader(t *tick) (*pdftest.Text, string) {
	for _, l := range d.page.Lines {
		if !near(l.From.Y, t.at.Y, exact) || l.From.X >= t.at.X || l.From.X < t.at.X-2 || l.To.X > l.From.X-1 {
			continue
		}
		for _, text := range d.figures(false) {
			if end := text.End(); near(end.X, l.To.X-0.6, 0.1) && near(end.Y-1.25, l.To.Y, 0.1) {
				return text, d.beside(text)
			}
		}
	}
	return nil, ""
}

// beside is the words left of a height, on its line.
func (d *drawing) beside(figure *pdftest.Text) string {
	var best *pdftest.Text
	for i, t := range d.page.Texts {
		mid := (t.Ink.Min.Y + t.Ink.Max.Y) / 2
		if mid > figure.Ink.Min.Y && mid < figure.Ink.Max.Y && t.End().X <= figure.At.X && (best == nil || t.End().X > best.End().X) {
			best = &d.page.Texts[i]
		}
	}
	if best == nil {
		return ""
	}
	return best.S
}

// findPlain reads the lines that run from tick to tick.
func (d *drawing) findPlain() {
	for _, l := range d.page.Lines {
		a, b := d.tickAt(l.From), d.tickAt(l.To)
		if a == nil || b == nil || a == b {
			continue
		}
		a.used, b.used = true, true
		dim := dimension{from: l.From, to: l.To}
		if near(l.From.X, l.To.X, exact) {
			dim.text = d.along(l)
		} else {
			dim.text = d.over(l)
		}
		d.keep(dim, &d.plain)
	}
}

// over is the figure over the middle of a level line, or past one of its ends.
func (d *drawing) over(l pdftest.Line) *pdftest.Text {
	left, right := min(l.From.X, l.To.X), max(l.From.X, l.To.X)
	return d.nearest(false, (left+right)/2, func(t *pdftest.Text) (middle float64, ok bool) {
		beside := t.At.X > right && t.At.X < right+2 || t.End().X < left && t.End().X > left-2
		return t.Middle().X, near(t.At.Y, l.From.Y-0.8, 0.1) && (beside || near(t.Middle().X, (left+right)/2, 0.1))
	})
}

// along is the turned figure left of the middle of an upright line, or past
// one of its ends.
func (d *drawing) along(l pdftest.Line) *pdftest.Text {
	top, bottom := min(l.From.Y, l.To.Y), max(l.From.Y, l.To.Y)
	return d.nearest(true, (top+bottom)/2, func(t *pdftest.Text) (middle float64, ok bool) {
		beside := t.At.Y < top && t.At.Y > top-2 || t.End().Y > bottom && t.End().Y < bottom+2
		return t.Middle().Y, near(t.At.X, l.From.X-0.8, 0.1) && (beside || near(t.Middle().Y, (top+bottom)/2, 0.1))
	})
}

// nearest is the figure that fits and whose middle is nearest to a place.
func (d *drawing) nearest(turned bool, place float64, fits func(*pdftest.Text) (middle float64, ok bool)) *pdftest.Text {
	var best *pdftest.Text
	least := math.Inf(1)
	for _, t := range d.figures(turned) {
		if middle, ok := fits(t); ok && math.Abs(middle-place) < least {
			best, least = t, math.Abs(middle-place)
		}
	}
	return best
}
