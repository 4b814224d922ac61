package reset

import (
	"cmp"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// job is one act with all that decides when it may be done.
type job struct {
	act      Act
	from, to *unit.Row
	face     int // where the crew stands, as faceIndex counts
	line     int // the line of work it belongs to: acts that can be one step
	change   load
	seconds  int
	people   int
	next     []int32 // jobs that must come after it
	before   []int32 // and before it
	need     int32   // how many must come before it
}

// jobs makes the acts of all things.
func (r *Reset) jobs(things []*thing) []job {
	b := jobber{reset: r, lift: cmp.Or(r.New.Plan.Lift, plan.DefaultLift)}
	for _, t := range things {
		switch {
		case t.facing != nil:
			b.ofFacing(t)
		case !t.rides:
			b.ofItem(t)
		}
	}
	return b.list
}

// jobber makes jobs.
type jobber struct {
	reset *Reset
	lift  measure.Mass
	list  []job
}

// add makes a job and returns its place in the list.
func (b *jobber) add(act Act, from, to *where, change load, seconds, people int) int {
	j := job{act: act, change: change, seconds: seconds, people: people}
	if from != nil {
		j.from, j.face = from.row, faceIndex(from.face.ID)
	}
	if to != nil {
		j.to, j.face = to.row, faceIndex(to.face.ID)
	}
	b.list = append(b.list, j)
	return len(b.list) - 1
}

// ofItem makes what is done to a piece.
func (b *jobber) ofItem(t *thing) {
	item := t.item
	old, new := t.places(b.reset)
	from, to := t.moving(b.reset)
	people := b.people(from, to)
	add := func(v Verb, old, new *where, change load, seconds int) int {
		return b.add(Act{Verb: v, Item: item}, old, new, change, seconds, people)
	}
	switch {
	case t.slides:
		t.off = add(Slip, old, new, to.minus(from), item.Seconds)
		t.on = t.off
	case t.straight && !t.aside:
		t.off = add(Shift, old, new, to.minus(from), item.Seconds)
		t.on = t.off
	case t.straight:
		down := downTime(item.From.Piece.Part)
		t.off = add(SetAside, old, nil, load{}.minus(from), down)
		t.on = add(Hang, nil, new, to, item.Seconds-down)
	case t.leaves:
		t.off = add(TakeDown, old, nil, load{}.minus(from), item.Seconds)
	case t.arrives:
		t.on = add(Hang, nil, new, to, item.Seconds)
	}
}

// people is how many it takes to lift what weighs so much before or after:
// within the limit one, over it two, or as many as keep within it each.
func (b *jobber) people(from, to load) int {
	each := max(from.all.Mass, to.all.Mass)
	if each <= b.lift {
		return 1
	}
	return max(2, int((each+b.lift-1)/b.lift))
}

// ofFacing makes what is done to goods.
func (b *jobber) ofFacing(t *thing) {
	f := t.facing
	old, new := t.places(b.reset)
	from, to := old.load(), new.load()
	add := func(v Verb, old, new *where, change load, seconds int) int {
		return b.add(Act{Verb: v, Facing: f}, old, new, change, seconds, 1)
	}
	switch {
	case t.slides:
		t.off = add(Nudge, old, new, to.minus(from), nudgeTime)
		t.on = t.off
		b.fill(t, f.Seconds-nudgeTime)
	case t.rides:
		b.fill(t, f.Seconds)
	case f.Way == Stay && t.leaves:
		t.off = add(TakeOff, old, nil, to.minus(from), f.Seconds)
	case f.Way == Stay && t.arrives:
		t.on = add(PutOn, nil, new, to.minus(from), f.Seconds)
	case t.leaves && t.arrives:
		down := offSeconds(f.From.Front.Units) + max(0, -f.Stock)*stockEach
		t.off = add(TakeOff, old, nil, load{}.minus(from), down)
		t.on = add(PutOn, nil, new, to, f.Seconds-down)
	case t.leaves:
		t.off = add(TakeOff, old, nil, load{}.minus(from), f.Seconds)
	case t.arrives:
		t.on = add(PutOn, nil, new, to, f.Seconds)
	}
}

// fill thins out goods before they come along with something, or fills them up
// after.
func (b *jobber) fill(t *thing, seconds int) {
	f := t.facing
	more := measure.Mass(f.More()) * f.Product.Weight
	old, new := f.From.where(0), f.To.where(0)
	switch {
	case f.More() < 0:
		t.fill = b.add(Act{Verb: TakeOff, Facing: f}, old, nil, loadOn(f.From.Face, more, f.From.Solid), seconds, 1)
	case f.More() > 0:
		t.fill = b.add(Act{Verb: PutOn, Facing: f}, nil, new, loadOn(f.To.Face, more, f.To.Solid), seconds, 1)
	}
}
