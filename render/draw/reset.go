package draw

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"setwright/render/words"
)

// ResetJob is what the sheets of a reset are drawn from: a Job in the manner of
// the new plan, one of the old unit in the same manner, and the reset.
type ResetJob struct {
	*Job
	// OldMark and NewMark are the fingerprints of the two plans.
	OldMark, NewMark string
	// Lists are the tables of the reset, of which sheets draw those they know.
	Lists []*list.Table

	reset *reset.Reset
	old   *Job
	found []diag.Finding // about the reset itself
	sides [2]resetSide
}

// when is one of the two units: the one that stands, the one that is to stand.
type when int

const (
	before when = iota
	after
)

// resetSide is what happens to what hangs and stands in one of the units, by
// piece and by front, and the steps that take it away from there or bring it.
type resetSide struct {
	items   map[*unit.Piece]*reset.Item
	facings map[*unit.Front]*reset.Facing
	hung    map[*reset.Item]int
	placed  map[*reset.Facing]int
}

// ResetPlan is the plan that the sheets of a reset name in their title blocks:
// the new one with another title.
func ResetPlan(r *reset.Reset) *plan.Plan {
	p := *r.New.Plan
	p.Title = fmt.Sprintf(words.In(p.Language).ResetTitle, p.Title)
	return &p
}

// NewResetJob gathers what the sheets of a reset need. A stop among all findings,
// of both plans, marks every sheet; it is printed with those about the reset
// itself.
func NewResetJob(r *reset.Reset, all, together []diag.Finding) *ResetJob {
	u, o := *r.New, *r.Old
	u.Plan = ResetPlan(r)
	found := slices.Clone(together)
	for _, f := range stops(all) {
		if !slices.ContainsFunc(together, func(o diag.Finding) bool { return o.Code == f.Code && o.Message == f.Message }) {
			found = append(found, f)
		}
	}
	j := &ResetJob{Job: NewJob(&u, stops(all), check.Report{}), reset: r, old: NewJob(&o, nil, check.Report{}), found: graded(found)}
	j.old.Words, j.old.system = j.Words, j.system
	for s := range j.sides {
		j.sides[s] = resetSide{map[*unit.Piece]*reset.Item{}, map[*unit.Front]*reset.Facing{}, map[*reset.Item]int{}, map[*reset.Facing]int{}}
	}
	for _, item := range r.Items {
		if item.From != nil {
			j.sides[before].items[item.From.Piece] = item
		}
		if item.To != nil {
			j.sides[after].items[item.To.Piece] = item
		}
	}
	for _, facing := range r.Facings {
		if facing.From != nil {
			j.sides[before].facings[facing.From.Front] = facing
		}
		if facing.To != nil {
			j.sides[after].facings[facing.To.Front] = facing
		}
	}
	j.number()
	return j
}

// number notes in which step each thing leaves its old place and comes to its
// new one.
func (j *ResetJob) number() {
	for i := range j.reset.Steps {
		step := &j.reset.Steps[i]
		for _, act := range step.Acts {
			for _, s := range touches(act.Verb) {
				if act.Item != nil {
					j.sides[s].hung[act.Item] = step.Number
				}
				if act.Facing != nil {
					j.sides[s].placed[act.Facing] = step.Number
				}
			}
		}
	}
}

// touches says whether a verb takes something from its old place, brings it to
// its new one, or does both.
func touches(v reset.Verb) []when {
	switch v {
	case reset.TakeOff, reset.TakeDown, reset.SetAside:
		return []when{before}
	case reset.Hang, reset.PutOn:
		return []when{after}
	}
	return []when{before, after}
}

// stepOf is the step in which a piece leaves or comes, its host's if it rides; 0
// for none.
func (j *ResetJob) stepOf(s when, item *reset.Item) int {
	for ; item != nil; item = item.Host {
		if n := j.sides[s].hung[item]; n > 0 {
			return n
		}
	}
	return 0
}

// stepOfFacing is the same of a facing, which may ride on its piece.
func (j *ResetJob) stepOfFacing(s when, f *reset.Facing) int {
	if n := j.sides[s].placed[f]; n > 0 {
		return n
	}
	spot := f.To
	if s == before {
		spot = f.From
	}
	if f.Way == reset.Ride && spot != nil {
		return j.stepOf(s, spot.On)
	}
	return 0
}

// job is the one of a side's unit.
func (j *ResetJob) job(s when) *Job {
	if s == before {
		return j.old
	}
	return j.Job
}

// faceIDs are the faces of either unit, in sheet order.
func (j *ResetJob) faceIDs() []plan.FaceID {
	var list []plan.FaceID
	for _, u := range []*unit.Unit{j.Unit, j.old.Unit} {
		for _, f := range u.Faces {
			if !slices.Contains(list, f.ID) {
				list = append(list, f.ID)
			}
		}
	}
	return list
}

// changes counts the pieces and facings that leave a face, come to it, or move
// on it.
func (j *ResetJob) changes(id plan.FaceID) (pieces, facings int) {
	for _, item := range j.reset.Items {
		if item.Way != reset.Stay && (item.From != nil && item.From.Face.ID == id || item.To != nil && item.To.Face.ID == id) {
			pieces++
		}
	}
	for _, f := range j.reset.Facings {
		if (f.Way != reset.Stay || f.More() != 0) && (f.From != nil && f.From.Face.ID == id || f.To != nil && f.To.Face.ID == id) {
			facings++
		}
	}
	return pieces, facings
}

// same says whether the reset leaves everything as it is.
func (j *ResetJob) same() bool {
	return !slices.ContainsFunc(j.faceIDs(), func(id plan.FaceID) bool { return !j.reset.Unchanged(id) })
}

// allMarks are the marks in the order they are explained.
func allMarks() []reset.Mark { return []reset.Mark{reset.Keep, reset.Move, reset.Add, reset.Pull} }

// markName is a mark in a word, markKey what it says of a thing.
func (j *ResetJob) markName(m reset.Mark) string {
	w := j.Words
	return map[reset.Mark]string{reset.Keep: w.KeepName, reset.Move: w.MoveName, reset.Add: w.AddName, reset.Pull: w.PullName}[m]
}

func (j *ResetJob) markKey(m reset.Mark) string {
	w := j.Words
	return map[reset.Mark]string{reset.Keep: w.KeepKey, reset.Move: w.MoveKey, reset.Add: w.AddKey, reset.Pull: w.PullKey}[m]
}

// markLabel is a mark with its steps: M12, A8–9, P3, 7.
func markLabel(m reset.Mark, steps []int) string {
	const most = 3
	text := string(m)
	n := len(steps)
	switch {
	case n == 0:
		return text
	case n == 1:
		return text + strconv.Itoa(steps[0])
	case steps[n-1]-steps[0] == n-1:
		return text + strconv.Itoa(steps[0]) + "–" + strconv.Itoa(steps[n-1])
	case n > most:
		return text + strconv.Itoa(steps[0]) + "…" + strconv.Itoa(steps[n-1])
	}
	figures := make([]string, n)
	for i, step := range steps {
		figures[i] = strconv.Itoa(step)
	}
	return text + strings.Join(figures, ", ")
}

// clock is a time in minutes and seconds.
func clock(seconds int) string { return fmt.Sprintf("%d:%02d", seconds/60, seconds%60) }
