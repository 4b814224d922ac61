package solve

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const basketSteps = 1 << 20

func TestBasket(t *testing.T) {
	hooks := Want{[]Pack{{10, 900}, {25, 1850}}, 46}
	shelves := Want{[]Pack{{4, 7200}}, 10}
	for _, c := range []struct {
		basket Basket
		want   Bought
		why    string
	}{
		{Basket{Wants: []Want{hooks, shelves}}, Bought{[][]int{{0, 2}, {3}}, 25300, 0, 0, false, true}, "each want by itself"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Duty: 450}, Bought{[][]int{{0, 2}}, 3700, 1200, 167, false, true}, "166.5 hundredths of duty are 167"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Free: 4551}, Bought{[][]int{{1, 2}}, 4600, 0, 0, false, true}, "one pack more saves 3.00"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Free: 4900}, Bought{[][]int{{0, 2}}, 3700, 1200, 0, false, true}, "to the price of freight is no gain"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Free: 4500, Duty: 8000}, Bought{[][]int{{0, 2}}, 3700, 1200, 2960, false, true}, "duty eats up what a pack more would save"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Least: 5000}, Bought{[][]int{{6, 0}}, 5400, 1200, 0, false, true}, "less is not delivered: six tens come nearest"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Least: 4000, Free: 4551}, Bought{[][]int{{1, 2}}, 4600, 0, 0, false, true}, "the pack that reaches the one reaches the other"},
		{Basket{Wants: []Want{hooks}, Freight: 1200, Least: 4500, Free: 4500}, Bought{[][]int{{5, 0}}, 4500, 0, 0, false, true}, "five tens instead: exactly the sum"},
		{Basket{Wants: []Want{{[]Pack{{1, 0}}, 3}}, Freight: 100, Least: 10}, Bought{[][]int{{3}}, 0, 100, 0, true, true}, "what costs nothing reaches no sum"},
		{Basket{Wants: []Want{{[]Pack{{1, 0}, {1, 7}}, 3}}, Least: 10}, Bought{[][]int{{3, 2}}, 14, 0, 0, false, true}, "beside what costs nothing"},
		{Basket{}, Bought{Counts: [][]int{}, Proven: true}, "nothing is wanted"},
	} {
		if diff := cmp.Diff(c.want, c.basket.Buy(basketSteps)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.why, diff)
		}
	}
}

// bruteBasket is the lowest total of all counts of packs up to so many each, and
// whether any reaches Least.
func bruteBasket(b Basket, most int) (total int64, reached bool) {
	var counts [][]int
	for _, w := range b.Wants {
		counts = append(counts, make([]int, len(w.Packs)))
	}
	var try func(i, k int)
	try = func(i, k int) {
		if i == len(b.Wants) {
			if d := b.priced(counts, false); d.Goods >= b.Least && (!reached || d.Total() < total) {
				total, reached = d.Total(), true
			}
			return
		}
		if k == len(counts[i]) {
			if piecesOf(b.Wants[i].Packs, counts[i]) >= b.Wants[i].Need {
				try(i+1, 0)
			}
			return
		}
		for n := range most + 1 {
			counts[i][k] = n
			try(i, k+1)
		}
	}
	try(0, 0)
	return total, reached
}

func piecesOf(packs []Pack, counts []int) int { return resultOf(packs, counts).pieces }

// randomBasket has prices so large that so many of each pack are enough.
func randomBasket(r *rand.Rand, most int) Basket {
	b := Basket{Freight: int64(r.IntN(30)), Duty: int64(r.IntN(3) * 777)}
	for range 1 + r.IntN(3) {
		w := Want{Need: 1 + r.IntN(5)}
		for range 1 + r.IntN(2) {
			w.Packs = append(w.Packs, Pack{1 + r.IntN(4), int64(5 + r.IntN(20))})
		}
		b.Wants = append(b.Wants, w)
	}
	if r.IntN(2) == 0 {
		b.Least = int64(r.IntN(5 * most))
	}
	if r.IntN(4) > 0 {
		b.Free = int64(1 + r.IntN(5*most))
	}
	return b
}

