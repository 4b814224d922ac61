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

// GoodsChange draws what changes in a face's goods: the face as it stands and as
// it will be, side by side at one scale if that is legible, every run of facings
// with its address, mark and step. A face without such a change has no sheet.
func (j *ResetJob) GoodsChange(id plan.FaceID) []*Page {
	if _, n := j.changes(id); n == 0 {
		return nil
	}
	title, under := fmt.Sprintf(j.Words.GoodsChangeOf, j.faceName(id)), j.Words.GoodsChangeUnder
	faces := [2]*unit.Face{j.old.Unit.Face(id), j.Unit.Face(id)}
	bays := 1
	for _, f := range faces {
		if f != nil {
			bays = max(bays, f.Bays)
		}
	}
	for n := 1; ; n++ {
		for _, across := range []measure.Length{2, 1} {
			s := &section{job: j.Job, name: string(id) + "-goods", title: title, under: under}
			plots, den := j.goodsPlots(faces, n, across)
			for _, p := range plots {
				p.draw(j, s)
			}
			last := n == bays && across == 1
			if last || j.legibleIn(n, den) && !slices.ContainsFunc(s.pages, (*Page).spills) {
				return s.pages
			}
		}
	}
}

// spills says whether lettering has found no place on the sheet.
func (p *Page) spills() bool {
	for _, item := range p.Sheet.Items {
		if text, ok := item.(sheet.Text); ok && sheet.TextBox(text).Max.Y > p.Field.Max.Y {
			return true
		}
	}
	return len(sheet.Clashes(p.Sheet)) > 0
}

// goodsPlot is a face, or some bays of it, twice side by side or once.
type goodsPlot struct {
	faces  [2]*unit.Face // nil where it is not on the sheet
	zones  [2]zone
	across measure.Length // elevations for which there is room side by side
	paper  paper
	den    int64
	margin measure.Length // at each side of either
	height measure.Length // of the higher of the two
}

// goodsRun is neighbouring facings of one position to which the same happens in
// one step.
type goodsRun struct {
	block
	mark reset.Mark
	step int // 0 for none
}

const captionHeight = 7 * mm

// goodsPlots lays out so many zones of a face, old and new on one sheet or on one
// each.
func (j *ResetJob) goodsPlots(faces [2]*unit.Face, n int, across measure.Length) (list []*goodsPlot, smallest int64) {
	for i := range n {
		together := &goodsPlot{across: across, margin: 6 * mm}
		for w, f := range faces {
			if f == nil || i >= f.Bays {
				continue
			}
			p := together
			if across == 1 {
				p = &goodsPlot{across: across, margin: 6 * mm}
				list = append(list, p)
			}
			p.faces[w], p.zones[w] = f, zones(f, min(n, f.Bays))[i]
			p.height = max(p.height, tallest(f))
			p.margin = max(p.margin, j.goodsMargin(f, when(w)))
		}
		if across > 1 {
			list = append(list, together)
		}
	}
	for _, p := range list {
		width := max(p.zones[before].width(), p.zones[after].width())
		p.paper, p.den = j.choose(need{width: width * across, height: p.height, sides: 2 * across * p.margin, above: captionHeight, below: 9*mm + 2*legendPitch})
		smallest = max(smallest, p.den)
	}
	return list, smallest
}

// goodsMargin is the room labels need that find none on the drawing.
func (j *ResetJob) goodsMargin(f *unit.Face, w when) measure.Length {
	widest := measure.Length(0)
	for _, r := range f.Rows {
		for _, p := range r.Positions {
			for _, part := range j.facingRuns(p, w) {
				widest = max(widest, letter(fine).strong().width(part.position.Address+" "+part.label()))
			}
		}
	}
	return widest + 8*mm
}

// facingRuns splits a position where another thing happens to its facings.
func (j *ResetJob) facingRuns(p *unit.Position, w when) []goodsRun {
	var list []goodsRun
	for i := range p.Fronts {
		f := j.sides[w].facings[&p.Fronts[i]]
		if f == nil {
			continue
		}
		mark, step := f.Way.Mark(), 0
		if mark != reset.Keep || f.More() != 0 {
			step = j.stepOfFacing(w, f)
		}
		if n := len(list); n == 0 || !list[n-1].like(mark, step) {
			own := *p
			own.Fronts = nil
			list = append(list, goodsRun{block{position: &own}, mark, step})
		}
		own := list[len(list)-1].position
		own.Fronts = append(own.Fronts, p.Fronts[i])
	}
	return list
}

func (r goodsRun) like(m reset.Mark, step int) bool { return r.mark == m && r.step == step }

// label is the run's mark with its step.
func (r goodsRun) label() string {
	if r.step == 0 {
		return markLabel(r.mark, nil)
	}
	return markLabel(r.mark, []int{r.step})
}

