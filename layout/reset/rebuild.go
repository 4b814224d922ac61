package reset

import (
	"cmp"
	"math"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// rebuild is the order where nothing is to stay, as where the bare units differ: all is taken off and down,
// the bare unit is changed, and all is hung and put on again.
func (r *Reset) rebuild() {
	things := r.things()
	for _, t := range things {
		t.aside = true
	}
	all := r.assemble(things, &clashes{}, order(things, &clashes{}))
	down, up := all.cut()
	down.judge = newJudge(r.Old, r.Old.Extent.Z1, down.start, down.end)
	down.schedule()
	r.write(down)
	together := r.Together
	bare := r.bareSteps()
	for _, s := range bare {
		together += s.Seconds
	}
	r.add(bare...)
	r.Together = together
	up.judge = newJudge(r.New, r.New.Extent.Z1, up.start, up.end)
	up.schedule()
	first := len(r.Steps)
	r.write(up)
	if len(bare) == 0 {
		r.waitFor(first)
	}
}

// waitFor has both people wait with the step of that index and those after it
// until the other has done all before.
func (r *Reset) waitFor(first int) {
	var last [3]int // numbers of the last step of each person
	for _, s := range r.Steps[:first] {
		last[s.Person] = s.Number
	}
	for person := 1; person <= 2; person++ {
		for i := first; i < len(r.Steps) && r.Steps[i].Person != 0; i++ {
			if r.Steps[i].Person == person {
				r.Steps[i].Wait = max(r.Steps[i].Wait, last[3-person])
				break
			}
		}
	}
}

// cut parts the work into all that goes off and all that comes on.
func (w *work) cut() (down, up *work) {
	down, up = &work{reset: w.reset, start: w.start}, &work{reset: w.reset}
	half := func(j *job) *work {
		if j.act.Verb == Hang || j.act.Verb == PutOn {
			return up
		}
		return down
	}
	at := make([]int32, len(w.jobs)) // in its half
	for i, j := range w.jobs {
		to := half(&j)
		at[i] = int32(len(to.jobs))
		j.next, j.before, j.need = nil, nil, 0
		to.jobs = append(to.jobs, j)
	}
	for i := range w.jobs {
		from := half(&w.jobs[i])
		for _, n := range w.jobs[i].next {
			if half(&w.jobs[n]) == from {
				from.jobs[at[i]].next = append(from.jobs[at[i]].next, at[n])
			}
		}
	}
	down.finish()
	up.finish()
	return down, up
}

// bareSteps are the changes of the bare unit, a part at a time, two people
// working: what differs is taken down from the last that was built on, and what is
// new is put up. What both units have is set aside and used again. How it stands
// is not told while it is not whole.
func (r *Reset) bareSteps() []Step {
	old, new := bareParts(r.Old), bareParts(r.New)
	again := map[string]int{}
	for i := 0; i < len(old); i++ { // what stays where it is
		for k := range new {
			if old[i].Solid == new[k].Solid && old[i].Piece.Part.ID == new[k].Piece.Part.ID && bareUnlike(old[i].Piece.Part, new[k].Piece.Part) == nil {
				old = append(old[:i:i], old[i+1:]...)
				new = append(new[:k:k], new[k+1:]...)
				i--
				break
			}
		}
	}
	for _, p := range new {
		again[p.Piece.Part.ID]++
	}
	number := len(r.Steps)
	var steps []Step
	add := func(v Verb, item *Item, seconds int) {
		if last := len(steps) - 1; last >= 0 && steps[last].Verb == v && steps[last].Acts[0].Item.Part == item.Part {
			steps[last].Acts = append(steps[last].Acts, Act{Verb: v, Item: item})
			steps[last].Seconds += seconds
			return
		}
		number++
		steps = append(steps, Step{Number: number, Verb: v, Acts: []Act{{Verb: v, Item: item}}, Seconds: seconds, People: 2,
			After: Standing{Share: math.Inf(1), Tilt: math.Inf(1), Carried: map[plan.FaceID]measure.Mass{}}})
	}
	aside := map[string][]*Item{}
	for i := len(old) - 1; i >= 0; i-- {
		p := old[i].Piece.Part
		item := &Item{Part: p, From: &old[i], Way: Return}
		if again[p.ID] > 0 {
			again[p.ID]--
			item.Way = Rehang
			aside[p.ID] = append(aside[p.ID], item)
			add(SetAside, item, downTime(p))
			continue
		}
		add(TakeDown, item, downTime(p)+returnTime)
	}
	for i := range new {
		p := new[i].Piece.Part
		item := &Item{Part: p, To: &new[i], Way: Fetch}
		seconds := upTime(p) + fetchTime
		if waiting := aside[p.ID]; len(waiting) > 0 {
			item, aside[p.ID] = waiting[0], waiting[1:]
			item.To, item.Part, seconds = &new[i], p, upTime(p)
		}
		add(Hang, item, seconds)
	}
	return steps
}

// bareParts lists the frame, the stand and the panels as places; a stand is one
// part, whose feet go together. Deck and panels have no row.
func bareParts(u *unit.Unit) []Place {
	var list []Place
	for _, s := range u.Structure {
		if n := len(list); s.Part.Kind == parts.Stand && n > 0 && list[n-1].Piece.Part == s.Part {
			list[n-1].Solid = list[n-1].Solid.Union(s.Solid)
			continue
		}
		list = append(list, Place{Face: u.Face(cmp.Or(s.Face, plan.Front)), Piece: &unit.Piece{Part: s.Part}, Solid: s.Solid})
	}
	return list
}
