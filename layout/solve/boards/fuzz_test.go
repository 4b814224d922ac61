package boards

import (
	"errors"
	"testing"
)

// FuzzSolve cuts any job: it must end in a plan that holds, or in one of the errors that
// Solve tells of.
func FuzzSolve(f *testing.F) {
	f.Add(int64(2440), int64(1220), int64(600), int64(300), int64(3), int64(10), 5, -1, 3, true)  // a plain job
	f.Add(int64(2440), int64(1220), int64(300), int64(1500), int64(3), int64(0), 2, 4, 3, false)  // too wide but for the grain
	f.Add(int64(100), int64(100), int64(100), int64(50), int64(0), int64(0), 9, 2, 1, false)      // stock that does not do
	f.Add(int64(1)<<62, int64(-5), int64(0), int64(1)<<41, int64(-1), int64(7), -3, 0, -1, true)  // no sizes at all
	f.Add(int64(1)<<40, int64(1)<<40, int64(1), int64(1), int64(0), int64(0), 1<<20, -1, 0, true) // a great many tiny pieces
	f.Add(int64(10), int64(10), int64(3), int64(3), int64(20), int64(1), 1<<20, -1, 2, false)     // a kerf as wide as the board
	f.Fuzz(func(t *testing.T, length, width, a, b, kerf, trim int64, count, limit, stages int, turn bool) {
		job := Job{Kerf: kerf, Trim: trim, Stages: stages,
			Boards: []Board{{length, width, 3, limit}, {width, length / 2, 2, -limit}},
			Pieces: []Piece{{a, b, count, turn}, {b / 2, a / 3, count / 2, false}, {a, b, 1, !turn}}}
		plan, err := Solve(job, 1e6)
		var wrong *JobError
		var fit *FitError
		var lack *ShortError
		switch {
		case errors.As(err, &wrong), errors.As(err, &fit), errors.As(err, &lack):
		case err != nil:
			t.Fatal(err)
		default:
			if err := checkPlan(job, plan); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// TestWrongJobs has every job that cannot be, and those at the edge that can.
func TestWrongJobs(t *testing.T) {
	board, piece := Board{100, 50, 1, -1}, Piece{10, 10, 1, false}
	for _, c := range []struct {
		reason string
		job    Job
		want   string
	}{
		{"nothing is wanted", Job{Boards: []Board{board}}, ""},
		{"none of a piece is wanted, however large", Job{Boards: []Board{board}, Pieces: []Piece{{1000, 1000, 0, false}}}, ""},
		{"a piece as large as the board", Job{Boards: []Board{board}, Pieces: []Piece{{100, 50, 2, false}}, Kerf: 4}, ""},
		{"no boards", Job{Pieces: []Piece{piece}}, "boards: no board can give piece 0"},
		{"none left of the only board", Job{Boards: []Board{{100, 50, 1, 0}}, Pieces: []Piece{piece}}, "boards: no board can give piece 0"},
		{"trimmed away", Job{Boards: []Board{board}, Pieces: []Piece{piece}, Trim: 25}, "boards: no board can give piece 0"},
		{"the grain is in the way", Job{Boards: []Board{board}, Pieces: []Piece{piece, {10, 60, 1, false}, {101, 1, 1, true}}},
			"boards: no board can give piece 1 (only across the grain), 2"},
		{"one stage does not free a piece both ways", Job{Boards: []Board{board}, Pieces: []Piece{piece, {100, 9, 1, false}}, Stages: 1},
			"boards: no board can give piece 0"},
		{"negative kerf", Job{Boards: []Board{board}, Pieces: []Piece{piece}, Kerf: -1},
			"boards: kerf -1, trim 0 and stages 0 must be from nought to 1099511627776"},
		{"a board without width", Job{Boards: []Board{{100, 0, 1, -1}}, Pieces: []Piece{piece}},
			"boards: board 0: 100 by 0 at a cost of 1: sizes must be from 1 to 1099511627776, costs from 0 to 17179869184"},
		{"a count below nought", Job{Boards: []Board{board}, Pieces: []Piece{{10, 10, -1, false}}},
			"boards: piece 0: -1 of 10 by 10: sizes must be from 1 to 1099511627776, counts from 0 to 1048576"},
		{"more than can be counted", Job{Boards: []Board{board}, Pieces: []Piece{{10, 10, 1 << 20, false}, piece}},
			"boards: 1048577 pieces are more than 1048576"},
		{"dust", Job{Boards: []Board{{1 << 40, 1 << 40, 1, -1}}, Pieces: []Piece{{1, 1, 1 << 20, false}}},
			"boards: a piece is too small beside the boards: over 600 could lie in a row"},
		{"stock that does not do", Job{Boards: []Board{{100, 50, 1, 2}}, Pieces: []Piece{{60, 50, 3, false}}},
			"boards: all boards together cannot do: 1 more would give the missing 1 pieces"},
	} {
		plan, err := Solve(c.job, tinyEffort)
		got := ""
		if err != nil {
			got = err.Error()
		} else if bad := checkPlan(c.job, plan); bad != nil {
			t.Errorf("%s: %v", c.reason, bad)
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.reason, got, c.want)
		}
	}
}
