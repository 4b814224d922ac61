package solve

import (
	"cmp"
	"math/big"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"
)

// referencePlaces looks at every centre from 0 to span for every piece, by
// dynamic programming: slow, but for far more pieces than brute force.
func referencePlaces(p Places, span int64) ([]int64, bool) {
	worst := sort.Search(int(span)+1, func(shift int) bool {
		_, ok := referenceWithin(p, span, int64(shift))
		return ok
	})
	if worst > int(span) {
		return nil, false
	}
	return referenceWithin(p, span, int64(worst))
}

// referenceWithin solves for all shifts up to a given one.
func referenceWithin(p Places, span, shift int64) ([]int64, bool) {
	const never = int64(1) << 50
	n := len(p.Targets)
	value := make([][]int64, n+1) // of piece i at x or right of it, with all pieces right of it
	value[n] = make([]int64, span+2)
	for i := n - 1; i >= 0; i-- {
		value[i] = make([]int64, span+2)
		value[i][span+1] = never
		for x := span; x >= 0; x-- {
			value[i][x] = min(value[i][x+1], referenceAt(p, value, i, x, span, shift))
		}
	}
	if value[0][0] >= never {
		return nil, false
	}
	var centres []int64
	x := int64(0)
	for i := range n {
		for want := value[i][x]; referenceAt(p, value, i, x, span, shift) != want; x++ {
		}
		centres = append(centres, x)
		if i+1 < n {
			x += p.Gaps[i]
		}
	}
	return centres, true
}

// referenceAt values piece i at x: a thousand for each unit of shift, one less on
// a column.
func referenceAt(p Places, value [][]int64, i int, x, span, shift int64) int64 {
	const never = int64(1) << 50
	d := max(x-p.Targets[i], p.Targets[i]-x)
	if x < p.Lo[i] || x > p.Hi[i] || d > shift || !bruteFree(p.Lattice, p.Blocked, x) {
		return never
	}
	v := 1000 * d
	if slices.Contains(p.Columns, x) {
		v--
	}
	next := x
	if i+1 < len(p.Targets) {
		next = min(x+p.Gaps[i], span+1)
	}
	if value[i+1][next] == never {
		return never
	}
	return v + value[i+1][next]
}

func TestPlacesAgainstReference(t *testing.T) {
	placed := 0
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 9))
		n := 5 + r.IntN(30)
		span := n * (5 + r.IntN(6))
		p := crowdedPlaces(r, n, span)
		if r.IntN(2) == 0 { // evenly spread, as targets mostly are
			for i := range p.Targets {
				p.Targets[i] = int64((2*i + 1) * span / (2 * n))
			}
		}
		want, wantOK := referencePlaces(p, int64(span))
		got, ok := p.Solve()
		if ok != wantOK || !slices.Equal(got, want) {
			t.Fatalf("seed %d: %+v\ngot  %v %v\nwant %v %v", seed, p, got, ok, want, wantOK)
		}
		if ok {
			placed++
		}
	}
	if placed < 200 {
		t.Errorf("only %d placed", placed)
	}
}

// referenceChain solves rows each ordered above the next, by dynamic programming
// from the bottom over every slot.
func referenceChain(p Slots) []int {
	n := len(p.Rows)
	type value struct {
		wish    int64
		squares *big.Int // nil when there is no way
	}
	best := make([][]value, n) // of row i on each slot, with all rows above it
	at := func(i, s int) value {
		r, h := p.Rows[i], p.First+int64(s-1)*p.Pitch
		if s < r.Lo || s > r.Hi || r.Pin != 0 && r.Pin != s {
			return value{}
		}
		v := value{squares: new(big.Int)}
		if r.HasWish {
			v.wish = max(h-r.Wish, r.Wish-h)
		}
		if spare := h - r.Below - p.Bottom; i == n-1 && spare > 0 {
			v.squares.Mul(big.NewInt(spare), big.NewInt(spare))
		}
		return v
	}
	onTop := func(i, s int, v value) value { // v with the best of the rows above
		if i == 0 {
			spare := max(0, p.Top-p.First-int64(s-1)*p.Pitch-p.Rows[0].Above)
			v.squares.Add(v.squares, new(big.Int).Mul(big.NewInt(spare), big.NewInt(spare)))
			return v
		}
		var least value
		for k := 1; k <= p.Count; k++ {
			spare := int64(k-s)*p.Pitch - p.Rows[i].Above - p.Rows[i-1].Below
			if above := best[i-1][k]; spare >= 0 && above.squares != nil {
				sum := new(big.Int).Mul(big.NewInt(spare), big.NewInt(spare))
				sum.Add(sum, above.squares)
				if least.squares == nil || cmp.Or(cmp.Compare(above.wish, least.wish), sum.Cmp(least.squares)) < 0 {
					least = value{above.wish, sum}
				}
			}
		}
		if least.squares == nil {
			return least
		}
		return value{v.wish + least.wish, least.squares.Add(least.squares, v.squares)}
	}
	for i := range n {
		best[i] = make([]value, p.Count+1)
		for s := 1; s <= p.Count; s++ {
			if v := at(i, s); v.squares != nil {
				best[i][s] = onTop(i, s, v)
			}
		}
	}
	return referenceTrace(p, func(i, s int) (int64, *big.Int) { return best[i][s].wish, best[i][s].squares })
}

// referenceTrace takes the lowest best slot of each row in turn from the bottom.
func referenceTrace(p Slots, best func(row, slot int) (int64, *big.Int)) []int {
	slots := make([]int, len(p.Rows))
	for i := len(p.Rows) - 1; i >= 0; i-- {
		var wish int64
		var squares *big.Int
		for s := 1; s <= p.Count; s++ {
			w, q := best(i, s)
			if q == nil {
				continue
			}
			q = new(big.Int).Set(q)
			if i+1 < len(slots) {
				spare := int64(s-slots[i+1])*p.Pitch - p.Rows[i].Below - p.Rows[i+1].Above
				if spare < 0 {
					continue
				}
				q.Add(q, new(big.Int).Mul(big.NewInt(spare), big.NewInt(spare)))
			}
			if squares == nil || cmp.Or(cmp.Compare(w, wish), q.Cmp(squares)) < 0 {
				wish, squares, slots[i] = w, q, s
			}
		}
		if squares == nil {
			return nil
		}
	}
	return slots
}

func TestPlaceAgainstReferenceChain(t *testing.T) {
	placed := 0
	for seed := range uint64(600) {
		r := rand.New(rand.NewPCG(seed, 10))
		p := randomSlots(r, 5+r.IntN(10), 20+r.IntN(30))
		p.Orders = nil
		for i := range p.Rows[1:] {
			p.Orders = append(p.Orders, Order{i, i + 1})
		}
		for i := range p.Rows {
			if r.IntN(4) > 0 {
				p.Rows[i].Pin = 0
			}
		}
		want := referenceChain(p)
		got, _ := p.Place()
		if !slices.Equal(got, want) {
			t.Fatalf("seed %d: %+v\ngot  %v\nwant %v", seed, p, got, want)
		}
		if got != nil {
			placed++
		}
	}
	if placed < 200 {
		t.Errorf("only %d placed", placed)
	}
}
