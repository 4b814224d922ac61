package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
	"setwright/render/sheet"
	"setwright/render/words"
)

// NewCutJob is a job for a cut list alone: there is no unit, only what a plan says
// of its sheets.
func NewCutJob(head *plan.Plan, cuts []saw.Plan) *Job {
	w := words.In(head.Language)
	return &Job{Unit: &unit.Unit{Plan: head}, Words: w, Cuts: cuts, system: head.Measure, foot: w.CutSafety}
}

// CutList draws how everything that is cut is sawn: bars first, then sheets,
// every drawing of a kind at one scale.
func (j *Job) CutList() []*Page { return j.cutsOf("", "", j.Cuts) }

// cutsOf draws the cutting of stock on sheets whose names and titles begin as
// given: bars, then sheets.
func (j *Job) cutsOf(name, title string, plans []saw.Plan) []*Page {
	var bars, sheets []*saw.Plan
	for i := range plans {
		if p := &plans[i]; p.Job.Sheet() {
			sheets = append(sheets, p)
		} else {
			bars = append(bars, p)
		}
	}
	pages := j.cutSection(name+"cut-bars", title+j.Words.CutBars, bars)
	return append(pages, j.cutSection(name+"cut-sheets", title+j.Words.CutSheets, sheets)...)
}

// cutSheet is the name of the first sheet of the cut list on which parts from a
// stock are, "" if none are.
func (j *Job) cutSheet(stock *parts.Stock) string {
	for i := range j.Cuts {
		if j.Cuts[i].Job.Stock != stock {
			continue
		}
		if j.Cuts[i].Job.Sheet() {
			return "cut-sheets"
		}
		return "cut-bars"
	}
	return ""
}

// cutLink leads from a line of the pick list to how it is cut.
func (j *Job) cutLink(line list.PickLine) string {
	if line.Part.Cut == nil {
		return ""
	}
	return j.cutSheet(line.Part.Cut.From)
}

// cutFlow sets cut lists.
type cutFlow struct {
	*flow
	job *Job
	den int64 // of all drawings on a sheet
}

func (j *Job) cutSection(name, title string, plans []*saw.Plan) []*Page {
	if len(plans) == 0 {
		return nil
	}
	s := &section{job: j, name: name, title: title, under: fmt.Sprintf(j.Words.CutUnder, j.unitName())}
	c := &cutFlow{job: j, flow: s.flowFresh()}
	c.legend()
	c.den = c.scale(plans)
	for i, p := range plans {
		if p.Job.Sheet() {
			den := c.scale(plans[i : i+1])
			if i > 0 && den != c.den {
				c.turn()
			}
			c.den = den
		}
		if i > 0 && c.y > c.area.Min.Y {
			c.skip(4 * mm)
		}
		c.plan(p)
	}
	return s.pages
}

// scale is the largest at which the longest bar fits, or the largest sheet: one
// that stands upright with the table of its cuts beside it, and so that two of
// them fit on large paper.
func (c *cutFlow) scale(plans []*saw.Plan) int64 {
	list := c.job.scales()
	for _, den := range list {
		fits := true
		for _, p := range plans {
			for _, u := range p.Used {
				width := over(u.Length, den) + 2*barSide
				if u.Width > 0 {
					width = over(u.Length, den) + cutLeft + cutRight
				}
				if u.Width > u.Length {
					width += cutTable
				}
				fits = fits && width <= wide(c.area) && over(u.Width, den)+cutSpare <= max(high(c.area)/2, cutHigh)
			}
		}
		if fits {
			return den
		}
	}
	return list[len(list)-1]
}

const (
	cutLeft  = 16 * mm // left of a drawing: the running figures of rips
	cutRight = 16 * mm // right of it: numbers of cuts and parts
	cutHigh  = 140 * mm
	cutSpare = 34 * mm // over and under it: heading, numbers, running figures
)

// legend says what the hatches mean.
func (c *cutFlow) legend() {
	x, s := c.area.Min.X, letter(plain)
	for _, l := range []struct {
		kind saw.Kind
		text string
	}{{saw.Kept, c.job.Words.CutLegendKeep}, {saw.Waste, c.job.Words.CutLegendWaste}, {saw.Trim, c.job.Words.CutLegendTrim}} {
		r := box(x, c.y, x+9*mm, c.y+4500*micron)
		c.page.cutFill(r, l.kind)
		x = c.page.writeMid(r.Max.X+1500*micron, c.y+2250*micron, l.text, s).Max.X + 8*mm
	}
	c.skip(8 * mm)
}

