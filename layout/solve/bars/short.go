package bars

import (
	"fmt"
	"slices"
)

// Short is the error where the bars at hand cannot suffice, which Proof shows: no set
// of bars within the limits keeps its Cuts and is not part of an Excluded one.
type Short struct {
	// Missing is how many of each piece of the job cannot be made if as little as
	// can be is bought, and More how many bars of each kind of the job, beyond its
	// limit, would do then. Bars with a cost are bought at least cost, or if there
	// are none that are long enough, bars of any kind, least length. Both are nil if the
	// effort was too short to find out.
	Missing, More []int
	Proven        bool // More costs least
	Proof         *Proof
}

func (e *Short) Error() string {
	if e.More == nil {
		return "the bars at hand are not enough"
	}
	return fmt.Sprintf("the bars at hand are not enough for %v of the pieces: that takes %v more of the bars", e.Missing, e.More)
}

// shortage works out what is missing, by a job in which more bars can be had at a
// cost that outweighs any that are there.
func (s *search) shortage() error {
	short := &Short{Proof: s.proof}
	job := s.job
	job.Bars = slices.Clone(s.job.Bars)
	hand := len(job.Bars)
	priced := func(b Bar) bool { return b.Cost > 0 }
	if !s.reach(priced) {
		priced = nil
	}
	weight := int64(1)
	for b, n := range s.limit {
		weight += n * s.job.Bars[s.source[b][0]].Cost
	}
	var of []int
	for i, b := range s.job.Bars {
		cost := b.Length
		if priced != nil {
			if cost = b.Cost; !priced(b) {
				continue
			}
		}
		if cost > largest/weight {
			return short
		}
		of = append(of, i)
		job.Bars = append(job.Bars, Bar{Length: b.Length, Cost: cost * weight, Limit: -1})
	}
	plan, err := Solve(job, max(s.all-s.used, StepsPerSecond/10))
	if err != nil {
		return short
	}
	short.Proven = plan.Proven
	short.Missing, short.More = make([]int, len(job.Pieces)), make([]int, hand)
	for _, p := range plan.Patterns {
		if p.Bar < hand {
			continue
		}
		short.More[of[p.Bar-hand]] += p.Times
		for i, n := range p.Counts {
			short.Missing[i] += n * p.Times
		}
	}
	return short
}

// reach says whether the bars that are eligible are long enough for every piece.
func (s *search) reach(eligible func(Bar) bool) bool {
	for _, b := range s.job.Bars {
		if eligible(b) && b.Length-s.job.Trim >= s.job.Pieces[s.pieces[0][0]].Length {
			return true
		}
	}
	return false
}
