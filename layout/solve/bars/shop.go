package bars

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"slices"
)

// largest is the largest length, cost or total that is worked with; sums and a few
// products with small numbers then stay within 64 bits.
const largest = int64(1) << 56

// mostPieces is how many pieces a job may have.
const mostPieces = int64(1) << 30

// shop is a job made ready: kerf folded in, equal lengths together, lengths in
// their greatest common measure, one objective.
type shop struct {
	job    Job
	width  []int64 // of kinds of pieces, longest first, each with a kerf
	need   []int64 // by kind
	pieces [][]int // by kind: pieces of the job
	room   []int64 // of kinds of bars
	price  []int64 // of kinds of bars: cost, then length, in one number
	unit   int64   // of cost: price is cost/unit*weight + length
	weight int64
	coarse bool    // lengths in prices are rounded
	limit  []int64 // of kinds of bars: never more than could be of use
	source [][]int // by kind of bars: bars of the job
}

func newShop(job Job) (*shop, error) {
	if err := check(job); err != nil {
		return nil, err
	}
	s := &shop{job: job}
	s.gatherPieces()
	s.gatherBars()
	var long []int
	for k, w := range s.width {
		if len(s.room) == 0 || w > slices.Max(s.room) {
			long = append(long, s.pieces[k]...)
		}
	}
	if len(long) > 0 {
		slices.Sort(long)
		return nil, &TooLong{long}
	}
	s.measure()
	s.limitBars()
	s.setPrices()
	s.dropDominated()
	return s, nil
}

// check refuses numbers that no job can have, or that sums would overflow with.
func check(job Job) error {
	bad := func(format string, args ...any) error {
		return fmt.Errorf("%w: %s", ErrInvalid, fmt.Sprintf(format, args...))
	}
	if job.Kerf < 0 || job.Kerf > largest || job.Trim < 0 || job.Trim > largest {
		return bad("kerf %d, trim %d", job.Kerf, job.Trim)
	}
	for i, b := range job.Bars {
		if b.Length <= 0 || b.Length > largest || b.Cost < 0 || b.Cost > largest {
			return bad("bar %d: length %d, cost %d", i, b.Length, b.Cost)
		}
	}
	dearest, total, number := int64(0), uint64(0), int64(0)
	for _, b := range job.Bars {
		dearest = max(dearest, b.Cost, b.Length)
	}
	for i, p := range job.Pieces {
		if p.Length <= 0 || p.Length > largest || p.Count < 0 || int64(p.Count) > largest {
			return bad("piece %d: length %d, %d of it", i, p.Length, p.Count)
		}
		high, low := bits.Mul64(uint64(p.Count), uint64(p.Length+job.Kerf))
		if number += int64(p.Count); number > mostPieces {
			return bad("piece %d: more than %d altogether", i, mostPieces)
		}
		if total += low; high > 0 || low > uint64(largest) || total > uint64(largest) {
			return bad("piece %d: too much altogether", i)
		}
		if high, low = bits.Mul64(uint64(number), uint64(dearest)); high > 0 || low > uint64(largest) {
			return bad("piece %d: bars for all would cost too much", i)
		}
	}
	return nil
}

func (s *shop) gatherPieces() {
	var wanted []int
	for i, p := range s.job.Pieces {
		if p.Count > 0 {
			wanted = append(wanted, i)
		}
	}
	slices.SortStableFunc(wanted, func(a, b int) int { return cmp.Compare(s.job.Pieces[b].Length, s.job.Pieces[a].Length) })
	for _, i := range wanted {
		p := s.job.Pieces[i]
		if last := len(s.width) - 1; last < 0 || s.width[last] != p.Length+s.job.Kerf {
			s.width, s.need, s.pieces = append(s.width, p.Length+s.job.Kerf), append(s.need, 0), append(s.pieces, nil)
		}
		last := len(s.width) - 1
		s.need[last] += int64(p.Count)
		s.pieces[last] = append(s.pieces[last], i)
	}
}