// draw draws the elevations on a new sheet.
func (p *goodsPlot) draw(j *ResetJob, s *section) {
	pg := s.page(p.paper)
	pg.scale = j.scaleName(p.den)
	v := view{den: p.den}
	half := wide(pg.Field) / p.across
	spare := high(pg.Field) - captionHeight - v.len(p.height) - 9*mm - 2*legendPitch
	floor := pg.Field.Min.Y + min(max(spare, 0)/2, 20*mm) + captionHeight + v.len(p.height)
	for w, f := range p.faces {
		if f == nil {
			continue
		}
		left := pg.Field.Min.X + half*(measure.Length(w)%p.across)
		v.origin = pt(left+(half-v.len(p.zones[w].width()))/2, floor)
		caption := j.Words.StandsNow
		if when(w) == after {
			caption = j.Words.StandsThen
		}
		word := pg.write(left+half/2, floor-v.len(p.height)-3*mm, caption, letter(plain).strong().middle())
		own := *pg
		own.job = j.job(when(w))
		own.Field.Min.X, own.Field.Max.X = left, left+half
		e := &elevation{Page: &own, face: f, zone: p.zones[w], view: v}
		e.keepWord(word)
		e.changedGoods(j, when(w), p.margin)
		if when(w) == after || p.across == 1 {
			e.Page = pg
			e.zoneKey()
		}
	}
	pg.markLegend(j, floor+8*mm)
}

// changedGoods draws a face's goods with what happens to them: one mark for
// neighbours in a row that share it, where there is room; else it stands behind
// their addresses.
func (e *elevation) changedGoods(j *ResetJob, w when, margin measure.Length) {
	e.carcass()
	e.hardware(pale())
	var rows [][]goodsRun
	var drawn []goodsRun
	for _, r := range e.face.Rows {
		var row []goodsRun
		for _, p := range r.Positions {
			row = append(row, e.onPaper(j.facingRuns(p, w))...)
		}
		rows, drawn = append(rows, row), append(drawn, row...)
	}
	byDepth(drawn)
	for _, r := range drawn {
		e.changedFronts(r)
	}
	if len(drawn) == 0 {
		e.bareOfGoods()
		return
	}
	for _, row := range rows {
		for from := 0; from < len(row); {
			to := from + 1
			for to < len(row) && row[to].like(row[from].mark, row[from].step) {
				to++
			}
			e.markGoods(row[from:to])
			from = to
		}
	}
	byDepth(drawn)
	blocks := make([]block, len(drawn))
	for i, r := range drawn {
		blocks[i] = r.block
	}
	e.addresses(blocks, margin)
}

// byDepth sorts what is farthest from the viewer first.
func byDepth(list []goodsRun) {
	slices.SortStableFunc(list, func(a, b goodsRun) int { return cmp.Compare(a.far, b.far) })
}

// onPaper sets the fronts of runs on paper and leaves out what is not in the zone.
func (e *elevation) onPaper(runs []goodsRun) []goodsRun {
	var list []goodsRun
	for _, r := range runs {
		for _, f := range r.position.Fronts {
			if e.zone.shows(f.Box) {
				r.fronts = append(r.fronts, e.paper(f.Box))
				r.far = max(r.far, f.Box.D1)
			}
		}
		if len(r.fronts) > 0 {
			r.round = around(r.fronts)
			list = append(list, r)
		}
	}
	return list
}

// markGoods draws the mark of neighbours over or under them, or on one of them,
// or else puts it behind their addresses.
func (e *elevation) markGoods(runs []goodsRun) {
	s, text := letter(fine), runs[0].label()
	w, h := markSize(text, s)
	var shown []sheet.Rect
	for _, r := range runs {
		shown = append(shown, r.fronts...)
	}
	put := func(at sheet.Point) { e.keepWord(inset(e.changeMark(at.X, at.Y, runs[0].mark, text, s), -200*micron)) }
	field := box(e.x(e.zone.x0), e.y(tallest(e.face))-5*mm, e.x(e.zone.x1), e.y(e.face.Bottom))
	for _, at := range beside(shown, w, h) {
		if try := box(at.X, at.Y, at.X+w, at.Y+h); within(try, field) && e.clear(try) {
			put(at)
			return
		}
	}
	for _, r := range shown {
		const pad = 400 * micron
		at := pt(r.Max.X-w-pad, r.Min.Y+pad)
		if try := box(at.X, at.Y, at.X+w, at.Y+h); wide(r) >= w+2*pad && high(r) >= 3*h && e.clearOfWords(try) {
			put(at)
			return
		}
	}
	if runs[0].mark == reset.Keep {
		return
	}
	for _, r := range runs {
		r.position.Address += " " + text
	}
}

// changedFronts draws the facings of a run: what goes dashed, what stays pale.
func (e *elevation) changedFronts(r goodsRun) {
	edge := pen(thin)
	switch r.mark {
	case reset.Pull:
		edge.Dash = []measure.Length{1200 * micron, 700 * micron}
	case reset.Keep:
		edge = pencil(thin, 130)
	}
	for _, rect := range r.fronts {
		e.fillBox(rect, white())
		e.hatch(rect, markPattern(r.mark))
		e.outlineBox(rect, edge)
	}
	if len(r.fronts) > 1 && r.mark != reset.Keep {
		edge.Width = solid
		e.outlineBox(r.round, edge)
	}
	e.keepBox(r.round)
}
