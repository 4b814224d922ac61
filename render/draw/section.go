package draw

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// profile is a section: a face seen from its left-hand side, the panel cut: how far
// everything reaches out.
type profile struct {
	*Page
	face *unit.Face
	view view // model x is the distance out of the panel's surface
}

// behind is how much of what lies behind the panel's surface a section shows.
const behind = measure.Inch

func (s *profile) x(d measure.Length) measure.Length { return s.view.x(max(d, -behind)) }
func (s *profile) y(h measure.Length) measure.Length { return s.view.y(h) }

func (s *profile) paper(d0, d1, y0, y1 measure.Length) sheet.Rect {
	return box(s.x(d0), s.y(y0), s.x(d1), s.y(y1))
}

// draw draws the whole section: what is behind first.
func (s *profile) draw(rows []*unit.Row) {
	s.write(s.x(0), s.y(tallest(s.face))-4*mm, s.job.Words.Section, letter(plain).strong())
	depths := s.depths(rows)
	s.extensions(rows, depths)
	s.base()
	for _, r := range rows {
		s.goods(r)
	}
	for _, r := range rows {
		s.row(r)
	}
	s.cut()
	s.depthChain(depths)
}

// base draws floor, deck and feet.
func (s *profile) base() {
	y, out := s.y(0), s.x(deepest(s.face))+1*mm
	s.line(s.x(-behind)-2*mm, y, out, y, pen(heavy))
	for x := s.x(-behind); x < out; x += 5 * mm {
		s.line(x, y, x-1500*micron, y+1500*micron, pen(hair))
	}
	for _, st := range s.job.Unit.Structure {
		b := s.face.Box(st.Solid)
		if st.Part.Kind == parts.Panel || b.D1 <= -behind {
			continue
		}
		r := s.paper(b.D0, b.D1, b.Y0, b.Y1)
		if st.Part.Kind == parts.Stand && b.D0 >= -behind && s.job.Unit.Stand.Stand.Form == "casters" {
			edge, fill := pen(solid), white()
			radius := high(r) * 45 / 100
			s.circle((r.Min.X+r.Max.X)/2, r.Max.Y-radius, radius, &edge, &fill)
			continue
		}
		s.solidBox(r, pen(solid), white())
	}
}

// cut draws the panel, filled since it is cut.
func (s *profile) cut() {
	thick := max(s.view.len(s.face.Panel.Panel.Thick), 500*micron)
	ink := grey(60)
	r := box(s.x(0)-thick, s.y(s.face.Bottom), s.x(0), s.y(s.face.Top))
	s.polygon(corners(r), nil, &ink)
}

// goods draws, faintly, the room a row's goods take.
func (s *profile) goods(r *unit.Row) {
	var all unit.Box
	for i, p := range r.Positions {
		for k, f := range p.Fronts {
			if i == 0 && k == 0 {
				all = f.Box
			}
			all.D0, all.D1 = min(all.D0, f.Box.D0), max(all.D1, f.Box.D1)
			all.Y0, all.Y1 = min(all.Y0, f.Box.Y0), max(all.Y1, f.Box.Y1)
		}
	}
	if all == (unit.Box{}) {
		return
	}
	reach := deepest(s.face)
	rect := s.paper(all.D0, min(all.D1, reach), all.Y0, all.Y1)
	s.fillBox(rect, grey(243))
	edge := []sheet.Point{pt(rect.Max.X, rect.Min.Y), rect.Min, pt(rect.Min.X, rect.Max.Y), rect.Max}
	if all.D1 <= reach {
		edge = append(edge, edge[0])
	}
	s.polyline(pencil(hair, 190), edge...)
}

// row draws one piece of each kind a row has: its pieces reach out alike.
func (s *profile) row(r *unit.Row) {
	for _, list := range [][]*unit.Piece{r.Brackets, r.Pieces, r.Extras} {
		seen := map[*parts.Part]bool{}
		for _, p := range list {
			if !seen[p.Part] {
				seen[p.Part] = true
				s.piece(p)
			}
		}
	}
}

// piece draws a part from the side.
func (s *profile) piece(p *unit.Piece) {
	slot := s.face.SlotHeight(p.Slot)
	bearing := slot + p.Part.Bearing
	b := p.Box
	switch p.Part.Kind {
	case parts.Hook, parts.FaceOut:
		s.arm(p, bearing)
	case parts.Bracket:
		white, edge := white(), pen(thin)
		s.polygon([]sheet.Point{pt(s.x(0), s.y(b.Y1)), pt(s.x(b.D1), s.y(b.Y1)), pt(s.x(b.D1), s.y(b.Y1)+500*micron), pt(s.x(0), s.y(b.Y0))}, &edge, &white)
	case parts.Shelf:
		s.shelf(b, bearing)
	case parts.Slope:
		s.slope(p, bearing)
	case parts.Rail, parts.Bar:
		s.rail(p, bearing)
	case parts.Basket:
		s.polyline(pen(solid), pt(s.x(b.D0), s.y(b.Y1)), pt(s.x(b.D0), s.y(b.Y0)), pt(s.x(b.D1), s.y(b.Y0)), pt(s.x(b.D1), s.y(b.Y1)))
	case parts.Shoe:
		s.polyline(pen(solid), pt(s.x(0), s.y(b.Y0)), pt(s.x(0), s.y(bearing)), pt(s.x(b.D1), s.y(bearing)))
		s.line(s.x(0), s.y(b.Y0), s.x(b.D1*2/3), s.y(bearing), pen(thin))
	default:
		s.solidBox(s.paper(b.D0, b.D1, b.Y0, b.Y1), pen(thin), white())
	}
}

