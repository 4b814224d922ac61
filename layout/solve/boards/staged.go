package boards

import "slices"

// staged finds the most that each board can give, at a value for each kind, within a
// number of stages of cuts. No piece is limited in number.
//
// A strip of level k has parts in its direction that are cut k-1 stages on, first
// across it; a part that is not cut on is a piece as wide as the strip. The board is a
// strip of the highest level, either way; the tables hold all strips of levels below,
// for every width (k of 2 and more) or every width of a piece (k = 1) and every length.
type staged struct {
	grid   *grid
	value  []int64
	top    int
	tables [][2][][]int64 // by level from 1, direction, width, length; a width may share the next narrower's
	own    [][2][][]int64 // what tables are written to, made when first needed
	steps  *int64
}

// item is a part that strips are made of.
type item struct {
	at    int // on the ruler, where it ends
	which int // lie (level 1), class of lies (level 2) or point
	value int64
}

func newStaged(g *grid, stages int, steps *int64) *staged {
	s := &staged{grid: g, top: stages, steps: steps, tables: make([][2][][]int64, stages), own: make([][2][][]int64, stages)}
	for k := 1; k < stages; k++ {
		for a := along; a <= across; a++ {
			widths := len(g.rulers[a.other()].at)
			if k == 1 {
				widths = g.classes(a.other())
			}
			s.tables[k][a], s.own[k][a] = make([][]int64, widths), make([][]int64, widths)
		}
	}
	return s
}

// price fills the tables.
func (s *staged) price(value []int64) {
	s.value = value
	for k := 1; k < s.top; k++ {
		for a := along; a <= across; a++ {
			for w := range s.tables[k][a] {
				if k > 1 && !s.differs(k, a, w) {
					s.tables[k][a][w] = s.tables[k][a][w-1]
				} else {
					s.strip(k, a, w)
				}
			}
		}
	}
}

// strip fills the table of one width.
func (s *staged) strip(k int, a axis, w int) {
	if s.own[k][a][w] == nil {
		s.own[k][a][w] = make([]int64, len(s.grid.rulers[a].at))
	}
	s.tables[k][a][w] = s.own[k][a][w]
	s.fill(s.tables[k][a][w], a, s.items(k, a, w))
}

// differs tells whether a strip of level k could have better parts than the next narrower.
func (s *staged) differs(k int, a axis, w int) bool {
	for _, strip := range s.tables[k-1][a.other()] {
		if w == 0 || strip[w] > strip[w-1] {
			return true
		}
	}
	return false
}

// items lists what parts a strip of level k in direction a and of width w may have,
// from the shortest.
func (s *staged) items(k int, a axis, w int) []item {
	var items []item
	switch k {
	case 1:
		for i, l := range s.grid.lies {
			if l.class[a.other()] == w && l.at[a] > 0 && l.at[a.other()] > 0 && s.value[l.kind] > 0 {
				items = append(items, item{l.at[a], i, s.value[l.kind]})
			}
		}
		slices.SortStableFunc(items, func(p, q item) int { return p.at - q.at })
	case 2:
		at := make([]int, s.grid.classes(a))
		for _, l := range s.grid.lies {
			at[l.class[a]] = l.at[a]
		}
		for c, strip := range s.tables[1][a.other()] {
			if strip[w] > 0 && at[c] > 0 {
				items = append(items, item{at[c], c, strip[w]})
			}
		}
	default:
		worth := int64(0)
		for i, strip := range s.tables[k-1][a.other()] {
			if strip[w] > worth { // else a narrower one does as well
				worth = strip[w]
				items = append(items, item{i, i, worth})
			}
		}
	}
	return items
}

// fill works out the most that each length of a strip gives.
func (s *staged) fill(line []int64, a axis, items []item) {
	r := &s.grid.rulers[a]
	line[0] = 0
	for i := 1; i < len(line); i++ {
		best, left := line[i-1], r.left(i)
		for _, it := range items {
			if it.at > i {
				break
			}
			best = max(best, line[left[it.at]]+it.value)
		}
		line[i] = best
	}
	*s.steps += int64(len(line) * (len(items) + 1))
}

// whole gives the strip of the highest level in direction a that a board is: its width,
// its parts and what every length of it gives.
func (s *staged) whole(b int, a axis) (width int, items []item, line []int64) {
	width = s.grid.boards[b][a.other()]
	if s.top == 1 {
		width = s.grid.fitting(b, a.other())
	}
	line = make([]int64, s.grid.boards[b][a]+1)
	if width >= 0 {
		items = s.items(s.top, a, width)
		s.fill(line, a, items)
	}
	return width, items, line
}

func (s *staged) best(b int) int64 {
	most := int64(0)
	for a := along; a <= across; a++ {
		_, _, line := s.whole(b, a)
		most = max(most, line[len(line)-1])
	}
	return most
}

// layouts finds one way for each direction of the first stage.
func (s *staged) layouts(b int) []*block {
	var found []*block
	for a := along; a <= across; a++ {
		width, items, line := s.whole(b, a)
		if l := s.trace(s.top, a, width, len(line)-1, items, line); l != nil {
			found = append(found, l)
		}
	}
	return found
}

// trace finds how a strip of level k, direction a and width w comes to its worth at
// point i.
func (s *staged) trace(k int, a axis, w, i int, items []item, line []int64) *block {
	var parts []*block
	for line[i] > 0 {
		for line[i-1] == line[i] {
			i--
		}
		left := s.grid.rulers[a].left(i)
		for _, it := range items {
			if it.at <= i && line[left[it.at]]+it.value == line[i] {
				parts = append(parts, s.part(k, a, w, it))
				i = int(left[it.at])
				break
			}
		}
	}
	return stack(a, parts)
}

// part traces a part of a strip.
func (s *staged) part(k int, a axis, w int, it item) *block {
	if k == 1 {
		return &block{lie: it.which}
	}
	other := a.other()
	return s.trace(k-1, other, it.which, w, s.items(k-1, other, it.which), s.tables[k-1][other][it.which])
}
