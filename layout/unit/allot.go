package unit

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/solve"
)

// filling is goods to be given fronts: in the rows of one fill, or in one row
// that lists them without numbers.
type filling struct {
	at      diag.Span
	aim     plan.Aim
	listed  bool // the row names them: each gets a front, and they stand in that order
	drafts  []*draft
	bins    []*bin
	choices []*choice
	bound   int64 // no allotment is worth more
	value   int64
	chosen  []int // by choice: its option, -1 if it is left out
	ran     bool  // fronts were allotted by the aim

	tightened bool // what is best by widths alone finds no places on a panel
}

// allotFaces settles the fronts of every row. A face that mirrors another takes
// its fronts over where it can.
func (r *resolver) allotFaces(u *Unit) {
	for _, mirrored := range []bool{false, true} {
		for _, f := range u.Faces {
			if model := r.mirrors(f.ID); (model != "") == mirrored {
				if !mirrored || !r.takeOver(f, model) {
					r.allotFace(f)
				}
			}
		}
	}
}

// mirrors is the face that this one is the same as, "" if it has rows of its own.
func (r *resolver) mirrors(id plan.FaceID) plan.FaceID {
	for _, d := range r.plan.Dress {
		if d.Face == id {
			return d.Same
		}
	}
	return ""
}

// allotFace settles the fronts of a face: first of rows that name their goods,
// then of its fills, in the order of the file, each with what is left.
func (r *resolver) allotFace(f *Face) {
	drafts := r.drafted[f.ID]
	over, under := rooms(f, drafts)
	used := r.named(f)
	fills := make(map[*plan.Fill]*filling)
	var order []*filling
	for i, d := range drafts {
		if d.fill == nil {
			r.allot(d, over[i])
			continue
		}
		fill := fills[d.fill]
		if fill == nil {
			fill = &filling{at: d.fill.Span, aim: r.aimOf(d.fill)}
			fills[d.fill] = fill
			order = append(order, fill)
		}
		d.over, d.under = over[i], under[i]
		fill.drafts = append(fill.drafts, d)
	}
	slices.SortStableFunc(order, func(a, b *filling) int { return a.at.Line - b.at.Line })
	for _, fill := range order {
		fill.choices = r.pool(fill.drafts[0].fill, used)
		r.fillRows(fill, used)
	}
}

// takeOver gives a mirrored face the fronts of its model, the other way round,
// and reports false if the two faces are not alike.
func (r *resolver) takeOver(f *Face, model plan.FaceID) bool {
	from, to := r.drafted[model], r.drafted[f.ID]
	if len(from) != len(to) {
		return false
	}
	for i, d := range to {
		m := from[i]
		if d.decl != m.decl || d.copy != m.copy || d.row.Height != m.row.Height || d.x1-d.x0 != m.x1-m.x0 {
			return false
		}
	}
	for i, d := range to {
		m := from[i]
		d.asks, d.fronts, d.dealt = reversed(m.asks), reversed(m.fronts), reversed(m.dealt)
		d.pieces, d.filling = m.pieces, m.filling
		d.need()
	}
	return true
}

func reversed[T any](list []T) []T {
	list = slices.Clone(list)
	slices.Reverse(list)
	return list
}

// named is every product that rows of a face name, and so keep out of its fills.
func (r *resolver) named(f *Face) map[string]string {
	used := make(map[string]string)
	for _, d := range r.drafted[f.ID] {
		for _, a := range d.asks {
			used[a.product.SKU] = fmt.Sprintf("the row on line %d names it", d.decl.Span.Line)
		}
	}
	return used
}

// pool is what a fill may choose from, in the order of its blocks and of the
// goods files. What has its place already is there with no option.
func (r *resolver) pool(f *plan.Fill, used map[string]string) []*choice {
	var list []*choice
	for block := range f.Goods {
		g := &f.Goods[block]
		for _, p := range r.goodsOf(g) {
			if slices.ContainsFunc(list, func(c *choice) bool { return c.product == p }) {
				continue
			}
			decl := &plan.Facings{SKU: plan.Ref{Name: p.SKU, At: g.At}}
			list = append(list, &choice{product: p, ask: ask{product: p, decl: decl}, block: block, least: max(1, p.Min), why: used[p.SKU]})
		}
	}
	return list
}

// goodsOf is the product, or those of the family.
func (r *resolver) goodsOf(g *plan.FillGoods) []*goods.Product {
	if g.SKU != "" {
		if p, ok := r.goods.Find(g.SKU); ok {
			return []*goods.Product{p}
		}
		return nil
	}
	var list []*goods.Product
	for _, p := range r.goods.All() {
		if p.Family == g.Family {
			list = append(list, p)
		}
	}
	return list
}

