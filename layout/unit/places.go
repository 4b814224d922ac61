package unit

import (
	"fmt"
	"slices"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/solve"
)

// places finds where along their slots the pieces of each row go, and the
// brackets under them. Rows are taken from the top down; grips already taken,
// on this face or from behind on a shared spine, are kept clear of.
func (r *resolver) places(f *Face) {
	drafts := r.drafted[f.ID]
	r.held[f.ID] = newHeldGrips(f)
	above := make([]*draft, f.Bays) // the lowest row of single pieces so far in each bay
	for _, d := range drafts {
		r.hang(d, r.settle(d, columnsAbove(above, d)))
		d.extend()
	}
}

// hang puts the row's pieces, and brackets under them, at the places found.
func (r *resolver) hang(d *draft, at []measure.Length) {
	d.row.Pieces, d.row.Brackets = nil, nil
	for _, x := range at {
		d.row.Pieces = append(d.row.Pieces, d.piece(d.part, x, 0))
	}
	if d.bracket != nil {
		for _, shelf := range d.row.Pieces {
			r.brackets(d, shelf)
		}
	}
	r.held[d.face.ID].add(d.row)
}

// columnsAbove is where the next row of single pieces above has them, in the
// bays of this row if it is one itself; it then becomes the next one above.
func columnsAbove(above []*draft, d *draft) []int64 {
	if !single(d.part.Kind) {
		return nil
	}
	var at []int64
	seen := (*draft)(nil)
	from, to := d.face.baysOf(d.x0, d.x1)
	for bay := from; bay < to; bay++ {
		if up := above[bay]; up != nil && up != seen {
			for _, p := range up.row.Pieces {
				at = append(at, int64(p.X))
			}
			seen = up
		}
		above[bay] = d
	}
	return at
}

// taken lists where a part's centre line may not be because its grips would
// meet those of other rows.
func (r *resolver) taken(d *draft, p *parts.Part) []solve.Interval {
	half, slots, width := p.Grip.Width/2, max(p.Grip.Slots, 1), d.face.Width
	bars := r.held[d.face.ID].bars(d.x0, d.x1, d.row.Slot, slots, half)
	if twin := d.face.Twin; twin != "" {
		behind := r.held[twin].bars(width-d.x1, width-d.x0, d.row.Slot, slots, half)
		bars = append(bars, mirrored(behind, width)...)
	}
	return shifted(bars, offsets(p))
}

// settle solves the places of a row's pieces. Where grips from behind leave no
// room, the rows behind are pushed aside, then open fronts are given up. When
// nothing helps it says so and gives the best that can be drawn.
func (r *resolver) settle(d *draft, columns []int64) []measure.Length {
	if d.pieces == 0 {
		return nil
	}
	if d.decl.Every > 0 {
		r.crowded(d)
	}
	if at, ok := r.solvePlaces(d, r.taken(d, d.part), columns); ok {
		return at
	}
	if r.pushAside(d) {
		if at, ok := r.solvePlaces(d, r.taken(d, d.part), columns); ok {
			return at
		}
	}
	if at, ok := r.giveUpFronts(d, columns); ok {
		return at
	}
	if at, ok := r.solvePlaces(d, nil, columns); ok {
		r.stop(d.decl.Use.At, "grips-meet", fmt.Sprintf("%s at %s cannot keep off the grips of other rows on the same slot or on the other side of the spine",
			d.part.ID, r.text(d.row.Height)), "move this row one slot up or down", r.rowWhere(d))
		return at
	}
	width := measure.Length(d.pieces) * d.part.Width
	message := fmt.Sprintf("%d of %s find no places between %s and %s", d.pieces, d.part.ID, r.text(d.x0), r.text(d.x1))
	fix := "a smaller count, or more bays"
	if width > d.x1-d.x0 {
		message = fmt.Sprintf("%d of %s take %s and the span is %s: %s too much", d.pieces, d.part.ID, r.text(width), r.text(d.x1-d.x0), r.text(width-(d.x1-d.x0)))
		fix = fmt.Sprintf("count: %d", (d.x1-d.x0)/d.part.Width)
	}
	r.stop(d.decl.Use.At, "no-place", message, fix, r.rowWhere(d))
	return evenly(d.x0, d.x1, d.pieces)
}

// rowWhere is where a row is, before it has an address.
func (r *resolver) rowWhere(d *draft) string {
	return fmt.Sprintf("%s face, %s", d.face.ID, r.text(d.row.Height))
}

func (r *resolver) solvePlaces(d *draft, taken []solve.Interval, columns []int64) ([]measure.Length, bool) {
	if d.decl.Every > 0 {
		return r.solveSpaced(d, taken)
	}
	var p solve.Places
	if single(d.part.Kind) {
		p = d.singles(d.fronts, taken, columns)
	} else {
		p = d.carriers(taken)
	}
	at, ok := p.Solve()
	return lengths(at), ok
}

func lengths(list []int64) []measure.Length {
	at := make([]measure.Length, len(list))
	for i, x := range list {
		at[i] = measure.Length(x)
	}
	return at
}

// evenly shares a span among n centres.
func evenly(x0, x1 measure.Length, n int) []measure.Length {
	at := make([]measure.Length, n)
	for i := range at {
		at[i] = x0 + (x1-x0)*measure.Length(2*i+1)/measure.Length(2*n)
	}
	return at
}

