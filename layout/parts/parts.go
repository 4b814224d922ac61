// Package parts is the hardware at hand: the built-in list of generic parts and
// a house's own lists, which add to it or override it by id.
package parts

import (
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

// Kind is what a part is, and so how a row of it behaves.
type Kind string

// The kinds. A panel carries the others; frame and stand carry the panels.
const (
	Panel   Kind = "panel"
	Frame   Kind = "frame"
	Stand   Kind = "stand"
	Hook    Kind = "hook"     // goods hang one behind the other on a peg
	Shelf   Kind = "shelf"    // flat, on brackets
	Slope   Kind = "slope"    // sloped wire shelf, hangs on the panel by itself
	Bracket Kind = "bracket"  // holds a shelf; never a row of its own
	Rail    Kind = "rail"     // hang rail across, garments on hangers, arms to the panel
	FaceOut Kind = "face-out" // one arm out of the panel, garments face the shopper
	Basket  Kind = "basket"
	Bar     Kind = "bar"    // belt and tie bar: pegs side by side
	Shoe    Kind = "shoe"   // small shelf for one sample shoe
	Sign    Kind = "sign"   // sign holder
	Strip   Kind = "strip"  // ticket strip, fixed to the front of another part; never a row of its own
	Fixing  Kind = "fixing" // screw, bolt, clip, end cap: comes with other parts, takes no room and is not drawn
)

// Surface is what a panel offers to hang on.
type Surface string

// The surfaces.
const (
	Wire      Surface = "wire"      // grid of round wires; hardware hangs on horizontal ones
	Slatwall  Surface = "slatwall"  // grooves
	Pegboard  Surface = "pegboard"  // holes both ways
	Standards Surface = "standards" // slotted uprights
)

// Part is one piece of hardware. Lengths are those of the part as mounted.
//
// Heights on a panel are named by slots. A part's box reaches from Below under
// its slot to Above over it, Width sideways and Depth out from the panel.
type Part struct {
	ID   string
	Name string
	Kind Kind

	Mounts []Surface // what it hangs on; empty for panels, frames, stands and strips

	Width, Depth measure.Length
	Above, Below measure.Length

	// Usable is what goods may take of it: the hook's or arm's length between
	// panel and tip, the shelf's or basket's inside depth, the rail's length
	// between its arms. A bracket's is its nominal reach, by which shelves ask
	// for it.
	Usable measure.Length
	// Headroom is the clear height a hand needs over the goods on the part.
	Headroom measure.Length
	// Lip is how much higher than its bearing surface the part's front edge or
	// tip rises; for a slope, how far the front lies below the back (negative).
	Lip measure.Length
	// Bearing is the height of the surface goods stand on, or of the bar, peg
	// or rail they hang from, over the slot (negative: under it).
	Bearing measure.Length

	Grip  Grip
	Holds []goods.Form // the forms of goods it takes

	Weight  measure.Mass
	Rated   measure.Mass // rated load, 0 if none is known; a stand's is for all its feet together
	Assumed bool         // the rating is an assumption, and is printed as one

	Needs *Need          // what must be used with it
	Pack  int            // pieces a pack, at least 1
	Buy   Buying         // how it is bought; a part that is cut is bought as its stock
	Cut   *Cut           // set if it is cut from stock, to length or to size
	Fixed []Fixings      // what one piece is put up with: screws, clips
	Setup int            // seconds to put one up, an estimate; 0: what is usual for its kind
	Bend  *Stiffness     // set if it bends sideways under its load, between what holds it
	Wire  measure.Length // diameter of the round wire its goods hang from: a hook, a peg, an arm, a rail; 0: not round
	Pegs  int            // a bar's pegs, side by side
	Steps int            // a stepped face-out's places; 0 or 1 for a straight one
	Notes string         // what the crew should know, printed on the build sheet

	Panel *PanelSpec
	Frame *FrameSpec
	Stand *StandSpec

	At diag.Span
}

// Grip is where a part holds on to its panel. It holds Slots slots, its own
// and those under it, at each of Sides places across its width: one is its
// middle, two are near its ends (Inset from each), none is free of the panel
// (a shelf rests on brackets). Width is what one grip covers sideways. Shift is
// how far to the right of those places the grips sit: parts as wide as a panel
// cannot make way sideways, and are made so that two of them hang back to back
// on one spine.
type Grip struct {
	Slots int
	Sides int
	Inset measure.Length
	Width measure.Length
	Shift measure.Length
}

// Need says which brackets a shelf rests on: Reach is their nominal length; a
// row uses the bracket of that reach which fits its panel. Every is the
// greatest distance from one bracket to the next; Inset is how far from the
// shelf's ends the outer ones stand.
type Need struct {
	Kind  Kind
	Reach measure.Length
	Every measure.Length
	Inset measure.Length
}

// Cut says what stock a part is cut from. From a bar it is cut to the length of
// what it is fixed to, if it is a strip, else to Length. From a sheet it is cut
// to its width by its depth, a panel to its width by its height.
type Cut struct {
	From   *Stock
	Length measure.Length // of a piece from a bar; left out, the part's width
	Grain  Grain          // which side of a piece from a sheet lies along the grain
}

// Fixings is so many of a fixing with each piece of a part.
type Fixings struct {
	Part  string // its id
	Count int
}

// Fixed is a fixing, found by its id, and how many go with one piece.
type Fixed struct {
	Part  *Part
	Count int
}

// PanelSpec is the surface of a panel of the part's Width and Height.
type PanelSpec struct {
	Surface Surface
	Height  measure.Length
	Thick   measure.Length

	// Slot 1 lies First over the panel's bottom edge, the next ones Pitch
	// apart, Count of them.
	First, Pitch measure.Length
	Count        int

	// Sideways: a wire grid has vertical wires, of WireWidth, every AcrossPitch
	// from AcrossFirst; pegboard has holes there; slotted standards stand at
	// Uprights. Slatwall leaves all but zero.
	AcrossFirst, AcrossPitch measure.Length
	WireWidth                measure.Length
	Uprights                 []measure.Length
	// Edge is how near to the panel's side edges a grip's own edge may come.
	Edge measure.Length
}

// FrameForm says where the faces of a unit stand.
type FrameForm string

// The forms: H is a shared spine with end panels across its ends; Box has two
// spines and two ends; Tower is four panels round a square; Wall is one run of
// panels, one face.
const (
	HForm     FrameForm = "h"
	BoxForm   FrameForm = "box"
	TowerForm FrameForm = "tower"
	WallForm  FrameForm = "wall"
)

// FrameSpec is a frame. Bays is the number of panels along front and back (a
// wall run's may be set in the plan); Gap is the distance between a box's
// spines, back to back. Base is the height of the base deck over the stand;
// BaseDepth how far the deck reaches out from the spine on each side.
type FrameSpec struct {
	Form      FrameForm
	Bays      int
	Gap       measure.Length
	Base      measure.Length
	BaseDepth measure.Length
}

// StandSpec is what a frame stands on: Form is "casters", "levellers" or
// "fixed", Height from the floor to the base, Feet how many, Radius the swivel
// radius of a caster (0 for others), Offset how far its axle lies from its
// kingpin (0 for others), Inset how far in from the corners.
type StandSpec struct {
	Form   string
	Height measure.Length
	Feet   int
	Radius measure.Length
	Offset measure.Length
	Inset  measure.Length
}

// PerFoot is what one foot of a stand may carry, or 0 if no rating is known or
// the stand has no feet.
func (p *Part) PerFoot() measure.Mass {
	if p.Stand == nil || p.Stand.Feet == 0 {
		return 0
	}
	return p.Rated / measure.Mass(p.Stand.Feet)
}

// Size is width, depth and height of a part as mounted, 0 where it has none: of
// a frame depth and height of its deck, of a stand its height.
func (p *Part) Size() (width, depth, height measure.Length) {
	switch {
	case p.Panel != nil:
		return p.Width, p.Panel.Thick, p.Panel.Height
	case p.Stand != nil:
		return 0, 0, p.Stand.Height
	case p.Frame != nil:
		return 0, p.Frame.BaseDepth, p.Frame.Base
	}
	return p.Width, p.Depth, p.Above + p.Below
}

// List is the parts at hand, the materials they are made of, the stock they are
// cut from, and where both are bought.
type List struct {
	parts     shelf[Part]
	materials shelf[Material]
	stock     shelf[Stock]
	suppliers shelf[Supplier]
}

// Find returns the part of that id.
func (l *List) Find(id string) (*Part, bool) { return l.parts.find(id) }

// All returns every part in list order.
func (l *List) All() []*Part { return l.parts.all() }

// Fixings lists what one piece of a part is put up with, each fixing as this
// list has it: a later list may have overridden it.
func (l *List) Fixings(p *Part) []Fixed {
	var list []Fixed
	for _, f := range p.Fixed {
		if part, ok := l.Find(f.Part); ok {
			list = append(list, Fixed{part, f.Count})
		}
	}
	return list
}

// FixedWeight is the weight of all that one piece of a part is put up with.
func (l *List) FixedWeight(p *Part) measure.Mass {
	sum := measure.Mass(0)
	for _, f := range l.Fixings(p) {
		sum += measure.Mass(f.Count) * f.Part.Weight
	}
	return sum
}
