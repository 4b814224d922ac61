package draw

import (
	"cmp"
	"slices"
	"strconv"

	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// slash ends a dimension: a short thick stroke at 45° (ISO 129-1).
func (p *Page) slash(x, y measure.Length) {
	const half = 1100 * micron
	p.line(x-half, y+half, x+half, y-half, pen(solid))
}

// origin marks where running dimensions start (ISO 129-1).
func (p *Page) origin(x, y measure.Length) {
	st, fill := pen(medium), white()
	p.circle(x, y, 700*micron, &st, &fill)
}

// span draws a plain dimension between two places on a level line, with
// extension lines from where they are measured. The figure stands over the
// line, or past its right end where it is wider than the distance; past its
// left end if x0 and x1 are given the other way round.
func (p *Page) span(x0, x1, from, y measure.Length, text string) sheet.Rect {
	for _, x := range []measure.Length{x0, x1} {
		p.line(x, from, x, y+1*mm, pencil(hair, 120))
		p.slash(x, y)
	}
	p.line(x0, y, x1, y, pen(hair))
	s := letter(plain)
	if w := s.width(text); w+2*mm > max(x1-x0, x0-x1) {
		if x1 < x0 {
			p.line(x1-2*mm-w, y, x1, y, pen(hair))
			return p.write(x1-1500*micron, y-800*micron, text, s.end())
		}
		p.line(x1, y, x1+2*mm+w, y, pen(hair))
		return p.write(x1+1500*micron, y-800*micron, text, s)
	}
	return p.write((x0+x1)/2, y-800*micron, text, s.middle())
}

// upSpan is span turned to read from the right: a plain dimension up the
// sheet, a figure too wide for it past the end y1.
func (p *Page) upSpan(y0, y1, from, x measure.Length, text string) {
	for _, y := range []measure.Length{y0, y1} {
		p.line(from, y, x+1*mm, y, pencil(hair, 120))
		p.slash(x, y)
	}
	p.line(x, y0, x, y1, pen(hair))
	s := letter(plain).turned()
	switch w := s.width(text); {
	case w+2*mm <= max(y1-y0, y0-y1):
		p.write(x-800*micron, (y0+y1)/2, text, s.middle())
	case y1 < y0:
		p.line(x, y1, x, y1-2*mm-w, pen(hair))
		p.write(x-800*micron, y1-1500*micron, text, s)
	default:
		p.line(x, y1, x, y1+2*mm+w, pen(hair))
		p.write(x-800*micron, y1+1500*micron, text, s.end())
	}
}

// bayChain dimensions the bays under the elevation, and all of them together.
func (e *elevation) bayChain(y measure.Length) {
	edges := e.face.BayEdges()
	j := e.job
	from := e.y(0) + 2*mm
	for bay := e.zone.from; bay <= e.zone.to; bay++ {
		e.span(e.x(edges[bay-1]), e.x(edges[bay]), from, y, j.figure(edges[bay]-edges[bay-1]))
	}
	if e.zone.from < e.zone.to {
		e.span(e.x(e.zone.x0), e.x(e.zone.x1), y+1*mm, y+6500*micron, j.figure(e.zone.width()))
	}
}

// mark is one running height: a slot that carries something, or an edge of
// the panel that is named in words.
type mark struct {
	height measure.Length
	slot   int    // 0 if it is not one
	name   string // of what is not a slot
}

// heights lists what the column of heights gives, from the top down.
func (e *elevation) heights(rows []*unit.Row) []mark {
	var marks []mark
	seen := map[measure.Length]bool{}
	add := func(m mark) {
		if !seen[m.height] {
			seen[m.height] = true
			marks = append(marks, m)
		}
	}
	for _, r := range rows {
		add(mark{height: r.Height, slot: r.Slot})
	}
	add(mark{height: e.face.Top, name: e.job.Words.TopEdge})
	add(mark{height: e.face.Bottom, name: e.job.Words.BottomEdge})
	slices.SortFunc(marks, func(a, b mark) int { return cmp.Compare(b.height, a.height) })
	return marks
}

const (
	heightPitch = 4400 * micron // from one label of the column to the next
	heightLeast = 3600 * micron // where there are many
	leadSpace   = 4 * mm        // between figure and axis, for a label's leader
	gutter      = 5 * mm        // between axis and panel, at least
)

// heightColumn is how wide the column of heights is, axis and gutter included.
func (j *Job) heightColumn(f *unit.Face, marks []mark) measure.Length {
	boxes, figures := j.heightWidths(f, marks)
	return boxes + 1500*micron + figures + leadSpace + gutterOf(f)
}

// gutterOf is the room between axis and panel: that of the widest slot number.
func gutterOf(f *unit.Face) measure.Length {
	return max(gutter, letter(plain).width(strconv.Itoa(f.Panel.Panel.Count/5*5))+1200*micron)
}

func (j *Job) heightWidths(f *unit.Face, marks []mark) (boxes, figures measure.Length) {
	for _, m := range marks {
		figures = max(figures, letter(plain).strong().width(j.figure(m.height)))
		if m.slot > 0 {
			boxes = max(boxes, letter(plain).width(j.slotName(f, m.slot))+1600*micron)
		} else {
			boxes = max(boxes, letter(plain).width(m.name))
		}
	}
	return boxes, figures
}

// drawHeights draws the running heights from the finished floor, each with
// the slot it is, on an axis left of the panel. Labels of heights too close
// together are moved apart, and lead to their ticks.
func (e *elevation) drawHeights(marks []mark) {
	axis := e.x(e.zone.x0) - gutterOf(e.face)
	floor := e.y(0)
	boxes, figures := e.job.heightWidths(e.face, marks)
	right := axis - leadSpace
	e.line(axis, floor, axis, e.y(marks[0].height)-2*mm, pen(hair))
	e.origin(axis, floor)
	room := floor - 1*mm - e.Field.Min.Y
	pitch := max(heightLeast, min(heightPitch, room/measure.Length(len(marks))))
	labels := make([]slotted, len(marks))
	for i, m := range marks {
		labels[i] = slotted{e.y(m.height), pitch}
	}
	middles := spread(labels, e.Field.Min.Y, floor-1*mm)
	for i, m := range marks {
		y := e.y(m.height)
		e.slash(axis, y)
		e.line(axis+1500*micron, y, e.x(e.zone.x0)-300*micron, y, pencil(hair, 140))
		e.line(axis-1200*micron, y, right+600*micron, middles[i], pencil(hair, 90))
		e.keepWord(e.writeMid(right, middles[i], e.job.figure(m.height), letter(plain).strong().end()))
		e.heightName(m, box(right-figures-1500*micron-boxes, middles[i]-pitch/2+200*micron, right-figures-1500*micron, middles[i]+pitch/2-200*micron))
	}
	e.write(e.x(e.zone.x0)-1500*micron, floor+5*mm, e.job.Words.FinishedFloor, letter(plain).end())
}

func (e *elevation) heightName(m mark, r sheet.Rect) {
	y := (r.Min.Y + r.Max.Y) / 2
	if m.slot == 0 {
		e.keepWord(e.writeMid(r.Max.X, y, m.name, letter(plain).pale().end()))
		return
	}
	e.outlineBox(r, pen(thin))
	e.keepWord(r)
	e.writeMid((r.Min.X+r.Max.X)/2, y, e.job.slotName(e.face, m.slot), letter(plain).middle())
}

// places lists where the crew measures to along the face for a row: the
// middle of each hook and of every other piece with one grip, the grips of
// what has two, the brackets of a shelf. They come sorted, each once.
func places(r *unit.Row) []measure.Length {
	var xs []measure.Length
	for _, p := range r.Pieces {
		switch {
		case p.Part.Needs != nil:
			continue
		case len(p.Grips) > 1:
			for _, g := range p.Grips {
				xs = append(xs, (g.X0+g.X1)/2)
			}
		default:
			xs = append(xs, p.X)
		}
	}
	for _, b := range r.Brackets {
		xs = append(xs, b.X)
	}
	return sorted(xs)
}

// sorted sorts lengths in place and drops repeats.
func sorted(xs []measure.Length) []measure.Length {
	slices.Sort(xs)
	return slices.Compact(xs)
}