func TestBasketAgainstAllCounts(t *testing.T) {
	changed := 0
	for seed := range uint64(800) {
		const most = 9
		b := randomBasket(rand.New(rand.NewPCG(seed, 23)), most)
		got := b.Buy(basketSteps)
		want, _ := bruteBasket(b, most)
		if got.Total() != want || !got.Proven || got.Under {
			t.Fatalf("seed %d: %+v: %+v comes to %d, best is %d", seed, b, got, got.Total(), want)
		}
		if again := b.priced(got.Counts, true); !cmp.Equal(got, again) {
			t.Fatalf("seed %d: the sums of %+v are %+v", seed, got, again)
		}
		if got.Goods > b.covered().Goods {
			changed++
		}
	}
	if changed < 120 {
		t.Errorf("only %d of the baskets had to reach a sum", changed)
	}
}

// TestBasketShortOfSteps: whatever the steps, all wants are covered, sums are
// reached, and what is said to be proven is.
func TestBasketShortOfSteps(t *testing.T) {
	unproven := 0
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 24))
		b := randomBasket(r, 9)
		got, best := b.Buy(r.IntN(200)), b.Buy(basketSteps)
		for i, w := range b.Wants {
			if n := piecesOf(w.Packs, got.Counts[i]); n < w.Need {
				t.Fatalf("seed %d: %+v: %d of want %d", seed, b, n, i)
			}
		}
		if got.Goods < b.Least || got.Total() < best.Total() || got.Proven && got.Total() > best.Total() {
			t.Fatalf("seed %d: %+v: %+v, best is %+v", seed, b, got, best)
		}
		if !got.Proven {
			unproven++
		}
	}
	if unproven < 50 {
		t.Errorf("only %d ran out of steps", unproven)
	}
}

func TestBasketAgainstIntegerPrograms(t *testing.T) {
	var questions []question
	for seed := range uint64(30) {
		b := larkfieldBasket(seed, 12)
		got := b.Buy(1 << 24)
		if !got.Proven {
			t.Fatalf("seed %d: not proven", seed)
		}
		p, total := basketProgram(b)
		questions = append(questions, question{fmt.Sprintf("seed %d", seed), p.aim(total), (got.Total() - b.Freight) * 100})
	}
	ask(t, questions)
}

// basketProgram says how many of each pack there are, and whether delivery is
// free; its objective is a hundred times the total without freight. Duty must be
// whole per cents and prices whole hundreds, so that nothing is rounded.
func basketProgram(b Basket) (p program, total sum) {
	var goods sum
	for i, w := range b.Wants {
		var pieces sum
		for k, pack := range w.Packs {
			name := fmt.Sprintf("n_%d_%d", i, k)
			p.whole = append(p.whole, name)
			goods, pieces = append(goods, term{pack.Price, name}), append(pieces, term{int64(pack.Pieces), name})
			total = append(total, term{pack.Price * (100 + b.Duty/100), name})
		}
		p.add(pieces, ">=", int64(w.Need))
	}
	p.binary = []string{"free"}
	p.add(goods, ">=", b.Least)
	p.add(append(goods[:len(goods):len(goods)], term{-b.Free, "free"}), ">=", 0)
	return p, append(total, term{-100 * b.Freight, "free"})
}

// larkfieldBasket is an order as a shop's, prices in whole units, its sums just
// missed.
func larkfieldBasket(seed uint64, wants int) Basket {
	r := rand.New(rand.NewPCG(seed, 25))
	b := Basket{Freight: int64(10+r.IntN(40)) * 100, Duty: int64(r.IntN(3)) * 400}
	for range wants {
		each, n := int64(1+r.IntN(9)), 2+r.IntN(20)
		w := Want{[]Pack{{n, int64(n) * each * 100}, {4 * n, int64(4*n)*each*90 + 50 - (int64(4*n)*each*90)%100 + 50}}, 5 + r.IntN(60)}
		b.Wants = append(b.Wants, w)
	}
	goods := b.covered().Goods
	b.Free = goods + int64(r.IntN(25))*100
	if r.IntN(3) == 0 {
		b.Least = goods + int64(r.IntN(15))*100
	}
	return b
}

func BenchmarkBasket(b *testing.B) {
	b.ReportAllocs()
	basket := larkfieldBasket(1, 30)
	basket.Least = basket.covered().Goods + 7777
	for b.Loop() {
		if !basket.Buy(1 << 24).Proven {
			b.Fatal("not proven")
		}
	}
}
