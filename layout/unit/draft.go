package unit

import (
	"fmt"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/solve"
)

// draft is a row on its way from words to places. The stages fill it from the
// top down.
type draft struct {
	decl    *plan.Row
	face    *Face
	part    *parts.Part
	bracket *parts.Part // what it rests on, nil if it holds on by itself
	extras  []*parts.Part
	copy    int
	mirror  bool
	x0, x1  measure.Length   // its span
	step    measure.Length   // of the marks pieces are placed on
	barred  []solve.Interval // where the panel bars the part's centre line, once worked out

	asks   []ask            // products in the order they hang, from the left
	fill   *plan.Fill       // what the row is filled from, nil if it names its goods
	pool   []*goods.Product // of these, what the row could take
	pieces int              // how many pieces of hardware
	fronts []*goods.Product // one a front from the left; nil is a bare hook
	dealt  []int            // fronts on each piece, where that is settled

	above, below measure.Length // room needed over and under the slot
	over, under  measure.Length // room there is, for a row that is filled
	filling      *filling       // what allotted the fronts, nil if the plan gives them

	row    *Row
	pushed bool // pushed to the left to make room for a row behind it
}

// ask is a product and the fronts asked for, 0 if open.
type ask struct {
	product *goods.Product
	fronts  int
	decl    *plan.Facings
}

// singles are the parts that carry one front each, so that a row of them is as
// many pieces as it has fronts; all others carry fronts side by side.
func single(k parts.Kind) bool { return k == parts.Hook || k == parts.FaceOut || k == parts.Shoe }

// drafts turns what the plan says of a face into drafts, in the order of the
// file, repeats written out and a mirrored face turned round.
func (r *resolver) drafts(u *Unit, f *Face) []*draft {
	dress, mirror := r.dressOf(f.ID)
	if dress == nil {
		return nil
	}
	var list []*draft
	for i := range dress.Rows {
		decl := &dress.Rows[i]
		d := r.draft(f, decl, mirror)
		if d == nil || r.overfull(d) {
			continue
		}
		for n := range max(decl.Repeat, 1) {
			again := *d
			again.copy = n + 1
			list = append(list, &again)
		}
	}
	r.pourFills(list, dress)
	return list
}

// maxPieces bounds the hardware of one unit: ten times more than the fullest
// wall a crew could hang, and little enough to be worked out in seconds.
const maxPieces = 100_000

// overfull counts the row's pieces and reports the row that takes the unit over
// the limit, once.
func (r *resolver) overfull(d *draft) bool {
	before := r.pieces
	fronts := 1
	for _, a := range d.asks {
		fronts += a.fronts
	}
	r.pieces += max(d.decl.Count, fronts) * max(d.decl.Repeat, 1)
	if before <= maxPieces && r.pieces > maxPieces {
		r.fail(d.decl.Span, "too-many-pieces", fmt.Sprintf("with this row the unit has more than %d pieces", maxPieces), "a unit that people can build", "")
	}
	return r.pieces > maxPieces
}

// dressOf finds the rows of a face, following same:.
func (r *resolver) dressOf(id plan.FaceID) (dress *plan.Dress, mirror bool) {
	find := func(id plan.FaceID) *plan.Dress {
		for i := range r.plan.Dress {
			if r.plan.Dress[i].Face == id {
				return &r.plan.Dress[i]
			}
		}
		return nil
	}
	d := find(id)
	if d == nil || d.Same == "" {
		return d, false
	}
	model := find(d.Same)
	if model == nil {
		r.fail(d.At, "same-of-nothing", fmt.Sprintf("the %s face is to be the same as the %s, which has no rows", id, d.Same), "a face that is dressed", "")
	}
	return model, true
}

// draft reads one declared row against parts, goods and panel, or reports what
// is wrong with it and returns nil.
func (r *resolver) draft(f *Face, decl *plan.Row, mirror bool) *draft {
	d := &draft{decl: decl, face: f, mirror: mirror, step: r.step}
	d.part = r.part(decl.Use, "a part that hangs on a panel", rowKinds()...)
	ok := r.span(d)
	ok = r.readGoods(d) && ok
	ok = r.readExtras(d) && ok
	if d.part == nil {
		return nil
	}
	ok = r.mounts(d) && ok
	if !ok {
		return nil
	}
	r.dropTooWide(d)
	d.need()
	return d
}

