package draw

import (
	"fmt"
	"strings"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

// foot is the strip at the bottom of a sheet: the title block, at most 180 mm
// wide where the sheet leaves room beside it (ISO 7200), and the notes with
// the check ruler beside or over it.
type foot struct {
	block, notes, ruler sheet.Rect
	field               sheet.Rect // what is left of the frame
}

const (
	blockWidth  = 180 * mm
	blockHeight = 20 * mm
	notesHeight = 10 * mm
	rulerWidth  = 62 * mm
)

func footOf(frame sheet.Rect) foot {
	f := foot{field: frame}
	bottom, left := frame.Max, frame.Min.X
	if wide(frame) < blockWidth+rulerWidth {
		f.block = box(left, bottom.Y-blockHeight, bottom.X, bottom.Y)
		top := f.block.Min.Y - notesHeight
		f.notes = box(left, top, bottom.X-rulerWidth, f.block.Min.Y)
		f.ruler = box(bottom.X-rulerWidth, top, bottom.X, f.block.Min.Y)
		f.field.Max.Y = top
		return f
	}
	f.block = box(bottom.X-blockWidth, bottom.Y-blockHeight, bottom.X, bottom.Y)
	f.ruler = box(left, bottom.Y-8*mm, f.block.Min.X, bottom.Y)
	f.notes = box(left, f.block.Min.Y, f.block.Min.X, bottom.Y-8*mm)
	f.field.Max.Y = f.block.Min.Y
	return f
}

// cell is one field of the title block.
type cell struct {
	label, value string
	share        measure.Length // of the block's width, in percent
	large        bool
}

// Finish draws the title block, once it is known which sheet of how many this is.
func (p *Page) Finish(n, of int) {
	j, pl := p.job, p.job.Unit.Plan
	p.line(p.foot.field.Min.X, p.foot.field.Max.Y, p.foot.field.Max.X, p.foot.field.Max.Y, pen(heavy))
	mid := (p.foot.block.Min.Y + p.foot.block.Max.Y) / 2
	upper, lower := p.foot.block, p.foot.block
	upper.Max.Y, lower.Min.Y = mid, mid
	p.cells(upper, []cell{
		{j.Words.Owner, pl.By, 28, false},
		{j.Words.PlanTitle, pl.Title, 47, true},
		{j.Words.Season, pl.Season, 25, false},
	})
	p.cells(lower, []cell{
		{j.Words.Drawing, p.Sheet.Title, 34, false},
		{j.Words.Scale, p.scaleText(), 22, false},
		{j.Words.RevisionDate, strings.TrimSpace(pl.Revision + " " + pl.Date), 16, false},
		{j.Words.PlanMark, j.Fingerprint, 14, false},
		{j.Words.Sheet, fmt.Sprintf(j.Words.SheetOf, n, of), 14, false},
	})
	p.line(p.foot.block.Min.X, mid, p.foot.block.Max.X, mid, pen(medium))
	p.outlineBox(p.foot.block, pen(heavy))
	p.cautionLine()
	p.checkRuler()
}

func (p *Page) scaleText() string {
	if p.scale == "" {
		return p.job.Words.NotToScale
	}
	return p.scale
}

func (p *Page) cells(r sheet.Rect, cells []cell) {
	x := r.Min.X
	for i, c := range cells {
		w := wide(r) * c.share / 100
		if i == len(cells)-1 {
			w = r.Max.X - x
		}
		if i > 0 {
			p.line(x, r.Min.Y, x, r.Max.Y, pen(medium))
		}
		p.cell(box(x, r.Min.Y, x+w, r.Max.Y), c)
		x += w
	}
}

// cell sets the label small at the top and the value under it: as large as it
// fits on one line, else on two lines of the smallest lettering.
func (p *Page) cell(r sheet.Rect, c cell) {
	x, width := r.Min.X+1500*micron, wide(r)-3*mm
	p.write(x, r.Min.Y+2800*micron, c.label, letter(fine).pale())
	s := letter(plain).strong()
	if c.large && letter(large).strong().width(c.value) <= width {
		s = letter(large).strong()
	}
	if s.width(c.value) <= width {
		p.write(x, r.Max.Y-2200*micron, c.value, s)
		return
	}
	s = letter(fine)
	lines := wrapTo(c.value, s, width, 2)
	for i, line := range lines {
		p.write(x, r.Max.Y-1200*micron-measure.Length(len(lines)-1-i)*2600*micron, line, s)
	}
}

// cautionLine is what every sheet says, whoever holds it.
func (p *Page) cautionLine() {
	r := p.foot.notes
	s := letter(fine)
	lines := wrap(p.job.cautionLine(), s, wide(r)-2*fieldMargin)
	pitch := s.pitch()
	y := (r.Min.Y+r.Max.Y-pitch*measure.Length(len(lines)))/2 + s.rise()
	for _, line := range lines {
		p.write(r.Min.X+fieldMargin, y, line, s)
		y += pitch
	}
}

func (j *Job) cautionLine() string {
	if j.foot != "" {
		return j.foot
	}
	if j.casters() {
		return j.Words.CasterLine + " " + j.Words.CautionLine
	}
	return j.Words.CautionLine
}

// checkRuler lets the crew see whether the sheet was printed at 100 %.
func (p *Page) checkRuler() {
	r := p.foot.ruler
	unit, n := measure.Inch, 2
	if p.job.system == measure.Millimetres {
		unit, n = 10*mm, 5
	}
	length := unit * measure.Length(n)
	x, y := r.Max.X-length-4*mm, r.Max.Y-1500*micron
	p.line(x, y, x+length, y, pen(medium))
	for i := range n + 1 {
		at := x + unit*measure.Length(i)
		p.line(at, y, at, y-1500*micron, pen(medium))
		p.write(at, y-2*mm, p.job.figure(unit*measure.Length(i)), letter(fine).middle())
	}
	p.write(x+length, y-4800*micron, fmt.Sprintf(p.job.Words.CheckRuler, p.job.unitName()), letter(fine).end())
}
