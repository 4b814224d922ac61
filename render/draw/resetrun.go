package draw

import (
	"slices"

	"setwright/layout/measure"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// run is neighbouring pieces of one row to which the same happens in the same
// steps: what one mark on the drawing speaks for.
type run struct {
	when   when
	row    *unit.Row
	mark   reset.Mark
	steps  []int // ascending, each once
	pieces []*unit.Piece
	items  []*reset.Item // of the pieces
}

// runs gathers the runs of a face in one of the units, row by row from the left.
// What carries pieces or is fixed to them joins the run of those it goes with.
func (j *ResetJob) runs(f *unit.Face, s when) []*run {
	if f == nil {
		return nil
	}
	var list []*run
	for _, row := range f.Rows {
		var own []*run
		for _, pieces := range [][]*unit.Piece{row.Pieces, row.Brackets, row.Extras} {
			var fresh []*run
			for _, p := range pieces {
				item := j.sides[s].items[p]
				if item == nil {
					continue
				}
				one := &run{when: s, row: row, mark: item.Way.Mark(), pieces: []*unit.Piece{p}, items: []*reset.Item{item}}
				if n := j.stepOf(s, item); n > 0 && one.mark != reset.Keep {
					one.steps = []int{n}
				}
				if host := carrier(own, one); host != nil {
					host.take(one)
				} else if n := len(fresh); n > 0 && fresh[n-1].mark == one.mark && slices.Equal(fresh[n-1].steps, one.steps) {
					fresh[n-1].take(one)
				} else {
					fresh = append(fresh, one)
				}
			}
			own = append(own, fresh...)
		}
		list = append(list, own...)
	}
	return list
}

// carrier is the run among a row's pieces that a bracket or an extra goes with:
// one over the same stretch to which the same happens.
func carrier(own []*run, one *run) *run {
	for _, r := range own {
		x0, x1 := r.span()
		if b := one.pieces[0].Box; r.mark == one.mark && b.X0 < x1 && b.X1 > x0 {
			return r
		}
	}
	return nil
}

func (r *run) take(o *run) {
	r.pieces, r.items = append(r.pieces, o.pieces...), append(r.items, o.items...)
	r.steps = append(r.steps, o.steps...)
	slices.Sort(r.steps)
	r.steps = slices.Compact(r.steps)
}

// span is how far along the face the run reaches.
func (r *run) span() (x0, x1 measure.Length) {
	x0, x1 = r.pieces[0].Box.X0, r.pieces[0].Box.X1
	for _, p := range r.pieces[1:] {
		x0, x1 = min(x0, p.Box.X0), max(x1, p.Box.X1)
	}
	return x0, x1
}

// back says whether all of a run comes back to the very place it was at.
func (r *run) back() bool {
	return !slices.ContainsFunc(r.items, func(i *reset.Item) bool {
		return i.From == nil || i.To == nil || i.From.Solid != i.To.Solid
	})
}

// label is the run's mark with its steps.
func (r *run) label() string { return markLabel(r.mark, r.steps) }

// shown are the run's pieces in a zone, on paper; none if it lies beside it.
func (e *elevation) shown(r *run) []sheet.Rect {
	var list []sheet.Rect
	for _, p := range r.pieces {
		if e.zone.shows(p.Box) {
			list = append(list, e.paper(p.Box))
		}
	}
	return list
}

// around is the rectangle round rectangles.
func around(list []sheet.Rect) sheet.Rect {
	r := list[0]
	for _, o := range list[1:] {
		r = box(min(r.Min.X, o.Min.X), min(r.Min.Y, o.Min.Y), max(r.Max.X, o.Max.X), max(r.Max.Y, o.Max.Y))
	}
	return r
}

// markPattern is the hatch of a mark: what stays has none, what moves rises, what
// comes stands, what goes is crossed out.
func markPattern(m reset.Mark) pattern {
	switch m {
	case reset.Move:
		return pattern{[]slope{{1, -1}}, 1800 * micron, false}
	case reset.Add:
		return pattern{[]slope{{0, 1}}, 1300 * micron, false}
	case reset.Pull:
		return pattern{[]slope{{1, -1}, {1, 1}}, 2200 * micron, false}
	}
	return pattern{}
}

// markSize is the size of a mark's symbol with its steps.
func markSize(text string, s style) (w, h measure.Length) {
	return s.strong().width(text) + 2*markPad + markPoint, s.height + 1400*micron
}

const (
	markPad   = 700 * micron
	markPoint = 900 * micron // of the symbol for what moves
)

// changeMark draws a mark with its steps in a symbol of its own shape, its upper
// left corner at x, y: a frame for what stays, an arrow for what moves, black
// for what comes, dashes for what goes.
func (p *Page) changeMark(x, y measure.Length, m reset.Mark, text string, s style) sheet.Rect {
	w, h := markSize(text, s)
	r := box(x, y, x+w, y+h)
	s = s.strong()
	switch edge := pen(thin); m {
	case reset.Move:
		ground := white()
		p.polygon([]sheet.Point{r.Min, pt(r.Max.X-markPoint, r.Min.Y), pt(r.Max.X, (r.Min.Y+r.Max.Y)/2), pt(r.Max.X-markPoint, r.Max.Y), pt(r.Min.X, r.Max.Y)}, &edge, &ground)
	case reset.Add:
		p.solidBox(r, edge, black())
		s.shade = 255
	case reset.Pull:
		edge.Dash = []measure.Length{800 * micron, 500 * micron}
		p.solidBox(r, edge, white())
	default:
		p.solidBox(r, pen(hair), white())
	}
	p.writeMid(x+markPad+markPoint/3, (r.Min.Y+r.Max.Y)/2, text, s)
	return r
}
