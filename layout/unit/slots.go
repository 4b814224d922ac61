package unit

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/solve"
)

// maxConflicts is how many sets of rows that cannot stand together are told of
// one face, before it is given up.
const maxConflicts = 10

// slots finds each draft's slot and returns the drafts that could be placed,
// in file order. Rows that cannot stand together are reported; the last of
// them in the file is then left out, so that the rest can still be drawn.
func (r *resolver) slots(f *Face, drafts []*draft) []*draft {
	if r.moreRowsThanSlots(f, drafts) {
		return nil
	}
	r.easeFills(f, drafts)
	for conflicts := 0; len(drafts) > 0; conflicts++ {
		problem := r.slotProblem(f, drafts)
		slots, conflict := problem.Place()
		if conflict == nil {
			for i, d := range drafts {
				d.row = &Row{
					Part: d.part, Slot: slots[i], Height: f.SlotHeight(slots[i]),
					X0: d.x0, X1: d.x1, Declared: d.decl, Copy: d.copy, Mirrored: d.mirror,
				}
				r.reportShift(d)
			}
			return drafts
		}
		if conflicts == maxConflicts {
			r.stop(drafts[conflict.Rows[0]].decl.Span, "rows-do-not-fit", fmt.Sprintf("still more rows of the %s face cannot stand together; none of it is drawn", f.ID),
				"mend the rows reported first")
			return nil
		}
		r.reportConflict(f, drafts, problem, conflict)
		drop := conflict.Rows[len(conflict.Rows)-1]
		drafts = append(drafts[:drop:drop], drafts[drop+1:]...)
	}
	return nil
}

// moreRowsThanSlots reports a bay with more rows one over another than it has
// slots, without looking for the best way to fail.
func (r *resolver) moreRowsThanSlots(f *Face, drafts []*draft) bool {
	rows := make([]int, f.Bays)
	for _, d := range drafts {
		from, to := f.baysOf(d.x0, d.x1)
		for bay := from; bay < to; bay++ {
			if rows[bay]++; rows[bay] > f.Panel.Panel.Count {
				r.stop(d.decl.Span, "rows-do-not-fit", fmt.Sprintf("bay %d of the %s face has more rows than its %d slots; none of the face is drawn", bay+1, f.ID, f.Panel.Panel.Count),
					"fewer rows")
				return true
			}
		}
	}
	return false
}

func (r *resolver) slotProblem(f *Face, drafts []*draft) solve.Slots {
	p := solve.Slots{
		First: int64(f.SlotHeight(1)), Pitch: int64(f.Panel.Panel.Pitch), Count: f.Panel.Panel.Count,
		Top: int64(f.Top), Bottom: int64(f.Deck),
		Orders: orders(f, drafts),
	}
	for _, d := range drafts {
		p.Rows = append(p.Rows, r.slotRow(f, d))
	}
	return p
}

// slotRow says which slots the row may take and what it wishes.
func (r *resolver) slotRow(f *Face, d *draft) solve.Row {
	row := solve.Row{Lo: d.gripSlots(), Hi: f.Panel.Panel.Count, Above: int64(d.above), Below: int64(d.below)}
	if least := f.Deck + d.below - f.SlotHeight(1); least > 0 {
		row.Lo = max(row.Lo, 1+ceilDiv(least, f.Panel.Panel.Pitch))
	}
	if c := r.plan.Site.Ceiling; c > 0 {
		row.Hi = min(row.Hi, 1+floorDiv(c-d.above-f.SlotHeight(1), f.Panel.Panel.Pitch))
	}
	switch {
	case d.decl.At != nil:
		row.Pin = f.nearestSlot(d.decl.At.From)
	case d.decl.Near != nil:
		row.HasWish, row.Wish = true, int64(d.decl.Near.From)
	}
	return row
}

// gripSlots is how many slots the row's hardware holds, its own the highest.
func (d *draft) gripSlots() int {
	if d.bracket != nil {
		return max(d.bracket.Grip.Slots, 1)
	}
	return max(d.part.Grip.Slots, 1)
}

func ceilDiv(a, b measure.Length) int { return int((a + b - 1) / b) }

func floorDiv(a, b measure.Length) int {
	if a < 0 {
		return -int((-a + b - 1) / b)
	}
	return int(a / b)
}

// nearestSlot is the slot nearest to a height, the lower of two equally near.
func (f *Face) nearestSlot(h measure.Length) int {
	pitch := f.Panel.Panel.Pitch
	n := 1 + floorDiv(h-f.SlotHeight(1), pitch)
	if h-f.SlotHeight(n) > f.SlotHeight(n+1)-h {
		n++
	}
	return min(max(n, 1), f.Panel.Panel.Count)
}

