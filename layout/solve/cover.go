package solve

// Pack is so many pieces, one at least, sold together at a price of zero or
// more.
type Pack struct {
	Pieces int
	Price  int64
}

// Cover gives how many of each pack to take to have at least need pieces: of all
// ways to, one whose price is least, of these one with the fewest pieces, of
// these one with the fewest packs. It panics if pieces are needed and there are no
// packs.
func Cover(packs []Pack, need int) []int {
	counts := make([]int, len(packs))
	if need <= 0 {
		return counts
	}
	keen := keenest(packs)
	if rest := mostBeside(packs, keen); need > rest {
		each := packs[keen].Pieces
		counts[keen] = (need - rest + each - 1) / each
		need -= counts[keen] * each
	}
	for best := covers(packs, need); need > 0; {
		last := best[need].last
		counts[last]++
		need -= packs[last].Pieces
	}
	return counts
}

// keenest is the pack with the lowest price a piece, of equal ones the largest.
func keenest(packs []Pack) int {
	best := 0
	for i, p := range packs {
		mine, its := p.Price*int64(packs[best].Pieces), packs[best].Price*int64(p.Pieces)
		if mine < its || mine == its && p.Pieces > packs[best].Pieces {
			best = i
		}
	}
	return best
}

// mostBeside is how many pieces need ever come in packs that are not the keenest.
// Of as many such packs as the keenest has pieces, some hold a multiple of its
// pieces between them: the sums of the first, the first two, and so on leave
// fewer different remainders than there are sums and nought. The keenest in
// their place is no dearer, no more packs and as many pieces.
func mostBeside(packs []Pack, keen int) int {
	most := 0
	for i, p := range packs {
		if i != keen {
			most = max(most, p.Pieces)
		}
	}
	return most * (packs[keen].Pieces - 1)
}

// way is the best way to so many pieces at least: what it costs, what it brings,
// and the pack taken last.
type way struct {
	price         int64
	pieces, packs int
	last          int
}

// covers is the best way to each number of pieces up to need.
func covers(packs []Pack, need int) []way {
	best := make([]way, max(need, 0)+1)
	for n := 1; n <= need; n++ {
		for i, p := range packs {
			before := &best[max(n-p.Pieces, 0)]
			w := way{before.price + p.Price, before.pieces + p.Pieces, before.packs + 1, i}
			if i == 0 || w.better(&best[n]) {
				best[n] = w
			}
		}
	}
	return best
}

func (w *way) better(o *way) bool {
	if w.price != o.price {
		return w.price < o.price
	}
	if w.pieces != o.pieces {
		return w.pieces < o.pieces
	}
	return w.packs < o.packs
}
