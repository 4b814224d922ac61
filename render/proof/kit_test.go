package proof

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/kit"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/pdf/pdftest"
	"setwright/render/sheet"
	"setwright/render/words"
)

// yearOf reads the gondola samples as the seasons of a year, on any paper and
// in any language, with the house's prices and what it has on hand.
func yearOf(t *testing.T, paper, tongue string, name func([]kit.Season) []kit.Season) ([]kit.Season, []parts.OnHand) {
	t.Helper()
	house := filepath.Join(root, "samples", "year")
	prices, err := os.ReadFile(filepath.Join(house, "larkfield-parts.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	stock, err := os.ReadFile(filepath.Join(house, "stock.csv"))
	if err != nil {
		t.Fatal(err)
	}
	reader := layout.NewReader().Over("./prices.yaml", prices)
	var seasons []kit.Season
	for _, sample := range []string{"children", "spring", "shirts", "sweets", "boots"} {
		p := &plan{name: sample, files: os.DirFS(filepath.Join(root, "samples", sample)), paper: paper, tongue: tongue}
		project, err := p.loadBy(reader)
		if err != nil {
			t.Fatal(sample, ": ", err)
		}
		seasons = append(seasons, kit.Season{File: sample + ".yaml", Mark: project.Fingerprint, Unit: project.Unit})
	}
	seasons = name(seasons)
	var found diag.List
	return seasons, kit.LoadOnHand(seasons, "stock.csv", stock, &found)
}

// inPDF writes a pack and reads it back.
func inPDF(t *testing.T, p *sheet.Pack) *pdftest.Document {
	t.Helper()
	var file bytes.Buffer
	if err := pdf.Write(&file, p); err != nil {
		t.Fatal(err)
	}
	doc, err := pdftest.Read(file.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// eachYear draws the year's kit on several papers in all languages.
func eachYear(t *testing.T, check func(t *testing.T, k *kit.Kit, doc *pdftest.Document)) {
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}, {"a3", "en"}} {
		t.Run(strings.Join(as[:], " "), func(t *testing.T) {
			seasons, hand := yearOf(t, as[0], as[1], kit.Named)
			k, found := kit.Make(seasons, hand)
			check(t, k, inPDF(t, render.Kit(k, found, found, render.Options{Program: "Setwright under proof", Fingerprint: "0000-0000"})))
		})
	}
}

// TestKitIsTidy: no text on another or off the sheet, nothing too small or cut
// short, every sheet bookmarked.
func TestKitIsTidy(t *testing.T) {
	eachYear(t, func(t *testing.T, k *kit.Kit, doc *pdftest.Document) { tidy(t, doc) })
}

func tidy(t *testing.T, doc *pdftest.Document) {
	t.Helper()
	if len(doc.Outlines) != len(doc.Pages) {
		t.Errorf("%d bookmarks for %d pages", len(doc.Outlines), len(doc.Pages))
	}
	for n, page := range doc.Pages {
		for _, c := range page.Clashes() {
			other := "the edge of the sheet"
			if c[1] >= 0 {
				other = page.Texts[c[1]].S
			}
			t.Errorf("page %d: %q meets %q", n+1, page.Texts[c[0]].S, other)
		}
		for _, text := range page.Texts {
			if capHeight(text) < 1.8-exact {
				t.Errorf("page %d: %q is %.2f mm high", n+1, text.S, capHeight(text))
			}
			if strings.HasSuffix(text.S, "…") {
				t.Errorf("page %d: %q is cut short", n+1, text.S)
			}
			if text.Lacked > 0 {
				t.Errorf("page %d: %q has characters that the face lacks", n+1, text.S)
			}
		}
	}
}

// recounted is the pieces of a part in a unit, counted one by one.
func recounted(u *unit.Unit, l *kit.Line) int {
	n := 0
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				n += fixings(p.Part, l)
				if p.Part.ID == l.Part.ID && p.Cut == l.Cut {
					n++
				}
			}
		}
	}
	for _, s := range u.Structure {
		if s.Bay > 0 {
			n += fixings(s.Part, l)
			if s.Part.ID == l.Part.ID {
				n++
			}
		}
	}
	for _, p := range []*parts.Part{u.Frame, u.Stand} {
		n += fixings(p, l)
		if p.ID == l.Part.ID {
			n++
		}
	}
	return n
}

// fixings is how many of a line's part one piece of another comes with.
func fixings(p *parts.Part, l *kit.Line) int {
	for _, f := range p.Fixed {
		if f.Part == l.Part.ID {
			return f.Count
		}
	}
	return 0
}

