package proof

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/render/pdf/pdftest"
)

// papers are the sizes and the margins of the frame, in millimetres, upright.
// Sizes: ISO 216 for A4 and A3; ANSI/ASME Y14.1 for A (letter) and B
// (tabloid). Margins of A sizes: ISO 5457, 20 mm on the left, 10 mm elsewhere.
var papers = map[string]struct {
	width, height, left, other float64
	iso                        bool
}{
	"a4":      {210, 297, 20, 10, true},
	"a3":      {297, 420, 20, 10, true},
	"letter":  {8.5 * 25.4, 11 * 25.4, 0, 0, false},
	"tabloid": {11 * 25.4, 17 * 25.4, 0, 0, false},
}

func TestPaper(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		paper := papers[p.project.Plan.Paper]
		for _, pg := range p.sheets {
			short, long := min(pg.Width, pg.Height), max(pg.Width, pg.Height)
			if !near(short, paper.width, exact) || !near(long, paper.height, exact) {
				t.Errorf("sheet %d is %.2f × %.2f mm, %s is %g × %g", pg.number, pg.Width, pg.Height, p.project.Plan.Paper, paper.width, paper.height)
			}
			frame := pg.frame()
			margins := [4]float64{frame.Min.X, frame.Min.Y, pg.Width - frame.Max.X, pg.Height - frame.Max.Y}
			for i, m := range margins {
				want := paper.other
				if i == 0 {
					want = paper.left
				}
				if paper.iso && !near(m, want, exact) {
					t.Errorf("sheet %d: margins %.2f, ISO 5457 has %g on the left and %g elsewhere", pg.number, margins, paper.left, paper.other)
				}
				if m < 5 {
					t.Errorf("sheet %d: a margin of %.2f mm, which office printers cut off", pg.number, m)
				}
			}
			pg.titleBlock(t)
		}
	})
}

// titleBlock wants a block no wider than the 180 mm of ISO 7200, or than the
// frame where the sheet is narrower than block and margins, and its line 0.7 mm
// wide for the frame (ISO 5457).
func (pg *page) titleBlock(t *testing.T) {
	t.Helper()
	var block pdftest.Box
	frame := pg.frame()
	for _, path := range pg.Paths {
		b, ok := rectangle(path)
		if !ok || path.Pen == nil {
			continue
		}
		if b == frame && !near(path.Pen.Width, 0.7, exact) {
			t.Errorf("sheet %d: the frame's line is %.2f mm wide", pg.number, path.Pen.Width)
		}
		if near(path.Pen.Width, 0.5, exact) && near(b.Max.X, frame.Max.X, exact) && near(b.Max.Y, frame.Max.Y, exact) {
			block = b
		}
	}
	wide := block.Max.X - block.Min.X
	if wide == 0 || wide > 180+exact && !near(wide, frame.Max.X-frame.Min.X, exact) {
		t.Errorf("sheet %d: a title block %.1f mm wide", pg.number, wide)
	}
}

// TestTitleBlockSays holds the fields of ISO 7200 on every sheet against the
// plan: owner, title, season, sheet title, revision and date, the plan's
// mark, sheet n of N.
func TestTitleBlockSays(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		w, pl := p.words, p.project.Plan
		for i, pg := range p.sheets {
			for label, want := range map[string]string{
				w.Owner: pl.By, w.PlanTitle: pl.Title, w.Season: pl.Season, w.PlanMark: p.unit.Fingerprint,
				w.RevisionDate: strings.TrimSpace(pl.Revision + " " + pl.Date), w.Sheet: fmt.Sprintf(w.SheetOf, i+1, len(p.sheets)),
			} {
				got := pg.field(label)
				cut, _, short := strings.Cut(got, "…")
				if got != want && !(short && len(cut) > 10 && strings.HasPrefix(want, cut)) {
					t.Errorf("sheet %d: %s: %q, the plan says %q", pg.number, label, got, want)
				}
			}
			if pg.title == "" {
				t.Errorf("sheet %d has no title", pg.number)
			}
		}
	})
}

