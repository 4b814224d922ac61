package reset

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Difference is one thing in which the bare units differ, so that one cannot be
// made of the other without building anew.
type Difference struct {
	What     string      // frame, stand, panels or bays
	Face     plan.FaceID // of panels and bays; else ""
	Old, New string      // a part's id, or how many bays; "" where there is none
	In       string      // what of it differs, in English, where both are of one name: "height, slots"
}

// String is the difference in words, for messages.
func (d Difference) String() string {
	what := d.What
	if d.Face != "" {
		what = string(d.Face) + " " + what
	}
	if d.In != "" {
		return fmt.Sprintf("the %s: %s, unlike in %s", what, d.New, d.In)
	}
	none := func(s string) string {
		if s == "" {
			return "none"
		}
		return s
	}
	return fmt.Sprintf("the %s: %s, not %s", what, none(d.New), none(d.Old))
}

// Differences are what two bare units differ in: frame, stand, and face by face
// panels and bays; nil if all that hangs on the one would hang on the other in
// the same place. Frame and stand are the same by their ids; panels are the same
// whatever their ids if they are alike in all that matters for mounting.
func Differences(old, new *unit.Unit) []Difference {
	var list []Difference
	part := func(what string, face plan.FaceID, a, b *parts.Part, sameID bool) {
		unlike := bareUnlike(a, b)
		switch {
		case a == nil && b == nil:
		case a == nil:
			list = append(list, Difference{What: what, Face: face, New: b.ID})
		case b == nil:
			list = append(list, Difference{What: what, Face: face, Old: a.ID})
		case a.ID != b.ID && (sameID || unlike != nil):
			list = append(list, Difference{What: what, Face: face, Old: a.ID, New: b.ID})
		case unlike != nil:
			list = append(list, Difference{What: what, Face: face, Old: a.ID, New: b.ID, In: strings.Join(unlike, ", ")})
		}
	}
	part("frame", "", old.Frame, new.Frame, true)
	part("stand", "", old.Stand, new.Stand, true)
	for _, id := range plan.FaceIDs() {
		a, b := old.Face(id), new.Face(id)
		part("panels", id, panelOf(a), panelOf(b), false)
		if a != nil && b != nil && a.Bays != b.Bays {
			list = append(list, Difference{What: "bays", Face: id, Old: strconv.Itoa(a.Bays), New: strconv.Itoa(b.Bays)})
		}
	}
	return list
}

func panelOf(f *unit.Face) *parts.Part {
	if f == nil {
		return nil
	}
	return f.Panel
}

// bareUnlike names what is not alike about two parts of the bare unit, as far as
// it changes where things hang or how the unit stands; nil if one is missing.
func bareUnlike(a, b *parts.Part) []string {
	if a == nil || b == nil {
		return nil
	}
	var names []string
	tell := func(what string, same bool) {
		if !same {
			names = append(names, what)
		}
	}
	tell("kind", a.Kind == b.Kind)
	tell("width", a.Width == b.Width)
	if p, q := a.Panel, b.Panel; p != nil && q != nil {
		tell("surface", p.Surface == q.Surface)
		tell("height", p.Height == q.Height)
		tell("thickness", p.Thick == q.Thick)
		tell("slots", p.First == q.First && p.Pitch == q.Pitch && p.Count == q.Count)
		tell("wires, holes or uprights", p.AcrossFirst == q.AcrossFirst && p.AcrossPitch == q.AcrossPitch && p.WireWidth == q.WireWidth &&
			p.Edge == q.Edge && slices.Equal(p.Uprights, q.Uprights))
	}
	if p, q := a.Frame, b.Frame; p != nil && q != nil {
		tell("form", p.Form == q.Form)
		tell("depth", p.Gap == q.Gap && p.BaseDepth == q.BaseDepth)
		tell("height", p.Base == q.Base)
	}
	if p, q := a.Stand, b.Stand; p != nil && q != nil {
		tell("form", p.Form == q.Form)
		tell("height", p.Height == q.Height)
		tell("feet", p.Feet == q.Feet && p.Radius == q.Radius && p.Offset == q.Offset && p.Inset == q.Inset)
	}
	return names
}

// unlike names what is not alike about two parts that hang on a panel, as far
// as it matters for where and how they hang and for the goods on them. What they
// weigh, bear and cost may have been corrected: the piece is the same.
func unlike(a, b *parts.Part) []string {
	if a == b {
		return nil
	}
	var names []string
	tell := func(what string, same bool) {
		if !same {
			names = append(names, what)
		}
	}
	tell("kind", a.Kind == b.Kind)
	tell("width", a.Width == b.Width)
	tell("depth", a.Depth == b.Depth)
	tell("height", a.Above == b.Above && a.Below == b.Below)
	tell("bearing", a.Bearing == b.Bearing && a.Lip == b.Lip)
	tell("inside size", a.Usable == b.Usable)
	tell("grip", a.Grip == b.Grip)
	tell("mounts", slices.Equal(a.Mounts, b.Mounts))
	tell("brackets", sameNeed(a.Needs, b.Needs))
	tell("pegs", a.Pegs == b.Pegs && max(a.Steps, 1) == max(b.Steps, 1))
	return names
}

func sameNeed(a, b *parts.Need) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

// compare holds the bare units against each other and says what it finds.
func (r *Reset) compare() {
	r.Differences = Differences(r.Old, r.New)
	r.otherNames()
	if r.Differences == nil {
		r.sameByAnotherName()
		return
	}
	words := make([]string, len(r.Differences))
	for i, d := range r.Differences {
		words[i] = d.String()
	}
	f := diag.Finding{Level: diag.Error, Code: "another-unit", At: r.New.Plan.Unit.At,
		Message:  "the plans are not of one unit: " + strings.Join(words, "; "),
		Expected: "one unit, dressed anew",
		Fix:      "ask for a rebuild: all is taken down, the bare unit is changed, and all is hung anew",
		Notes:    []diag.Related{{At: r.Old.Plan.Unit.At, Message: "the old unit"}}}
	if r.Rebuild {
		f.Level, f.Expected, f.Fix = diag.Note, "", ""
		f.Message = "the bare unit is changed: " + strings.Join(words, "; ")
	}
	r.Findings = append(r.Findings, f)
}

// otherNames cautions where the plans name two units: the crew may be about to
// dress the wrong one.
func (r *Reset) otherNames() {
	a, b := r.Old.Plan.Unit.Name, r.New.Plan.Unit.Name
	if a == "" || b == "" || a == b {
		return
	}
	r.Findings = append(r.Findings, diag.Finding{Level: diag.Caution, Code: "another-name", At: r.New.Plan.Unit.At,
		Message: fmt.Sprintf("the old plan is of the unit %q, the new one of %q", a, b),
		Fix:     "look whether these are plans of one unit, and name it alike in both",
		Notes:   []diag.Related{{At: r.Old.Plan.Unit.At, Message: "the old unit"}}})
}

// sameByAnotherName notes panels that count as the same though the plans call
// them otherwise.
func (r *Reset) sameByAnotherName() {
	for _, b := range r.New.Faces {
		if a := r.Old.Face(b.ID); a.Panel.ID != b.Panel.ID {
			r.Findings = append(r.Findings, diag.Finding{Level: diag.Note, Code: "same-panels", At: r.New.Plan.Unit.At,
				Message: fmt.Sprintf("the panels of the %s face are %s in one plan and %s in the other: they are alike in all that matters for mounting and stay where they are",
					b.ID, a.Panel.ID, b.Panel.ID)})
		}
	}
}
