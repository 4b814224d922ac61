package draw

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// planView is the unit from above: the front at the bottom.
type planView struct {
	*Page
	view   view // model x to the right, y to the back
	beside bool // the aisle is drawn on the right too
}

func (v *planView) rect(s unit.Solid) sheet.Rect {
	return v.view.box(s.X0, s.X1, s.Y0, s.Y1)
}

// planMargin is what the plan view needs round the unit for dimensions and names.
const planMargin = 23 * mm

// planNeed is the paper a plan view takes at a scale. The aisle is drawn in
// front, and on the right if asked; dimensions and names lie in it if it is
// wide enough.
func (j *Job) planNeed(den int64, beside bool) need {
	e, aisle := j.Unit.Extent, over(j.Unit.Plan.Site.Aisle, den)
	room := max(planMargin, aisle+2*mm, nameDrop(aisle)+3*mm)
	if text := letter(plain).width(j.aisleText()); aisle > 0 && text+2*mm > aisle {
		room = max(room, aisle+text+3*mm)
	}
	n := need{width: e.X1 - e.X0, height: e.Y1 - e.Y0, sides: 2 * planMargin, above: planMargin, below: room}
	if beside {
		n.sides = planMargin + room
	}
	return n
}

// planScale is the largest scale at which the plan fits the area, and whether
// the aisle on the right fits too; the smallest scale if none does.
func (j *Job) planScale(area sheet.Rect) (den int64, beside bool) {
	for _, den = range j.scales() {
		for _, beside = range []bool{true, false} {
			if j.planNeed(den, beside).fits(area, den) {
				return den, beside
			}
		}
	}
	return den, false
}

// planView draws the plan at the largest scale that fits the area, and
// returns what is left under it.
func (p *Page) planView(area sheet.Rect) sheet.Rect {
	j := p.job
	v := &planView{Page: p}
	v.view.den, v.beside = j.planScale(area)
	n := j.planNeed(v.view.den, v.beside)
	p.scale = j.scaleName(v.view.den)
	ex := j.Unit.Extent
	left := area.Min.X + (wide(area)-n.sides-v.view.len(n.width))/2 + planMargin
	v.view.origin = pt(left-v.view.len(ex.X0), area.Min.Y+planMargin+v.view.len(ex.Y1))
	v.draw()
	area.Min.Y = v.view.y(ex.Y0) + n.below + 2*mm
	return area
}

func (v *planView) draw() {
	u := v.job.Unit
	v.aisle()
	for _, s := range u.Structure {
		if s.Part.Kind == parts.Frame {
			v.solidBox(v.rect(s.Solid), pen(solid), white())
		}
	}
	v.outlineBox(v.rect(u.Extent), phantom(thin))
	for _, s := range u.Structure {
		switch s.Part.Kind {
		case parts.Stand:
			v.foot(s)
		case parts.Panel:
			ink, edge := grey(90), pen(hair)
			v.polygon(corners(v.rect(s.Solid)), &edge, &ink)
		}
	}
	v.seams()
	v.names()
	v.footprint()
	v.feetChain()
}

