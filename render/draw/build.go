package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// Build draws the unit build sheet: plan view, what the bare unit is made of,
// and the steps in which everything goes up.
func (j *Job) Build() []*Page {
	s := &section{job: j, name: "unit", title: j.Words.UnitBuild, under: fmt.Sprintf(j.Words.UnitUnder, j.unitName())}
	pg := s.upright()
	area := pg.Field
	plot := area
	with := j.structureTable().heightIn(wide(area)) + headSpace + j.cautionsHeight(wide(area)) + 3*mm
	steps := itemsHeight(j.steps(), wide(area)-stepIndent) + headSpace + 1*mm
	height, apart := j.planHeight(area, with, steps)
	plot.Max.Y = area.Min.Y + height
	area.Min.Y = pg.planView(plot).Min.Y
	f := s.flowOn(pg, area)
	f.headedBeside(j.Words.FramePanelsStand, j.unitFindings(), letter(large).strong(), 10*mm)
	f.table(j.structureTable())
	f.skip(2 * mm)
	f.cautions()
	f.skip(2 * mm)
	if apart {
		f.turn()
	}
	f.heading(j.Words.BuildSteps, 10*mm)
	for i, step := range j.steps() {
		f.item(strconv.Itoa(i+1), step, letter(plain), stepIndent)
	}
	return s.pages
}

// planHeight is how much of the sheet the plan view may take, given the
// heights of what stands with it and of the build steps: what both leave, if
// that makes it large enough to read; else the steps stand apart, on a sheet
// of their own.
func (j *Job) planHeight(area sheet.Rect, with, steps measure.Length) (height measure.Length, apart bool) {
	most := high(area) * 60 / 100
	left := area
	left.Max.Y = area.Min.Y + min(most, high(area)-with-steps)
	least := int64(32)
	if j.metric() {
		least = 20
	}
	if den, _ := j.planScale(left); den <= least {
		return high(left), false
	}
	return max(most, high(area)-with), true
}

// cautions sets the cautions in one paragraph, framed.
func (f *flow) cautions() {
	j := f.section.job
	h := j.cautionsHeight(wide(f.area))
	f.room(h)
	r := box(f.area.Min.X, f.y, f.area.Max.X, f.y+h)
	f.page.outlineBox(r, pen(medium))
	s := letter(plain)
	x, y := r.Min.X+cautionPad, r.Min.Y+cautionPad+s.rise()
	head := j.Words.Cautions + ":"
	for i, line := range j.cautionLines(wide(r)) {
		if i == 0 {
			f.page.write(x, y, head, s.strong())
			line = strings.TrimPrefix(line, head)
			f.page.write(x+s.strong().width(head), y, line, s)
		} else {
			f.page.write(x, y, line, s)
		}
		y += s.pitch()
	}
	f.y = r.Max.Y
}

const cautionPad = 1500 * micron

// cautionLines is the cautions, headed, as lines in a frame of that width.
// Who governs is left out: it stands at the foot of every sheet.
func (j *Job) cautionLines(width measure.Length) []string {
	list := j.cautions()
	s, head := letter(plain), j.Words.Cautions+":"
	width -= 2*cautionPad + s.strong().width(head) - s.width(head)
	return wrap(head+" "+strings.Join(list[:len(list)-2], " "), s, width)
}

// cautionsHeight is the height the framed cautions take.
func (j *Job) cautionsHeight(width measure.Length) measure.Length {
	return letter(plain).pitch()*measure.Length(len(j.cautionLines(width))) + 2*cautionPad
}

const stepIndent = 7 * mm

// structureTable lists frame, stand and panels.
func (j *Job) structureTable() table {
	t := table{height: fine, columns: []column{
		{tick: true}, {head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 3}, {head: j.Words.Quantity, end: true}, {head: j.Words.Size, flex: 1}, {head: j.Words.Weight, end: true},
	}}
	for _, line := range j.pick {
		if line.Group == list.Structure {
			t.records = append(t.records, record{cells: []string{"", strconv.Itoa(line.Balloon), j.partName(line.Part, 0), strconv.Itoa(line.Quantity), j.sizeOf(line.Part), j.mass(line.Weight)}})
		}
	}
	return t
}

