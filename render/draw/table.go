package draw

import (
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// column is one column of a table. It is as wide as its widest cell; if that
// is more than there is, those that flex share what the others leave, by
// their weights, and wrap.
type column struct {
	head string
	flex int
	end  bool // figures: set to the right
	tick bool // a box to tick in every row
	flag bool // the number of a finding, in its flag

	small bool // its cells are in fine lettering
}

// record is one row of a table, a cell a column; a cell may hold newlines.
// With only a group it is a heading across the table, with only a frame a
// paragraph in one.
type record struct {
	group  string
	framed string
	cells  []string
	link   string // the sheet the row leads to
	bold   bool
}

type table struct {
	columns []column
	records []record
	height  measure.Length // of the lettering; 0 is plain
	space   measure.Length // between rows; 0 is rowSpace
}

const (
	keptLines = 6 // of a row that is split, at its head

	cellGap    = 3 * mm // between columns
	tightSpace = 900 * micron
	headMin    = 22 * mm       // wider heads of columns that flex may wrap
	rowSpace   = 1800 * micron // between the lines of one row and the next
)

// setTable is a table with its column widths worked out.
type setTable struct {
	table
	style  style
	heads  [][]string // the column heads, wrapped
	lefts  []measure.Length
	widths []measure.Length
	width  measure.Length
}

// table draws a table, with its head again on every sheet it goes on to.
func (f *flow) table(t table) {
	st := t.set(wide(f.area))
	f.room(st.headHeight() + 2*st.style.pitch() + st.space)
	st.head(f)
	for i, r := range t.records {
		if r.group != "" {
			keep := st.rowHeight(1)
			if f.left() < keep+st.least(i+1) {
				f.turn()
				st.head(f)
			}
			f.page.write(f.area.Min.X, f.y+st.space*2/3+st.style.rise(), r.group, st.style.strong())
			f.y += keep
			f.page.line(f.area.Min.X, f.y, f.area.Min.X+st.width, f.y, pencil(hair, 170))
			continue
		}
		if r.framed != "" {
			f.framed(r.framed)
			continue
		}
		if i+1 < len(t.records) && t.records[i+1].framed != "" && f.left() < st.least(i)+st.least(i+1) {
			f.turn()
			st.head(f)
		}
		st.row(f, &t.records[i])
	}
}

// least is the room that a record needs on the sheet it begins on: all of it, or
// the lines that are kept together of a long row.
func (st *setTable) least(i int) measure.Length {
	if i == len(st.records) {
		return 0
	}
	r := &st.records[i]
	switch {
	case r.framed != "":
		return framedHeight(r.framed, st.width)
	case r.group != "":
		return st.rowHeight(1)
	}
	return st.rowHeight(min(lineCount(st.lines(r)), keptLines))
}

// heightIn is the height the table takes on one sheet if it is not split.
func (t table) heightIn(width measure.Length) measure.Length {
	st := t.set(width)
	h := st.headHeight()
	for i := range t.records {
		n := 1
		if text := t.records[i].framed; text != "" {
			h += framedHeight(text, width)
			continue
		}
		if t.records[i].group == "" {
			n = lineCount(st.lines(&t.records[i]))
		}
		h += st.rowHeight(n)
	}
	return h
}

// fit sets the table in the largest lettering and the widest spacing in which
// it fits on one sheet, or the smallest if none does.
func (t *table) fit(width, height measure.Length) {
	t.height, t.space = fine, tightSpace
	for _, try := range [][2]measure.Length{{plain, rowSpace}, {plain, tightSpace}, {fine, rowSpace}} {
		as := *t
		as.height, as.space = try[0], try[1]
		if width > 0 && as.heightIn(width) <= height {
			*t = as
			return
		}
	}
}

// set works out the columns of a table.
func (t table) set(width measure.Length) *setTable {
	if t.height == 0 {
		t.height = plain
	}
	if t.space == 0 {
		t.space = rowSpace
	}
	st := &setTable{table: t, style: letter(t.height), width: width}
	st.widths = st.natural()
	room := width - cellGap*measure.Length(len(t.columns)-1)
	rigid, flexing, weights := measure.Length(0), measure.Length(0), 0
	for i, c := range t.columns {
		if c.flex == 0 {
			rigid += st.widths[i]
			continue
		}
		flexing += st.widths[i]
		weights += c.flex
	}
	if rigid+flexing != room && weights > 0 {
		st.share(room-rigid, flexing, weights)
	}
	at := measure.Length(0)
	for i, w := range st.widths {
		st.heads = append(st.heads, wrap(t.columns[i].head, st.style.strong(), w))
		st.lefts = append(st.lefts, at)
		at += w + cellGap
	}
	return st
}

// share divides room among the flexing columns: those that need less than
// their part of it take what they need, those whose head has a longer word take
// that, the others share the rest.
func (st *setTable) share(room, flexing measure.Length, weights int) {
	if flexing <= room {
		spare := room - flexing
		for i, c := range st.columns {
			st.widths[i] += spare * measure.Length(c.flex) / measure.Length(weights)
		}
		return
	}
	content := make([]bool, len(st.columns))
	for again := true; again; {
		again = false
		for i, c := range st.columns {
			if c.flex == 0 || content[i] {
				continue
			}
			part := room * measure.Length(c.flex) / measure.Length(weights)
			word := widestLine(stacked(c.head), st.style.strong())
			if st.widths[i] > part && word <= part {
				continue
			}
			st.widths[i] = min(st.widths[i], max(part, word))
			content[i], again = true, true
			room -= st.widths[i]
			weights -= c.flex
		}
	}
	for i, c := range st.columns {
		if c.flex > 0 && !content[i] {
			st.widths[i] = room * measure.Length(c.flex) / measure.Length(weights)
		}
	}
}

// natural is the width each column would have if nothing wrapped.
func (st *setTable) natural() []measure.Length {
	widths := make([]measure.Length, len(st.columns))
	for i, c := range st.columns {
		widths[i] = widestLine(c.head, st.style.strong())
		if c.flex > 0 {
			widths[i] = min(widths[i], headMin)
		}
		if c.tick {
			widths[i] = max(widths[i], 3500*micron)
		}
	}
	for _, r := range st.records {
		for i, text := range r.cells {
			s := st.cellStyle(i, r.bold)
			widths[i] = max(widths[i], widestLine(text, s))
			if st.columns[i].flag && text != "" {
				widths[i] = max(widths[i], flagWidth(atoi(text)))
			}
		}
	}
	return widths
}

func widestLine(text string, s style) measure.Length {
	var widest measure.Length
	start := 0
	for i := 0; i <= len(text); i++ {
		if i == len(text) || text[i] == '\n' {
			widest = max(widest, s.width(text[start:i]))
			start = i + 1
		}
	}
	return widest
}

func (st *setTable) headHeight() measure.Length {
	return st.style.pitch()*measure.Length(lineCount(st.heads)) + 2*mm
}

func (st *setTable) rowHeight(lines int) measure.Length {
	return st.style.pitch()*measure.Length(lines) + st.space
}

func (st *setTable) head(f *flow) {
	s := st.style.strong()
	lines := lineCount(st.heads)
	for i, head := range st.heads {
		for n, line := range head {
			st.cell(f.page, f.area.Min.X, f.y+s.rise()+s.pitch()*measure.Length(lines-len(head)+n), i, line, s)
		}
	}
	f.y += s.pitch()*measure.Length(lines) + 500*micron
	f.page.line(f.area.Min.X, f.y, f.area.Min.X+st.width, f.y, pen(solid))
	f.y += 700 * micron
}

func (st *setTable) cell(p *Page, left, y measure.Length, i int, text string, s style) {
	if st.columns[i].end {
		p.write(left+st.lefts[i]+st.widths[i], y, text, s.end())
		return
	}
	p.write(left+st.lefts[i], y, text, s)
}

// lines breaks the cells of a row.
func (st *setTable) lines(r *record) [][]string {
	cells := make([][]string, len(st.columns))
	for i := range st.columns {
		if i < len(r.cells) && r.cells[i] != "" {
			cells[i] = wrap(r.cells[i], st.cellStyle(i, r.bold), st.widths[i])
		}
	}
	return cells
}

// cellStyle is the lettering of a column's cells.
func (st *setTable) cellStyle(i int, bold bool) style {
	s := st.style
	if st.columns[i].small {
		s.height = fine
	}
	if bold {
		s = s.strong()
	}
	return s
}

func lineCount(cells [][]string) int {
	n := 1
	for _, c := range cells {
		n = max(n, len(c))
	}
	return n
}

// row draws one row. One that would not fit on a fresh sheet either is split
// between its lines.
func (st *setTable) row(f *flow, r *record) {
	cells := st.lines(r)
	total := lineCount(cells)
	if st.rowHeight(total) > f.left() && st.rowHeight(min(total, keptLines)) > f.left() {
		f.turn()
		st.head(f)
	}
	for from := 0; from < total; {
		fit := int((f.left() - st.space) / st.style.pitch())
		if fit < 1 {
			f.turn()
			st.head(f)
			continue
		}
		to := min(total, from+fit)
		st.part(f, r, cells, from, to)
		from = to
	}
}

// part draws the lines from..to of a row.
func (st *setTable) part(f *flow, r *record, cells [][]string, from, to int) {
	top := f.y
	for i, c := range st.columns {
		s := st.cellStyle(i, r.bold)
		if c.tick && from == 0 {
			f.page.tickBox(f.area.Min.X+st.lefts[i], top+st.space*2/3+s.rise()-s.height/2, s.height)
		}
		if c.flag {
			if from == 0 {
				f.page.flag(f.area.Min.X+st.lefts[i], top+st.space*2/3+s.rise()-s.height/2-flagHeight/2, atoi(r.cells[i]))
			}
			continue
		}
		for n := from; n < min(to, len(cells[i])); n++ {
			y := top + st.space*2/3 + st.style.rise() + st.style.pitch()*measure.Length(n-from)
			st.cell(f.page, f.area.Min.X, y, i, cells[i][n], s)
		}
	}
	f.y += st.rowHeight(to - from)
	f.page.line(f.area.Min.X, f.y, f.area.Min.X+st.width, f.y, pencil(hair, 170))
	if r.link != "" {
		f.page.link(sheet.Rect{Min: pt(f.area.Min.X, top), Max: pt(f.area.Min.X+st.width, f.y)}, r.link)
	}
}
