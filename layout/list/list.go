// Package list makes tables from a dressed unit: what to pull from the
// stockroom, and where each product goes.
package list

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// Group is a stop on the walk through the stockroom.
type Group string

// The groups, in walking order.
const (
	Structure Group = "structure" // frame, stand, panels
	Shelving  Group = "shelving"  // shelves, slopes, brackets, baskets
	Hooks     Group = "hooks"     // hooks, shortest first
	Rails     Group = "rails"     // rails, face-outs, bars
	Other     Group = "other"     // signs, strips and the rest
)

// PickLine is one kind of part to pull, one balloon on the drawings. A part
// cut to length has a line for each length.
type PickLine struct {
	Balloon  int // from 1, in list order
	Group    Group
	Part     *parts.Part
	Cut      measure.Length // 0 if it is not cut
	Quantity int
	Packs    int          // to open, at the part's pack size
	Weight   measure.Mass // of all pieces
	Rows     []string     // row addresses where it goes; empty for structure
}

// Pick lists every piece of the unit, by group and then by part list order.
func Pick(u *unit.Unit) []PickLine { panic("not written yet") }

// Balloons finds the balloon of a piece of a pick list.
func Balloons(lines []PickLine) func(part *parts.Part, cut measure.Length) int {
	panic("not written yet")
}

// KeyLine is one position: what goes there and how much.
type KeyLine struct {
	Face     *unit.Face
	Row      *unit.Row
	Position *unit.Position
}

// Key lists every position by face, row and place.
func Key(u *unit.Unit) []KeyLine { panic("not written yet") }

// Summary is the unit in a few figures.
type Summary struct {
	Faces, DressedFaces        int
	PartKinds, Pieces          int // hardware hung, structure left out
	Products, Positions, Units int
	Hardware, Structure, Goods measure.Mass // with every position full
}

// Summarize counts a unit.
func Summarize(u *unit.Unit) Summary { panic("not written yet") }
