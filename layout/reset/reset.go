// Package reset works out how one dressed unit becomes another overnight: which
// pieces stay, move, come and go, with the least handling, and in which order,
// so that nothing is hung where something still hangs and the unit stands
// safely after every step.
package reset

import (
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Mark is what happens to a piece or a facing, as the sheets print it.
type Mark string

// The marks.
const (
	Keep Mark = "K"
	Move Mark = "M"
	Add  Mark = "A"
	Pull Mark = "P"
)

// Way is how a piece or a facing gets from its old place to its new one.
type Way uint8

// The ways. Ride is for what goes along with what it is fixed to or hangs on; of
// a facing, Slide is a nudge along its own shelf, rail or bar.
const (
	Stay   Way = iota // left where it is
	Slide             // along its wire or groove, without being unhooked
	Ride              // goes along with the piece that carries it
	Rehang            // taken down and hung again, perhaps where it was; of a facing: taken off and put on again
	Fetch             // from stock
	Return            // to stock
)

// Place is where a piece hangs in one of the two units.
type Place struct {
	Face  *unit.Face
	Row   *unit.Row
	Piece *unit.Piece
	Solid unit.Solid // the piece's box, in unit coordinates

	Host  *Item   // the piece it is fixed to there: the shelf of a ticket strip; nil for what hangs by itself
	Rests []*Item // the brackets it rests on there, from the left
}

// Item is one physical piece of hardware. From is nil for one that is fetched,
// To for one that goes back to stock.
type Item struct {
	Part     *parts.Part // as the new plan has it; the old, if it goes
	Cut      measure.Length
	From, To *Place
	Way      Way
	Host     *Item // what it stays on or rides on: the shelf of a ticket strip; nil where it changes its host
	Seconds  int   // of handling, goods not counted; an estimate
}

// Spot is where a facing stands or hangs in one of the two units.
type Spot struct {
	Face     *unit.Face
	Row      *unit.Row
	Position *unit.Position
	Front    *unit.Front
	Solid    unit.Solid
	On       *Item // the piece that carries it
}

// Facing is one whole facing of goods: all units of one front.
type Facing struct {
	Product  *goods.Product // as the new plan has it; the old, if it goes
	From, To *Spot
	Way      Way
	Seconds  int // of handling, an estimate

	// Stock is how many of its units come from stock; below zero, how many go
	// there. All other units come from the cart or are left on it: what one
	// facing gives up another of the same product takes.
	Stock int
}

// More is how many units a facing gets beyond those that stay on or come along
// with it, below zero for units taken off it: a facing left where it is may be
// filled up or thinned out.
func (f *Facing) More() int {
	more := 0
	if f.To != nil {
		more += f.To.Front.Units
	}
	if f.From != nil {
		more -= f.From.Front.Units
	}
	return more
}

// Mark is the mark of something that goes one way: what slides, rides or is
// hung anew is moved.
func (w Way) Mark() Mark {
	switch w {
	case Stay:
		return Keep
	case Fetch:
		return Add
	case Return:
		return Pull
	}
	return Move
}

// Verb is what the crew does in one step.
type Verb uint8

// The verbs, on goods and on hardware.
const (
	TakeOff  Verb = iota // goods, onto the cart
	TakeDown             // a piece, back to stock
	SetAside             // a piece, leaned beside the unit until its new place is free
	Slip                 // a piece along its wire or groove, with what it carries
	Shift                // a piece, taken down and hung at its new place at once
	Hang                 // a piece, from stock or from beside the unit
	PutOn                // goods, from the cart or from stock
	Nudge                // goods along what carries them
)

// Act is one thing done to one piece (Item) or one facing (Facing); the other
// is nil. Goods that stay, come along with their piece or are nudged are taken
// off or put on only as far as they are thinned out or filled up.
type Act struct {
	Verb   Verb
	Item   *Item
	Facing *Facing
}

// Step is one line of the step list: acts of one verb that follow each other,
// between the same two rows.
type Step struct {
	Number   int // from 1
	Verb     Verb
	Acts     []Act
	Face     plan.FaceID // where the crew stands
	From, To *unit.Row   // of the old and of the new unit; nil for stock, cart or beside the unit
	Seconds  int
	People   int // it takes
	After    Standing
	Caution  string // code of what is wrong after it, "" if nothing is: tip or balance
	Person   int    // whose step it is when two work, 1 or 2; 0 both together
	Wait     int    // number of the other's step that must be done before, 0 for none
}

// Standing is how the unit stands after a step.
type Standing struct {
	Mass    measure.Mass
	Share   float64                      // of the push it must bear that lifts a foot; +Inf where no push is asked for
	Tilt    float64                      // degrees it may lean before it goes over
	Carried map[plan.FaceID]measure.Mass // hardware and goods, by face
}

// Reset is how one unit becomes the other. It is complete when Make returns it.
type Reset struct {
	Old, New    *unit.Unit
	Items       []*Item   // of the old unit in sheet order, then what is fetched in that of the new
	Facings     []*Facing // the same
	Steps       []Step
	Start       Standing     // before the first step
	Differences []Difference // of the bare units; none if they are the same
	Rebuild     bool         // all is taken down and hung anew

	Seconds  int // of all steps, one person
	Together int // seconds until two people are done; 0 if that saves nothing or is not safe
	Findings []diag.Finding
}
