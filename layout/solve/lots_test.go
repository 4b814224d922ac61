package solve

import (
	"math/rand"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestLots(t *testing.T) {
	single := []Pack{{1, 30}}
	tens := []Pack{{10, 100}}
	both := []Pack{{1, 30}, {10, 100}}
	for _, c := range []struct {
		lots   Lots
		want   [][]int
		reason string
	}{
		{Lots{Packs: single}, [][]int{}, "no season"},
		{Lots{Need: []int{0, 0}, Packs: single}, [][]int{nil, nil}, "nothing is needed"},
		{Lots{Need: []int{4, 4, 7}, Packs: single}, [][]int{{4}, nil, {3}}, "what grows is bought when it grows, not before"},
		{Lots{Need: []int{4, 9, 10}, Packs: tens}, [][]int{{1}, nil, nil}, "what a pack leaves over serves later seasons"},
		{Lots{Need: []int{4, 11}, Packs: tens}, [][]int{{1}, {1}}, "the second pack waits until it is needed"},
		{Lots{Need: []int{2, 10}, Packs: both}, [][]int{{0, 1}, nil}, "one pack for both seasons is cheaper than two pieces and a pack"},
		{Lots{Need: []int{2, 12}, Packs: both}, [][]int{{2, 0}, {0, 1}}, "both are needed anyhow: the small ones first, so that less stands about"},
		{Lots{Need: []int{1, 2}, Packs: single, Least: 2}, [][]int{{2}, nil}, "the supplier sends no less than two"},
		{Lots{Need: []int{3, 4}, Packs: []Pack{{2, 50}, {3, 70}}, Least: 4}, [][]int{{2, 0}, nil}, "the least order is no sum of one pack size and others"},
		{Lots{Need: []int{5, 6}, Packs: []Pack{{5, 0}}}, [][]int{{1}, {1}}, "packs that cost nothing are not hoarded"},
		{Lots{Need: []int{6}, Packs: []Pack{{3, 60}, {6, 120}}}, [][]int{{0, 1}}, "of two ways that cost the same, the one of fewer packs"},
	} {
		if diff := cmp.Diff(c.want, c.lots.Solve()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.reason, diff)
		}
	}
}

// TestLotsAgainstBruteForce tries every purchase of every season.
func TestLotsAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for n := range 3000 {
		l := smallLots(r)
		got := l.Solve()
		cost, sound := l.judge(got)
		if best := l.bruteForce(); !sound || cost != best {
			t.Fatalf("case %d: %+v: %v costs %v (enough in each season, orders large enough: %v), the best %v", n, l, got, cost, sound, best)
		}
	}
}

func smallLots(r *rand.Rand) Lots {
	l := Lots{Need: make([]int, 1+r.Intn(3)), Least: r.Intn(6)}
	owned := 0
	for t := range l.Need {
		owned += r.Intn(4)
		l.Need[t] = owned
	}
	for range 1 + r.Intn(3) {
		l.Packs = append(l.Packs, Pack{1 + r.Intn(5), int64(r.Intn(12))})
	}
	return l
}

// judge is what a purchase costs, and whether it will do.
func (l Lots) judge(seasons [][]int) (cost lotCost, sound bool) {
	owned, sound := 0, len(seasons) == len(l.Need)
	for t, packs := range seasons {
		order := 0
		for i, n := range packs {
			order += n * l.Packs[i].Pieces
			cost.money += int64(n) * l.Packs[i].Price
			cost.packs += int64(n)
		}
		owned += order
		cost.standing += int64(owned)
		sound = sound && owned >= l.Need[t] && (order == 0 || order >= l.Least)
	}
	return cost, sound
}

// bruteForce is the least cost of any purchase, by trying all up to a number of
// packs that no best one passes.
func (l Lots) bruteForce() lotCost {
	best := lotCost{money: noLot}
	seasons := make([][]int, len(l.Need))
	most := l.Need[len(l.Need)-1] + l.Least
	var try func(t int)
	var fill func(t, i, pieces int)
	fill = func(t, i, pieces int) {
		if i == len(l.Packs) {
			if pieces == 0 || pieces >= l.Least {
				try(t + 1)
			}
			return
		}
		for n := 0; n == 0 || pieces+(n-1)*l.Packs[i].Pieces < most; n++ {
			seasons[t][i] = n
			fill(t, i+1, pieces+n*l.Packs[i].Pieces)
		}
		seasons[t][i] = 0
	}
	try = func(t int) {
		if cost, sound := (Lots{l.Need[:t], l.Packs, l.Least}).judge(seasons[:t]); !sound || !cost.less(best) && cost.money > best.money {
			return
		}
		if t == len(l.Need) {
			if cost, _ := l.judge(seasons); cost.less(best) {
				best = cost
			}
			return
		}
		seasons[t] = make([]int, len(l.Packs))
		fill(t, 0, 0)
	}
	try(0)
	return best
}

func BenchmarkLots(b *testing.B) {
	l := Lots{Packs: []Pack{{1, 180}, {10, 1500}, {50, 6000}}}
	for t := range 12 {
		l.Need = append(l.Need, 40*(t+1))
	}
	for b.Loop() {
		if l.Solve()[0] == nil {
			b.Fatal("nothing bought")
		}
	}
}
