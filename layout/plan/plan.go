// Package plan is what the author declared, as declared: names, wishes and
// where in the file each stands. It knows no geometry.
package plan

import (
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// FaceID names a side of the unit.
type FaceID string

// The faces, in the order sheets show them.
const (
	Front FaceID = "front"
	Right FaceID = "right"
	Back  FaceID = "back"
	Left  FaceID = "left"
)

// FaceIDs lists the faces in sheet order.
func FaceIDs() []FaceID { return []FaceID{Front, Right, Back, Left} }

// Letter is the face's letter in a position address: F, R, B or L.
func (f FaceID) Letter() string { return string("FRBL"[letterIndex(f)]) }

func letterIndex(f FaceID) int {
	for i, id := range FaceIDs() {
		if id == f {
			return i
		}
	}
	panic("plan: unknown face " + string(f))
}

// Plan is one unit, dressed for one season.
type Plan struct {
	File string // the name it was read under
	Text []byte // the file as read; its fingerprint is on every sheet

	Title, Season, Revision, Date, By string
	Measure                           measure.System
	Paper                             string // letter, tabloid, a4, a3; left open, letter for inches and a4 for millimetres
	Language                          string // en, es, fr; left open, en

	PartsFiles, GoodsFiles []Ref
	StockFiles             []Ref // what is on hand, by part

	Aim        Aim // of fronts left open; left out, Cover
	AimSeconds int // about how long the search for them may take; left out, 2

	Currency string // printed with prices, "" for the bare number
	Tags     *Tags  // position tags, nil for none

	Lift measure.Mass // the most one person is to lift at once; left open, DefaultLift

	Restock int // days from noticing that goods run low to having more of them; left open, 7

	Unit  Unit
	Site  Site
	Rules []RuleSetting // in the order of the file
	Dress []Dress       // in sheet order, only the faces given
}

// RuleSetting says whether a rule is to be heeded in this plan. One that is off
// says why; sheets print it.
type RuleSetting struct {
	ID      Ref
	Off     bool
	Because string // "" only if it is not off
	At      diag.Span
}

// Ref is a name the author wrote: a file, a part id, a SKU.
type Ref struct {
	Name string
	At   diag.Span
}

// Unit is the frame and what it stands on. Panels holds only the faces given.
type Unit struct {
	Name         string // what the shop calls it, "" if it has no name
	Frame, Stand Ref
	Bays         int // 0: as many as the frame has
	Panels       []FacePanel
	At           diag.Span
}

// FacePanel says which panel a face is made of.
type FacePanel struct {
	Face  FaceID
	Panel Ref
}

// Site is where the unit will stand; zero lengths were not given.
type Site struct {
	Aisle, Ceiling measure.Length
	Deflectors     measure.Length // height of the sprinklers' deflectors
	Sprinklers     bool
	MustReach      bool // the goods must be within reach of a seated shopper
	Given          bool
	At             diag.Span
}

// Dress is what hangs on one face: rows from the top down, or Same, the face
// to mirror.
type Dress struct {
	Face FaceID
	Same FaceID // "" unless mirrored
	Rows []Row
	Fill []Fill // in the order of the file
	At   diag.Span
}

// Align says how a row's pieces lie in their span.
type Align string

// The alignments; spread is what a row does unless told otherwise.
const (
	Spread      Align = "spread"
	AlignLeft   Align = "left"
	AlignCenter Align = "center"
	AlignRight  Align = "right"
)

// Row is hardware of one kind side by side at one height.
type Row struct {
	Use     Ref
	Label   string // a name to refer to the row by, or ""
	BayFrom int    // first bay, 0: the whole face
	BayTo   int    // last bay
	BayAt   diag.Span
	At      *Height // pinned to the nearest slot
	Near    *Height // a wish
	Count   int     // 0: as many as the goods need, or the span takes
	CountAt diag.Span
	Every   measure.Length // 0: spread
	EveryAt diag.Span
	Gap     measure.Length // least room between neighbouring goods, 0: what their form needs
	Align   Align
	Repeat  int // at least 1
	With    []Ref
	Goods   []Facings
	Fill    *Fill     // goods to choose among for this row alone, nil if none
	Span    diag.Span // the row as a whole
}

// Height is a height from the finished floor.
type Height struct {
	From measure.Length
	At   diag.Span
}

// Facings is a product and how many fronts of it the author asked for; 0
// leaves it open: as many as fit.
type Facings struct {
	SKU    Ref
	Fronts int
}
