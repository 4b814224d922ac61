package draw

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// plot is an elevation with its section, laid out but not drawn.
type plot struct {
	face   *unit.Face
	zone   zone
	rows   []*unit.Row
	marks  []mark
	aside  map[*unit.Row]bool
	atLeft bool           // the table of the face stands beside it
	tail   measure.Length // right of the section, for its last figure
	drop   measure.Length // how far it hangs under the top of the field

	paper        paper
	den          int64
	left, right  measure.Length // margins on paper round the panels
	above, below measure.Length
	calls        []callout
}

// plots lays out the elevations of a face: on one sheet if that is legible,
// else on the fewest sheets that are.
func (j *Job) plots(f *unit.Face) []*plot {
	var list []*plot
	for n := 1; n <= f.Bays; n++ {
		list = list[:0]
		smallest := int64(0)
		for _, z := range zones(f, n) {
			p := j.plot(f, z)
			list = append(list, p)
			smallest = max(smallest, p.den)
		}
		if j.legibleIn(n, smallest) {
			break
		}
	}
	return list
}

const (
	topSpace   = 7 * mm // over the panels: the section's name, addresses
	sectionGap = 3 * mm
	sectionMin = 16 * mm // the word over it
)

// plot chooses paper and scale for one zone of a face. The rows whose
// addresses find no room on the drawing are known only once it is drawn, so
// the layout is tried again with those in the column of callouts.
func (j *Job) plot(f *unit.Face, z zone) *plot {
	p := &plot{face: f, zone: z, rows: z.rows(f), aside: map[*unit.Row]bool{}}
	for range 2 {
		j.size(p)
		trial := p.lay(&Page{Sheet: &sheet.Sheet{}, job: j, Field: j.field(p.paper)}, j.field(p.paper))
		for _, r := range p.rows {
			trial.hide(r)
		}
		trial.hideCarcass()
		placed := trial.rowAddresses(p.rows)
		if len(p.rows)-len(placed) <= len(p.aside) {
			break
		}
		for _, r := range p.rows {
			if _, ok := placed[r]; !ok {
				p.aside[r] = true
			}
		}
	}
	return p
}

// size works out margins, paper and scale.
func (j *Job) size(p *plot) {
	e := &elevation{Page: &Page{job: j}, face: p.face, zone: p.zone}
	p.marks = e.heights(p.rows)
	p.left = j.heightColumn(p.face, p.marks)
	p.calls = e.callouts(p.rows, p.aside)
	p.right = calloutColumn(p.calls)
	s := profile{Page: e.Page, face: p.face}
	depths := s.depths(p.rows)
	p.tail = 1 * mm
	if len(depths) > 0 {
		half := letter(plain).width(j.figure(depths[len(depths)-1])) / 2
		p.tail = max(p.tail, half-fieldMargin+500*micron)
	}
	n := need{
		width:  p.zone.width() + behind + deepest(p.face),
		height: tallest(p.face),
		sides:  p.left + p.right + sectionGap + p.tail,
	}
	for _, den := range j.scales() {
		p.above = max(topSpace, heightLeast*measure.Length(len(p.marks))+1*mm-over(n.height, den))
		n.above = p.above
		_, level := j.depthLabels(depths, view{den: den})
		deepestLevel := 0
		for _, l := range level {
			deepestLevel = max(deepestLevel, l)
		}
		n.below = max(17*mm, sectionDrop+3*mm+depthPitch*measure.Length(deepestLevel+1))
		p.below = n.below
		p.paper, p.den = j.choose(n)
		if p.den <= den {
			return
		}
	}
}

// lay places the elevation in an area: at its top, in its middle sideways.
func (p *plot) lay(pg *Page, area sheet.Rect) *elevation {
	v := view{den: p.den}
	spare := max(0, wide(area)-p.width())
	if p.atLeft {
		spare = 0
	}
	v.origin = pt(area.Min.X+min(spare/2, 40*mm)+p.left, area.Min.Y+p.drop+p.above+v.len(tallest(p.face)))
	return &elevation{Page: pg, face: p.face, zone: p.zone, view: v}
}

// hide keeps lettering off a row's pieces.
func (e *elevation) hide(r *unit.Row) {
	for _, p := range r.All() {
		if e.zone.shows(p.Box) {
			e.keepBox(e.paper(p.Box))
		}
	}
}

