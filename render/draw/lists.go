package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// PickList draws the pick list: what to pull from the stockroom.
func (j *Job) PickList() []*Page {
	s := &section{job: j, name: "pick-list", title: j.Words.PickList, under: j.Words.PickUnder}
	t := table{columns: []column{
		{tick: true}, {head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 4}, {head: j.Words.Quantity, end: true},
		{head: j.Words.Packs, end: true}, {head: j.Words.Weight, end: true}, {head: j.Words.Where, flex: 3},
	}}
	group, quantity, weight := list.Group(""), 0, measure.Mass(0)
	for _, line := range j.pick {
		if line.Group != group {
			group = line.Group
			t.records = append(t.records, record{group: j.groupName(group)})
		}
		name := j.partName(line.Part, line.Cut)
		if line.Part.Notes != "" {
			name += "\n" + line.Part.Notes
		}
		t.records = append(t.records, record{cells: []string{"", strconv.Itoa(line.Balloon), name + "\n" + line.Part.ID,
			strconv.Itoa(line.Quantity), j.packText(line), j.mass(line.Weight), strings.Join(line.Rows, ", ")}, link: j.cutLink(line)})
		quantity, weight = quantity+line.Quantity, weight+line.Weight
	}
	f := s.flowFresh()
	f.table(t)
	f.skip(2 * mm)
	f.text(fmt.Sprintf(j.Words.PickTotal, quantity, j.mass(weight)), letter(plain).strong(), 0)
	return s.pages
}

// cutLink leads from what is cut to how.
func (j *Job) cutLink(line list.PickLine) string {
	if line.Part.Cut == nil {
		return ""
	}
	return j.cutSheet(line.Part.Cut.From)
}

func (j *Job) packText(line list.PickLine) string {
	if line.Part.Cut != nil {
		return j.Words.CutSee
	}
	if line.Part.Pack <= 1 {
		return strconv.Itoa(line.Packs)
	}
	return fmt.Sprintf("%d × %d", line.Packs, line.Part.Pack)
}

func (j *Job) groupName(g list.Group) string {
	switch g {
	case list.Structure:
		return j.Words.GroupStructure
	case list.Shelving:
		return j.Words.GroupShelving
	case list.Hooks:
		return j.Words.GroupHooks
	case list.Rails:
		return j.Words.GroupRails
	}
	return j.Words.GroupOther
}

// SignOff draws the last sheet: who built and checked what, with photographs.
func (j *Job) SignOff() []*Page {
	s := &section{job: j, name: "sign-off", title: j.Words.SignOff, under: j.Words.SignUnder}
	f := s.flowFresh()
	for _, role := range []string{j.Words.BuiltBy, j.Words.CheckedBy, j.Words.ApprovedBy} {
		f.signature(role)
	}
	f.skip(4 * mm)
	f.checklists()
	f.skip(3 * mm)
	f.photos()
	return s.pages
}

// checks is what is ticked off a face.
func (j *Job) checks(face *unit.Face) []string {
	return []string{
		fmt.Sprintf(j.Words.CheckPanels, j.slotName(face, 1), j.length(face.SlotHeight(1))),
		fmt.Sprintf(j.Words.CheckRows, len(face.Rows), pieces(face)), j.Words.CheckGoods, j.Words.CheckSafe,
	}
}

// checklists sets the checks of the faces, two faces side by side.
func (f *flow) checklists() {
	j := f.section.job
	faces := j.Faces()
	const gap = 6 * mm
	half := (wide(f.area) - gap) / 2
	for len(faces) > 0 {
		pair := faces[:min(2, len(faces))]
		faces = faces[len(pair):]
		height := measure.Length(0)
		for _, face := range pair {
			height = max(height, headSpace+itemsHeight(j.checks(face), half-checkIndent))
		}
		f.room(height)
		for i, face := range pair {
			column := f.area
			column.Min.X += (half + gap) * measure.Length(i)
			column.Max.X = column.Min.X + half
			side := &flow{section: f.section, page: f.page, area: column, y: f.y}
			side.heading(j.faceName(face.ID), 0)
			for _, check := range j.checks(face) {
				side.item(tickMark, check, letter(plain), checkIndent)
			}
		}
		f.y += height
	}
}

const checkIndent = 6 * mm

// signature is a row of boxes for name, signature and date.
func (f *flow) signature(role string) {
	h := 15 * mm
	f.room(h)
	w := wide(f.area)
	x := f.area.Min.X
	words := f.section.job.Words
	for i, label := range []string{role, words.Signature, words.Date} {
		part := w * measure.Length([]int{45, 35, 20}[i]) / 100
		r := box(x, f.y, x+part, f.y+h-2*mm)
		f.page.outlineBox(r, pen(thin))
		f.page.write(r.Min.X+1500*micron, r.Min.Y+3500*micron, label, letter(plain).pale())
		x += part
	}
	f.y += h
}

// photos are boxes for a dated photograph of each face, two side by side.
func (f *flow) photos() {
	j := f.section.job
	faces := j.Faces()
	w := (wide(f.area) - 4*mm) / 2
	h := w * 2 / 5
	rows := measure.Length(len(faces)+1) / 2
	if fits := (f.left()-headSpace)/max(rows, 1) - 3*mm; fits >= 22*mm {
		h = min(h, fits)
	}
	f.heading(j.Words.Photos, h)
	for i, face := range faces {
		if i%2 == 0 {
			f.room(h + 3*mm)
		}
		x := f.area.Min.X + (w+4*mm)*measure.Length(i%2)
		r := box(x, f.y, x+w, f.y+h)
		f.page.outlineBox(r, pen(thin))
		f.page.write(r.Min.X+1500*micron, r.Min.Y+3500*micron, fmt.Sprintf(j.Words.PhotoOf, j.faceName(face.ID)), letter(plain).pale())
		if i%2 == 1 || i == len(faces)-1 {
			f.y += h + 3*mm
		}
	}
}
