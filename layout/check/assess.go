package check

import (
	"setwright/layout/diag"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Assessment is the mechanics of a dressed unit, full unless said otherwise:
// what the rules judge and the statics sheet draws. Forces are newtons, lengths
// millimetres, masses kilograms, angles degrees; these are floats because they
// are physics, not places. It is complete when Run returns it.
type Assessment struct {
	Shelves []ShelfCase // boards and slopes, in the order of faces, rows and pieces
	Holds   []HoldCase  // everything that holds on to a panel, brackets too, in the same order
	Panels  []PanelCase // each bay of each face
	Faces   []FaceCase  // what hangs on each face
	Bare    Body        // frame, panels, stand and hardware
	Full    Body        // with every position full
	Feet    []FootCase
	Tips    []TipCase // every case by every edge, in a fixed order

	// Heavier is what would be found besides if all goods were a quarter
	// heavier, in the order of the rules.
	Heavier []Newly
}

// Newly is a finding that a change would bring: its rule, its level and where.
type Newly struct {
	Rule    string // its id
	Level   diag.Level
	Where   []string // position addresses, none if it is about the unit
	Message string
}

// ShelfCase is one shelf as a beam on its brackets (a slope: on its grips).
type ShelfCase struct {
	Row      *unit.Row
	Piece    *unit.Piece
	Supports []float64 // from the piece's left end
	Load     float64   // N, its own weight included
	Curve    []SagAt   // from end to end, long term, for drawing
	Sag      float64   // greatest sag, long term
	SagX     float64   // where, from the left end
	Span     float64   // of the span or overhang it is in
	Others   []SagWith // what the sag would be on other numbers of supports
	Reaction []float64 // N, on each support; 0 where the shelf lifts off
}

// SagAt is the sag at one place.
type SagAt struct{ X, Sag float64 }

// SagWith is the greatest sag on that many supports, evenly spread.
type SagWith struct {
	Supports int
	Sag      float64
}

// HoldCase is one piece that holds on to a panel.
type HoldCase struct {
	Row     *unit.Row
	Piece   *unit.Piece
	Load    float64 // N, goods and, for a bracket, its part of the shelf
	Rated   float64 // N, 0 if no rating is known
	Assumed bool
	Moment  float64 // N·mm at the panel
	Tip     float64 // mm, deflection of a round wire's tip; 0 for what is not wire
}

// PanelCase is one bay of one face.
type PanelCase struct {
	Face    plan.FaceID
	Bay     int
	Load    float64 // N, all that holds on to it on this face
	Rated   float64
	PerGrip float64 // N, the most on one grip
}

// FaceCase is what one face carries: the masses, and where the centre of what
// hangs there lies, hardware alone and with all its goods.
type FaceCase struct {
	Face            plan.FaceID
	Hardware, Goods float64 // kg
	Bare, Full      Body
}

// Body is a mass and the place of its centre in unit coordinates, mm.
type Body struct{ Mass, X, Y, Z float64 }

// FootCase is one caster or leveller.
type FootCase struct {
	X, Y    float64 // mm, unit coordinates
	Load    float64 // N, all feet on the floor
	OneOff  float64 // N, the most on it with one of the others off the floor
	Rated   float64
	Assumed bool
}

// TipCase is one way to go over: a state of the unit and an edge of its
// footprint.
type TipCase struct {
	State        string  // "full", "bare", "front first" and so on for each face with goods, "low shelves empty"
	FromX, FromY float64 // the edge, mm
	ToX, ToY     float64
	Body         Body
	Arm          float64 // mm, from the centre of gravity to the edge, level
	ForceTop     float64 // N, level, at the unit's top, that lifts the far feet
	Force1400    float64 // N, the same at 1.4 m, or at the top of a lower unit
	Tilt         float64 // degrees at which it goes over by itself
}
