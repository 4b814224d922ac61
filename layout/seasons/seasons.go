// Package seasons puts the packs of a folder in order of time: for each unit
// what was up when, what changed from one to the next, and which parts it all
// took. It reads summaries and resolves nothing.
package seasons

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"setwright/layout/archive"
	"setwright/layout/diag"
)

// Pack is one pack as it was found.
type Pack struct {
	File string // as the user names it
	Mark string // the fingerprint of its plan and that plan's files
	archive.Summary
}

// Timeline is packs in order of time, by unit. It is complete when Make returns
// it and is not changed afterwards.
type Timeline struct {
	Units []*Unit // by their labels
}

// Unit is one unit and the packs of it.
type Unit struct {
	// Label is what its plans call it; one without a name goes by its frame and
	// stand, and by its panels too where another without a name has both.
	Label string
	Bare  archive.Bare // of its last pack

	Entries []Entry // by date and revision, those without a date last
	Kit     []Line  // what all that was up took
}

// State says what became of a pack.
type State string

// The states.
const (
	Up         State = "up"         // it was on the unit
	Superseded State = "superseded" // another of the same date is a later revision
	Copy       State = "copy"       // another file holds the same plan
	Undated    State = "undated"    // nobody knows when it was up
)

// Entry is one pack on the timeline of its unit.
type Entry struct {
	*Pack
	State State
	// From and To are the first and the last day of what was up: up to the day
	// before the next. To is Never for what no later pack ends.
	From, To Day
	Change   *Change // from what was up before; nil for the first and for what was not up
}

// Make orders packs in time. Of those with one date the last revision was up.
func Make(packs []Pack) (*Timeline, []diag.Finding) {
	line := &Timeline{}
	byUnit := map[string]*Unit{}
	for i := range packs {
		key := identity(packs[i].Unit)
		u := byUnit[key]
		if u == nil {
			u = &Unit{}
			byUnit[key] = u
			line.Units = append(line.Units, u)
		}
		u.Entries = append(u.Entries, Entry{Pack: &packs[i]})
	}
	var found []diag.Finding
	for _, u := range line.Units {
		found = append(found, u.order()...)
		found = append(found, u.agree()...)
		u.compare()
		u.Kit = kit(u.Shown())
	}
	line.label()
	return line, found
}

// identity tells units apart: by the name in their plans, or else by what they
// are made of.
func identity(b archive.Bare) string {
	if b.Name != "" {
		return "name " + b.Name
	}
	return "made of " + makeup(b)
}

// makeup is what a bare unit is made of: "gondola-h-48, casters-locking, F 2 ×
// grid-24x60".
func makeup(b archive.Bare) string {
	words := []string{standing(b)}
	for _, p := range b.Panels {
		words = append(words, fmt.Sprintf("%s %d × %s", p.FaceID().Letter(), p.Bays, p.Part))
	}
	return strings.Join(words, ", ")
}

func standing(b archive.Bare) string { return b.Frame + ", " + b.Stand }

// order puts a unit's packs in order and says when each was up.
func (u *Unit) order() []diag.Finding {
	for i := range u.Entries {
		e := &u.Entries[i]
		if day, ok := ParseDay(e.Date); ok {
			e.State, e.From = Up, day
		} else {
			e.State, e.From = Undated, Never
		}
	}
	slices.SortStableFunc(u.Entries, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(a.From, b.From), compareRevisions(a.Revision, b.Revision), cmp.Compare(a.File, b.File))
	})
	u.copies()
	found := u.supersede()
	var next *Entry
	for i := len(u.Entries) - 1; i >= 0; i-- {
		e := &u.Entries[i]
		if e.State != Up {
			e.From = 0
			continue
		}
		if e.To = Never; next != nil {
			e.To = next.From - 1
		}
		next = e
	}
	u.Bare = u.Entries[len(u.Entries)-1].Unit
	if next != nil {
		shown := u.Shown()
		u.Bare = shown[len(shown)-1].Unit
	}
	return found
}

