package reset

import (
	"setwright/layout/measure"
	"setwright/layout/solve/assign"
	"setwright/layout/unit"
)

// distance is how far apart two boxes are from middle to middle, along X, Y and
// Z.
func distance(a, b unit.Solid) measure.Length {
	off := func(d measure.Length) measure.Length { return max(d, -d) / 2 }
	return off(a.X0+a.X1-b.X0-b.X1) + off(a.Y0+a.Y1-b.Y0-b.Y1) + off(a.Z0+a.Z1-b.Z0-b.Z1)
}

// savedGoods is how many seconds are saved by goods that stay on a piece which
// is left or slid.
func savedGoods(o, n *hung) int {
	sum := 0
	for _, pair := range along(o, n) {
		sum += pair.saves
	}
	return sum
}

// keeping is a facing that stays on its piece.
type keeping struct {
	from, to *shown
	saves    int // seconds
}

// along pairs the facings that stay on a piece, so that they save the most: those
// in their spot are left, and on a shelf, in a basket or on a rail others are
// nudged. None passes another.
func along(o, n *hung) []keeping {
	var list []keeping
	for _, pair := range aligned(o.goods, n.goods, worthStaying) {
		from, to := o.goods[pair[0]], n.goods[pair[1]]
		list = append(list, keeping{from, to, stays(from, to)})
	}
	return list
}

// worthStaying is what stays says, and less for each inch of way, which tells
// between facings that save as much.
func worthStaying(f, g *shown) int64 {
	saved := stays(f, g)
	if saved == 0 {
		return 0
	}
	d := (f.at.x - g.at.x) / measure.Inch
	return int64(saved)<<20 - int64(min(max(d, -d), 1<<10))
}

// stays is how many seconds it saves that a facing stays on its piece to become
// another; 0 if it cannot.
func stays(f, g *shown) int {
	moved := f.at != g.at
	if f.ware != g.ware || moved && !runs(f.on.Piece.Part) {
		return 0
	}
	from, to := f.Front.Units, g.Front.Units
	saved := offSeconds(from) + onSeconds(to) - refill(from, to)
	if moved {
		saved -= nudgeTime
	}
	return saved
}

// carried pairs the facings that stay on pieces which are left or slid.
func (m *matcher) carried() {
	for _, o := range m.old.pieces {
		if o.partner == nil || o.way != Stay && o.way != Slide {
			continue
		}
		for _, k := range along(o, o.partner) {
			way := Stay
			switch {
			case k.from.at != k.to.at:
				way = Slide
			case o.way == Slide:
				way = Ride
			}
			pairUp(k.from, k.to, way)
		}
	}
}

func pairUp(from, to *shown, way Way) {
	from.partner, to.partner = to, from
	from.way, to.way = way, way
}

// onCart pairs the facings that come off with those of the same product to be
// filled: with as many units, on the same face, the nearest. That saves nothing
// more, for units are taken from the cart as they are needed; it tells the crew
// what goes where.
func (m *matcher) onCart() {
	off, fill := make([][]*shown, m.wares+1), make([][]*shown, m.wares+1)
	for _, f := range m.old.goods {
		if f.partner == nil {
			off[f.ware] = append(off[f.ware], f)
		}
	}
	for _, g := range m.new.goods {
		if g.partner == nil {
			fill[g.ware] = append(fill[g.ware], g)
		}
	}
	for ware := range off {
		nearest(off[ware], fill[ware])
	}
}

// nearest pairs facings of one product, or too many of them in sheet order.
func nearest(off, fill []*shown) {
	if len(off)*len(fill) > mostPairs {
		for i := range min(len(off), len(fill)) {
			pairUp(off[i], fill[i], Rehang)
		}
		return
	}
	cost := make([][]int64, len(off))
	for i, f := range off {
		cost[i] = make([]int64, len(fill))
		for k, g := range fill {
			d := int64(distance(f.Solid, g.Solid) / measure.Inch)
			if f.Face.ID != g.Face.ID {
				d += 1 << 13
			}
			unlike := int64(f.Front.Units - g.Front.Units)
			cost[i][k] = min(max(unlike, -unlike), 1<<12)<<26 + min(d, 1<<14)
		}
	}
	for i, k := range assign.Solve(cost).Column {
		if k >= 0 {
			pairUp(off[i], fill[k], Rehang)
		}
	}
}

// facings makes the facings of the reset and settles what comes from stock and
// goes there.
func (m *matcher) facings() []*Facing {
	var list []*Facing
	net := make([]int, m.wares+1) // units that the new unit has more
	add := func(f *Facing, ware int) {
		list = append(list, f)
		net[ware] += f.More()
	}
	for _, f := range m.old.goods {
		f.facing = &Facing{Product: f.Position.Product, From: &f.Spot, Way: Return}
		if g := f.partner; g != nil {
			g.facing, f.facing.To, f.facing.Way, f.facing.Product = f.facing, &g.Spot, f.way, g.Position.Product
			g.On = g.on.item
		}
		f.On = f.on.item
		add(f.facing, f.ware)
	}
	for _, g := range m.new.goods {
		if g.partner == nil {
			g.facing = &Facing{Product: g.Position.Product, To: &g.Spot, Way: Fetch}
			g.On = g.on.item
			add(g.facing, g.ware)
		}
	}
	for _, whole := range []bool{true, false} { // those that come or go whole first
		for _, goods := range [][]*shown{m.old.goods, m.new.goods} {
			for _, f := range goods {
				if w := f.facing.Way; f.facing.Stock == 0 && whole == (w == Fetch || w == Return) {
					f.facing.Stock = share(f.facing.More(), net[f.ware])
					net[f.ware] -= f.facing.Stock
				}
			}
		}
	}
	for _, f := range list {
		f.Seconds = f.seconds()
	}
	return list
}

// share is as much of what is wanted as is left, if both are of one sign.
func share(wanted, left int) int {
	switch {
	case wanted > 0 && left > 0:
		return min(wanted, left)
	case wanted < 0 && left < 0:
		return max(wanted, left)
	}
	return 0
}

// seconds is the time that all handling of a facing takes.
func (f *Facing) seconds() int {
	stock := max(f.Stock, -f.Stock) * stockEach
	switch f.Way {
	case Fetch:
		return stock + onSeconds(f.To.Front.Units)
	case Return:
		return stock + offSeconds(f.From.Front.Units)
	case Rehang:
		return stock + offSeconds(f.From.Front.Units) + onSeconds(f.To.Front.Units)
	case Slide:
		return stock + nudgeTime + refill(f.From.Front.Units, f.To.Front.Units)
	}
	return stock + refill(f.From.Front.Units, f.To.Front.Units)
}
