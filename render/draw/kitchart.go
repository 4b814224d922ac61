package draw

import (
	"fmt"
	"strconv"

	"setwright/layout/kit"
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// chart is the chart of part by season: a line a part, a column a season, in
// each field a bar of what is owned.
type chart struct {
	*KitJob
	section *section
	page    *Page
	y       measure.Length
	from    int            // the first season shown
	shown   int            // how many are
	cell    measure.Length // from one column to the next
}

const (
	chartRow   = 7400 * micron
	chartDrop  = 4100 * micron // of the bar under the top of its line
	chartBar   = 2500 * micron
	chartHead  = 5600 * micron // of a group
	chartGap   = 3 * mm        // between columns
	chartLeast = 15 * mm
	chartName  = 44 * mm
	chartMost  = 34 * mm // wider columns tell no more
)

// Chart draws which part each season uses, how many lie idle and how many come
// before it.
func (j *KitJob) Chart() []*Page {
	c := &chart{KitJob: j, section: &section{job: j.Job, name: "part-by-season", title: j.Words.KitChart, under: j.Words.ChartUnder}}
	paper := j.paper()
	least := chartLeast
	for i := range j.kit.Lines {
		for season := range j.kit.Seasons {
			used, come := chartFigures(&j.kit.Lines[i], season)
			least = max(least, letter(fine).strong().width(used)+letter(fine).strong().width(come)+chartGap+2*mm)
		}
	}
	fit := func() int { return max(1, int((wide(j.field(paper))-chartName)/least)) }
	if fit() < len(j.kit.Seasons) {
		paper = paper.turned()
	}
	for n := len(j.kit.Seasons); c.from < n; c.from += c.shown {
		c.shown = min(fit(), n-c.from)
		c.cell = min(chartMost, (wide(j.field(paper))-chartName)/measure.Length(c.shown))
		c.lines(paper)
	}
	return c.section.pages
}

// chartFigures are the words of one field: used, with what is idle, and what
// comes before the season.
func chartFigures(l *kit.Line, season int) (used, come string) {
	used = strconv.Itoa(l.Used[season])
	if n := l.Idle(season); n > 0 {
		used += fmt.Sprintf(" (%d)", n)
	}
	if n := l.Come[season]; n > 0 {
		come = "+" + strconv.Itoa(n)
	}
	return used, come
}

// lines draws all parts for the seasons shown, about as many on each sheet, a
// new one at the head of a group if it can be.
func (c *chart) lines(paper paper) {
	c.turn(paper)
	room, total := c.page.Field.Max.Y-c.y, measure.Length(0)
	for i := range c.kit.Lines {
		total += c.height(i)
	}
	even := total / ((total + room - 1) / room)
	top := c.y
	for i := range c.kit.Lines {
		if c.y+c.height(i) > c.page.Field.Max.Y || c.leads(i) && c.y-top >= even {
			c.turn(paper)
			top = c.y
		}
		if c.leads(i) {
			c.page.write(c.page.Field.Min.X, c.y+chartHead-1300*micron, c.groupName(c.kit.Lines[i].Group), letter(plain).strong())
			c.y += chartHead
			c.page.line(c.page.Field.Min.X, c.y, c.x(c.shown)-chartGap, c.y, pen(thin))
		}
		c.line(&c.kit.Lines[i])
	}
}

// leads says whether a line is the first of its group.
func (c *chart) leads(i int) bool {
	return i == 0 || c.kit.Lines[i].Group != c.kit.Lines[i-1].Group
}

// height is that of a line, with the heading of its group if it leads it.
func (c *chart) height(i int) measure.Length {
	if c.leads(i) {
		return chartRow + chartHead
	}
	return chartRow
}

// turn begins a sheet: the key to the bars, then the seasons over their columns.
func (c *chart) turn(paper paper) {
	c.page = c.section.page(paper)
	c.y = c.page.Field.Min.Y
	x := c.page.Field.Min.X
	for _, k := range []struct {
		draw func(sheet.Rect)
		text string
	}{{c.used, c.Words.KeyUsed}, {c.idle, c.Words.KeyIdle}, {c.come, c.Words.KeyCome}} {
		r := box(x, c.y+1*mm, x+9*mm, c.y+1*mm+chartBar)
		k.draw(r)
		x = c.page.writeMid(r.Max.X+1500*micron, (r.Min.Y+r.Max.Y)/2, k.text, letter(plain)).Max.X + 7*mm
	}
	c.y += 8 * mm
	s := letter(fine)
	lines := 0
	for i := range c.shown {
		season := c.from + i
		c.page.write(c.x(i), c.y+3*mm, strconv.Itoa(season+1), letter(plain).strong())
		name := wrapTo(c.kit.Seasons[season].Name, s, c.cell-chartGap, 4)
		for n, text := range name {
			c.page.write(c.x(i), c.y+4500*micron+s.pitch()*measure.Length(n)+s.rise(), text, s)
		}
		lines = max(lines, len(name))
	}
	c.y += 5500*micron + s.pitch()*measure.Length(lines)
	c.page.line(c.page.Field.Min.X, c.y, c.x(c.shown)-chartGap, c.y, pen(solid))
	c.y += 1 * mm
}

// x is the left edge of a column.
func (c *chart) x(column int) measure.Length {
	return c.page.Field.Min.X + chartName + c.cell*measure.Length(column)
}

// line draws one part.
func (c *chart) line(l *kit.Line) {
	s := letter(fine)
	left := c.page.Field.Min.X
	c.page.write(left+5*mm, c.y+800*micron+s.rise(), strconv.Itoa(l.Item), s.strong().end())
	for n, text := range wrapTo(c.partName(l.Part, l.Cut), s, chartName-9*mm, 2) {
		c.page.write(left+6500*micron, c.y+800*micron+s.rise()+s.pitch()*measure.Length(n), text, s)
	}
	most := 1
	for season := range c.kit.Seasons {
		most = max(most, l.Owned(season), l.Used[season])
	}
	for i := range c.shown {
		c.field(l, c.from+i, c.x(i), most)
	}
	c.y += chartRow
	c.page.line(left, c.y, c.x(c.shown)-chartGap, c.y, pencil(hair, 170))
}

// field draws the bar of a part in a season, its figures over it. As long as a
// column is wide stands for the most that any season owns of the part.
func (c *chart) field(l *kit.Line, season int, x measure.Length, most int) {
	s := letter(fine)
	used, come := chartFigures(l, season)
	right := x + c.cell - chartGap
	c.page.write(x, c.y+800*micron+s.rise(), used, s.strong())
	c.page.write(right, c.y+800*micron+s.rise(), come, s.strong().end())
	bar := func(from, to int) sheet.Rect {
		at := func(n int) measure.Length { return x + share(right-x, int64(n), int64(most)) }
		return box(at(from), c.y+chartDrop, at(to), c.y+chartDrop+chartBar)
	}
	n, owned := l.Used[season], max(l.Owned(season), l.Used[season])
	if owned == 0 {
		c.page.line(x, c.y+chartDrop+chartBar, right, c.y+chartDrop+chartBar, pencil(hair, 150))
		return
	}
	if owned > n {
		c.idle(bar(n, owned))
	}
	if n > 0 {
		c.used(bar(0, n))
	}
	if l.Come[season] > 0 {
		c.come(bar(owned-l.Come[season], owned))
	}
}

// used, idle and come draw the parts of a bar, apart also without colour: solid
// grey, hatched, and a heavy line under what is new.
func (c *chart) used(r sheet.Rect) { c.page.solidBox(r, pen(thin), grey(190)) }

func (c *chart) idle(r sheet.Rect) {
	c.page.fillBox(r, white())
	c.page.rule(r, slope{1, -1}, 1400*micron, pencil(hair, 60))
	c.page.outlineBox(r, pen(thin))
}

func (c *chart) come(r sheet.Rect) {
	c.page.line(r.Min.X, r.Max.Y+350*micron, r.Max.X, r.Max.Y+350*micron, pen(border))
}
