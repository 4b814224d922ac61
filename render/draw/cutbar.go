package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"setwright/layout/measure"
	"setwright/layout/saw"
	"setwright/render/sheet"
)

const (
	barSide      = 8 * mm        // left and right of a bar
	barLift      = 8 * mm        // from a bar up to the labels over it
	cutBarHeight = 7 * mm        // a bar is drawn as long as it is, but not as wide
	barChain     = 3500 * micron // from a bar to the line of its running figures
	cutPad       = 1000 * micron // round the label of a part
	cutFigure    = 800 * micron  // between running figures on one level
)

// label is what is written on a part of a drawing, or on a run of parts alike
// that are too short for it: that stands over the bar, with a leader.
type label struct {
	box   sheet.Rect // of the part, or of all parts of the run, from the bar's left end
	text  string
	style style
	over  bool
}

// bar draws one pattern of bars: the parts in the bar, their running figures
// under it, and over it what finds no room inside.
func (c *cutFlow) bar(p *saw.Plan, pat *saw.Pattern, head string) {
	v := view{den: c.den}
	labels := c.barLabels(p, pat, v)
	figures, under := c.running(pat.Strokes(), v)
	s := letter(plain).strong()
	above := measure.Length(0)
	if slices.ContainsFunc(labels, func(l label) bool { return l.over }) {
		above = barLift
	}
	below := cutBarHeight + barChain + chainDrop + depthPitch*measure.Length(under+1) + 1*mm
	c.room(s.pitch() + 1*mm + above + below + letter(plain).pitch())
	c.page.scale = c.job.scaleName(c.den)
	c.page.write(c.area.Min.X, c.y+s.rise(), head, s)
	c.skip(s.pitch() + 1*mm + above)
	v.origin = pt(c.area.Min.X+barSide, c.y+cutBarHeight)
	pat.Root.Leaves(func(n *saw.Node) {
		c.page.cutFill(box(v.x(n.X), c.y, v.x(n.X+n.Length), c.y+cutBarHeight), n.Kind)
	})
	c.barText(labels, v)
	c.barFigures(figures, v)
	c.y += below
}

// barLabels are the labels of the parts of a bar.
func (c *cutFlow) barLabels(p *saw.Plan, pat *saw.Pattern, v view) []label {
	var list []label
	run := 0
	pat.Root.Leaves(func(n *saw.Node) {
		text := c.cutLabel(p, n, " · ")
		if text == "" {
			return
		}
		l := label{box: box(v.len(n.X), 0, v.len(n.X+n.Length), cutBarHeight), text: text, style: letter(plain)}
		if l.style.width(text)+cutPad > wide(l.box) {
			l.style = letter(fine)
		}
		if l.style.width(text)+cutPad <= wide(l.box) {
			list, run = append(list, l), 0
			return
		}
		l.style, l.over = letter(plain), true
		if last := len(list) - 1; run > 0 && strings.HasSuffix(list[last].text, text) {
			run++
			list[last].box.Max.X = l.box.Max.X
			list[last].text = fmt.Sprintf("%d × %s", run, text)
			return
		}
		list, run = append(list, l), 1
	})
	return list
}

// cutLabel is what a part is called on the drawing: its mark and size, or under
// what name it is kept.
func (c *cutFlow) cutLabel(p *saw.Plan, n *saw.Node, between string) string {
	switch n.Kind {
	case saw.Wanted:
		return p.Job.Pieces[n.Piece].Mark + between + c.plainSize(n)
	case saw.Kept:
		return n.Name + between + c.plainSize(n)
	}
	return ""
}

// plainSize is a size without its unit.
func (c *cutFlow) plainSize(n *saw.Node) string {
	if n.Width == 0 {
		return c.job.figure(n.Length)
	}
	return c.job.figure(n.Length) + " × " + c.job.figure(n.Width)
}

// barText writes the labels. Those over the bar stand side by side, as near to
// their parts as they can, each with a leader; where there are too many their
// lettering is small.
func (c *cutFlow) barText(labels []label, v view) {
	var over []slotted
	s, total := letter(plain), measure.Length(0)
	for _, l := range labels {
		if l.over {
			total += s.width(l.text) + cellGap
		}
	}
	if total > wide(c.area) {
		s = letter(fine)
	}
	for _, l := range labels {
		x := v.origin.X + (l.box.Min.X+l.box.Max.X)/2
		if l.over {
			over = append(over, slotted{x, s.width(l.text) + cellGap})
			continue
		}
		c.page.fillBox(inset(l.style.middle().extent(x, c.y+cutBarHeight/2+l.style.height/2, l.text), 100*micron), white())
		c.page.writeMid(x, c.y+cutBarHeight/2, l.text, l.style.middle())
	}
	places, next := spread(over, c.area.Min.X, c.area.Max.X), 0
	for _, l := range labels {
		if !l.over {
			continue
		}
		from, to := pt(places[next], c.y-barLift+s.height+900*micron), pt(over[next].want, c.y+cutBarHeight/2)
		next++
		ink := black()
		c.page.line(from.X, from.Y, to.X, to.Y, pen(hair))
		c.page.circle(to.X, to.Y, 450*micron, nil, &ink)
		c.page.write(from.X, c.y-barLift+s.height, l.text, s.middle())
	}
}

// running is the figure of one cut, and its level under the line.
type running struct {
	at    measure.Length
	level int
}

// running gives the figures of crosscuts their levels.
func (c *cutFlow) running(strokes []saw.Stroke, v view) (list []running, deepest int) {
	var labels []slotted
	for _, k := range strokes {
		if k.Way == saw.Cross && k.At > 0 {
			list = append(list, running{at: k.At})
		}
	}
	slices.SortFunc(list, func(a, b running) int { return cmp.Compare(a.at, b.at) })
	list = slices.Compact(list)
	for _, r := range list {
		labels = append(labels, slotted{v.len(r.at), letter(plain).width(c.job.figure(r.at))})
	}
	level, _ := stagger(labels, len(labels), cutFigure)
	for i := range list {
		list[i].level = level[i]
		deepest = max(deepest, level[i])
	}
	return list, deepest
}

// barFigures draws the running figures under a bar, or under a sheet's crosscuts.
func (c *cutFlow) barFigures(list []running, v view) {
	p, bottom := c.page, v.origin.Y
	y := bottom + barChain
	s := letter(plain).middle()
	p.writeMid(v.origin.X-2500*micron, y, "0", letter(plain).end())
	if len(list) == 0 {
		return
	}
	p.line(v.x(0), bottom+500*micron, v.x(0), y, pencil(hair, 120))
	p.line(v.x(0), y, v.x(list[len(list)-1].at), y, pen(hair))
	for _, r := range list {
		x := v.x(r.at)
		base := y + chainDrop + 500*micron + plain + depthPitch*measure.Length(r.level)
		p.line(x, bottom+500*micron, x, max(y, base-plain-500*micron), pencil(hair, 120))
	}
	for _, r := range list {
		x := v.x(r.at)
		p.slash(x, y)
		base := y + chainDrop + 500*micron + plain + depthPitch*measure.Length(r.level)
		text := c.job.figure(r.at)
		p.fillBox(inset(s.extent(x, base, text), -100*micron), white())
		p.write(x, base, text, s)
	}
	p.origin(v.x(0), y)
}
