package saw

import (
	"cmp"
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// mostPieces bounds a job: more than any shop cuts at once.
const mostPieces = 100_000

// Cut works out how a job is cut: at the least cost, and where that is not
// proven, with a bound. What cannot be cut is left out and found: a piece larger
// than all stock, and what the stock runs out for. Errors are for a job that makes
// no sense.
func Cut(job Job) (Plan, []diag.Finding) {
	plan := Plan{Job: job, Missing: make([]int, len(job.Pieces))}
	found := wrong(&job)
	if slices.ContainsFunc(found, func(f diag.Finding) bool { return f.Level == diag.Error }) {
		for i, p := range job.Pieces {
			plan.Missing[i] = p.Count
		}
		return plan, found
	}
	s := newShop(&job)
	plan.Priced = s.priced
	fitting := make([]int, 0, len(job.Pieces))
	for i, p := range job.Pieces {
		if s.fits(p, s.sources) {
			fitting = append(fitting, i)
			continue
		}
		plan.Missing[i] = p.Count
		found = append(found, s.tooLarge(p))
	}
	found = append(found, s.notes()...)
	if len(fitting) > 0 {
		if by, ok := s.solve(fitting); ok {
			s.fill(&plan, by)
			found = append(found, s.short(&plan)...)
		} else {
			found = append(found, s.beyond(&plan, fitting))
		}
	}
	Number([]Plan{plan})
	return plan, found
}

// solved is what a solver found.
type solved struct {
	laid        []laid
	cost, bound int64
	proven      bool
}

// laid is a shape that so many bars or sheets of a source are cut to.
type laid struct {
	source, times int
	shape         shape
}

// fill makes a plan of what a solver found: patterns that are alike are put
// together, whether their stock is on hand or bought; what is cut from stock that
// is only wished for is missing.
func (s *shop) fill(plan *Plan, found solved) {
	where := make([]int, len(s.Pieces)) // the next address of each piece
	for _, l := range found.laid {
		if s.sources[l.source].from != wished {
			plan.use(s.sources[l.source], l.times)
			continue
		}
		plan.wish(s.sources[l.source], l.times)
		l.shape.each(func(piece int) { plan.Missing[piece] += l.times })
	}
	slices.SortStableFunc(plan.Used, larger)
	for _, l := range found.laid {
		if src := s.sources[l.source]; src.from != wished {
			put := &layer{s, make([]int, len(s.Pieces))}
			plan.add(Pattern{Use: plan.used(src), Times: l.times, Root: put.root(l.shape, src), kerf: s.Stock.Kerf})
		}
	}
	slices.SortStableFunc(plan.Patterns, func(a, b Pattern) int { return cmp.Compare(a.Use, b.Use) })
	for i := range plan.Patterns {
		plan.Patterns[i].address(s.Pieces, where)
	}
	s.price(plan, found)
}

// price says what was spent, and how far from the least it may be.
func (s *shop) price(plan *Plan, found solved) {
	plan.Proven, plan.Over = found.proven, over(found)
	if !s.priced {
		return
	}
	total := int64(0)
	for _, l := range found.laid {
		if src := s.sources[l.source]; src.from == bought {
			total += src.cost * int64(l.times)
		}
	}
	plan.Cost = round(total)
	plan.Bound = plan.Cost
	if !found.proven {
		plan.Bound = measure.Money(min(found.bound, total) / fine)
	}
}

// round is a price in whole hundredths.
func round(price int64) measure.Money { return measure.Money((price + fine/2) / fine) }

// over is how far from the best a cost may be, in hundredths of a per cent,
// rounded up.
func over(found solved) int {
	switch {
	case found.proven:
		return 0
	case found.bound <= 0:
		return -1
	}
	return int((found.cost-found.bound)/max(found.bound/10_000, 1)) + 1
}

// use counts stock that is taken.
func (p *Plan) use(src source, times int) {
	i := p.used(src)
	if i < 0 {
		i = len(p.Used)
		p.Used = append(p.Used, Use{Length: src.length, Width: src.width, Size: src.size})
	}
	if src.from == onHand {
		p.Used[i].OnHand += times
	} else {
		p.Used[i].Bought += times
	}
}

func (p *Plan) used(src source) int {
	return slices.IndexFunc(p.Used, func(u Use) bool { return u.Length == src.length && u.Width == src.width })
}

// wish counts stock that there is none left of.
func (p *Plan) wish(src source, times int) {
	for i := range p.ToBuy {
		if u := &p.ToBuy[i]; u.Length == src.length && u.Width == src.width {
			u.Bought += times
			return
		}
	}
	p.ToBuy = append(p.ToBuy, Use{Length: src.length, Width: src.width, Size: src.size, Bought: times})
}

// add adds a pattern, to one that is cut alike if there is one.
func (p *Plan) add(pattern Pattern) {
	for i := range p.Patterns {
		if at := &p.Patterns[i]; at.Use == pattern.Use && same(&at.Root, &pattern.Root) {
			at.Times += pattern.Times
			return
		}
	}
	p.Patterns = append(p.Patterns, pattern)
}

// same says whether two nodes are cut alike.
func same(a, b *Node) bool {
	if a.X != b.X || a.Y != b.Y || a.Length != b.Length || a.Width != b.Width || a.Kind != b.Kind ||
		a.Way != b.Way || a.Piece != b.Piece || a.Turned != b.Turned || len(a.Parts) != len(b.Parts) {
		return false
	}
	for i := range a.Parts {
		if !same(&a.Parts[i], &b.Parts[i]) {
			return false
		}
	}
	return true
}

// address gives the pieces of a pattern their addresses, bar after bar; next is
// the first address of each piece that is not yet given.
func (p *Pattern) address(pieces []Piece, next []int) {
	for range p.Times {
		p.Root.Leaves(func(n *Node) {
			if n.Kind != Wanted || len(pieces[n.Piece].Where) == 0 {
				return
			}
			n.Where = append(n.Where, pieces[n.Piece].Where[next[n.Piece]])
			next[n.Piece]++
		})
	}
}

// name names the off-cuts to keep.
func (p *Pattern) name() {
	n := 0
	p.Root.Leaves(func(node *Node) {
		if node.Kind == Kept {
			node.Name = fmt.Sprintf("%d%s", p.Number, letters(n))
			n++
		}
	})
}

// letters counts a, b, ... z, aa, ab.
func letters(n int) string {
	word := ""
	for n++; n > 0; n = (n - 1) / 26 {
		word = string(rune('a'+(n-1)%26)) + word
	}
	return word
}

// each calls f for the piece of every leaf.
func (s *shape) each(f func(piece int)) {
	if s.way == Uncut {
		f(s.piece)
		return
	}
	for i := range s.parts {
		s.parts[i].each(f)
	}
}
