// Package boards cuts rectangular pieces from boards with a saw that cuts from edge
// to edge (guillotine cuts), at the least cost that it can find, with a bound that
// shows how much cheaper any way of cutting could be. Lengths are whole numbers of
// any unit, nanometres in Setwright; it knows nothing of plans, parts or paper.
//
// Terms, as a panel saw has them (common practice; stages after P. C. Gilmore and
// R. E. Gomory, Operations Research 13, 1965). A board's length runs along the grain.
// A rip runs along the length and parts the width; a crosscut runs across and parts
// the length. All cuts of one part that run one way are a stage: the first stage
// parts the whole board into strips, the second parts each strip the other way, the
// third parts what that gives the first way again. The first may run either way. A
// cut that only frees a piece from what is left over counts as a cut of its stage
// like any other, so that three stages are what the saw does and not three and a
// trim. Squaring up the board's edges (Trim) comes before and is no stage.
//
// How it works: a grid holds the places at which parts can end; a pricer finds, by dynamic
// programming over these, the most that each board can give when pieces have values; a
// linear program turns layouts into values and values into layouts; a chooser finds the
// cheapest numbers of boards that all such values allow; and diving and filling look for
// layouts that make do with those. The values and what boards hold at them are the proof.
package boards

// Board is a size of board that can be had.
type Board struct {
	Length, Width int64 // up to 2^40; Length runs along the grain
	Cost          int64 // of one, from 0 (a board at hand, say) to 2^34
	Limit         int   // how many there are; negative for any number
}

// Piece is a rectangle that is wanted.
type Piece struct {
	Length, Width int64 // Length runs along the grain
	Count         int
	Turn          bool // whether it may lie across the grain
}

// Job is what to cut from what.
type Job struct {
	Boards []Board
	Pieces []Piece
	Kerf   int64 // what a cut takes
	Trim   int64 // lost at each edge of each board
	Stages int   // at most so many stages of cuts; 0 for any number
}

// Plan is how to cut a job: exactly the pieces that are wanted.
type Plan struct {
	Layouts []Layout
	Cost    int64 // of all boards used
	Bound   int64 // no plan costs less
	Proven  bool  // Cost is Bound: no plan costs less than this one
	Proof   *Proof
}

// Layout is how boards of one size are cut.
type Layout struct {
	Board int // index into Job.Boards
	Times int // how many boards are cut like this
	Root  Node
}

// Cut is what becomes of a rectangle.
type Cut int8

const (
	None  Cut = iota // nothing: it is a piece or an off-cut
	Cross            // crosscuts part its length
	Rip              // rips part its width
)

// Node is a rectangle of a board as the saw has it on the way from board to piece.
// X runs along the board's length and Y along its width, both from its corner before
// trimming. Parts follow one another from the low end, a kerf apart; an off-cut too
// narrow to be more than saw-dust is left out. A part that is itself cut in the same
// direction belongs to the same stage.
type Node struct {
	X, Y, Length, Width int64
	Cut                 Cut
	Parts               []Node // none if Cut is None
	Piece               int    // index into Job.Pieces of a piece, or Offcut, or of what is cut on, Offcut too
}

// Offcut is the Piece of a Node that is no piece.
const Offcut = -1
