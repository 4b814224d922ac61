package unit

import (
	"fmt"
	"sort"
	"strings"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Finger gaps: the least air between two fronts, so that one can be taken
// without its neighbour. Common practice; a row's gap: overrides them.
const (
	hookGap  = measure.Inch / 2
	shelfGap = measure.Inch / 4
)

func (d *draft) gap() measure.Length {
	switch {
	case d.decl.Gap > 0:
		return d.decl.Gap
	case single(d.part.Kind) || d.part.Kind == parts.Bar:
		return hookGap
	default:
		return shelfGap
	}
}

// dropTooWide leaves out goods that no arrangement could take.
func (r *resolver) dropTooWide(d *draft) {
	room := d.room()
	kept := d.asks[:0:0]
	for _, a := range d.asks {
		if w := d.frontWidth(a.product); w > room {
			r.fail(a.decl.SKU.At, "goods-too-wide", fmt.Sprintf("%s is %s wide, and %s in this row takes %s at most",
				a.product.SKU, r.text(a.product.Width), d.part.ID, r.text(room)), "goods that fit the row", r.nearestUse(d, a.product, a.product.Weight))
			continue
		}
		kept = append(kept, a)
	}
	d.asks = kept
}

// room is the width one run of fronts has: the span for hooks, one piece for
// what carries fronts side by side.
func (d *draft) room() measure.Length {
	switch {
	case single(d.part.Kind):
		return d.x1 - d.x0
	case d.part.Kind == parts.Bar:
		return d.part.Width / measure.Length(max(d.part.Pegs, 1))
	default:
		return d.part.Run()
	}
}

// frontWidth is what one front takes sideways. Garments on a rail and loose
// goods in a basket share it in sections instead, and so never fail to fit.
func (d *draft) frontWidth(p *goods.Product) measure.Length {
	switch {
	case d.sectioned():
		return 0
	case single(d.part.Kind):
		return max(p.Width, d.part.Width)
	default:
		return p.Width
	}
}

// sectioned parts are shared out evenly between their products rather than
// filled front by front.
func (d *draft) sectioned() bool {
	if d.part.Kind == parts.Rail {
		return true
	}
	for _, a := range d.asks {
		if a.product.Form == goods.Loose {
			return d.part.Kind == parts.Basket
		}
	}
	return false
}

// opening is the fronts to begin with: those given, or the least of the open.
func (d *draft) opening() []int {
	counts := make([]int, len(d.asks))
	for i, a := range d.asks {
		counts[i] = a.fronts
		if a.fronts == 0 {
			counts[i] = max(1, a.product.Min)
		}
	}
	return counts
}

// shrink takes one front off the product that has most of those with more than
// their least, the last of equals; it reports false when there is none.
func shrink(counts, least []int) bool {
	at := -1
	for i, n := range counts {
		if n > least[i] && (at < 0 || n >= counts[at]) {
			at = i
		}
	}
	if at < 0 {
		return false
	}
	counts[at]--
	return true
}

// reportShort says which fronts asked for did not fit.
func (d *draft) reportShort(r *resolver, counts []int) {
	var lost []string
	want, got := 0, 0
	for i, n := range d.opening() {
		want, got = want+n, got+counts[i]
		if counts[i] < n {
			lost = append(lost, fmt.Sprintf("%s %d", d.asks[i].product.SKU, counts[i]))
		}
	}
	if got == want || d.copy > 1 {
		return
	}
	what, room := "the span", d.x1-d.x0
	if d.decl.Count > 0 && single(d.part.Kind) {
		r.stop(d.decl.CountAt, "too-few-hooks", fmt.Sprintf("%s asked for on %d of %s", counted(want, "front"), d.decl.Count, d.part.ID),
			fmt.Sprintf("count: %d, or fewer fronts (%s)", want, strings.Join(lost, ", ")))
		return
	}
	if !single(d.part.Kind) {
		what, room = fmt.Sprintf("%d × %s", d.pieces, d.part.ID), measure.Length(d.pieces)*d.part.Run()
	}
	need := d.runWidth(d.opening())
	r.stop(d.decl.Use.At, "fronts-do-not-fit", fmt.Sprintf("%s need %s and %s takes %s", counted(want, "front"), r.text(need), what, r.text(room)),
		fmt.Sprintf("at most %s: %s", counted(got, "front"), strings.Join(lost, ", ")))
}

// runWidth is the least width of all fronts in one run.
func (d *draft) runWidth(counts []int) measure.Length {
	var w measure.Length
	n := 0
	for i, a := range d.asks {
		w += measure.Length(counts[i]) * d.frontWidth(a.product)
		n += counts[i]
	}
	return w + measure.Length(max(n-1, 0))*d.gap()
}

func (d *draft) isOpen() bool {
	for _, a := range d.asks {
		if a.fronts == 0 {
			return true
		}
	}
	return false
}

// spell writes the fronts out, from the left.
func (d *draft) spell(counts []int) []*goods.Product {
	var fronts []*goods.Product
	for i, a := range d.asks {
		for range counts[i] {
			fronts = append(fronts, a.product)
		}
	}
	return fronts
}

// spans reports rows that take up their span even when they need not: a bay is
// given a shelf, not a part of one.
func (d *draft) spans() bool { return d.part.Kind == parts.Shelf || d.part.Kind == parts.Slope }

// bareHooks makes a row of single pieces as long as its count asks, or without
// goods as its every: fills the span; hooks beyond the goods hang bare.
func (d *draft) bareHooks(r *resolver) {
	n := d.decl.Count
	switch {
	case n > 0 || len(d.asks) > 0:
	case d.decl.Every > 0:
		n = d.everyCount()
	default:
		n = 1
	}
	if bare := n - len(d.fronts); bare > 0 {
		if len(d.asks) > 0 && d.copy <= 1 {
			r.note(d.decl.Use.At, "bare-hooks", fmt.Sprintf("%d of %d %s carry nothing", bare, n, d.part.ID))
		}
		for range bare {
			d.fronts = append(d.fronts, nil)
		}
	}
	d.pieces = len(d.fronts)
}

// everyCount is how many bare pieces go into the span at the spacing asked for.
func (d *draft) everyCount() int {
	most := int((d.x1-d.x0-d.part.Width)/d.decl.Every) + 1
	return sort.Search(most, func(n int) bool {
		_, ok := d.spaced(make([]*goods.Product, n+1), nil).Solve()
		return !ok
	})
}

// counted is a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
