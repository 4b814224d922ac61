package kit

import (
	"slices"

	"setwright/layout/measure"
)

// filled is the suppliers whose orders had to be filled up, with packs that no
// season needs, to reach their minimum or free delivery.
func filled(changes []Change) []string {
	var ids []string
	for _, c := range changes {
		for _, o := range c.Purchase.Orders {
			if o.Added > 0 && !slices.Contains(ids, o.Supplier.ID) {
				ids = append(ids, o.Supplier.ID)
			}
		}
	}
	return ids
}

// lookAhead is, for each season, up to which season an order of this supplier
// before it buys: where orders would be filled up with what nobody needs, what
// later seasons need of the supplier is ordered instead. What is needed of stock
// is known only when pieces are cut, so its order stays where it is.
func lookAhead(lines []Line, changes []Change, supplier string, least measure.Money) []int {
	goods, fixed := make([]measure.Money, len(changes)), make([]bool, len(changes))
	for i := range lines {
		l := &lines[i]
		if l.Part.Cut != nil || l.Part.Buy.Supplier != supplier || len(l.Part.Buy.Packs) == 0 {
			continue
		}
		for t, packs := range l.lots(l.missing()) {
			for size, n := range packs {
				goods[t] += measure.Money(n) * l.Part.Buy.Packs[size].Price
			}
		}
	}
	for t, c := range changes {
		for _, o := range c.Purchase.Orders {
			for _, bought := range o.Lines {
				if bought.Stock() && bought.Buying.Supplier == supplier {
					goods[t], fixed[t] = goods[t]+bought.Cost, true
				}
			}
		}
	}
	return together(goods, fixed, least)
}

// together joins the orders of seasons that follow one another where that
// saves: each order costs its goods, or the least that the supplier delivers. No
// other way of joining costs less; of equal ones the first orders look the
// shortest way ahead. A fixed season's goods are not ordered sooner.
func together(goods []measure.Money, fixed []bool, least measure.Money) []int {
	n := len(goods)
	cost, last := make([]measure.Money, n+1), make([]int, n)
	for t := n - 1; t >= 0; t-- {
		sum := measure.Money(0)
		for h := t; h < n && (h == t || !fixed[h]); h++ {
			sum += goods[h]
			all := sum + cost[h+1]
			if sum > 0 {
				all = max(sum, least) + cost[h+1]
			}
			if h == t || all < cost[t] {
				cost[t], last[t] = all, h
			}
		}
	}
	for t := 0; t < n; {
		for h := last[t]; t <= h; t++ {
			last[t] = h
		}
	}
	return last
}
