package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// graded is the findings by level, the gravest first, otherwise as they come.
func graded(findings []diag.Finding) []diag.Finding {
	list := slices.Clone(findings)
	slices.SortStableFunc(list, func(a, b diag.Finding) int { return cmp.Compare(b.Level, a.Level) })
	return list
}

const (
	flagHeight = 3900 * micron
	flagPoint  = 1400 * micron // how far the fly of a flag is drawn out
	flagGap    = 300 * micron  // round a flag
)

func flagWidth(n int) measure.Length {
	return letter(plain).strong().width(itoa(n)) + 1400*micron + flagPoint
}

// flag draws a finding's number in a pennant whose upper left corner is at
// x, y: black for a stop, grey for a caution, white for a note. It leads to
// the findings sheet.
func (p *Page) flag(x, y measure.Length, n int) {
	ground, ink, edge := white(), uint8(0), pen(thin)
	switch level := p.job.Findings[n-1].Level; {
	case level >= diag.Stop:
		ground, ink, edge = black(), 255, pen(medium)
	case level == diag.Caution:
		ground, edge = grey(215), pen(medium)
	}
	w, h := flagWidth(n), flagHeight
	p.polygon([]sheet.Point{pt(x, y), pt(x+w-flagPoint, y), pt(x+w, y+h/2), pt(x+w-flagPoint, y+h), pt(x, y+h)}, &edge, &ground)
	s := letter(plain).strong()
	s.shade = ink
	p.writeMid(x+700*micron, y+h/2, itoa(n), s)
	p.link(box(x, y, x+w, y+h), "findings")
}

// placed is a finding on a face: its number, and the rows and positions it
// names there.
type placed struct {
	number    int
	rows      []string // F-2, each once
	positions []string // F-2-3
}

// placedOn lists the findings that name a place on a face.
func (j *Job) placedOn(f *unit.Face) []placed {
	var list []placed
	for i, find := range j.Findings {
		p := placed{number: i + 1}
		for _, where := range find.Where {
			part := strings.Split(where, "-")
			if part[0] != f.Letter || len(part) < 2 {
				continue
			}
			if row := part[0] + "-" + part[1]; !slices.Contains(p.rows, row) {
				p.rows = append(p.rows, row)
			}
			if len(part) > 2 {
				p.positions = append(p.positions, where)
			}
		}
		if len(p.rows) > 0 {
			list = append(list, p)
		}
	}
	return list
}