// gatherBars puts bars together that differ in nothing but how many there are, and
// leaves those out that nothing fits.
func (s *shop) gatherBars() {
	if len(s.width) == 0 {
		return
	}
	shortest := s.width[len(s.width)-1]
	var use []int
	for i, b := range s.job.Bars {
		if b.Length-s.job.Trim+s.job.Kerf >= shortest {
			use = append(use, i)
		}
	}
	slices.SortStableFunc(use, func(a, b int) int {
		x, y := s.job.Bars[a], s.job.Bars[b]
		return cmp.Or(cmp.Compare(y.Length, x.Length), cmp.Compare(x.Cost, y.Cost))
	})
	for n, i := range use {
		b := s.job.Bars[i]
		if n > 0 {
			if a := s.job.Bars[use[n-1]]; a.Length == b.Length && a.Cost == b.Cost {
				s.source[len(s.source)-1] = append(s.source[len(s.source)-1], i)
				continue
			}
		}
		s.room = append(s.room, b.Length-s.job.Trim+s.job.Kerf)
		s.source = append(s.source, []int{i})
	}
}

// measure divides widths and rooms by the greatest common measure of widths.
func (s *shop) measure() {
	unit := int64(0)
	for _, w := range s.width {
		unit = gcd(unit, w)
	}
	for k := range s.width {
		s.width[k] /= unit
	}
	for b := range s.room {
		s.room[b] /= unit
	}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// limitBars sets limits: a bar at most for each piece that fits it.
func (s *shop) limitBars() {
	for b, room := range s.room {
		limit := int64(0)
		for k, w := range s.width {
			if w <= room {
				limit += s.need[k]
			}
		}
		hand := int64(0)
		for _, i := range s.source[b] {
			if s.job.Bars[i].Limit < 0 {
				hand = limit
			} else {
				hand = min(limit, hand+int64(s.job.Bars[i].Limit))
			}
		}
		s.limit = append(s.limit, min(limit, hand))
	}
}

// setPrices makes one number of cost and length, such that no saving of length
// outweighs a saving of cost. Where that needs too large numbers, lengths are
// counted more coarsely.
func (s *shop) setPrices() {
	var costs, lengths []int64
	unitCost, unitLength := int64(0), int64(0)
	for _, from := range s.source {
		b := s.job.Bars[from[0]]
		costs, lengths = append(costs, b.Cost), append(lengths, b.Length)
		unitCost, unitLength = gcd(unitCost, b.Cost), gcd(unitLength, b.Length)
	}
	number := int64(1)
	for _, n := range s.need {
		number += n
	}
	unitCost, unitLength = max(1, unitCost), max(1, unitLength)
	for {
		weight := int64(1)
		for _, l := range lengths {
			weight = max(weight, number*(l/unitLength)+1)
		}
		if unitLength > largest || fits(weight, slicesMax(costs)/unitCost+1, number) {
			for b := range costs {
				s.price = append(s.price, costs[b]/unitCost*weight+lengths[b]/unitLength)
			}
			s.unit, s.weight = unitCost, weight
			return
		}
		unitLength *= 2
		s.coarse = true
	}
}

// slicesMax is the largest of numbers, 0 of none.
func slicesMax[N int64 | float64](a []N) N {
	if len(a) == 0 {
		return 0
	}
	return slices.Max(a)
}

// fits says whether a product is within the largest number.
func fits(a, b, c int64) bool {
	return float64(a)*float64(b)*float64(c) < float64(largest)*(1-math.Pow(2, -40))
}

// total is the price of a number of bars of each kind.
func (s *shop) total(set []int64) int64 { return total(s.price, set) }

func total(price, set []int64) int64 {
	sum := int64(0)
	for b, n := range set {
		sum += n * price[b]
	}
	return sum
}

// dropDominated leaves out bars for which others can stand in, of which there is any
// number, that hold as much and are not dearer.
func (s *shop) dropDominated() {
	better := func(a, b int) bool {
		unlimited := s.job.Bars[s.source[a][0]].Limit < 0
		same := s.room[a] == s.room[b] && s.price[a] == s.price[b]
		return unlimited && s.room[a] >= s.room[b] && s.price[a] <= s.price[b] && (!same || a < b)
	}
	var keep []int
	for b := range s.room {
		dominated := false
		for a := range s.room {
			dominated = dominated || a != b && better(a, b)
		}
		if !dominated {
			keep = append(keep, b)
		}
	}
	s.room, s.price, s.limit, s.source = pick(s.room, keep), pick(s.price, keep), pick(s.limit, keep), pick(s.source, keep)
}

// pick is those of a that are listed.
func pick[T any](a []T, which []int) (picked []T) {
	for _, i := range which {
		picked = append(picked, a[i])
	}
	return picked
}