// sizeOf is the size a structural part is known by.
func (j *Job) sizeOf(p *parts.Part) string {
	b := j.Unit.Bare
	switch p.Kind {
	case parts.Panel:
		return fmt.Sprintf("%s × %s %s", j.figure(p.Width), j.figure(p.Panel.Height), j.unitName())
	case parts.Frame:
		return fmt.Sprintf("%s × %s %s", j.figure(b.X1-b.X0), j.figure(b.Y1-b.Y0), j.unitName())
	}
	return fmt.Sprintf(j.Words.HighOf, j.length(p.Stand.Height))
}

// steps are the numbered build steps.
func (j *Job) steps() []string {
	w, u := j.Words, j.Unit
	b := u.Bare
	var steps []string
	add := func(format string, args ...any) { steps = append(steps, fmt.Sprintf(format, args...)) }
	add(w.StepBase+noted(u.Frame), j.partName(u.Frame, 0), j.length(b.X1-b.X0), j.length(b.Y1-b.Y0))
	if n := j.feet(); n > 0 {
		add(w.StepFeet+noted(u.Stand), n, j.partName(u.Stand, 0))
	}
	switch u.Stand.Stand.Form {
	case "casters":
		add("%s", w.StepLock)
	case "levellers":
		add("%s", w.StepLevel)
	default:
		add("%s", w.StepFix)
	}
	for _, p := range j.panelSets() {
		add(w.StepPanels+noted(p.face.Panel), p.faces, p.count, j.partName(p.face.Panel, 0), j.length(p.face.Bottom), j.length(p.face.Top))
	}
	if len(u.Faces) > 0 {
		f := u.Faces[0]
		add(w.StepDatum, j.slotName(f, 1), j.length(f.SlotHeight(1)))
	}
	for _, f := range j.dressed() {
		add(w.StepHang, j.faceName(f.ID), pieces(f), f.Rows[len(f.Rows)-1].Address)
	}
	add("%s", w.StepLoad)
	add("%s", w.StepSign)
	return steps
}

// panelSet is faces made of the same panels.
type panelSet struct {
	face  *unit.Face
	faces string
	count int
}

// panelSets gathers the faces by panel, so that a step can name them together.
func (j *Job) panelSets() []*panelSet {
	var list []*panelSet
	for _, f := range j.Unit.Faces {
		if firstOf(j.Unit.Faces, f) != f {
			continue
		}
		at := 0
		for at < len(list) && list[at].face.Panel != f.Panel {
			at++
		}
		if at == len(list) {
			list = append(list, &panelSet{face: f, faces: j.faceName(f.ID), count: f.Bays})
			continue
		}
		list[at].faces += ", " + strings.ToLower(j.faceName(f.ID))
		list[at].count += f.Bays
	}
	return list
}

// firstOf is the first of the faces that share panels with f.
func firstOf(faces []*unit.Face, f *unit.Face) *unit.Face {
	for _, o := range faces {
		if o == f || o.ID == f.Twin {
			return o
		}
	}
	return f
}

func (j *Job) feet() int {
	n := 0
	for _, s := range j.Unit.Structure {
		if s.Part.Kind == parts.Stand {
			n++
		}
	}
	return n
}

func pieces(f *unit.Face) int {
	n := 0
	for _, r := range f.Rows {
		n += len(r.Pieces) + len(r.Brackets) + len(r.Extras)
	}
	return n
}

// noted is what the parts list says the crew should know of a part, to go
// after a sentence in a format.
func noted(p *parts.Part) string {
	if p.Notes == "" {
		return ""
	}
	return " " + strings.ReplaceAll(p.Notes, "%", "%%")
}
