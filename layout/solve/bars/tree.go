package bars

import (
	"math"
	"slices"

	"setwright/layout/solve/lp"
)

// outcome is how the search for a plan within a set of bars ended.
type outcome int8

const (
	made    outcome = iota // with a plan
	refuted                // with a proof that there is none
	stopped                // with neither
)

// tree decides whether a set of bars is enough. Where the linear program says so and
// rounding does not, it takes two pieces that share bars in part: first they are
// glued together, then kept apart.
type tree struct {
	*master
	limit int64 // of effort used
	good  func(plan []used) bool
	glued int      // kinds that are pairs glued together on the way to this node
	pairs [][2]int // what they are
	nodes int
}

// visit decides a node, and writes down why there is no plan.
func (t *tree) visit() (*Node, outcome) {
	t.nodes++
	switch t.solve() {
	case impossible:
		return &Node{Worth: slices.Clone(t.worth[:t.kinds+t.glued])}, refuted
	case unknown:
		return nil, stopped
	}
	i, j, shared := t.choose()
	if t.nodes%divesEvery == 1 || !shared {
		found := false
		t.dive(func(plan []used) bool {
			found = t.good(t.unglue(plan))
			return found
		})
		if found {
			return nil, made
		}
	}
	if !shared || t.used >= t.limit {
		return nil, stopped
	}
	return t.branch(i, j)
}

// divesEvery is at how many nodes one is rounded.
const divesEvery = 10

// branch decides a node by the pair of kinds that is to be glued and parted.
func (t *tree) branch(i, j int) (*Node, outcome) {
	node := &Node{Pair: [2]int{i, j}}
	var result outcome
	before := len(t.clash.pairs)
	t.glue(i, j)
	node.Together, result = t.visit()
	t.unglueLast()
	t.clash.shrink(before)
	if result != refuted {
		return nil, result
	}
	t.clash.push(i, j)
	node.Apart, result = t.visit()
	t.clash.shrink(before)
	return node, result
}

// choose finds the pair of kinds of which it matters most whether they share a bar:
// wide ones that the program has on one in about half. There is none where no
// two pieces share a bar that is not settled.
func (t *tree) choose() (i, j int, found bool) {
	n := len(t.width)
	share := t.shares(n)
	best := 0.0
	for a := range n {
		for b := a; b < n; b++ {
			f := share[a*n+b]
			if f <= whole {
				continue
			}
			score := (1 - math.Abs(f-0.5)) * float64(t.width[a]+t.width[b])
			switch {
			case f <= 1-whole:
			case f < 1+whole && t.once(a, b):
				continue
			default:
				score = math.SmallestNonzeroFloat64 // one bar at least holds both: worth gluing if there is nothing better
			}
			if score > best {
				best, i, j, found = score, a, b, true
			}
		}
	}
	return i, j, found
}

// once says whether two kinds can share a bar only once.
func (t *tree) once(i, j int) bool {
	if i == j {
		return t.need[i] <= 2
	}
	return t.need[i] == 1 && t.need[j] == 1
}

// shares sums, for each pair of kinds, how many bars of the program hold both.
func (t *tree) shares(n int) []float64 {
	share := make([]float64, n*n)
	for c, p := range t.columns {
		v := t.value(c)
		if v <= 0 {
			continue
		}
		for at, a := range p.takes {
			if a.times > 1 {
				share[int(a.kind)*n+int(a.kind)] += v
			}
			for _, b := range p.takes[at+1:] {
				share[int(a.kind)*n+int(b.kind)] += v
			}
		}
	}
	return share
}

// glue makes one piece of a piece each of two kinds: a new kind.
func (t *tree) glue(i, j int) {
	kind := t.kinds + t.glued
	t.glued++
	t.pairs = append(t.pairs, [2]int{i, j})
	if kind == len(t.width) {
		t.program.AddRow(lp.AtLeast, 0, nil)
		t.width, t.need = append(t.width, 0), append(t.need, 0)
		t.addShort(kind)
	}
	t.width[kind] = t.width[i] + t.width[j]
	t.need[i]--
	t.need[j]--
	t.need[kind] = 1
	var with []int
	for _, k := range slices.Concat(t.clash.of(i), t.clash.of(j)) {
		if !slices.Contains(with, k) {
			with = append(with, k)
			t.clash.push(kind, k)
		}
	}
	for c := range t.columns {
		if p, holds := t.columns[c].glue(i, j, kind); holds && !t.dead[c] {
			t.add(p)
		}
	}
}

// glue is the pattern with a pair in it glued together.
func (p *pattern) glue(i, j, kind int) (q pattern, holds bool) {
	if p.bar < 0 || p.count(i) < 1 || p.count(j) < 1 || i == j && p.count(i) < 2 {
		return q, false
	}
	q = pattern{bar: p.bar, takes: slices.Clone(p.takes)}
	for _, k := range []int{i, j} {
		at := slices.IndexFunc(q.takes, func(t take) bool { return int(t.kind) == k })
		if q.takes[at].times--; q.takes[at].times == 0 {
			q.takes = slices.Delete(q.takes, at, at+1)
		}
	}
	q.takes = append(q.takes, take{int32(kind), 1})
	q.tidy()
	return q, true
}

// unglueLast takes the last gluing back.
func (t *tree) unglueLast() {
	t.glued--
	pair := t.pairs[t.glued]
	t.pairs = t.pairs[:t.glued]
	kind := t.kinds + t.glued
	t.need[pair[0]]++
	t.need[pair[1]]++
	t.need[kind] = 0
	for c := range t.columns {
		if p := &t.columns[c]; !t.dead[c] && p.count(kind) > 0 {
			t.dead[c] = true
			delete(t.known, p.key())
		}
	}
}

// unglue is a plan in kinds of the shop only.
func (t *tree) unglue(plan []used) []used {
	free := slices.Clone(plan)
	for u := range free {
		p := pattern{bar: free[u].bar}
		for _, k := range free[u].takes {
			t.loosen(&p, int(k.kind), k.times)
		}
		p.tidy()
		free[u].pattern = p
	}
	return free
}

func (t *tree) loosen(p *pattern, kind int, times int32) {
	if kind < t.kinds {
		p.add(take{int32(kind), times})
		return
	}
	for _, k := range t.pairs[kind-t.kinds] {
		t.loosen(p, k, times)
	}
}
