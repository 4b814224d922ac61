package bars

import (
	"cmp"
	"slices"
)

// neaten looks for a plan from the same bars that is easier on the shop: fewer
// patterns, for each of which the saw is set up, then a longer longest off-cut. It
// is a short search and proves nothing.
func (s *search) neaten() {
	set := make([]int64, len(s.room))
	for _, u := range s.plan {
		set[u.bar] += u.times
	}
	s.plan = s.gather(merge(s.plan))
	copy(s.master.need, s.need)
	copy(s.master.stock, set)
	if again, done := s.master.greedy(); done {
		if again = s.gather(merge(again)); s.neater(again, s.plan) {
			s.plan = again
		}
	}
	slices.SortStableFunc(s.plan, func(a, b used) int {
		return cmp.Or(cmp.Compare(a.bar, b.bar), cmp.Compare(s.rest(a.pattern), s.rest(b.pattern)))
	})
}

// merge puts bars that are cut alike together.
func merge(plan []used) (merged []used) {
	at := map[string]int{}
	for _, u := range plan {
		key := u.key()
		if i, found := at[key]; found {
			merged[i].times += u.times
			continue
		}
		at[key] = len(merged)
		merged = append(merged, u)
	}
	return merged
}

// neater says whether a plan is easier on the shop than another.
func (s *search) neater(a, b []used) bool {
	if len(a) != len(b) {
		return len(a) < len(b)
	}
	return s.longestRest(a) > s.longestRest(b)
}

func (s *search) longestRest(plan []used) (longest int64) {
	for _, u := range plan {
		longest = max(longest, s.rest(u.pattern))
	}
	return longest
}

// rest is the width that a pattern leaves of its bar.
func (s *shop) rest(p pattern) int64 {
	left := s.room[p.bar]
	for _, t := range p.takes {
		left -= int64(t.times) * s.width[t.kind]
	}
	return left
}

// gather makes the longest off-cut of the patterns that are cut once longer, by
// moving its pieces to bars with room for them, or changing them for narrower ones:
// so that there are no more patterns than before.
func (s *search) gather(plan []used) []used {
	plan = slices.Clone(plan)
	host := -1
	for i, u := range plan {
		if u.times == 1 && (host < 0 || s.rest(u.pattern) > s.rest(plan[host].pattern)) {
			host = i
		}
	}
	if host < 0 {
		return plan
	}
	for s.widen(plan, host) {
	}
	return merge(plan)
}

// widen makes the one change that lengthens the off-cut of a bar most, if there is any.
func (s *search) widen(plan []used, host int) bool {
	gain, other, away, back := int64(0), -1, int32(0), int32(-1)
	for i, u := range plan {
		if i == host || u.times != 1 {
			continue
		}
		room := s.rest(u.pattern)
		for _, a := range plan[host].takes {
			w := s.width[a.kind]
			if w <= room && w > gain && len(plan[host].takes)+int(a.times) > 2 {
				gain, other, away, back = w, i, a.kind, -1
			}
			for _, b := range u.takes {
				if d := w - s.width[b.kind]; d <= room && d > gain {
					gain, other, away, back = d, i, a.kind, b.kind
				}
			}
		}
	}
	if other < 0 {
		return false
	}
	plan[host].pattern, plan[other].pattern = plan[host].moved(away, -1), plan[other].moved(away, 1)
	if back >= 0 {
		plan[host].pattern, plan[other].pattern = plan[host].moved(back, 1), plan[other].moved(back, -1)
	}
	return true
}

// moved is a pattern with a piece of a kind more or fewer.
func (p pattern) moved(kind, by int32) pattern {
	p.takes = slices.Clone(p.takes)
	p.add(take{kind, by})
	p.takes = slices.DeleteFunc(p.takes, func(t take) bool { return t.times == 0 })
	p.tidy()
	return p
}
