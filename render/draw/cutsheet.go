package draw

import (
	"slices"
	"strconv"

	"setwright/layout/measure"
	"setwright/layout/saw"
	"setwright/render/sheet"
)

const (
	ringLift     = 7 * mm        // from a sheet up to the numbers of crosscuts
	cutTop       = 10 * mm       // over a sheet: numbers of crosscuts
	cutNumber    = 2400 * micron // radius of the number of a cut
	cutTable     = 84 * mm       // what the table of cuts wants at least
	cutTableMost = 110 * mm      // and takes at most
	ringRoom     = 2*cutNumber + 1*mm
	besideRing   = 40 * mm       // a part this wide has its label beside the number of a cut, others under it
	innerChain   = 5500 * micron // what running figures inside a strip take
	innerLeast   = 13 * mm       // strips narrower than this have theirs in the table alone
	cutRunWidth  = 9 * mm        // from a sheet to the axis of its rips
)

// sheet draws one pattern of sheets: every part to scale, the first stage of cuts
// with running figures outside, the further ones inside, and a table of all cuts
// in sawing order.
func (c *cutFlow) sheet(p *saw.Plan, pat *saw.Pattern, head string) {
	v := view{den: c.den}
	strokes := pat.Strokes()
	var outer []saw.Stroke
	for _, k := range strokes {
		if k.Stage <= 1 {
			outer = append(outer, k)
		}
	}
	figures, under := c.running(outer, v)
	root := &pat.Root
	t := c.strokeTable(strokes)
	s := letter(plain).strong()
	drawn := cutTop + v.len(root.Width) + barChain + chainDrop + depthPitch*measure.Length(under+1) + 1*mm
	aside := c.area
	aside.Min.X += cutLeft + v.len(root.Length) + cutRight
	aside.Max.X = min(aside.Max.X, aside.Min.X+cutTableMost)
	beside := t.natural() <= wide(aside) && t.heightIn(wide(aside)) <= drawn*5/4
	height := s.pitch() + 1*mm + drawn
	if beside {
		height = max(height, s.pitch()+1*mm+t.heightIn(wide(aside)))
	}
	c.room(height + 2*letter(plain).pitch())
	c.page.scale = c.job.scaleName(c.den)
	c.page.write(c.area.Min.X, c.y+s.rise(), head, s)
	c.skip(s.pitch() + 1*mm)
	top := c.y
	v.origin = pt(c.area.Min.X+cutLeft, top+cutTop+v.len(root.Width))
	d := c.plate(p, pat, v)
	c.barFigures(figures, v)
	c.ripFigures(outer, v)
	c.numbers(outer, root, v)
	c.inner(d, strokes)
	c.partNames(pat, v)
	c.y = top + drawn
	if !beside {
		c.table(t.doubled(wide(c.area)))
		c.skip(1500 * micron)
		return
	}
	side := &flow{section: c.section, page: c.page, area: aside, y: top + cutTop}
	side.table(t)
	c.y = max(c.y, side.y+2*mm)
}

// doubled is a table in two halves side by side, if both go into a width.
func (t table) doubled(width measure.Length) table {
	if 2*t.natural()+4*cellGap > width || len(t.records) < 4 {
		return t
	}
	half := (len(t.records) + 1) / 2
	d := t
	d.columns = slices.Concat(t.columns, []column{{head: "  "}}, t.columns)
	d.records = nil
	for i := range half {
		r := record{cells: slices.Concat(t.records[i].cells, []string{""})}
		if half+i < len(t.records) {
			r.cells = append(r.cells, t.records[half+i].cells...)
		}
		d.records = append(d.records, r)
	}
	return d
}

// natural is the width of a table of which no column flexes.
func (t table) natural() measure.Length {
	st := t.set(0)
	last := len(st.widths) - 1
	return st.lefts[last] + st.widths[last]
}