func rowKinds() []parts.Kind {
	return []parts.Kind{parts.Hook, parts.Shelf, parts.Slope, parts.Rail, parts.FaceOut, parts.Basket, parts.Bar, parts.Shoe, parts.Sign}
}

// span works out which bays the row covers, from the other side if mirrored.
func (r *resolver) span(d *draft) bool {
	from, to := d.decl.BayFrom, d.decl.BayTo
	if from == 0 {
		from, to = 1, d.face.Bays
	}
	if to > d.face.Bays {
		bays := "1 bay"
		if d.face.Bays > 1 {
			bays = fmt.Sprintf("%d bays", d.face.Bays)
		}
		r.fail(d.decl.BayAt, "no-such-bay", fmt.Sprintf("the %s face has no bay %d", d.face.ID, to),
			fmt.Sprintf("the face has %s", bays), fmt.Sprintf("bay: %d", d.face.Bays))
		return false
	}
	if d.mirror {
		from, to = d.face.Bays+1-to, d.face.Bays+1-from
	}
	edges := d.face.BayEdges()
	d.x0, d.x1 = edges[from-1], edges[to]
	return true
}

// readGoods looks up the products and checks that their form suits the part.
func (r *resolver) readGoods(d *draft) bool {
	ok := true
	for i := range d.decl.Goods {
		decl := &d.decl.Goods[i]
		product, found := r.goods.Find(decl.SKU.Name)
		if !found {
			r.unknown(decl.SKU, "goods", "a sku of the plan's goods files", r.skus())
			ok = false
			continue
		}
		if d.part != nil && !d.part.Takes(product.Form) {
			r.stop(decl.SKU.At, "wrong-form", fmt.Sprintf("%s (form %s) does not go on %s", product.SKU, product.Form, d.part.ID), r.nearestUse(d, product, product.Weight))
		}
		d.asks = append(d.asks, ask{product, decl.Fronts, decl})
	}
	if d.mirror {
		for i, j := 0, len(d.asks)-1; i < j; i, j = i+1, j-1 {
			d.asks[i], d.asks[j] = d.asks[j], d.asks[i]
		}
	}
	return ok
}

func (r *resolver) skus() []string {
	var skus []string
	for _, p := range r.goods.All() {
		skus = append(skus, p.SKU)
	}
	return skus
}

func (r *resolver) readExtras(d *draft) bool {
	ok := true
	for _, ref := range d.decl.With {
		p := r.part(ref, "a part that is fixed to another", parts.Strip, parts.Sign)
		if p == nil {
			ok = false
			continue
		}
		d.extras = append(d.extras, p)
	}
	return ok
}

// mounts checks that the part hangs on the face's panel, and finds the bracket
// it rests on there.
func (r *resolver) mounts(d *draft) bool {
	surface := d.face.Panel.Panel.Surface
	if !d.part.MountsOn(surface) {
		r.fail(d.decl.Use.At, "does-not-mount", fmt.Sprintf("%s does not hang on %s (%s)", d.part.ID, d.face.Panel.ID, surface), "a part for "+string(surface), r.cousin(d.part, surface))
		return false
	}
	if d.part.Needs == nil {
		return true
	}
	for _, p := range r.parts.All() {
		if p.Kind == d.part.Needs.Kind && p.MountsOn(surface) && p.Usable == d.part.Needs.Reach {
			d.bracket = p
			return true
		}
	}
	r.fail(d.decl.Use.At, "no-bracket", fmt.Sprintf("%s rests on %s brackets, and no part list has one for %s", d.part.ID, r.text(d.part.Needs.Reach), surface),
		"a bracket of that reach in a parts list", "")
	return false
}

// cousin names the part most like p that hangs on the surface.
func (r *resolver) cousin(p *parts.Part, surface parts.Surface) string {
	best, miss := "", measure.MaxLength
	for _, q := range r.parts.All() {
		if q.Kind != p.Kind || !q.MountsOn(surface) {
			continue
		}
		if d := abs(q.Width-p.Width) + abs(q.Depth-p.Depth); d < miss {
			best, miss = q.ID, d
		}
	}
	if best == "" {
		return ""
	}
	return fmt.Sprintf("use: %s", best)
}

func abs(l measure.Length) measure.Length {
	if l < 0 {
		return -l
	}
	return l
}
