package solve

import "slices"

// Want is one line of an order: the packs that a thing comes in, one at least,
// and how many pieces are needed at least.
type Want struct {
	Packs []Pack
	Need  int
}

// Basket is an order with one seller. Prices and sums are whole numbers of one
// small coin.
type Basket struct {
	Wants   []Want
	Least   int64 // the least price of goods that is delivered, 0 if any
	Freight int64 // for delivery
	Free    int64 // the price of goods from which delivery costs nothing, 0 if it always costs
	Duty    int64 // in ten-thousandths of the price of the goods, half a coin rounded up
}

// Bought is what a basket comes to.
type Bought struct {
	Counts [][]int // of the packs of each want

	Goods, Freight, Duty int64

	Under  bool // the goods do not reach Least, since nothing in the basket has a price
	Proven bool // no other packs have a lower total
}

// Total is the price of the goods, delivered.
func (b *Bought) Total() int64 { return b.Goods + b.Freight + b.Duty }

// Buy chooses packs that cover every want so that the total is least: each want
// by itself as Cover has it, and where the goods then fall short of Least or of
// Free, others or more of them if that is needed, or cheaper. Goods and duty rise
// together and freight falls once, at Free, so that there are two choices at
// most: the least price of goods that is delivered at all, and the least that is
// delivered free. Of choices with one total the one with the fewest goods is
// taken.
//
// About so many steps are spent on each sum that must be reached; where that is
// too few for a proof, the answer still covers every want and reaches the sum.
func (b Basket) Buy(steps int) Bought {
	covered := b.covered()
	least := covered
	if covered.Goods < b.Least {
		least = b.reach(covered, b.Least, steps)
	}
	if b.Free == 0 || least.Under || least.Freight == 0 || b.Free+b.duty(b.Free) >= least.Total() {
		return least
	}
	free := b.reach(covered, b.Free, steps)
	proven := least.Proven && free.Proven
	if !free.Under && free.Total() < least.Total() {
		least = free
	}
	least.Proven = proven
	return least
}

// covered is every want by itself at its least price.
func (b Basket) covered() Bought {
	counts := make([][]int, len(b.Wants))
	for i, w := range b.Wants {
		counts[i] = Cover(w.Packs, w.Need)
	}
	return b.priced(counts, true)
}

// priced adds up what so many packs come to.
func (b Basket) priced(counts [][]int, proven bool) Bought {
	d := Bought{Counts: counts, Freight: b.Freight, Proven: proven}
	for i, w := range b.Wants {
		d.Goods += priceOf(w.Packs, counts[i])
	}
	d.Duty = b.duty(d.Goods)
	if b.Free > 0 && d.Goods >= b.Free {
		d.Freight = 0
	}
	return d
}

// duty splits the sum, so that the product stays inside an int64.
func (b Basket) duty(goods int64) int64 {
	return goods/10000*b.Duty + (goods%10000*b.Duty+5000)/10000
}

// priceOf is what so many of each pack cost.
func priceOf(packs []Pack, counts []int) int64 {
	price := int64(0)
	for i, n := range counts {
		price += int64(n) * packs[i].Price
	}
	return price
}

// reach finds packs whose price is the least that is sum or more, from the
// cheapest way to cover all wants, which is less. Where nothing has a price the
// sum is not reached.
func (b Basket) reach(least Bought, sum int64, steps int) Bought {
	coin := b.coin()
	if coin == 0 {
		least.Under = true
		return least
	}
	r := &reaching{basket: b, least: least.Counts, coin: coin}
	gap := (sum - least.Goods + coin - 1) / coin
	r.most = gap + b.cheapest()/coin - 1 // the cheapest pack, over and over, does no worse
	if r.prepare(steps) {
		for extra := gap; ; extra++ {
			if r.from[len(b.Wants)][extra] != noWay {
				return b.priced(r.counts(extra), r.whole)
			}
		}
	}
	return b.priced(b.heaped(least.Counts, sum-least.Goods), false)
}

// coin is the greatest sum that every price is a multiple of, 0 if all are
// nought.
func (b Basket) coin() int64 {
	coin := int64(0)
	for _, w := range b.Wants {
		for _, p := range w.Packs {
			for x := p.Price; x > 0; {
				coin, x = x, coin%x
			}
		}
	}
	return coin
}

// cheapest is the lowest price above nought.
func (b Basket) cheapest() int64 {
	least := int64(0)
	for _, w := range b.Wants {
		for _, p := range w.Packs {
			if p.Price > 0 && (least == 0 || p.Price < least) {
				least = p.Price
			}
		}
	}
	return least
}

// heaped reaches a sum without much thought: dear packs while they fit into the
// gap, then the cheapest.
func (b Basket) heaped(counts [][]int, gap int64) [][]int {
	type choice struct {
		want, pack int
		price      int64
	}
	var choices []choice
	for i, w := range b.Wants {
		counts[i] = slices.Clone(counts[i])
		for k, p := range w.Packs {
			if p.Price > 0 {
				choices = append(choices, choice{i, k, p.Price})
			}
		}
	}
	slices.SortStableFunc(choices, func(x, y choice) int { return int(min(max(y.price-x.price, -1), 1)) })
	for i, c := range choices {
		n := gap / c.price
		if i == len(choices)-1 {
			n = (gap + c.price - 1) / c.price
		}
		counts[c.want][c.pack] += int(n)
		gap -= n * c.price
	}
	return counts
}
