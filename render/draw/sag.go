package draw

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"setwright/layout/check"
	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// worstShelf is the shelf that sags most for its span; nil if none bends.
func worstShelf(a *check.Assessment) *check.ShelfCase {
	var worst *check.ShelfCase
	for i := range a.Shelves {
		c := &a.Shelves[i]
		if c.Span > 0 && len(c.Curve) > 1 && (worst == nil || c.Sag*worst.Span > worst.Sag*c.Span) {
			worst = c
		}
	}
	return worst
}

// sagView is the diagram of a shelf: lengths at a scale, sag drawn deeper.
type sagView struct {
	*Page
	c      *check.ShelfCase
	x0, y0 measure.Length // on paper, of the left end, straight
	den    int64
	deeper float64        // how many times the sag is drawn deeper than lengths
	under  measure.Length // how far the board hangs down on paper, at least sagDepth
}

const (
	sagLoads  = 14 * mm // over the board: what stands on it
	sagDepth  = 8 * mm  // the most a sag is drawn that is drawn deeper than it is
	sagMost   = 30 * mm // the most any is
	sagUnder  = 14 * mm // under it: supports, what they carry, spans
	sagHeight = sagLoads + sagDepth + sagUnder
)

// sagDiagram draws a shelf as a beam on its supports in an area, and returns
// the y under it.
func (p *Page) sagDiagram(c *check.ShelfCase, area sheet.Rect) measure.Length {
	j := p.job
	v := sagView{Page: p, c: c}
	length := mils(c.Curve[len(c.Curve)-1].X)
	for _, v.den = range j.scales() {
		if over(length, v.den) <= wide(area)-24*mm && over(mils(deepestSag(c)), v.den) <= sagMost {
			break
		}
	}
	v.deeper = deeper(deepestSag(c)/float64(v.den), float64(sagDepth)/float64(mm))
	v.under = max(sagDepth, mils(deepestSag(c)*v.deeper/float64(v.den)))
	v.x0 = (area.Min.X + area.Max.X - over(length, v.den)) / 2
	v.y0 = area.Min.Y + sagLoads
	v.loads()
	v.board()
	v.supports()
	v.depth()
	y := v.y0 + v.under + sagUnder
	scale := fmt.Sprintf(j.Words.SagScale, v.den, j.decimal(v.deeper, 0))
	if v.deeper == 1 {
		scale = fmt.Sprintf(j.Words.SagTrue, v.den)
	}
	p.write(area.Min.X, y+2*mm, scale, letter(plain).pale())
	return y + 5*mm
}

// deeper is the roundest factor (1, 2 or 5 times a power of ten) that makes a
// sag on paper as deep as it may be, all in millimetres.
func deeper(sag, most float64) float64 {
	if sag <= 0 {
		return 1
	}
	step := math.Pow(10, math.Floor(math.Log10(most/sag)))
	for _, n := range []float64{5, 2} {
		if n*step*sag <= most {
			return max(1, n*step)
		}
	}
	return max(1, step)
}

func deepestSag(c *check.ShelfCase) float64 {
	deepest := c.Sag
	for _, at := range c.Curve {
		deepest = max(deepest, math.Abs(at.Sag))
	}
	return deepest
}

func (v *sagView) x(at float64) measure.Length { return v.x0 + mils(at/float64(v.den)) }
func (v *sagView) y(sag float64) measure.Length {
	return v.y0 + mils(sag*v.deeper/float64(v.den))
}

const sagBoard = 1200 * micron // how thick the board is drawn

// board draws the board as it hangs and, dashed, its upper edge as it was laid.
func (v *sagView) board() {
	curve := v.c.Curve
	v.line(v.x(curve[0].X), v.y0, v.x(curve[len(curve)-1].X), v.y0, dashed(hair))
	var outline []sheet.Point
	for _, at := range curve {
		outline = append(outline, pt(v.x(at.X), v.y(at.Sag)))
	}
	for _, at := range slices.Backward(curve) {
		outline = append(outline, pt(v.x(at.X), v.y(at.Sag)+sagBoard))
	}
	edge, fill := pen(medium), grey(225)
	v.polygon(outline, &edge, &fill)
}

// sagAt is the sag drawn at a place along the board.
func (v *sagView) sagAt(x float64) float64 {
	curve := v.c.Curve
	for i := 1; i < len(curve); i++ {
		if a, b := curve[i-1], curve[i]; x <= b.X && b.X > a.X {
			return a.Sag + (b.Sag-a.Sag)*(x-a.X)/(b.X-a.X)
		}
	}
	return curve[len(curve)-1].Sag
}