// arm draws a hook or face-out: plate, arm, tip turned up. A stepped one
// falls to the front.
func (s *profile) arm(p *unit.Piece, bearing measure.Length) {
	b := p.Box
	ink := black()
	s.polygon(corners(box(s.x(0), s.y(b.Y0), s.x(0)+600*micron, s.y(b.Y1))), nil, &ink)
	end := s.y(bearing)
	if p.Part.Steps > 1 {
		end = s.y(b.Y0)
	}
	tip := max(s.view.len(p.Part.Lip), 1*mm)
	s.polyline(pen(heavy), pt(s.x(0), s.y(bearing)), pt(s.x(b.D1)-tip/2, end), pt(s.x(b.D1), end-tip))
}

// shelf draws the board, and the lip under its front edge if it has one.
func (s *profile) shelf(b unit.Box, bearing measure.Length) {
	under := max(b.Y0, bearing-measure.Inch*3/4)
	s.solidBox(s.paper(b.D0, b.D1, under, bearing), pen(solid), white())
	if b.Y0 < under {
		s.solidBox(s.paper(b.D1-measure.Inch*3/4, b.D1, b.Y0, under), pen(solid), white())
	}
	if b.Y1 > bearing {
		s.line(s.x(b.D1), s.y(bearing), s.x(b.D1), s.y(b.Y1), pen(solid))
	}
}

// slope draws a sloped shelf: down to the front, a stop at its edge.
func (s *profile) slope(p *unit.Piece, bearing measure.Length) {
	b := p.Box
	front := bearing + p.Part.Lip
	s.polyline(pen(heavy), pt(s.x(0), s.y(bearing)), pt(s.x(b.D1), s.y(front)), pt(s.x(b.D1), s.y(front+measure.Inch)))
	s.line(s.x(0), s.y(b.Y0), s.x(b.D1*2/3), s.y(bearing+p.Part.Lip*2/3), pen(thin))
}

// rail draws an arm and the bar at its end.
func (s *profile) rail(p *unit.Piece, bearing measure.Length) {
	b := p.Box
	edge, fill := pen(solid), white()
	r := max(s.view.len(measure.Inch/2), 600*micron)
	s.line(s.x(0), s.y(bearing), s.x(b.D1)-r, s.y(bearing), pen(heavy))
	s.line(s.x(0), s.y(b.Y0), s.x(b.D1/2), s.y(bearing), pen(thin))
	s.circle(s.x(b.D1)-r, s.y(bearing), r, &edge, &fill)
}

// depths lists how far the parts of the rows reach out, and the deck.
func (s *profile) depths(rows []*unit.Row) []measure.Length {
	var ds []measure.Length
	for _, r := range rows {
		for _, p := range r.All() {
			ds = append(ds, p.Box.D1)
		}
	}
	if s.face.DeckDepth > 0 {
		ds = append(ds, s.face.DeckDepth)
	}
	return sorted(ds)
}

// extensions draws pale lines from the floor up to the lowest part of each
// depth, so that the eye can follow a figure to what it measures.
func (s *profile) extensions(rows []*unit.Row, depths []measure.Length) {
	for _, d := range depths {
		low := s.face.Top
		for _, r := range rows {
			for _, p := range r.All() {
				if p.Box.D1 == d {
					low = min(low, p.Box.Y0)
				}
			}
		}
		if s.face.DeckDepth == d {
			low = 0
		}
		s.line(s.x(d), s.y(0)+2*mm, s.x(d), s.y(low), pencil(hair, 170))
	}
}

// depthChain draws the running depths under the section.
func (s *profile) depthChain(depths []measure.Length) {
	if len(depths) == 0 {
		return
	}
	y := s.y(0) + sectionDrop
	labels, level := s.job.depthLabels(depths, s.view)
	s.line(s.x(0), y, s.x(depths[len(depths)-1]), y, pen(hair))
	s.line(s.x(0), s.y(0)+2*mm, s.x(0), y, pencil(hair, 120))
	s.origin(s.x(0), y)
	base := func(i int) measure.Length {
		return y + chainDrop + 500*micron + plain + depthPitch*measure.Length(level[i])
	}
	for i, d := range depths {
		at := s.x(d)
		s.slash(at, y)
		s.line(at, s.y(0)+2*mm, at, max(y, base(i)-plain-500*micron), pencil(hair, 120))
	}
	for i, d := range depths {
		base := base(i)
		s.fillBox(inset(letter(plain).middle().extent(labels[i].want, base, s.job.figure(d)), -100*micron), white())
		s.write(labels[i].want, base, s.job.figure(d), letter(plain).middle())
	}
}

const (
	sectionDrop = 6 * mm // from the floor to the line of depths
	depthPitch  = 3600 * micron
)

// depthLabels staggers the figures of the depths on as many levels as it takes.
func (j *Job) depthLabels(depths []measure.Length, v view) ([]slotted, []int) {
	labels := make([]slotted, len(depths))
	for i, d := range depths {
		labels[i] = slotted{v.x(d), letter(plain).width(j.figure(d))}
	}
	level, _ := stagger(labels, len(labels), 800*micron)
	return labels, level
}
