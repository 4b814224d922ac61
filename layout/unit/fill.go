package unit

import (
	"fmt"
	"math/big"
	"sort"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// packingNum over packingDen is the share of a basket that loose goods fill.
// Common practice.
const packingNum, packingDen = 6, 10

// fill stands and hangs the goods of every row: each front at its place, as
// high as the clear height allows, and groups them into positions.
func (r *resolver) fill(f *Face, drafts []*draft) {
	clear := clearHeights(f, drafts)
	for i, d := range drafts {
		fronts, products := d.lay(clear[i])
		d.row.Positions = d.group(fronts, products)
		r.overhangs(d)
		r.tooHeavy(d)
		r.brokenRuns(d)
		r.countless(d)
	}
}

// maxUnits is more than one front of anything holds. It keeps the weight of all
// that hangs on a unit far inside what Mass counts.
const maxUnits = 100_000

// countless stops goods so small that a front would hold more than maxUnits: a
// size is wrong, and every weight worked out from it.
func (r *resolver) countless(d *draft) {
	for _, pos := range d.row.Positions {
		for i := range pos.Fronts {
			if over := pos.Fronts[i].Units - maxUnits; over > 0 {
				pos.Fronts[i].Units -= over
				pos.Units -= over
				r.fail(pos.Product.At, "too-many-units", fmt.Sprintf("more than %d units of %s would fit on %s", maxUnits, pos.Product.SKU, d.part.ID),
					"the size of one unit of it", "")
			}
		}
	}
}

// clearHeights is, for each row, the height of whatever is lowest over it: the
// underside of a row above that shares a bay, or the panel's top.
func clearHeights(f *Face, drafts []*draft) []measure.Length {
	ceiling := make([]measure.Length, f.Bays)
	for i := range ceiling {
		ceiling[i] = f.Top
	}
	clear := make([]measure.Length, len(drafts))
	for i, d := range drafts {
		from, to := f.baysOf(d.x0, d.x1)
		low := ceiling[from]
		for bay := from; bay < to; bay++ {
			low = min(low, ceiling[bay])
			ceiling[bay] = d.row.Height - d.below
		}
		clear[i] = max(low, d.row.Height+d.above)
	}
	return clear
}

// lay puts every front in its place. Bare hooks have none. The two lists run
// in parallel, from the left.
func (d *draft) lay(ceiling measure.Length) ([]Front, []*goods.Product) {
	var fronts []Front
	var products []*goods.Product
	add := func(p *goods.Product, piece *Piece, x0, x1 measure.Length) {
		high := d.mostHigh(p, ceiling-d.row.Height-d.part.Bearing)
		box := d.goodsBox(p, high)
		box.X0, box.X1 = x0, x1
		box.Y0, box.Y1 = box.Y0+d.row.Height, box.Y1+d.row.Height
		fronts = append(fronts, d.holding(Front{Box: box, Piece: piece, High: high, Deep: d.deep(p)}, p))
		products = append(products, p)
	}
	if single(d.part.Kind) {
		for i, p := range d.fronts {
			if p != nil && i < len(d.row.Pieces) {
				x0 := d.row.Pieces[i].X - p.Width/2
				add(p, d.row.Pieces[i], x0, x0+p.Width)
			}
		}
		return fronts, products
	}
	next := 0
	for i, n := range d.loads() {
		piece, on := d.row.Pieces[i], d.fronts[next:next+n]
		next += n
		for k, x := range d.runPlaces(piece, on) {
			w := d.shownWidth(piece, on[k], n)
			add(on[k], piece, x-w/2, x-w/2+w)
		}
		if d.part.Kind == parts.Rail && n > 0 {
			d.hangOnArms(&fronts[next-n], piece, products[next-n], -1)
			d.hangOnArms(&fronts[next-1], piece, products[next-1], 1)
		}
	}
	return fronts, products
}

// hangOnArms adds to the front at one end of a rail the garments that hang on
// its arm there, square to those on the bar and behind them: as many as the arm
// takes between panel and bar, if they clear each other and the row's span.
func (d *draft) hangOnArms(front *Front, rail *Piece, p *goods.Product, side measure.Length) {
	if d.part.Grip.Sides != 2 || 2*d.part.Depth < p.Width || d.part.Usable < p.Width {
		return
	}
	arm := rail.X + side*d.part.Usable/2
	x0, x1 := arm-p.Width/2, arm+p.Width/2
	n := int((d.part.Depth - p.Width/2) / max(p.Depth, 1))
	if n == 0 || x0 < d.x0 || x1 > d.x1 {
		return
	}
	front.Units += n
	front.Look = d.look(*front, p)
	front.Box.X0, front.Box.X1 = min(front.Box.X0, x0), max(front.Box.X1, x1)
	front.Box.D0 = max(0, front.Box.D0-measure.Length(n)*p.Depth)
}

// loads is how many fronts each piece carries: all pieces as evenly filled as
// fronts in a fixed order allow.
func (d *draft) loads() []int {
	n := len(d.row.Pieces)
	if n == 0 || len(d.fronts) == 0 {
		return nil
	}
	if len(d.dealt) == n {
		return d.dealt
	}
	if d.sectioned() || d.part.Kind == parts.Bar {
		return d.shares(n)
	}
	var widest measure.Length
	for _, p := range d.fronts {
		widest = max(widest, p.Width)
	}
	extra := sort.Search(int(d.part.Run()-widest), func(w int) bool {
		return len(d.pack(d.fronts, widest+measure.Length(w))) <= n
	})
	return d.pack(d.fronts, widest+measure.Length(extra))
}

// shares deals the fronts over n pieces in order, the first ones taking what
// does not divide.
func (d *draft) shares(n int) []int {
	var loads []int
	left := len(d.fronts)
	for i := range n {
		take := (left + n - i - 1) / (n - i)
		if d.part.Kind == parts.Bar {
			take = min(take, d.part.Pegs)
		}
		loads = append(loads, take)
		left -= take
	}
	return loads
}

// runPlaces is the middle of each front on a piece.
func (d *draft) runPlaces(piece *Piece, on []*goods.Product) []measure.Length {
	n := len(on)
	if d.part.Kind == parts.Bar {
		return evenly(piece.Box.X0, piece.Box.X1, max(d.part.Pegs, 1))[:n]
	}
	run := d.part.Run()
	x0 := piece.X - run/2
	if d.sectioned() {
		return evenly(x0, x0+run, n)
	}
	widths := make([]measure.Length, n)
	for i, p := range on {
		widths[i] = p.Width
	}
	return lengths(targets(x0, x0+run, widths, d.gap(), d.align()))
}

// shownWidth is how wide a front is drawn and boxed: the product's own width,
// or its section of a shared part.
func (d *draft) shownWidth(piece *Piece, p *goods.Product, n int) measure.Length {
	if d.sectioned() {
		return d.part.Run() / measure.Length(max(n, 1))
	}
	return p.Width
}

// group joins neighbouring fronts of one product on one piece (on hooks, on
// neighbouring pieces) into positions.
func (d *draft) group(fronts []Front, products []*goods.Product) []*Position {
	var list []*Position
	for i, front := range fronts {
		same := i > 0 && products[i] == products[i-1] && (single(d.part.Kind) || front.Piece == fronts[i-1].Piece)
		if !same {
			list = append(list, &Position{Product: products[i], Height: d.row.Height + d.part.Bearing})
		}
		pos := list[len(list)-1]
		pos.Fronts = append(pos.Fronts, front)
		pos.Units += front.Units
		pos.Look += front.Look
	}
	return list
}

// holding works out how many units the front holds when full.
func (d *draft) holding(front Front, p *goods.Product) Front {
	switch {
	case d.part.Kind == parts.Rail:
		front.Deep = max(1, int(front.Box.Width()/max(p.Depth, 1)))
	case d.sectioned():
		front.High, front.Deep = 1, 1
		front.Units = looseUnits(front.Box, p)
		front.Look = d.look(front, p)
		return front
	}
	front.Units = front.High * front.Deep
	front.Look = d.look(front, p)
	return front
}

// look is how many units a front needs to look full: what the goods file says,
// or what a shopper sees of it. Common practice: one layer of what stands, a
// third of a hook, half of a pile, a rail or a basket, the sample and a box.
func (d *draft) look(front Front, p *goods.Product) int {
	least := 0
	switch {
	case p.Look > 0:
		least = p.Look
	case d.part.Kind == parts.Hook || d.part.Kind == parts.Bar:
		least = (front.Units + 2) / 3
	case p.Form == goods.Fold || p.Form == goods.Loose || hanging(d.part.Kind):
		least = (front.Units + 1) / 2
	default:
		least = front.High
	}
	return max(1, min(least, front.Units))
}

// looseUnits is how many loose goods a section of a basket takes. Volumes are
// counted in cubic tenths of a millimetre, in integers of any size.
func looseUnits(b Box, p *goods.Product) int {
	const tenth = measure.Millimetre / 10
	volume := func(x, y, z measure.Length) *big.Int {
		v := big.NewInt(int64(max(x/tenth, 1)))
		v.Mul(v, big.NewInt(int64(max(y/tenth, 1))))
		return v.Mul(v, big.NewInt(int64(max(z/tenth, 1))))
	}
	room := volume(b.Width(), b.Height(), b.Depth())
	room.Mul(room, big.NewInt(packingNum))
	one := volume(p.Width, p.Height, p.Depth)
	one.Mul(one, big.NewInt(packingDen))
	return max(1, int(room.Quo(room, one).Int64()))
}

// overhangs cautions about goods deeper than what carries them.
func (r *resolver) overhangs(d *draft) {
	if d.copy > 1 {
		return
	}
	for _, a := range d.asks {
		usable := d.part.Usable
		if !d.sticksOut(a.product) {
			continue
		}
		r.findings.Add(diag.Finding{
			Level: diag.Caution, Code: "goods-too-deep", At: a.decl.SKU.At,
			Message: fmt.Sprintf("%s is %s deep and %s has %s: it sticks out by %s", a.product.SKU, r.text(a.product.Depth), d.part.ID, r.text(usable), r.text(a.product.Depth-usable)),
			Fix:     r.nearestUse(d, a.product, a.product.Weight),
		})
	}
}

// tooHeavy stops goods of which a single one weighs more than its part is rated
// for. What a full part carries is judged later, with all that hangs on it.
func (r *resolver) tooHeavy(d *draft) {
	if d.copy > 1 || d.part.Rated == 0 {
		return
	}
	for _, a := range d.asks {
		if over := a.product.Weight - d.part.Rated; over > 0 {
			mass := func(m measure.Mass) string { return m.Text(r.plan.Measure) }
			assumed := "rated"
			if d.part.Assumed {
				assumed = "rating assumed:"
			}
			r.stop(a.decl.SKU.At, "goods-too-heavy", fmt.Sprintf("one %s weighs %s and %s is %s %s: %s too much",
				a.product.SKU, mass(a.product.Weight), d.part.ID, assumed, mass(d.part.Rated), mass(over)), r.nearestUse(d, a.product, a.product.Weight))
		}
	}
}

// sticksOut reports goods deeper than the part that carries them. Garments hang
// across a rail, and loose goods lie as they fall.
func (d *draft) sticksOut(p *goods.Product) bool {
	return d.part.Kind != parts.Sign && !d.isSectioned(p) && p.Depth > d.part.Usable
}
