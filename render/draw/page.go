package draw

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

// Page is one sheet while it is drawn: the sheet, the area left for drawing,
// and what its title block will say.
type Page struct {
	Sheet *sheet.Sheet
	Field sheet.Rect

	job   *Job
	paper paper
	scale string // as printed, "" for a sheet without a drawing
	foot  foot
}

// paper is a sheet size, upright.
type paper struct {
	width, height measure.Length
	left, other   measure.Length // margins from edge to frame
}

// paperOf returns a sheet size by its name in the plan: ISO 216 sizes with the
// margins of ISO 5457 (20 mm for filing on the left, 10 mm elsewhere), inch
// sizes A and B of ASME Y14.1 with 1/2 in on the left and 3/8 in elsewhere.
func paperOf(name string) paper {
	const in = measure.Inch
	switch name {
	case "a4":
		return paper{210 * mm, 297 * mm, 20 * mm, 10 * mm}
	case "a3":
		return paper{297 * mm, 420 * mm, 20 * mm, 10 * mm}
	case "tabloid":
		return paper{11 * in, 17 * in, in / 2, in * 3 / 8}
	}
	return paper{17 * in / 2, 11 * in, in / 2, in * 3 / 8}
}

func (p paper) turned() paper { p.width, p.height = p.height, p.width; return p }

// frame is the rectangle inside the margins.
func (p paper) frame() sheet.Rect {
	return box(p.left, p.other, p.width-p.other, p.height-p.other)
}

// field is what is left for drawing on such a sheet, under a heading.
func (j *Job) field(p paper) sheet.Rect {
	r := footOf(p.frame()).field
	if j.stop {
		r.Min.Y += bandHeight
	}
	r = inset(r, fieldMargin)
	r.Min.Y += headingHeight
	return r
}

const (
	fieldMargin   = 2 * mm
	headingHeight = 13 * mm
	bandHeight    = 9 * mm
)

func (j *Job) paper() paper { return paperOf(j.Unit.Plan.Paper) }

// newPage starts a sheet on the given paper. Name must be unique in the pack.
func (j *Job) newPage(p paper, name, title string) *Page {
	pg := &Page{
		Sheet: &sheet.Sheet{Name: name, Title: title, Width: p.width, Height: p.height, Items: make([]sheet.Item, 0, 256)},
		job:   j,
		paper: p,
		foot:  footOf(p.frame()),
	}
	frame := p.frame()
	pg.outlineBox(frame, pen(border))
	if j.stop {
		pg.band(frame)
	}
	pg.Field = j.field(p)
	return pg
}

// heading writes the sheet's title and a line under it.
func (p *Page) heading(under string) {
	x, y := p.Field.Min.X, p.Field.Min.Y-headingHeight
	p.write(x, y+5*mm, p.Sheet.Title, letter(large).strong())
	for _, line := range wrapTo(under, letter(plain), wide(p.Field), 1) {
		p.write(x, y+10*mm, line, letter(plain).pale())
	}
}

// band marks a sheet that must not be built from.
func (p *Page) band(frame sheet.Rect) {
	r := sheet.Rect{Min: frame.Min, Max: pt(frame.Max.X, frame.Min.Y+bandHeight)}
	p.solidBox(r, pen(border), grey(235))
	p.writeMid((r.Min.X+r.Max.X)/2, (r.Min.Y+r.Max.Y)/2, p.job.Words.NotForConstruction, letter(grand).strong().middle())
}

// section is a run of sheets of one kind: its first sheet has the plain name
// and title, the ones it continues on are numbered and bookmarked under it.
type section struct {
	job         *Job
	name, title string
	under       string
	quiet       bool // the first sheet has no heading of its own
	pages       []*Page
}

// page adds the next sheet of the section.
func (s *section) page(p paper) *Page {
	name, title, depth := s.name, s.title, 0
	if n := len(s.pages); n > 0 {
		name = fmt.Sprintf("%s-%d", s.name, n+1)
		title = fmt.Sprintf(s.job.Words.Continued, s.title, n+1)
		depth = 1
	}
	pg := s.job.newPage(p, name, title)
	pg.Sheet.Depth = depth
	if !s.quiet || len(s.pages) > 0 {
		pg.heading(s.under)
	}
	s.pages = append(s.pages, pg)
	return pg
}

// upright adds an upright sheet.
func (s *section) upright() *Page { return s.page(s.job.paper()) }