// supports draws each support with the load it takes, and the spans between
// them.
func (v *sagView) supports() {
	j, c := v.job, v.c
	labels := make([]slotted, len(c.Supports))
	texts := make([]string, len(c.Supports))
	foot := v.y0 + v.under - sagDepth/2 + 4*mm
	for i, at := range c.Supports {
		x, top := v.x(at), v.y(v.sagAt(at))+sagBoard
		edge, fill := pen(thin), white()
		v.polygon([]sheet.Point{pt(x, top), pt(x+1500*micron, top+2600*micron), pt(x-1500*micron, top+2600*micron)}, &edge, &fill)
		v.line(x, top+2600*micron, x, foot+400*micron, pencil(hair, 120))
		if i < len(c.Reaction) {
			texts[i] = j.force(c.Reaction[i])
		}
		labels[i] = slotted{x, letter(plain).strong().width(texts[i]) + 2*mm}
	}
	base := foot + 3500*micron
	for i, x := range spread(labels, v.Field.Min.X, v.Field.Max.X) {
		v.write(x, base, texts[i], letter(plain).strong().middle())
	}
	line := base + 7*mm
	for i := 1; i < len(c.Supports); i++ {
		v.span(v.x(c.Supports[i-1]), v.x(c.Supports[i]), base+1*mm, line, j.distanceFigure(c.Supports[i]-c.Supports[i-1]))
	}
}

// distanceFigure is distance without its unit.
func (j *Job) distanceFigure(mm float64) string {
	text, _, _ := strings.Cut(j.distance(mm), "\u00a0")
	return text
}

// depth points at the deepest place and says how deep it is.
func (v *sagView) depth() {
	c := v.c
	x, top, low := v.x(c.SagX), v.y0, v.y(c.Sag)
	ink := black()
	v.line(x, top, x, low, pen(thin))
	v.polygon([]sheet.Point{pt(x, low), pt(x-500*micron, low-min(1400*micron, max(low-top, 300*micron))), pt(x+500*micron, low-min(1400*micron, max(low-top, 300*micron)))}, nil, &ink)
	text := v.job.bend(c.Sag)
	s := letter(plain).strong().middle()
	v.write(x, low+sagBoard+3500*micron, text, s)
}

// loads draws what stands on the board: each front as wide as it is, as high
// as it is heavy for its width, with its position's address where it fits.
func (v *sagView) loads() {
	most := 0.0
	stand := v.standing()
	for _, l := range stand {
		most = max(most, l.per)
	}
	for _, l := range stand {
		height := mils(l.per / most * float64(sagLoads-4*mm) / float64(mm))
		r := box(v.x(l.x0), v.y0-height-300*micron, v.x(l.x1), v.y0-300*micron)
		v.solidBox(r, pen(hair), grey(240))
		for _, s := range []style{letter(plain).middle(), letter(fine).middle(), letter(plain).middle().turned(), letter(fine).middle().turned()} {
			along, across := wide(r), high(r)
			x, y := (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2+s.height/2
			if s.up {
				along, across, x, y = across, along, x+s.height/2, (r.Min.Y+r.Max.Y)/2
			}
			if s.width(l.address)+1*mm <= along && s.rise()+s.drop() <= across {
				v.write(x, y, l.address, s)
				break
			}
		}
	}
}

// standing is the goods on one piece: from x0 to x1 of its length, in
// millimetres, kilograms for each millimetre.
type standing struct {
	x0, x1, per float64
	address     string
}

// standing gathers the fronts of each position that stand on the piece.
func (v *sagView) standing() []standing {
	var list []standing
	left := v.c.Piece.Box.X0
	at := func(l measure.Length) float64 { return float64(l-left) / float64(mm) }
	for _, pos := range v.c.Row.Positions {
		for _, f := range pos.Fronts {
			if f.Piece != v.c.Piece {
				continue
			}
			s := standing{x0: at(f.Box.X0), x1: at(f.Box.X1), address: pos.Address}
			s.per = float64(measure.Mass(f.Units)*pos.Product.Weight) / float64(measure.Kilogram) / max(s.x1-s.x0, 1)
			if n := len(list); n > 0 && list[n-1].address == s.address && s.x0-list[n-1].x1 < 60 {
				list[n-1].x1 = s.x1
				continue
			}
			list = append(list, s)
		}
	}
	return list
}

// sagSays is the diagram in words: what the shelf carries, how it sags, how
// it would sag otherwise, and what that rests on.
func (j *Job) sagSays(c *check.ShelfCase) string {
	w := j.Words
	text := fmt.Sprintf(w.SagSays, j.force(c.Load), j.bend(c.Sag), j.distance(c.SagX), j.ratio(c.Span, c.Sag), j.distance(c.Span))
	for _, o := range c.Others {
		if o.Supports != len(c.Supports) {
			text += " " + fmt.Sprintf(w.SagOthers, o.Supports, j.bend(o.Sag))
		}
	}
	return text
}

// shelfName is a row's address and its part, as sentences name them.
func (j *Job) shelfName(r *unit.Row) string { return r.Address + ", " + j.partName(r.Part, 0) }
