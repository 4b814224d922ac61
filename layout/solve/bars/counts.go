package bars

import (
	"math"
	"math/big"
	"slices"

	"setwright/layout/solve/lp"
)

// cut is a rule that sets of bars must keep: what they are worth at most, under
// worths of the kinds of pieces, is not less than the worth of all that is needed.
type cut struct {
	worth []int64 // by kind of piece
	most  []int64 // by kind of bar: no pattern of it is worth more
}

// exceeds says whether amounts are worth more than what bars can be worth.
func exceeds(worth, need, most, bars []int64) bool {
	near, size := 0.0, 0.0
	for k, n := range need {
		product := float64(worth[k]) * float64(n)
		near, size = near+float64(product), size+float64(product)
	}
	for b, n := range bars {
		product := float64(most[b]) * float64(n)
		near, size = near-float64(product), size+float64(product)
	}
	if terms := len(need) + len(bars); math.Abs(near) > size*float64(terms+2)*1e-15 {
		return near > 0 // rounding is less: each term and sum is true to 1.2e-16 of size
	}
	var sum, term big.Int
	for k, n := range need {
		sum.Add(&sum, term.Mul(big.NewInt(worth[k]), big.NewInt(n)))
	}
	for b, n := range bars {
		sum.Sub(&sum, term.Mul(big.NewInt(most[b]), big.NewInt(n)))
	}
	return sum.Sign() > 0
}

// counts looks for the cheapest set of bars that keeps all cuts and is not part of
// an excluded set: branch and bound over boxes, with bounds from linear programs
// whose duals are rounded so that the bounds hold exactly.
type counts struct {
	*budget
	price    []int64
	limit    []int64
	need     []int64
	cuts     []cut
	excluded [][]int64

	ceiling int64 // only cheaper sets are wanted
	best    []int64
}

// box holds the sets of at least low and at most high of each kind of bar.
type box struct{ low, high []int64 }

// cheapest returns the cheapest set with a total below the ceiling, or nil. The
// second result is false if the effort ran out.
func (c *counts) cheapest(ceiling int64) (set []int64, complete bool) {
	c.ceiling, c.best = ceiling, nil
	open := []box{{make([]int64, len(c.price)), c.limit}}
	for visits := 0; len(open) > 0; visits++ {
		if visits > free && c.spent() {
			return nil, false
		}
		top := open[len(open)-1]
		open = append(open[:len(open)-1], c.visit(top)...)
	}
	return c.best, true
}

// free is how many boxes are visited whatever the effort: a bound there must be.
const free = 500

// visit bounds a box and returns the parts that it falls into, the most promising
// last.
func (c *counts) visit(x box) []box {
	for b := range x.low {
		if x.low[b] > x.high[b] {
			return nil
		}
	}
	c.spend(int64(200 * (1 + len(c.cuts)) * len(c.price)))
	values, multipliers, short := c.relax(x)
	if c.hopeless(x, multipliers, short) {
		return nil
	}
	set := make([]int64, len(values))
	for b, v := range values {
		r := math.Round(v)
		if math.Abs(v-r) > whole {
			return x.split(b, int64(math.Floor(v)))
		}
		set[b] = min(max(int64(r), x.low[b]), x.high[b])
	}
	for i := range c.cuts {
		if exceeds(c.cuts[i].worth, c.need, c.cuts[i].most, set) {
			return x.without(set)
		}
	}
	for _, e := range c.excluded {
		if within(set, e) {
			return x.outside(e)
		}
	}
	if price := total(c.price, set); price < c.ceiling {
		c.ceiling, c.best = price, set
		if c.hopeless(x, multipliers, false) {
			return nil
		}
	}
	return x.without(set)
}

// breach is the cost of breaking a cut, in bars of the dearest kind to one that the
// cut is short of.
const breach = 1000

