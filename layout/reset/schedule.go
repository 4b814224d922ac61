package reset

import (
	"cmp"
	"math"
	"slices"

	"setwright/layout/measure"
)

// manner is what a crew does first when there is a choice.
type manner uint8

const (
	faceByFace manner = iota // all off a face, all down, all up, all on: the fewest steps
	evenly                   // whatever keeps the sides most alike
	rowByRow                 // what can be put up and on goes first, so that little is off at a time
)

// progress is how far the work has come. It is copied where two ways on are
// tried.
type progress struct {
	work  *work
	need  []int32   // of each job, how many are still to come before it; -1 once it is done
	ready [][]int32 // by line, the jobs that can be done now, ascending
	left  []int     // by line, the jobs still to be done
	now   load
	face  int // where the crew stands
	order []int32
	done  uint64 // which jobs are done, as a number that tells sets apart
	aim   []bool // the jobs that have to be done for a row to be filled, rowByRow; nil: any
}

func (w *work) begin() *progress {
	p := &progress{work: w, need: make([]int32, len(w.jobs)), ready: make([][]int32, len(w.lines)), left: make([]int, len(w.lines)), now: w.start}
	for i := range w.jobs {
		p.need[i] = w.jobs[i].need
		p.left[w.jobs[i].line]++
		if p.need[i] == 0 {
			l := w.jobs[i].line
			p.ready[l] = append(p.ready[l], int32(i))
		}
	}
	return p
}

func (p *progress) clone() *progress {
	q := *p
	q.need, q.left, q.order = slices.Clone(p.need), slices.Clone(p.left), slices.Clone(p.order)
	q.ready = slices.Clone(p.ready)
	for i := range q.ready {
		q.ready[i] = slices.Clip(q.ready[i]) // appending to one does not show in the other
	}
	return &q
}

// batch is all of a line that can be done in one go from now on, in order, and
// what it changes; with an aim only what serves it.
func (p *progress) batch(l int) ([]int32, load) {
	list := make([]int32, 0, len(p.ready[l]))
	for _, b := range p.ready[l] {
		if p.aim == nil || p.aim[b] {
			list = append(list, b)
		}
	}
	var change load
	var met map[int32]int32
	for i := 0; i < len(list); i++ {
		j := &p.work.jobs[list[i]]
		change = change.plus(j.change)
		for _, n := range j.next {
			if p.work.jobs[n].line != l || p.aim != nil && !p.aim[n] {
				continue
			}
			if met == nil {
				met = map[int32]int32{}
			}
			if met[n]++; met[n] == p.need[n] {
				list = append(list, n)
			}
		}
	}
	return list, change
}

// do does jobs of one line.
func (p *progress) do(batch []int32) {
	for _, b := range batch {
		j := &p.work.jobs[b]
		at, _ := slices.BinarySearch(p.ready[j.line], b)
		p.ready[j.line] = slices.Concat(p.ready[j.line][:at], p.ready[j.line][at+1:])
		p.need[b] = -1
		p.left[j.line]--
		p.now = p.now.plus(j.change)
		p.done ^= scatter(uint64(b))
		for _, n := range j.next {
			if p.need[n]--; p.need[n] == 0 {
				l := p.work.jobs[n].line
				at, _ := slices.BinarySearch(p.ready[l], n)
				p.ready[l] = slices.Insert(slices.Clip(p.ready[l]), at, n)
			}
		}
	}
	p.order = append(p.order, batch...)
	if len(batch) > 0 {
		p.face = p.work.jobs[batch[0]].face
	}
}