// TestKitChart reads the chart back: the figures of each part and season are
// those of the units counted anew, and the grey of its bar is to scale.
func TestKitChart(t *testing.T) {
	eachYear(t, func(t *testing.T, k *kit.Kit, doc *pdftest.Document) {
		for i := range k.Lines {
			l := &k.Lines[i]
			owned, most := make([]int, len(k.Seasons)), 0
			used := make([]int, len(k.Seasons))
			for season := range k.Seasons {
				used[season] = recounted(k.Seasons[season].Unit, l)
				owned[season] = l.OnHand
				for _, n := range l.Come[:season+1] {
					owned[season] += n
				}
				most = max(most, owned[season])
			}
			row := chartRow(t, doc, l.Item)
			var want []string
			for season := range k.Seasons {
				figure := strconv.Itoa(used[season])
				if idle := owned[season] - used[season]; idle > 0 {
					figure += fmt.Sprintf(" (%d)", idle)
				}
				want = append(want, figure)
				if n := l.Come[season]; n > 0 {
					want = append(want, fmt.Sprintf("+%d", n))
				}
			}
			if !slices.Equal(row.figures, want) {
				t.Errorf("item %d, %s: the chart says %q, the units %q", l.Item, l.Part.ID, row.figures, want)
			}
			for season, at := range row.starts {
				grey := row.grey(at)
				if want := row.length() * float64(used[season]) / float64(most); math.Abs(grey-want) > 0.01 {
					t.Errorf("item %d, season %d: %.2f mm of grey, want %.2f", l.Item, season+1, grey, want)
				}
			}
		}
	})
}

// charted is one line of the chart as it is on its page.
type charted struct {
	page    *pdftest.Page
	y       float64 // of its figures
	figures []string
	starts  []float64 // where each season's field begins
}

// chartRow finds the line of an item, by its number at the left end.
func chartRow(t *testing.T, doc *pdftest.Document, item int) charted {
	t.Helper()
	for n := range doc.Pages {
		p := &doc.Pages[n]
		if !strings.HasPrefix(doc.Outlines[n].Title, doc.Outlines[1].Title) {
			continue
		}
		for _, text := range p.Texts {
			if text.S != strconv.Itoa(item) || text.At.X > 30 || capHeight(text) > 1.9 {
				continue
			}
			row := charted{page: p, y: text.At.Y}
			figures := textsAt(p, text.At.Y, 50)
			for _, f := range figures {
				row.figures = append(row.figures, f.S)
				if !strings.HasPrefix(f.S, "+") {
					row.starts = append(row.starts, f.At.X)
				}
			}
			return row
		}
	}
	t.Fatalf("no item %d in the chart", item)
	return charted{}
}

// textsAt are the texts on one baseline right of a place, from the left.
func textsAt(p *pdftest.Page, y, from float64) []pdftest.Text {
	var list []pdftest.Text
	for _, text := range p.Texts {
		if math.Abs(text.At.Y-y) < 0.05 && text.At.X > from {
			list = append(list, text)
		}
	}
	slices.SortFunc(list, func(a, b pdftest.Text) int { return int(math.Copysign(1, a.At.X-b.At.X)) })
	return list
}

// grey is how long the grey part of the bar is that begins there.
func (c charted) grey(x float64) float64 {
	for _, path := range c.page.Paths {
		if path.Fill == nil || !near(path.Fill[0], 190.0/255, 0.01) {
			continue
		}
		b := bounds(path.Points)
		if near(b.Min.X, x, 0.02) && b.Min.Y > c.y && b.Min.Y < c.y+4 {
			return b.Max.X - b.Min.X
		}
	}
	return 0
}

// length is how long a bar is that is as long as it can be: the distance
// between two fields, less the gap.
func (c charted) length() float64 {
	const gap = 3
	return c.starts[1] - c.starts[0] - gap
}

