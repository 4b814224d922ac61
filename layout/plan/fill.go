package plan

import (
	"fmt"

	"setwright/layout/decode"
	"setwright/layout/diag"
)

// Aim is what fronts that the plan leaves open are allotted for.
type Aim string

// The aims: days of supply as even as can be; the most profit, a further front
// of one product adding less than the one before and a place at hand's height
// more than one out of reach; as many products as there is room for.
const (
	Cover  Aim = "cover"
	Profit Aim = "profit"
	Range  Aim = "range"
)

// Aims lists every aim, in the order they are documented.
func Aims() []Aim { return []Aim{Cover, Profit, Range} }

// Fill is goods for all the rows of some bays, or of a face, that name none
// themselves: which of them go where, and on how many fronts, is worked out.
type Fill struct {
	Goods   []FillGoods // blocks, in the order they are to stand
	BayFrom int         // first bay, 0: the whole face
	BayTo   int         // last bay
	BayAt   diag.Span
	Aim     Aim // "" if it is the plan's
	Span    diag.Span
}

// FillGoods is a family of goods, or one product.
type FillGoods struct {
	Family string // "" for a product
	SKU    string // "" for a family
	At     diag.Span
}

// Covers reports whether a row lies in the bays of a fill.
func (f *Fill) Covers(row *Row) bool {
	return f.BayFrom == 0 || row.BayFrom >= f.BayFrom && row.BayTo <= f.BayTo && row.BayFrom > 0
}

// maxSeconds bounds the time a plan may ask the search for fronts to take.
const maxSeconds = 600

// aim reads what open fronts are allotted for: a word, or a word and how long
// the search for the best may take.
//
//	aim: profit
//	aim: {for: profit, seconds: 10}
func (r *reader) aim(v *decode.Value) {
	if v == nil {
		return
	}
	if !v.IsMap() {
		readAim(v, &r.plan.Aim)
		return
	}
	m := v.Map()
	readAim(m.Need("for"), &r.plan.Aim)
	m.Int("seconds", 1, maxSeconds, &r.plan.AimSeconds)
	m.Done()
}

func readAim(v *decode.Value, to *Aim) {
	if word, ok := v.OneOf(spelt(Aims())...); ok {
		*to = Aim(word)
	}
}

// fill reads an entry of a face that is no row but goods for the rows there:
//
//	fill: [family: seeds, TEA-GRN]
//	bay: 1
//	aim: profit
func (r *reader) fill(m *decode.Map) Fill {
	f := Fill{Span: m.At}
	f.BayFrom, f.BayTo, f.BayAt = r.bay(m.Get("bay"))
	if v := m.Get("aim"); v != nil {
		readAim(v, &f.Aim)
	}
	f.Goods = fillGoods(m.Need("fill"))
	m.Done()
	return f
}

// fillGoods reads a list of families and products, each once.
func fillGoods(v *decode.Value) []FillGoods {
	if v == nil {
		return nil
	}
	items := []*decode.Value{v}
	if v.IsList() {
		items = v.List()
	}
	var list []FillGoods
	first := make(map[FillGoods]diag.Span)
	for _, item := range items {
		g := FillGoods{}
		at := item.At
		if item.IsMap() {
			m := item.Map()
			decode.Into(m.Need("family").Name, &g.Family)
			at = m.At
			m.Done()
		} else {
			g.SKU = ref(item).Name
		}
		if g == (FillGoods{}) {
			continue
		}
		if there, twice := first[g]; twice {
			item.Report(diag.Finding{Level: diag.Error, Code: "duplicate-goods", At: at,
				Message: fmt.Sprintf("%q is in this fill twice", g.Family+g.SKU), Fix: "delete one of them",
				Notes: []diag.Related{{At: there, Message: "it is here already"}}})
			continue
		}
		first[g] = at
		g.At = at
		list = append(list, g)
	}
	if v.IsList() && len(items) == 0 {
		v.Fail("no-goods", "there is nothing here to fill from", "a family, such as {family: seeds}, or SKUs", "")
	}
	return list
}
