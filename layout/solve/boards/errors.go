package boards

import (
	"fmt"
	"strings"
)

// Limits of what a job may hold, so that no sum can overflow.
const (
	mostLength = int64(1) << 40 // 1.1 km in nanometres
	mostCost   = int64(1) << 34
	mostBoards = 1 << 7
	mostKinds  = 1 << 12 // pieces of different sizes
	mostPieces = 1 << 20 // all counts together
)

// JobError says what is wrong with a job's numbers.
type JobError struct{ Text string }

func (e *JobError) Error() string { return "boards: " + e.Text }

func wrong(format string, args ...any) error { return &JobError{fmt.Sprintf(format, args...)} }

// Misfit is a piece that no board can give.
type Misfit struct {
	Piece  int  // index into Job.Pieces
	Turned bool // one could if the piece were allowed across the grain
}

// FitError lists every piece that no board can give, whatever else is cut.
type FitError struct{ Misfits []Misfit }

func (e *FitError) Error() string {
	var names []string
	for _, m := range e.Misfits {
		name := fmt.Sprint(m.Piece)
		if m.Turned {
			name += " (only across the grain)"
		}
		names = append(names, name)
	}
	return "boards: no board can give piece " + strings.Join(names, ", ")
}

// check finds numbers that no job can have.
func (j *Job) check() error {
	if j.Kerf < 0 || j.Kerf > mostLength || j.Trim < 0 || j.Trim > mostLength || j.Stages < 0 {
		return wrong("kerf %d, trim %d and stages %d must be from nought to %d", j.Kerf, j.Trim, j.Stages, mostLength)
	}
	if len(j.Boards) > mostBoards || len(j.Pieces) > mostKinds {
		return wrong("%d boards and %d pieces are more than %d and %d", len(j.Boards), len(j.Pieces), mostBoards, mostKinds)
	}
	for i, b := range j.Boards {
		if !size(b.Length) || !size(b.Width) || b.Cost < 0 || b.Cost > mostCost {
			return wrong("board %d: %d by %d at a cost of %d: sizes must be from 1 to %d, costs from 0 to %d",
				i, b.Length, b.Width, b.Cost, mostLength, mostCost)
		}
	}
	total := 0
	for i, p := range j.Pieces {
		if !size(p.Length) || !size(p.Width) || p.Count < 0 || p.Count > mostPieces {
			return wrong("piece %d: %d of %d by %d: sizes must be from 1 to %d, counts from 0 to %d",
				i, p.Count, p.Length, p.Width, mostLength, mostPieces)
		}
		total += p.Count
	}
	if total > mostPieces {
		return wrong("%d pieces are more than %d", total, mostPieces)
	}
	return nil
}

func size(n int64) bool { return n > 0 && n <= mostLength }