// cutFill draws a part in the hatch of what becomes of it.
func (p *Page) cutFill(r sheet.Rect, kind saw.Kind) {
	switch kind {
	case saw.Kept:
		p.fillBox(r, white())
		p.hatch(r, pattern{[]slope{{1, -1}}, 2200 * micron, false})
	case saw.Waste:
		p.fillBox(r, white())
		p.hatch(r, pattern{[]slope{{1, -1}, {1, 1}}, 1300 * micron, false})
	case saw.Trim:
		p.fillBox(r, grey(175))
	default:
		p.fillBox(r, white())
	}
	p.outlineBox(r, pen(medium))
}

// plan sets one stock: what it is, what it takes, its patterns, what is kept.
func (c *cutFlow) plan(p *saw.Plan) {
	name := p.Job.Stock.Name
	if name == "" {
		name = p.Job.Stock.ID
	}
	c.heading(name, 30*mm)
	c.text(c.rules(p), letter(plain), 0)
	c.skip(1 * mm)
	if len(p.Used) > 0 {
		c.table(c.stockTable(p))
		c.skip(1500 * micron)
		c.text(c.verdict(p), letter(plain).strong(), 0)
	}
	c.missing(p)
	for i := range p.Patterns {
		c.skip(4 * mm)
		c.pattern(p, &p.Patterns[i])
	}
	if offcuts := p.Offcuts(); len(offcuts) > 0 {
		c.skip(4 * mm)
		c.headed(c.job.Words.CutOffcuts, letter(plain).strong(), 14*mm)
		c.table(c.offcutTable(p, offcuts))
	}
}

// rules is what holds for every cut of a stock.
func (c *cutFlow) rules(p *saw.Plan) string {
	w, stock := c.job.Words, p.Job.Stock
	lines := []string{fmt.Sprintf(w.CutKerf, c.job.length(stock.Kerf))}
	trim, keep := w.CutTrimEnds, w.CutKeepBar
	if p.Job.Sheet() {
		trim, keep = w.CutTrimEdges, w.CutKeepSheet
	}
	if stock.Trim > 0 {
		lines = append(lines, fmt.Sprintf(trim, c.job.length(stock.Trim)))
	}
	switch {
	case stock.Grooves > 0:
		lines = append(lines, fmt.Sprintf(w.CutGrooves, c.job.length(stock.Grooves)))
	case stock.Grain && p.Job.Sheet():
		lines = append(lines, w.CutGrain)
	}
	if stock.Keep > 0 {
		lines = append(lines, fmt.Sprintf(keep, c.job.length(stock.Keep)))
	}
	return strings.Join(lines, " ")
}

// stockTable lists the bars or sheets to take and to buy.
func (c *cutFlow) stockTable(p *saw.Plan) table {
	w := c.job.Words
	t := table{space: tightSpace, columns: []column{{tick: true}, {head: w.Size}, {head: w.CutStockroom, end: true}, {head: w.CutBuy, end: true}}}
	if p.Priced {
		t.columns = append(t.columns, column{head: w.CutEach, end: true}, column{head: w.CutSum, end: true})
	}
	for _, u := range p.Used {
		r := record{cells: []string{"", c.job.cutSize(u.Length, u.Width), blankZero(u.OnHand), blankZero(u.Bought)}}
		if each, sum, ok := p.Price(u); ok && u.Bought > 0 {
			r.cells = append(r.cells, c.job.sum(each), c.job.sum(sum))
		}
		t.records = append(t.records, r)
	}
	return t
}

