package saw

import "setwright/layout/measure"

// solve asks the solver for bars or for sheets to cut the pieces of those
// indexes, all of which fit some source.
func (s *shop) solve(pieces []int) solved {
	if s.Sheet() {
		return s.solveBoards(pieces)
	}
	return s.solveBars(pieces)
}

// boardSizes are pieces and sources as the solver for sheets has them: trimmed,
// and with grooves in whole ones.
func (s *shop) boardSizes(pieces []int) (sizes, rooms []room) {
	for _, i := range pieces {
		sizes = append(sizes, room{length: s.Pieces[i].Length, width: s.Pieces[i].Width})
	}
	for _, src := range s.sources {
		rooms = append(rooms, s.room(src))
	}
	if s.Stock.Grooves == 0 {
		return sizes, rooms
	}
	wanted := make([]Piece, len(pieces))
	for k, i := range pieces {
		wanted[k] = s.Pieces[i]
	}
	sheets := make([]measure.Length, len(rooms))
	for i, r := range rooms {
		sheets[i] = r.width
	}
	widths, boards := across(s.Stock.Grooves, s.Stock.Kerf, wanted, sheets)
	for k, w := range widths {
		sizes[k].width = w
	}
	for i, w := range boards {
		rooms[i].width = w
	}
	return sizes, rooms
}
