package solve

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestCover(t *testing.T) {
	for _, c := range []struct {
		packs []Pack
		need  int
		want  []int
		why   string
	}{
		{[]Pack{{25, 1850}}, 46, []int{2}, "one size: rounded up"},
		{[]Pack{{25, 1850}}, 50, []int{2}, "to the piece"},
		{[]Pack{{25, 1850}}, 0, []int{0}, "nothing is needed"},
		{[]Pack{{25, 1850}}, -3, []int{0}, "more than enough is there"},
		{nil, 0, []int{}, "nothing is sold, nothing is needed"},
		{[]Pack{{10, 900}, {25, 1850}}, 46, []int{0, 2}, "five tens would be dearer"},
		{[]Pack{{10, 900}, {25, 1850}}, 34, []int{1, 1}, "one of each for 27.50, not two for 37.00"},
		{[]Pack{{10, 900}, {25, 1850}}, 11, []int{2, 0}, "two small ones, 18.00, before the large"},
		{[]Pack{{1, 100}, {10, 850}}, 9, []int{0, 1}, "ten for less than nine"},
		{[]Pack{{1, 100}, {10, 900}}, 9, []int{9, 0}, "ten for the price of nine: no piece more than needed"},
		{[]Pack{{6, 600}, {4, 400}}, 8, []int{0, 2}, "equal rates: no piece more than needed"},
		{[]Pack{{2, 200}, {4, 400}}, 8, []int{0, 2}, "equal in price and pieces: fewer packs"},
		{[]Pack{{5, 0}, {1, 1}}, 12, []int{3, 0}, "free of charge"},
		{[]Pack{{6, 10}, {9, 15}, {20, 31}}, 43, []int{1, 2, 1}, "6, 9 and 20 make any number over 43, as a well-known puzzle has it, but not 43: 44 are bought"},
		{[]Pack{{7, 3}, {1000, 400}}, 1_000_000, []int{0, 1000}, "a great many"},
		{[]Pack{{7, 2}, {1000, 400}}, 1_000_000, []int{142858, 0}, "a great many, the small pack the keener one"},
	} {
		if diff := cmp.Diff(c.want, Cover(c.packs, c.need)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.why, diff)
		}
	}
}

// result is what Cover compares, in that order.
type result struct {
	price         int64
	pieces, packs int
}

func resultOf(packs []Pack, counts []int) result {
	r := result{price: priceOf(packs, counts)}
	for i, n := range counts {
		r.pieces += n * packs[i].Pieces
		r.packs += n
	}
	return r
}

func (r result) less(o result) bool {
	if r.price != o.price {
		return r.price < o.price
	}
	if r.pieces != o.pieces {
		return r.pieces < o.pieces
	}
	return r.packs < o.packs
}

// bruteCover tries all counts from which no pack can be left out.
func bruteCover(packs []Pack, need int) result {
	best := result{price: 1 << 60}
	counts := make([]int, len(packs))
	var try func(i, left int)
	try = func(i, left int) {
		if left <= 0 {
			if r := resultOf(packs, counts); r.less(best) {
				best = r
			}
			return
		}
		if i == len(packs) {
			return
		}
		for counts[i] = 0; ; counts[i]++ {
			try(i+1, left-counts[i]*packs[i].Pieces)
			if counts[i]*packs[i].Pieces >= left {
				break
			}
		}
		counts[i] = 0
	}
	try(0, need)
	return best
}

func randomPacks(r *rand.Rand, most, dearest int) []Pack {
	packs := make([]Pack, 1+r.IntN(3))
	for i := range packs {
		packs[i] = Pack{1 + r.IntN(most), int64(r.IntN(dearest + 1))}
	}
	return packs
}

func TestCoverAgainstAllCounts(t *testing.T) {
	for seed := range uint64(3000) {
		r := rand.New(rand.NewPCG(seed, 21))
		packs, need := randomPacks(r, 8, 12), 1+r.IntN(60)
		counts := Cover(packs, need)
		got, want := resultOf(packs, counts), bruteCover(packs, need)
		if got != want {
			t.Fatalf("seed %d: %d pieces of %v: %v comes to %+v, best is %+v", seed, need, packs, counts, got, want)
		}
	}
}

func TestCoverAgainstIntegerPrograms(t *testing.T) {
	var questions []question
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 22))
		var p program
		var price, pieces sum
		packs, need := make([]Pack, 2+r.IntN(6)), 1+r.IntN(5000)
		for i := range packs {
			n := 1 + r.IntN(60)
			packs[i] = Pack{n, int64(n*(80+r.IntN(40)) + r.IntN(100))}
			name := fmt.Sprintf("n_%d", i)
			p.whole = append(p.whole, name)
			price, pieces = append(price, term{packs[i].Price, name}), append(pieces, term{int64(n), name})
		}
		p.binary = []string{"nothing"}
		p.add(pieces, ">=", int64(need))
		questions = append(questions, question{fmt.Sprintf("seed %d", seed), p.aim(price), priceOf(packs, Cover(packs, need))})
	}
	ask(t, questions)
}

func BenchmarkCover(b *testing.B) {
	packs := []Pack{{1, 95}, {10, 890}, {25, 1990}, {48, 3799}, {144, 11000}}
	for _, need := range []int{46, 5000, 1_000_000} {
		b.Run(fmt.Sprint(need), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Cover(packs, need)
			}
		})
	}
}