func blankZero(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

// cutSize is the size of a bar, a sheet or a piece of one.
func (j *Job) cutSize(length, width measure.Length) string {
	if width == 0 {
		return j.length(length)
	}
	return j.figure(length) + " × " + j.length(width)
}

// sum is a sum of money with the plan's currency.
func (j *Job) sum(m measure.Money) string { return j.Words.Money(m.String(), j.Unit.Plan.Currency) }

// verdict is what the stock costs, and how far from the least that may be.
func (c *cutFlow) verdict(p *saw.Plan) string {
	w, over := c.job.Words, c.job.Words.Decimal(perHundred(p.Over))
	text := ""
	switch {
	case !p.Buys():
		text = w.CutAllOnHand
	case p.Priced && p.Proven:
		text = fmt.Sprintf(w.CutProven, c.job.sum(p.Cost))
	case p.Priced && p.Over >= 0:
		text = fmt.Sprintf(w.CutWithin, c.job.sum(p.Cost), over)
	case p.Priced:
		text = fmt.Sprintf(w.CutOpen, c.job.sum(p.Cost))
	case p.Proven:
		text = w.CutLeastProven
	case p.Over >= 0:
		text = fmt.Sprintf(w.CutLeastWithin, over)
	default:
		text = w.CutLeastOpen
	}
	return text + " " + fmt.Sprintf(w.CutUsed, w.Decimal(perHundred(p.Yield()/10*10)))
}

// perHundred writes hundredths of a per cent as per cent, to a tenth, rounded up.
func perHundred(n int) string {
	n = (n + 9) / 10
	return fmt.Sprintf("%d.%d", n/10, n%10)
}

// missing says what the stock runs out for, and what would do.
func (c *cutFlow) missing(p *saw.Plan) {
	if !p.Short() {
		return
	}
	w := c.job.Words
	var pieces, sizes []string
	for i, n := range p.Missing {
		if n > 0 {
			pieces = append(pieces, fmt.Sprintf(w.CutMissingOf, n, p.Job.Pieces[i].Mark+" · "+c.job.cutSize(p.Job.Pieces[i].Length, p.Job.Pieces[i].Width)))
		}
	}
	text := fmt.Sprintf(w.CutMissing, strings.Join(pieces, "; "))
	for _, u := range p.ToBuy {
		sizes = append(sizes, fmt.Sprintf("%d × %s", u.Bought, c.job.cutSize(u.Length, u.Width)))
	}
	if len(sizes) > 0 {
		text += " " + fmt.Sprintf(w.CutToBuy, strings.Join(sizes, ", "))
	}
	c.skip(1500 * micron)
	c.text(text, letter(plain).strong(), 0)
}

// offcutTable lists what to keep, as the stock file has it.
func (c *cutFlow) offcutTable(p *saw.Plan, list []saw.Offcut) table {
	w := c.job.Words
	t := table{space: tightSpace, columns: []column{{tick: true}, {head: w.CutOffcutName}, {head: w.Part}, {head: w.CutLength, end: true}}}
	if p.Job.Sheet() {
		t.columns = append(t.columns, column{head: w.CutWidth, end: true})
	}
	t.columns = append(t.columns, column{head: w.Quantity, end: true})
	for _, o := range list {
		cells := []string{"", o.Name, p.Job.Stock.ID, c.job.length(o.Length)}
		if p.Job.Sheet() {
			cells = append(cells, c.job.length(o.Width))
		}
		t.records = append(t.records, record{cells: append(cells, strconv.Itoa(o.Count))})
	}
	return t
}

// pattern draws one pattern under its heading, and over what to write on its
// pieces.
func (c *cutFlow) pattern(p *saw.Plan, pat *saw.Pattern) {
	u := p.Used[pat.Use]
	head := fmt.Sprintf(c.job.Words.CutPattern, pat.Number, pat.Times, c.job.cutSize(u.Length, u.Width))
	if p.Job.Sheet() {
		c.sheet(p, pat, head)
	} else {
		c.bar(p, pat, head)
	}
	if text := c.marks(p, pat); text != "" {
		c.text(text, letter(plain), 0)
	}
}

// marks lists what to write on the pieces in running order, one bar or sheet
// after another.
func (c *cutFlow) marks(p *saw.Plan, pat *saw.Pattern) string {
	var words []string
	named := false
	for time := range pat.Times {
		var run []string
		count := 0
		last := ""
		flush := func() {
			switch {
			case count == 1:
				run = append(run, last)
			case count > 1:
				run = append(run, fmt.Sprintf("%d × %s", count, last))
			}
		}
		pat.Root.Leaves(func(n *saw.Node) {
			if n.Kind != saw.Wanted {
				return
			}
			mark := p.Job.Pieces[n.Piece].Mark
			if len(n.Where) > 0 {
				mark, named = mark+"\u00a0"+n.Where[time], true
			}
			if mark != last {
				flush()
				last, count = mark, 0
			}
			count++
		})
		flush()
		words = append(words, strings.Join(run, ", "))
	}
	if !named {
		return ""
	}
	return fmt.Sprintf(c.job.Words.CutMarks, strings.Join(words, "; "+c.job.Words.CutNext+" "))
}
