package solve

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// chain orders n rows each above the next.
func chain(n int) []Order {
	var orders []Order
	for i := range n - 1 {
		orders = append(orders, Order{i, i + 1})
	}
	return orders
}

// row needs so many inches over and under it, and may stand on any of 20 slots.
func inchRow(above, below int64) Row {
	return Row{Lo: 1, Hi: 20, Above: above * inch, Below: below * inch}
}

// pinned and wishing set one thing of a row.
func pinned(r Row, slot int) Row { r.Pin = slot; return r }

func wishing(r Row, inches int64) Row { r.Wish, r.HasWish = inches*inch, true; return r }

// The panel has 20 wires 3 in apart from 7 in up, its top at 66 in and a deck at
// 6 in.
func TestPlace(t *testing.T) {
	for _, c := range []struct {
		why      string
		rows     []Row
		orders   []Order
		slots    []int
		conflict *Conflict
	}{
		{why: "no rows, nothing to place", slots: []int{}},
		{why: "one row stands midway: 27 in spare over it, 27 under",
			rows: []Row{inchRow(4, 2)}, slots: []int{10}},
		{why: "27.5 and 30.5 in either way round: the lower slot",
			rows: []Row{{Lo: 1, Hi: 20, Above: inch, Below: 0}}, slots: []int{10}},
		{why: "a pin is kept though room is lopsided",
			rows: []Row{pinned(inchRow(4, 2), 19)}, slots: []int{19}},
		{why: "a wish comes before even room",
			rows: []Row{wishing(inchRow(4, 2), 60)}, slots: []int{19}},
		{why: "a wish halfway between slots 2 and 3 leaves it to even room",
			rows: []Row{{Lo: 1, Hi: 20, Wish: 23 * inch / 2, HasWish: true}}, slots: []int{3}},
		{why: "two wishes for one wire: the total shift is least with either moved, even room decides",
			rows: []Row{wishing(inchRow(3, 0), 25), wishing(inchRow(3, 0), 25)}, orders: chain(2), slots: []int{8, 7}},
		{why: "rows without an order do not see each other",
			rows: []Row{inchRow(4, 2), inchRow(4, 2)}, slots: []int{10, 10}},
		{why: "an order implied by two others adds no gap",
			rows:   []Row{inchRow(3, 0), inchRow(3, 0), inchRow(3, 0)},
			orders: append(chain(3), Order{0, 2}, Order{0, 1}), slots: []int{15, 10, 5}},
		{why: "a row that overshoots the top is not rewarded for it",
			rows: []Row{{Lo: 18, Hi: 20, Above: 20 * inch, Below: 0}}, slots: []int{18}},

		{why: "limits that exclude each other", rows: []Row{inchRow(1, 1), {Lo: 9, Hi: 7}},
			conflict: &Conflict{Alone, []int{1}, 6 * inch}},
		{why: "a pin above the panel", rows: []Row{pinned(inchRow(1, 1), 23)},
			conflict: &Conflict{Alone, []int{0}, 9 * inch}},
		{why: "pins in the wrong order: 6 in, and the 5 in they need",
			rows: []Row{pinned(inchRow(3, 2), 5), pinned(inchRow(3, 2), 7)}, orders: chain(2),
			conflict: &Conflict{Reversed, []int{0, 1}, 11 * inch}},
		{why: "needs of 58 in between the ends of a panel 57 in apart",
			rows: []Row{inchRow(0, 29), inchRow(0, 0), inchRow(29, 0)}, orders: chain(3),
			conflict: &Conflict{Crowded, []int{0, 1, 2}, 1 * inch}},
		{why: "56 in would fit in 57, but 28 in takes ten slots of 3",
			rows: []Row{inchRow(0, 28), inchRow(0, 0), inchRow(28, 0)}, orders: chain(3),
			conflict: &Conflict{Crowded, []int{0, 1, 2}, 3 * inch}},
		{why: "the smallest set is named, not the stack of four around it",
			rows:   []Row{inchRow(0, 30), pinned(inchRow(0, 10), 8), pinned(inchRow(10, 0), 5), inchRow(3, 0)},
			orders: chain(4), conflict: &Conflict{Crowded, []int{1, 2}, 11 * inch}},
	} {
		t.Run(c.why, func(t *testing.T) {
			p := gridPanel()
			p.Rows, p.Orders = c.rows, c.orders
			slots, conflict := p.Place()
			if diff := cmp.Diff(c.slots, slots); diff != "" {
				t.Errorf("slots (-want +got)\n%s", diff)
			}
			if diff := cmp.Diff(c.conflict, conflict); diff != "" {
				t.Errorf("conflict (-want +got)\n%s", diff)
			}
		})
	}
}