// relax solves the linear program of a box: values by kind of bar, a multiplier for
// each cut, and whether cuts had to be broken.
func (c *counts) relax(x box) (values, multipliers []float64, short bool) {
	var p lp.Program
	dearest := float64(slices.Max(c.price))
	scale := make([]float64, len(c.cuts))
	for i, k := range c.cuts {
		scale[i] = float64(max(1, slices.Max(k.most)))
		bound := 0.0
		for j, n := range c.need {
			bound += float64(float64(k.worth[j]) * float64(n))
		}
		for b, n := range x.low {
			bound -= float64(float64(k.most[b]) * float64(n))
		}
		p.AddRow(lp.AtLeast, bound/scale[i], nil)
	}
	for b := range c.price {
		p.AddRow(lp.AtMost, float64(x.high[b]-x.low[b]), nil)
	}
	for b, price := range c.price {
		entries := []lp.Entry{{Index: len(c.cuts) + b, Value: 1}}
		for i, k := range c.cuts {
			entries = append(entries, lp.Entry{Index: i, Value: float64(k.most[b]) / scale[i]})
		}
		p.AddColumn(float64(price)/dearest, entries)
	}
	for i := range c.cuts {
		p.AddColumn(breach, []lp.Entry{{Index: i, Value: 1}})
	}
	solved := p.Solve() == lp.Optimal
	for b, n := range x.low {
		values = append(values, float64(n)+p.Value(b))
	}
	for i := range c.cuts {
		d := 0.0
		if solved {
			d = p.Dual(i) * dearest / scale[i]
			short = short || p.Value(len(c.price)+i) > whole
		}
		multipliers = append(multipliers, d)
	}
	return values, multipliers, short
}

// hopeless says whether no set of a box is cheaper than the ceiling or, if short,
// whether none keeps the cuts: multipliers are rounded to integers, and each kind of
// bar taken at the end of its range that is best for the sum.
func (c *counts) hopeless(x box, multipliers []float64, short bool) bool {
	_, digits := math.Frexp(slicesMax(multipliers))
	shift := max(0, 50-digits)
	var sum, term, rest, each big.Int
	weight := make([]*big.Int, len(multipliers))
	for i, m := range multipliers {
		weight[i] = big.NewInt(int64(math.Ldexp(m, shift)))
		if m < 0 || math.IsNaN(m) || digits > 60 {
			return false
		}
		for k, n := range c.need {
			term.Mul(big.NewInt(c.cuts[i].worth[k]), big.NewInt(n))
			sum.Add(&sum, term.Mul(&term, weight[i]))
		}
	}
	for b, price := range c.price {
		rest.SetInt64(0)
		if !short {
			rest.Lsh(each.SetInt64(price), uint(shift))
		}
		for i := range multipliers {
			rest.Sub(&rest, term.Mul(weight[i], big.NewInt(c.cuts[i].most[b])))
		}
		n := x.low[b]
		if rest.Sign() < 0 {
			n = x.high[b]
		}
		sum.Add(&sum, term.Mul(&rest, big.NewInt(n)))
	}
	if short {
		return sum.Sign() > 0
	}
	return sum.Cmp(term.Lsh(big.NewInt(c.ceiling-1), uint(shift))) > 0
}

// split parts a box between a number of a kind of bar and the next.
func (x box) split(bar int, at int64) []box {
	few, many := x.clone(), x.clone()
	few.high[bar], many.low[bar] = at, at+1
	return []box{few, many}
}

// without parts what a box holds beside one of its sets.
func (x box) without(set []int64) (parts []box) {
	rest := x.clone()
	for b, n := range set {
		few, many := rest.clone(), rest.clone()
		few.high[b], many.low[b] = n-1, n+1
		parts = append(parts, few, many)
		rest.low[b], rest.high[b] = n, n
	}
	return parts
}

// outside parts what a box holds that has more of some kind than an excluded set.
func (x box) outside(excluded []int64) (parts []box) {
	rest := x.clone()
	for b, n := range excluded {
		many := rest.clone()
		many.low[b] = max(many.low[b], n+1)
		parts = append(parts, many)
		rest.high[b] = min(rest.high[b], n)
	}
	return parts
}

func (x box) clone() box { return box{slices.Clone(x.low), slices.Clone(x.high)} }

// within says whether a set is part of another.
func within(set, of []int64) bool {
	for b, n := range set {
		if n > of[b] {
			return false
		}
	}
	return true
}
