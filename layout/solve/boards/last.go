package boards

import "slices"

// instead tries to cut all that is left, and what a layout has, from that layout's board.
func (s *solver) instead(p *pile, left []int) *pile {
	all := slices.Clone(left)
	for k, n := range p.counts {
		all[k] += n
	}
	if s.demand(all) > s.room[p.board] {
		return p
	}
	l := s.last(p.board, all)
	if l == nil {
		return p
	}
	clear(left)
	return &pile{s.use(l, p.board), 1}
}

// last tries to cut all that is left from one board, by a search that finds a way if there
// is one and the search is short.
func (s *solver) last(b int, left []int) *block {
	sub := &shop{job: s.shop.job, stages: s.shop.stages, boards: s.shop.boards[b : b+1]}
	var value []int64
	var lies []int // of ours, by lie of sub
	sum := int64(0)
	for k, n := range left {
		if n == 0 {
			continue
		}
		for i, l := range s.lies {
			if l.kind == k {
				sub.lies = append(sub.lies, lie{len(sub.kinds), l.size})
				lies = append(lies, i)
			}
		}
		of := s.shop.kinds[k]
		of.count = n
		sub.kinds, value = append(sub.kinds, of), append(value, s.share[k])
		sum += int64(n) * s.share[k]
	}
	f := newSingle(sub, value, sum-1)
	if f == nil {
		return nil
	}
	l, _, _ := f.run(shortSearch)
	s.steps += f.steps
	if l == nil {
		return nil
	}
	return l.renumbered(lies)
}

// shortSearch is how many steps are spent on one board.
const shortSearch = 300_000
