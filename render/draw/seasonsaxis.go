package draw

import (
	"fmt"
	"sort"
	"strconv"

	"setwright/layout/archive"
	"setwright/layout/measure"
	"setwright/layout/seasons"
	"setwright/render/sheet"
)

// span is the time that the axis shows: whole months, from the first of what is
// drawn to a while after the last, whose end nobody knows.
func (s *strip) span() {
	first, last := seasons.Never, -seasons.Never
	for _, l := range s.lanes {
		first = min(first, l.entries[0].From)
		last = max(last, l.entries[len(l.entries)-1].From)
	}
	if s.drawn == 0 {
		return
	}
	year, month := first.Month()
	s.from = seasons.MonthStart(year, month)
	year, month = (last + max(30, (last-s.from)/6)).Month()
	s.to = seasons.MonthStart(year, month+1)
}

// at is the place of a day's beginning.
func (s *strip) at(p *Page, d seasons.Day) measure.Length {
	return p.Field.Min.X + wide(p.Field)*measure.Length(min(d, s.to)-s.from)/measure.Length(s.to-s.from)
}

// draw draws axis and lanes, and says what is left out.
func (s *strip) draw(p *Page) {
	y := p.Field.Min.Y
	s.axis(p, y)
	y += axisRoom
	for i := range s.lanes {
		l := &s.lanes[i]
		if i > 0 {
			p.line(p.Field.Min.X, y-laneGap/2, p.Field.Max.X, y-laneGap/2, pencil(hair, 120))
		}
		s.drawLane(p, l, y)
		y += l.height() + laneGap
	}
	p.write(p.Field.Min.X, p.Field.Max.Y-1*mm, s.left(), letter(plain))
}

// axis draws months as ticks with their names, so many apart that there is room.
func (s *strip) axis(p *Page, y measure.Length) {
	const room = 15 * mm // from one name to the next
	line := y + 5500*micron
	p.line(p.Field.Min.X, line, p.Field.Max.X, line, pen(solid))
	months := int(s.to-s.from) / 28
	step := 1
	for _, step = range []int{1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400, 6000, 12000} {
		if wide(p.Field)/measure.Length(months/step+1) >= room {
			break
		}
	}
	year, month := s.from.Month()
	for n := 0; ; n += step {
		day := seasons.MonthStart(year, month+n)
		if day >= s.to {
			break
		}
		x := s.at(p, day)
		p.line(x, line-1500*micron, x, line, pen(medium))
		tickYear, tickMonth := day.Month()
		name := fmt.Sprintf("%04d-%02d", tickYear, tickMonth)
		if x+500*micron+letter(plain).width(name) <= p.Field.Max.X {
			p.write(x+500*micron, line-2200*micron, name, letter(plain))
		}
	}
}

// drawLane draws one unit: its name, the bars of its packs, and a column for each.
func (s *strip) drawLane(p *Page, l *lane, y measure.Length) {
	name := p.write(p.Field.Min.X, y+letter(large).rise(), fit(l.unit.Label, letter(large).strong(), wide(p.Field)), letter(large).strong())
	rest := p.Field.Max.X - name.Max.X - 4*mm
	if made := s.madeOf(l.unit.Bare); letter(plain).width(made) <= rest {
		p.write(name.Max.X+4*mm, y+letter(large).rise(), made, letter(plain).pale())
	}
	y += laneHead
	lefts := s.lefts(p, l)
	for i := range l.entries {
		e := &l.entries[i]
		s.bar(p, e, l.first+i, y)
		x := s.at(p, e.From)
		p.line(x, y+laneBar, lefts[i], y+laneBar+leaderRoom, pen(thin))
		s.column(p, l, i, lefts[i], y+laneBar+leaderRoom)
	}
}

// madeOf is a bare unit in figures: its size, and what it stands on unless that
// is its name.
func (s *strip) madeOf(b archive.Bare) string {
	size := fmt.Sprintf("%s × %s × %s %s", s.figure(b.Width), s.figure(b.Depth), s.figure(b.Height), s.unitName())
	if b.Name == "" {
		return size
	}
	return b.Frame + ", " + b.Stand + ", " + size
}

// fit is a text on one line, cut short if it must be.
func fit(text string, st style, width measure.Length) string { return wrapTo(text, st, width, 1)[0] }