// unitFindings names the findings that name no place on a face that is drawn;
// "" if there are none.
func (j *Job) unitFindings() string {
	on := map[int]bool{}
	for _, f := range j.Faces() {
		for _, p := range j.placedOn(f) {
			on[p.number] = true
		}
	}
	var list []string
	for i := range j.Findings {
		if !on[i+1] {
			list = append(list, itoa(i+1))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return fmt.Sprintf(j.Words.FindingsOfUnit, strings.Join(list, ", "))
}

// findingsHere is the line under a face's drawings: the number of every
// finding on the face, with the rows where its flag has found no room.
func (j *Job) findingsHere(list []placed, bare map[int][]string) string {
	var texts []string
	for _, p := range list {
		text := itoa(p.number)
		if rows := bare[p.number]; len(rows) > 0 {
			text += "\u00a0(" + strings.Join(rows, ",\u00a0") + ")"
		}
		texts = append(texts, text)
	}
	if len(texts) == 0 {
		return ""
	}
	return fmt.Sprintf(j.Words.FindingsHere, strings.Join(texts, ", "))
}

// flagRows puts a flag on the elevation for every row of every finding on the
// face, and adds to bare what has found no room.
func (e *elevation) flagRows(rows []*unit.Row, list []placed, bare map[int][]string) {
	e.keepEdges()
	for _, p := range list {
		for _, r := range rows {
			if slices.Contains(p.rows, r.Address) && !e.flagAt(p.number, e.flagged(r, p)) {
				bare[p.number] = append(bare[p.number], r.Address)
			}
		}
	}
}

// keepEdges keeps flags off the edges of panels and deck.
func (e *elevation) keepEdges() {
	top, bottom := e.y(e.face.Top), e.y(e.face.Bottom)
	for _, x := range e.face.BayEdges()[e.zone.from-1 : e.zone.to+1] {
		e.keepFine(pt(e.x(x), top), pt(e.x(x), bottom))
	}
	for _, y := range []measure.Length{top, bottom, e.y(e.face.Deck)} {
		e.keepFine(pt(e.x(e.zone.x0), y), pt(e.x(e.zone.x1), y))
	}
}

// flagged lists the hardware of a row that a finding is about: what carries
// the positions it names, or all of it.
func (e *elevation) flagged(r *unit.Row, p placed) []sheet.Rect {
	var named, all []sheet.Rect
	carries := map[*unit.Piece]bool{}
	for _, pos := range r.Positions {
		for _, f := range pos.Fronts {
			carries[f.Piece] = carries[f.Piece] || slices.Contains(p.positions, pos.Address)
		}
	}
	for _, piece := range r.Pieces {
		if !e.zone.shows(piece.Box) {
			continue
		}
		all = append(all, e.paper(piece.Box))
		if carries[piece] {
			named = append(named, e.paper(piece.Box))
		}
	}
	return append(named, all...)
}

// flagAt draws a flag at the first free place by one of the boxes.
func (e *elevation) flagAt(n int, boxes []sheet.Rect) bool {
	w, h := flagWidth(n), flagHeight
	limits := box(e.x(e.zone.x0), e.Field.Min.Y, e.x(e.zone.x1), e.y(0)-500*micron)
	for _, gap := range []measure.Length{500 * micron, 1800 * micron, 3500 * micron, 4800 * micron} {
		for _, b := range boxes {
			for _, at := range flagPlaces(b, w, h, gap) {
				r := box(at.X, at.Y, at.X+w, at.Y+h)
				if free := inset(r, -flagGap); within(r, limits) && e.clear(free) && e.clearOfFine(free) {
					e.flag(at.X, at.Y, n)
					e.keepWord(free)
					return true
				}
			}
		}
	}
	return false
}

// flagPlaces lists where a flag may stand by a box: over, under, right, left.
func flagPlaces(b sheet.Rect, w, h, gap measure.Length) []sheet.Point {
	over, under := b.Min.Y-gap-h, b.Max.Y+gap
	list := make([]sheet.Point, 0, 16)
	for _, y := range []measure.Length{over, under} {
		list = append(list, pt(b.Max.X-w, y), pt(b.Min.X, y), pt((b.Min.X+b.Max.X-w)/2, y))
		for x := b.Max.X - 3*w; x > b.Min.X+w; x -= 2 * w {
			list = append(list, pt(x, y))
		}
	}
	mid := (b.Min.Y + b.Max.Y - h) / 2
	return append(list, pt(b.Max.X+gap, mid), pt(b.Min.X-gap-w, mid), pt(b.Max.X+gap, over), pt(b.Max.X+gap, under))
}

// aboutGoods is those of the findings that name positions, and the longest
// line that may be needed to list them.
func (j *Job) aboutGoods(list []placed) (goods []placed, line string) {
	bare := map[int][]string{}
	for _, p := range list {
		if len(p.positions) > 0 {
			goods = append(goods, p)
			bare[p.number] = p.rows
		}
	}
	return goods, j.findingsHere(goods, bare)
}

// flagGoods puts flags on the goods that findings name: at most two for a
// finding in a row, one if it names more there, else row and number go to
// bare.
func (e *elevation) flagGoods(blocks []block, list []placed, bare map[int][]string) {
	e.keepEdges()
	for _, p := range list {
		for _, row := range p.rows {
			var named []block
			for _, b := range blocks {
				if address := b.position.Address; slices.Contains(p.positions, address) && strings.HasPrefix(address, row+"-") {
					named = append(named, b)
				}
			}
			if len(named) > 0 && !e.flagBlocks(p.number, named) {
				bare[p.number] = append(bare[p.number], row)
			}
		}
	}
}

// flagBlocks reports whether as many flags as are wanted have found room.
func (e *elevation) flagBlocks(n int, named []block) bool {
	wanted := len(named)
	if wanted > 2 {
		wanted = 1
	}
	for _, b := range named {
		if wanted > 0 && (e.flagInside(n, b) || e.flagAt(n, []sheet.Rect{b.round})) {
			wanted--
		}
	}
	return wanted == 0
}

// flagInside draws a flag in a corner of one of a block's fronts.
func (e *elevation) flagInside(n int, b block) bool {
	const gap = 700 * micron
	w, h := flagWidth(n), flagHeight
	for _, f := range b.fronts {
		for _, at := range []sheet.Point{
			pt(f.Max.X-gap-w, f.Min.Y+gap), pt(f.Min.X+gap, f.Min.Y+gap), pt(f.Max.X-gap-w, f.Max.Y-gap-h), pt(f.Min.X+gap, f.Max.Y-gap-h),
		} {
			r := box(at.X, at.Y, at.X+w, at.Y+h)
			if free := inset(r, -flagGap); within(r, f) && e.clearOfWords(free) && e.clearOfLines(free) && e.clearOfFine(free) && !e.nearer(free, b) {
				e.flag(at.X, at.Y, n)
				e.keepWord(free)
				return true
			}
		}
	}
	return false
}

// nearer reports whether goods that stand nearer to the viewer hide part of r.
func (e *elevation) nearer(r sheet.Rect, b block) bool {
	after := false
	for _, o := range e.boxes {
		if after && meet(r, o) {
			return true
		}
		after = after || o == b.round
	}
	return false
}
