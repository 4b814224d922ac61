package bars

import (
	"cmp"
	"errors"
	"slices"
)

// ErrEffort is the error where the effort was too short to find any plan or to
// prove that there is none.
var ErrEffort = errors.New("out of effort before any plan was found")

// budget is the effort that all parts of a search draw on.
type budget struct{ used, all int64 }

func (b *budget) spend(steps int64) { b.used += steps }

func (b *budget) spent() bool { return b.used >= b.all }

// search is one Solve.
type search struct {
	*shop
	*budget
	master *master
	counts *counts
	plan   []used
	price  int64     // of plan; infinite if there is none
	floor  int64     // no plan has a lower price
	frugal bool      // only length is left to be saved
	open   [][]int64 // sets of bars that no cut excludes but no plan was found for
	proof  *Proof
}

func newSearch(s *shop, effort int64) *search {
	b := &budget{all: effort}
	return &search{shop: s, budget: b, price: infinite, proof: &Proof{},
		counts: &counts{budget: b, price: s.price, limit: s.limit, need: s.need}}
}

// run looks for the plan and its proof.
func (s *search) run() (*Plan, error) {
	if len(s.width) == 0 {
		return &Plan{Proven: true, Shortest: true, Proof: s.proof}, nil
	}
	s.master = newMaster(s.shop, s.budget)
	s.cut(s.width, s.room)
	if len(s.room) == 1 {
		s.cutByClasses()
	}
	if plan, done := s.master.greedy(); done {
		s.offer(plan)
	}
	if !s.tight() {
		s.root()
	}
	s.loop()
	for _, c := range s.counts.cuts {
		s.proof.Cuts = append(s.proof.Cuts, c.worth)
	}
	switch {
	case s.plan != nil:
		return s.report(), nil
	case s.floor == infinite:
		return nil, s.shortage()
	}
	return nil, ErrEffort
}

// offer takes a plan if it is the best so far, and says whether it did.
func (s *search) offer(plan []used) bool {
	price := int64(0)
	for _, u := range plan {
		price += u.times * s.shop.price[u.bar]
	}
	if price < s.price {
		s.plan, s.price = slices.Clone(plan), price
		return true
	}
	return false
}

// cut adds a cut; most is by kind of bar and need not be exact.
func (s *search) cut(worth, most []int64) {
	s.counts.cuts = append(s.counts.cuts, cut{slices.Clone(worth), slices.Clone(most)})
}

// cutByClasses adds, for one kind of bar, the best cut of those that count long
// pieces as whole bars, and short ones as nothing (Martello and Toth 1990, L2), if
// it is better than that by width alone.
func (s *search) cutByClasses() {
	room := s.room[0]
	best, top := []int64(nil), s.sum(s.width)
	for _, limit := range append([]int64{room/2 + 1}, s.width...) {
		worth := make([]int64, len(s.width))
		for k, w := range s.width {
			switch {
			case 2*w > room && w > room-limit:
				worth[k] = room
			case w >= limit:
				worth[k] = w
			}
		}
		if sum := s.sum(worth); sum > top && (2*limit <= room || limit == room/2+1) {
			best, top = worth, sum
		}
	}
	if best != nil {
		s.cut(best, s.room)
	}
}

// sum is the worth of all pieces.
func (s *search) sum(worth []int64) int64 {
	sum := int64(0)
	for k, n := range s.need {
		sum += worth[k] * n
	}
	return sum
}

// tight says whether the cuts so far prove the plan.
func (s *search) tight() bool {
	set, complete := s.counts.cheapest(s.price)
	s.raise(set, complete)
	return s.floor == s.price
}

// raise notes what is known when a set turned out to be the cheapest that is left.
func (s *search) raise(set []int64, complete bool) {
	if !complete {
		return
	}
	s.floor = s.price
	if set != nil {
		s.floor = s.total(set)
	}
	for _, o := range s.open {
		s.floor = min(s.floor, s.total(o))
	}
}

