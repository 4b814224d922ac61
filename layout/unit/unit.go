// Package unit resolves a declared plan into a dressed unit: every piece of
// hardware and every product at its exact place in three dimensions, each
// remembering the words in the plan it came from. It is the one model that
// checks, lists and sheets read; nothing is worked out twice.
//
// A face is described in its own coordinates: x from the face's left edge as
// its viewer sees it, y up from the finished floor, d out from the panel's
// surface. Unit coordinates are X to the right and Y to the back as seen from
// the front, Z up, with the origin on the floor under the middle of the unit.
package unit

import (
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// Box is an upright box in a face's coordinates, X0 < X1 and so on.
type Box struct{ X0, X1, Y0, Y1, D0, D1 measure.Length }

// Solid is an upright box in unit coordinates.
type Solid struct{ X0, X1, Y0, Y1, Z0, Z1 measure.Length }

// Unit is a dressed unit. It is complete when Resolve returns it and is not
// changed afterwards.
type Unit struct {
	Plan  *plan.Plan
	Parts *parts.List // the parts it was chosen from
	Frame *parts.Part
	Stand *parts.Part
	Faces []*Face // the faces that have a panel, in sheet order

	// Allotted is how fronts that the plan leaves open were given out, in sheet
	// order.
	Allotted []*Allotted

	// Structure is what stands before anything is hung: base deck, feet and
	// panels, in unit coordinates, in the order they are built.
	Structure []Structural
	// Bare is the size of frame and panels; Extent is the box round everything,
	// dressing and goods too.
	Bare, Extent Solid
}

// Face is the face of that name, or nil if the unit has none.
func (u *Unit) Face(id plan.FaceID) *Face {
	for _, f := range u.Faces {
		if f.ID == id {
			return f
		}
	}
	return nil
}

// Structural is one piece of the bare unit. Part is the frame for the deck,
// the stand for a foot, the panel's own part for a panel.
type Structural struct {
	Part  *parts.Part
	Solid Solid
	Face  plan.FaceID // the face a panel belongs to, "" for others; a shared spine belongs to the front
	Bay   int         // the panel's bay, from 1; 0 for others
}

// Face is one side that can be dressed.
type Face struct {
	ID        plan.FaceID
	Letter    string
	Panel     *parts.Part
	Bays      int
	Width     measure.Length // over all bays
	Bottom    measure.Length // the panels' lower edge, from the floor
	Top       measure.Length // their upper edge
	Deck      measure.Length // nothing may hang lower than this
	DeckDepth measure.Length // how far the base deck reaches out on this face; 0 if there is none
	Twin      plan.FaceID    // the face whose panels these are too, "" if none: a shared spine

	Rows []*Row // from the top down, at one height from the left

	origin     [2]measure.Length // unit X, Y of the left edge at the panel's surface
	right, out [2]measure.Length // unit vectors, each component -1, 0 or 1
}

// SlotHeight is the height of slot n, counted from 1 at the bottom.
func (f *Face) SlotHeight(n int) measure.Length {
	return f.Bottom + f.Panel.Panel.First + measure.Length(n-1)*f.Panel.Panel.Pitch
}

// BayEdges returns the x of every bay's left edge and of the last one's right
// edge: Bays+1 values.
func (f *Face) BayEdges() []measure.Length {
	edges := make([]measure.Length, f.Bays+1)
	for i := range edges {
		edges[i] = measure.Length(i) * f.Panel.Width
	}
	return edges
}

// Row is hardware of one kind side by side at one height, as resolved.
type Row struct {
	Number   int    // from the top of the face, 1 first
	Address  string // F-2
	Part     *parts.Part
	Slot     int
	Height   measure.Length // of the slot, from the floor
	X0, X1   measure.Length // the span it was given: bays or the whole face
	Declared *plan.Row      // where it came from
	Copy     int            // which of its repeats it is, from 1
	Mirrored bool           // it came from another face by same:

	Pieces    []*Piece    // from the left
	Brackets  []*Piece    // what the pieces rest on, from the left
	Extras    []*Piece    // what is fixed to them: strips, signs
	Positions []*Position // from the left
}

// All returns every piece of hardware of the row: pieces, brackets, extras.
func (r *Row) All() []*Piece {
	all := make([]*Piece, 0, len(r.Pieces)+len(r.Brackets)+len(r.Extras))
	all = append(all, r.Pieces...)
	all = append(all, r.Brackets...)
	return append(all, r.Extras...)
}

// Piece is one piece of hardware at its place.
type Piece struct {
	Part  *parts.Part
	Box   Box
	X     measure.Length // its centre line: what the crew measures to
	Slot  int            // the slot it is named by; for an extra, that of what it is fixed to
	Grips []Grip         // where it holds on to the panel
	Cut   measure.Length // the length it is cut to, 0 if it is not cut
}

// Grip is one hold on the panel: Slots slots from Slot down, X0 to X1.
type Grip struct {
	Slot, Slots int
	X0, X1      measure.Length
}

// Position is where one product stands or hangs: fronts of one product side by
// side on one piece, or on neighbouring hooks.
type Position struct {
	Place   int    // in its row from the left, 1 first
	Address string // F-2-3
	Product *goods.Product
	Fronts  []Front        // from the left, at least one
	Units   int            // it holds when full
	Look    int            // units it needs to look full
	Cases   int            // whole cases it takes; 0 if none, or if a case is not known
	Days    int            // what the whole unit holds of the product lasts at its sales, -1 if they are not known
	Height  measure.Length // of what the goods stand on or hang from, from the floor
}

// Front is one facing: the Box round all its Units, High of them one on another
// and Deep one behind another (on a rail, side by side). Loose goods lie as they
// fall: High and Deep are 1, Units is how many the basket takes.
type Front struct {
	Box        Box
	Piece      *Piece
	High, Deep int
	Units      int
	Look       int // units it needs to look full, at least 1 and at most Units
}

// Result is what Resolve found: the unit, and findings about it. Unit is nil
// if any finding is an Error; with Stop findings it is as far as it could be
// dressed, and its sheets are not for construction.
type Result struct {
	Unit     *Unit
	Findings diag.List
}
