package draw

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/layout/unit"
)

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
	f.room(15 * mm)
	w := f.section.job.Words
	f.fields(field{role, 45}, field{w.Signature, 35}, field{w.Date, 20})
	f.skip(2 * mm)
}

// field is a box to be filled in by hand: its label, and its share of the width
// in per cent.
type field struct {
	label string
	share measure.Length
}

// fields is a row of boxes to be filled in by hand.
func (f *flow) fields(row ...field) {
	const h = 13 * mm
	x := f.area.Min.X
	for _, b := range row {
		r := box(x, f.y, x+wide(f.area)*b.share/100, f.y+h)
		f.page.outlineBox(r, pen(thin))
		f.page.write(r.Min.X+1500*micron, r.Min.Y+3500*micron, b.label, letter(plain).pale())
		x = r.Max.X
	}
	f.skip(h)
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
