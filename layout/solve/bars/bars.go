// Package bars cuts bars: which lengths to buy or take from stock, and which
// pieces to saw from each, at least cost, with a proof.
//
// The cost of a plan hangs on how many bars of each kind it takes, so Solve asks
// in turn for the cheapest set of bars that nothing yet speaks against, and tries
// to make all pieces from it. The trial is a linear program over patterns that are
// found as they are needed (Gilmore and Gomory 1961, 1963), rounded by fixing one
// pattern after the other. If the program itself has no solution, its duals are a
// cut on sets of bars; if it has one but rounding does not, a tree that puts pairs
// of pieces on one bar, or keeps them apart (after Ryan and Foster 1981), decides.
//
// All that is claimed is checked in whole numbers: duals are rounded, and what a
// bar can be worth under them is the exact answer of a knapsack. Proof holds those
// duals and trees, so that anybody can check them again.
package bars

import (
	"errors"
	"fmt"
)

// Bar is a kind of bar that pieces are cut from.
type Bar struct {
	Length int64
	Cost   int64 // of one; not negative
	Limit  int   // bars at hand, negative for any number
}

// Piece is a length that is wanted Count times.
type Piece struct {
	Length int64
	Count  int
}

// Job is what to cut from what. All lengths are in one unit, whichever it is.
//
// Trim is lost at the ends of each bar altogether. The saw takes Kerf between two
// pieces and where an off-cut is parted; an off-cut shorter than that is sawn away.
// So pieces fit a bar if their lengths, with one Kerf each, come to at most
// Length - Trim + Kerf.
type Job struct {
	Bars       []Bar
	Pieces     []Piece
	Kerf, Trim int64
}

// Pattern is how Times bars of one kind are cut.
type Pattern struct {
	Bar, Times int
	Counts     []int // by piece of the job: how many one bar gives
}

// Plan is how a job is cut: every piece exactly as often as it is wanted.
type Plan struct {
	Patterns []Pattern
	Cost     int64
	Length   int64 // of all bars used
	Bound    int64 // no plan costs less
	Proven   bool  // Cost is Bound: no plan is cheaper
	Shortest bool  // of the plans that cost as little, none uses less length
	Proof    *Proof
	Steps    int64 // effort spent
}

// StepsPerSecond is how many steps of effort take about a second, between a half and
// three, on a server of 2020; a step is an operation or two.
const StepsPerSecond = 1_000_000_000

// DefaultEffort is the effort of a Solve that is given none.
const DefaultEffort = 10 * StepsPerSecond

// ErrInvalid is wrapped by errors on numbers that no job can have.
var ErrInvalid = errors.New("not a job for a saw")

// TooLong is the error on pieces that no bar is long enough for.
type TooLong struct{ Pieces []int }

func (e *TooLong) Error() string { return fmt.Sprintf("longer than any bar: pieces %v", e.Pieces) }

// Solve cuts a job at least cost, then with least length of bars, then with few
// patterns and long off-cuts. Effort is in steps; zero or less stands for
// DefaultEffort. A plan that the effort was too short to prove says so and
// has a Bound all the same.
//
// Errors: ErrInvalid, *TooLong, *Short where the bars at hand cannot suffice (which
// is proven), and ErrEffort if the effort was too short to find any plan.
func Solve(job Job, effort int64) (*Plan, error) {
	if effort <= 0 {
		effort = DefaultEffort
	}
	s, err := newShop(job)
	if err != nil {
		return nil, err
	}
	return newSearch(s, effort).run()
}
