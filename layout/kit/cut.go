package kit

import (
	"slices"
	"strconv"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/parts"
	"setwright/layout/saw"
)

// saw cuts so many pieces of each line that is cut from stock, a plan a stock,
// and leaves in the stockroom what is left.
func (b *buyer) saw(wanted []int) ([]saw.Plan, []diag.Finding) {
	var jobs []saw.Job
	for i := range b.lines {
		l := &b.lines[i]
		if l.Part.Cut == nil || wanted[i] == 0 {
			continue
		}
		from := l.Part.Cut.From
		at := slices.IndexFunc(jobs, func(j saw.Job) bool { return j.Stock.ID == from.ID })
		if at < 0 {
			at = len(jobs)
			jobs = append(jobs, saw.Job{Stock: from, OnHand: b.of(from)})
		}
		jobs[at].Pieces = append(jobs[at].Pieces, l.piece(wanted[i]))
	}
	var plans []saw.Plan
	var found []diag.Finding
	for _, j := range jobs {
		plan, more := saw.Cut(j)
		plans, found = append(plans, plan), append(found, more...)
	}
	for i := range plans {
		b.put(&plans[i])
	}
	return plans, found
}

// of is what there is of a stock.
func (b *buyer) of(s *parts.Stock) []parts.OnHand {
	var there []parts.OnHand
	for _, h := range b.stock {
		if h.Stock.ID == s.ID && h.Count > 0 {
			there = append(there, h)
		}
	}
	return there
}

// piece is so many pieces of a line for the saw, marked with its item.
func (l *Line) piece(count int) saw.Piece {
	p := list.PickLine{Part: l.Part, Cut: l.Cut}.Sawn(l.mark(), count)
	p.At = l.Part.At
	return p
}

// mark is what is written on a line's pieces.
func (l *Line) mark() string { return strconv.Itoa(l.Item) }

// put takes what a plan uses out of the stockroom and puts its off-cuts there.
func (b *buyer) put(p *saw.Plan) {
	for _, u := range p.Used {
		left := u.OnHand
		for i := range b.stock {
			if h := &b.stock[i]; h.Stock.ID == p.Job.Stock.ID && h.Length == u.Length && h.Width == u.Width {
				taken := min(left, h.Count)
				h.Count -= taken
				left -= taken
			}
		}
	}
	for _, o := range p.Offcuts() {
		b.stock = append(b.stock, parts.OnHand{Stock: p.Job.Stock, Length: o.Length, Width: o.Width, Count: o.Count})
	}
}

// receiveStock puts what a pack leaves over into the stockroom.
func (b *buyer) receiveStock(bought *buy.Line) {
	if s, there := b.list.Stock(bought.ID); there && bought.Spare > 0 {
		b.stock = append(b.stock, parts.OnHand{Stock: s, Length: bought.Length, Width: bought.Width, Count: bought.Spare})
	}
}