// Five sloped 48 in shelves fit one face of a 5 ft panel for bagged goods (common
// practice), taking bags and a hand as 9 in over the shelf's wire and its front as
// 2 in under it.
func TestFiveSlopedShelvesFitAFiveFootPanel(t *testing.T) {
	face := func(n int) Slots {
		p := Slots{First: 0, Pitch: 3 * inch, Count: 21, Top: panel, Bottom: 0, Orders: chain(n)}
		for range n {
			p.Rows = append(p.Rows, Row{Lo: 2, Hi: 18, Above: 9 * inch, Below: 2 * inch})
		}
		return p
	}
	slots, _ := face(5).Place()
	if want := []int{18, 14, 10, 6, 2}; !slices.Equal(slots, want) {
		t.Errorf("five stand on %v, want %v", slots, want)
	}
	_, conflict := face(6).Place()
	want := &Conflict{Crowded, []int{0, 1, 2, 3, 4, 5}, 7 * inch} // five times 11 in do not go into 48
	if diff := cmp.Diff(want, conflict); diff != "" {
		t.Errorf("six (-want +got)\n%s", diff)
	}
}

func TestPlaceIgnoresTheOrderOfOrders(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 11))
		p := randomSlots(r, 12, 30)
		slots, conflict := p.Place()
		r.Shuffle(len(p.Orders), func(i, j int) { p.Orders[i], p.Orders[j] = p.Orders[j], p.Orders[i] })
		p.Orders = append(p.Orders, p.Orders...)
		slots2, conflict2 := p.Place()
		if !slices.Equal(slots, slots2) || !cmp.Equal(conflict, conflict2) {
			t.Fatalf("seed %d: %v %+v, shuffled %v %+v", seed, slots, conflict, slots2, conflict2)
		}
	}
}

func TestMistakesPanic(t *testing.T) {
	two := []Row{inchRow(1, 1), inchRow(1, 1)}
	slots := func(change func(*Slots)) func() {
		p := gridPanel()
		p.Rows = slices.Clone(two)
		change(&p)
		return func() { p.Place() }
	}
	for _, c := range []struct {
		why string
		do  func()
	}{
		{"a cycle has no top", slots(func(p *Slots) { p.Orders = []Order{{0, 1}, {1, 0}} })},
		{"a row above itself", slots(func(p *Slots) { p.Orders = []Order{{1, 1}} })},
		{"a row that is not there", slots(func(p *Slots) { p.Orders = []Order{{0, 2}} })},
		{"less than no room would void implied orders", slots(func(p *Slots) { p.Rows[0].Below = -2 * inch })},
		{"slots on top of each other", slots(func(p *Slots) { p.Pitch = 0 })},
		{"a length whose sums could overflow", slots(func(p *Slots) { p.Rows[0].Above = math.MaxInt64 / 2 })},
		{"a limit whose height would overflow", slots(func(p *Slots) { p.Rows[0].Hi = math.MinInt })},
		{"pieces without limits", func() { Places{Targets: []int64{1}}.Solve() }},
		{"a target whose sums could overflow", func() {
			Places{Targets: []int64{math.MinInt64}, Lo: []int64{0}, Hi: []int64{1}}.Solve()
		}},
	} {
		t.Run(c.why, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			c.do()
		})
	}
}

