package draw

import (
	"fmt"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
)

// GoodsChange draws what changes in a face's goods: the face as it stands and as
// it will be, side by side at one scale, every run of facings with its address,
// mark and steps. A face without such a change has no sheet.
func (j *ResetJob) GoodsChange(id plan.FaceID) []*Page {
	if _, n := j.changes(id); n == 0 {
		return nil
	}
	s := &section{job: j.Job, name: string(id) + "-goods", title: fmt.Sprintf(j.Words.GoodsChangeOf, j.faceName(id)), under: j.Words.GoodsChangeUnder}
	faces := [2]*unit.Face{faceOf(j.old.Unit, id), faceOf(j.Unit, id)}
	shape := faces[after]
	if shape == nil {
		shape = faces[before]
	}
	for n := 1; n <= shape.Bays; n++ {
		pairs, den := j.goodsPairs(faces, shape, n)
		if j.legibleIn(n, den) || n == shape.Bays {
			for _, p := range pairs {
				p.draw(j, s)
			}
			break
		}
	}
	return s.pages
}

// goodsPair is a face, or some bays of it, twice side by side.
type goodsPair struct {
	faces  [2]*unit.Face
	zone   zone
	paper  paper
	den    int64
	margin measure.Length // at each side of either
	height measure.Length // of the higher of the two
	blocks [2][]goodsRun
}

// goodsRun is neighbouring facings of one position to which the same happens.
type goodsRun struct {
	block
	mark reset.Mark
}

const captionHeight = 7 * mm

func (j *ResetJob) goodsPairs(faces [2]*unit.Face, shape *unit.Face, n int) (list []goodsPair, smallest int64) {
	for _, z := range zones(shape, n) {
		p := goodsPair{faces: faces, zone: z, margin: 6 * mm}
		for w, f := range faces {
			if f != nil {
				p.height = max(p.height, tallest(f))
				p.margin = max(p.margin, j.goodsMargin(f, when(w)))
			}
		}
		p.paper, p.den = j.choose(need{width: 2 * z.width(), height: p.height, sides: 4 * p.margin, above: captionHeight, below: 9*mm + 2*legendPitch})
		list = append(list, p)
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
				widest = max(widest, letter(fine).strong().width(part.position.Address))
			}
		}
	}
	return widest + 8*mm
}

// facingRuns splits a position where another thing happens to its facings. Each
// run goes by the position's address and its mark.
func (j *ResetJob) facingRuns(p *unit.Position, w when) []goodsRun {
	var list []goodsRun
	var steps []int
	for i := range p.Fronts {
		f := j.sides[w].facings[&p.Fronts[i]]
		if f == nil {
			continue
		}
		mark, at := f.Way.Mark(), []int(nil)
		if n := j.stepOfFacing(w, f); n > 0 && mark != reset.Keep {
			at = []int{n}
		}
		if n := len(list); n == 0 || list[n-1].mark != mark || !slices.Equal(at, steps) {
			own := *p
			own.Fronts = nil
			own.Address += " " + markLabel(mark, at)
			list, steps = append(list, goodsRun{block{position: &own}, mark}), at
		}
		own := list[len(list)-1].position
		own.Fronts = append(own.Fronts, p.Fronts[i])
	}
	return list
}

// draw draws both elevations on a new sheet.
func (p *goodsPair) draw(j *ResetJob, s *section) {
	pg := s.page(p.paper)
	pg.scale = j.scaleName(p.den)
	v := view{den: p.den}
	half := wide(pg.Field) / 2
	spare := high(pg.Field) - captionHeight - v.len(p.height) - 9*mm - 2*legendPitch
	floor := pg.Field.Min.Y + min(max(spare, 0)/2, 20*mm) + captionHeight + v.len(p.height)
	for w, f := range p.faces {
		left := pg.Field.Min.X + half*measure.Length(w)
		v.origin = pt(left+(half-v.len(p.zone.width()))/2, floor)
		caption := j.Words.StandsNow
		if when(w) == after {
			caption = j.Words.StandsThen
		}
		pg.write(left+half/2, floor-v.len(p.height)-3*mm, caption, letter(plain).strong().middle())
		if f != nil {
			own := *pg
			own.job = j.job(when(w))
			own.Field.Min.X, own.Field.Max.X = left, left+half
			e := &elevation{Page: &own, face: f, zone: p.zone, view: v}
			e.changedGoods(j, when(w), p.margin)
		}
	}
	(&elevation{Page: pg, face: p.faces[after], zone: p.zone, view: v}).zoneKey()
	pg.markLegend(j, floor+8*mm, allMarks())
}

// changedGoods draws a face's goods with what happens to them.
func (e *elevation) changedGoods(j *ResetJob, w when, margin measure.Length) {
	e.carcass()
	e.hardware(pale())
	var runs []goodsRun
	for _, r := range e.face.Rows {
		for _, p := range r.Positions {
			for _, part := range j.facingRuns(p, w) {
				for _, f := range part.position.Fronts {
					if e.zone.shows(f.Box) {
						part.fronts = append(part.fronts, e.paper(f.Box))
						part.far = max(part.far, f.Box.D1)
					}
				}
				if len(part.fronts) > 0 {
					part.round = around(part.fronts)
					runs = append(runs, part)
				}
			}
		}
	}
	slices.SortStableFunc(runs, func(a, b goodsRun) int { return int(a.far/measure.Micrometre) - int(b.far/measure.Micrometre) })
	blocks := make([]block, len(runs))
	for i, r := range runs {
		e.changedFronts(r)
		blocks[i] = r.block
	}
	if len(blocks) == 0 {
		e.bareOfGoods()
		return
	}
	e.addresses(blocks, margin)
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