// allot settles how many fronts each product of a row gets and how many pieces
// carry them. Fronts the plan gives are kept as long as they fit; open ones are
// allotted by the plan's aim.
func (r *resolver) allot(d *draft, over measure.Length) {
	counts := d.opening()
	d.pieces = d.startPieces()
	for none := make([]int, len(counts)); !d.fits(counts) && shrink(counts, none); {
	}
	d.reportShort(r, counts)
	if d.isOpen() && !d.sectioned() && slices.Equal(counts, d.opening()) {
		r.allotList(d, counts, over)
	}
	d.settleFronts(r, counts)
}

// allotList finds the best fronts for the goods a row lists, into counts. Where
// they only fit with one product's fronts apart, each keeps its least.
func (r *resolver) allotList(d *draft, counts []int, over measure.Length) {
	fill := &filling{at: d.decl.Span, aim: r.plan.Aim, listed: true, drafts: []*draft{d}, bins: d.bins()}
	for i, a := range d.asks {
		c := &choice{product: a.product, ask: a, block: i, least: counts[i]}
		for k, b := range fill.bins {
			c.offer(b, k, over)
		}
		fill.choices = append(fill.choices, c)
	}
	if !r.solveFilling(fill) {
		return
	}
	d.dealt = make([]int, len(fill.bins))
	for i, c := range fill.choices {
		o := &c.options[fill.chosen[i]]
		counts[i] = o.fronts
		d.dealt[o.index] += o.fronts
	}
	d.filling = fill
}

// fillRows gives the goods of a fill their rows and fronts.
func (r *resolver) fillRows(fill *filling, used map[string]string) {
	for _, d := range fill.drafts {
		d.pieces = d.startPieces()
		fill.bins = append(fill.bins, d.bins()...)
	}
	for _, c := range fill.choices {
		if c.why == "" {
			r.offers(fill, c)
		}
	}
	if r.solveFilling(fill) {
		for i, c := range fill.choices {
			if fill.chosen[i] >= 0 {
				used[c.product.SKU] = fmt.Sprintf("the fill on line %d has placed it", fill.at.Line)
			}
		}
	}
	for _, d := range fill.drafts {
		r.dress(d, fill)
	}
}

// offers lists what a product may get in every row of a fill, or why nothing:
// of several reasons the one that comes nearest to fitting.
func (r *resolver) offers(fill *filling, c *choice) {
	nearest := -1
	for k, b := range fill.bins {
		why, near := r.refuses(b.d, c.product)
		switch {
		case why == "":
			c.offer(b, k, b.d.over)
		case near > nearest:
			c.why, nearest = why, near
		}
	}
	if c.why == "" {
		c.why = fmt.Sprintf("no row has room for %s of it", counted(c.least, "front"))
	}
}

// dress gives a row of a fill what was chosen for it: families and products in
// the order of the fill, from the left; on a mirrored face from the right.
func (r *resolver) dress(d *draft, fill *filling) {
	d.asks, d.dealt, d.filling = nil, make([]int, d.pieces), fill
	var counts []int
	for k, b := range fill.bins {
		if b.d != d {
			continue
		}
		at := len(d.asks)
		for i, c := range fill.choices {
			if !fill.ran || fill.chosen[i] < 0 || c.options[fill.chosen[i]].index != k {
				continue
			}
			d.asks = append(d.asks, c.ask)
			counts = append(counts, c.options[fill.chosen[i]].fronts)
			d.dealt[min(b.piece, len(d.dealt)-1)] += counts[len(counts)-1]
		}
		if d.mirror {
			slices.Reverse(d.asks[at:])
			slices.Reverse(counts[at:])
		}
	}
	d.need()
	d.settleFronts(r, counts)
	if len(counts) == 0 {
		r.note(d.decl.Span, "bare-row", fmt.Sprintf("the fill has no goods left for %s", d.part.ID), r.rowWhere(d))
	}
}

// settleFronts writes the fronts out and counts the pieces that carry them.
func (d *draft) settleFronts(r *resolver, counts []int) {
	d.fronts = d.spell(counts)
	switch {
	case single(d.part.Kind):
		d.dealt = nil
		d.bareHooks(r)
	case d.dealt == nil || d.sectioned():
		d.dealt = nil
		if d.decl.Count == 0 {
			d.pieces = max(1, min(d.pieces, d.piecesNeeded(counts)))
		}
	case d.decl.Count == 0 && !d.spans():
		d.dealt = slices.DeleteFunc(d.dealt, func(n int) bool { return n == 0 })
		d.pieces = max(1, len(d.dealt))
	}
}

// solveFilling finds the best fronts and whether it could. Widths alone do not
// tell whether single pieces find places between the wires of a panel. Where
// they do not, the row is first taken to be a little shorter; then, if it is a
// row by itself, all sets of fronts that might be better are looked at. What is
// proven of the best stays what it was for widths alone unless all were.
func (r *resolver) solveFilling(fill *filling) bool {
	worth(fill.aim, fill)
	const most = 100
	for tries := range most {
		answer, ok := fill.problem(int64(r.plan.AimSeconds)).Solve()
		if !ok {
			return false
		}
		if tries == 0 {
			fill.bound = answer.Bound
		}
		fill.value, fill.chosen, fill.ran = answer.Value, answer.Chosen, true
		tight := fill.unhung()
		if tight == nil {
			return r.widen(fill)
		}
		fill.tightened = true
		tight.narrow(int64(r.step))
	}
	fill.ran = false
	return false
}

