package solve

import (
	"fmt"
	"math/rand"
	"testing"
)

// TestLotsAgainstSolvers asks general solvers for the least cost over the
// seasons, and then, at that cost, for the fewest pieces standing about.
func TestLotsAgainstSolvers(t *testing.T) {
	var questions []question
	for seed := range int64(12) {
		l := yearLots(rand.New(rand.NewSource(seed)))
		got, sound := l.judge(l.Solve())
		if !sound {
			t.Fatalf("seed %d: not enough in each season, or an order too small", seed)
		}
		p, price, standing := l.program()
		questions = append(questions, question{fmt.Sprintf("seed %d, cost", seed), p.aim(price), got.money})
		p = p.aim(nil)
		p.add(price, "<=", got.money)
		questions = append(questions, question{fmt.Sprintf("seed %d, standing about", seed), p.aim(standing), got.standing})
	}
	ask(t, questions)
}

// yearLots is a part over a year's seasons.
func yearLots(r *rand.Rand) Lots {
	l := Lots{Least: r.Intn(12)}
	owned := 0
	for range 2 + r.Intn(4) {
		owned += r.Intn(25)
		l.Need = append(l.Need, owned)
	}
	for pieces := 1 + r.Intn(3); len(l.Packs) < 3; pieces = pieces*2 + r.Intn(4) {
		l.Packs = append(l.Packs, Pack{pieces, int64(pieces*(20-4*len(l.Packs)) + r.Intn(15))})
	}
	return l
}

// program is the lots as an integer program, with the sums for its objectives.
func (l Lots) program() (p program, price, standing sum) {
	most := int64(l.Need[len(l.Need)-1] + l.Least + l.Packs[len(l.Packs)-1].Pieces)
	var owned sum
	for t, need := range l.Need {
		var order sum
		for i, pack := range l.Packs {
			name := fmt.Sprintf("x%d_%d", t, i)
			p.whole = append(p.whole, name)
			order = append(order, term{int64(pack.Pieces), name})
			price = append(price, term{pack.Price, name})
			standing = append(standing, term{int64(pack.Pieces * (len(l.Need) - t)), name})
		}
		owned = append(owned, order...)
		p.add(owned, ">=", int64(need))
		placed := fmt.Sprintf("o%d", t)
		p.binary = append(p.binary, placed)
		p.add(append(order[:len(order):len(order)], term{-int64(l.Least), placed}), ">=", 0)
		p.add(append(order[:len(order):len(order)], term{-most, placed}), "<=", 0)
	}
	return p, price, standing
}