func bounds(points []pdftest.Point) pdftest.Box {
	b := pdftest.Box{Min: points[0], Max: points[0]}
	for _, p := range points {
		b.Min = pdftest.Point{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}
		b.Max = pdftest.Point{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
	}
	return b
}

// TestKitOrders adds up the orders: the costs of the lines on a supplier's
// sheet are its goods, and pieces ordered are pieces that come.
func TestKitOrders(t *testing.T) {
	seasons, hand := yearOf(t, "", "", kit.Named)
	k, found := kit.Make(seasons, hand)
	doc := inPDF(t, render.Kit(k, found, found, render.Options{}))
	said := map[string]bool{}
	for _, p := range doc.Pages {
		for _, text := range p.Texts {
			said[text.S] = true
		}
	}
	come := 0
	for season, change := range k.Changes {
		for _, o := range change.Purchase.Orders {
			sum := measure.Money(0)
			for _, l := range o.Lines {
				pieces := 0
				for _, p := range l.Packs {
					pieces += p.Count * p.Pieces
					sum += measure.Money(p.Count) * p.Price
					if pack := fmt.Sprintf("%d × %d at $%v", p.Count, p.Pieces, p.Price); !said[pack] {
						t.Errorf("no sheet says %q", pack)
					}
				}
				if !l.Stock() {
					come += pieces
				}
			}
			if sum != o.Goods || !said["$"+sum.String()] || !said["$"+o.Total.String()] {
				t.Errorf("season %d, %s: the lines cost %v, the order says %v, %v in all", season+1, o.Supplier.Name, sum, o.Goods, o.Total)
			}
		}
	}
	for i := range k.Lines {
		if l := &k.Lines[i]; l.Part.Cut == nil {
			for _, n := range l.Come {
				come -= n
			}
		}
	}
	if come != 0 {
		t.Errorf("%d pieces more are ordered than come", come)
	}
}

// TestKitGoldens compares the sheets of the year's kit, and the figures of its
// plans as options, with what they were. Orders, cuts and faces are drawn as
// those of one unit.
func TestKitGoldens(t *testing.T) {
	seasons, hand := yearOf(t, "", "", kit.Named)
	k, found := kit.Make(seasons, hand)
	options, said := kit.Options(seasons, hand, make([][]diag.Finding, len(seasons)))
	for name, pack := range map[string]*sheet.Pack{
		"kit":     render.Kit(k, found, found, render.Options{Fingerprint: "0000-0000"}),
		"options": render.Compare(options, said, said, render.Options{Fingerprint: "0000-0000"}),
	} {
		var all strings.Builder
		for _, s := range pack.Sheets {
			if !strings.HasPrefix(s.Name, "season-") && s.Name != "options" {
				all.WriteString(sheet.Dump(s))
			}
		}
		golden.Check(t, filepath.Join(root, "testdata", "golden", "spring."+name+".txt"), all.String())
	}
}

// TestKitTablesHaveWords wants the names of the kit's tables and columns in
// every language, for its workbook.
func TestKitTablesHaveWords(t *testing.T) {
	seasons, hand := yearOf(t, "", "", kit.Named)
	k, _ := kit.Make(seasons, hand)
	alike := []string{"plan"} // written the same in all three
	for _, table := range kit.Tables(k) {
		names := []string{table.Name}
		for _, c := range table.Columns {
			names = append(names, c.Name)
		}
		for _, name := range names {
			if _, err := strconv.Atoi(name); err == nil || slices.Contains(alike, name) {
				continue // a season's own column
			}
			for _, tag := range []string{"es", "fr"} {
				if words.In(tag).ListWord(name) == words.In("en").ListWord(name) {
					t.Errorf("%s has no word for %q", tag, name)
				}
			}
		}
	}
}

// TestCompareToScale measures the floors of all faces, and reads the figures of
// each option against its unit.
func TestCompareToScale(t *testing.T) {
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}} {
		seasons, hand := yearOf(t, as[0], as[1], kit.Titled)
		options, found := kit.Options(seasons, hand, make([][]diag.Finding, len(seasons)))
		doc := inPDF(t, render.Compare(options, found, found, render.Options{}))
		tidy(t, doc)
		widths := map[int]int{} // of floors on paper, in hundredths of a millimetre
		den := 0
		for _, p := range doc.Pages {
			for _, text := range p.Texts {
				if _, err := fmt.Sscanf(text.S, "1:%d", &den); err == nil {
					break
				}
			}
			for _, l := range p.Lines {
				if near(l.Pen.Width, 0.35, exact) && near(l.From.Y, l.To.Y, exact) && l.Length() < 100 {
					widths[int(math.Round(l.Length()*100))]++
				}
			}
		}
		if den == 0 {
			t.Fatal("no scale")
		}
		for i := range options {
			for _, f := range options[i].Unit.Faces {
				wide := float64(f.Width) / float64(measure.Millimetre) / float64(den)
				widths[int(math.Round(wide*100))]--
			}
		}
		for width, n := range widths {
			if n != 0 {
				t.Errorf("%v: %d floors of %.2f mm more than faces so wide at 1:%d", as, n, float64(width)/100, den)
			}
		}
		compareFigures(t, doc, options)
	}
}

// compareFigures finds each option's units, products and hooks, counted anew,
// in the column of its number.
func compareFigures(t *testing.T, doc *pdftest.Document, options []kit.Option) {
	t.Helper()
	units, hooks, weights := make([]string, len(options)), make([]string, len(options)), make([]string, len(options))
	for i := range options {
		u, held, pegs := options[i].Unit, 0, 0
		for _, f := range u.Faces {
			for _, row := range f.Rows {
				for _, p := range row.Positions {
					for _, front := range p.Fronts {
						held += front.Units
					}
				}
				if row.Part.Kind == parts.Hook {
					pegs += len(row.Pieces)
				}
			}
		}
		units[i], hooks[i], weights[i] = strconv.Itoa(held), strconv.Itoa(pegs), options[i].Mark
	}
	for _, want := range [][]string{units, hooks, weights} {
		found := false
		for n := range doc.Pages {
			for _, text := range doc.Pages[n].Texts {
				var row []string
				for _, cell := range textsAt(&doc.Pages[n], text.At.Y, text.At.X-0.01) {
					row = append(row, cell.S)
				}
				found = found || len(row) > 0 && slices.Equal(row, want)
			}
		}
		if !found {
			t.Errorf("no row says %q", want)
		}
	}
}
