package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"setwright/layout/buy"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// CompareJob is what the sheets of options side by side are drawn from: a Job in
// the manner of the first, and one for each option's own unit.
type CompareJob struct {
	*Job
	options []kit.Option
	jobs    []*Job
	found   []diag.Finding // about the plans together
}

// NewCompareJob gathers what the sheets need, of one option at least. Goods of
// one family have one hatch in all options.
func NewCompareJob(options []kit.Option, all, together []diag.Finding) *CompareJob {
	u := *options[0].Unit
	p := *u.Plan
	p.Season, p.Revision, p.Date = "", "", ""
	u.Plan = &p
	currency := ""
	for i := range options {
		currency = cmp.Or(currency, options[i].Unit.Plan.Currency)
	}
	j := &CompareJob{Job: NewJob(&u, stops(all), check.Report{}), options: options, found: graded(together)}
	p.Title = j.Words.Options
	var families []string
	for i := range options {
		o := *options[i].Unit
		plan := *o.Plan
		plan.Currency = cmp.Or(plan.Currency, currency)
		o.Plan = &plan
		own := NewJob(&o, nil, check.Report{})
		own.Words, own.system = j.Words, j.system
		families = append(families, own.families...)
		j.jobs = append(j.jobs, own)
	}
	slices.Sort(families)
	families = slices.Compact(families)
	for _, own := range j.jobs {
		own.families = families
	}
	return j
}

// mostBeside is how many options stand side by side on one sheet.
const mostBeside = 6

// Pages draws the options: their faces at one scale on all sheets, and their
// figures under them, or on sheets of their own where that leaves the faces too
// small.
func (j *CompareJob) Pages() []*Page {
	n := len(j.options)
	sheets := (n + mostBeside - 1) / mostBeside
	beside := (n + sheets - 1) / sheets
	g := j.grid(beside)
	s := &section{job: j.Job, name: "options", title: j.Words.Options, under: j.Words.OptionsUnder}
	figures := &section{job: j.Job, name: "option-figures", title: j.Words.OptionFigures, under: j.Words.OptionsUnder}
	var f *flow
	for from := 0; from < n; from += beside {
		to := min(n, from+beside)
		f = g.draw(s, from, to)
		if !g.together {
			p := figures.page(g.paper)
			f = figures.flowOn(p, p.Field)
		}
		f.table(j.optionTable(from, to))
	}
	f.skip(2 * mm)
	f.text(j.Words.SetupNote, letter(plain), 0)
	f.know(j.found)
	return append(s.pages, figures.pages...)
}

// optionGrid is where options stand on their sheets: each in a column of its
// own, its faces two by two.
type optionGrid struct {
	*CompareJob
	paper    paper
	den      int64
	beside   int  // options
	across   int  // faces of one option
	together bool // the figures stand under the faces
}

const (
	optionGap  = 5 * mm // between options
	faceGap    = 3 * mm // between the faces of a row
	captionTop = 5500 * micron
	floorRoom  = 3 * mm
	optionHead = 11 * mm // number and name
)

// grid finds the paper's way up and the largest scale for options so many side
// by side: with their figures under them if the faces are still legible then.
func (j *CompareJob) grid(beside int) optionGrid {
	legible := int64(48)
	if j.system == measure.Millimetres {
		legible = 50
	}
	up := j.paper()
	last := optionGrid{}
	for _, together := range []bool{true, false} {
		for _, den := range j.scales() {
			for _, p := range []paper{up, up.turned()} {
				for _, across := range []int{2, 4, 1} {
					last = optionGrid{j, p, den, beside, across, together}
					if (den <= legible || !together) && last.fits() {
						return last
					}
				}
			}
		}
	}
	return last
}

// fits says whether all options fit on their sheets.
func (g optionGrid) fits() bool {
	field := g.field(g.paper)
	for from := 0; from < len(g.options); from += g.beside {
		to := min(len(g.options), from+g.beside)
		room := high(field) - g.height(from, to)
		if g.together {
			t := g.optionTable(from, to)
			note := letter(plain)
			room -= t.heightIn(wide(field)) + 4*mm + note.pitch()*measure.Length(len(wrap(g.Words.SetupNote, note, wide(field))))
		}
		if room < 0 {
			return false
		}
		for i := from; i < to; i++ {
			if g.width(i) > g.column() {
				return false
			}
		}
	}
	return true
}

// column is the width of a column.
func (g optionGrid) column() measure.Length {
	return (wide(g.field(g.paper)) - optionGap*measure.Length(g.beside-1)) / measure.Length(g.beside)
}

// rows are an option's dressed faces, or all if none is, in rows.
func (g optionGrid) rows(option int) [][]*unit.Face {
	faces := g.jobs[option].dressed()
	if len(faces) == 0 {
		faces = g.jobs[option].Unit.Faces
	}
	return slices.Collect(slices.Chunk(faces, g.across))
}

// width is what an option's widest row takes.
func (g optionGrid) width(option int) measure.Length {
	var most measure.Length
	for _, row := range g.rows(option) {
		w := faceGap * measure.Length(len(row)-1)
		for _, f := range row {
			w += over(f.Width, g.den)
		}
		most = max(most, w)
	}
	return most
}

// rowHeights are the heights that the highest faces of the options from..to take,
// row by row and without captions: floors are level from option to option.
func (g optionGrid) rowHeights(from, to int) []measure.Length {
	var most []measure.Length
	for i := from; i < to; i++ {
		for n, row := range g.rows(i) {
			if n == len(most) {
				most = append(most, 0)
			}
			for _, f := range row {
				most[n] = max(most[n], over(tallest(f), g.den))
			}
		}
	}
	return most
}

