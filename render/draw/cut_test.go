package draw

import (
	"fmt"
	"math/rand"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/render/sheet"
)

// TestRandomCutLists draws random cut lists on every paper in every language:
// nothing overlaps, nothing leaves its sheet, and no sheet is empty.
func TestRandomCutLists(t *testing.T) {
	papers, tongues := []string{"letter", "tabloid", "a4", "a3"}, []string{"en", "es", "fr"}
	for seed := range int64(100) {
		r := rand.New(rand.NewSource(seed))
		head := &plan.Plan{Title: "Random", Paper: papers[seed%4], Language: tongues[seed%3], Measure: measure.System(seed / 2 % 2), Currency: "$"}
		cut, _ := saw.Cut(randomCutJob(r, seed%2 == 0))
		pages := NewCutJob(head, []saw.Plan{cut}).CutList()
		for i, p := range pages {
			p.Finish(i+1, len(pages))
			for _, c := range sheet.Clashes(p.Sheet) {
				t.Errorf("seed %d, sheet %d: %s", seed, i+1, clash(p.Sheet, c))
			}
			if len(p.Sheet.Items) < 30 {
				t.Errorf("seed %d, sheet %d: only %d items", seed, i+1, len(p.Sheet.Items))
			}
		}
	}
}

// clash says which texts meet, or what leaves the sheet.
func clash(s *sheet.Sheet, c sheet.Clash) string {
	name := func(i int) string {
		if text, ok := s.Items[i].(sheet.Text); ok {
			return fmt.Sprintf("%q", text.S)
		}
		return fmt.Sprintf("%T", s.Items[i])
	}
	if c.B < 0 {
		return name(c.A) + " leaves the sheet"
	}
	return name(c.A) + " meets " + name(c.B)
}

func randomCutJob(r *rand.Rand, sheets bool) saw.Job {
	const eighth = measure.Inch / 8
	width := func(eighths int) measure.Length {
		if !sheets {
			return 0
		}
		return measure.Length(eighths) * eighth
	}
	stock := &parts.Stock{ID: "stock", Name: "Stock", Kerf: eighth, Trim: measure.Length(r.Intn(3)) * eighth, Keep: 12 * measure.Inch, Grain: r.Intn(2) == 0}
	if sheets && r.Intn(3) == 0 {
		stock.Grain, stock.Grooves = true, 3*measure.Inch
	}
	stock.Sizes = []parts.StockSize{{Length: 97 * measure.Inch, Width: width(49 * 8)}, {Length: 49 * measure.Inch, Width: width(97 * 8)}}
	for i := range stock.Sizes {
		stock.Sizes[i].Buy.Packs = []parts.Pack{{Pieces: 1, Price: measure.Money(1000 + r.Intn(1000))}}
	}
	job := saw.Job{Stock: stock}
	for i := range 1 + r.Intn(6) {
		p := saw.Piece{Mark: fmt.Sprint(i + 1), Length: measure.Length(8+r.Intn(8*44)) * eighth, Width: width(8 + r.Intn(8*40)), Count: 1 + r.Intn(8), Turn: sheets && !stock.Grain}
		for n := range p.Count {
			p.Where = append(p.Where, fmt.Sprintf("F-%d", n+1))
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job
}
