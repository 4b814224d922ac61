package reset

import "slices"

// riders pairs all pieces of a kind at once where strips might ride on some that
// can slide, so that a piece which could be left may go elsewhere with its strips
// instead. It is an assignment only as long as no piece slides past another: if
// the best one has such a pair, nothing is paired, and false returned.
func (m *matcher) riders(old, new []*hung) bool {
	slides := func(h *hung) bool { return h.cell != 0 }
	carries := func(h *hung) bool { return len(h.extras) > 0 }
	if len(old)*len(new) > mostPairs || !slices.ContainsFunc(old, slides) ||
		!slices.ContainsFunc(old, carries) || !slices.ContainsFunc(new, carries) {
		return false
	}
	columns := solve(old, new, m.savesSliding)
	kept := map[int][][2]*hung{} // by cell
	for i, k := range columns {
		if k < 0 || old[i].cell == 0 {
			continue
		}
		if _, way := m.savesSliding(old[i], new[k]); way == Rehang {
			continue
		}
		for _, other := range kept[old[i].cell] {
			if (old[i].Piece.X < other[0].Piece.X) != (new[k].Piece.X < other[1].Piece.X) {
				return false
			}
		}
		kept[old[i].cell] = append(kept[old[i].cell], [2]*hung{old[i], new[k]})
	}
	for i, k := range columns {
		if k >= 0 {
			_, way := m.savesSliding(old[i], new[k])
			join(old[i], new[k], way)
		}
	}
	return true
}

// savesSliding is saves of pieces that may also slide, if that saves anything.
func (m *matcher) savesSliding(o, n *hung) (seconds int, way Way) {
	seconds, way = m.saves(o, n)
	if m.rebuild || o.cell == 0 || o.cell != n.cell {
		return seconds, way
	}
	saved := downTime(o.Piece.Part) + upTime(n.Piece.Part) + savedGoods(o, n)
	if o.place == n.place {
		return seconds + saved, Stay
	}
	if saved -= slideTime; saved > 0 {
		return seconds + saved, Slide
	}
	return seconds, way
}
