package draw

import (
	"fmt"
	"math"
	"slices"

	"setwright/layout/check"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/render/sheet"
)

// tipEdge is one edge of the footprint: what the unit tips over.
type tipEdge struct {
	fromX, fromY, toX, toY float64
	name                   string // a letter, and which way it lies: a, front
}

// tipEdges lists the edges of the tipping cases, each once, lettered in their
// order. Which way an edge lies is told by its normal out of the footprint.
func (j *Job) tipEdges(a *check.Assessment) []tipEdge {
	var list []tipEdge
	for _, c := range a.Tips {
		if j.edgeOf(list, c) < 0 {
			list = append(list, tipEdge{fromX: c.FromX, fromY: c.FromY, toX: c.ToX, toY: c.ToY})
		}
	}
	cx, cy := 0.0, 0.0
	for _, e := range list {
		cx, cy = cx+(e.fromX+e.toX)/2/float64(len(list)), cy+(e.fromY+e.toY)/2/float64(len(list))
	}
	for i := range list {
		e := &list[i]
		x, y := (e.fromX+e.toX)/2-cx, (e.fromY+e.toY)/2-cy
		dx, dy := e.toX-e.fromX, e.toY-e.fromY
		nx, ny := dy, -dx
		if nx*x+ny*y < 0 {
			nx, ny = -nx, -ny
		}
		e.name = string(rune('a'+i%26)) + ", " + j.sideOf(nx, ny)
	}
	return list
}

// sideOf is the side of the unit a direction points to most.
func (j *Job) sideOf(x, y float64) string {
	switch {
	case math.Abs(y) >= math.Abs(x) && y < 0:
		return j.Words.SideFront
	case math.Abs(y) >= math.Abs(x):
		return j.Words.SideBack
	case x > 0:
		return j.Words.SideRight
	}
	return j.Words.SideLeft
}

func (j *Job) edgeOf(list []tipEdge, c check.TipCase) int {
	return slices.IndexFunc(list, func(e tipEdge) bool {
		return e.fromX == c.FromX && e.fromY == c.FromY && e.toX == c.ToX && e.toY == c.ToY
	})
}

// standView is the unit from above on its feet: where it weighs, where it
// tips. Coordinates are the assessment's, in millimetres.
type standView struct {
	*Page
	clutter
	view view
	a    *check.Assessment
}

const (
	standSides = 17 * mm // for the loads of feet beside the unit
	standEnds  = 11 * mm // before and behind it
	standKey   = 17 * mm // what the symbols mean
)

// standDiagram draws the view in an area and returns the y under it.
func (p *Page) standDiagram(a *check.Assessment, area sheet.Rect) measure.Length {
	j := p.job
	b := j.Unit.Bare
	n := need{width: b.X1 - b.X0, height: b.Y1 - b.Y0, sides: 2 * standSides, above: standEnds, below: standEnds + standKey}
	v := standView{Page: p, a: a}
	for _, v.view.den = range j.scales() {
		if n.fits(area, v.view.den) {
			break
		}
	}
	v.view.origin = pt((area.Min.X+area.Max.X)/2-v.view.len(b.X0+b.X1)/2, area.Min.Y+standEnds+v.view.len(b.Y1))
	v.structure()
	edges := v.edges()
	v.centre(a.Bare, false)
	v.centre(a.Full, true)
	v.feet()
	v.names(edges)
	y := v.view.y(b.Y0) + standEnds + 2*mm
	return v.key(area.Min.X, y, wide(area)-6*mm)
}

func (v *standView) at(x, y float64) sheet.Point { return pt(v.view.x(mils(x)), v.view.y(mils(y))) }

// structure draws deck and panels, pale, and every foot.
func (v *standView) structure() {
	u := v.job.Unit
	for _, kind := range []parts.Kind{parts.Frame, parts.Panel} {
		for _, s := range u.Structure {
			if s.Part.Kind == kind {
				r := v.view.box(s.Solid.X0, s.Solid.X1, s.Solid.Y0, s.Solid.Y1)
				v.solidBox(r, pencil(hair, 150), grey(245))
			}
		}
	}
	for _, f := range v.a.Feet {
		at := v.at(f.X, f.Y)
		st, fill := pen(thin), white()
		v.circle(at.X, at.Y, 1500*micron, &st, &fill)
		v.line(at.X-900*micron, at.Y, at.X+900*micron, at.Y, pen(hair))
		v.line(at.X, at.Y-900*micron, at.X, at.Y+900*micron, pen(hair))
		v.keepWord(box(at.X-1500*micron, at.Y-1500*micron, at.X+1500*micron, at.Y+1500*micron))
	}
}

// edges draws the edges it tips over, long and short dashes.
func (v *standView) edges() []tipEdge {
	list := v.job.tipEdges(v.a)
	for _, e := range list {
		a, b := v.at(e.fromX, e.fromY), v.at(e.toX, e.toY)
		v.line(a.X, a.Y, b.X, b.Y, phantom(medium))
	}
	return list
}

