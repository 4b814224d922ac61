package bars

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
)

// The checks in this file share no code with what they check.

// checkPlan checks that a plan can be sawn as it stands and adds up.
func checkPlan(job Job, p *Plan) error {
	made, taken := make([]int, len(job.Pieces)), make([]int, len(job.Bars))
	cost, length := int64(0), int64(0)
	for n, u := range p.Patterns {
		bar := job.Bars[u.Bar]
		used, pieces := int64(0), int64(0)
		for i, c := range u.Counts {
			if c < 0 {
				return fmt.Errorf("pattern %d makes %d of piece %d", n, c, i)
			}
			made[i] += c * u.Times
			pieces += int64(c)
			used += int64(c) * job.Pieces[i].Length
		}
		if u.Times < 1 || pieces < 1 {
			return fmt.Errorf("pattern %d: %d times, %d pieces", n, u.Times, pieces)
		}
		if used += (pieces - 1) * job.Kerf; used > bar.Length-job.Trim {
			return fmt.Errorf("pattern %d takes %d of %d", n, used, bar.Length-job.Trim)
		}
		taken[u.Bar] += u.Times
		cost += int64(u.Times) * bar.Cost
		length += int64(u.Times) * bar.Length
	}
	for i, c := range made {
		if c != job.Pieces[i].Count {
			return fmt.Errorf("%d of piece %d, wanted %d", c, i, job.Pieces[i].Count)
		}
	}
	for b, c := range taken {
		if limit := job.Bars[b].Limit; limit >= 0 && c > limit {
			return fmt.Errorf("%d of bar %d, at hand %d", c, b, limit)
		}
	}
	if cost != p.Cost || length != p.Length {
		return fmt.Errorf("cost %d and length %d, said to be %d and %d", cost, length, p.Cost, p.Length)
	}
	if p.Bound > p.Cost || p.Proven != (p.Bound == p.Cost) {
		return fmt.Errorf("cost %d, bound %d, proven %v", p.Cost, p.Bound, p.Proven)
	}
	return nil
}

// proven is what a proof speaks of: kinds of pieces, and bars that matter.
type proven struct {
	job   Job
	width []int64
	need  []int64
	bars  []int   // of the job, without those that another serves as well as
	limit []int64 // by bars
}

// readProof sorts a job as Proof says. A bar is of no matter if there is any number
// of another that holds as much, in the common measure of all pieces, and costs no
// more: the others can stand in for it. Of two that are alike in that one matters. Equal
// bars are counted with the first of them. No more bars are of use than pieces fit.
func readProof(job Job) proven {
	p := proven{job: job}
	for _, piece := range job.Pieces {
		if w := piece.Length + job.Kerf; piece.Count > 0 && !slices.Contains(p.width, w) {
			p.width = append(p.width, w)
		}
	}
	slices.Sort(p.width)
	slices.Reverse(p.width)
	p.need = make([]int64, len(p.width))
	for _, piece := range job.Pieces {
		if piece.Count > 0 {
			p.need[slices.Index(p.width, piece.Length+job.Kerf)] += int64(piece.Count)
		}
	}
	unit := int64(0)
	for _, w := range p.width {
		unit = new(big.Int).GCD(nil, nil, big.NewInt(unit), big.NewInt(w)).Int64()
	}
	unit = max(1, unit)
	for i, b := range job.Bars {
		limit, matters, total := int64(0), true, int64(0)
		for k, w := range p.width {
			if w <= p.room(i) {
				total += p.need[k]
			}
		}
		for j, c := range job.Bars {
			equal := b.Length == c.Length && b.Cost == c.Cost
			switch {
			case equal && j < i:
				matters = false
			case equal && c.Limit < 0:
				limit = total
			case equal:
				limit = min(total, limit+int64(c.Limit))
			case c.Limit < 0 && c.Cost <= b.Cost && p.room(j)/unit >= p.room(i)/unit:
				matters = matters && p.room(j)/unit == p.room(i)/unit && c.Cost == b.Cost && c.Length > b.Length
			}
		}
		if matters {
			p.bars, p.limit = append(p.bars, i), append(p.limit, limit)
		}
	}
	return p
}