// widen gives the rows of a filling their full room again, and uses it where
// that can be done.
func (r *resolver) widen(fill *filling) bool {
	if !fill.tightened {
		return true
	}
	if fill.bestHanging(fill.bins[0].full) {
		fill.bound, fill.tightened = fill.value, false
	}
	for _, b := range fill.bins {
		b.room = b.full
	}
	return true
}

// problem is the filling in plain numbers.
func (fill *filling) problem(seconds int64) *solve.Allot {
	p := &solve.Allot{Effort: seconds * solve.StepsPerSecond, Chains: fill.chains()}
	for _, b := range fill.bins {
		p.Rows = append(p.Rows, solve.AllotRow{Room: max(b.room, 0), Load: b.load})
	}
	for _, c := range fill.choices {
		product := solve.AllotProduct{Must: fill.listed}
		for _, o := range c.options {
			product.Options = append(product.Options, solve.AllotOption{
				Row: o.index, Fronts: o.fronts, Value: o.value,
				Width: o.bin.width(c.product, o.fronts), Weight: o.bin.weight(c.product, o.fronts, o.units),
			})
		}
		p.Products = append(p.Products, product)
	}
	return p
}

// unhung is a bin whose fronts, though their widths fit, find no places on the
// panel; nil if all do.
func (fill *filling) unhung() *bin {
	for k, b := range fill.bins {
		if !single(b.d.part.Kind) {
			continue
		}
		fronts := fill.frontsIn(k, fill.chosen)
		if len(fronts) > 0 && !b.d.hangs(fronts) {
			return b
		}
	}
	return nil
}

// frontsIn spells out the fronts of a bin, from the left, where so is chosen.
func (fill *filling) frontsIn(index int, chosen []int) []*goods.Product {
	var fronts []*goods.Product
	for i, c := range fill.choices {
		if n := chosen[i]; n >= 0 && c.options[n].index == index {
			fronts = append(fronts, slices.Repeat([]*goods.Product{c.product}, c.options[n].fronts)...)
		}
	}
	return fronts
}

// chains are the orders a filling keeps: blocks one after the other, bay by bay
// from the left and in each from the top down; of one family what is heavier or
// larger lower. The goods a row lists stand as listed.
func (fill *filling) chains() []solve.Chain {
	var list []solve.Chain
	blocks := solve.Chain{Rank: fill.reading()}
	families := make(map[string]int)
	var tiers []solve.Chain
	for i, c := range fill.choices {
		blocks.Class = append(blocks.Class, c.block)
		if fill.listed {
			continue
		}
		k, there := families[c.product.Family]
		if !there {
			k = len(tiers)
			families[c.product.Family] = k
			none := slices.Repeat([]int{-1}, len(fill.choices))
			tiers = append(tiers, solve.Chain{Class: none, Rank: fill.falling()})
		}
		tiers[k].Class[i] = tier(c.product)
	}
	for _, chain := range append([]solve.Chain{blocks}, tiers...) {
		if differ(chain.Class) && differ(chain.Rank) {
			list = append(list, chain)
		}
	}
	return list
}

// differ reports whether there are two numbers, -1 apart, that are not equal.
func differ(list []int) bool {
	first := -1
	for _, n := range list {
		if n >= 0 && first >= 0 && n != first {
			return true
		}
		if n >= 0 {
			first = n
		}
	}
	return false
}

// reading ranks the bins in reading order: those that begin farther left first,
// of these the higher ones; of a mirrored face from the right.
func (fill *filling) reading() []int {
	return fill.ranked(func(a, b *bin) int {
		ax, bx := a.d.x0, b.d.x0
		if a.d.mirror {
			ax, bx = -a.d.x1, -b.d.x1
		}
		switch {
		case ax != bx:
			return int(max(-1, min(1, ax-bx)))
		case a.d.row.Height != b.d.row.Height:
			return int(max(-1, min(1, b.d.row.Height-a.d.row.Height)))
		default:
			return a.piece - b.piece
		}
	})
}

// falling ranks the bins from the highest down; those of one height are equal.
func (fill *filling) falling() []int {
	return fill.ranked(func(a, b *bin) int { return int(max(-1, min(1, b.d.row.Height-a.d.row.Height))) })
}

func (fill *filling) ranked(compare func(a, b *bin) int) []int {
	rank := make([]int, len(fill.bins))
	for i, b := range fill.bins {
		for _, o := range fill.bins {
			if compare(o, b) < 0 {
				rank[i]++
			}
		}
	}
	return rank
}
