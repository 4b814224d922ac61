package reset

import (
	"cmp"
	"slices"
)

// worthwhile is the share of one person's time that a second must save at least
// to be asked for.
const worthwhile = 0.1

// divide gives faces to two people, each doing the steps of their own faces in
// their order, if that is quick enough and safe however fast either is. Steps
// that take two are done by both, once all before them is done. It returns the
// seconds until all is done, two people or not.
func divide(w *work, spans [][]int32, steps []Step) int {
	alone := 0
	for _, s := range steps {
		alone += s.Seconds
	}
	limit := int(float64(alone) * (1 - worthwhile))
	c := newCrew(w, spans, steps)
	var best *split
	for _, s := range c.splits() {
		if s.seconds > limit || best != nil && s.seconds >= best.seconds {
			break // they are sorted by what they would take at best
		}
		c.keepSafe(s)
		c.time(s)
		if s.seconds <= limit && (best == nil || s.seconds < best.seconds) {
			best = s
		}
	}
	if best == nil {
		return alone
	}
	for i := range steps {
		steps[i].Person = best.person[i]
		if on := best.wait[i]; on != none {
			steps[i].Wait = steps[on].Number
		}
	}
	return best.seconds
}

// crew is what has to be known of the steps to share them out.
type crew struct {
	steps   []Step
	face    []int // of each step
	change  []load
	after   [][faceCount]int // of each step, the last step of each face that must come before it; -1 for none
	start   load
	judge   *judge
	allowed fault // the worst that one person by themselves gets
}

func newCrew(w *work, spans [][]int32, steps []Step) *crew {
	c := &crew{steps: steps, start: w.start, judge: w.judge, face: make([]int, len(spans)), change: make([]load, len(spans)), after: make([][faceCount]int, len(spans))}
	stepOf := make([]int, len(w.jobs))
	now := w.start
	for i, span := range spans {
		c.face[i] = w.jobs[span[0]].face
		c.after[i] = [faceCount]int{none, none, none, none}
		for _, b := range span {
			stepOf[b] = i
			c.change[i] = c.change[i].plus(w.jobs[b].change)
		}
		now = now.plus(c.change[i])
		if f := c.judge.fault(now); f.code != "" && (c.allowed.code == "" || f.worse(c.allowed)) {
			c.allowed = f
		}
	}
	for b := range w.jobs {
		for _, n := range w.jobs[b].next {
			from, to := stepOf[b], stepOf[n]
			if from != to {
				last := &c.after[to][c.face[from]]
				*last = max(*last, from)
			}
		}
	}
	return c
}

// split is one way of sharing out the faces.
type split struct {
	person  []int // of each step 1 or 2; 0 both
	wait    []int // of each step, the other's step that must be done before; -1 for none
	seconds int
}

// splits lists every way of sharing out the faces that have steps, the one that
// would be quickest if nothing else held anybody up first.
func (c *crew) splits() []*split {
	var used uint
	for _, f := range c.face {
		used |= 1 << f
	}
	var list []*split
	first := used & -used // is the first person's
	for second := uint(1); second < 1<<faceCount; second++ {
		if second&^used != 0 || second&first != 0 {
			continue
		}
		s := &split{person: make([]int, len(c.steps)), wait: make([]int, len(c.steps))}
		for i := range c.steps {
			s.person[i] = 1 + int(second>>c.face[i]&1)
			if c.steps[i].People > 1 {
				s.person[i] = 0
			}
			s.wait[i] = none
			if s.person[i] == 0 {
				continue
			}
			for f, last := range c.after[i] {
				if second>>f&1 != uint(s.person[i]-1) {
					s.wait[i] = max(s.wait[i], last)
				}
			}
		}
		c.time(s)
		list = append(list, s)
	}
	slices.SortStableFunc(list, func(a, b *split) int { return cmp.Compare(a.seconds, b.seconds) })
	return list
}

// time works out when both have done. What is waited for comes earlier in the
// order of one person, and so one pass along it is enough.
func (c *crew) time(s *split) {
	var free [3]int // when each person has done what they have to do so far
	done := make([]int, len(c.steps))
	for i, p := range s.person {
		begin := free[p]
		if p == 0 {
			begin = max(free[1], free[2])
		} else if s.wait[i] >= 0 {
			begin = max(begin, done[s.wait[i]])
		}
		done[i] = begin + c.steps[i].Seconds
		if p == 0 {
			free[1], free[2] = done[i], done[i]
		} else {
			free[p] = done[i]
		}
	}
	s.seconds = max(free[1], free[2])
}

// keepSafe has each wait for the other wherever the unit would otherwise stand
// worse than one person by themselves lets it. The order of one person is always
// a way through: both are only kept from getting so far ahead of it that
// something is wrong.
func (c *crew) keepSafe(s *split) {
	now := c.start
	for begin := 0; begin < len(c.steps); {
		end := begin
		for end < len(c.steps) && s.person[end] != 0 {
			end++
		}
		for person := 1; person <= 2; person++ {
			c.holdBack(s, person, begin, end, now)
		}
		for i := begin; i < min(end+1, len(c.steps)); i++ {
			now = now.plus(c.change[i])
		}
		begin = end + 1
	}
	for person := 1; person <= 2; person++ { // a wait that an earlier one includes is not said
		most := none
		for i := range s.wait {
			switch {
			case s.person[i] == 0:
				most = i
			case s.person[i] == person && s.wait[i] <= most:
				s.wait[i] = none
			case s.person[i] == person:
				most = s.wait[i]
			}
		}
	}
}

// holdBack looks at one person being ahead of the other, from begin to end of the
// steps, with that on the unit which is there at the begin. For each own step it
// asks how little the other may have done: of the other's steps that come before
// it in the order, the last without which the unit would not stand well.
func (c *crew) holdBack(s *split, person, begin, end int, now load) {
	var others []int // steps so far
	own := now
	least := none // what was waited for before
	for i := begin; i < end; i++ {
		if s.person[i] != person {
			others = append(others, i)
			continue
		}
		own = own.plus(c.change[i])
		least = max(least, s.wait[i])
		with := own
		for _, o := range others {
			with = with.plus(c.change[o])
		}
		for k := len(others) - 1; k >= 0 && others[k] > least; k-- {
			with = with.minus(c.change[others[k]])
			if f := c.judge.fault(with); f.code != "" && (c.allowed.code == "" || f.worse(c.allowed)) {
				least = others[k]
				break
			}
		}
		s.wait[i] = least
	}
}