// room is what pieces, each with a kerf, may come to on a bar.
func (p proven) room(bar int) int64 { return p.job.Bars[bar].Length - p.job.Trim + p.job.Kerf }

// knap is the greatest worth of pieces within a room: a table by worth reached, for
// each width that sums can have.
func knap(width, need, worth []int64, room int64) int64 {
	type sum struct{ width, worth int64 }
	sums := []sum{{0, 0}}
	for k, w := range width {
		for n := int64(0); worth[k] > 0 && n < min(need[k], max(0, room)/w); n++ {
			var next []sum
			i, j, top := 0, 0, int64(-1)
			for i < len(sums) || j < len(sums) {
				var s sum
				if j == len(sums) || i < len(sums) && sums[i].width <= sums[j].width+w {
					s = sums[i]
					i++
				} else {
					s = sum{sums[j].width + w, sums[j].worth + worth[k]}
					j++
				}
				if s.worth > top && s.width <= room {
					next, top = append(next, s), s.worth
				}
			}
			sums = next
		}
	}
	return sums[len(sums)-1].worth
}

// short says whether all that is needed is worth more than a number of each bar.
func short(need, worth, most, bars []int64) bool {
	var sum, term big.Int
	for k, n := range need {
		sum.Add(&sum, term.Mul(big.NewInt(n), big.NewInt(worth[k])))
	}
	for b, n := range bars {
		sum.Sub(&sum, term.Mul(big.NewInt(n), big.NewInt(most[b])))
	}
	return sum.Sign() > 0
}

// checkProof checks that no plan costs less than bound or, with a negative bound,
// that there is no plan at all.
func checkProof(job Job, proof *Proof, bound int64) error {
	p := readProof(job)
	var mosts [][]int64
	for _, worth := range proof.Cuts {
		var most []int64
		for _, b := range p.bars {
			most = append(most, knap(p.width, p.need, worth, p.room(b)))
		}
		mosts = append(mosts, most)
	}
	var excluded [][]int64
	for _, e := range proof.Excluded {
		var set []int64
		for _, b := range p.bars {
			set = append(set, e.Bars[b])
		}
		if err := p.checkTree(set, e.Tree); err != nil {
			return err
		}
		excluded = append(excluded, set)
	}
	dead := func(set []int64) bool {
		for i, worth := range proof.Cuts {
			if short(p.need, worth, mosts[i], set) {
				return true
			}
		}
		return slices.ContainsFunc(excluded, func(e []int64) bool {
			for b, n := range set {
				if n > e[b] {
					return false
				}
			}
			return true
		})
	}
	if bound < 0 {
		if !dead(p.limit) {
			return errors.New("nothing shows that the stock is not enough")
		}
		return nil
	}
	return p.enumerate(make([]int64, len(p.bars)), 0, bound-1, proof, mosts, dead)
}

// enumerate wants every set of bars dead that costs no more than what is left. Only
// sets to which no more of the last bar can be added need a look: the others are
// part of one. Where even the best bar for its cost would not make up for what a cut
// is short of, the rest is dead too.
func (p proven) enumerate(set []int64, b int, left int64, proof *Proof, mosts [][]int64, dead func([]int64) bool) error {
	if left < 0 {
		return nil
	}
	if b == len(set) {
		if !dead(set) {
			return fmt.Errorf("nothing speaks against %v of bars %v", set, p.bars)
		}
		return nil
	}
	for i, worth := range proof.Cuts {
		sum := 0.0
		for k, n := range p.need {
			sum += float64(n) * float64(worth[k])
		}
		size, rate, free := sum, 0.0, false
		for c, n := range set {
			sum -= float64(n) * float64(mosts[i][c])
			if cost := p.job.Bars[p.bars[c]].Cost; c >= b && cost > 0 {
				rate = max(rate, float64(mosts[i][c])/float64(cost))
			} else if c >= b {
				free = true
			}
		}
		if !free && sum-rate*float64(left) > 1e-9*size {
			return nil
		}
	}
	cost, most := p.job.Bars[p.bars[b]].Cost, p.limit[b]
	if cost > 0 {
		most = min(most, left/cost)
	}
	for n := most; n >= 0; n-- {
		set[b] = n
		if err := p.enumerate(set, b+1, left-n*cost, proof, mosts, dead); err != nil {
			return err
		}
		if b == len(set)-1 || cost == 0 {
			break
		}
	}
	set[b] = 0
	return nil
}

