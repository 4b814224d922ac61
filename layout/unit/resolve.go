package unit

import (
	"fmt"
	"sort"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// Resolve dresses the unit: it stands up the frame, works out how many fronts
// each row carries and so how much room it needs, finds the slots, then the
// places along them, and at last what each position holds.
func Resolve(p *plan.Plan, pl *parts.List, cat *goods.Catalog) Result {
	r := &resolver{plan: p, parts: pl, goods: cat, step: latticeStep(p.Measure),
		drafted: map[plan.FaceID][]*draft{}, held: map[plan.FaceID]heldGrips{}}
	u := r.carcass()
	if u == nil {
		r.lookUp()
		return Result{Findings: r.findings}
	}
	for _, f := range u.Faces {
		r.drafted[f.ID] = r.drafts(u, f)
	}
	r.undressable(u)
	if r.findings.Has(diag.Error) {
		return Result{Findings: r.findings}
	}
	for _, f := range u.Faces {
		r.drafted[f.ID] = r.slots(f, r.drafted[f.ID])
	}
	r.allotFaces(u)
	for _, f := range u.Faces {
		r.places(f)
	}
	for _, f := range u.Faces {
		r.fill(f, r.drafted[f.ID])
		f.Rows = numbered(f, r.drafted[f.ID])
	}
	if r.findings.Has(diag.Error) {
		return Result{Findings: r.findings}
	}
	u.Extent = extent(u)
	supply(u)
	u.Allotted = r.allotted(u)
	r.collisions(u)
	return Result{Unit: u, Findings: r.findings}
}

// resolver carries what every stage needs: the inputs, read only, and the
// findings so far.
type resolver struct {
	plan     *plan.Plan
	parts    *parts.List
	goods    *goods.Catalog
	step     measure.Length
	drafted  map[plan.FaceID][]*draft // each face's rows, in file order
	held     map[plan.FaceID]heldGrips
	pieces   int // hardware so far
	findings diag.List
}

// latticeStep is what sideways places are rounded to where the panel leaves
// them free: marks a crew finds on its tape.
func latticeStep(sys measure.System) measure.Length {
	if sys == measure.Millimetres {
		return 5 * measure.Millimetre
	}
	return measure.Inch / 4
}

// fail reports bad input.
func (r *resolver) fail(at diag.Span, code, message, expected, fix string) {
	r.findings.Add(diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Expected: expected, Fix: fix})
}

// stop reports that the plan, though understood, cannot be built.
func (r *resolver) stop(at diag.Span, code, message, fix string, where ...string) {
	r.findings.Add(diag.Finding{Level: diag.Stop, Code: code, At: at, Message: message, Fix: fix, Where: where})
}

// note reports something worth knowing.
func (r *resolver) note(at diag.Span, code, message string, where ...string) {
	r.findings.Add(diag.Finding{Level: diag.Note, Code: code, At: at, Message: message, Where: where})
}

// text prints a length in the plan's measure.
func (r *resolver) text(l measure.Length) string { return l.Text(r.plan.Measure) }

func (r *resolver) partIDs(kinds ...parts.Kind) []string {
	var ids []string
	for _, p := range r.parts.All() {
		for _, k := range kinds {
			if p.Kind == k {
				ids = append(ids, p.ID)
			}
		}
	}
	return ids
}

// lookUp reports the parts and goods of rows that are not at hand, where there
// is no unit to hang them on: all that is wrong with a plan is told in one run.
func (r *resolver) lookUp() {
	for _, dress := range r.plan.Dress {
		for i := range dress.Rows {
			d := &draft{decl: &dress.Rows[i]} // of no part: with no panel, nothing suits it or not
			r.part(d.decl.Use, "a part that hangs on a panel", rowKinds()...)
			r.readGoods(d)
			r.readExtras(d)
		}
	}
}

// undressable reports rows for faces that have no panel to hang them on.
func (r *resolver) undressable(u *Unit) {
	for _, d := range r.plan.Dress {
		if u.Face(d.Face) == nil {
			r.fail(d.At, "no-panel", fmt.Sprintf("the %s face is dressed but has no panel", d.Face),
				"a panel for it under `unit: panels:`", "")
		}
	}
}

// numbered puts rows in reading order, numbers them and gives every row and
// position its address.
func numbered(f *Face, drafts []*draft) []*Row {
	rows := make([]*Row, len(drafts))
	for i, d := range drafts {
		rows[i] = d.row
	}
	sort.SliceStable(rows, func(i, j int) bool {
		a, b := rows[i], rows[j]
		if a.Height != b.Height {
			return a.Height > b.Height
		}
		return a.X0 < b.X0
	})
	for i, row := range rows {
		row.Number = i + 1
		row.Address = fmt.Sprintf("%s-%d", f.Letter, row.Number)
		for k, pos := range row.Positions {
			pos.Place = k + 1
			pos.Address = fmt.Sprintf("%s-%d", row.Address, pos.Place)
		}
	}
	return rows
}

// extent is the box round the structure and all that hangs on it.
func extent(u *Unit) Solid {
	all := u.Bare
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				all = all.Union(f.Solid(p.Box))
			}
			for _, pos := range row.Positions {
				for _, front := range pos.Fronts {
					all = all.Union(f.Solid(front.Box))
				}
			}
		}
	}
	return all
}