// lefts are the left edges of a lane's columns: each as near behind its date as
// its neighbours and the edge of the sheet allow.
func (s *strip) lefts(p *Page, l *lane) []measure.Length {
	lefts := make([]measure.Length, len(l.entries))
	next := p.Field.Min.X
	for i := range lefts {
		lefts[i] = max(next, s.at(p, l.entries[i].From))
		next = lefts[i] + l.column + columnGap
	}
	edge := p.Field.Max.X
	for i := len(lefts) - 1; i >= 0; i-- {
		lefts[i] = min(lefts[i], edge-l.column)
		edge = lefts[i] - columnGap
	}
	return lefts
}

// bar draws the time that a pack was up, with its number if there is room. One
// that nothing ends is open to the right.
func (s *strip) bar(p *Page, e *seasons.Entry, number int, y measure.Length) {
	open := e.To == seasons.Never
	r := box(s.at(p, e.From), y, s.at(p, e.To+1), y+laneBar)
	shade := white()
	if number%2 == 1 {
		shade = grey(225)
	}
	p.fillBox(r, shade)
	edge := []sheet.Point{pt(r.Max.X, r.Min.Y), r.Min, pt(r.Min.X, r.Max.Y), r.Max}
	if !open {
		edge = append(edge, edge[0])
	}
	p.polyline(pen(medium), edge...)
	if text, st := strconv.Itoa(number), letter(plain).strong(); st.width(text)+1*mm <= wide(r) {
		p.writeMid((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2, text, st.middle())
	}
}

// column draws one pack from the left edge x and from y down: number and dates,
// season and title, its faces, its figures.
func (s *strip) column(p *Page, l *lane, i int, x, y measure.Length) {
	e, st := &l.entries[i], letter(fine)
	number := p.write(x, y+letter(plain).rise(), strconv.Itoa(l.first+i), letter(plain).strong())
	p.write(number.Max.X+2*mm, y+letter(plain).rise(), period(e), st)
	y += letter(plain).pitch()
	lines := []string{fit(joinWords(e.Season, e.Revision), st, l.column)}
	lines = append(lines, wrapTo(e.Title, st, l.column, titleLines)...)
	for n, line := range lines {
		p.write(x, y+st.rise()+st.pitch()*measure.Length(n), line, st)
	}
	y += st.pitch() * (1 + titleLines)
	for n, row := range s.rows(e) {
		y += smallName + l.rows[n]
		left := x
		for _, f := range row {
			s.face(p, f, left, y)
			left += s.small(f.Width) + faceGap
		}
		y += smallFloor
	}
	for n := len(s.rows(e)); n < len(l.rows); n++ {
		y += smallName + l.rows[n] + smallFloor
	}
	for n, line := range s.figures(e) {
		p.write(x, y+1*mm+st.rise()+st.pitch()*measure.Length(n), line, st)
	}
}

// joinWords joins what is there with a comma.
func joinWords(a, b string) string {
	if a != "" && b != "" {
		return a + ", " + b
	}
	return a + b
}

// face draws a face on the floor at x, y, its name over it, or the letter of its
// addresses where that has no room.
func (s *strip) face(p *Page, f *archive.Face, x, floor measure.Length) {
	width := s.small(f.Width)
	name, st := s.faceName(f.FaceID()), letter(fine)
	if st.width(name) > width+faceGap-500*micron {
		name = f.FaceID().Letter()
	}
	p.write(x, floor-s.small(top(f))-1*mm, name, st)
	p.line(x, floor, x+width, floor, pen(solid))
	at := func(b archive.Box) sheet.Rect {
		within := func(n int) measure.Length { return x + s.small(max(0, min(n, f.Width))) }
		return box(within(b[0]), floor-s.small(b[1]), within(b[2]), floor-s.small(b[3]))
	}
	for _, b := range f.Standing {
		p.solidBox(at(b), pen(thin), white())
	}
	for _, b := range f.Panels {
		p.solidBox(at(b), pen(thin), white())
	}
	for _, b := range f.Hardware {
		p.outlineBox(at(b), pencil(hair, 120))
	}
	for _, g := range f.Goods {
		family := s.family(g.Family)
		for _, b := range g.Fronts {
			p.fillBox(at(b), tintOf(family))
			p.hatch(at(b), patternOf(family))
			p.outlineBox(at(b), pen(hair))
		}
	}
}

// family is the place of a family among all that are drawn.
func (s *strip) family(name string) int { return sort.SearchStrings(s.families, name) }