// orders lists which row stands over which: in every bay, each row over the
// next one of the file that shares the bay. All other orders follow from these.
func orders(f *Face, drafts []*draft) []solve.Order {
	last := make([]int, f.Bays) // 1 + index of the lowest row so far in each bay
	var list []solve.Order
	for i, d := range drafts {
		seen := 0
		from, to := f.baysOf(d.x0, d.x1)
		for bay := from; bay < to; bay++ {
			if up := last[bay]; up > 0 && up != seen {
				list = append(list, solve.Order{Upper: up - 1, Lower: i})
				seen = up
			}
			last[bay] = i + 1
		}
	}
	return list
}

// reportShift notes a pin that had to move to reach a slot.
func (r *resolver) reportShift(d *draft) {
	at := d.decl.At
	if at == nil || d.copy > 1 || r.text(at.From) == r.text(d.row.Height) {
		return
	}
	level := diag.Note
	if abs(at.From-d.row.Height) > d.face.Panel.Panel.Pitch/2 {
		level = diag.Stop
	}
	r.findings.Add(diag.Finding{
		Level: level, Code: "at-between-slots", At: at.At,
		Message: fmt.Sprintf("no slot at %s: %s hangs at %s, slot %d", r.text(at.From), d.part.ID, r.text(d.row.Height), d.row.Slot),
		Fix:     "at: " + r.text(d.row.Height),
	})
}

// reportConflict names the rows that cannot stand together, by how much they
// miss, and a change that was tried and works.
func (r *resolver) reportConflict(f *Face, drafts []*draft, p solve.Slots, c *solve.Conflict) {
	names := make([]string, len(c.Rows))
	var notes []diag.Related
	for i, at := range c.Rows {
		d := drafts[at]
		names[i] = d.name()
		if i > 0 {
			notes = append(notes, diag.Related{At: d.decl.Span, Message: r.needs(d)})
		}
	}
	first := drafts[c.Rows[0]]
	message := fmt.Sprintf("on the %s face %s cannot hang at any slot: %s", f.ID, names[0], r.needs(first))
	if len(c.Rows) > 1 {
		message = fmt.Sprintf("on the %s face these rows cannot stand together: %s; they miss by %s",
			f.ID, strings.Join(names, ", "), r.text(measure.Length(c.Short)))
		notes = append([]diag.Related{{At: first.decl.Span, Message: r.needs(first)}}, notes...)
	} else if c.Short > 0 {
		message += "; it misses by " + r.text(measure.Length(c.Short))
	}
	r.findings.Add(diag.Finding{
		Level: diag.Stop, Code: "rows-do-not-fit", At: first.decl.Span,
		Message: message, Fix: r.mend(f, drafts, p, c), Notes: notes,
	})
}

// name is how messages speak of a row.
func (d *draft) name() string {
	name := d.part.ID
	if d.decl.Label != "" {
		name = fmt.Sprintf("%q (%s)", d.decl.Label, d.part.ID)
	}
	if d.copy > 1 || d.decl.Repeat > 1 {
		name += fmt.Sprintf(" no. %d of %d", d.copy, d.decl.Repeat)
	}
	return name + fmt.Sprintf(" on line %d", d.decl.Span.Line)
}

// needs says how much room a row takes, and where it is pinned.
func (r *resolver) needs(d *draft) string {
	s := fmt.Sprintf("%s needs %s over its slot and %s under it", d.part.ID, r.text(d.above), r.text(d.below))
	if d.decl.At != nil {
		s += ", pinned at " + r.text(d.decl.At.From)
	}
	return s
}

// mend looks for the least change that clears the conflict: one pinned row let
// go to where it does fit, or one row left out. What it says has been tried.
func (r *resolver) mend(f *Face, drafts []*draft, p solve.Slots, c *solve.Conflict) string {
	best, shift := "", measure.MaxLength
	for _, i := range c.Rows {
		pin := p.Rows[i].Pin
		if pin == 0 {
			continue
		}
		loose := p
		loose.Rows = append([]solve.Row(nil), p.Rows...)
		loose.Rows[i].Pin, loose.Rows[i].HasWish, loose.Rows[i].Wish = 0, true, int64(f.SlotHeight(pin))
		slots, still := loose.Place()
		if still != nil {
			continue
		}
		h := f.SlotHeight(slots[i])
		if moved := abs(h - f.SlotHeight(pin)); moved < shift {
			best, shift = fmt.Sprintf("at: %s for %s", r.text(h), drafts[i].name()), moved
		}
	}
	if best != "" {
		return best
	}
	for k := len(c.Rows) - 1; k >= 0; k-- {
		i := c.Rows[k]
		rest := append(append([]*draft(nil), drafts[:i]...), drafts[i+1:]...)
		if _, still := r.slotProblem(f, rest).Place(); still == nil {
			return "leave out " + drafts[i].name()
		}
	}
	return "the face is too full: move rows to another face or bay, or take lower goods"
}
