package unit

import (
	"fmt"

	"setwright/layout/diag"
)

// Stacks says which size each box of a position is, for every front from the
// top of its stack down: the run in order over all its fronts, each size as
// often as the boxes allow. It is nil for goods without a size run. A place that
// is several boxes deep holds the same size all the way back.
func (p *Position) Stacks() [][]string {
	sizes := p.Product.Sizes
	if len(sizes) == 0 {
		return nil
	}
	places := 0
	for _, f := range p.Fronts {
		places += f.High
	}
	stacks := make([][]string, len(p.Fronts))
	at := 0
	for i, f := range p.Fronts {
		for range f.High {
			size := at // with fewer places than sizes the run breaks off
			if places >= len(sizes) {
				size = at * len(sizes) / places
			}
			stacks[i] = append(stacks[i], sizes[size])
			at++
		}
	}
	return stacks
}

// brokenRuns notes boxed goods of which a row does not hold every size.
func (r *resolver) brokenRuns(d *draft) {
	var first *Position
	var lack, high, broken int
	for _, pos := range d.row.Positions {
		tallest, places := 1, 0
		for _, f := range pos.Fronts {
			places += f.High
			tallest = max(tallest, f.High)
		}
		n := len(pos.Product.Sizes)
		if places >= n {
			continue
		}
		if broken++; first == nil {
			first, lack, high = pos, n-places, tallest
		}
	}
	if first == nil {
		return
	}
	n := len(first.Product.Sizes)
	message := fmt.Sprintf("%s comes in %d sizes and has %s on %s: the largest %d are left out", first.Product.SKU, n, counted(n-lack, "place"), d.part.ID, lack)
	if broken > 1 {
		message += fmt.Sprintf("; %s of the row: the same", counted(broken-1, "more product"))
	}
	r.findings.Add(diag.Finding{Level: diag.Note, Code: "broken-run", At: d.decl.Span, Where: []string{r.rowWhere(d)},
		Message: message, Fix: fmt.Sprintf("goods: {%s: %d}", first.Product.SKU, (n+high-1)/high)})
}
