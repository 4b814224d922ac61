package boards

import (
	"cmp"
	"slices"
)

// ruler holds the points of one direction at which a part of a board can end: sums of
// what pieces take in that direction (discretisation points; N. Christofides and
// C. Whitlock, Operations Research 25, 1977). Point 0 is 0.
type ruler struct {
	at   []int64
	less []uint16 // of each point i, for each point j up to it: the last point up to at[i]-at[j]
}

// grid is the two rulers of a shop in coarser or finer marks.
type grid struct {
	shop   *shop
	rulers [2]ruler
	marks  [2]int64
	boards [][2]int // of each board, the last points on it
	lies   []gridLie
	exact  bool // the marks divide all sizes, so nothing was rounded
}

// gridLie is where a lie stands on the rulers.
type gridLie struct {
	lie
	at    [2]int
	class [2]int // number of its true size among those of its direction
}

// newGrid lays out rulers of at most most points each. Sizes that have too many sums
// are rounded to coarser marks: those of pieces up where the layouts must be true, and
// down where a bound must be; boards always down. There is none where a piece is so
// small beside the boards that it would vanish.
func newGrid(s *shop, most int, up bool) (*grid, error) {
	g := &grid{shop: s, exact: true, boards: make([][2]int, len(s.boards)), lies: make([]gridLie, len(s.lies))}
	for i, l := range s.lies {
		g.lies[i].lie = l
	}
	for a := along; a <= across; a++ {
		mark := s.mark(a)
		points := s.points(a, mark, most, up)
		for points == nil {
			if mark, g.exact = mark+mark/4+1, false; s.vanishes(a, mark) {
				return nil, wrong("a piece is too small beside the boards: over %d could lie in a row", most)
			}
			points = s.points(a, mark, most, up)
		}
		g.marks[a], g.rulers[a] = mark, newRuler(points)
		g.stand(a, up)
	}
	return g, nil
}

// vanishes tells whether a piece is smaller than a mark.
func (s *shop) vanishes(a axis, mark int64) bool {
	return slices.ContainsFunc(s.lies, func(l lie) bool { return l.size[a] < mark })
}

// mark is the coarsest unit in which the sizes of all lies in a direction are whole.
func (s *shop) mark(a axis) int64 {
	var mark int64
	for _, l := range s.lies {
		mark = gcd(mark, l.size[a])
	}
	return max(mark, 1)
}

// inMarks rounds the size of a piece.
func inMarks(size, mark int64, up bool) int64 {
	if up {
		return (size + mark - 1) / mark
	}
	return size / mark
}

// points finds the sums in marks of the sizes of the pieces up to the largest board,
// or nil if there are more than most.
func (s *shop) points(a axis, mark int64, most int, up bool) []int64 {
	var end int64
	for _, b := range s.boards {
		end = max(end, b.size[a]/mark)
	}
	sums := []int64{0}
	for size, count := range s.counted(a, mark, up) {
		for n, from := 0, sums; n < count && len(from) > 0; n++ {
			var next []int64 // sums that are new with one more of this size
			for _, x := range from {
				if _, known := slices.BinarySearch(sums, x+size); !known && x+size <= end {
					next = append(next, x+size)
				}
			}
			if len(sums)+len(next) > most {
				return nil
			}
			sums = merge(sums, next)
			from = next
		}
	}
	return sums
}

// counted yields the different sizes of a direction in marks, rising, with how many
// pieces could have each.
func (s *shop) counted(a axis, mark int64, up bool) func(func(int64, int) bool) {
	type entry struct {
		size  int64
		count int
	}
	var all []entry
	for _, l := range s.lies {
		all = append(all, entry{inMarks(l.size[a], mark, up), s.kinds[l.kind].count})
	}
	slices.SortFunc(all, func(p, q entry) int { return int(p.size - q.size) })
	return func(yield func(int64, int) bool) {
		for i, j := 0, 0; i < len(all); i = j {
			count := 0
			for j = i; j < len(all) && all[j].size == all[i].size; j++ {
				count += all[j].count
			}
			if !yield(all[i].size, count) {
				return
			}
		}
	}
}

// merge joins two rising lists that share nothing.
func merge(a, b []int64) []int64 {
	all := make([]int64, 0, len(a)+len(b))
	for len(a) > 0 && len(b) > 0 {
		if a[0] < b[0] {
			all, a = append(all, a[0]), a[1:]
		} else {
			all, b = append(all, b[0]), b[1:]
		}
	}
	return append(append(all, a...), b...)
}

// newRuler works out what is left of every point beside every other.
func newRuler(at []int64) ruler {
	n := len(at)
	r := ruler{at, make([]uint16, n*(n+1)/2)}
	for i := range n {
		left, row := i, r.left(i)
		for j := range row {
			for at[left] > at[i]-at[j] {
				left--
			}
			row[j] = uint16(left)
		}
	}
	return r
}

// left gives, for the point i, the last points that fit beside the points up to i.
func (r *ruler) left(i int) []uint16 { return r.less[i*(i+1)/2 : (i+1)*(i+2)/2] }

// last gives the last point up to x.
func (r *ruler) last(x int64) int {
	i, found := slices.BinarySearch(r.at, x)
	if !found {
		i--
	}
	return i
}

// stand finds where lies and boards are on the ruler of one direction. A lie that only
// rounding made too long stands at the end; one too long for every board at -1.
func (g *grid) stand(a axis, up bool) {
	var sizes []int64
	for _, l := range g.shop.lies {
		sizes = append(sizes, l.size[a])
	}
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	longest := slices.MaxFunc(g.shop.boards, func(p, q board) int { return cmp.Compare(p.size[a], q.size[a]) }).size[a]
	for i := range g.lies {
		l := &g.lies[i]
		l.class[a], _ = slices.BinarySearch(sizes, l.size[a])
		at, found := slices.BinarySearch(g.rulers[a].at, inMarks(l.size[a], g.marks[a], up))
		if !found {
			at = len(g.rulers[a].at) - 1
		}
		if l.size[a] > longest {
			at = -1
		}
		l.at[a] = at
	}
	for i, b := range g.shop.boards {
		g.boards[i][a] = g.last(a, b.size[a])
	}
}

// last is the last point up to a size.
func (g *grid) last(a axis, size int64) int { return g.rulers[a].last(size / g.marks[a]) }

// classes counts the true sizes of a direction.
func (g *grid) classes(a axis) int {
	n := 0
	for _, l := range g.lies {
		n = max(n, l.class[a]+1)
	}
	return n
}

// fitting is the class of lies that are exactly as long as a board, or -1.
func (g *grid) fitting(b int, a axis) int {
	for _, l := range g.lies {
		if l.size[a] == g.shop.boards[b].size[a] {
			return l.class[a]
		}
	}
	return -1
}