// centre marks a centre of gravity: a disc in four quarters, two of them
// black; bare, a circle with a cross.
func (p *Page) centre(x, y measure.Length, full bool) {
	const r = 2 * mm
	edge, fill, ink := pen(thin), white(), black()
	p.circle(x, y, r, &edge, &fill)
	if !full {
		p.line(x-r, y, x+r, y, pen(thin))
		p.line(x, y-r, x, y+r, pen(thin))
		return
	}
	for _, turn := range []float64{0, math.Pi} {
		quarter := []sheet.Point{pt(x, y)}
		for i := range 7 {
			a := turn + float64(i)*math.Pi/12
			quarter = append(quarter, pt(x+mils(math.Cos(a)*2), y-mils(math.Sin(a)*2)))
		}
		p.polygon(quarter, nil, &ink)
	}
}

func (v *standView) centre(b check.Body, full bool) {
	at := v.at(b.X, b.Y)
	v.Page.centre(at.X, at.Y, full)
	v.keepWord(box(at.X-2*mm, at.Y-2*mm, at.X+2*mm, at.Y+2*mm))
}

// feet writes the number of each foot and its load, outside the unit: before
// those in front, behind those behind, beside those in the middle.
func (v *standView) feet() {
	b := v.job.Unit.Bare
	mid := float64(b.Y0+b.Y1) / 2 / float64(mm)
	s := letter(plain).strong().middle()
	for _, front := range []bool{true, false} {
		var labels []slotted
		var texts []string
		var feet []sheet.Point
		for i, f := range v.a.Feet {
			if (f.Y < mid) != front {
				continue
			}
			text := fmt.Sprintf("%d: %s", i+1, v.job.force(f.Load))
			texts, feet = append(texts, text), append(feet, v.at(f.X, f.Y))
			labels = append(labels, slotted{v.at(f.X, f.Y).X, s.width(text) + 3*mm})
		}
		order := make([]int, len(labels))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return int(labels[a].want-labels[b].want) / int(micron) })
		ordered := make([]slotted, len(labels))
		for i, k := range order {
			ordered[i] = labels[k]
		}
		y, from := v.view.y(b.Y0)+5500*micron, 3500*micron
		if !front {
			y, from = v.view.y(b.Y1)-3*mm, -1*mm
		}
		for i, x := range spread(ordered, v.Field.Min.X, v.Field.Max.X) {
			k := order[i]
			v.keepWord(v.write(x, y, texts[k], s))
			v.line(feet[k].X, feet[k].Y+sign(front)*1500*micron, x, y-from+sign(front)*300*micron, pencil(hair, 90))
		}
	}
}

func sign(down bool) measure.Length {
	if down {
		return 1
	}
	return -1
}

// names letters the edges, inside the footprint, where nothing else stands.
func (v *standView) names(edges []tipEdge) {
	cx, cy := 0.0, 0.0
	for _, e := range edges {
		cx, cy = cx+(e.fromX+e.toX)/2/float64(len(edges)), cy+(e.fromY+e.toY)/2/float64(len(edges))
	}
	middle := v.at(cx, cy)
	s := letter(plain).middle()
	for _, e := range edges {
		a, b := v.at(e.fromX, e.fromY), v.at(e.toX, e.toY)
		for _, share := range []measure.Length{50, 40, 60, 30, 70, 20, 80} {
			x, y := a.X+(b.X-a.X)*share/100, a.Y+(b.Y-a.Y)*share/100
			x, y = x+clampTo(middle.X-x, 2600*micron), y+clampTo(middle.Y-y, 2600*micron)
			if abs(b.Y-a.Y) < abs(b.X-a.X) {
				x = a.X + (b.X-a.X)*share/100
			} else {
				y = a.Y + (b.Y-a.Y)*share/100
			}
			r := inset(s.extent(x, y+s.height/2, e.name[:1]), -300*micron)
			if v.clearOfWords(r) {
				v.fillBox(r, white())
				v.writeMid(x, y, e.name[:1], s)
				v.keepWord(r)
				break
			}
		}
	}
}

func clampTo(l, most measure.Length) measure.Length { return max(-most, min(l, most)) }
func abs(l measure.Length) measure.Length           { return max(l, -l) }

// key says what the symbols mean, and at what scale they stand.
func (v *standView) key(x, y, width measure.Length) measure.Length {
	j, w := v.job, v.job.Words
	s := letter(plain)
	for _, c := range []struct {
		body check.Body
		full bool
		text string
	}{{v.a.Full, true, w.CentreFull}, {v.a.Bare, false, w.CentreBare}} {
		v.Page.centre(x+2*mm, y, c.full)
		for i, line := range wrap(fmt.Sprintf(c.text, j.kilos(c.body.Mass), j.distance(c.body.Z)), s, width) {
			if i > 0 {
				y += s.pitch()
			}
			v.writeMid(x+6*mm, y, line, s)
		}
		y += 5 * mm
	}
	if len(v.a.Tips) == 0 {
		v.writeMid(x, y, fmt.Sprintf("%s 1:%d", w.Scale, v.view.den), s)
		return y + 4*mm
	}
	v.line(x, y, x+9*mm, y, phantom(medium))
	v.writeMid(x+11*mm, y, fmt.Sprintf(w.EdgesKey, v.view.den), s)
	return y + 4*mm
}
