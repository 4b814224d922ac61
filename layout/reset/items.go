package reset

import (
	"fmt"
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// items makes the items of the reset.
func (m *matcher) items() []*Item {
	var list []*Item
	for _, o := range m.old.pieces {
		it := &Item{Part: o.Piece.Part, Cut: o.Piece.Cut, From: &o.Place, Way: Return}
		o.item = it
		if n := o.partner; n != nil {
			n.item, it.To, it.Way, it.Part = it, &n.Place, o.way, n.Piece.Part
		}
		list = append(list, it)
	}
	for _, n := range m.new.pieces {
		if n.partner == nil {
			n.item = &Item{Part: n.Piece.Part, Cut: n.Piece.Cut, To: &n.Place, Way: Fetch}
			list = append(list, n.item)
		}
	}
	for _, h := range slices.Concat(m.old.pieces, m.new.pieces) {
		h.bind()
	}
	for _, it := range list {
		it.Seconds = it.seconds()
		if it.From != nil && it.To != nil && it.From.Host == it.To.Host && it.Way != Rehang {
			it.Host = it.From.Host
		}
	}
	return list
}

// bind writes what a piece is fixed to and rests on into its place.
func (h *hung) bind() {
	if h.role == extra && h.host != nil {
		h.Host = h.host.item
	}
	for _, b := range h.rests {
		h.Rests = append(h.Rests, b.item)
	}
}

// seconds is the time that all handling of a piece takes, goods not counted.
func (it *Item) seconds() int {
	switch it.Way {
	case Slide:
		return slideTime
	case Rehang:
		return downTime(it.From.Piece.Part) + upTime(it.Part)
	case Fetch:
		return fetchTime + upTime(it.Part)
	case Return:
		return downTime(it.Part) + returnTime
	}
	return 0
}

// Handling is the time of all handling of pieces and goods, one person, in
// seconds: the least there is by the estimates. What the order of the work adds,
// pieces set aside, is not in it.
func (r *Reset) Handling() int {
	sum := 0
	for _, it := range r.Items {
		sum += it.Seconds
	}
	for _, f := range r.Facings {
		sum += f.Seconds
	}
	return sum
}

// Unchanged says whether nothing at all is to be done on a face.
func (r *Reset) Unchanged(face plan.FaceID) bool {
	of := func(f *unit.Face) bool { return f.ID == face }
	for _, it := range r.Items {
		if it.Way != Stay && (it.From != nil && of(it.From.Face) || it.To != nil && of(it.To.Face)) {
			return false
		}
	}
	for _, f := range r.Facings {
		if (f.Way != Stay || f.More() != 0) && (f.From != nil && of(f.From.Face) || f.To != nil && of(f.To.Face)) {
			return false
		}
	}
	return len(r.Differences) == 0
}

// otherParts are the ids under which the plans have different parts, of which the
// old unit's cannot serve again in the new; a finding tells of each that both
// units use.
func (r *Reset) otherParts() map[string]bool {
	used := map[string]*parts.Part{}
	eachPiece(r.Old, func(p *unit.Piece) { used[p.Part.ID] = p.Part })
	other, seen := map[string]bool{}, map[string]bool{}
	eachPiece(r.New, func(p *unit.Piece) {
		id := p.Part.ID
		if used[id] == nil || seen[id] {
			return
		}
		seen[id] = true
		names := unlike(used[id], p.Part)
		if names == nil {
			return
		}
		other[id] = true
		r.Findings = append(r.Findings, diag.Finding{Level: diag.Caution, Code: "another-part", At: p.Part.At,
			Message:  fmt.Sprintf("%s is another part in the new plan (%s): those that hang go back to stock, and others are fetched", id, strings.Join(names, ", ")),
			Expected: "one part under one id in both plans, if it is the same piece",
			Notes:    []diag.Related{{At: used[id].At, Message: "the part of the old plan"}}})
	})
	return other
}

func eachPiece(u *unit.Unit, do func(p *unit.Piece)) {
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, p := range row.All() {
				do(p)
			}
		}
	}
}

// otherGoods are the SKUs under which the plans have products of another size or
// form, with a finding for each.
func (r *Reset) otherGoods() map[string]bool {
	shown := map[string]*goods.Product{}
	eachPosition(r.Old, func(p *unit.Position) { shown[p.Product.SKU] = p.Product })
	other, seen := map[string]bool{}, map[string]bool{}
	eachPosition(r.New, func(p *unit.Position) {
		sku := p.Product.SKU
		if shown[sku] == nil || seen[sku] {
			return
		}
		if seen[sku] = true; sameProduct(shown[sku], p.Product) {
			return
		}
		other[sku] = true
		r.Findings = append(r.Findings, diag.Finding{Level: diag.Caution, Code: "another-product", At: p.Product.At,
			Message:  fmt.Sprintf("%s is of another size or form in the new plan: what is on show goes back to stock, and the new is fetched", sku),
			Expected: "a SKU of its own for each product",
			Notes:    []diag.Related{{At: shown[sku].At, Message: "the product of the old plan"}}})
	})
	return other
}

func eachPosition(u *unit.Unit, do func(p *unit.Position)) {
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, p := range row.Positions {
				do(p)
			}
		}
	}
}
