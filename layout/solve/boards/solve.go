package boards

import "slices"

// Solve cuts a job. Effort counts inner loops, about a nanosecond each, and ends the
// search for a better plan and a better bound, never the first plan. The same job and
// effort give the same plan.
//
// Of plans of one cost, it takes one with the least area of boards if it finds it. It
// returns a *JobError for numbers that no job can have, a *FitError for pieces that no
// board can give and a *ShortError where all boards together do not do.
func Solve(job Job, effort int64) (*Plan, error) {
	if err := job.check(); err != nil {
		return nil, err
	}
	return solve(&job, effort)
}

// solve cuts a job whose numbers are sound.
func solve(job *Job, effort int64) (*Plan, error) {
	s, err := newShop(job)
	if err != nil {
		return nil, err
	}
	if len(s.kinds) == 0 {
		return &Plan{Proven: true, Proof: &Proof{}}, nil
	}
	v, err := newSolver(s, effort)
	if err != nil {
		return nil, err
	}
	piles, bound := v.solve()
	if piles == nil && bound == dear {
		return nil, s.missing(effort, v.proof())
	}
	if piles == nil {
		return nil, s.missing(effort, nil)
	}
	plan := s.plan(v.lies, piles)
	plan.Bound = bound * s.unit
	plan.Proven = plan.Bound == plan.Cost
	plan.Proof = v.proof()
	return plan, nil
}

// solver is one run.
type solver struct {
	shop   *shop
	steps  int64 // inner loops so far
	effort int64
	lies   []gridLie

	quick pricer  // sizes rounded up to coarse marks: finds the first layouts
	tight pricer  // sizes rounded up, if at all: what it finds can be cut
	loose pricer  // sizes rounded down, if at all: nothing that can be cut is worth more
	short *staged // for filling boards with what is left

	share []int64 // of each kind, its area in parts of the largest board's
	room  []int64 // the same of each board

	pool  []use // layouts found
	needs []need
}

// mostPoints is how many points a ruler may have before sizes are rounded. Beyond three
// stages every point is held against every other.
func mostPoints(stages int) int {
	if stages > 3 {
		return 600
	}
	return 1500
}

// coarser is by how much the marks are coarser that the first layouts are found with.
const coarser = 4

// finer is by how much the marks of the bound are finer: it is priced only now and then.
const finer = 2

func newSolver(s *shop, effort int64) (*solver, error) {
	v := &solver{shop: s, effort: effort}
	up, err := newGrid(s, mostPoints(s.stages), true)
	if err != nil {
		return nil, err
	}
	v.lies = up.lies
	v.tight = newPricer(up, &v.steps)
	v.quick = v.tight
	if coarse, err := newGrid(s, mostPoints(s.stages)/coarser, true); err == nil {
		v.quick = newPricer(coarse, &v.steps)
	}
	if v.loose = v.tight; !up.exact {
		down, err := newGrid(s, mostPoints(s.stages)*finer, false)
		if err != nil {
			return nil, err
		}
		v.loose = newPricer(down, &v.steps)
	}
	v.short = newStaged(up, min(s.stages, 3), &v.steps)
	v.measure()
	return v, nil
}

// measure works out areas.
func (s *solver) measure() {
	largest := s.shop.boards[0].size
	for _, b := range s.shop.boards {
		if more(b.size[along], b.size[across], largest[along], largest[across]) {
			largest = b.size
		}
	}
	for _, k := range s.shop.kinds {
		s.share = append(s.share, max(areaShare(k.size, largest), 1))
	}
	for _, b := range s.shop.boards {
		s.room = append(s.room, max(areaShare(b.size, largest), 1))
	}
}

// keep puts a layout into the pool, unless it is there or does not fit.
func (s *solver) keep(l *block, b int) (at int, added bool) {
	counts := make([]int, len(s.shop.kinds))
	l.count(s.lies, counts)
	for i, u := range s.pool {
		if u.board == b && slices.Equal(u.counts, counts) {
			return i, false
		}
	}
	if !s.shop.fits(s.lies, l, b) {
		return -1, false
	}
	s.pool = append(s.pool, use{b, l, counts})
	return len(s.pool) - 1, true
}

// solve finds piles and a bound in parts of the shop's unit of cost. There are no piles if
// none were found; the bound is dear if there are none.
func (s *solver) solve() (piles []pile, bound int64) {
	c := &chooser{shop: s.shop, needs: []need{s.need(s.share)}}
	wanted, limits := s.wanted(), s.limits()
	known := [2]int64{dear, dear}
	if c.bound() < dear {
		r := s.relax(wanted, limits, s.costs())
		c.needs = append(c.needs, s.need(r.duals()))
		if piles = s.pack(r, limits, s.pays(), false); piles == nil {
			piles = s.refill(wanted, limits, s.pays(), 1, known)
		}
		if piles != nil {
			known = s.spent(piles)
		}
	}
	for s.steps <= s.effort {
		counts, _ := c.choose(known)
		s.steps += int64(c.nodes * len(c.needs))
		if counts == nil {
			break
		}
		r := s.relax(wanted, counts, make([]float64, len(counts)))
		if n := s.need(r.duals()); n.exceeds(counts) {
			c.needs = append(c.needs, n)
			continue
		}
		if better := s.pack(r, counts, s.room, true); better != nil {
			piles, known = better, s.spent(better)
		}
		c.tried = append(c.tried, counts)
	}
	s.needs = c.needs
	return piles, c.bound()
}

// need prices boards at values of the kinds.
func (s *solver) need(value []int64) need {
	n := need{value: value, holds: make([]int64, len(s.shop.boards))}
	s.loose.price(value)
	for b := range n.holds {
		n.holds[b] = s.loose.best(b)
	}
	for k, v := range value {
		n.demand += v * int64(s.shop.kinds[k].count)
	}
	return n
}

// exceeds tells whether a need asks for more than numbers of boards hold.
func (n need) exceeds(counts []int) bool {
	sum := int64(0)
	for b, c := range counts {
		sum += n.holds[b] * int64(c)
	}
	return sum < n.demand
}

// spent is what piles cost and the area of their boards.
func (s *solver) spent(piles []pile) (sum [2]int64) {
	for _, p := range piles {
		b := s.shop.boards[p.board]
		sum[0] += b.cost * int64(p.times)
		sum[1] += b.area * int64(p.times)
	}
	return sum
}

func (s *solver) limits() []int {
	limits := make([]int, len(s.shop.boards))
	for b := range limits {
		limits[b] = s.shop.boards[b].limit
	}
	return limits
}

// costs gives the boards' costs in parts of the dearest one's.
func (s *solver) costs() []float64 {
	top := int64(1)
	for _, b := range s.shop.boards {
		top = max(top, b.cost)
	}
	cost := make([]float64, len(s.shop.boards))
	for b := range cost {
		cost[b] = float64(s.shop.boards[b].cost) / float64(top)
	}
	return cost
}

// pays is what boards are judged by when one is to be filled next and all cost something.
func (s *solver) pays() []int64 {
	pays := make([]int64, len(s.shop.boards))
	for b := range pays {
		pays[b] = s.shop.boards[b].cost + 1
	}
	return pays
}
