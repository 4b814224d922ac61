package proof

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/saw"
	"setwright/render/pdf/pdftest"
)

// barHigh is how high bars are drawn, which is not to scale.
const barHigh = 7.0

// TestCutsAreDrawnTrue finds every pattern of every cut list again: under its
// heading each part as a box, where and as large as the plan has it at the printed
// scale, and each piece's mark and size written in it or over it.
func TestCutsAreDrawnTrue(t *testing.T) {
	bars, sheets := 0, 0
	each(t, func(t *testing.T, p *plan) {
		for i := range p.project.Cuts {
			cut := &p.project.Cuts[i]
			for k := range cut.Patterns {
				pat := &cut.Patterns[k]
				pg, head := p.patternHead(cut, pat)
				if pg == nil {
					t.Errorf("pattern %d has no heading", pat.Number)
					continue
				}
				if cut.Job.Sheet() {
					sheets++
				} else {
					bars++
				}
				for _, fault := range p.patternFaults(pg, head, cut, pat) {
					t.Errorf("sheet %d: pattern %d: %s", pg.number, pat.Number, fault)
				}
			}
		}
	})
	if bars < 20 || sheets < 4 {
		t.Errorf("only %d patterns of bars and %d of sheets were looked at", bars, sheets)
	}
}

// patternHead is the heading of a pattern, with how many of what size are cut.
func (p *plan) patternHead(cut *saw.Plan, pat *saw.Pattern) (*page, *pdftest.Text) {
	u := cut.Used[pat.Use]
	if u.OnHand+u.Bought < pat.Times {
		return nil, nil
	}
	want := fmt.Sprintf(p.words.CutPattern, pat.Number, pat.Times, p.sizeWords(u.Length, u.Width))
	for _, pg := range p.sheets {
		for i, text := range pg.Texts {
			if text.S == want && bold(text) && pg.den > 0 {
				return pg, &pg.Texts[i]
			}
		}
	}
	return nil, nil
}

// sizeWords is a size as cut lists print it.
func (p *plan) sizeWords(length, width measure.Length) string {
	system, unit := measure.Inches, p.words.Inch
	if p.mm() {
		system, unit = measure.Millimetres, p.words.Millimetre
	}
	if width == 0 {
		return length.Figure(system) + "\u00a0" + unit
	}
	return length.Figure(system) + " × " + width.Figure(system) + "\u00a0" + unit
}

// patternFaults is what of a pattern is not drawn, or not where it is.
func (p *plan) patternFaults(pg *page, head *pdftest.Text, cut *saw.Plan, pat *saw.Pattern) (faults []string) {
	var leaves []*saw.Node
	pat.Root.Leaves(func(n *saw.Node) { leaves = append(leaves, n) })
	boxes := pg.boxes()
	at, ok := anchor(boxes, leaves[0], head, pg.den, cut.Job.Sheet(), pat.Root.Width)
	if !ok {
		return []string{"its first part is not drawn"}
	}
	for _, n := range leaves {
		want := drawnAt(n, at, pg.den, cut.Job.Sheet(), pat.Root.Width)
		found := false
		for _, b := range boxes {
			found = found || sameBox(b, want)
		}
		if !found {
			faults = append(faults, fmt.Sprintf("no box for the part at %s, %s", n.X.Text(measure.Inches), n.Y.Text(measure.Inches)))
		}
		if n.Kind == saw.Wanted && !p.labelled(pg, want, cut.Job.Pieces[n.Piece].Mark, n) {
			faults = append(faults, fmt.Sprintf("no mark on the piece at %s, %s", n.X.Text(measure.Inches), n.Y.Text(measure.Inches)))
		}
	}
	return faults
}

// boxes lists the outlined boxes of a page.
func (pg *page) boxes() []pdftest.Box {
	var list []pdftest.Box
	for _, path := range pg.Paths {
		if path.Pen != nil && path.Closed && len(path.Points) == 4 && !path.Curved {
			list = append(list, pdftest.Box{Min: path.Points[0], Max: path.Points[2]})
		}
	}
	return list
}

// anchor is the corner of the pattern under a heading from which figures run: the
// nearest under it whose first part is drawn.
func anchor(boxes []pdftest.Box, first *saw.Node, head *pdftest.Text, den float64, sheet bool, width measure.Length) (pdftest.Point, bool) {
	shape := drawnAt(first, pdftest.Point{}, den, sheet, width)
	var best pdftest.Point
	found := false
	for _, b := range boxes {
		at := pdftest.Point{X: b.Min.X - shape.Min.X, Y: b.Min.Y - shape.Min.Y}
		if sameBox(b, drawnAt(first, at, den, sheet, width)) && b.Min.Y > head.At.Y && (!found || at.Y < best.Y) {
			best, found = at, true
		}
	}
	return best, found
}

