package solve

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
)

// slotsProgram states a case with one variable for each row and slot, and one for
// each slot of spare in a gap. As squares are convex, the cheap slots of a gap are
// used first, so these add up to the square.
func slotsProgram(p Slots) (base program, wish, squares, lowest sum, constant int64) {
	slot := func(i int, factor int64) sum {
		var s sum
		for k := 1; k <= p.Count; k++ {
			s = append(s, term{factor * int64(k), fmt.Sprintf("z_%d_%d", i, k)})
		}
		return s
	}
	sq := func(spare int64) int64 { return max(spare, 0) * max(spare, 0) }
	pairs := brutePairs(p)
	under, over := map[int]bool{}, map[int]bool{}
	for _, o := range pairs {
		under[o.Upper], over[o.Lower] = true, true
	}
	for i, r := range p.Rows {
		var one sum
		for k := 1; k <= p.Count; k++ {
			name, h := fmt.Sprintf("z_%d_%d", i, k), p.First+int64(k-1)*p.Pitch
			base.binary = append(base.binary, name)
			one = append(one, term{1, name})
			if k < r.Lo || k > r.Hi || r.Pin != 0 && k != r.Pin {
				base.add(sum{{1, name}}, "=", 0)
			}
			if r.HasWish {
				wish = append(wish, term{max(h-r.Wish, r.Wish-h), name})
			}
			if !over[i] {
				squares = append(squares, term{sq(p.Top - h - r.Above), name})
			}
			if !under[i] {
				squares = append(squares, term{sq(h - r.Below - p.Bottom), name})
			}
		}
		base.add(one, "=", 1)
		lowest = append(lowest, slot(i, 1)...)
	}
	for g, o := range pairs {
		need := p.Rows[o.Upper].Below + p.Rows[o.Lower].Above
		apart := append(slot(o.Upper, 1), slot(o.Lower, -1)...)
		least := int64(-p.Count)
		for least*p.Pitch < need {
			least++
		}
		constant += sq(least*p.Pitch - need)
		for k := least + 1; k < int64(p.Count); k++ {
			name := fmt.Sprintf("y_%d_%d", g, k-least)
			base.continuous = append(base.continuous, name)
			apart = append(apart, term{-1, name})
			squares = append(squares, term{sq(k*p.Pitch-need) - sq((k-1)*p.Pitch-need), name})
		}
		base.add(apart, "=", least)
	}
	return base, wish, squares, lowest, constant
}

func TestPlaceAgainstIntegerPrograms(t *testing.T) {
	var questions []question
	for seed := uint64(0); len(questions) < 3*30; seed++ {
		r := rand.New(rand.NewPCG(seed, 7))
		p := randomSlots(r, 6+r.IntN(9), 12+r.IntN(6))
		p.coarsen(r)
		at, conflict := p.Place()
		if conflict != nil {
			continue
		}
		cost := bruteSlotsCost(p, brutePairs(p), at)
		base, wish, squares, lowest, constant := slotsProgram(p)
		name := func(stage string) string { return fmt.Sprintf("seed %d: %s", seed, stage) }
		questions = append(questions, question{name("distance from wishes"), base.aim(wish), cost.wish})
		if len(wish) > 0 {
			base.add(wish, "<=", cost.wish)
		}
		least := cost.squares.Int64() - constant
		questions = append(questions, question{name("squared spare"), base.aim(squares), least})
		base.add(squares, "<=", least)
		questions = append(questions, question{name("sum of slots"), base.aim(lowest), int64(cost.sum)})
	}
	ask(t, questions)
}

// coarsen gives a case lengths small enough that its squares are exact in the
// floating point that general solvers work with.
func (p *Slots) coarsen(r *rand.Rand) {
	p.First, p.Pitch, p.Bottom = 5, 6, int64(r.IntN(9))
	p.Top = p.First + int64(p.Count)*p.Pitch + int64(r.IntN(13)) - 6
	for i := range p.Rows {
		row := &p.Rows[i]
		row.Above, row.Below = int64(r.IntN(12))-3, int64(r.IntN(5))+3
		row.Wish = p.First + int64(r.IntN(p.Count*6))
		if r.IntN(3) > 0 {
			row.Pin = 0
		}
	}
}

