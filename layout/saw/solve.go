package saw

import (
	"setwright/layout/measure"
	"setwright/layout/solve/bars"
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
