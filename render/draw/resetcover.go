package draw

import (
	"fmt"
	"strconv"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/reset"
)

// Cover draws the first sheet of a reset: from which plan to which, the change
// in figures, each face in a line, the sheets that follow, what to mind.
func (j *ResetJob) Cover(rest []*Page) []*Page {
	for n := 1; ; n++ {
		pages := j.cover(rest, n)
		if len(pages) <= n {
			return pages
		}
	}
}

func (j *ResetJob) cover(rest []*Page, own int) []*Page {
	w := j.Words
	s := &section{job: j.Job, name: "reset", title: w.Cover, quiet: true}
	pg := s.upright()
	area := pg.Field
	area.Min.Y = pg.coverTitle(area, w.ResetUnder)
	f := s.flowOn(pg, area)
	f.table(j.planTable())
	f.skip(3 * mm)
	if j.same() {
		f.text(w.NothingChanges, letter(large).strong(), 0)
		j.know(f)
		return s.pages
	}
	j.figures(f)
	j.differences(f)
	j.know(f)
	f.skip(3 * mm)
	j.cautionsAndIndex(f, j.index(rest, own))
	return s.pages
}

// cautionsAndIndex sets what to mind beside the sheets that follow.
func (j *ResetJob) cautionsAndIndex(f *flow, t table) {
	const gap = 6 * mm
	half := (wide(f.area) - gap) / 2
	least := t
	least.height, least.space = fine, tightSpace
	f.room(headSpace + max(least.heightIn(half), itemsHeight(j.cautions(), half-bulletIndent)))
	left, right := f.area, f.area
	left.Min.Y, right.Min.Y = f.y, f.y
	left.Max.X, right.Min.X = left.Min.X+half, left.Min.X+half+gap
	cautions := f.section.flowOn(f.page, right)
	cautions.heading(j.Words.Cautions, 10*mm)
	for _, c := range j.cautions() {
		cautions.item("•", c, letter(plain), bulletIndent)
	}
	index := f.section.flowOn(f.page, left)
	index.heading(j.Words.SheetIndex, 10*mm)
	t.fit(half, index.left())
	index.table(t)
}

// planTable sets the two plans side by side.
func (j *ResetJob) planTable() table {
	w := j.Words
	old, new := j.reset.Old.Plan, j.reset.New.Plan
	t := table{space: tightSpace, columns: []column{{head: ""}, {head: w.OldPlan, flex: 1}, {head: w.NewPlan, flex: 1}}}
	for _, row := range [][3]string{
		{w.PlanTitle, old.Title, new.Title}, {w.Season, old.Season, new.Season},
		{w.RevisionDate, dated(old), dated(new)}, {w.PlanMark, j.OldMark, j.NewMark},
	} {
		t.records = append(t.records, record{cells: row[:]})
	}
	return t
}

// dated is a plan's revision and date.
func dated(p *plan.Plan) string {
	if p.Revision == "" || p.Date == "" {
		return p.Revision + p.Date
	}
	return p.Revision + ", " + p.Date
}

// figures sets the change in figures: by mark, then steps, time and units.
func (j *ResetJob) figures(f *flow) {
	w := j.Words
	pieces, facings := map[reset.Mark]int{}, map[reset.Mark]int{}
	back, come := 0, 0
	for _, item := range j.reset.Items {
		pieces[item.Way.Mark()]++
	}
	for _, facing := range j.reset.Facings {
		facings[facing.Way.Mark()]++
		come += max(facing.Stock, 0)
		back -= min(facing.Stock, 0)
	}
	f.heading(w.ResetFigures, 20*mm)
	t := table{space: tightSpace, columns: []column{{head: w.MarkHead}, {head: "", flex: 1}, {head: w.ResetHardware, end: true}, {head: w.ResetGoods, end: true}}}
	for _, m := range allMarks() {
		t.records = append(t.records, record{cells: []string{string(m), j.markName(m), strconv.Itoa(pieces[m]), strconv.Itoa(facings[m])}})
	}
	f.table(t)
	f.skip(2 * mm)
	rows := [][2]string{{w.UnitsBack, strconv.Itoa(back)}, {w.UnitsCome, strconv.Itoa(come)}, {w.StepCount, strconv.Itoa(len(j.reset.Steps))},
		{w.TimeOne, fmt.Sprintf(w.Minutes, minutes(j.reset.Seconds))}}
	if j.reset.Together > 0 {
		rows = append(rows, [2]string{w.TimeTwo, fmt.Sprintf(w.Minutes, minutes(j.reset.Together))})
	}
	j.figuresAndFaces(f, rows)
}

// figuresAndFaces sets figures beside what changes face by face.
func (j *ResetJob) figuresAndFaces(f *flow, rows [][2]string) {
	const gap = 10 * mm
	half := (wide(f.area) - gap) / 2
	f.room(max(letter(plain).pitch()*2*measure.Length(len(rows)), headSpace+itemsHeight(j.faceLines(), half-bulletIndent)))
	left, right := f.area, f.area
	left.Max.X, right.Min.X = left.Min.X+half, left.Min.X+half+gap
	right.Min.Y = f.y
	y := f.y
	for _, row := range rows {
		y = f.page.pair(left, y, row[0], row[1])
	}
	faces := f.section.flowOn(f.page, right)
	faces.heading(j.Words.ResetFaces, 10*mm)
	for _, line := range j.faceLines() {
		faces.item("•", line, letter(plain), bulletIndent)
	}
	f.y = max(y, faces.y)
}

// differences lists what differs in the bare units, which has to be built anew.
func (j *ResetJob) differences(f *flow) {
	if len(j.reset.Differences) == 0 {
		return
	}
	w := j.Words
	f.skip(3 * mm)
	f.heading(w.BareDiffers, 14*mm)
	t := table{space: tightSpace, columns: []column{{head: w.WhatHead}, {head: w.OldPlan, flex: 1}, {head: w.NewPlan, flex: 1}}}
	for _, d := range j.reset.Differences {
		what := w.ListWord(d.What)
		if d.Face != "" {
			what += ", " + j.faceName(d.Face)
		}
		t.records = append(t.records, record{cells: []string{what, d.Old, d.New}})
	}
	f.table(t)
}

// faceLines say of each face how much of it changes.
func (j *ResetJob) faceLines() []string {
	var lines []string
	for _, id := range j.faceIDs() {
		pieces, facings := j.changes(id)
		if pieces+facings == 0 {
			lines = append(lines, fmt.Sprintf(j.Words.FaceSame, j.faceName(id)))
		} else {
			lines = append(lines, fmt.Sprintf(j.Words.FaceChanges, j.faceName(id), pieces, facings))
		}
	}
	return lines
}

// know sets what was found about the reset itself.
func (j *ResetJob) know(f *flow) {
	if len(j.found) == 0 {
		return
	}
	f.skip(2 * mm)
	f.heading(j.Words.ResetKnow, 12*mm)
	for _, find := range j.found {
		f.item("•", j.levelName(find.Level)+": "+sentence(find.Message), letter(plain), bulletIndent)
	}
}