// plate is a sheet while it is drawn: its parts, and the lettering in them.
type plate struct {
	*Page
	view
	parts, taken []sheet.Rect
}

// plate draws every part of a sheet with its label.
func (c *cutFlow) plate(p *saw.Plan, pat *saw.Pattern, v view) *plate {
	d := &plate{Page: c.page, view: v}
	pat.Root.Leaves(func(n *saw.Node) {
		r := v.box(n.X, n.X+n.Length, n.Y, n.Y+n.Width)
		d.parts = append(d.parts, r)
		d.cutFill(r, n.Kind)
	})
	pat.Root.Leaves(func(n *saw.Node) {
		if text := c.cutLabel(p, n, "\n"); text != "" {
			d.partLabel(v.box(n.X, n.X+n.Length, n.Y, n.Y+n.Width), text)
		}
	})
	return d
}

// free says whether lettering in r would stand inside one part and clear of all
// that is written already.
func (d *plate) free(r sheet.Rect) bool {
	inside := func(part sheet.Rect) bool { return within(r, part) }
	return slices.ContainsFunc(d.parts, inside) && !slices.ContainsFunc(d.taken, func(t sheet.Rect) bool { return meet(t, r) })
}

// partLabel writes a label in the middle of a part: on two lines or one, level or
// turned, whatever is the largest that fits; of one that fits no way, the mark.
// Where the part leaves room for it, the numbers and settings of cuts have theirs.
func (d *plate) partLabel(r sheet.Rect, text string) {
	if high(r) >= innerLeast {
		r.Max.Y -= innerChain
	}
	switch {
	case wide(r) >= besideRing:
		r.Min.X, r.Max.X = r.Min.X+ringRoom, r.Max.X-ringRoom
	case high(r) > 2*ringRoom+letter(plain).pitch():
		r.Min.Y += ringRoom
	}
	mark, size := cutLine(text)
	for _, try := range []struct {
		lines  []string
		height measure.Length
	}{
		{[]string{mark, size}, plain}, {[]string{mark + " · " + size}, plain}, {[]string{mark, size}, fine}, {[]string{mark + " · " + size}, fine}, {[]string{mark}, fine},
	} {
		s := letter(try.height).middle()
		w, h := measure.Length(0), s.pitch()*measure.Length(len(try.lines))
		for _, line := range try.lines {
			w = max(w, s.strong().width(line))
		}
		switch {
		case w <= wide(r) && h <= high(r):
			d.labelLines(r, try.lines, s)
			return
		case len(try.lines) == 1 && w <= high(r) && h <= wide(r):
			d.labelTurned(r, try.lines[0], s)
			return
		}
	}
}

func cutLine(text string) (first, second string) {
	for i, r := range text {
		if r == '\n' {
			return text[:i], text[i+1:]
		}
	}
	return text, ""
}

func (d *plate) labelLines(r sheet.Rect, lines []string, s style) {
	x := (r.Min.X + r.Max.X) / 2
	y := (r.Min.Y+r.Max.Y)/2 - s.pitch()*measure.Length(len(lines)-1)/2
	for i, line := range lines {
		as := s
		if i == 0 {
			as = s.strong()
		}
		at := y + s.pitch()*measure.Length(i)
		d.word(x, at+s.height/2, line, as)
	}
}

func (d *plate) labelTurned(r sheet.Rect, line string, s style) {
	x, y := (r.Min.X+r.Max.X)/2+s.height/2, (r.Min.Y+r.Max.Y)/2
	d.word(x, y, line, s.turned())
}

// word writes over whatever is drawn, and keeps other lettering off.
func (d *plate) word(x, y measure.Length, text string, s style) {
	r := inset(s.extent(x, y, text), -200*micron)
	d.taken = append(d.taken, r)
	d.fillBox(r, white())
	d.write(x, y, text, s)
}

