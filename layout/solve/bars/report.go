package bars

import "slices"

// report hands the best plan over, in bars and pieces of the job.
func (s *search) report() *Plan {
	s.neaten()
	p := &Plan{Proof: s.proof, Steps: s.used, Proven: s.floor/s.weight == s.price/s.weight}
	p.Shortest = s.floor == s.price && !s.coarse
	p.Bound = s.floor / s.weight * s.unit
	h := handing{shop: s.shop, bars: make([]int, len(s.job.Bars)), pieces: make([]int, len(s.job.Pieces))}
	for i, b := range s.job.Bars {
		h.bars[i] = b.Limit
	}
	for i, piece := range s.job.Pieces {
		h.pieces[i] = piece.Count
	}
	for _, u := range s.plan {
		for u.times > 0 {
			next := h.hand(u)
			u.times -= int64(next.Times)
			p.Patterns = append(p.Patterns, next)
		}
	}
	for _, u := range p.Patterns {
		b := s.job.Bars[u.Bar]
		p.Cost += int64(u.Times) * b.Cost
		p.Length += int64(u.Times) * b.Length
	}
	return p
}

// handing turns patterns of kinds into patterns of the job's bars and pieces, of
// which several may be of one kind.
type handing struct {
	*shop
	bars, pieces []int // that are left; bars negative for any number
}

// hand makes a pattern of the job from a pattern, for as many bars as can be alike.
func (h *handing) hand(u used) Pattern {
	from := slices.IndexFunc(h.source[u.bar], func(i int) bool { return h.bars[i] != 0 })
	p := Pattern{Bar: h.source[u.bar][from], Times: int(u.times), Counts: make([]int, len(h.pieces))}
	if left := h.bars[p.Bar]; left > 0 {
		p.Times = min(p.Times, left)
	}
	for _, t := range u.takes {
		wanted := int(t.times)
		for _, i := range h.shop.pieces[t.kind] {
			p.Counts[i] = min(wanted, h.pieces[i])
			wanted -= p.Counts[i]
		}
	}
	for i, n := range p.Counts {
		if n > 0 {
			p.Times = min(p.Times, h.pieces[i]/n)
		}
	}
	for i, n := range p.Counts {
		h.pieces[i] -= n * p.Times
	}
	if h.bars[p.Bar] > 0 {
		h.bars[p.Bar] -= p.Times
	}
	return p
}
