package draw

import (
	"cmp"
	"fmt"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// HardwareChange draws what changes in a face's hardware: the old as ghosts, the
// new in full, marks with their steps. A face without such a change has no sheet.
func (j *ResetJob) HardwareChange(id plan.FaceID) []*Page {
	old, face := j.old.Unit.Face(id), j.Unit.Face(id)
	if face == nil {
		return nil // there is nothing left to draw it on; the step list has what goes
	}
	if old != nil && !alikeFaces(old, face) {
		old = nil
	}
	runs := append(j.runs(face, after), j.runs(old, before)...)
	if !slices.ContainsFunc(runs, func(r *run) bool { return r.mark != reset.Keep }) {
		return nil
	}
	title := fmt.Sprintf(j.Words.ChangeOf, j.faceName(id))
	for n := 1; ; n++ {
		s := &section{job: j.Job, name: string(id) + "-hardware-change", title: title, under: j.Words.ChangeUnder}
		fits := true
		for _, p := range j.changePlots(old, face, runs, n) {
			whole := p.draw(j, s)
			fits = fits && whole && j.legibleIn(n, p.den)
		}
		if fits || n == face.Bays {
			return s.pages
		}
	}
}

// alikeFaces says whether places on the one face are places on the other.
func alikeFaces(a, b *unit.Face) bool {
	return a.Bays == b.Bays && a.Width == b.Width && a.Bottom == b.Bottom && a.Top == b.Top
}

// changePlot is an elevation of a change, laid out but not drawn.
type changePlot struct {
	old, face *unit.Face // old nil where there is no such face or another
	zone      zone
	runs      []*run // with a piece in the zone, those of the new unit first

	paper       paper
	den         int64
	marks       []mark
	left, right measure.Length // of the drawing, on paper
	above       measure.Length
}

// changePlots lays out the elevations of a face on so many sheets.
func (j *ResetJob) changePlots(old, face *unit.Face, runs []*run, n int) []*changePlot {
	var list []*changePlot
	for _, z := range zones(face, n) {
		p := &changePlot{old: old, face: face, zone: z}
		for _, r := range runs {
			if slices.ContainsFunc(r.pieces, func(piece *unit.Piece) bool { return z.shows(piece.Box) }) && !(r.when == before && (r.mark == reset.Keep || r.back())) {
				p.runs = append(p.runs, r)
			}
		}
		p.size(j)
		list = append(list, p)
	}
	return list
}

// size works out margins, paper and scale.
func (p *changePlot) size(j *ResetJob) {
	e := &elevation{Page: &Page{job: j.Job}, face: p.face, zone: p.zone}
	p.marks = e.heights(p.zone.rows(p.face))
	p.left = j.heightColumn(p.face, p.marks)
	for _, r := range p.runs {
		w, _ := markSize(r.label(), letter(plain))
		p.right = max(p.right, leaderSpace+w+letter(plain).strong().width(j.drawnName(r.when, r.row))+2*mm)
	}
	for _, r := range p.zone.rows(p.face) {
		p.right = max(p.right, leaderSpace+letter(plain).strong().width(r.Address)+2*mm)
	}
	n := need{width: p.zone.width(), height: p.tallest(), sides: p.left + p.right, below: 17*mm + 2*legendPitch}
	for _, den := range j.scales() {
		p.above = max(topSpace, heightLeast*measure.Length(len(p.marks))+1*mm-over(n.height, den))
		n.above = p.above
		if p.paper, p.den = j.choose(n); p.den <= den {
			return
		}
	}
}

// tallest is the height of the highest thing of either unit on the face.
func (p *changePlot) tallest() measure.Length {
	top := tallest(p.face)
	if p.old != nil {
		top = max(top, tallest(p.old))
	}
	return top
}

// rowName names a row of the old or of the new plan.
func (j *ResetJob) rowName(w when, r *unit.Row) string {
	if w == before {
		return fmt.Sprintf(j.Words.OldRow, r.Address)
	}
	return fmt.Sprintf(j.Words.NewRow, r.Address)
}

// drawnName names a row on drawings, where only the old need be told apart.
func (j *ResetJob) drawnName(w when, r *unit.Row) string {
	if w == after {
		return r.Address
	}
	return j.rowName(w, r)
}

// ghosted is how the old is drawn.
func ghosted() ghost {
	edge := pencil(thin, 120)
	edge.Dash = []measure.Length{1200 * micron, 700 * micron}
	return ghost{edge, pencil(hair, 185)}
}

// draw draws the plot on a new sheet. It reports whether there was room for every
// mark.
func (p *changePlot) draw(j *ResetJob, s *section) bool {
	pg := s.page(p.paper)
	pg.scale = j.scaleName(p.den)
	v := view{den: p.den}
	width := p.left + v.len(p.zone.width()) + p.right
	v.origin = pt(pg.Field.Min.X+min(max(0, wide(pg.Field)-width)/2, 40*mm)+p.left, pg.Field.Min.Y+p.above+v.len(p.tallest()))
	e := &elevation{Page: pg, face: p.face, zone: p.zone, view: v}
	e.carcass()
	p.pieces(e)
	e.hideCarcass()
	e.drawHeights(p.marks)
	e.slotNumbers(e.x(p.zone.x0)-1*mm, p.marks)
	e.bayChain(e.y(0) + 10*mm)
	rows := p.zone.rows(p.face)
	addresses := e.rowAddresses(rows)
	under := len(pg.Sheet.Items)
	var out []*run
	for _, r := range p.runs {
		if !e.markRun(j, r) {
			out = append(out, r)
		}
	}
	whole := e.markBeside(j, out, rows, addresses, under)
	e.writeAddresses(rows, addresses)
	p.chains(e, slices.DeleteFunc(slices.Clone(rows), func(r *unit.Row) bool { return !p.changed(r) }))
	if p.old != nil {
		e.arrows(p.runs)
	}
	e.zoneKey()
	e.markLegend(j, e.y(0)+19*mm)
	return whole
}

// chains draws the sideways places of the rows that change, where that leaves
// the drawing clean. The step list has them all.
func (p *changePlot) chains(e *elevation, rows []*unit.Row) {
	for at := 0; at < len(rows); {
		next := at + 1
		for next < len(rows) && rows[next].Slot == rows[at].Slot {
			next++
		}
		if !e.chain(rows[at:next]) && next-at > 1 {
			for _, r := range rows[at:next] {
				e.chain([]*unit.Row{r})
			}
		}
		at = next
	}
}

// changed says whether any piece of a new row comes or moves.
func (p *changePlot) changed(row *unit.Row) bool {
	return slices.ContainsFunc(p.runs, func(r *run) bool { return r.row == row && r.mark != reset.Keep })
}

// pieces draws the old that goes on its hatch, then the new under its own, which
// is pale enough to see it through.
func (p *changePlot) pieces(e *elevation) {
	ground := func(r *run) {
		rect := inset(around(e.shown(r)), -700*micron)
		e.hatch(rect, markPattern(r.mark))
	}
	ghosts := &elevation{Page: e.Page, face: p.old, zone: e.zone, view: e.view}
	for _, r := range p.runs {
		if r.when == before {
			ground(r)
			ghosts.carried(r.pieces, ghosted())
		}
	}
	e.hardware(dark())
	for _, r := range p.runs {
		if r.when == after {
			ground(r)
		}
	}
	for _, r := range p.runs {
		for _, rect := range e.shown(r) {
			if r.when == before {
				e.outlineBox(rect, ghosted().edge) // also where the new hides it
			}
			e.keepBox(rect)
		}
	}
}

// carried draws pieces, those that carry others first.
func (e *elevation) carried(pieces []*unit.Piece, g ghost) {
	for _, last := range []bool{false, true} {
		for _, p := range pieces {
			if (p.Part.Needs != nil) == last {
				e.piece(p, g)
			}
		}
	}
}

// markRun draws the run's mark beside its pieces, or on them where they are wide
// enough; the row of the old plan stands with it. It reports whether there was
// room.
func (e *elevation) markRun(j *ResetJob, r *run) bool {
	s := letter(plain)
	w, h := markSize(r.label(), s)
	name := ""
	if r.when == before {
		name = j.drawnName(before, r.row)
		w += s.width(name) + 1*mm
	}
	shown := e.shown(r)
	field := box(e.x(e.zone.x0), e.y(tallest(e.face))-5*mm, e.x(e.zone.x1), e.y(e.face.Bottom))
	round := around(shown)
	draw := func(at sheet.Point) {
		all := box(at.X, at.Y, at.X+w, at.Y+h)
		x := at.X
		if name != "" {
			e.fillBox(box(x, at.Y, x+s.width(name)+800*micron, at.Y+h), white())
			e.writeMid(x+400*micron, at.Y+h/2, name, s.pale())
			x += s.width(name) + 1*mm
		}
		e.changeMark(x, at.Y, r.mark, r.label(), s)
		e.keepWord(inset(all, -200*micron))
	}
	for _, at := range beside(shown, w, h) {
		try := box(at.X, at.Y, at.X+w, at.Y+h)
		if within(try, field) && e.clear(try) {
			draw(at)
			return true
		}
	}
	if wide(round) >= 2*w {
		for _, share := range []measure.Length{50, 25, 75, 10, 90} {
			at := pt(round.Min.X+(wide(round)-w)*share/100, (round.Min.Y+round.Max.Y-h)/2)
			try := box(at.X, at.Y, at.X+w, at.Y+h)
			if e.clearOfWords(try) && e.clearOfLines(try) && e.covers(try, shown) {
				draw(at)
				return true
			}
		}
	}
	return false
}

// covers says whether a rectangle hides nothing but what is among its own.
func (e *elevation) covers(r sheet.Rect, own []sheet.Rect) bool {
	for _, b := range e.boxes {
		if meet(r, b) && !slices.Contains(own, b) {
			return false
		}
	}
	return true
}

// beside lists places for a label by pieces that stand in a row: between them,
// over and under them from the left, at their ends.
func beside(shown []sheet.Rect, w, h measure.Length) []sheet.Point {
	const gap = 400 * micron
	r := around(shown)
	var list []sheet.Point
	mid := (r.Min.Y+r.Max.Y)/2 - h/2
	for i := 1; i < len(shown); i++ {
		if a, b := shown[i-1], shown[i]; b.Min.X-a.Max.X >= w {
			list = append(list, pt((a.Max.X+b.Min.X-w)/2, mid))
		}
	}
	for _, share := range []measure.Length{0, 50, 100, 25, 75} {
		x := r.Min.X + (wide(r)-w)*share/100
		list = append(list, pt(x, r.Min.Y-gap-h), pt(x, r.Max.Y+gap))
	}
	return append(list, pt(r.Min.X-gap-w, mid), pt(r.Max.X+gap, mid))
}

// aside is an entry of the column beside the drawing: a row's address, a run's
// mark, or both.
type aside struct {
	name   string
	strong bool
	run    *run // nil for an address alone
	boxes  []sheet.Rect
}

// markBeside draws the column of what has found no room on the drawing, with
// leaders that run beneath all from the item under on: marks cover them. Where
// there is more than the height takes, what goes is left to the step list, and it
// reports that.
func (e *elevation) markBeside(j *ResetJob, runs []*run, rows []*unit.Row, addresses map[*unit.Row]sheet.Rect, under int) (whole bool) {
	var list []aside
	for _, r := range runs {
		one := aside{name: j.drawnName(r.when, r.row), strong: r.when == after, run: r, boxes: e.shown(r)}
		same := slices.IndexFunc(list, func(o aside) bool { return o.run.row == r.row && o.run.label() == r.label() })
		if same < 0 {
			list = append(list, one)
		} else {
			list[same].boxes = append(list[same].boxes, one.boxes...)
		}
	}
	for _, row := range rows {
		named := slices.ContainsFunc(runs, func(r *run) bool { return r.row == row })
		if _, ok := addresses[row]; !ok && !named {
			list = append(list, aside{name: row.Address, strong: true, boxes: e.shown(&run{pieces: row.All()})})
		}
	}
	room := int((e.y(0) - e.Field.Min.Y) / asidePitch)
	whole = len(list) <= room
	if !whole {
		slices.SortStableFunc(list, func(a, b aside) int { return cmp.Compare(a.rank(), b.rank()) })
		list = list[:room]
	}
	slices.SortStableFunc(list, func(a, b aside) int { return cmp.Compare(around(a.boxes).Min.Y, around(b.boxes).Min.Y) })
	labels := make([]slotted, len(list))
	for i, a := range list {
		r := around(a.boxes)
		labels[i] = slotted{(r.Min.Y + r.Max.Y) / 2, asidePitch}
	}
	for i, y := range spread(labels, e.Field.Min.Y, e.y(0)) {
		at := pt(e.x(e.zone.x1)+leaderSpace, y)
		e.leaderUnder(under, e.asideTarget(list[i].boxes, at), at)
		e.writeAside(list[i], at)
	}
	return whole
}

// rank is the order in which entries find room: the new first.
func (a aside) rank() int {
	if a.strong {
		return 0
	}
	return 1
}

const asidePitch = 5 * mm

// leaderUnder draws a leader beneath the items from number under on.
func (e *elevation) leaderUnder(under int, to, from sheet.Point) {
	drawn := len(e.Sheet.Items)
	e.leader(to, from)
	lines := slices.Clone(e.Sheet.Items[drawn:])
	e.Sheet.Items = slices.Insert(e.Sheet.Items[:drawn], under, lines...)
}

func (e *elevation) writeAside(a aside, at sheet.Point) {
	s := letter(plain)
	if a.strong {
		s = s.strong()
	} else {
		s = s.pale()
	}
	r := e.writeMid(at.X+500*micron, at.Y, a.name, s)
	if a.run != nil {
		_, h := markSize(a.run.label(), letter(plain))
		r.Max.X = e.changeMark(r.Max.X+1*mm, at.Y-h/2, a.run.mark, a.run.label(), letter(plain)).Max.X
	}
	e.keepWord(r)
}

// asideTarget is where a leader ends: on the pieces, where it runs over no
// lettering and crosses least.
func (e *elevation) asideTarget(boxes []sheet.Rect, from sheet.Point) sheet.Point {
	best, least := from, -1
	for i := len(boxes) - 1; i >= 0 && i >= len(boxes)-5; i-- {
		for _, to := range targets(boxes[i]) {
			cost := 1000*e.crossed(from, to) + 40*e.crossings(from, to) + 20*e.hits(from, to) + int((from.X-to.X)/mm)
			if least < 0 || cost < least {
				best, least = to, cost
			}
		}
	}
	return best
}

// arrows leads from old places to new ones on the same face, from each run of
// pieces that move together, as long as they are few and run over no lettering.
func (e *elevation) arrows(runs []*run) {
	const most, least = 8, 8 * mm
	drawn := 0
	for _, r := range runs {
		if r.when != after || r.mark != reset.Move || drawn == most {
			continue
		}
		item := r.items[0]
		if item.From == nil || item.From.Face.ID != e.face.ID || !e.zone.shows(item.From.Piece.Box) || !e.zone.shows(item.To.Piece.Box) {
			continue
		}
		a, b := e.paper(item.From.Piece.Box), e.paper(item.To.Piece.Box)
		from, to := pt((a.Min.X+a.Max.X)/2, (a.Min.Y+a.Max.Y)/2), pt((b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)
		if max(abs(from.X-to.X), abs(from.Y-to.Y)) < least || e.crossed(from, to) > 0 {
			continue
		}
		e.pointer(from, to)
		drawn++
	}
}

// pointer draws an arrow: a dot where it comes from, a head where it goes.
func (e *elevation) pointer(from, to sheet.Point) {
	ink := black()
	e.line(from.X, from.Y, to.X, to.Y, pen(thin))
	e.circle(from.X, from.Y, 500*micron, nil, &ink)
	dx, dy := to.X-from.X, to.Y-from.Y
	long := max(abs(dx), abs(dy)) + min(abs(dx), abs(dy))*2/5 // its length, to a few per cent
	along := func(l measure.Length) (x, y measure.Length) {
		return measure.Length(int64(dx/micron)*int64(l/micron)/int64(long/micron)) * micron, measure.Length(int64(dy/micron)*int64(l/micron)/int64(long/micron)) * micron
	}
	bx, by := along(2200 * micron)
	wx, wy := along(600 * micron)
	e.polygon([]sheet.Point{to, pt(to.X-bx+wy, to.Y-by-wx), pt(to.X-bx-wy, to.Y-by+wx)}, nil, &ink)
}

const legendPitch = 6 * mm

// markLegend explains marks and hatches, two or four on a line.
func (p *Page) markLegend(j *ResetJob, y measure.Length) {
	marks := allMarks()
	s, widest := letter(plain), measure.Length(0)
	for _, m := range marks {
		widest = max(widest, s.width(j.markKey(m))+25*mm)
	}
	across := measure.Length(2)
	if widest*4 <= wide(p.Field) {
		across = 4
	}
	for i, m := range marks {
		x, top := p.Field.Min.X+wide(p.Field)/across*(measure.Length(i)%across), y+legendPitch*(measure.Length(i)/across)
		_, h := markSize(string(m), s)
		r := p.changeMark(x, top, m, string(m), s)
		swatch := box(r.Max.X+1500*micron, top, r.Max.X+13500*micron, top+h)
		p.hatch(swatch, markPattern(m))
		edge := pen(thin)
		if m == reset.Pull {
			edge = ghosted().edge
		}
		p.outlineBox(swatch, edge)
		p.writeMid(swatch.Max.X+1500*micron, top+h/2, j.markKey(m), s)
	}
}
