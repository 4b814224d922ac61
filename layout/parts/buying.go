package parts

import (
	"fmt"
	"slices"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Buying is how a part, or one size of stock, is bought.
type Buying struct {
	Supplier string // the id, "" if none is named
	Packs    []Pack // smallest first, no two of one size; empty if no price is known
	Minimum  int    // pieces the supplier sends at the least, 0 if any number
	Usual    int    // pieces a pack while no price is known, 0 for single ones
}

// Pack is so many pieces sold together at a price.
type Pack struct {
	Pieces int
	Price  measure.Money
}

// Supplier is where parts are bought. Sums are of one order.
type Supplier struct {
	ID      string
	Name    string
	Minimum measure.Money // the least value of goods that is delivered, 0 if any
	Freight measure.Money // for delivery
	Free    measure.Money // the value of goods from which delivery is free, 0 if it never is
	Duty    int           // duty and fees in hundredths of a per cent of the goods' value
	At      diag.Span
}

// Supplier returns the supplier of that id.
func (l *List) Supplier(id string) (*Supplier, bool) { return l.suppliers.find(id) }

// Suppliers returns all suppliers in list order.
func (l *List) Suppliers() []*Supplier { return l.suppliers.all() }

// mostPacks bounds the pack sizes of one part.
const mostPacks = 20

// buying reads how something is bought: price of one pack of the usual size, or
// packs, each with its pieces and price.
func (r *reader) buying(m *decode.Map, usual int, b *Buying) {
	b.Usual = usual
	if id, _, given := refer(r, m, "supplier", &r.list.suppliers, "unknown-supplier", "there is no supplier", "one of suppliers: of this list or one before it"); given {
		b.Supplier = id
	}
	r.count(m, "minimum", 1, maxPack, &b.Minimum)
	price, packs := m.Get("price"), m.Get("packs")
	switch {
	case price != nil && packs != nil:
		r.fail(packs.At, "wrong-section", "both a price and packs with prices of their own", "one of the two")
	case price != nil:
		p, ok := price.Money()
		r.ok = r.ok && ok
		b.Packs = []Pack{{usual, p}}
	case packs != nil:
		b.Packs = r.packs(packs)
	}
}

func (r *reader) packs(v *decode.Value) []Pack {
	var list []Pack
	r.ok = r.ok && v.IsList()
	for _, item := range v.List() {
		m := item.Map()
		var p Pack
		read := m.Need("pieces") != nil && m.Need("price") != nil
		r.count(m, "pieces", 1, maxPack, &p.Pieces)
		r.want(m, "price", m.Money("price", &p.Price))
		m.Done()
		switch {
		case !read:
			r.ok = false
		case slices.ContainsFunc(list, func(o Pack) bool { return o.Pieces == p.Pieces }):
			r.fail(item.At, "duplicate-size", fmt.Sprintf("packs of %d are there twice", p.Pieces), "each pack size once")
		}
		list = append(list, p)
	}
	if v.IsList() && (len(list) == 0 || len(list) > mostPacks) {
		r.fail(v.At, "too-many", fmt.Sprintf("%d pack sizes", len(list)), fmt.Sprintf("from 1 to %d", mostPacks))
	}
	slices.SortFunc(list, func(a, b Pack) int { return a.Pieces - b.Pieces })
	return list
}

// supplier reads one supplier, over a copy of the one it overrides.
func (r *reader) supplier(e decode.Entry) *Supplier {
	s := &Supplier{}
	if old, found := r.list.suppliers.find(e.Key); found {
		s = copyOf(old)
	}
	s.ID, s.At = e.Key, e.At
	if !plainID(s.ID) {
		r.fail(e.At, "bad-id", fmt.Sprintf("%q is no id of a supplier", s.ID), "lower-case letters, digits, dots and dashes, such as fernhill")
	}
	r.want(r.Map, "name", r.Name("name", &s.Name))
	r.want(r.Map, "minimum", r.Money("minimum", &s.Minimum))
	r.want(r.Map, "freight", r.Money("freight", &s.Freight))
	r.want(r.Map, "free", r.Money("free", &s.Free))
	r.duty(&s.Duty)
	r.Done()
	if r.ok && s.Name == "" {
		r.fail(e.At, "missing-key", fmt.Sprintf("the supplier %s lacks %q", s.ID, "name"), "the name to write on the order")
	}
	return s
}

// duty reads a percentage with at most two decimals.
func (r *reader) duty(to *int) {
	v := r.Get("duty")
	if v == nil {
		r.want(r.Map, "duty", false)
		return
	}
	s, ok := v.Decimal()
	m, fine := measure.ParseMoney(s)
	if ok && (!fine || m > 1000_00) {
		r.fail(v.At, "bad-number", fmt.Sprintf("%q is no duty", s), "per cent of the goods' value, such as 4.5")
		return
	}
	r.ok = r.ok && ok
	*to = int(m)
}