// height is what the options from..to take, side by side.
func (g optionGrid) height(from, to int) measure.Length {
	h := optionHead
	for _, row := range g.rowHeights(from, to) {
		h += captionTop + row + floorRoom
	}
	return h
}

// draw draws the options from..to on a new sheet and returns where it goes on
// under them.
func (g optionGrid) draw(s *section, from, to int) *flow {
	p := s.page(g.paper)
	p.scale = g.scaleName(g.den)
	for i := from; i < to; i++ {
		x := p.Field.Min.X + (g.column()+optionGap)*measure.Length(i-from)
		if i > from {
			p.line(x-optionGap/2, p.Field.Min.Y, x-optionGap/2, p.Field.Min.Y+g.height(from, to), pencil(hair, 120))
		}
		g.option(p, i, x, g.rowHeights(from, to))
	}
	area := p.Field
	area.Min.Y += g.height(from, to) + 2*mm
	return s.flowOn(p, area)
}

// option draws one option from x on: its number and name, its faces in rows of
// those heights.
func (g optionGrid) option(p *Page, i int, x measure.Length, heights []measure.Length) {
	own := *p
	own.job = g.jobs[i]
	y := p.Field.Min.Y
	number := p.write(x, y+large, strconv.Itoa(i+1), letter(large).strong())
	for n, line := range wrapTo(g.options[i].Name, letter(plain), g.column()-wide(number)-2*mm, 2) {
		p.write(number.Max.X+2*mm, y+large+letter(plain).pitch()*measure.Length(n), line, letter(plain))
	}
	y += optionHead
	for n, row := range g.rows(i) {
		left := x
		floor := y + captionTop + heights[n]
		for _, f := range row {
			e := &elevation{Page: &own, face: f, zone: zones(f, 1)[0], view: view{pt(left, floor), g.den}}
			e.option()
			left += over(f.Width, g.den) + faceGap
		}
		y = floor + floorRoom
	}
}

// option draws a face as small as options are: without dimensions, its name
// over it, or the letter of its addresses where that has no room.
func (e *elevation) option() {
	x0, x1 := e.x(e.zone.x0), e.x(e.zone.x1)
	name := e.job.faceName(e.face.ID)
	if letter(fine).width(name) > x1-x0+faceGap-500*micron {
		name = e.face.Letter
	}
	e.write(x0, e.y(tallest(e.face))-1500*micron, name, letter(fine))
	e.line(x0, e.y(0), x1, e.y(0), pen(solid))
	e.standing()
	e.hardware(pale())
	for _, b := range e.blocks() {
		for _, r := range b.fronts {
			e.front(r, b.family, nil)
		}
	}
}

// optionTable is the figures of the options from..to, a column each.
func (j *CompareJob) optionTable(from, to int) table {
	w := j.Words
	t := table{space: tightSpace, columns: []column{{flex: 3}}}
	for i := from; i < to; i++ {
		t.columns = append(t.columns, column{head: strconv.Itoa(i + 1), flex: 2, end: true})
	}
	row := func(name string, value func(o *kit.Option, own *Job) string) {
		cells := []string{name}
		for i := from; i < to; i++ {
			cells = append(cells, value(&j.options[i], j.jobs[i]))
		}
		t.records = append(t.records, record{cells: cells})
	}
	count := func(name string, n func(o *kit.Option) int) {
		row(name, func(o *kit.Option, _ *Job) string { return strconv.Itoa(n(o)) })
	}
	row(w.PlanMark, func(o *kit.Option, _ *Job) string { return o.Mark })
	count(w.AllKinds, func(o *kit.Option) int { return o.AllKinds })
	count(w.AllPieces, func(o *kit.Option) int { return o.AllPieces })
	if slices.ContainsFunc(j.options, func(o kit.Option) bool { return o.Purchase.Priced() }) {
		row(w.WorthRow, func(o *kit.Option, own *Job) string {
			return own.known(&o.Purchase, o.Purchase.Worth, o.Purchase.Wants)
		})
		row(w.BuyRow, func(o *kit.Option, own *Job) string {
			return own.known(&o.Purchase, o.Purchase.Total, o.Purchase.Unpriced)
		})
		count("* "+w.WithoutPrice, func(o *kit.Option) int { return o.Purchase.Unpriced })
	}
	row(w.BareRow, func(o *kit.Option, _ *Job) string { return j.mass(o.Bare) })
	row(w.FullRow, func(o *kit.Option, _ *Job) string { return j.mass(o.Full) })
	row(w.ShelfRow, func(o *kit.Option, _ *Job) string { return j.length(o.Shelf) })
	row(w.RailRow, func(o *kit.Option, _ *Job) string { return j.length(o.Rail) })
	count(w.HooksRow, func(o *kit.Option) int { return o.Hooks })
	count(w.Positions, func(o *kit.Option) int { return o.Positions })
	count(w.Products, func(o *kit.Option) int { return o.Products })
	count(w.UnitsHeld, func(o *kit.Option) int { return o.Units })
	row(w.SetupRow, func(o *kit.Option, _ *Job) string { return fmt.Sprintf(w.Minutes, o.Minutes()) })
	for _, level := range []diag.Level{diag.Stop, diag.Caution, diag.Note} {
		count(w.Findings+": "+j.levelName(level), func(o *kit.Option) int { return o.Found[level] })
	}
	return t
}

// known is marked, or a dash where no price is known at all.
func (j *Job) known(p *buy.Purchase, sum measure.Money, without int) string {
	if !p.Priced() {
		return dash
	}
	return j.marked(sum, without)
}

// marked is a sum, marked if so many things it should be of have no price.
func (j *Job) marked(sum measure.Money, without int) string {
	if without > 0 {
		return j.sum(sum) + "\u00a0*"
	}
	return j.sum(sum)
}
