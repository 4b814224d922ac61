package saw

import (
	"setwright/layout/measure"
	"setwright/layout/solve/bars"
	"setwright/layout/solve/boards"
)

// effort is how hard the solvers try, in their steps: about a second's worth.
const effort = bars.StepsPerSecond

// solve asks the solver for bars or for sheets to cut the pieces of those
// indexes, all of which fit some source. It is false if the solver gives up.
func (s *shop) solve(pieces []int) (solved, bool) {
	if s.Sheet() {
		return s.solveBoards(pieces)
	}
	return s.solveBars(pieces)
}

// solveBars has bars cut.
func (s *shop) solveBars(pieces []int) (solved, bool) {
	job := bars.Job{Kerf: int64(s.Stock.Kerf)}
	for _, src := range s.sources {
		job.Bars = append(job.Bars, bars.Bar{Length: int64(s.room(src).length), Cost: src.cost, Limit: src.limit})
	}
	for _, i := range pieces {
		job.Pieces = append(job.Pieces, bars.Piece{Length: int64(s.Pieces[i].Length), Count: s.Pieces[i].Count})
	}
	plan, err := bars.Solve(job, effort)
	if err != nil {
		return solved{}, false
	}
	found := solved{cost: plan.Cost, bound: plan.Bound, proven: plan.Proven}
	for _, p := range plan.Patterns {
		bar := shape{way: Cross}
		for k, n := range p.Counts {
			for range n {
				bar.parts = append(bar.parts, shape{piece: pieces[k]})
			}
		}
		found.laid = append(found.laid, laid{p.Bar, p.Times, bar})
	}
	return found, true
}

// stages is how many stages of cuts a sheet takes at most: rips, crosscuts, third
// cuts.
const stages = 3

// solveBoards has sheets cut.
func (s *shop) solveBoards(pieces []int) (solved, bool) {
	sizes, rooms := s.boardSizes(pieces)
	job := boards.Job{Kerf: int64(s.Stock.Kerf), Stages: stages}
	if s.ragged(pieces, sizes) {
		job.Stages-- // the third goes on what grooves leave over
	}
	index := make([]int, 0, len(rooms))
	for i, r := range rooms {
		if r.width > 0 {
			index = append(index, i)
			job.Boards = append(job.Boards, boards.Board{Length: int64(r.length), Width: int64(r.width), Cost: s.sources[i].cost, Limit: s.sources[i].limit})
		}
	}
	for k, i := range pieces {
		p := s.Pieces[i]
		job.Pieces = append(job.Pieces, boards.Piece{Length: int64(sizes[k].length), Width: int64(sizes[k].width), Count: p.Count, Turn: p.Turn && s.Stock.Grooves == 0})
	}
	plan, err := boards.Solve(job, effort)
	if err != nil {
		return solved{}, false
	}
	found := solved{cost: plan.Cost, bound: plan.Bound, proven: plan.Proven}
	for _, l := range plan.Layouts {
		board, _ := shaped(&l.Root, &job, pieces)
		found.laid = append(found.laid, laid{index[l.Board], l.Times, board})
	}
	return found, true
}

// ragged says whether pieces of different widths take as many grooves, so that
// the narrower needs a cut that the solver does not know of.
func (s *shop) ragged(pieces []int, sizes []room) bool {
	wide := map[measure.Length]measure.Length{}
	for k, i := range pieces {
		w, there := wide[sizes[k].width]
		if there && w != s.Pieces[i].Width {
			return true
		}
		wide[sizes[k].width] = s.Pieces[i].Width
	}
	return false
}

// shaped is a solver's layout as a shape, false if there is no piece in it.
func shaped(n *boards.Node, job *boards.Job, pieces []int) (shape, bool) {
	if n.Cut == boards.None {
		if n.Piece == boards.Offcut {
			return shape{}, false
		}
		p := job.Pieces[n.Piece]
		return shape{piece: pieces[n.Piece], turned: n.Length != p.Length || n.Width != p.Width}, true
	}
	s := shape{way: Rip}
	if n.Cut == boards.Cross {
		s.way = Cross
	}
	for i := range n.Parts {
		if part, any := shaped(&n.Parts[i], job, pieces); any {
			s.parts = append(s.parts, part)
		}
	}
	return s, len(s.parts) > 0
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