// root solves the linear program of the whole stock, whose duals are the first good
// cut, even if the effort ends before it is solved.
func (s *search) root() {
	switch m := s.master; {
	case m.solve() != unknown:
		s.learn()
	case m.complete:
		s.cut(m.worth, m.best)
	}
}

// round rounds the linear program of the whole stock: a good plan, if none can be
// proven.
func (s *search) round() {
	copy(s.master.stock, s.limit)
	s.master.dive(func(plan []used) bool { s.offer(plan); return false })
}

// learn makes a cut of the duals of the program just solved. What bars are worth is
// known from pricing, and often less than what they cost.
func (s *search) learn() {
	m := s.master
	worth := m.worth[:m.kinds]
	m.sack.load(m.width[:m.kinds], worth, s.need)
	m.sack.thin = longest
	m.sack.solve(s.known(worth))
	m.spend(m.sack.work)
	m.sack.work = 0
	most := m.sack.worth
	if m.sack.thinned {
		most = m.best
	}
	s.cut(worth, most)
}

// known is, by bar, the worth of the best pattern that there already is.
func (s *search) known(worth []int64) []int64 {
	most := make([]int64, len(s.room))
	for _, p := range s.master.columns {
		sum := int64(0)
		for _, t := range p.takes {
			if int(t.kind) >= len(worth) {
				sum = 0 // a pair that was glued together
				break
			}
			sum += int64(t.times) * worth[t.kind]
		}
		for b := range most {
			if p.bar >= 0 && s.room[b] >= s.room[p.bar] {
				most[b] = max(most[b], sum)
			}
		}
	}
	return most
}

// loop tries sets of bars from the cheapest on until one is enough or none is left.
func (s *search) loop() {
	for s.floor < s.price {
		set, complete := s.counts.cheapest(s.price)
		s.raise(set, complete)
		switch {
		case !complete || s.spent():
			return
		case set == nil && len(s.open) > 0:
			s.settle()
			return
		case set != nil:
			s.economise()
			s.try(set)
		}
	}
}

// economise leaves little effort for saving length once no cost can be saved.
func (s *search) economise() {
	if !s.frugal && s.plan != nil && s.floor/s.weight == s.price/s.weight {
		s.frugal = true
		s.all = min(s.all, 2*s.used+StepsPerSecond/100)
	}
}

// try makes the pieces from a set of bars, or finds out why that cannot be.
func (s *search) try(set []int64) {
	m := s.master
	copy(m.stock, set)
	v := m.solve()
	if v == impossible {
		s.learn()
		last := s.counts.cuts[len(s.counts.cuts)-1]
		if exceeds(last.worth, s.need, last.most, set) {
			return
		}
	}
	if v == possible {
		found := false
		m.dive(func(plan []used) bool { found = true; return s.offer(plan) })
		if found {
			return
		}
	}
	if len(s.open) == 0 {
		s.round()
	}
	s.open = append(s.open, set)
	s.counts.excluded = append(s.counts.excluded, set)
}

// settle decides the open sets by trees, from the cheapest.
func (s *search) settle() {
	slices.SortStableFunc(s.open, func(a, b []int64) int { return cmp.Compare(s.total(a), s.total(b)) })
	undecided := int64(infinite)
	for i, set := range s.open {
		if s.total(set) >= s.price {
			break
		}
		s.floor = min(undecided, s.total(set))
		s.economise()
		copy(s.master.stock, set)
		share := (s.all - s.used) / int64(len(s.open)-i)
		t := tree{master: s.master, limit: s.used + share, good: s.offer}
		switch root, result := t.visit(); result {
		case refuted:
			s.proof.Excluded = append(s.proof.Excluded, Excluded{s.spread(set), root})
		case stopped:
			undecided = min(undecided, s.total(set))
		}
	}
	s.floor = min(undecided, s.price)
}

// spread gives numbers by bar of the job, of equal bars all to the first.
func (s *search) spread(set []int64) []int64 {
	bars := make([]int64, len(s.job.Bars))
	for b, n := range set {
		bars[s.source[b][0]] = n
	}
	return bars
}
