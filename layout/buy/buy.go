// Package buy works out what to order of whom: from what a unit needs and what
// is on hand, in the packs that each supplier sells, at the least cost.
package buy

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Item is one thing a unit needs: a part, or stock of one size.
type Item struct {
	ID, Name      string
	Length, Width measure.Length // of stock; a bar has no width, a part neither
	Made          bool           // not sold as it is: an off-cut, or a piece cut already; it is worth nothing here
	Buying        parts.Buying

	Needed, OnHand int // pieces; on hand may be more than is needed
}

// Stock says whether the item is bars or sheets of a size.
func (i *Item) Stock() bool { return i.Length > 0 }

// Size is the size of stock as a label, 96 in; of a part it is empty.
func (i *Item) Size(system measure.System) string {
	if !i.Stock() {
		return ""
	}
	return parts.StockSize{Length: i.Length, Width: i.Width}.Text(system)
}

// Line is an item and what is bought of it.
type Line struct {
	Item
	Short  int     // pieces that are needed and not on hand
	Packs  []Taken // to order, smallest first; empty if it is not short
	Pieces int     // in these packs
	Spare  int     // pieces left over once the unit stands

	Priced bool          // its price is known
	Cost   measure.Money // of the packs; 0 if no price is known
	Worth  measure.Money // of all that is needed, on hand or not: its share of what its own least purchase would cost
}

// Taken is so many packs of one size.
type Taken struct {
	Pieces int // in one
	Count  int
	Price  measure.Money // of one, 0 if it is not known
}

// Order is what one supplier delivers together. Lines keep the order of the
// items. Its sums are without the lines that have no price.
type Order struct {
	Supplier *parts.Supplier // nil for what has none named
	Lines    []Line          // all of them short
	Unpriced int             // lines without a price

	Goods, Freight, Duty, Total measure.Money

	// Added is what the goods cost beyond the least, for packs added to reach
	// the supplier's minimum or delivery free of charge; 0 if none were.
	Added measure.Money
	// Under says that the goods do not reach the supplier's minimum, since none of
	// them cost anything.
	Under bool
	// Proven says that no other choice of packs has a lower total.
	Proven bool
}

// Priced says whether the price of any of its lines is known.
func (o *Order) Priced() bool { return o.Unpriced < len(o.Lines) }

// FilledUp says whether goods were added because less is not delivered; if goods
// were added and it is not so, they were added to have delivery free.
func (o *Order) FilledUp() bool { return o.Added > 0 && o.Goods-o.Added < o.Supplier.Minimum }

// Purchase is everything to buy for a unit. It is not changed once made.
type Purchase struct {
	Orders []Order // in the order of the list's suppliers, what has none named last
	Held   []Line  // what is on hand in full, in the order of the items

	Goods, Freight, Duty, Total measure.Money // of all orders

	Unpriced int           // lines of orders without a price
	Worth    measure.Money // of all the unit needs, on hand or not
	Wants    int           // things needed that Worth leaves out, for want of a price
}

// Empty says whether there is nothing to tell: no items at all.
func (p *Purchase) Empty() bool { return len(p.Orders) == 0 && len(p.Held) == 0 }

// Priced says whether any price is known.
func (p *Purchase) Priced() bool {
	for i := range p.Orders {
		if p.Orders[i].Priced() {
			return true
		}
	}
	for _, l := range p.Held {
		if l.Priced {
			return true
		}
	}
	return false
}

// Short is how many pieces are missing, and of how many items.
func (p *Purchase) Short() (pieces, items int) {
	for _, o := range p.Orders {
		for _, l := range o.Lines {
			pieces += l.Short
		}
		items += len(o.Lines)
	}
	return pieces, items
}
