package list

import (
	"cmp"
	"slices"
	"strconv"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// Cuts works out how all parts of a unit that are cut from stock are cut: a plan
// a stock, in the order the pick list meets them, bars before sheets. Pieces that
// are on hand, cut already, are left out. A piece's mark is its balloon; its
// addresses are those of the rows it goes to, and of a panel face and bay: F2 is
// the second bay of the front.
func Cuts(u *unit.Unit, pick []PickLine, hand []parts.OnHand) ([]saw.Plan, []diag.Finding) {
	return CutsOnly(u, pick, hand, func(*unit.Piece) bool { return true })
}

// CutsOnly is Cuts for a pick list of some pieces of a unit, as PickOnly makes it.
func CutsOnly(u *unit.Unit, pick []PickLine, hand []parts.OnHand, keep func(*unit.Piece) bool) ([]saw.Plan, []diag.Finding) {
	var jobs []*saw.Job
	of := map[*parts.Stock]*saw.Job{}
	var places map[lineKey]*places
	for _, line := range pick {
		if line.Part.Cut == nil || line.Quantity <= ready(line, hand) {
			continue
		}
		if places == nil {
			places = cutPlaces(u, keep)
		}
		stock := line.Part.Cut.From
		job := of[stock]
		if job == nil {
			job = &saw.Job{Stock: stock, OnHand: handOf(stock, hand)}
			of[stock] = job
			jobs = append(jobs, job)
		}
		at := places[lineKey{line.Part, line.Cut}]
		p := line.Sawn(strconv.Itoa(line.Balloon), line.Quantity-ready(line, hand))
		p.Where, p.At = at.where[:min(p.Count, len(at.where))], at.first
		job.Pieces = append(job.Pieces, p)
	}
	slices.SortStableFunc(jobs, func(a, b *saw.Job) int { return rank(a) - rank(b) })
	var plans []saw.Plan
	var found []diag.Finding
	for _, job := range jobs {
		p, f := saw.Cut(*job)
		plans, found = append(plans, p), append(found, f...)
	}
	saw.Number(plans)
	return plans, found
}

// ready is how many pieces of a line are on hand, cut already; none of what is cut
// to the length of what it is fixed to, since nobody says how long those are.
func ready(line PickLine, hand []parts.OnHand) int {
	if line.Cut > 0 {
		return 0
	}
	n := 0
	for _, h := range hand {
		if h.Part != nil && h.Part.ID == line.Part.ID {
			n += h.Count
		}
	}
	return min(n, line.Quantity)
}

// rank puts bars before sheets.
func rank(job *saw.Job) int {
	if job.Sheet() {
		return 1
	}
	return 0
}

func handOf(stock *parts.Stock, hand []parts.OnHand) []parts.OnHand {
	var list []parts.OnHand
	for _, h := range hand {
		if h.Stock == stock {
			list = append(list, h)
		}
	}
	return list
}

// Sawn is so many pieces of a line that is cut from stock, for the saw, and what
// is written on each.
func (l PickLine) Sawn(mark string, count int) saw.Piece {
	p := saw.Piece{Mark: mark, Name: cmp.Or(l.Part.Name, l.Part.ID), Count: count}
	p.Length, p.Width = l.CutTo()
	p.Turn = l.Part.Cut.From.Sheet() && l.Part.Blank().Turn
	return p
}

// places are the addresses of the pieces of one pick line, and where the plan
// asks for the first.
type places struct {
	where []string
	first diag.Span
}

func cutPlaces(u *unit.Unit, keep func(*unit.Piece) bool) map[lineKey]*places {
	all := map[lineKey]*places{}
	add := func(part *parts.Part, cut measure.Length, address string, at diag.Span) {
		if part.Cut == nil {
			return
		}
		key := lineKey{part, cut}
		if all[key] == nil {
			all[key] = &places{first: at}
		}
		all[key].where = append(all[key].where, address)
	}
	for _, s := range u.Structure {
		if s.Bay > 0 {
			add(s.Part, 0, s.Face.Letter()+strconv.Itoa(s.Bay), panelAt(u.Plan, s.Face))
		}
	}
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, p := range row.All() {
				if keep(p) {
					add(p.Part, p.Cut, row.Address, row.Declared.Span)
				}
			}
		}
	}
	return all
}

// panelAt is where the plan names a face's panel.
func panelAt(p *plan.Plan, face plan.FaceID) diag.Span {
	for _, panel := range p.Unit.Panels {
		if panel.Face == face {
			return panel.Panel.At
		}
	}
	return p.Unit.At
}
