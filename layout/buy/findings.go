package buy

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// findings says what a buyer should know of the purchase.
func (p *Purchase) findings(system measure.System) []diag.Finding {
	var found []diag.Finding
	for i := range p.Orders {
		found = append(found, p.Orders[i].findings()...)
	}
	return append(found, p.unpriced(system)...)
}

func (o *Order) findings() []diag.Finding {
	var found []diag.Finding
	note := func(level diag.Level, code, message string) {
		found = append(found, diag.Finding{Level: level, Code: code, At: o.Supplier.At, Message: message})
	}
	switch s := o.Supplier; {
	case s == nil:
	case o.Under:
		note(diag.Caution, "under-minimum", fmt.Sprintf("the order of %s comes to %v, under the minimum of %v", s.Name, o.Goods, s.Minimum))
	case o.FilledUp():
		note(diag.Note, "order-filled-up", fmt.Sprintf("goods for %v more than needed are ordered of %s, to reach the minimum of %v", o.Added, s.Name, s.Minimum))
	case o.Added > 0:
		note(diag.Note, "order-filled-up", fmt.Sprintf("goods for %v more than needed are ordered of %s: from %v delivery is free and saves %v", o.Added, s.Name, s.Free, s.Freight))
	}
	if !o.Proven {
		note(diag.Note, "order-not-proven", fmt.Sprintf("the order of %s may not be the cheapest: its prices are too fine for its size to try every sum", o.Supplier.Name))
	}
	return found
}

// unpriced says once which things to buy have no price.
func (p *Purchase) unpriced(system measure.System) []diag.Finding {
	if p.Unpriced == 0 {
		return nil
	}
	var names []string
	lines := 0
	for _, o := range p.Orders {
		lines += len(o.Lines)
		for _, l := range o.Lines {
			if !l.Priced {
				names = append(names, l.label(system))
			}
		}
	}
	f := diag.Finding{Level: diag.Note, Code: "price-missing", Fix: "give them a price: or packs: in the parts list",
		Message: fmt.Sprintf("%d of %d things to buy have no price, and sums are without them: %s", p.Unpriced, lines, some(names))}
	if !p.Priced() {
		f.Message = "no price is known: what to buy is counted in pieces only"
	}
	return []diag.Finding{f}
}

// Shortage is a note of what is missing in the stockroom, if anything is, with
// sizes in that measure.
func (p *Purchase) Shortage(system measure.System) []diag.Finding {
	pieces, things := p.Short()
	if things == 0 {
		return nil
	}
	var names []string
	for _, o := range p.Orders {
		for _, l := range o.Lines {
			names = append(names, fmt.Sprintf("%d %s", l.Short, l.label(system)))
		}
	}
	return []diag.Finding{{Level: diag.Note, Code: "short-of-stock", Fix: "order what is on the buy list",
		Message: fmt.Sprintf("what is on hand is short of %d pieces, %d things: %s", pieces, things, some(names))}}
}

// label is a thing by its id, with its size if it has several.
func (l *Line) label(system measure.System) string {
	return strings.TrimSuffix(l.ID+" "+l.Size(system), " ")
}

// some lists the first of many names.
func some(names []string) string {
	const most = 8
	if len(names) <= most {
		return strings.Join(names, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
}
