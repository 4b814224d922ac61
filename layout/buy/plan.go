package buy

import (
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/solve"
)

// effort bounds the steps spent on reaching a supplier's minimum or free
// delivery: a tenth of a second or so at the very most.
const effort = 1 << 24

// Plan works out what to order of whom. Of each item what is short is bought in
// the packs that cost least; each order is then looked at as a whole, for its
// supplier may ask for a minimum or deliver free of charge from some value on,
// so that its total is least: see solve.Basket. Where a line of an order has no
// price, what the order comes to is not known, and no packs are added to it.
//
// Findings are notes, and cautions of orders that are under a minimum. One that
// is of no supplier names no place: the caller knows which files it comes from.
// Sizes in them are in the measure given.
func Plan(items []Item, list *parts.List, system measure.System) (Purchase, []diag.Finding) {
	var p Purchase
	lines := map[*parts.Supplier][]Line{}
	for _, item := range items {
		l := newLine(item)
		p.value(l)
		if l.Short == 0 {
			p.Held = append(p.Held, l)
			continue
		}
		s, _ := list.Supplier(item.Buying.Supplier)
		lines[s] = append(lines[s], l)
	}
	for _, s := range append(list.Suppliers(), nil) {
		if len(lines[s]) > 0 {
			p.add(order(s, lines[s]))
		}
	}
	return p, p.findings(system)
}

// newLine is an item before anything is bought.
func newLine(item Item) Line {
	short := max(0, item.Needed-item.OnHand)
	return Line{Item: item, Short: short, Spare: item.OnHand + short - item.Needed,
		Priced: len(item.Buying.Packs) > 0, Worth: worth(item)}
}

// worth is what the pieces of an item cost if all that are needed are bought at
// once, without those left over; 0 if no price is known.
func worth(item Item) measure.Money {
	if len(item.Buying.Packs) == 0 || item.Needed <= 0 {
		return 0
	}
	packs := Packs(item.Buying)
	var all Line
	all.take(packs, solve.Cover(packs, max(item.Needed, item.Buying.Minimum)))
	return share(all.Cost, item.Needed, all.Pieces)
}

// share is part of a sum for some of so many pieces, half a hundredth rounded
// up.
func share(sum measure.Money, some, pieces int) measure.Money {
	n := measure.Money(pieces)
	return sum/n*measure.Money(some) + (sum%n*measure.Money(some)*2+n)/(2*n)
}

// Packs is the packs something is sold in, for the solvers.
func Packs(b parts.Buying) []solve.Pack {
	packs := make([]solve.Pack, len(b.Packs))
	for i, p := range b.Packs {
		packs[i] = solve.Pack{Pieces: p.Pieces, Price: int64(p.Price)}
	}
	return packs
}

// value counts what a needed item is worth.
func (p *Purchase) value(l Line) {
	if p.Worth += l.Worth; !l.Priced && !l.Made && l.Needed > 0 {
		p.Wants++
	}
}

func (p *Purchase) add(o Order) {
	p.Orders = append(p.Orders, o)
	p.Goods += o.Goods
	p.Freight += o.Freight
	p.Duty += o.Duty
	p.Total += o.Total
	p.Unpriced += o.Unpriced
}

// order settles the packs of all lines of one supplier, who is nil if none is
// named.
func order(s *parts.Supplier, lines []Line) Order {
	o := Order{Supplier: s, Lines: lines}
	var basket solve.Basket
	for i := range lines {
		l := &lines[i]
		need := max(l.Short, l.Buying.Minimum)
		if l.Priced {
			basket.Wants = append(basket.Wants, solve.Want{Packs: Packs(l.Buying), Need: need})
			continue
		}
		o.Unpriced++
		each := max(l.Buying.Usual, 1)
		l.take([]solve.Pack{{Pieces: each}}, []int{(need + each - 1) / each})
	}
	alone := measure.Money(basket.Buy(effort).Goods)
	if s != nil && len(basket.Wants) > 0 {
		basket.Freight, basket.Duty = int64(s.Freight), int64(s.Duty)
		if o.Unpriced == 0 {
			basket.Least = int64(s.Minimum)
		}
		if o.Unpriced == 0 || alone >= s.Free {
			basket.Free = int64(s.Free)
		}
	}
	o.settle(basket.Wants, basket.Buy(effort))
	o.Added = o.Goods - alone
	return o
}

// settle writes what was bought into the lines that have prices.
func (o *Order) settle(wants []solve.Want, bought solve.Bought) {
	next := 0
	for i := range o.Lines {
		if l := &o.Lines[i]; l.Priced {
			l.take(wants[next].Packs, bought.Counts[next])
			next++
		}
	}
	o.Goods, o.Freight, o.Duty = measure.Money(bought.Goods), measure.Money(bought.Freight), measure.Money(bought.Duty)
	o.Total, o.Under, o.Proven = measure.Money(bought.Total()), bought.Under, bought.Proven
}

// take buys so many of each pack.
func (l *Line) take(packs []solve.Pack, counts []int) {
	for i, n := range counts {
		if n > 0 {
			l.Packs = append(l.Packs, Taken{Pieces: packs[i].Pieces, Count: n, Price: measure.Money(packs[i].Price)})
			l.Pieces += n * packs[i].Pieces
			l.Cost += measure.Money(n) * measure.Money(packs[i].Price)
		}
	}
	l.Spare = l.OnHand + l.Pieces - l.Needed
}
