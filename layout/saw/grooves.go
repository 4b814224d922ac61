package saw

import (
	"slices"

	"setwright/layout/measure"
)

// grooved puts sheets with grooves to a solver that knows only the saw's cut. A
// piece takes whole grooves, its cut with it, so that whatever comes next begins
// a whole number of them on. At the far edge of a sheet that may be more than
// there is, though the piece itself would end on it: the sheet is then said to be
// wider, by as much as is safe for every piece. Where pieces differ in what is
// safe, some ways of cutting them are not looked at.
type grooved struct {
	pitch, kerf measure.Length
	pieces      []Piece
	alone       []bool // the piece can only begin at the near edge of any sheet it fits
}

// across gives the pieces of a job and the sheets their widths in the solver's
// terms; the width of a sheet that must not be used is 0.
func across(stock measure.Length, kerf measure.Length, pieces []Piece, sheets []measure.Length) (widths, boards []measure.Length) {
	g := &grooved{pitch: stock, kerf: kerf, pieces: pieces}
	for _, p := range pieces {
		g.alone = append(g.alone, !slices.ContainsFunc(sheets, func(w measure.Length) bool { return w-p.Width >= g.pitch }))
	}
	counts := make([]measure.Length, len(sheets))
	for i, w := range sheets {
		counts[i] = g.sheet(w)
	}
	for i, p := range pieces {
		n := g.taken(p.Width)
		if g.alone[i] {
			n = g.squeeze(p.Width, sheets, counts)
		}
		widths = append(widths, n*g.pitch-kerf)
	}
	for _, n := range counts {
		boards = append(boards, max(n*g.pitch-kerf, 0))
	}
	return widths, boards
}

// taken is how many grooves a piece takes, its cut with it.
func (g *grooved) taken(width measure.Length) measure.Length {
	return (width + g.kerf + g.pitch - 1) / g.pitch
}

// sheet is how many grooves the solver is told a sheet has. A piece may begin at
// the n-th if it ends on the sheet, and the solver lets it if n and what it takes
// are no more than the sheet has: so that is the least that any piece allows.
func (g *grooved) sheet(width measure.Length) measure.Length {
	least := g.taken(width)
	for i, p := range g.pieces {
		if !g.alone[i] && p.Width <= width {
			least = min(least, (width-p.Width)/g.pitch+g.taken(p.Width))
		}
	}
	return least
}

// squeeze is how many grooves a piece takes that nothing can follow: no more than
// any sheet has that it fits. Sheets it does not fit, but would then seem to, are
// left out.
func (g *grooved) squeeze(width measure.Length, sheets, counts []measure.Length) measure.Length {
	n := g.taken(width)
	for i, w := range sheets {
		if w >= width {
			n = min(n, counts[i])
		}
	}
	for i, w := range sheets {
		if w < width && counts[i] >= n {
			counts[i] = 0
		}
	}
	return n
}
