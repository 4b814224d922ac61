package solve

import "slices"

// reaching finds which sums the goods of a basket can come to. Sums are in coins,
// and what is spent beyond the least is called extra.
//
// A want may be covered at its least price, or by other packs for a little
// extra; packs can be added to any way of covering it. A ground is an extra at
// which it can be covered and from which no pack can be taken away, so the extras
// of a want are its grounds, and these with any packs added.
type reaching struct {
	basket  Basket
	least   [][]int // the cheapest packs of each want
	coin    int64
	most    int64     // extra of all wants together, at the most
	grounds [][]int64 // of each want, rising from 0
	whole   bool      // all grounds are there

	// from[i+1][x] says how the wants up to i come to the extra x: by a ground of
	// want i, or behind its grounds by a pack added to it.
	from [][]int32
}

const noWay = -1

// prepare works out all extras, or is false where that takes too many steps.
func (r *reaching) prepare(steps int) bool {
	packs := int64(0)
	for _, w := range r.basket.Wants {
		packs += int64(len(w.Packs)) + 1
	}
	if r.most > int64(steps)/packs {
		return false
	}
	left := int64(steps) - (r.most+1)*packs
	r.whole = true
	r.grounds = make([][]int64, len(r.basket.Wants))
	for i := range r.basket.Wants {
		if !r.ground(i, &left) {
			r.grounds[i], r.whole = []int64{0}, false
		}
	}
	r.from = make([][]int32, 1, len(r.basket.Wants)+1)
	r.from[0] = unreached(r.most + 1)
	r.from[0][0] = 0
	for i := range r.basket.Wants {
		r.from = append(r.from, r.join(i))
	}
	return true
}

func unreached(n int64) []int32 {
	from := make([]int32, n)
	for i := range from {
		from[i] = noWay
	}
	return from
}

// ground finds the grounds of a want, unless that takes more steps than are
// left.
func (r *reaching) ground(i int, left *int64) bool {
	w := &r.basket.Wants[i]
	base := priceOf(w.Packs, r.least[i]) / r.coin
	cost := int64(len(w.Packs)+1) * (base + r.most + 1)
	if cost > *left {
		return false
	}
	*left -= cost
	most := r.pieces(w, base+r.most)
	covers := func(x int64) bool { return x >= base && most[x] >= int64(w.Need) }
	for x := base; x < int64(len(most)); x++ {
		more := slices.ContainsFunc(w.Packs, func(p Pack) bool { return p.Price > 0 && covers(x-p.Price/r.coin) })
		if covers(x) && !more {
			r.grounds[i] = append(r.grounds[i], x-base)
		}
	}
	*left -= int64(len(r.grounds[i])) * (r.most + 1)
	return *left >= 0
}

// pieces is the most pieces of a want that come to each price exactly, a number
// below nought where none do. Packs that cost nothing are as many as are needed.
func (r *reaching) pieces(w *Want, price int64) []int64 {
	most := make([]int64, price+1)
	for _, p := range w.Packs {
		if p.Price == 0 {
			most[0] = max(most[0], int64(w.Need))
		}
	}
	for x := int64(1); x <= price; x++ {
		most[x] = noWay
		for _, p := range w.Packs {
			if c := p.Price / r.coin; c > 0 && c <= x && most[x-c] != noWay {
				most[x] = max(most[x], most[x-c]+int64(p.Pieces))
			}
		}
	}
	return most
}

// join works out the extras of the wants up to i from those of the wants before
// it.
func (r *reaching) join(i int) []int32 {
	before, from := r.from[i], unreached(r.most+1)
	for g, extra := range r.grounds[i] {
		for x := extra; x <= r.most; x++ {
			if from[x] == noWay && before[x-extra] != noWay {
				from[x] = int32(g)
			}
		}
	}
	for x := range from {
		for k, p := range r.basket.Wants[i].Packs {
			c := int(p.Price / r.coin)
			if from[x] == noWay && c > 0 && c <= x && from[x-c] != noWay {
				from[x] = int32(len(r.grounds[i]) + k)
			}
		}
	}
	return from
}

// counts is the packs that come to an extra: the last wants as they were where
// that can be.
func (r *reaching) counts(extra int64) [][]int {
	counts := make([][]int, len(r.basket.Wants))
	for i := len(counts) - 1; i >= 0; i-- {
		w := &r.basket.Wants[i]
		added := make([]int, len(w.Packs))
		grounds := len(r.grounds[i])
		for int(r.from[i+1][extra]) >= grounds {
			k := int(r.from[i+1][extra]) - grounds
			added[k]++
			extra -= w.Packs[k].Price / r.coin
		}
		ground := r.grounds[i][r.from[i+1][extra]]
		extra -= ground
		counts[i] = r.covering(i, ground)
		for k, n := range added {
			counts[i][k] += n
		}
	}
	return counts
}

// covering is the packs of a want at one of its grounds. One that costs nothing
// has no other ground than 0.
func (r *reaching) covering(i int, ground int64) []int {
	if ground == 0 {
		return slices.Clone(r.least[i])
	}
	w := &r.basket.Wants[i]
	counts := make([]int, len(w.Packs))
	x := priceOf(w.Packs, r.least[i])/r.coin + ground
	most := r.pieces(w, x)
	for x > 0 {
		for k, p := range w.Packs {
			if c := p.Price / r.coin; c > 0 && c <= x && most[x-c] != noWay && most[x] == most[x-c]+int64(p.Pieces) {
				counts[k]++
				x -= c
				break
			}
		}
	}
	return counts
}
