package unit

import (
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Least heights a row is given room for where the plan does not say how high
// its goods are stacked. Common practice: a pile of folded tops reads as a pile
// from four, and a sample shoe stands on at least one of its boxes.
const (
	leastFold  = 4
	leastBoxed = 1
	// A pile of folded garments falls over beyond about a foot. Common practice.
	greatestPile = measure.Foot
	// Boxes of one style in the shoe's own column, unless stack: says more.
	usualBoxes = 3
)

// need works out the room a row asks for over and under its slot: its
// hardware, the goods standing on it with a hand over them, the goods hanging
// from it.
func (d *draft) need() {
	d.above, d.below = d.part.Above, d.part.Below
	if d.bracket != nil {
		d.above, d.below = max(d.above, d.bracket.Above), max(d.below, d.bracket.Below)
	}
	for _, e := range d.extras {
		d.below = max(d.below, e.Below)
	}
	for _, a := range d.asks {
		above, below := d.goodsNeed(a.product)
		d.above, d.below = max(d.above, above), max(d.below, below)
	}
}

// goodsNeed is the room a product asks for over and under the row's slot.
func (d *draft) goodsNeed(p *goods.Product) (above, below measure.Length) {
	box := d.goodsBox(p, d.leastHigh(p))
	return box.Y1 + d.part.Headroom, -box.Y0
}

// hanging reports whether goods hang from the part rather than stand on it.
func hanging(k parts.Kind) bool {
	return k == parts.Hook || k == parts.FaceOut || k == parts.Rail || k == parts.Bar
}

// leastHigh is how many units high the goods must be able to stand.
func (d *draft) leastHigh(p *goods.Product) int {
	if hanging(d.part.Kind) || d.part.Kind == parts.Shoe {
		return 1
	}
	switch p.Form {
	case goods.Fold:
		return leastOf(p.Stack, leastFold)
	case goods.Boxed:
		return leastOf(p.Stack, leastBoxed)
	default:
		return 1
	}
}

func leastOf(stack, least int) int {
	if stack > 0 {
		return min(stack, least)
	}
	return least
}

// mostHigh is how many units high they may stand with that much clear height
// over what they stand on, a hand's room left free.
func (d *draft) mostHigh(p *goods.Product, clear measure.Length) int {
	least := d.leastHigh(p)
	if hanging(d.part.Kind) || d.part.Kind == parts.Shoe {
		return least
	}
	cap := max(p.Stack, 1)
	room := clear - d.part.Headroom
	switch {
	case p.Form == goods.Fold && p.Stack == 0:
		cap, room = int(greatestPile/p.Height), min(room, greatestPile)
	case p.Form == goods.Boxed:
		if p.Stack == 0 {
			cap = usualBoxes
		}
		room -= p.Height // the sample on top
	}
	return max(least, min(cap, int(room/p.Height)))
}

// goodsBox is the upright size of one front of a product high units high,
// relative to the row's slot; only Y0, Y1, D0 and D1 are set.
func (d *draft) goodsBox(p *goods.Product, high int) Box {
	part := d.part
	b := Box{D1: part.Depth}
	switch {
	case part.Kind == parts.Rail:
		// Garments hang square to the panel, their middle under the bar.
		b.Y0, b.Y1 = part.Bearing-p.Height, part.Bearing
		b.D0, b.D1 = max(0, part.Depth-p.Width/2), part.Depth+p.Width/2
	case hanging(part.Kind):
		// A card hangs by its hole, and stands up over the peg as far as its top.
		up := min(p.Hole, p.Height)
		b.Y0, b.Y1 = part.Bearing+up-p.Height+min(part.Lip, 0), part.Bearing+up
		b.D1 = min(part.Usable, measure.Length(d.deep(p))*p.Depth)
	case d.sectioned():
		b.Y0, b.Y1 = part.Bearing, part.Above
		b.D1 = part.Usable
	default:
		stack := measure.Length(high) * p.Height
		if p.Form == goods.Boxed && part.Kind != parts.Shoe {
			stack += p.Height // the sample on top
		}
		b.Y0, b.Y1 = part.Bearing+min(part.Lip, 0), part.Bearing+stack
		if part.Kind == parts.Shelf || part.Kind == parts.Shoe {
			b.Y0 = part.Bearing // a nose or lip below the board lifts nothing
		}
		b.D1 = measure.Length(d.deep(p)) * p.Depth
	}
	return b
}

// deep is how many units stand or hang one behind another, at least one: goods
// deeper than their part stick out, which is a finding, not fewer than one.
func (d *draft) deep(p *goods.Product) int {
	usable := d.part.Usable
	if d.part.Kind == parts.FaceOut && d.part.Steps > 1 {
		return d.part.Steps
	}
	if p.Form == goods.Fold {
		return 1
	}
	return max(1, int(usable/max(p.Depth, 1)))
}
