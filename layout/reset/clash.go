package reset

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// when is the time for which a thing takes a room.
type when uint8

const (
	before  when = iota // until it leaves
	after               // from when it arrives
	through             // while it slides
	always              // it is not touched
)

// room is a box or a stretch of a slot that a thing takes. What rides takes it
// in the name of what it rides on.
type room struct {
	thing int
	when  when
	solid unit.Solid
}

// clashes are what must wait for what because of room.
type clashes struct {
	// waits are pairs of things: the first must leave before the second arrives.
	waits [][2]int
	// past are pairs of a thing that slides and one that must have left before
	// it slides; ahead, one that must not arrive before it has slid.
	past, ahead [][2]int
	// stuck slide nowhere: something that is not touched is in their way.
	stuck map[int]bool
}

// clashes finds all that takes the same room before and after, and what is in
// the way of what slides.
func (r *Reset) clashes(things []*thing) *clashes {
	s := &scene{reset: r, ends: map[int][]unit.Solid{}, held: map[heldAt][]hold{}}
	s.found.stuck = map[int]bool{}
	s.sliding = slices.ContainsFunc(things, func(t *thing) bool { return t.slides })
	for i, t := range things {
		if !t.rides {
			s.add(i, t, t)
		}
	}
	unit.Meetings(s.rooms, func(m room) unit.Solid { return m.solid }, func(a, b room) { s.meet(a, b) })
	s.meetGrips()
	for _, list := range []*[][2]int{&s.found.waits, &s.found.past, &s.found.ahead} {
		slices.SortFunc(*list, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
		*list = slices.Compact(*list)
	}
	return &s.found
}

// scene is the rooms of all things.
type scene struct {
	reset   *Reset
	sliding bool                 // something slides: what is not touched may be in its way
	ends    map[int][]unit.Solid // of what slides, the rooms at both ends
	rooms   []room
	held    map[heldAt][]hold
	slots   []heldAt // of held, in the order they were first taken
	found   clashes
}

// add enters the rooms of a thing, and of what rides on it in its name.
func (s *scene) add(name int, lead, t *thing) {
	old, new := t.places(s.reset)
	if !lead.leaves && !lead.arrives {
		if s.sliding && old != nil {
			s.take(name, always, old)
		}
	}
	if lead.slides {
		s.ends[name] = append(s.ends[name], old.solid, new.solid)
		s.take(name, through, old.through(new))
	}
	if lead.leaves {
		s.take(name, before, old)
	}
	if lead.arrives {
		s.take(name, after, new)
	}
	for _, rider := range t.riders {
		s.add(name, lead, rider)
	}
}

// through is all that something passes on its way along a slot.
func (w *where) through(to *where) *where {
	all := &where{face: w.face, solid: w.solid.Union(to.solid)}
	for i, g := range w.grips {
		if i < len(to.grips) {
			g.X0, g.X1 = min(g.X0, to.grips[i].X0), max(g.X1, to.grips[i].X1)
		}
		all.grips = append(all.grips, g)
	}
	return all
}

// take enters one room and the stretches of slots that go with it.
func (s *scene) take(name int, w when, at *where) {
	m := room{name, w, at.solid}
	s.rooms = append(s.rooms, m)
	for _, g := range at.grips {
		s.hold(m, at.face, g)
	}
}

// meet notes what follows from two rooms that share space.
func (s *scene) meet(a, b room) {
	if a.thing == b.thing {
		return
	}
	if a.when > b.when {
		a, b = b, a
	}
	f := &s.found
	switch {
	case a.when == before && b.when == after:
		f.waits = append(f.waits, [2]int{a.thing, b.thing})
	case a.when == before && b.when == through:
		f.past = append(f.past, [2]int{b.thing, a.thing})
	case a.when == after && b.when == through:
		f.ahead = append(f.ahead, [2]int{b.thing, a.thing})
	case a.when == through && b.when == always && !s.together(a.thing, b.solid):
		f.stuck[a.thing] = true
	}
}

// together says whether what slides shares space with a room at one of its ends
// too, as goods do with hardware of their row: then it is not in the way.
func (s *scene) together(thing int, solid unit.Solid) bool {
	return slices.ContainsFunc(s.ends[thing], func(end unit.Solid) bool {
		x, y, z := end.Overlap(solid)
		return x > 0 && y > 0 && z > 0
	})
}

// heldAt is one slot of a panel; both sides of a shared spine are one.
type heldAt struct {
	panel plan.FaceID
	slot  int
}

// hold is a stretch of a slot that a thing grips.
type hold struct {
	room
	x0, x1 measure.Length
}

// hold enters a grip. The back of a shared spine is counted as the front, from
// the other end.
func (s *scene) hold(m room, f *unit.Face, g unit.Grip) {
	at := heldAt{panel: f.ID}
	h := hold{m, g.X0, g.X1}
	if f.Twin != "" && f.ID != plan.Front {
		at.panel = f.Twin
		h.x0, h.x1 = f.Width-g.X1, f.Width-g.X0
	}
	for n := range g.Slots {
		at.slot = g.Slot - n
		if s.held[at] == nil {
			s.slots = append(s.slots, at)
		}
		s.held[at] = append(s.held[at], h)
	}
}

// meetGrips finds the grips that share a stretch of a slot.
func (s *scene) meetGrips() {
	for _, at := range s.slots {
		holds := s.held[at]
		slices.SortStableFunc(holds, func(a, b hold) int { return cmp.Compare(a.x0, b.x0) })
		for i, a := range holds {
			for _, b := range holds[i+1:] {
				if b.x0 >= a.x1 {
					break
				}
				s.meet(a.room, b.room)
			}
		}
	}
}