// scatter is a number for each job, so that a set of them has one too: the
// finisher of SplitMix64 (Steele, Lea and Flood 2014).
func scatter(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// choice is one way on.
type choice struct {
	batch  []int32
	change load
	rank   rank
}

// rank orders choices, the least first.
type rank [7]int64

// turn is when a crew comes to a verb among those it could do on a face: each in
// its turn, or if it finishes row after row from the last to the first.
func (m manner) turn(v Verb) int64 {
	if m == rowByRow {
		return [...]int64{PutOn: 0, Hang: 1, Nudge: 2, Slip: 3, Shift: 4, SetAside: 5, TakeDown: 6, TakeOff: 7}[v]
	}
	return [...]int64{TakeOff: 0, TakeDown: 1, Slip: 2, Nudge: 3, Shift: 4, Hang: 5, SetAside: 6, PutOn: 7}[v]
}

// rank says how a crew likes a line of which so many jobs can be done now: one it
// can finish, on the face where it stands, the verbs in turn, off from the top
// and on from the bottom, what is heavy first; evenly, what keeps the sides alike
// goes before all that.
func (p *progress) rank(l int, size int, change load, m manner) rank {
	line := &p.work.lines[l]
	k := rank{0, 0, 0, m.turn(line.verb), int64(line.height), -int64(line.mass), int64(l)}
	if m == evenly {
		k[0] = p.uneven(change)
	}
	if p.left[l] != size {
		k[1] = 1
	}
	if line.face != p.face {
		k[2] = 1
	}
	if line.verb == TakeOff || line.verb == TakeDown || line.verb == SetAside {
		k[4] = -k[4]
	}
	return k
}

// choices lists what can be done now, a line each, best first.
func (p *progress) choices(m manner) []choice {
	var list []choice
	for l := range p.ready {
		if len(p.ready[l]) == 0 {
			continue
		}
		batch, change := p.batch(l)
		if len(batch) == 0 {
			continue
		}
		list = append(list, choice{batch, change, p.rank(l, len(batch), change, m)})
	}
	slices.SortFunc(list, func(a, b choice) int { return slices.Compare(a.rank[:], b.rank[:]) })
	return list
}

// uneven is how unlike opposite faces would be after a change, milligrams.
func (p *progress) uneven(change load) int64 {
	after, sum := p.now.plus(change), int64(0)
	for _, pair := range p.work.judge.pairs {
		sum += int64(pair.apart(after))
	}
	return sum
}

// safe cuts a batch to as much of it as can be done so that the unit stands well
// after it; nothing if no part of it can.
func (p *progress) safe(batch []int32) []int32 {
	now, most := p.now, 0
	for i, b := range batch {
		now = now.plus(p.work.jobs[b].change)
		if p.work.judge.fault(now).code == "" {
			most = i + 1
		}
	}
	return batch[:most]
}

// next is what to do now: the best choice after which the unit stands well, else
// the best of which a part can be done; if the aim allows neither, whatever else
// does; else what does the least harm.
func (p *progress) next(m manner) []int32 {
	if m == rowByRow {
		p.takeAim()
	}
	list := p.choices(m)
	if safe := p.pick(list); safe != nil {
		return safe
	}
	if p.aim != nil {
		aim := p.aim
		p.aim = nil
		if safe := p.pick(p.choices(m)); safe != nil {
			return safe
		}
		p.aim = aim
	}
	if p.aim != nil {
		return list[0].batch // what has to be, soon done
	}
	least, worst := 0, fault{}
	for i, c := range list {
		f := p.work.judge.fault(p.now.plus(c.change))
		if i == 0 || worst.worse(f) {
			least, worst = i, f
		}
	}
	return list[least].batch
}

// pick is the best choice after which the unit stands well, or the best part of
// one; nil if there is none.
func (p *progress) pick(list []choice) []int32 {
	for _, c := range list {
		if p.work.judge.fault(p.now.plus(c.change)).code == "" {
			return c.batch
		}
	}
	for _, c := range list {
		if part := p.safe(c.batch); len(part) > 0 {
			return part
		}
	}
	return nil
}

// takeAim sets the row to be filled next, unless one is being filled: that for
// which least has to be taken off first, what it will carry set against it. When
// all rows are filled anything goes.
func (p *progress) takeAim() {
	for b, wanted := range p.aim {
		if wanted && p.need[b] >= 0 {
			return
		}
	}
	p.aim = nil
	var least measure.Mass
	for l := range p.work.lines {
		if p.work.lines[l].verb != PutOn || p.left[l] == 0 {
			continue
		}
		aim, net := p.leadingTo(l)
		if p.aim == nil || net > least {
			p.aim, least = aim, net
		}
	}
}

// leadingTo is all jobs still to be done before a line is done, and with it, and
// the mass that they put on the unit.
func (p *progress) leadingTo(l int) (aim []bool, net measure.Mass) {
	aim = make([]bool, len(p.need))
	var stack []int32
	want := func(b int32) {
		if !aim[b] && p.need[b] >= 0 {
			aim[b] = true
			net += p.work.jobs[b].change.all.Mass
			stack = append(stack, b)
		}
	}
	for _, b := range p.work.lines[l].jobs {
		want(b)
	}
	for len(stack) > 0 {
		b := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, before := range p.work.jobs[b].before {
			want(before)
		}
	}
	return aim, net
}

// schedule finds the order: face by face, unless that brings the unit out of
// balance and another way does not.
func (w *work) schedule() {
	var best *progress
	var least grief
	for _, m := range []manner{faceByFace, evenly, rowByRow} {
		p := w.begin()
		for len(p.order) < len(w.jobs) {
			p.do(p.next(m))
		}
		if g := w.grief(p.order); best == nil || g.compare(least) < 0 {
			best, least = p, g
		}
		if least.cautions == 0 {
			break
		}
	}
	w.order = best.order
	if least.cautions > 0 {
		if found := w.search(); found != nil {
			w.order = found
		}
	}
}

// grief is what is wrong with an order.
type grief struct {
	worst    fault
	cautions int
	steps    int
}

// compare puts first what is less bad at its worst, in twentieths of the limit,
// then what has fewer cautions, then fewer steps.
func (g grief) compare(o grief) int {
	tip := func(f fault) int {
		if f.code == tipCode {
			return 1
		}
		return 0
	}
	far := func(f fault) float64 { return math.Ceil(20 * f.over) }
	return cmp.Or(cmp.Compare(tip(g.worst), tip(o.worst)), cmp.Compare(far(g.worst), far(o.worst)),
		cmp.Compare(g.cautions, o.cautions), cmp.Compare(g.steps, o.steps))
}

// grief counts the cautions of an order, how far they go, and its steps.
func (w *work) grief(order []int32) grief {
	var g grief
	now := w.start
	for i, b := range order {
		now = now.plus(w.jobs[b].change)
		if i+1 < len(order) && w.jobs[order[i+1]].line == w.jobs[b].line {
			continue
		}
		g.steps++
		if f := w.judge.fault(now); f.code != "" {
			g.cautions++
			if f.worse(g.worst) {
				g.worst = f
			}
		}
	}
	return g
}
