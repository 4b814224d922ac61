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
// terms; a sheet of no width is not to be used.
func across(pitch, kerf measure.Length, pieces []Piece, sheets []measure.Length) (widths, boards []measure.Length) {
	g := &grooved{pitch: pitch, kerf: kerf, pieces: pieces}
	takes, has := make([]measure.Length, len(pieces)), make([]measure.Length, len(sheets))
	for i, p := range pieces {
		takes[i] = taken(p.Width, kerf, pitch)
		g.alone = append(g.alone, !slices.ContainsFunc(sheets, func(w measure.Length) bool { return w-p.Width >= pitch }))
	}
	for i, w := range sheets {
		has[i] = g.sheet(w, takes)
	}
	for g.squeeze(sheets, takes, has) {
	}
	for _, n := range takes {
		widths = append(widths, n*pitch-kerf)
	}
	for _, n := range has {
		boards = append(boards, max(n*pitch-kerf, 0))
	}
	return widths, boards
}

// taken is how many whole grooves a piece takes with its cut. Where the next
// groove is farther than that, a second cut squares up what follows: there must be
// room for all of it.
func taken(width, kerf, pitch measure.Length) measure.Length {
	n := (width + kerf + pitch - 1) / pitch
	if gap := n*pitch - width; gap > kerf && gap < 2*kerf {
		n++
	}
	return n
}

// sheet is how many grooves the solver is told a sheet has. A piece may begin at
// the n-th if it ends on the sheet, and the solver lets it if n and what it takes
// are no more than the sheet has: so that is the least that any piece allows.
func (g *grooved) sheet(width measure.Length, takes []measure.Length) measure.Length {
	least := taken(width, g.kerf, g.pitch)
	for i, p := range g.pieces {
		switch {
		case g.alone[i]:
		case p.Width > width:
			least = min(least, takes[i]-1)
		default:
			least = min(least, (width-p.Width)/g.pitch+takes[i])
		}
	}
	return least
}

// squeeze fits pieces that nothing can follow to the sheets they fit: they take
// all of those, and more than there is of others. It says whether that changed
// anything.
func (g *grooved) squeeze(sheets, takes, has []measure.Length) (changed bool) {
	lower := func(n *measure.Length, to measure.Length) {
		if to < *n {
			*n, changed = to, true
		}
	}
	for i, p := range g.pieces {
		if !g.alone[i] {
			continue
		}
		for k, w := range sheets {
			if w >= p.Width {
				lower(&takes[i], has[k])
			}
		}
		for k, w := range sheets {
			if w >= p.Width {
				lower(&has[k], takes[i])
			} else {
				lower(&has[k], takes[i]-1)
			}
		}
	}
	return changed
}