// placesProgram states a case with one variable for each piece and place, and
// one, far, for each unit of the greatest shift.
func placesProgram(p Places) (base program, far, total, off, first sum) {
	for u := range p.Hi[0] {
		name := fmt.Sprintf("far_%d", u)
		base.continuous = append(base.continuous, name)
		far = append(far, term{1, name})
	}
	var last sum
	for i, t := range p.Targets {
		var one, at, shift sum
		for x := p.Lo[i]; x <= p.Hi[i]; x++ {
			if !bruteFree(p.Lattice, p.Blocked, x) {
				continue
			}
			name := fmt.Sprintf("z_%d_%d", i, x)
			base.binary = append(base.binary, name)
			one, at = append(one, term{1, name}), append(at, term{x, name})
			shift = append(shift, term{max(x-t, t-x), name})
			if !slices.Contains(p.Columns, x) {
				off = append(off, term{1, name})
			}
		}
		base.add(one, "=", 1)
		total = append(total, shift...)
		for _, f := range far {
			shift = append(shift, term{-1, f.name})
		}
		base.add(shift, "<=", 0)
		if i == 0 {
			first = at
		} else {
			base.add(append(slices.Clone(at), negated(last)...), ">=", p.Gaps[i-1])
		}
		last = at
	}
	return base, far, total, off, first
}

func negated(s sum) sum {
	n := slices.Clone(s)
	for i := range n {
		n[i].factor = -n[i].factor
	}
	return n
}

func TestPlacesAgainstIntegerPrograms(t *testing.T) {
	var questions []question
	for seed := uint64(0); len(questions) < 4*30; seed++ {
		p := crowdedPlaces(rand.New(rand.NewPCG(seed, 8)), 5+int(seed%4), 50)
		centres, ok := p.Solve()
		if !ok {
			continue
		}
		var worst, sumShift, offColumn int64
		for i, x := range centres {
			d := max(x-p.Targets[i], p.Targets[i]-x)
			worst, sumShift = max(worst, d), sumShift+d
			if !slices.Contains(p.Columns, x) {
				offColumn++
			}
		}
		base, far, total, off, first := placesProgram(p)
		name := func(stage string) string { return fmt.Sprintf("seed %d: %s", seed, stage) }
		questions = append(questions, question{name("greatest shift"), base.aim(far), worst})
		base.add(far, "<=", worst)
		questions = append(questions, question{name("total shift"), base.aim(total), sumShift})
		base.add(total, "<=", sumShift)
		questions = append(questions, question{name("off columns"), base.aim(off), offColumn})
		base.add(off, "<=", offColumn)
		questions = append(questions, question{name("first piece"), base.aim(first), centres[0]})
	}
	ask(t, questions)
}

// crowdedPlaces makes a case of n pieces that get in each other's way along a
// span, some targets bunched.
func crowdedPlaces(r *rand.Rand, n, span int) Places {
	p := Places{Lattice: Lattice{Step: int64(1 + r.IntN(2))}}
	if r.IntN(4) == 0 {
		p.Lattice = randomLattice(r, span)
	}
	for i := range n {
		p.Targets = append(p.Targets, int64(r.IntN(span)))
		p.Lo, p.Hi = append(p.Lo, 0), append(p.Hi, int64(span))
		if i > 0 {
			p.Gaps = append(p.Gaps, 1+int64(r.IntN(max(1, 3*span/(2*n)))))
		}
	}
	slices.Sort(p.Targets)
	for x := r.IntN(6); x < span; x += 3 + r.IntN(8) {
		p.Blocked = append(p.Blocked, Interval{int64(x), int64(x + 1 + r.IntN(4))})
		if r.IntN(2) == 0 {
			p.Columns = append(p.Columns, int64(x+r.IntN(5)))
		}
	}
	return p
}
