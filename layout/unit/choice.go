package unit

import (
	"fmt"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// Limits of height for single goods, which the checks judge by and a fill keeps
// to. Common practice.
const (
	HeavyPiece  = 5 * measure.Kilogram      // from this weight on goods go no higher than HeavyHeight
	HeavyHeight = 48 * measure.Inch         // what they stand on or hang from
	BreakHeight = 1500 * measure.Millimetre // breakable goods go no higher than this
)

// bin is a stretch that fronts of an open row share: a whole row of single
// pieces, or one piece that carries fronts side by side.
type bin struct {
	d     *draft
	piece int
	full  int64 // the room for widths, each with the gap after it
	room  int64 // as much of it as is used
	load  int64 // greatest weight, or number of single pieces; 0: no limit
}

// bins are the stretches of a row, from the left.
func (d *draft) bins() []*bin {
	n := 1
	b := bin{d: d}
	switch {
	case single(d.part.Kind) && d.decl.Every > 0:
		b.room = int64(d.everyCount())
		if d.decl.Count > 0 {
			b.room = min(b.room, int64(d.decl.Count))
		}
	case single(d.part.Kind):
		b.room, b.load = int64(d.x1-d.x0+d.gap()), int64(d.decl.Count)
	case d.part.Kind == parts.Bar:
		n, b.room = d.startPieces(), int64(d.part.Pegs)
	default:
		n, b.room, b.load = d.startPieces(), int64(d.part.Run()+d.gap()), int64(d.carries())
	}
	b.full = b.room
	list := make([]*bin, n)
	for i := range list {
		again := b
		again.piece = i
		list[i] = &again
	}
	return list
}

// narrow uses a little less of the room.
func (b *bin) narrow(step int64) {
	if b.counted() {
		step = 1
	}
	b.room = max(0, b.room-step)
}

// counted bins have room for so many fronts, whatever their widths.
func (b *bin) counted() bool {
	return b.d.part.Kind == parts.Bar || single(b.d.part.Kind) && b.d.decl.Every > 0
}

// width is what fronts of a product take of the bin's room.
func (b *bin) width(p *goods.Product, fronts int) int64 {
	if b.counted() {
		return int64(fronts)
	}
	return int64(fronts) * int64(b.d.sectionWidth(p)+b.d.gap())
}

// weight is what fronts of a product take of the bin's load.
func (b *bin) weight(p *goods.Product, fronts, units int) int64 {
	if single(b.d.part.Kind) {
		return int64(fronts)
	}
	return int64(fronts) * int64(units) * int64(p.Weight)
}

// sectionWidth is frontWidth, and of parts shared in sections the narrowest
// section that is of use: a handful of garments, a unit of loose goods.
func (d *draft) sectionWidth(p *goods.Product) measure.Length {
	const handful = 6
	switch {
	case d.part.Kind == parts.Rail:
		return min(handful*p.Depth, d.part.Run())
	case p.Form == goods.Loose:
		return min(p.Width, d.part.Run())
	default:
		return d.frontWidth(p)
	}
}

// carries is the most that goods on one piece may weigh: its own rating, and
// what its brackets bear. A shelf on more than two brackets leans most on the
// inner ones: 5/8 of an even load on the middle one of three, and at most 1.15
// times a span's load on those of more (continuous beams of equal spans, AISC
// Manual table 3-22c: 1.143 wl; from memory).
func (d *draft) carries() measure.Mass {
	most := d.part.Rated
	if d.bracket == nil || d.bracket.Rated == 0 {
		return most
	}
	n := measure.Mass(bracketCount(d.part.Width, d.part.Needs.Every))
	on := n * d.bracket.Rated
	switch {
	case n == 3:
		on = d.bracket.Rated * 8 / 5
	case n > 3:
		on = (n - 1) * d.bracket.Rated * 100 / 115
	}
	on = max(on-d.part.Weight, 1)
	if most == 0 {
		return on
	}
	return min(most, on)
}

// choice is one product of a filling, and the fronts it might get where.
type choice struct {
	product *goods.Product
	ask     ask
	block   int // its place among the families and products of the fill
	least   int
	options []option
	width   measure.Length // of a front
	densest int            // the most units a front holds
	most    int64          // the greatest worth of any option
	why     string         // it has no option at all
}

// option is so many fronts of a product in one bin.
type option struct {
	bin    *bin
	index  int // the bin's
	fronts int
	units  int // a front holds
	value  int64
}

// offer lists the options of a product in a bin.
func (c *choice) offer(b *bin, index int, clear measure.Length) {
	p := c.product
	units := b.d.holds(p, clear)
	most := p.Max
	if b.d.isSectioned(p) {
		most = 1
	}
	for k := c.least; most == 0 || k <= most; k++ {
		if b.width(p, k) > b.room || b.load > 0 && b.weight(p, k, units) > b.load {
			return
		}
		c.options = append(c.options, option{bin: b, index: index, fronts: k, units: units})
	}
}

// isSectioned reports whether goods like that share the part in sections.
func (d *draft) isSectioned(p *goods.Product) bool {
	return d.part.Kind == parts.Rail || p.Form == goods.Loose && d.part.Kind == parts.Basket
}

// holds is how many units one front of a product takes under that much clear
// height over the row's slot.
func (d *draft) holds(p *goods.Product, clear measure.Length) int {
	high := d.mostHigh(p, clear-d.part.Bearing)
	box := d.goodsBox(p, high)
	box.X1 = d.sectionWidth(p)
	return d.holding(Front{Box: box, High: high, Deep: d.deep(p)}, p).Units
}

// refuses says why a product of a fill does not go into a row, "" if it does,
// and how near it came: a wrong form is farthest.
func (r *resolver) refuses(d *draft, p *goods.Product) (why string, near int) {
	part, box, height := d.part, d.goodsBox(p, d.leastHigh(p)), d.row.Height+d.part.Bearing
	mass := func(m measure.Mass) string { return m.Text(r.plan.Measure) }
	full := measure.Mass(d.holds(p, d.over)) * p.Weight
	for near, test := range []struct {
		refused bool
		why     func() string
	}{
		{!part.Takes(p.Form), func() string { return fmt.Sprintf("%s takes no goods of form %s", part.ID, p.Form) }},
		{d.sectionWidth(p) > d.room(), func() string {
			return fmt.Sprintf("it is %s wide, %s has %s", r.text(p.Width), part.ID, r.text(d.room()))
		}},
		{d.sticksOut(p), func() string {
			return fmt.Sprintf("it is %s deep, %s has %s", r.text(p.Depth), part.ID, r.text(part.Usable))
		}},
		{box.Y1+part.Headroom > d.over, func() string {
			return fmt.Sprintf("it takes %s over the slot with a hand over it, the row has %s", r.text(box.Y1+part.Headroom), r.text(d.over))
		}},
		{-box.Y0 > d.under, func() string {
			return fmt.Sprintf("it hangs %s down, the row has %s", r.text(-box.Y0), r.text(d.under))
		}},
		{p.Weight >= HeavyPiece && height > HeavyHeight, func() string {
			return fmt.Sprintf("it weighs %s and would be higher than %s", mass(p.Weight), r.text(HeavyHeight))
		}},
		{p.Breakable && height > BreakHeight, func() string { return "it is breakable and would be higher than " + r.text(BreakHeight) }},
		{part.Rated > 0 && p.Weight > part.Rated, func() string {
			return fmt.Sprintf("it weighs %s, %s is rated %s", mass(p.Weight), part.ID, mass(part.Rated))
		}},
		{single(part.Kind) && part.Rated > 0 && full > part.Rated, func() string {
			return fmt.Sprintf("a full %s of it weighs %s, rated %s", part.ID, mass(full), mass(part.Rated))
		}},
	} {
		if test.refused {
			return test.why(), near
		}
	}
	return "", 0
}

// tier is how heavy or large goods are, from 0: in one family the heavier and
// larger stand lower. House rule: from 1 kg or 12 in, and from 5 kg or 24 in.
func tier(p *goods.Product) int {
	size := max(p.Width, p.Height)
	switch {
	case p.Weight >= HeavyPiece || size >= 24*measure.Inch:
		return 2
	case p.Weight >= measure.Kilogram || size >= 12*measure.Inch:
		return 1
	default:
		return 0
	}
}

// aimOf is what a fill is for: its own aim or the plan's.
func (r *resolver) aimOf(f *plan.Fill) plan.Aim {
	if f != nil && f.Aim != "" {
		return f.Aim
	}
	return r.plan.Aim
}
