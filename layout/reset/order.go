package reset

import (
	"slices"

	"setwright/layout/measure"
	"setwright/layout/unit"
)

// sequence finds an order in which the work can be done and the unit stands
// safely, and writes it as steps.
func (r *Reset) sequence() {
	if r.Rebuild {
		r.rebuild()
	} else {
		w := r.work()
		w.judge = newJudge(r.New, max(r.Old.Extent.Z1, r.New.Extent.Z1), w.start, w.end)
		w.schedule()
		r.write(w)
	}
	if r.Together >= r.Seconds {
		r.Together = 0
	}
}

// work is all that is to be done, with what must come before what.
type work struct {
	reset *Reset
	jobs  []job
	lines []line
	start load // what hangs on the unit before
	end   load // and after
	judge *judge
	order []int32 // of the jobs, once it is found
}

// line is jobs that may be done in one step: one verb, between the same two rows.
type line struct {
	verb   Verb
	face   int
	height measure.Length // of the row that is worked on
	mass   measure.Mass   // of all that is lifted
	jobs   []int32
}

// work sets things that cannot go straight aside and makes the jobs. What would
// slide or be nudged and cannot is taken down and hung like all else; then the
// rooms are not what they were, and it all begins again.
func (r *Reset) work() *work {
	for {
		things := r.things()
		c := r.clashes(things)
		t := order(things, c)
		aside := t.aside()
		if !r.lifted(things, c, aside) {
			for _, i := range aside {
				things[i].aside = true
			}
			return r.assemble(things, c, t)
		}
	}
}

// lifted changes the way of what was to slide or be nudged and cannot, and of the
// goods on it; false if there is none.
func (r *Reset) lifted(things []*thing, c *clashes, aside []int) bool {
	changed := false
	for i, t := range things {
		if !t.slides || !c.stuck[i] && !slices.Contains(aside, i) {
			continue
		}
		changed = true
		t.lift()
		for _, rider := range t.riders {
			if rider.facing != nil {
				rider.lift()
			}
		}
	}
	return changed
}

// lift has a thing taken down and hung, or taken off and put on, instead.
func (t *thing) lift() {
	if t.item != nil {
		t.item.Way = Rehang
		t.item.Seconds = t.item.seconds()
		return
	}
	t.facing.Way = Rehang
	t.facing.Seconds = t.facing.seconds()
}

// assemble makes the jobs and what must come before what among them.
func (r *Reset) assemble(things []*thing, c *clashes, t *tangle) *work {
	w := &work{reset: r, jobs: r.jobs(things), start: r.hanging()}
	jobOf := func(event int32) int {
		it := things[event/2]
		if event == arriving(int(event/2)) {
			return it.on
		}
		return it.off
	}
	then := func(a, b int) {
		if a != none && b != none && a != b {
			w.jobs[a].next = append(w.jobs[a].next, int32(b))
		}
	}
	for e, after := range t.next {
		for _, f := range after {
			then(jobOf(int32(e)), jobOf(f))
		}
		for _, s := range t.slides[e] {
			then(jobOf(int32(e)), things[s].on)
		}
	}
	for s, after := range t.out {
		for _, f := range after {
			then(things[s].on, jobOf(f))
		}
	}
	for _, it := range things {
		filled := it.riders
		if it.fill != none {
			filled = []*thing{it}
		}
		for _, goods := range filled {
			if goods.fill != none && goods.facing.More() < 0 {
				then(goods.fill, it.off)
			} else {
				then(it.on, goods.fill)
			}
		}
	}
	shareCart(things, then)
	w.finish()
	return w
}

// shareCart has units that one facing gives up taken off before another of the
// same product takes them from the cart: which gives to which is settled in their
// order.
func shareCart(things []*thing, then func(a, b int)) {
	type end struct{ job, units int }
	givers := map[string][]end{} // by SKU
	for _, t := range things {
		if f := t.facing; f != nil && f.Stock > f.More() {
			sku := f.Product.SKU
			givers[sku] = append(givers[sku], end{t.jobFor(t.off), f.Stock - f.More()})
		}
	}
	for _, t := range things {
		if t.facing == nil {
			continue
		}
		f := t.facing
		from := givers[f.Product.SKU]
		for wanted := f.More() - f.Stock; wanted > 0 && len(from) > 0; {
			then(from[0].job, t.jobFor(t.on))
			n := min(wanted, from[0].units)
			wanted -= n
			if from[0].units -= n; from[0].units == 0 {
				from = from[1:]
			}
		}
		givers[f.Product.SKU] = from
	}
}

// jobFor is the job in which a facing's goods come onto the cart or from it: the
// one that thins it out or fills it up, if there is one.
func (t *thing) jobFor(otherwise int) int {
	if t.fill != none {
		return t.fill
	}
	return otherwise
}

// finish counts what must come before each job and gathers the lines.
func (w *work) finish() {
	type key struct {
		verb     Verb
		from, to *unit.Row
	}
	at := map[key]int{}
	w.end = w.start
	for i := range w.jobs {
		j := &w.jobs[i]
		slices.Sort(j.next)
		j.next = slices.Compact(j.next)
		for _, n := range j.next {
			w.jobs[n].need++
			w.jobs[n].before = append(w.jobs[n].before, int32(i))
		}
		k := key{j.act.Verb, j.from, j.to}
		l, ok := at[k]
		if !ok {
			l = len(w.lines)
			at[k] = l
			w.lines = append(w.lines, line{verb: j.act.Verb, face: j.face, height: j.height()})
		}
		j.line = l
		w.lines[l].jobs = append(w.lines[l].jobs, int32(i))
		w.lines[l].mass += max(j.change.all.Mass, -j.change.all.Mass)
		w.end = w.end.plus(j.change)
	}
}

// height is that of the row the crew works on: the new one, if there is one.
func (j *job) height() measure.Length {
	if j.to != nil {
		return j.to.Height
	}
	if j.from != nil {
		return j.from.Height
	}
	return 0
}
