package parts

import (
	"fmt"
	"slices"

	"setwright/layout/measure"
)

// minPitch is the least distance between slots, wires or holes: no panel has
// finer ones, and a face must not break into millions.
const minPitch = measure.Inch / 8

// check reports what a part, read whole, still lacks or contradicts.
func (r *reader) check(p *Part) {
	if p.Kind == "" {
		r.lacks(p, "kind", "what the part is, such as hook or shelf")
		return
	}
	if p.Name == "" {
		r.lacks(p, "name", "the part's name as the crew knows it")
	}
	r.belongs(p, "panel", p.Panel != nil, Panel)
	r.belongs(p, "frame", p.Frame != nil, Frame)
	r.belongs(p, "stand", p.Stand != nil, Stand)
	if p.Bend != nil && !carries(p.Kind) {
		r.fail(r.KeyAt("bend"), "wrong-section", fmt.Sprintf("a %s has no \"bend\"", p.Kind), "")
	}
	switch p.Kind {
	case Panel:
		r.checkPanel(p)
	case Frame:
		r.checkFrame(p)
	case Stand:
		if p.Stand == nil || p.Stand.Form == "" {
			r.lacks(p, "stand", "its form, height and feet")
		}
	case Fixing: // a name is all it needs
		if p.Fixed != nil {
			r.fail(r.KeyAt("fixed"), "wrong-section", fmt.Sprintf("%s is a fixing and has none of its own", p.ID), "each fixing with the part that it holds")
		}
	default:
		r.checkHardware(p)
	}
	r.checkCut(p)
}

// belongs reports a part of the kind without its section, or another with it.
func (r *reader) belongs(p *Part, section string, there bool, kind Kind) {
	if there && p.Kind != kind {
		r.fail(r.KeyAt(section), "wrong-section", fmt.Sprintf("a %s has no %q", p.Kind, section), "")
	}
}

func (r *reader) lacks(p *Part, key, expected string) {
	r.fail(p.At, "missing-key", fmt.Sprintf("%s lacks %q", p.ID, key), expected)
}

func (r *reader) checkHardware(p *Part) {
	switch {
	case p.Width == 0:
		r.lacks(p, "width", "its size sideways")
	case p.Depth == 0:
		r.lacks(p, "depth", "its size out from the panel")
	case p.Above+p.Below == 0:
		r.lacks(p, "above", "how far it reaches over its slot, or below: under it")
	case p.Above+p.Below+p.Bearing < 0:
		r.fail(r.KeyAt("bearing"), "bad-length", fmt.Sprintf("the bearing of %s lies below the part itself", p.ID), "")
	}
	if p.Kind == Strip {
		return
	}
	if len(p.Mounts) == 0 {
		r.lacks(p, "mounts", "the surfaces it hangs on")
	}
	if carries(p.Kind) {
		if len(p.Holds) == 0 {
			r.lacks(p, "holds", "the forms of goods it takes")
		}
		if p.Usable == 0 {
			r.lacks(p, "usable", "the length or depth goods may take")
		}
	}
	if p.Kind == Bracket && p.Usable == 0 {
		r.lacks(p, "usable", "its nominal reach")
	}
	if p.Kind == Bar && p.Pegs == 0 {
		r.lacks(p, "pegs", "how many pegs it has")
	}
	r.checkGrip(p)
	r.checkNeeds(p)
	r.checkBend(p)
}

// carries says whether parts of the kind are there to hold goods.
func carries(k Kind) bool {
	return !slices.Contains([]Kind{Panel, Frame, Stand, Bracket, Sign, Strip, Fixing}, k)
}

func (r *reader) checkGrip(p *Part) {
	g := p.Grip
	switch {
	case p.Needs == nil && (g.Slots == 0 || g.Sides == 0):
		r.lacks(p, "grip", "the slots and sides it holds on by, or needs: what it rests on")
	case g.Sides > 0 && g.Width > p.Width:
		r.fail(r.KeyAt("grip"), "bad-length", fmt.Sprintf("a grip of %s is wider than the part", p.ID), "")
	case g.Sides > 0 && max(g.Shift, -g.Shift) > g.room(p.Width):
		r.fail(r.KeyAt("grip"), "bad-length", fmt.Sprintf("the grips of %s are shifted beyond its ends", p.ID), "")
	case g.Sides > 1 && 2*g.Inset >= p.Width:
		r.fail(r.KeyAt("grip"), "bad-length", fmt.Sprintf("the grips of %s are inset past each other", p.ID), "an inset of less than half its width")
	}
}

// room is how far a grip may shift without leaving the part.
func (g Grip) room(width measure.Length) measure.Length {
	if g.Sides > 1 {
		return g.Inset
	}
	return width / 2
}

func (r *reader) checkNeeds(p *Part) {
	n := p.Needs
	switch {
	case n == nil:
	case n.Reach == 0 || n.Every == 0:
		r.fail(r.KeyAt("needs"), "missing-key", fmt.Sprintf("the needs of %s lack bracket: or every:", p.ID), "the brackets' reach and greatest distance")
	case n.Every < measure.Inch:
		r.fail(r.KeyAt("needs"), "bad-length", fmt.Sprintf("%s needs brackets closer than an inch", p.ID), "")
	case 2*n.Inset >= p.Width:
		r.fail(r.KeyAt("needs"), "bad-length", fmt.Sprintf("the brackets of %s are inset past each other", p.ID), "an inset of less than half its width")
	}
}

func (r *reader) checkPanel(p *Part) {
	s := p.Panel
	if s == nil || s.Surface == "" || s.Height == 0 || s.Thick == 0 || s.Pitch == 0 || s.Count == 0 {
		r.lacks(p, "panel", "its surface, height, thick, pitch and count")
		return
	}
	at := r.KeyAt("panel")
	switch {
	case p.Width == 0:
		r.lacks(p, "width", "its size sideways")
	case s.Pitch < minPitch:
		r.fail(at, "bad-length", fmt.Sprintf("the slots of %s are closer than 1/8 in", p.ID), "")
	case s.First+measure.Length(s.Count-1)*s.Pitch > s.Height:
		r.fail(at, "bad-length", fmt.Sprintf("the highest slot of %s lies over its top edge", p.ID),
			fmt.Sprintf("at most %d slots", max(0, (s.Height-s.First)/s.Pitch+1)))
	}
	switch s.Surface {
	case Wire, Pegboard:
		if s.AcrossPitch < minPitch || p.Width/max(s.AcrossPitch, 1) > maxSlots {
			r.fail(at, "bad-length", fmt.Sprintf("%s lacks a sensible across-pitch", p.ID), "the distance from one wire or hole to the next, sideways")
		}
	case Standards:
		if len(s.Uprights) == 0 || len(s.Uprights) > maxUprights || !slices.IsSorted(s.Uprights) || s.Uprights[len(s.Uprights)-1] > p.Width {
			r.fail(at, "bad-length", fmt.Sprintf("%s lacks sensible uprights", p.ID), "where its standards are, from the left, within its width")
		}
	}
}

func (r *reader) checkFrame(p *Part) {
	s := p.Frame
	switch {
	case s == nil || s.Form == "":
		r.lacks(p, "frame", "its form and bays")
	case s.Bays == 0:
		r.fail(r.KeyAt("frame"), "missing-key", fmt.Sprintf("%s has no bays", p.ID), "how many panels front and back are wide")
	case (s.Form == BoxForm || s.Form == TowerForm) && s.Gap == 0:
		r.fail(r.KeyAt("frame"), "missing-key", fmt.Sprintf("%s has no gap", p.ID), "the distance from its front panels to its back ones")
	}
}
