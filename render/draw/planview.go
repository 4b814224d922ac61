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
	view view // model x to the right, y to the back
}

func (v *planView) rect(s unit.Solid) sheet.Rect {
	return v.view.box(s.X0, s.X1, s.Y0, s.Y1)
}

// planMargin is what the plan view needs round the unit for dimensions and names.
const planMargin = 23 * mm

// planNeed is the paper a plan view takes.
func (j *Job) planNeed() need {
	e, aisle := j.Unit.Extent, j.Unit.Plan.Site.Aisle
	return need{width: e.X1 - e.X0 + 2*aisle, height: e.Y1 - e.Y0 + 2*aisle, sides: 2 * planMargin, above: planMargin, below: planMargin}
}

// planView draws the plan at the largest scale that fits the area, and
// returns what is left under it.
func (p *Page) planView(area sheet.Rect) sheet.Rect {
	j := p.job
	n := j.planNeed()
	den := j.scales()[0]
	for _, den = range j.scales() {
		if n.fits(area, den) {
			break
		}
	}
	p.scale = j.scaleName(den)
	ex, aisle := j.Unit.Extent, j.Unit.Plan.Site.Aisle
	v := &planView{Page: p, view: view{den: den}}
	middle := (area.Min.X + area.Max.X) / 2
	v.view.origin = pt(middle-v.view.len((ex.X0+ex.X1)/2), area.Min.Y+planMargin+v.view.len(aisle+ex.Y1))
	v.draw()
	area.Min.Y = v.view.y(ex.Y0-aisle) + planMargin
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

// aisle draws the line that must stay clear round the unit.
func (v *planView) aisle() {
	aisle := v.job.Unit.Plan.Site.Aisle
	if aisle == 0 {
		return
	}
	e := v.job.Unit.Extent
	r := v.rect(unit.Solid{X0: e.X0 - aisle, X1: e.X1 + aisle, Y0: e.Y0 - aisle, Y1: e.Y1 + aisle})
	if v.job.Unit.Frame.Frame.Form == parts.WallForm {
		back := v.view.y(v.job.Unit.Bare.Y1)
		v.line(r.Min.X, back, r.Max.X, back, pen(heavy))
		for x := r.Min.X + 3*mm; x < r.Max.X; x += 5 * mm {
			v.line(x, back, x+1500*micron, back-1500*micron, pen(hair))
		}
		v.polyline(dashed(thin), pt(r.Min.X, back), pt(r.Min.X, r.Max.Y), r.Max, pt(r.Max.X, back))
	} else {
		v.outlineBox(r, dashed(thin))
	}
	text := fmt.Sprintf("%s %s", v.job.Words.Aisle, v.job.figure(aisle))
	x := v.view.x(e.X0) + 2*mm
	y0, y1 := v.view.y(e.Y0), r.Max.Y
	v.line(x, y0, x, y1, pen(hair))
	v.slash(x, y0)
	v.slash(x, y1)
	at := (y0 + y1 + planMargin) / 2
	s := letter(plain)
	v.fillBox(inset(s.extent(x+1500*micron, at, text), -300*micron), white())
	v.write(x+1500*micron, at, text, s)
}

// names writes each face's name on its side, outside what reaches out there.
func (v *planView) names() {
	e := v.job.Unit.Extent
	s := letter(plain).strong().middle()
	x, y := v.view.x((e.X0+e.X1)/2), v.view.y((e.Y0+e.Y1)/2)
	for _, f := range v.job.Unit.Faces {
		name := fmt.Sprintf("%s (%s)", v.job.faceName(f.ID), f.Letter)
		switch f.ID {
		case plan.Front:
			v.write(x, v.view.y(e.Y0)+20500*micron, name, s)
		case plan.Back:
			v.write(x, v.view.y(e.Y1)-19*mm, name, s)
		case plan.Right:
			v.write(v.view.x(e.X1)+20500*micron, y, name, s.turned())
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
	v.upSpan(v.view.y(b.Y0), v.view.y(b.Y1), right+1*mm, right+7*mm, fig(b.Y1-b.Y0))
	if e != b {
		v.span(v.view.x(e.X0), v.view.x(e.X1), bottom+1*mm, bottom+14*mm, fig(e.X1-e.X0))
		v.upSpan(v.view.y(e.Y0), v.view.y(e.Y1), right+1*mm, right+14*mm, fig(e.Y1-e.Y0))
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
	for i := 1; i < len(xs) && len(xs) > 2; i++ {
		v.span(v.view.x(xs[i-1]), v.view.x(xs[i]), top-1*mm, top-9*mm, v.job.figure(xs[i]-xs[i-1]))
	}
	for i := 1; i < len(ys) && len(ys) > 2; i++ {
		v.upSpan(v.view.y(ys[i-1]), v.view.y(ys[i]), left-1*mm, left-9*mm, v.job.figure(ys[i]-ys[i-1]))
	}
}