// ripFigures draws the running figures of the rips of the first stage, up the left
// side of the sheet.
func (c *cutFlow) ripFigures(strokes []saw.Stroke, v view) {
	var ats []measure.Length
	for _, k := range strokes {
		if k.Way == saw.Rip && k.At > 0 {
			ats = append(ats, k.At)
		}
	}
	if len(ats) == 0 {
		return
	}
	top := v.y(slices.Max(ats)) - cutTop
	ats = clearOf(sorted(ats), v.origin.Y-top, depthPitch, v)
	p, x := c.page, v.origin.X-cutRunWidth+3*mm
	labels := make([]slotted, len(ats))
	for i, at := range ats {
		labels[len(ats)-1-i] = slotted{v.y(at), depthPitch}
	}
	middles := spread(labels, top, v.origin.Y)
	p.line(x, v.origin.Y, x, v.y(ats[len(ats)-1]), pen(hair))
	p.line(x, v.origin.Y, v.origin.X-500*micron, v.origin.Y, pencil(hair, 120))
	for i, at := range ats {
		y, middle := v.y(at), middles[len(ats)-1-i]
		p.line(x, y, v.origin.X-500*micron, y, pencil(hair, 120))
		p.line(x-600*micron, y, x-1800*micron, middle, pencil(hair, 120))
		p.slash(x, y)
		p.writeMid(x-2400*micron, middle, c.job.figure(at), letter(plain).end())
	}
	p.origin(x, v.origin.Y)
}

// clearOf drops places along a drawing until labels so far apart go into a room
// for them; they are sorted. What is dropped is in the table of cuts.
func clearOf(ats []measure.Length, room, pitch measure.Length, v view) []measure.Length {
	if pitch*measure.Length(len(ats)) <= room {
		return ats
	}
	kept := ats[:1:1]
	for _, at := range ats[1:] {
		if v.len(at-kept[len(kept)-1]) >= pitch {
			kept = append(kept, at)
		}
	}
	return kept
}

// numbers writes the numbers of the first cuts outside the sheet: of crosscuts
// over it, of rips right of it.
func (c *cutFlow) numbers(strokes []saw.Stroke, root *saw.Node, v view) {
	const pitch = 2*cutNumber + 300*micron
	top, right := v.y(root.Width), v.x(root.Length)
	ats, number := cutsOf(strokes, saw.Cross)
	lo, hi := v.x(0)-cutNumber, right+cutRight
	ats = clearOf(ats, hi-lo, pitch, v)
	labels := make([]slotted, len(ats))
	for i, at := range ats {
		labels[i] = slotted{v.x(at), pitch}
	}
	for i, x := range spread(labels, lo, hi) {
		c.page.line(v.x(ats[i]), top-500*micron, x, top-ringLift+cutNumber, pencil(hair, 120))
		c.page.cutNumber(x, top-ringLift, number[ats[i]])
	}
	ats, number = cutsOf(strokes, saw.Rip)
	lo, hi = top-cutNumber, v.origin.Y+3*mm
	ats = clearOf(ats, hi-lo, pitch, v)
	slices.Reverse(ats)
	labels = make([]slotted, len(ats))
	for i, at := range ats {
		labels[i] = slotted{v.y(at), pitch}
	}
	for i, y := range spread(labels, lo, hi) {
		c.page.line(right+500*micron, v.y(ats[i]), right+3*mm-cutNumber, y, pencil(hair, 120))
		c.page.cutNumber(right+3*mm, y, number[ats[i]])
	}
}

// cutsOf lists where the cuts of one way are, and the number of each.
func cutsOf(strokes []saw.Stroke, way saw.Way) (ats []measure.Length, number map[measure.Length]int) {
	number = map[measure.Length]int{}
	for _, k := range strokes {
		if k.Way == way {
			number[k.At] = k.Number
			ats = append(ats, k.At)
		}
	}
	return sorted(ats), number
}

