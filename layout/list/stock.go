package list

import (
	"cmp"
	"slices"

	"setwright/layout/goods"
	"setwright/layout/unit"
)

// StockLine is one product, wherever it stands and hangs: what its positions
// hold together, and what to bring to fill them.
type StockLine struct {
	Product *goods.Product
	Keys    []KeyLine // its positions in walking order

	Fronts, Units, Look int // of all its positions
	Reorder             int // units left at which to bring more
	// Cases to bring to fill all from empty, and how many units of the last one
	// find no room. Without a case size Cases is 0.
	Cases, Over int
	// Days the full positions last at the sales given; -1 if none are.
	Days int
}

// Stock lists every product of a unit by name, then by SKU.
func Stock(u *unit.Unit) []StockLine {
	var lines []StockLine
	at := map[string]int{}
	for _, key := range Key(u) {
		p := key.Position
		i, there := at[p.Product.SKU]
		if !there {
			i = len(lines)
			at[p.Product.SKU] = i
			lines = append(lines, StockLine{Product: p.Product})
		}
		l := &lines[i]
		l.Keys = append(l.Keys, key)
		l.Days = p.Days // the whole unit's
		l.Fronts += len(p.Fronts)
		l.Units += p.Units
		l.Look += p.Look
		l.Reorder += key.Reorder
	}
	for i := range lines {
		lines[i].count()
	}
	slices.SortFunc(lines, func(a, b StockLine) int {
		return cmp.Or(cmp.Compare(a.Product.Name, b.Product.Name), cmp.Compare(a.Product.SKU, b.Product.SKU))
	})
	return lines
}

// count works out what follows from the sums.
func (l *StockLine) count() {
	if l.Product.Case > 0 {
		l.Cases = ceil(l.Units, l.Product.Case)
		l.Over = l.Cases*l.Product.Case - l.Units
	}
}

// heldBySKU is how many units all positions of a product hold together.
func heldBySKU(lines []KeyLine) map[string]int {
	held := map[string]int{}
	for _, l := range lines {
		held[l.Position.Product.SKU] += l.Position.Units
	}
	return held
}

// reorder is the stock at which a position needs more: what it takes to look
// full, and what is sold there until more comes. A product's sales are shared
// among its positions by what they hold. A position is never to be filled
// before anything is gone from it.
func reorder(u *unit.Unit, p *unit.Position, held int) int {
	sold := 0
	if held > 0 {
		sold = ceil(p.Product.Weekly*u.Plan.Restock*p.Units, 7*held)
	}
	return max(0, min(p.Look+sold, p.Units-1))
}
