package draw

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

// view puts a model on paper: x and height from an origin, one to den.
type view struct {
	origin sheet.Point // where model 0, 0 lies
	den    int64
}

func (v view) len(l measure.Length) measure.Length { return over(l, v.den) }
func (v view) x(l measure.Length) measure.Length   { return v.origin.X + over(l, v.den) }
func (v view) y(h measure.Length) measure.Length   { return v.origin.Y - over(h, v.den) }

// box is a rectangle of the model, given by left, right, bottom and top.
func (v view) box(x0, x1, y0, y1 measure.Length) sheet.Rect {
	return box(v.x(x0), v.y(y0), v.x(x1), v.y(y1))
}

// over divides, rounding half away from zero.
func over(l measure.Length, den int64) measure.Length {
	d := measure.Length(den)
	if l < 0 {
		return (l - d/2) / d
	}
	return (l + d/2) / d
}

// scales lists the scales at hand, largest first: those of the inch trades, or
// ISO 5455's.
func (j *Job) scales() []int64 {
	if j.system == measure.Millimetres {
		return []int64{5, 10, 20, 50, 100, 200}
	}
	return []int64{4, 8, 12, 16, 24, 32, 48, 96, 192}
}

// legible is the smallest scale an elevation is drawn at before it is split
// over more sheets, and the smallest its parts are drawn at then.
func (j *Job) legible() (whole, split int64) {
	if j.system == measure.Millimetres {
		return 20, 20
	}
	return 16, 24
}

// legibleIn reports whether a face drawn on n sheets at that scale is.
func (j *Job) legibleIn(n int, den int64) bool {
	whole, split := j.legible()
	if n == 1 {
		return den <= whole
	}
	return den <= split
}

// scaleName is a scale as printed: 1:12 (1 in = 1 ft), or 1:10.
func (j *Job) scaleName(den int64) string {
	name := fmt.Sprintf("1:%d", den)
	if j.system == measure.Millimetres {
		return name
	}
	return fmt.Sprintf("%s (%s = 1\u00a0%s)", name, j.length(measure.Foot/measure.Length(den)), j.Words.Foot)
}

// need is the paper a drawing takes: what grows with the scale, and margins
// that do not.
type need struct {
	width, height       measure.Length // of the model
	sides, above, below measure.Length // of paper
}

func (n need) fits(r sheet.Rect, den int64) bool {
	return over(n.width, den)+n.sides <= wide(r) && over(n.height, den)+n.above+n.below <= high(r)
}

// choose finds the paper's way up and the largest scale at which the drawing
// fits; where both ways give the same, the sheet stands upright. If nothing
// fits it returns the smallest scale.
func (j *Job) choose(n need) (paper, int64) {
	up := j.paper()
	across := up.turned()
	list := j.scales()
	for _, den := range list {
		if n.fits(j.field(up), den) {
			return up, den
		}
		if n.fits(j.field(across), den) {
			return across, den
		}
	}
	return across, list[len(list)-1]
}
