package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/render/sheet"
)

// Cover draws the cover: title, pictorial, summary, index of the sheets that
// follow and cautions. Sheets are numbered as if the cover took no sheets but
// those it turns out to take.
func (j *Job) Cover(rest []*Page) []*Page {
	for n := 1; ; n++ {
		pages := j.cover(rest, n)
		if len(pages) <= n {
			return pages
		}
	}
}

func (j *Job) cover(rest []*Page, own int) []*Page {
	pl := j.Unit.Plan
	s := &section{job: j, name: "cover", title: j.Words.Cover, quiet: true}
	pg := s.upright()
	area := pg.Field
	area.Min.Y = pg.coverTitle(area, strings.TrimLeft(pl.Season+". "+j.Words.CoverUnder, ". "))
	left, right := area, area
	left.Max.X = area.Min.X + wide(area)*52/100
	right.Min.X = left.Max.X + 6*mm
	lower := max(j.index(rest, own).heightIn(wide(left)), itemsHeight(j.cautions(), wide(right)-bulletIndent)) + headSpace
	summed := pg.summary(box(area.Max.X-summaryWidth+4*mm, area.Min.Y, area.Max.X, area.Max.Y))
	picture := area
	picture.Max.Y = max(summed, area.Min.Y+max(high(area)*40/100, min(high(area)*3/4, high(area)-lower-6*mm)))
	picture.Max.X -= summaryWidth
	used := pg.pictorial(inset(picture, 2*mm))
	pg.write(used.Min.X, picture.Max.Y+2*mm, j.Words.PictorialNote, letter(plain).pale())

	left.Min.Y, right.Min.Y = picture.Max.Y+6*mm, picture.Max.Y+6*mm
	cautions := s.flowOn(pg, right)
	cautions.heading(j.Words.Cautions, 10*mm)
	for _, c := range j.cautions() {
		cautions.item("•", c, letter(plain), bulletIndent)
	}
	index := s.flowOn(pg, left)
	index.heading(j.Words.SheetIndex, 10*mm)
	t := j.index(rest, own)
	t.fit(wide(left), index.left())
	index.table(t)
	return s.pages
}

// cautions is what the cover and the unit build sheet say before anyone starts.
func (j *Job) cautions() []string {
	return j.Words.CautionList(j.casters(), j.Unit.Frame.Frame.Form != parts.WallForm)
}

// casters reports whether the unit rolls.
func (j *Job) casters() bool {
	return j.Unit.Stand != nil && j.Unit.Stand.Stand.Form == "casters"
}

const (
	summaryWidth = 62 * mm
	bulletIndent = 4 * mm
	headSpace    = 7500 * micron // what a heading takes
)

// coverTitle sets the whole title, however long, and a line under it, and
// returns the y under both.
func (p *Page) coverTitle(area sheet.Rect, under string) measure.Length {
	pl := p.job.Unit.Plan
	y := area.Min.Y - headingHeight + 1*mm
	s := letter(grand).strong()
	for _, line := range wrap(pl.Title, s, wide(area)) {
		p.write(area.Min.X, y+s.rise(), line, s)
		y += s.pitch()
	}
	return p.paragraph(area.Min.X, y, wide(area), under, letter(plain).pale()) + 3*mm
}

// summary is the unit in a few figures; it returns the y under them.
func (p *Page) summary(r sheet.Rect) measure.Length {
	j, w, sum := p.job, p.job.Words, p.job.summary
	b := j.Unit.Bare
	size := fmt.Sprintf("%s × %s × %s %s", j.figure(b.X1-b.X0), j.figure(b.Y1-b.Y0), j.figure(b.Z1-b.Z0), j.unitName())
	total := sum.Hardware + sum.Structure + sum.Goods
	rows := [][2]string{
		{w.Frame, j.partName(j.Unit.Frame, 0)}, {w.Stand, j.partName(j.Unit.Stand, 0)}, {w.SizeOver, size},
		{w.FacesDressed, fmt.Sprintf("%d / %d", sum.DressedFaces, sum.Faces)},
		{w.PartKinds, strconv.Itoa(sum.PartKinds)}, {w.Pieces, strconv.Itoa(sum.Pieces)},
		{w.Products, strconv.Itoa(sum.Products)}, {w.Positions, strconv.Itoa(sum.Positions)}, {w.UnitsHeld, strconv.Itoa(sum.Units)},
		{w.WeightStructure, j.mass(sum.Structure)}, {w.WeightHardware, j.mass(sum.Hardware)}, {w.WeightGoods, j.mass(sum.Goods)}, {w.WeightAll, j.mass(total)},
	}
	y := r.Min.Y
	p.write(r.Min.X, y+large, w.Summary, letter(large).strong())
	y += 6 * mm
	for _, row := range rows {
		y = p.pair(r, y, row[0], row[1])
	}
	return y
}

// pair sets a name and its value on one line, the value to the right, on
// lines of its own where both do not fit.
func (p *Page) pair(r sheet.Rect, y measure.Length, name, value string) measure.Length {
	if value == "" {
		return y
	}
	s, v := letter(plain), letter(plain).strong()
	p.write(r.Min.X, y+s.rise(), name, s)
	if s.width(name)+2*mm+v.width(value) > wide(r) {
		y += s.pitch()
	}
	for i, line := range wrapTo(value, v, wide(r), 2) {
		if i > 0 {
			y += s.pitch()
		}
		p.write(r.Max.X, y+s.rise(), line, v.end())
	}
	y += s.pitch()
	p.line(r.Min.X, y, r.Max.X, y, pencil(hair, 170))
	return y + 1200*micron
}

// index lists the sheets, each row a link; those one continues on share its row.
func (j *Job) index(rest []*Page, own int) table {
	t := table{columns: []column{{head: j.Words.Sheet, end: true}, {head: j.Words.Title, flex: 1}, {head: j.Words.Scale}}}
	for i := 0; i < len(rest); {
		p, last := rest[i], i
		for last+1 < len(rest) && rest[last+1].Sheet.Depth > 0 {
			last++
		}
		number := strconv.Itoa(own + i + 1)
		if last > i {
			number += "–" + strconv.Itoa(own+last+1)
		}
		scale, _, _ := strings.Cut(p.scale, " (")
		t.records = append(t.records, record{cells: []string{number, p.Sheet.Title, scale}, link: p.Sheet.Name})
		i = last + 1
	}
	return t
}
