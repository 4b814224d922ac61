package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// PickList draws the pick list: what to pull from the stockroom.
func (j *Job) PickList() []*Page {
	s := &section{job: j, name: "pick-list", title: j.Words.PickList, under: j.Words.PickUnder}
	t := table{columns: []column{
		{tick: true, head: j.Words.Pulled}, {tick: true, head: j.Words.Loaded}, {tick: true, head: j.Words.Installed},
		{head: j.Words.Item, end: true}, {head: j.Words.Part, flex: 5}, {head: j.Words.Size, flex: 3}, {head: j.Words.Quantity, end: true},
		{head: j.Words.Packs, end: true}, {head: j.Words.Weight, end: true}, {head: j.Words.Where, flex: 3},
	}}
	group, quantity, weight := list.Group(""), 0, measure.Mass(0)
	for _, line := range j.pick {
		if line.Group != group {
			group = line.Group
			t.records = append(t.records, record{group: j.groupName(group)})
		}
		name := j.partName(line.Part, 0)
		if line.Part.Notes != "" && line.Group != list.Structure { // the build steps have those
			name += "\n" + line.Part.Notes
		}
		t.records = append(t.records, record{cells: []string{"", "", "", strconv.Itoa(line.Balloon), name + "\n" + line.Part.ID, j.pickSize(line),
			strconv.Itoa(line.Quantity), j.packText(line), j.weight(line.Weight), j.goesTo(line)}, link: j.cutLink(line)})
		quantity, weight = quantity+line.Quantity, weight+line.Weight
	}
	f := s.flowFresh()
	f.text(fmt.Sprintf(j.Words.PickTotal, quantity, j.mass(weight)), letter(plain).strong(), 0)
	f.skip(1 * mm)
	for _, note := range j.pickNotes() {
		f.text(note, letter(plain), 0)
		f.skip(1 * mm)
	}
	f.skip(1 * mm)
	if t.heightIn(wide(f.area)) > f.left() {
		t.space = tightSpace // a second sheet less often
	}
	f.table(t)
	return s.pages
}

// pickNotes are what must be said of some lines.
func (j *Job) pickNotes() []string {
	var notes, weightless []string
	fixings := false
	for _, line := range j.pick {
		fixings = fixings || line.Part.Kind == parts.Fixing
		if line.Weight == 0 {
			weightless = append(weightless, strconv.Itoa(line.Balloon))
		}
	}
	if fixings {
		notes = append(notes, j.Words.FixingsNote)
	}
	if weightless != nil {
		notes = append(notes, fmt.Sprintf(j.Words.NoWeight, strings.Join(weightless, ", ")))
	}
	return notes
}

// pickSize is the size a part is known by in the stockroom: what it is cut to,
// what a structural part is known by, else width, depth and height.
func (j *Job) pickSize(line list.PickLine) string {
	length, across := line.CutTo()
	switch {
	case across > 0:
		return fmt.Sprintf(j.Words.CutTo, j.sides(length, across))
	case length > 0:
		return fmt.Sprintf(j.Words.CutTo, j.length(length))
	case line.Group == list.Structure:
		return j.sizeOf(line.Part)
	}
	return j.sides(line.Part.Size())
}

// sides joins the sides of something, without those it does not have.
func (j *Job) sides(lengths ...measure.Length) string {
	var figures []string
	for _, l := range lengths {
		if l > 0 {
			figures = append(figures, j.figure(l))
		}
	}
	if figures == nil {
		return ""
	}
	return strings.Join(figures, " × ") + "\u00a0" + j.unitName()
}

// goesTo is where pieces go: the rows, and for fixings of the bare unit that.
func (j *Job) goesTo(line list.PickLine) string {
	rows := strings.Join(line.Rows, ", ")
	switch {
	case line.Group == list.Structure || line.For("").Pieces == 0:
		return rows
	case rows == "":
		return j.Words.BareUnit
	}
	return j.Words.BareUnit + ", " + rows
}

// weight is a weight, or a dash for one that is not known.
func (j *Job) weight(m measure.Mass) string {
	if m == 0 {
		return "–"
	}
	return j.mass(m)
}

// packText is the packs to open, and of how many pieces they are.
func (j *Job) packText(line list.PickLine) string {
	switch {
	case line.Packs == 0:
		return strings.Replace(j.Words.CutList, " ", "\n", 1)
	case line.Part.Pack <= 1:
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