func TestPlaces(t *testing.T) {
	same := func(n int, x int64) []int64 { return slices.Repeat([]int64{x}, n) }
	for _, c := range []struct {
		why  string
		p    Places
		want []int64 // nil when there is no room
	}{
		{"nothing to place", Places{}, []int64{}},
		{"targets that are free are taken",
			Places{Targets: []int64{10, 20}, Gaps: []int64{10}, Lo: same(2, 0), Hi: same(2, 30)}, []int64{10, 20}},
		{"two too close share the shift, the odd unit to the left piece's left",
			Places{Targets: []int64{10, 11}, Gaps: []int64{4}, Lo: same(2, 0), Hi: same(2, 30)}, []int64{8, 12}},
		{"the greatest shift is least before the total: 2+2 rather than 0+3",
			Places{Targets: []int64{10, 10}, Gaps: []int64{3}, Lo: same(2, 0), Hi: same(2, 30)}, []int64{8, 11}},
		{"a wire at the target: the left edge of two as near",
			Places{Targets: []int64{10}, Lo: same(1, 0), Hi: same(1, 30), Blocked: []Interval{{8, 12}}}, []int64{8}},
		{"as near, but on a column",
			Places{Targets: []int64{10}, Lo: same(1, 0), Hi: same(1, 30), Blocked: []Interval{{8, 12}}, Columns: []int64{12}}, []int64{12}},
		{"a column never costs shift",
			Places{Targets: []int64{10}, Lo: same(1, 0), Hi: same(1, 30), Columns: []int64{11}}, []int64{10}},
		{"intervals that meet leave the point between them",
			Places{Targets: []int64{4}, Lo: same(1, 0), Hi: same(1, 30), Blocked: []Interval{{10, 20}, {0, 10}}}, []int64{0}},
		{"that point is a place",
			Places{Targets: []int64{9}, Lo: same(1, 0), Hi: same(1, 30), Blocked: []Interval{{10, 20}, {0, 10}}}, []int64{10}},
		{"an empty interval blocks nothing",
			Places{Targets: []int64{9}, Lo: same(1, 0), Hi: same(1, 30), Blocked: []Interval{{9, 9}, {12, 3}}}, []int64{9}},
		{"holes only",
			Places{Targets: []int64{5, 16}, Gaps: []int64{8}, Lo: same(2, 0), Hi: same(2, 30), Lattice: Lattice{List: []int64{2, 9, 12, 18}}}, []int64{2, 18}},
		{"holes told in any order, some twice",
			Places{Targets: []int64{5}, Lo: same(1, 0), Hi: same(1, 30), Lattice: Lattice{List: []int64{18, 6, 2, 6}}}, []int64{6}},
		{"no holes at all",
			Places{Targets: []int64{5}, Lo: same(1, 0), Hi: same(1, 30), Lattice: Lattice{List: []int64{}}}, nil},
		{"one unit too little room",
			Places{Targets: []int64{5, 6}, Gaps: []int64{11}, Lo: same(2, 0), Hi: same(2, 10)}, nil},
		{"no limits: as if endless",
			Places{Targets: []int64{5, 6}, Gaps: []int64{11}, Lo: same(2, math.MinInt64), Hi: same(2, math.MaxInt64)}, []int64{0, 11}},
	} {
		t.Run(c.why, func(t *testing.T) {
			got, ok := c.p.Solve()
			if diff := cmp.Diff(c.want, got); diff != "" || ok != (c.want != nil) {
				t.Errorf("ok %v (-want +got)\n%s", ok, diff)
			}
		})
	}
}

// A 48 in shelf takes three brackets (common practice), here at its ends and beside
// the seam of two 24 in panels, half an inch of which no bracket may grip.
func TestBracketsKeepOffTheSeam(t *testing.T) {
	p := Places{
		Targets: []int64{1 * inch, 24 * inch, 47 * inch}, Gaps: []int64{3 * inch, 3 * inch},
		Lo: slices.Repeat([]int64{inch / 2}, 3), Hi: slices.Repeat([]int64{48*inch - inch/2}, 3),
		Blocked: []Interval{{24*inch - inch/4, 24*inch + inch/4}},
	}
	got, _ := p.Solve()
	if want := []int64{1 * inch, 24*inch - inch/4, 47 * inch}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestCostAgainstBigIntegers(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 12))
	value := func(c cost) *big.Int {
		v := new(big.Int).Lsh(big.NewInt(c.square.hi), 64)
		return v.Add(v, new(big.Int).SetUint64(c.square.lo))
	}
	for range 10000 {
		x, y := r.Int64N(maxLength)>>r.IntN(43), r.Int64N(maxLength)>>r.IntN(43)
		a, b := squared(x), squared(y)
		bigA := new(big.Int).Mul(big.NewInt(x), big.NewInt(x))
		bigB := new(big.Int).Mul(big.NewInt(y), big.NewInt(y))
		diff, sum := a.sub(b), a.sub(b).add(a).add(a)
		bigDiff := new(big.Int).Sub(bigA, bigB)
		bigSum := new(big.Int).Add(bigDiff, new(big.Int).Lsh(bigA, 1))
		if value(diff).Cmp(bigDiff) != 0 || value(sum).Cmp(bigSum) != 0 {
			t.Fatalf("%d, %d: difference %v, want %v; sum %v, want %v", x, y, value(diff), bigDiff, value(sum), bigSum)
		}
		if diff.positive() != (bigDiff.Sign() > 0) || a.less(b) != (bigA.Cmp(bigB) < 0) {
			t.Fatalf("%d, %d compare wrongly", x, y)
		}
	}
	if !(cost{shift: -1, square: wide{hi: 5}}).less(cost{}) {
		t.Error("squares outweigh a nanometre of shift")
	}
}

func ExampleSlots_Place() {
	const inch = 25_400_000
	shelf := Row{Lo: 1, Hi: 20, Above: 9 * inch, Below: 1 * inch}
	p := Slots{
		First: 7 * inch, Pitch: 3 * inch, Count: 20, Top: 66 * inch, Bottom: 6 * inch,
		Rows:   []Row{shelf, shelf, shelf},
		Orders: []Order{{Upper: 0, Lower: 1}, {Upper: 1, Lower: 2}},
	}
	fmt.Println(p.Place())
	p.Rows[0].Pin, p.Rows[2].Pin = 7, 1
	_, conflict := p.Place()
	fmt.Printf("%v short by %v in", conflict.Rows, conflict.Short/inch)
	// Output:
	// [15 9 3] <nil>
	// [0 1 2] short by 2 in
}