// TestScales wants scales of ISO 5455 in metric plans (1:2, 1:5, 1:10 and
// their decimal multiples) and those of the trade in inch plans, 1:32 and the
// finer halves of it included, printed as so many inches to the foot (common
// practice).
func TestScales(t *testing.T) {
	perFoot := map[float64]string{4: "3", 8: "1½", 12: "1", 16: "¾", 24: "½", 32: "⅜", 48: "¼", 64: "³⁄₁₆", 96: "⅛", 128: "³⁄₃₂", 192: "¹⁄₁₆"}
	each(t, func(t *testing.T, p *plan) {
		for _, pg := range p.sheets {
			if pg.den == 0 {
				continue
			}
			said := strings.ReplaceAll(pg.field(p.words.Scale), "\u00a0", " ")
			want := fmt.Sprintf("1:%g", pg.den)
			if p.mm() {
				if !slices.Contains([]float64{2, 5, 10, 20, 50, 100, 200}, pg.den) {
					t.Errorf("sheet %d: 1:%g is no scale of ISO 5455", pg.number, pg.den)
				}
			} else if perFoot[pg.den] == "" {
				t.Errorf("sheet %d: 1:%g is no scale of the trade", pg.number, pg.den)
			} else {
				want = fmt.Sprintf("1:%g (%s %s = 1 %s)", pg.den, perFoot[pg.den], p.words.Inch, p.words.Foot)
			}
			if said != want {
				t.Errorf("sheet %d: scale %q, want %q", pg.number, said, want)
			}
		}
	})
}

// TestCheckRuler measures the ruler that tells a sheet printed at 100 %.
func TestCheckRuler(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		unit, n := 25.4, 2
		if p.mm() {
			unit, n = 10, 5
		}
		for _, pg := range p.sheets {
			var marks []pdftest.Point // under the ruler's figures
			for _, text := range pg.Texts {
				if f, ok := parseFigure(text.S); ok && text.At.Y > pg.footFrom() && near(capHeight(text), 1.8, exact) && near(p.mmOf(f), unit*float64(len(marks)), 1e-9) {
					for _, l := range pg.Lines {
						if near(l.From.X, text.Middle().X, 0.05) && near(l.To.X, l.From.X, exact) && l.To.Y > text.At.Y && l.To.Y < text.At.Y+2 {
							marks = append(marks, l.From)
							break
						}
					}
				}
			}
			if len(marks) != n+1 {
				t.Errorf("sheet %d: a ruler with %d marks, want %d", pg.number, len(marks), n+1)
				continue
			}
			for i, m := range marks {
				if !near(m.X-marks[0].X, unit*float64(i), exact) {
					t.Errorf("sheet %d: mark %d of the ruler is at %.3f mm, want %g", pg.number, i, m.X-marks[0].X, unit*float64(i))
				}
			}
		}
	})
}

// TestNotForConstruction marks every sheet of a pack with a stop finding, and
// only of such a pack.
func TestNotForConstruction(t *testing.T) {
	marked := func(p *plan, doc *pdftest.Document) (n int) {
		for _, pg := range doc.Pages {
			if slices.ContainsFunc(pg.Texts, func(t pdftest.Text) bool { return t.S == p.words.NotForConstruction }) {
				n++
			}
		}
		return n
	}
	each(t, func(t *testing.T, p *plan) {
		if !p.sample() && p.paper == "" {
			t.Skip("samples are enough")
		}
		if p.project.Findings.Has(diag.Stop) {
			t.Skip("has a stop finding of its own")
		}
		if n := marked(p, p.doc); n > 0 {
			t.Errorf("%d sheets are marked without a reason", n)
		}
		_, file, err := p.draw(diag.Finding{Level: diag.Stop, Code: "made-up", Message: "this will not stand", Fix: "take it down"})
		if err != nil {
			t.Fatal(err)
		}
		doc, err := pdftest.Read(file)
		if err != nil {
			t.Fatal(err)
		}
		if n := marked(p, doc); n != len(doc.Pages) {
			t.Errorf("%d of %d sheets are marked", n, len(doc.Pages))
		}
		for i, pg := range doc.Pages {
			for _, pair := range pg.Clashes() {
				t.Errorf("sheet %d: %q meets another text or the edge", i+1, pg.Texts[pair[0]].S)
			}
		}
	})
}

// TestExactUnits holds the units that everything is built on against NIST SP
// 811: 1 in is 25.4 mm and 1 lb is 0.453 592 37 kg, exactly.
func TestExactUnits(t *testing.T) {
	if measure.Inch != 25_400_000 || measure.Foot != 304_800_000 {
		t.Errorf("an inch is %d nm, a foot %d", measure.Inch, measure.Foot)
	}
	lb, err := measure.ParseMass("100lb", measure.Inches)
	if err != nil || lb != 45_359_237 {
		t.Errorf("100 lb are %d mg (%v)", lb, err)
	}
}
