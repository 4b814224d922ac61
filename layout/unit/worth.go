package unit

import (
	"math/bits"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// Worth is counted in whole points, so that an allotment is the same on every
// machine: logarithms and roots are worked out in integers, one is this many.
const one = 1 << 20

// ln is the natural logarithm of num/den, in points of one; num >= den > 0.
func ln(num, den int64) int64 {
	const ln2 = 726817 // of one: 0.693147 × 2^20
	whole := int64(0)
	for num/2 >= den {
		den, whole = den*2, whole+1
	}
	// x is num/den in [1, 2), of 2^62; each squaring yields one binary digit.
	hi, lo := uint64(num)>>2, uint64(num)<<62
	x, _ := bits.Div64(hi, lo, uint64(den))
	digits := int64(0)
	for range 20 {
		h, l := bits.Mul64(x, x)
		x = h<<2 | l>>62
		digits *= 2
		if x >= 1<<63 {
			x, digits = x/2, digits+1
		}
	}
	return (whole*one + digits) * ln2 / one
}

// root6 is the sixth root of k, in points of one: e to the power of ln k / 6.
func root6(k int64) int64 {
	x := ln(k, 1) / 6
	sum, term := int64(one), int64(one)
	for n := int64(1); term > 0; n++ {
		term = term * x / (one * n)
		sum += term
	}
	return sum
}

// Zones of height for the aim of profit: what is between knee and eye sells
// best. House rule: Hansen, Raut and Swami (2010) found a place's height to
// count about twice as much as its place along the shelf, but no published
// figures suit all shops.
const (
	handLow, handHigh  = 36 * measure.Inch, 62 * measure.Inch
	reachLow, reachTop = 24 * measure.Inch, 70 * measure.Inch
)

// percentAt is what a place at that height sells of what the best place would.
func percentAt(height measure.Length) int64 {
	switch {
	case height >= handLow && height <= handHigh:
		return 100
	case height >= reachLow && height <= reachTop:
		return 85
	default:
		return 70
	}
}

// cover is the worth of units of a product for even days of supply: the room
// that what is sold in a week takes, times the logarithm of one and the days the
// units last. So the worth of a little more room is the less the longer what is
// there lasts already, and the same for all products that last equally long:
// where room can be shared at will, the best allotment is that in which all last
// equally long. Room is the width of a front over the units it holds. A product
// whose sales are not known counts as if one were sold a week.
func cover(p *goods.Product, width measure.Length, perFront, units int) int64 {
	weekly := int64(max(p.Weekly, 1))
	room := int64(width / (10 * measure.Micrometre))
	const limit = 1 << 48 // keeps the sum of all products inside an int64
	return min(limit, room*weekly/int64(max(perFront, 1))*(ln(weekly+7*int64(units), weekly)/16))
}

// profit is what fronts of a product earn in a week, in hundredths of the
// currency times one: what is earned on what is sold, by the sixth root of the
// fronts and by height. The sixth root is a space elasticity of 0.167; Eisend's
// meta-analysis (Journal of Retailing, 2014; from memory) found 0.17 on average.
func profit(p *goods.Product, fronts int, height measure.Length) int64 {
	earned := max(0, hundredths(p.Price)-hundredths(p.Cost)) * int64(p.Weekly)
	const limit = 1 << 36 // of what is earned in a week: keeps the product inside an int64
	return min(earned, limit) * (root6(int64(fronts)) / 1024) / 100 * percentAt(height)
}

// hundredths reads a decimal as hundredths; what is finer is cut off.
func hundredths(s string) int64 {
	n, places := int64(0), -1
	for _, c := range s {
		switch {
		case c == '.':
			places = 0
		case c >= '0' && c <= '9' && places < 2 && n < 1<<40:
			n = 10*n + int64(c-'0')
			if places >= 0 {
				places++
			}
		}
	}
	for ; places < 2; places++ {
		if places >= 0 {
			n *= 10
		}
	}
	if places < 0 {
		n *= 100
	}
	return n
}

// worth gives each option's value under an aim, scaled so that an allotment of
// all of them stays far inside what the search can multiply.
func worth(aim plan.Aim, fill *filling) {
	each(fill, func(c *choice, o *option) {
		c.densest = max(c.densest, o.units)
		c.width = o.bin.d.sectionWidth(c.product) + o.bin.d.gap()
	})
	most := int64(0) // the sum of each product's best
	each(fill, func(c *choice, o *option) {
		switch aim {
		case plan.Profit:
			o.value = profit(c.product, o.fronts, o.bin.d.row.Height)
		default:
			o.value = cover(c.product, c.width, c.densest, o.fronts*o.units)
		}
		c.most = max(c.most, o.value)
	})
	for _, c := range fill.choices {
		most += c.most
	}
	const plenty = 1_000_000_000
	scale := 1 + most/plenty
	if aim == plan.Range {
		// As many products as there is room for; of as many, the evenest supply.
		scale = 1 + most/(plenty/1000)
	}
	each(fill, func(_ *choice, o *option) {
		o.value /= scale
		if aim == plan.Range {
			o.value += most/scale + 1
		}
	})
}

// each visits every option of a filling.
func each(fill *filling, visit func(*choice, *option)) {
	for _, c := range fill.choices {
		for i := range c.options {
			visit(c, &c.options[i])
		}
	}
}