// drawnAt is where on paper a part lies.
func drawnAt(n *saw.Node, at pdftest.Point, den float64, sheet bool, width measure.Length) pdftest.Box {
	paper := func(l measure.Length) float64 { return float64(l) / 1e6 / den }
	b := pdftest.Box{Min: pdftest.Point{X: at.X + paper(n.X), Y: at.Y - barHigh}, Max: pdftest.Point{X: at.X + paper(n.X+n.Length), Y: at.Y}}
	if sheet {
		b.Min.Y, b.Max.Y = at.Y-paper(n.Y+n.Width), at.Y-paper(n.Y)
	}
	return b
}

func sameBox(a, b pdftest.Box) bool {
	return near(a.Min.X, b.Min.X, exact) && near(a.Min.Y, b.Min.Y, exact) && near(a.Max.X, b.Max.X, exact) && near(a.Max.Y, b.Max.Y, exact)
}

// labelled says whether a piece has its mark in it, or over it at the end of a
// leader.
func (p *plan) labelled(pg *page, b pdftest.Box, mark string, n *saw.Node) bool {
	for _, text := range pg.Texts {
		m := text.Middle()
		if text.S != mark && !strings.HasPrefix(text.S, mark+" · ") {
			continue
		}
		if m.X > b.Min.X && m.X < b.Max.X && (m.Y > b.Min.Y && m.Y < b.Max.Y || n.Width == 0 && m.Y < b.Min.Y && m.Y > b.Min.Y-30) {
			return true
		}
	}
	return false
}

// TestEveryCutPieceIsNamed reads what is to be written on pieces, and wants every
// part of the unit that is cut once, with its address.
func TestEveryCutPieceIsNamed(t *testing.T) {
	named := 0
	each(t, func(t *testing.T, p *plan) {
		said := map[string]int{}
		label, _, _ := strings.Cut(p.words.CutMarks, "%s")
		for _, pg := range p.sheets {
			for i := range pg.Texts {
				if strings.HasPrefix(pg.Texts[i].S, strings.TrimSpace(label)[:8]) {
					p.tally(said, label, pg.paragraph(&pg.Texts[i]))
				}
			}
		}
		want := map[string]int{}
		for _, f := range p.project.Unit.Faces {
			for _, row := range f.Rows {
				for _, piece := range row.All() {
					if piece.Part.Cut != nil {
						want[row.Address]++
						named++
					}
				}
			}
		}
		for _, s := range p.project.Unit.Structure {
			if s.Bay > 0 && s.Part.Cut != nil {
				want[fmt.Sprintf("%s%d", s.Face.Letter(), s.Bay)]++
				named++
			}
		}
		for address, n := range want {
			if said[address] != n {
				t.Errorf("%d pieces are marked for %s, want %d", said[address], address, n)
			}
		}
		if len(said) != len(want) {
			t.Errorf("pieces are marked for %v, want %v", said, want)
		}
	})
	if named < 50 {
		t.Errorf("only %d pieces were looked for", named)
	}
}

// paragraph is a text and the lines under it.
func (pg *page) paragraph(first *pdftest.Text) string {
	words, y := first.S, first.At.Y
	for again := true; again; {
		again = false
		for _, t := range pg.Texts {
			if near(t.At.X, first.At.X, exact) && t.At.Y > y+0.1 && t.At.Y < y+5 && !bold(t) {
				words, y, again = words+" "+t.S, t.At.Y, true
			}
		}
	}
	return words
}

// tally counts the addresses of a list of marks: 2 × 10 F-1, 10 F-2; next: ...
func (p *plan) tally(said map[string]int, label, words string) {
	words = strings.TrimPrefix(words, label)
	words = strings.ReplaceAll(words, "; "+p.words.CutNext, ",")
	for _, item := range strings.Split(words, ",") {
		item, n := strings.TrimSpace(item), 1
		if times, rest, many := strings.Cut(item, " × "); many {
			fmt.Sscan(times, &n)
			item = rest
		}
		_, address, _ := strings.Cut(item, "\u00a0")
		said[address] += n
	}
}