// cutNumber is the number of a cut in its ring.
func (p *Page) cutNumber(x, y measure.Length, n int) {
	edge, fill := pen(thin), white()
	p.circle(x, y, cutNumber, &edge, &fill)
	p.writeMid(x, y, strconv.Itoa(n), letter(plain).middle())
}

// inner draws the further cuts where they are, as far as there is room: their
// numbers, and what stop or fence is set to. The table has them all.
func (c *cutFlow) inner(d *plate, strokes []saw.Stroke) {
	for _, k := range strokes {
		if k.Stage < 2 {
			continue
		}
		at := pt(d.x(k.To)-ringRoom/2, d.y(k.At)+ringRoom/2)
		if k.Way == saw.Rip {
			c.fence(d, k)
		} else {
			c.stop(d, k)
			at = pt(d.x(k.At)-ringRoom/2, d.y(k.To)+ringRoom/2)
		}
		ring := inset(sheet.Rect{Min: at, Max: at}, -cutNumber-200*micron)
		if d.free(ring) {
			d.cutNumber(at.X, at.Y, k.Number)
			d.taken = append(d.taken, ring)
		}
	}
}

// stop dimensions what a crosscut takes off, along the lower edge of its strip.
func (c *cutFlow) stop(d *plate, k saw.Stroke) {
	s, text := letter(plain).middle(), c.job.figure(k.Set)
	from, to, y := d.x(k.At-k.Set), d.x(k.At), d.y(k.From)-1500*micron
	room := inset(s.extent((from+to)/2, y-800*micron, text), -200*micron)
	if s.width(text)+3*mm > to-from || !d.free(room) {
		return
	}
	d.word((from+to)/2, y-800*micron, text, s)
	d.line(from, y, to, y, pen(hair))
	d.slash(from, y)
	d.slash(to, y)
}

// fence dimensions what a rip takes off, along the near end of its part.
func (c *cutFlow) fence(d *plate, k saw.Stroke) {
	s, text := letter(plain).middle().turned(), c.job.figure(k.Set)
	from, to, x := d.y(k.At-k.Set), d.y(k.At), d.x(k.From)+4*mm
	room := inset(s.extent(x-800*micron, (from+to)/2, text), -200*micron)
	if s.width(text)+3*mm > from-to || !d.free(room) {
		return
	}
	d.word(x-800*micron, (from+to)/2, text, s)
	d.line(x, from, x, to, pen(hair))
	d.slash(x, from)
	d.slash(x, to)
}

// partNames names the parts of the first stage that are cut on, at their ends.
func (c *cutFlow) partNames(pat *saw.Pattern, v view) {
	s := letter(plain).strong()
	for _, part := range pat.FirstParts() {
		n := part.Node
		switch {
		case part.Way == saw.Rip && v.len(n.Width) > s.pitch():
			c.page.writeMid(v.x(pat.Root.Length)+8*mm, v.y(n.Y+n.Width/2), part.Name, s)
		case part.Way == saw.Cross && v.len(n.Length) > s.width(part.Name)+1*mm:
			c.page.write(v.x(n.X+n.Length/2), v.y(pat.Root.Width)-1200*micron, part.Name, s.middle())
		}
	}
}

// strokeTable lists the cuts in sawing order.
func (c *cutFlow) strokeTable(strokes []saw.Stroke) table {
	w := c.job.Words
	t := table{space: tightSpace, columns: []column{
		{head: w.CutNumber, end: true}, {head: w.CutKind}, {head: w.CutOf}, {head: w.CutSet, end: true}, {head: w.CutFrom, end: true}}}
	for _, k := range strokes {
		way, of := w.CutRip, k.Of
		if k.Way == saw.Cross {
			way = w.CutCross
		}
		if k.Stage == 0 {
			way = w.CutSquare
		}
		if of == "" {
			of = w.CutWhole
		}
		t.records = append(t.records, record{cells: []string{strconv.Itoa(k.Number), way, of, c.job.figure(k.Set), c.job.figure(k.At)}})
	}
	return t
}
