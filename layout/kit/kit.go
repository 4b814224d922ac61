// Package kit is one unit over several seasons: which parts to own so that each
// season's dressing can be built in its turn, what to buy before each change,
// and what lies idle when. It also sets options for one unit side by side.
//
// Parts are used again from season to season: what is to be owned is the most
// that any one season needs, never the sum over the seasons. Parts with one id
// are the same part in every plan; where their plans disagree about it, a
// finding says so and the first plan's word holds. Pieces cut to one length are
// used again at that length only.
package kit

import (
	"fmt"
	"slices"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// Season is one dressing of the unit.
type Season struct {
	Name   string // tells it from the others; Named gives it
	File   string // its plan, as the user named it
	Mark   string // the fingerprint of the plan and its files
	Unit   *unit.Unit
	OnHand []parts.OnHand // what its own stock files say
}

// Named gives every season its name: what its plan calls the season, or the
// plan's title where it does not say. Where several have one name, the title
// stands with it, then the file, and then a number.
func Named(seasons []Season) []Season {
	return named(seasons, func(s *Season) (name, more string) {
		if p := s.Unit.Plan; p.Season != "" {
			return p.Season, ": " + p.Title
		}
		return s.Unit.Plan.Title, ""
	})
}

// Titled names plans that are set side by side: after their titles, with the
// season where several have one title, then the file, and then a number.
func Titled(seasons []Season) []Season {
	return named(seasons, func(s *Season) (name, more string) {
		if p := s.Unit.Plan; p.Season != "" {
			return p.Title, ", " + p.Season
		}
		return s.Unit.Plan.Title, ""
	})
}

func named(seasons []Season, words func(*Season) (name, more string)) []Season {
	seasons = slices.Clone(seasons)
	for i := range seasons {
		seasons[i].Name, _ = words(&seasons[i])
	}
	tell := func(more func(i int) string) {
		count := map[string]int{}
		for _, s := range seasons {
			count[s.Name]++
		}
		for i := range seasons {
			if s := &seasons[i]; count[s.Name] > 1 {
				s.Name += more(i)
			}
		}
	}
	tell(func(i int) string { _, more := words(&seasons[i]); return more })
	tell(func(i int) string { return " (" + seasons[i].File + ")" })
	tell(func(i int) string { return fmt.Sprintf(", %d", i+1) })
	return seasons
}

// Line is one part over the seasons; a part cut to length has a line for each
// length. The slices have an entry for each season.
type Line struct {
	Item   int // from 1, in walking order
	Group  list.Group
	Part   *parts.Part    // as the first season has it that uses it
	Cut    measure.Length // 0 if it is not cut to length
	OnHand int            // pieces there are before the first season
	Used   []int          // pieces on the unit
	Come   []int          // pieces that are bought or cut before the season
}

// Most is the most pieces that any season uses.
func (l *Line) Most() int { return slices.Max(l.Used) }

// Sum is the pieces of all seasons together: what would be needed if none were
// used again.
func (l *Line) Sum() int { return sum(l.Used) }

// Owned is the pieces there are in a season.
func (l *Line) Owned(season int) int { return l.OnHand + sum(l.Come[:season+1]) }

// Idle is the pieces that lie in the stockroom in a season. It is none where
// stock ran out and pieces are missing.
func (l *Line) Idle(season int) int { return max(0, l.Owned(season)-l.Used[season]) }

// missing is how many pieces more than are on hand must be there by each
// season; it never falls.
func (l *Line) missing() []int {
	need := make([]int, len(l.Used))
	most := 0
	for t, n := range l.Used {
		most = max(most, n)
		need[t] = max(0, most-l.OnHand)
	}
	return need
}

func sum(of []int) int {
	n := 0
	for _, x := range of {
		n += x
	}
	return n
}

// lineKey tells one line from another.
type lineKey struct {
	id  string
	cut measure.Length
}

// lines are the parts of all seasons in walking order, with what is on hand of
// them.
func lines(seasons []Season, hand []parts.OnHand) []Line {
	at := map[lineKey]int{}
	var all []Line
	for t, s := range seasons {
		for _, p := range list.Pick(s.Unit) {
			key := lineKey{p.Part.ID, p.Cut}
			i, there := at[key]
			if !there {
				i = len(all)
				at[key] = i
				all = append(all, Line{Group: p.Group, Part: p.Part, Cut: p.Cut,
					Used: make([]int, len(seasons)), Come: make([]int, len(seasons))})
			}
			all[i].Used[t] += p.Quantity
		}
	}
	for _, h := range hand {
		if h.Part == nil {
			continue
		}
		if i, there := at[lineKey{h.Part.ID, 0}]; there {
			all[i].OnHand += h.Count
		}
	}
	slices.SortStableFunc(all, func(a, b Line) int {
		return list.InWalkingOrder(&list.PickLine{Part: a.Part, Cut: a.Cut}, &list.PickLine{Part: b.Part, Cut: b.Cut})
	})
	for i := range all {
		all[i].Item = i + 1
	}
	return all
}
