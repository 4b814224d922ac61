package bars

import (
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
	pair, parted := t.choose()
	found := false
	t.dive(func(plan []used) bool {
		found = t.good(t.unglue(plan))
		return found
	})
	if found {
		return nil, made
	}
	if !parted || t.used >= t.limit {
		return nil, stopped
	}
	node := &Node{Pair: pair}
	var result outcome
	before := len(t.clash.pairs)
	t.glue(pair[0], pair[1])
	node.Together, result = t.visit()
	t.part(pair[0], pair[1])
	t.clash.shrink(before)
	if result != refuted {
		return nil, result
	}
	t.clash.push(pair[0], pair[1])
	node.Apart, result = t.visit()
	t.clash.shrink(before)
	return node, result
}

// choose finds the pair of kinds that shares bars most nearly once without doing so.
func (t *tree) choose() (pair [2]int, found bool) {
	n := len(t.width)
	share := make([]float64, n*n)
	for c := range t.columns {
		v := t.value(c)
		if v <= 0 || t.columns[c].bar < 0 {
			continue
		}
		takes := t.columns[c].takes
		for i, a := range takes {
			if a.times > 1 {
				share[int(a.kind)*n+int(a.kind)] += v
			}
			for _, b := range takes[i+1:] {
				share[int(a.kind)*n+int(b.kind)] += v
			}
		}
	}
	best := 0.0
	for i := range n {
		for j := i; j < n; j++ {
			f := share[i*n+j]
			score := f
			if f > 1-whole {
				score = 0.001
				if (i == j && t.need[i] <= 2 || i != j && t.need[i]+t.need[j] <= 2) && f < 1+whole {
					score = 0
				}
			}
			if f > whole && score > best {
				best, pair, found = score, [2]int{i, j}, true
			}
		}
	}
	return pair, found
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

// part takes the last gluing back.
func (t *tree) part(i, j int) {
	t.glued--
	t.pairs = t.pairs[:t.glued]
	kind := t.kinds + t.glued
	t.need[i]++
	t.need[j]++
	t.need[kind] = 0
	for c := range t.columns {
		if p := &t.columns[c]; !t.dead[c] && p.bar >= 0 && p.count(kind) > 0 {
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
