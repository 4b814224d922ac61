package unit

import (
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// startPieces is how many pieces a row may use before its goods are known:
// the count it was given, or as many as its span takes.
func (d *draft) startPieces() int {
	if d.decl.Count > 0 {
		return d.decl.Count
	}
	return max(1, int((d.x1-d.x0)/max(d.part.Width, 1)))
}

// fits reports whether the row's pieces can carry that many fronts.
func (d *draft) fits(counts []int) bool {
	if single(d.part.Kind) {
		n := total(counts)
		if d.decl.Every == 0 && d.runWidth(counts) > d.x1-d.x0 {
			return false
		}
		if d.decl.Count > 0 && n > d.decl.Count {
			return false
		}
		return n == 0 || d.hangs(d.spell(counts))
	}
	return d.piecesNeeded(counts) <= d.pieces
}

func total(counts []int) int {
	n := 0
	for _, c := range counts {
		n += c
	}
	return n
}

// hangs reports whether hooks for these fronts find places on the panel.
func (d *draft) hangs(fronts []*goods.Product) bool {
	if d.decl.Every > 0 {
		_, ok := d.spaced(fronts, nil).Solve()
		return ok // fronts closer than they are wide are the author's: a finding
	}
	return d.singles(fronts, nil, nil).Feasible()
}

// piecesNeeded is how many pieces carry the fronts, filled in order from the
// left.
func (d *draft) piecesNeeded(counts []int) int {
	switch {
	case len(d.asks) == 0 && d.decl.Count == 0 && d.part.Kind == parts.Sign:
		return 1
	case d.sectioned():
		if d.decl.Count == 0 {
			return max(1, min(total(counts), d.pieces))
		}
		return 1
	case d.part.Kind == parts.Bar:
		return (total(counts) + d.part.Pegs - 1) / max(d.part.Pegs, 1)
	}
	packed := len(d.pack(d.spell(counts), d.part.Run()))
	if d.spans() {
		return max(packed, d.pieces)
	}
	return packed
}

// pack deals fronts onto pieces from the left, each taking what still fits in
// a run of that width. It returns the number of fronts on each piece.
func (d *draft) pack(fronts []*goods.Product, run measure.Length) []int {
	var loads []int
	var used measure.Length
	for i, p := range fronts {
		w := d.frontWidth(p)
		if i > 0 && used+d.gap()+w <= run {
			used += d.gap() + w
			loads[len(loads)-1]++
			continue
		}
		used = w
		loads = append(loads, 1)
	}
	return loads
}
