package solve

import (
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// bruteSlots tries every arrangement.
func bruteSlots(p Slots) []int {
	var best []int
	var least bruteCost
	at := make([]int, len(p.Rows))
	pairs := brutePairs(p)
	var try func(i int)
	try = func(i int) {
		if i == len(at) {
			if c := bruteSlotsCost(p, pairs, at); best == nil || c.less(least) {
				best, least = slices.Clone(at), c
			}
			return
		}
		r := p.Rows[i]
	slot:
		for s := max(1, r.Lo); s <= min(r.Hi, p.Count); s++ {
			if r.Pin != 0 && s != r.Pin {
				continue
			}
			at[i] = s
			for _, o := range p.Orders {
				if max(o.Upper, o.Lower) == i && !bruteKeeps(p, o, at) {
					continue slot
				}
			}
			try(i + 1)
		}
	}
	try(0)
	return best
}

func bruteKeeps(p Slots, o Order, at []int) bool {
	apart := int64(at[o.Upper]-at[o.Lower]) * p.Pitch
	return apart >= p.Rows[o.Upper].Below+p.Rows[o.Lower].Above
}

// bruteCost ends with the sum of slots: where one arrangement is lowest in every
// row, it alone has the least sum.
type bruteCost struct {
	wish    int64
	squares *big.Int
	sum     int
}

func (a bruteCost) less(b bruteCost) bool {
	if a.wish != b.wish {
		return a.wish < b.wish
	}
	if c := a.squares.Cmp(b.squares); c != 0 {
		return c < 0
	}
	return a.sum < b.sum
}

func bruteSlotsCost(p Slots, pairs []Order, at []int) bruteCost {
	c := bruteCost{squares: new(big.Int)}
	spare := func(s int64) {
		if s > 0 {
			c.squares.Add(c.squares, new(big.Int).Mul(big.NewInt(s), big.NewInt(s)))
		}
	}
	height := func(i int) int64 { return p.First + int64(at[i]-1)*p.Pitch }
	under, over := map[int]bool{}, map[int]bool{}
	for _, o := range pairs {
		under[o.Upper], over[o.Lower] = true, true
		spare(height(o.Upper) - height(o.Lower) - p.Rows[o.Upper].Below - p.Rows[o.Lower].Above)
	}
	for i, r := range p.Rows {
		c.sum += at[i]
		if r.HasWish {
			c.wish += max(height(i)-r.Wish, r.Wish-height(i))
		}
		if !over[i] {
			spare(p.Top - height(i) - r.Above)
		}
		if !under[i] {
			spare(height(i) - r.Below - p.Bottom)
		}
	}
	return c
}

// brutePairs is the transitive reduction of the orders.
func brutePairs(p Slots) []Order {
	n := len(p.Rows)
	above := make([][]bool, n) // upper, lower, at any distance
	for i := range above {
		above[i] = make([]bool, n)
	}
	for _, o := range p.Orders {
		above[o.Upper][o.Lower] = true
	}
	for k := range n {
		for i := range n {
			for j := range n {
				above[i][j] = above[i][j] || above[i][k] && above[k][j]
			}
		}
	}
	var pairs []Order
	for i := range n {
		for j := range n {
			between := false
			for k := range n {
				between = between || above[i][k] && above[k][j]
			}
			if above[i][j] && !between {
				pairs = append(pairs, Order{i, j})
			}
		}
	}
	return pairs
}

// bruteConflict tries every set of rows, smallest first.
func bruteConflict(p Slots) *Conflict {
	var best *Conflict
	var bestMiss [2]int64
	n := len(p.Rows)
	for size := 1; size <= n && best == nil; size++ {
		for set := range 1 << n {
			var rows []int
			for i := range n {
				if set>>i&1 == 1 {
					rows = append(rows, i)
				}
			}
			if len(rows) != size || bruteSlots(bruteSubset(p, rows)) != nil {
				continue
			}
			c, miss := bruteChain(p, rows)
			if best == nil || miss[0] > bestMiss[0] || miss[0] == bestMiss[0] && (miss[1] > bestMiss[1] ||
				miss[1] == bestMiss[1] && slices.Compare(c.Rows, best.Rows) < 0) {
				best, bestMiss = c, miss
			}
		}
	}
	return best
}

func bruteSubset(p Slots, rows []int) Slots {
	sub := p
	sub.Rows, sub.Orders = nil, nil
	for _, r := range rows {
		sub.Rows = append(sub.Rows, p.Rows[r])
	}
	for _, o := range p.Orders {
		u, l := slices.Index(rows, o.Upper), slices.Index(rows, o.Lower)
		if u >= 0 && l >= 0 {
			sub.Orders = append(sub.Orders, Order{u, l})
		}
	}
	return sub
}

// bruteChain orders a least conflicting set from the top and works out by how
// much it misses, in slots and in length.
func bruteChain(p Slots, rows []int) (*Conflict, [2]int64) {
	rows = bruteOrdered(p, nil, rows)
	limits := func(i int) (lo, hi int64) {
		r := p.Rows[i]
		lo, hi = int64(max(1, r.Lo)), int64(min(p.Count, r.Hi))
		if r.Pin != 0 {
			lo, hi = max(lo, int64(r.Pin)), min(hi, int64(r.Pin))
		}
		return lo, hi
	}
	top, bottom := rows[0], rows[len(rows)-1]
	lo, _ := limits(bottom)
	_, hi := limits(top)
	slots, length := lo-hi, (lo-hi)*p.Pitch
	for i := range rows[1:] {
		need := p.Rows[rows[i]].Below + p.Rows[rows[i+1]].Above
		length += need
		k := need / p.Pitch
		for k*p.Pitch < need {
			k++
		}
		for (k-1)*p.Pitch >= need {
			k--
		}
		slots += k
	}
	c := &Conflict{Kind: Crowded, Rows: rows, Short: length}
	if length <= 0 {
		c.Short = slots * p.Pitch
	}
	if top == bottom {
		c.Kind = Alone
	} else if hi < lo {
		c.Kind = Reversed
	}
	return c, [2]int64{slots, length}
}

// bruteOrdered finds the one way of listing rows, after those listed, in which
// each is ordered directly above the next.
func bruteOrdered(p Slots, listed, rows []int) []int {
	if len(rows) == 0 {
		return slices.Clone(listed)
	}
	for i, r := range rows {
		if len(listed) > 0 && !slices.Contains(p.Orders, Order{listed[len(listed)-1], r}) {
			continue
		}
		rest := slices.Delete(slices.Clone(rows), i, i+1)
		if found := bruteOrdered(p, append(slices.Clone(listed), r), rest); found != nil {
			return found
		}
	}
	return nil
}

// randomSlots makes a small case of the given number of rows.
func randomSlots(r *rand.Rand, rows, slots int) Slots {
	pitch := []int64{1, 7, 76_200_000, 25_400_000}[r.IntN(4)]
	about := func(slots float64) int64 { return int64((r.Float64()*2 - 1) * slots * float64(pitch)) }
	p := Slots{First: about(3), Pitch: pitch, Count: slots}
	p.Top = p.First + int64(slots)*pitch + about(3)
	p.Bottom = p.First + about(3)
	snug := r.Float64() * 2
	for range rows {
		row := Row{Lo: 1, Hi: slots, Above: about(snug), Below: about(snug)}
		if row.Above+row.Below < 0 {
			row.Above, row.Below = -row.Below, -row.Above
		}
		if r.IntN(3) == 0 {
			row.Lo += r.IntN(3)
			row.Hi -= r.IntN(3)
		}
		if r.IntN(5) == 0 {
			row.Pin = r.IntN(slots) + 1
		}
		if r.IntN(3) == 0 {
			row.HasWish = true
			row.Wish = p.First + int64(r.IntN(2*slots))*pitch/2 // often halfway between two
			if r.IntN(2) == 0 {
				row.Wish += about(1)
			}
		}
		p.Rows = append(p.Rows, row)
	}
	p.Orders = randomOrders(r, rows)
	return p
}

// randomOrders spreads rows over bays, some across two, and orders those that
// share a bay, by a random ranking.
func randomOrders(r *rand.Rand, rows int) []Order {
	bays := 1 + r.IntN(3)
	rank, from, to := r.Perm(rows), make([]int, rows), make([]int, rows)
	for i := range rows {
		from[i] = r.IntN(bays)
		to[i] = min(bays-1, from[i]+r.IntN(2))
	}
	var orders []Order
	for a := range rows {
		for b := range rows {
			if rank[a] < rank[b] && from[a] <= to[b] && from[b] <= to[a] {
				orders = append(orders, Order{a, b})
			}
		}
	}
	r.Shuffle(len(orders), func(i, j int) { orders[i], orders[j] = orders[j], orders[i] })
	return orders
}

func TestPlaceAgainstBruteForce(t *testing.T) {
	placed, refused := 0, 0
	for seed := range uint64(6000) {
		r := rand.New(rand.NewPCG(seed, 1))
		p := randomSlots(r, 1+r.IntN(5), 2+r.IntN(7))
		want := bruteSlots(p)
		got, conflict := p.Place()
		if diff := cmp.Diff(want, got); diff != "" {
			t.Fatalf("seed %d: %+v\n(-want +got)\n%s", seed, p, diff)
		}
		if want != nil {
			placed++
			continue
		}
		refused++
		if diff := cmp.Diff(bruteConflict(p), conflict); diff != "" {
			t.Fatalf("seed %d: %+v\n(-want +got)\n%s", seed, p, diff)
		}
	}
	if placed < 1000 || refused < 1000 {
		t.Errorf("%d placed and %d refused: too few of one to prove much", placed, refused)
	}
}
