package draw

import (
	"slices"
	"strconv"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// elevation is one face, or some bays of it, seen square on.
type elevation struct {
	*Page
	clutter
	face *unit.Face
	zone zone
	view view
}

// x is the place on paper of a distance from the face's left edge.
func (e *elevation) x(l measure.Length) measure.Length { return e.view.x(l - e.zone.x0) }
func (e *elevation) y(h measure.Length) measure.Length { return e.view.y(h) }

// paper is a box of the face on paper, cut off at the zone's edges.
func (e *elevation) paper(b unit.Box) sheet.Rect {
	return box(e.x(e.zone.clamp(b.X0)), e.y(b.Y0), e.x(e.zone.clamp(b.X1)), e.y(b.Y1))
}

// carcass draws what stands before anything is hung: floor, feet, deck, panels.
func (e *elevation) carcass() {
	e.floor(e.x(e.zone.x0)-8*mm, e.x(e.zone.x1)+8*mm)
	e.standing()
}

// standing draws what stands on the floor.
func (e *elevation) standing() {
	for _, s := range e.job.Unit.Structure {
		b := e.face.Box(s.Solid)
		if s.Part.Kind == parts.Panel || !e.zone.shows(b) {
			continue
		}
		if s.Part.Kind == parts.Stand {
			e.foot(b)
		} else {
			e.solidBox(e.paper(b), pen(solid), white())
		}
	}
	edges := e.face.BayEdges()
	for bay := e.zone.from; bay <= e.zone.to; bay++ {
		e.panel(edges[bay-1], edges[bay])
	}
}

// floor draws the finished floor, hatched under, and names it.
func (e *elevation) floor(x0, x1 measure.Length) {
	y := e.y(0)
	e.line(x0, y, x1, y, pen(heavy))
	for x := x0 + 2*mm; x < x1; x += 5 * mm {
		e.line(x, y, x-1500*micron, y+1500*micron, pen(hair))
	}
}

// foot draws a caster as a wheel, any other foot as a block.
func (e *elevation) foot(b unit.Box) {
	r := e.paper(b)
	if e.job.Unit.Stand.Stand.Form != "casters" {
		e.solidBox(r, pen(medium), white())
		return
	}
	st, fill := pen(solid), white()
	mid := (r.Min.X + r.Max.X) / 2
	radius := high(r) * 45 / 100
	e.solidBox(box(mid-radius*4/5, r.Min.Y, mid+radius*4/5, r.Min.Y+high(r)/3), pen(thin), white())
	e.circle(mid, r.Max.Y-radius, radius, &st, &fill)
	e.circle(mid, r.Max.Y-radius, radius/4, &st, &fill)
}

// panel draws one panel with its wires, grooves, holes or uprights.
func (e *elevation) panel(x0, x1 measure.Length) {
	r := box(e.x(x0), e.y(e.face.Bottom), e.x(x1), e.y(e.face.Top))
	e.fillBox(r, white())
	switch spec := e.face.Panel.Panel; spec.Surface {
	case parts.Wire:
		e.wires(spec, x0, r)
	case parts.Slatwall:
		e.grooves(spec, r)
	case parts.Pegboard:
		e.holes(spec, x0, r)
	case parts.Standards:
		e.uprights(spec, x0)
	}
	e.outlineBox(r, pen(solid))
}

// wires draws a grid; every fifth horizontal wire is darker, to count by.
func (e *elevation) wires(spec *parts.PanelSpec, x0 measure.Length, r sheet.Rect) {
	for n := 1; n <= spec.Count; n++ {
		e.line(r.Min.X, e.slotY(n), r.Max.X, e.slotY(n), fifth(n))
	}
	if spec.AcrossPitch <= 0 {
		return
	}
	for x := spec.AcrossFirst; x <= e.face.Panel.Width; x += spec.AcrossPitch {
		e.line(e.x(x0+x), r.Min.Y, e.x(x0+x), r.Max.Y, pencil(hair, 195))
	}
}

func (e *elevation) slotY(n int) measure.Length { return e.y(e.face.SlotHeight(n)) }

// fifth is the pen for slot n.
func fifth(n int) sheet.Stroke {
	if n%5 == 0 {
		return pencil(thin, 140)
	}
	return pencil(hair, 195)
}

// grooves draws slatwall: each groove as two lines as far apart as its mouth,
// 3/8 in as is common.
func (e *elevation) grooves(spec *parts.PanelSpec, r sheet.Rect) {
	half := max(e.view.len(measure.Inch*3/16), 150*micron)
	for n := 1; n <= spec.Count; n++ {
		y := e.slotY(n)
		e.line(r.Min.X, y-half, r.Max.X, y-half, fifth(n))
		e.line(r.Min.X, y+half, r.Max.X, y+half, fifth(n))
	}
}

// holes draws pegboard: each row of holes as one dotted line.
func (e *elevation) holes(spec *parts.PanelSpec, x0 measure.Length, r sheet.Rect) {
	if spec.AcrossPitch <= 0 {
		return
	}
	dot := 300 * micron
	for n := 1; n <= spec.Count; n++ {
		st := fifth(n)
		st.Width, st.Dash = dot, []measure.Length{dot, e.view.len(spec.AcrossPitch) - dot}
		e.line(e.x(x0+spec.AcrossFirst)-dot/2, e.slotY(n), r.Max.X, e.slotY(n), st)
	}
}

// uprights draws slotted standards, 1 1/4 in wide as is common.
func (e *elevation) uprights(spec *parts.PanelSpec, x0 measure.Length) {
	half := measure.Inch * 5 / 8
	for _, x := range spec.Uprights {
		r := e.view.box(x0+x-half-e.zone.x0, x0+x+half-e.zone.x0, e.face.Bottom, e.face.Top)
		e.solidBox(r, pencil(thin, 120), white())
		for n := 1; n <= spec.Count; n++ {
			e.line(r.Min.X+wide(r)/3, e.slotY(n), r.Max.X-wide(r)/3, e.slotY(n), fifth(n))
		}
	}
}

// slotNumbers counts the slots beside the panel, every fifth, but for those
// too close to a tick of the column of heights.
func (e *elevation) slotNumbers(x measure.Length, marks []mark) {
	const clear = plain/2 + 1500*micron
	for n := 5; n <= e.face.Panel.Panel.Count; n += 5 {
		y := e.slotY(n)
		if !slices.ContainsFunc(marks, func(m mark) bool { return max(e.y(m.height)-y, y-e.y(m.height)) < clear }) {
			e.keepWord(e.writeMid(x, y, strconv.Itoa(n), letter(plain).pale().end()))
		}
	}
}