// copies marks packs of a plan that an earlier file holds already.
func (u *Unit) copies() {
	for i := range u.Entries {
		e := &u.Entries[i]
		if slices.ContainsFunc(u.Entries[:i], func(before Entry) bool { return before.Mark == e.Mark && before.Date == e.Date }) {
			e.State = Copy
		}
	}
}

// supersede leaves one pack up on each date, and reports where that was a guess.
func (u *Unit) supersede() []diag.Finding {
	var found []diag.Finding
	var last *Entry
	for i := range u.Entries {
		e := &u.Entries[i]
		switch {
		case e.State == Undated:
			found = append(found, diag.Finding{Level: diag.Note, Code: "undated-pack", At: diag.Span{File: e.File},
				Message: "this pack has no date: nobody knows when it was up", Expected: "date: in its plan, such as 2027-02-15"})
		case e.State != Up:
		default:
			if last != nil && last.From == e.From {
				last.State = Superseded
				if compareRevisions(last.Revision, e.Revision) == 0 {
					found = append(found, diag.Finding{Level: diag.Caution, Code: "same-revision", At: diag.Span{File: e.File},
						Message: "this pack has the date and the revision of another, and another plan: it is taken for the later one, by its file's name",
						Notes:   []diag.Related{{At: diag.Span{File: last.File}, Message: "the other"}}})
				}
			}
			last = e
		}
	}
	return found
}

// compareRevisions orders revisions: none, then numbers by their value, then
// letters as drawing offices count them (ASME Y14.35, from memory): A to Z, then
// AA.
func compareRevisions(a, b string) int {
	rank := func(r string) (class int, digits string) {
		switch {
		case r == "":
			return 0, ""
		case strings.Trim(r, "0123456789") == "":
			return 1, strings.TrimLeft(r, "0")
		}
		return 2, r
	}
	classA, a := rank(strings.ToUpper(a))
	classB, b := rank(strings.ToUpper(b))
	return cmp.Or(cmp.Compare(classA, classB), cmp.Compare(len(a), len(b)), cmp.Compare(a, b))
}

// Shown is what was up, in order.
func (u *Unit) Shown() []Entry {
	var shown []Entry
	for _, e := range u.Entries {
		if e.State == Up {
			shown = append(shown, e)
		}
	}
	return shown
}

// agree reports where packs under one name are of different units.
func (u *Unit) agree() []diag.Finding {
	var found []diag.Finding
	for i, e := range u.Entries {
		if i == 0 {
			continue
		}
		before := u.Entries[i-1]
		if was, is := makeup(before.Unit), makeup(e.Unit); was != is {
			found = append(found, diag.Finding{Level: diag.Caution, Code: "another-unit", At: diag.Span{File: e.File},
				Message:  fmt.Sprintf("%s is now another unit: %s", e.Unit.Name, is),
				Expected: "one frame, stand and set of panels under one name: " + was,
				Notes:    []diag.Related{{At: diag.Span{File: before.File}, Message: "the pack before"}}})
		}
	}
	return found
}

// label names the units, no two alike, and puts them in order.
func (t *Timeline) label() {
	same := map[string]int{}
	for _, u := range t.Units {
		if u.Bare.Name == "" {
			same[standing(u.Bare)]++
		}
	}
	for _, u := range t.Units {
		switch {
		case u.Bare.Name != "":
			u.Label = u.Bare.Name
		case same[standing(u.Bare)] > 1:
			u.Label = makeup(u.Bare)
		default:
			u.Label = standing(u.Bare)
		}
	}
	slices.SortStableFunc(t.Units, func(a, b *Unit) int { return cmp.Compare(a.Label, b.Label) })
}

// Manner is the pack in whose language, measure and paper the timeline is told:
// the one that went up last, of equal ones the first by label. Where none has a
// date it is the first; it is nil if there is none at all.
func (t *Timeline) Manner() *Pack {
	var last *Entry
	for _, u := range t.Units {
		for i := range u.Entries {
			if e := &u.Entries[i]; last == nil || e.State == Up && (last.State != Up || e.From > last.From) {
				last = e
			}
		}
	}
	if last == nil {
		return nil
	}
	return last.Pack
}
