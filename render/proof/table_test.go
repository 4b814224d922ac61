package proof

import (
	"math"
	"slices"
	"strings"

	"setwright/render/pdf/pdftest"
)

// entry is one row of a table: the lines of each column's cell, by its head.
type entry struct {
	cells map[string][]string
	page  *page
	top   float64 // where it begins on the page
}

// text is a cell's lines as one.
func (e entry) text(head string) string { return strings.Join(e.cells[head], " ") }

// footFrom is where the notes and the title block begin: under the lowest
// heavy line across the whole sheet but for the frame and the block's own.
func (pg *page) footFrom() float64 {
	frame := pg.frame()
	for _, l := range pg.Lines {
		if near(l.Pen.Width, 0.5, exact) && near(l.From.Y, l.To.Y, exact) && near(l.From.X, frame.Min.X, exact) && near(l.To.X, frame.Max.X, exact) {
			return l.From.Y
		}
	}
	return frame.Max.Y
}

// head finds the first head of a column of that name, nil if there is none.
func (pg *page) head(name string) *pdftest.Text {
	if list := pg.heads(name); list != nil {
		return list[0]
	}
	return nil
}

// headBeside finds the head of that name in the same table as another.
func (pg *page) headBeside(name string, other *pdftest.Text) *pdftest.Text {
	for _, t := range pg.heads(name) {
		if near(t.At.Y, other.At.Y, 0.5) {
			return t
		}
	}
	return nil
}

// heads finds the heads of columns of that name, and returns the last line of
// each: a long head is broken into several.
func (pg *page) heads(name string) (list []*pdftest.Text) {
	for i, t := range pg.Texts {
		if !bold(t) || !strings.HasPrefix(name, t.S) || t.At.Y > pg.footFrom() {
			continue
		}
		last, said := &pg.Texts[i], t.S
		for k := range pg.Texts {
			next := &pg.Texts[k]
			aligned := near(next.At.X, t.At.X, exact) || near(next.End().X, t.End().X, exact)
			if bold(*next) && aligned && next.At.Y > last.At.Y && next.At.Y < last.At.Y+2*t.Size && strings.HasPrefix(name, said+" "+next.S) {
				last, said = next, said+" "+next.S
			}
		}
		if said == name {
			list = append(list, last)
		}
	}
	return list
}

func bold(t pdftest.Text) bool { return strings.Contains(t.Font, "Bold") }

// table reads the table whose heads are given from a run of pages. A row
// begins where the first of the heads has a cell, and the first decides between
// tables that have heads in common; what stands before the
// first row of a page ends the last one of the page before.
func table(pages []*page, heads ...string) []entry {
	var list []entry
	for _, pg := range pages {
		first := pg.head(heads[0])
		if first == nil {
			continue
		}
		starts := pg.column(first)
		base := len(list)
		for _, s := range starts {
			list = append(list, entry{cells: map[string][]string{}, page: pg, top: s.At.Y})
		}
		for _, head := range heads {
			at := pg.headBeside(head, first)
			if at == nil {
				return nil
			}
			for _, t := range pg.column(at) {
				row := base - 1
				for i, s := range starts {
					if t.At.Y > s.At.Y-0.5 {
						row = base + i
					}
				}
				if row >= 0 {
					list[row].cells[head] = append(list[row].cells[head], t.S)
				}
			}
		}
	}
	return list
}

// column lists the texts under a head, from the top down.
func (pg *page) column(head *pdftest.Text) []*pdftest.Text {
	var list []*pdftest.Text
	foot := pg.footFrom()
	for i, t := range pg.Texts {
		if t.At.Y > head.At.Y+1 && t.At.Y < foot && (near(t.At.X, head.At.X, exact) || near(t.End().X, head.End().X, exact)) && !bold(t) {
			list = append(list, &pg.Texts[i])
		}
	}
	slices.SortStableFunc(list, func(a, b *pdftest.Text) int { return int(math.Copysign(1, a.At.Y-b.At.Y)) })
	return list
}