// checkTree checks that pieces cannot be made from a set of bars.
func (p proven) checkTree(set []int64, root *Node) error {
	clash := map[[2]int]bool{}
	return p.checkNode(set, root, slices.Clone(p.width), slices.Clone(p.need), clash)
}

func (p proven) checkNode(set []int64, node *Node, width, need []int64, clash map[[2]int]bool) error {
	if node == nil {
		return errors.New("a tree without an end")
	}
	if node.Worth != nil {
		if len(node.Worth) != len(width) {
			return fmt.Errorf("%d worths for %d kinds", len(node.Worth), len(width))
		}
		var loose, strict []int64
		for i, b := range p.bars {
			if set[i] == 0 {
				loose = append(loose, 0)
				continue
			}
			loose = append(loose, knap(width, need, node.Worth, p.room(b)))
		}
		if short(need, node.Worth, loose, set) {
			return nil
		}
		for i, b := range p.bars {
			most := int64(0)
			if set[i] > 0 {
				most = knapApart(width, need, node.Worth, p.room(b), clash)
			}
			strict = append(strict, most)
		}
		if !short(need, node.Worth, strict, set) {
			return errors.New("the worths at the end of a branch do not end it")
		}
		return nil
	}
	i, j := node.Pair[0], node.Pair[1]
	if i < 0 || i > j || j >= len(width) || need[i] < 1 || need[j] < 1 || i == j && need[i] < 2 {
		return fmt.Errorf("no pieces %v to be put together", node.Pair)
	}
	apart := map[[2]int]bool{{i, j}: true}
	together := map[[2]int]bool{}
	for pair := range clash {
		apart[pair], together[pair] = true, true
		for side := range 2 {
			if pair[side] == i || pair[side] == j {
				together[[2]int{pair[1-side], len(width)}] = true
			}
		}
	}
	if err := p.checkNode(set, node.Apart, width, need, apart); err != nil {
		return err
	}
	width, need = append(slices.Clone(width), width[i]+width[j]), append(slices.Clone(need), 1)
	need[i]--
	need[j]--
	return p.checkNode(set, node.Together, width, need, together)
}

// knapApart is the greatest worth of pieces within a room of which no two clash: a
// search over kinds by their worth for their width.
func knapApart(width, need, worth []int64, room int64, clash map[[2]int]bool) int64 {
	order := make([]int, len(width))
	for k := range order {
		order[k] = k
	}
	rate := func(k int) float64 { return float64(worth[k]) / float64(width[k]) }
	slices.SortStableFunc(order, func(a, b int) int {
		if rate(a) > rate(b) {
			return -1
		}
		return 1
	})
	best := int64(0)
	var held []int
	var visit func(at int, room, sum int64)
	visit = func(at int, room, sum int64) {
		best = max(best, sum)
		for ; at < len(order); at++ {
			k := order[at]
			if float64(sum)+rate(k)*float64(room) < float64(best)-0.5 {
				return
			}
			if worth[k] <= 0 || width[k] > room || slices.ContainsFunc(held, func(h int) bool { return clash[[2]int{min(h, k), max(h, k)}] }) {
				continue
			}
			most := min(need[k], room/width[k])
			if clash[[2]int{k, k}] {
				most = min(most, 1)
			}
			for n := most; n > 0; n-- {
				held = append(held, k)
				visit(at+1, room-n*width[k], sum+n*worth[k])
				held = held[:len(held)-1]
			}
		}
	}
	visit(0, room, 0)
	return best
}
