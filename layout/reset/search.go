package reset

// effort bounds the search for an order without a caution, in jobs looked at: a
// few milliseconds on a large unit, every order there is of a small one.
const effort = 200_000

// search looks for an order in which the unit stands well after every step, by
// going on from the best choices and back where none is left. It tries what a
// crew likes first and then, where that ends nowhere, any job by itself. It
// returns nil if it finds none with its effort.
func (w *work) search() []int32 {
	if w.hopeless() {
		return nil
	}
	s := searcher{seen: map[uint64]bool{}, effort: effort}
	return s.from(w.begin())
}

// hopeless says that some job by itself swings the balance from beyond one limit
// to beyond the other, wherever it is put: a facing as heavy as all that may be
// off a side.
func (w *work) hopeless() bool {
	for i := range w.jobs {
		for _, p := range w.judge.pairs {
			if p.apart(w.jobs[i].change) > 2*p.limit {
				return true
			}
		}
	}
	return false
}

// searcher remembers the sets of jobs from which no way on was found.
type searcher struct {
	seen   map[uint64]bool
	effort int
}

func (s *searcher) from(p *progress) []int32 {
	if len(p.order) == len(p.work.jobs) {
		return p.order
	}
	s.effort -= len(p.work.jobs)
	for _, batch := range p.ways() {
		after := p.done
		for _, b := range batch {
			after ^= scatter(uint64(b))
		}
		if s.effort <= 0 || s.seen[after] {
			continue
		}
		s.seen[after] = true
		q := p.clone()
		q.do(batch)
		if found := s.from(q); found != nil {
			return found
		}
	}
	return nil
}

// ways lists what can be done so that the unit stands well after it: whole
// batches, then parts of them, then jobs by themselves.
func (p *progress) ways() [][]int32 {
	var whole, part, single [][]int32
	for _, c := range p.choices(rowByRow) {
		if p.work.judge.fault(p.now.plus(c.change)).code == "" {
			whole = append(whole, c.batch)
		} else if safe := p.safe(c.batch); len(safe) > 0 {
			part = append(part, safe)
		}
		for i := range c.batch {
			one := c.batch[i : i+1]
			if len(c.batch) > 1 && p.need[one[0]] == 0 && len(p.safe(one)) > 0 {
				single = append(single, one)
			}
		}
	}
	return append(append(whole, part...), single...)
}
