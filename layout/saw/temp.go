package saw

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
)

// Stand-ins until the solvers are merged.

func (s *shop) solveBoards(pieces []int) (solved, bool) {
	sizes, rooms := s.boardSizes(pieces)
	k := s.Stock.Kerf
	type strip struct {
		w, left measure.Length
		of      []int
	}
	type bin struct {
		src    int
		left   measure.Length
		strips []*strip
	}
	var all []int
	for at, i := range pieces {
		for range s.Pieces[i].Count {
			all = append(all, at)
		}
	}
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(sizes[b].width, sizes[a].width) })
	left := make([]int, len(s.sources))
	for i, src := range s.sources {
		left[i] = src.limit
	}
	var bins []*bin
next:
	for _, at := range all {
		p := sizes[at]
		for _, b := range bins {
			for _, st := range b.strips {
				if st.w >= p.width && st.left >= p.length+k {
					st.left -= p.length + k
					st.of = append(st.of, at)
					continue next
				}
			}
			if b.left >= p.width+k && rooms[b.src].length >= p.length {
				b.left -= p.width + k
				b.strips = append(b.strips, &strip{p.width, rooms[b.src].length - p.length, []int{at}})
				continue next
			}
		}
		best := -1
		for i, src := range s.sources {
			if left[i] != 0 && rooms[i].length >= p.length && rooms[i].width >= p.width && (best < 0 || src.cost < s.sources[best].cost) {
				best = i
			}
		}
		left[best]--
		bins = append(bins, &bin{best, rooms[best].width - p.width, []*strip{{p.width, rooms[best].length - p.length, []int{at}}}})
	}
	var found solved
	for _, b := range bins {
		sh := shape{way: Rip}
		for _, st := range b.strips {
			strip := shape{way: Cross}
			for _, at := range st.of {
				strip.parts = append(strip.parts, shape{piece: pieces[at]})
			}
			sh.parts = append(sh.parts, strip)
		}
		found.laid = append(found.laid, laid{b.src, 1, sh})
		found.cost += s.sources[b.src].cost
	}
	return found, true
}