// singles is the problem of placing single pieces with their goods: each front
// inside the span, a finger's gap between two.
func (d *draft) singles(fronts []*goods.Product, taken []solve.Interval, columns []int64) solve.Places {
	widths := d.widths(fronts)
	p := solve.Places{Lattice: d.lattice(d.part), Blocked: append(d.bars(), taken...), Columns: columns}
	for i, w := range widths {
		p.Lo = append(p.Lo, int64(d.x0+w/2))
		p.Hi = append(p.Hi, int64(d.x1-w/2))
		if i > 0 {
			p.Gaps = append(p.Gaps, int64((widths[i-1]+w)/2+d.gapBetween(fronts[i-1], fronts[i])))
		}
	}
	p.Targets = targets(d.x0, d.x1, widths, d.gap(), d.align())
	return p
}

// widths is what each single piece and the goods on it take sideways.
func (d *draft) widths(fronts []*goods.Product) []measure.Length {
	widths := make([]measure.Length, len(fronts))
	for i, p := range fronts {
		widths[i] = d.part.Width
		if p != nil {
			widths[i] = max(p.Width, d.part.Width)
		}
	}
	return widths
}

// align is how the row lies in its span: as declared, turned round if mirrored,
// unless it was pushed.
func (d *draft) align() plan.Align {
	switch {
	case d.pushed:
		return plan.AlignLeft
	case d.mirror && d.decl.Align == plan.AlignLeft:
		return plan.AlignRight
	case d.mirror && d.decl.Align == plan.AlignRight:
		return plan.AlignLeft
	default:
		return d.decl.Align
	}
}

// gapBetween is the air between neighbours; bare hooks need none.
func (d *draft) gapBetween(a, b *goods.Product) measure.Length {
	if a == nil || b == nil {
		return 0
	}
	return d.gap()
}

// targets is where a row's fronts would best stand: spread over the span with
// what is left shared among them, or packed to one end or the middle.
func targets(x0, x1 measure.Length, widths []measure.Length, gap measure.Length, align plan.Align) []int64 {
	n := measure.Length(len(widths))
	var sum measure.Length
	for _, w := range widths {
		sum += w
	}
	packed := sum + max(n-1, 0)*gap
	start, share := x0, gap
	switch align {
	case plan.AlignLeft:
	case plan.AlignCenter:
		start = x0 + (x1-x0-packed)/2
	case plan.AlignRight:
		start = x1 - packed
	default:
		return spread(x0, x1-x0-sum, widths)
	}
	list := make([]int64, len(widths))
	for i, w := range widths {
		list[i] = int64(start + w/2)
		start += w + share
	}
	return list
}

// spread gives each front an equal share of the spare width, half on each side.
func spread(x0, spare measure.Length, widths []measure.Length) []int64 {
	n := measure.Length(len(widths))
	list := make([]int64, len(widths))
	var before measure.Length
	for i, w := range widths {
		list[i] = int64(x0 + before + w/2 + spare*measure.Length(2*i+1)/(2*n))
		before += w
	}
	return list
}

// lattice is where the centre lines of single pieces or brackets may be: on the
// panel's points, or on the tape's marks where it leaves them free.
func (d *draft) lattice(part *parts.Part) solve.Lattice {
	if points := d.face.points(d.x0, d.x1); points != nil {
		return solve.Lattice{List: centres(points, offsets(part))}
	}
	return solve.Lattice{Step: int64(d.step)}
}

// bars lists where the panel keeps the part's centre line from being.
func (d *draft) bars() []solve.Interval {
	if d.barred == nil {
		d.barred = shifted(d.face.bars(d.x0, d.x1, d.part.Grip.Width/2), offsets(d.part))
	}
	return slices.Clip(d.barred)
}

// carriers is the problem of placing pieces that carry fronts side by side.
// They often fill their span exactly, so their candidate places are counted
// from their targets, not from the face's edge.
func (d *draft) carriers(taken []solve.Interval) solve.Places {
	w := d.part.Width
	widths := slices.Repeat([]measure.Length{w}, d.pieces)
	p := solve.Places{Targets: targets(d.x0, d.x1, widths, 0, d.align())}
	for i := range widths {
		p.Lo = append(p.Lo, int64(d.x0+w/2))
		p.Hi = append(p.Hi, int64(d.x1-w/2))
		if i > 0 {
			p.Gaps = append(p.Gaps, int64(w))
		}
	}
	if len(offsets(d.part)) == 0 {
		p.Lattice = solve.Lattice{Step: 1}
		return p
	}
	p.Blocked = append(d.bars(), taken...)
	if points := d.face.points(d.x0, d.x1); points != nil {
		p.Lattice = solve.Lattice{List: centres(points, offsets(d.part))}
		return p
	}
	p.Lattice = solve.Lattice{List: marksNear(p.Targets, int64(d.step), int64(d.face.Panel.Width))}
	return p
}

// marksNear lists the places a whole number of steps from any target, up to
// reach away.
func marksNear(targets []int64, step, reach int64) []int64 {
	var list []int64
	for _, t := range targets {
		for off := -reach / step * step; off <= reach; off += step {
			list = append(list, t+off)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}
