package boards

import (
	"errors"
	"fmt"
)

// checkPlan verifies a plan against its job, from the rectangles alone.
func checkPlan(job Job, plan *Plan) error {
	made := make([]int, len(job.Pieces))
	boards := make([]int, len(job.Boards))
	cost := int64(0)
	for i, l := range plan.Layouts {
		if l.Times < 1 || l.Board < 0 || l.Board >= len(job.Boards) {
			return fmt.Errorf("layout %d: %d times board %d", i, l.Times, l.Board)
		}
		b := job.Boards[l.Board]
		boards[l.Board] += l.Times
		cost += b.Cost * int64(l.Times)
		if l.Root.X != job.Trim || l.Root.Y != job.Trim || l.Root.Length != b.Length-2*job.Trim || l.Root.Width != b.Width-2*job.Trim {
			return fmt.Errorf("layout %d: the root is not the trimmed board", i)
		}
		stages, err := checkNode(job, l.Root, None, l.Times, made)
		if err != nil {
			return fmt.Errorf("layout %d: %w", i, err)
		}
		if job.Stages > 0 && stages > job.Stages {
			return fmt.Errorf("layout %d: %d stages, not %d", i, stages, job.Stages)
		}
	}
	for i, p := range job.Pieces {
		if made[i] != p.Count {
			return fmt.Errorf("%d of piece %d, not %d", made[i], i, p.Count)
		}
	}
	for i, b := range job.Boards {
		if b.Limit >= 0 && boards[i] > b.Limit {
			return fmt.Errorf("%d of board %d, more than %d", boards[i], i, b.Limit)
		}
	}
	if cost != plan.Cost || plan.Bound > plan.Cost || plan.Proven != (plan.Bound == plan.Cost) {
		return fmt.Errorf("cost %d, stated %d, bound %d, proven %v", cost, plan.Cost, plan.Bound, plan.Proven)
	}
	return nil
}

// checkNode verifies a rectangle, counts its pieces and gives the stages of cuts in it,
// not counting that of the cuts it comes from if its own run the same way.
func checkNode(job Job, n Node, from Cut, times int, made []int) (stages int, err error) {
	if n.Length <= 0 || n.Width <= 0 {
		return 0, errors.New("an empty rectangle")
	}
	if n.Cut == None {
		if len(n.Parts) > 0 {
			return 0, errors.New("parts without a cut")
		}
		if n.Piece == Offcut {
			return 0, nil
		}
		p := job.Pieces[n.Piece]
		made[n.Piece] += times
		if n.Length == p.Length && n.Width == p.Width || p.Turn && n.Length == p.Width && n.Width == p.Length {
			return 0, nil
		}
		return 0, fmt.Errorf("%d by %d is not piece %d", n.Length, n.Width, n.Piece)
	}
	if n.Piece != Offcut || len(n.Parts) == 0 {
		return 0, errors.New("a cut piece, or a cut without parts")
	}
	x, y := n.X, n.Y
	for i, p := range n.Parts {
		if p.X != x || p.Y != y {
			return 0, fmt.Errorf("part %d is at %d, %d, not at %d, %d", i, p.X, p.Y, x, y)
		}
		switch {
		case n.Cut == Cross && p.Width == n.Width:
			x += p.Length + job.Kerf
		case n.Cut == Rip && p.Length == n.Length:
			y += p.Width + job.Kerf
		default:
			return 0, fmt.Errorf("part %d does not reach from edge to edge", i)
		}
		deeper, err := checkNode(job, p, n.Cut, times, made)
		if err != nil {
			return 0, err
		}
		stages = max(stages, deeper)
	}
	over := n.X + n.Length - (x - job.Kerf) // what is left of the last part
	if n.Cut == Rip {
		over = n.Y + n.Width - (y - job.Kerf)
	}
	if over < 0 || over > job.Kerf || len(n.Parts) == 1 && over == 0 {
		return 0, fmt.Errorf("the last part ends %d before the edge", over)
	}
	if n.Cut != from {
		stages++
	}
	return stages, nil
}