// hideCarcass keeps lettering off deck, feet and the panels' upper and lower edges.
func (e *elevation) hideCarcass() {
	x0, x1 := e.x(e.zone.x0), e.x(e.zone.x1)
	e.keepBox(box(x0, e.y(e.face.Bottom)+300*micron, x1, e.y(0)))
	for _, y := range []measure.Length{e.y(e.face.Top), e.y(e.face.Bottom)} {
		e.keepLine(pt(x0, y), pt(x1, y))
	}
}

// draw draws the plot on a new sheet of the section, and adds to bare the
// rows of findings whose flags find no room.
func (p *plot) draw(s *section, list []placed, bare map[int][]string) {
	j := s.job
	pg := s.page(p.paper)
	pg.scale = j.scaleName(p.den)
	e := p.lay(pg, pg.Field)
	e.carcass()
	e.hardware(dark())
	for _, r := range p.rows {
		e.hide(r)
	}
	e.hideCarcass()
	e.drawHeights(p.marks)
	e.slotNumbers(e.x(p.zone.x0)-1*mm, p.marks)
	e.bayChain(e.y(0) + 10*mm)
	right := e.x(p.zone.x1) + p.right
	pr := &profile{Page: pg, face: p.face, view: view{pt(right+sectionGap+e.view.len(behind), e.view.origin.Y), p.den}}
	pr.draw(p.rows)
	addresses := e.rowAddresses(p.rows)
	room := e.y(0) - pg.Field.Min.Y + 3*mm
	e.drawCallouts(thinned(p.calls, room), e.x(p.zone.x1))
	e.writeAddresses(p.rows, addresses)
	e.chains(p.rows)
	e.flagRows(p.rows, list, bare)
	if len(p.rows) == 0 {
		e.bare()
	}
	e.zoneKey()
}

// bare says that nothing hangs here.
func (e *elevation) bare() {
	text := e.job.Words.StaysBare
	s := letter(large).middle()
	x, y := (e.x(e.zone.x0)+e.x(e.zone.x1))/2, (e.y(e.face.Top)+e.y(e.face.Bottom))/2
	lines := wrap(text, s, wide(box(e.x(e.zone.x0), 0, e.x(e.zone.x1), 0))-4*mm)
	for i, l := range lines {
		at := y + s.pitch()*measure.Length(i)
		e.fillBox(inset(s.extent(x, at, l), -1*mm), white())
		e.write(x, at, l, s)
	}
}

// zoneKey shows which bays of the face a sheet shows, if not all.
func (e *elevation) zoneKey() {
	if e.zone.whole {
		return
	}
	text := fmt.Sprintf(e.job.Words.BaysOf, e.zone.from, e.zone.to, e.face.Bays)
	if e.zone.from == e.zone.to {
		text = fmt.Sprintf(e.job.Words.BayOf, e.zone.from, e.face.Bays)
	}
	size := min(5*mm, 60*mm/measure.Length(e.face.Bays))
	x := e.Field.Max.X - size*measure.Length(e.face.Bays)
	y := e.Field.Min.Y - headingHeight + 1*mm
	for bay := 1; bay <= e.face.Bays; bay++ {
		r := box(x+size*measure.Length(bay-1), y, x+size*measure.Length(bay), y+5*mm)
		e.outlineBox(r, pen(thin))
		if bay >= e.zone.from && bay <= e.zone.to {
			e.fillBox(inset(r, size/8), grey(150))
		}
	}
	e.write(x-2*mm, y+3700*micron, text, letter(plain).end())
}

// tableArea finds where on the plot's sheet the table of the face goes: under
// the drawing, or beside it, moved to the left, if only there all of it fits.
func (p *plot) tableArea(j *Job, t table) sheet.Rect {
	field := j.field(p.paper)
	v := view{den: p.den}
	under, beside := field, field
	under.Min.Y += p.above + v.len(tallest(p.face)) + p.below + 3*mm
	beside.Min.X += p.width() + 6*mm
	p.drop = min(30*mm, max(0, high(under)-t.heightIn(wide(under))*3/2-headSpace)/3)
	under.Min.Y += p.drop
	t.fit(0, 0)
	if t.heightIn(wide(under))+headSpace <= high(under) || wide(beside) < 62*mm || t.heightIn(wide(beside))+headSpace > high(beside) {
		return under
	}
	p.atLeft, p.drop = true, 0
	return beside
}

// width is the width of the whole plot on paper.
func (p *plot) width() measure.Length {
	v := view{den: p.den}
	return p.left + v.len(p.zone.width()) + p.right + sectionGap + max(v.len(behind+deepest(p.face)), sectionMin) + p.tail
}