// foot draws a caster with the circle it swivels in, hidden under the deck.
func (v *planView) foot(s unit.Structural) {
	r := v.rect(s.Solid)
	st := dashed(thin)
	radius := wide(r) / 2
	if s.Part.Stand.Radius > 0 {
		radius = v.view.len(s.Part.Stand.Radius)
	}
	x, y := (r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2
	v.circle(x, y, radius, &st, nil)
	v.line(x-1*mm, y, x+1*mm, y, pen(hair))
	v.line(x, y-1*mm, x, y+1*mm, pen(hair))
}

// seams marks where panels meet.
func (v *planView) seams() {
	for _, s := range v.job.Unit.Structure {
		if s.Part.Kind != parts.Panel || s.Bay < 2 {
			continue
		}
		r := v.rect(s.Solid)
		if wide(r) > high(r) {
			v.line(r.Min.X, r.Min.Y-1200*micron, r.Min.X, r.Max.Y+1200*micron, pen(medium))
		} else {
			v.line(r.Min.X-1200*micron, r.Max.Y, r.Max.X+1200*micron, r.Max.Y, pen(medium))
		}
	}
}

// nameDrop is how far outside the unit the name of a face is written where
// the aisle runs: clear of the aisle's line.
func nameDrop(aisle measure.Length) measure.Length {
	drop := 20500 * micron
	if aisle > drop-4*mm && aisle < drop+2*mm {
		return aisle + 4*mm
	}
	return drop
}

func (j *Job) aisleText() string {
	return fmt.Sprintf("%s %s", j.Words.Aisle, j.figure(j.Unit.Plan.Site.Aisle))
}

// aisle draws the lines that stay clear in front of the unit and beside it,
// and the wall behind a wall run.
func (v *planView) aisle() {
	u := v.job.Unit
	e, aisle := u.Extent, u.Plan.Site.Aisle
	left, back := v.view.x(e.X0), v.view.y(e.Y1)
	if u.Frame.Frame.Form == parts.WallForm {
		v.wall(left-12*mm, v.view.x(e.X1)+12*mm, v.view.y(u.Bare.Y1))
		back = v.view.y(u.Bare.Y1)
	}
	if aisle == 0 {
		return
	}
	right, front := v.view.x(e.X1+aisle), v.view.y(e.Y0-aisle)
	if !v.beside {
		v.line(left, front, v.view.x(e.X1), front, dashed(thin))
		v.upSpan(v.view.y(e.Y0), front, left-1*mm, left-5*mm, v.job.aisleText())
		return
	}
	v.polyline(dashed(thin), pt(left, front), pt(right, front), pt(right, back))
	text := v.job.aisleText()
	v.upSpan(v.view.y(e.Y0), front, left-1*mm, left-5*mm, text)
	name := letter(plain).strong().width(v.sideName())
	over := min(back-6*mm, v.view.y((e.Y0+e.Y1)/2)-name/2-2*mm)
	v.span(v.view.x(e.X1), right, back-1*mm, over, text)
}

// sideName is what is written up the right-hand side, "" if no face is there.
func (v *planView) sideName() string {
	for _, f := range v.job.Unit.Faces {
		if f.ID == plan.Right {
			return v.job.faceTag(f)
		}
	}
	return ""
}

// faceTag is a face's name with its letter.
func (j *Job) faceTag(f *unit.Face) string {
	return fmt.Sprintf("%s (%s)", j.faceName(f.ID), f.Letter)
}

// wall draws the face of the wall, hatched behind.
func (v *planView) wall(x0, x1, y measure.Length) {
	v.line(x0, y, x1, y, pen(heavy))
	for x := x0 + 2*mm; x < x1; x += 5 * mm {
		v.line(x, y, x+1500*micron, y-1500*micron, pen(hair))
	}
}

// names writes each face's name on its side, outside what reaches out there.
func (v *planView) names() {
	e := v.job.Unit.Extent
	drop := nameDrop(v.view.len(v.job.Unit.Plan.Site.Aisle))
	side := drop
	if !v.beside {
		side = nameDrop(0)
	}
	s := letter(plain).strong().middle()
	x, y := v.view.x((e.X0+e.X1)/2), v.view.y((e.Y0+e.Y1)/2)
	for _, f := range v.job.Unit.Faces {
		name := v.job.faceTag(f)
		switch f.ID {
		case plan.Front:
			from := v.view.x(e.X0)
			if v.job.Unit.Plan.Site.Aisle > 0 {
				from -= 3 * mm // clear of the aisle's figure, which may reach down there
			}
			v.write(max(x, from+s.width(name)/2), v.view.y(e.Y0)+drop, name, s)
		case plan.Back:
			v.write(x, v.view.y(e.Y1)-19*mm, name, s)
		case plan.Right:
			v.write(v.view.x(e.X1)+side, y, name, s.turned())
		case plan.Left:
			v.write(v.view.x(e.X0)-19*mm, y, name, s.turned())
		}
	}
}

// footprint dimensions frame and panels, and the room everything takes.
func (v *planView) footprint() {
	b, e := v.job.Unit.Bare, v.job.Unit.Extent
	fig := v.job.figure
	bottom, right := v.view.y(e.Y0), v.view.x(e.X1)
	v.span(v.view.x(b.X0), v.view.x(b.X1), bottom+1*mm, bottom+7*mm, fig(b.X1-b.X0))
	v.upSpan(v.view.y(b.Y1), v.view.y(b.Y0), right+1*mm, right+7*mm, fig(b.Y1-b.Y0))
	if e != b {
		v.span(v.view.x(e.X0), v.view.x(e.X1), bottom+1*mm, bottom+14*mm, fig(e.X1-e.X0))
		v.upSpan(v.view.y(e.Y1), v.view.y(e.Y0), right+1*mm, right+14*mm, fig(e.Y1-e.Y0))
	}
}

// feetChain dimensions the feet from the deck's left and front edges.
func (v *planView) feetChain() {
	u := v.job.Unit
	var deck unit.Solid
	var xs, ys []measure.Length
	for _, s := range u.Structure {
		switch s.Part.Kind {
		case parts.Frame:
			deck = s.Solid
		case parts.Stand:
			xs = append(xs, (s.Solid.X0+s.Solid.X1)/2)
			ys = append(ys, (s.Solid.Y0+s.Solid.Y1)/2)
		}
	}
	xs, ys = sorted(append(xs, deck.X0, deck.X1)), sorted(append(ys, deck.Y0, deck.Y1))
	top, left := v.view.y(u.Extent.Y1), v.view.x(u.Extent.X0)
	s := letter(plain)
	if n := len(xs); n > 3 {
		middle, line := v.between(xs), top-9*mm
		if s.width(middle)+2*mm > v.view.len(xs[n-2]-xs[1]) {
			line -= 4500 * micron
		}
		v.span(v.view.x(xs[1]), v.view.x(xs[0]), top-1*mm, top-9*mm, v.job.figure(xs[1]-xs[0]))
		v.span(v.view.x(xs[1]), v.view.x(xs[n-2]), top-1*mm, line, middle)
		v.span(v.view.x(xs[n-2]), v.view.x(xs[n-1]), top-1*mm, top-9*mm, v.job.figure(xs[n-1]-xs[n-2]))
	}
	if n := len(ys); n > 3 {
		middle, line := v.between(ys), left-9*mm
		if s.width(middle)+2*mm > v.view.len(ys[n-2]-ys[1]) {
			line -= 4500 * micron
		}
		v.upSpan(v.view.y(ys[1]), v.view.y(ys[0]), left-1*mm, left-9*mm, v.job.figure(ys[1]-ys[0]))
		v.upSpan(v.view.y(ys[1]), v.view.y(ys[n-2]), left-1*mm, line, middle)
		v.upSpan(v.view.y(ys[n-2]), v.view.y(ys[n-1]), left-1*mm, left-9*mm, v.job.figure(ys[n-1]-ys[n-2]))
	}
}

// between is the distance from the first foot to the last, told as so many
// equal ones if there are feet between them.
func (v *planView) between(xs []measure.Length) string {
	n := measure.Length(len(xs) - 3)
	all := xs[len(xs)-2] - xs[1]
	if n < 2 {
		return v.job.figure(all)
	}
	return fmt.Sprintf("%d × %s", n, v.job.figure(all/n))
}
