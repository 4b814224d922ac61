package boards

import (
	"cmp"
	"slices"
)

// use is a layout of one board.
type use struct {
	board  int // index into shop.boards
	layout *block
	counts []int // by kind
}

// pile is boards cut alike.
type pile struct {
	use
	times int
}

// alike puts boards with the same pieces together and cuts them all like the first, so that
// the saw is set as seldom as may be; what is cut most often comes first.
func alike(piles []pile) []pile {
	var all []pile
	for _, p := range piles {
		at := slices.IndexFunc(all, func(q pile) bool { return q.board == p.board && slices.Equal(q.counts, p.counts) })
		if at < 0 {
			all = append(all, p)
		} else {
			all[at].times += p.times
		}
	}
	slices.SortStableFunc(all, func(p, q pile) int { return cmp.Or(p.board-q.board, q.times-p.times) })
	return all
}

// plan writes out what the solver found. Boards cut alike may differ in which piece of
// the job a kind is, and are then layouts of their own.
func (s *shop) plan(lies []gridLie, piles []pile) *Plan {
	plan := &Plan{}
	p := placer{lies: lies, kerf: s.job.Kerf, wanted: make([][]int, len(s.kinds))}
	for k, of := range s.kinds {
		for _, m := range of.members {
			p.wanted[k] = append(p.wanted[k], slices.Repeat([]int{m}, s.job.Pieces[m].Count)...)
		}
	}
	for _, pile := range alike(piles) {
		b := s.boards[pile.board]
		for range pile.times {
			root := p.board(pile.layout, b, s.job.Trim, s.stages)
			plan.Cost += s.job.Boards[b.index].Cost
			last := len(plan.Layouts) - 1
			if last >= 0 && plan.Layouts[last].Board == b.index && same(&plan.Layouts[last].Root, &root) {
				plan.Layouts[last].Times++
				continue
			}
			plan.Layouts = append(plan.Layouts, Layout{b.index, 1, root})
		}
	}
	return plan
}

// same tells whether two rectangles are cut alike into the same pieces.
func same(a, b *Node) bool {
	if a.X != b.X || a.Y != b.Y || a.Length != b.Length || a.Width != b.Width || a.Cut != b.Cut || a.Piece != b.Piece || len(a.Parts) != len(b.Parts) {
		return false
	}
	for i := range a.Parts {
		if !same(&a.Parts[i], &b.Parts[i]) {
			return false
		}
	}
	return true
}
