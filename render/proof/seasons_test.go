package proof

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"setwright/layout/archive"
	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/seasons"
	"setwright/layout/unit"
	"setwright/render"
	"setwright/render/pdf/pdftest"
	"setwright/render/words"
)

// strip is a drawn timeline, read back.
type strip struct {
	*pdftest.Page
	units []*unit.Unit // in order of their dates
	den   float64
	words *words.Words
}

// stripOf draws packs of units and reads the one page back.
func stripOf(t *testing.T, units []*unit.Unit) *strip {
	t.Helper()
	slices.SortFunc(units, func(a, b *unit.Unit) int { return strings.Compare(a.Plan.Date, b.Plan.Date) })
	var packs []seasons.Pack
	for i, u := range units {
		packs = append(packs, seasons.Pack{File: fmt.Sprint(i), Mark: fmt.Sprint(i),
			Summary: archive.Summarize(u, []diag.Finding{{Level: diag.Caution, Code: "a"}, {Level: diag.Note, Code: "b"}, {Level: diag.Note, Code: "c"}}, buy.Purchase{})})
	}
	line, found := seasons.Make(packs)
	if len(found) > 0 {
		t.Fatalf("found: %v", found)
	}
	doc := inPDF(t, render.Seasons(line, render.Options{Program: "Setwright under proof", Fingerprint: "0000-0000"}))
	tidy(t, doc)
	if len(doc.Pages) != 1 {
		t.Fatalf("%d pages, want one", len(doc.Pages))
	}
	s := &strip{Page: &doc.Pages[0], units: units, words: words.In(units[0].Plan.Language)}
	for _, text := range s.Texts {
		if m := regexp.MustCompile(`^1:(\d+)( |$)`).FindStringSubmatch(text.S); m != nil {
			s.den, _ = strconv.ParseFloat(m[1], 64)
		}
	}
	if s.den == 0 {
		t.Fatal("no scale is printed")
	}
	return s
}

// timelineOf is the packs of a year in order of time.
func timelineOf(year []kit.Season) *seasons.Timeline {
	var packs []seasons.Pack
	for _, s := range year {
		packs = append(packs, seasons.Pack{File: s.File, Mark: s.Mark, Summary: archive.Summarize(s.Unit, nil, buy.Purchase{})})
	}
	line, _ := seasons.Make(packs)
	return line
}

// column is where the column of a pack begins, by its number and its dates.
func (s *strip) column(t *testing.T, n int) pdftest.Point {
	t.Helper()
	for _, text := range s.Texts {
		if !strings.HasPrefix(text.S, s.units[n].Plan.Date+" –") {
			continue
		}
		for _, number := range s.Texts {
			if number.S == strconv.Itoa(n+1) && near(number.At.Y, text.At.Y, exact) && number.At.X < text.At.X && number.At.X > text.At.X-8 {
				return number.At
			}
		}
	}
	t.Fatalf("no column of pack %d", n+1)
	return pdftest.Point{}
}

// TestStrip reads the year's strip back, on several papers in all languages:
// bars lie on the axis of time by the calendar, every front of every face is in
// its place to scale, and the figures are those of the units counted anew.
func TestStrip(t *testing.T) {
	for _, as := range [][2]string{{"", ""}, {"a4", "fr"}, {"tabloid", "es"}, {"a3", "en"}} {
		t.Run(strings.Join(as[:], " "), func(t *testing.T) {
			year, _ := yearOf(t, as[0], as[1], kit.Named)
			var units []*unit.Unit
			for _, season := range year {
				units = append(units, season.Unit)
			}
			s := stripOf(t, units)
			s.checkBars(t)
			fronts := 0
			for n := range s.units {
				at := s.column(t, n)
				s.checkFigures(t, n, at)
				for _, f := range s.units[n].Faces {
					fronts += s.checkFace(t, n, f, at)
				}
			}
			if fronts < 300 {
				t.Errorf("only %d fronts were looked at", fronts)
			}
		})
	}
}

// day is a day of the calendar as days since some day.
func day(t *testing.T, s string) float64 {
	t.Helper()
	at, err := time.Parse(time.DateOnly, s)
	if err != nil {
		t.Fatal(err)
	}
	return at.Sub(time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)).Hours() / 24
}

// checkBars wants each bar to begin on its date, as the months' ticks on the axis
// have it, and to end where the next begins.
func (s *strip) checkBars(t *testing.T) {
	t.Helper()
	month := regexp.MustCompile(`^\d{4}-\d{2}$`)
	var ticks [][2]float64 // day, place
	for _, text := range s.Texts {
		if !month.MatchString(text.S) {
			continue
		}
		for _, l := range s.Lines {
			if near(l.From.X, l.To.X, exact) && near(l.Length(), 1.5, exact) && near(l.From.X, text.At.X-0.5, exact) {
				ticks = append(ticks, [2]float64{day(t, text.S+"-01"), l.From.X})
			}
		}
	}
	if len(ticks) < 5 {
		t.Fatalf("%d months on the axis", len(ticks))
	}
	first, last := ticks[0], ticks[len(ticks)-1]
	place := func(date string) float64 {
		return first[1] + (day(t, date)-first[0])*(last[1]-first[1])/(last[0]-first[0])
	}
	for _, tick := range ticks {
		if want := first[1] + (tick[0]-first[0])*(last[1]-first[1])/(last[0]-first[0]); !near(tick[1], want, exact) {
			t.Errorf("a month is at %.2f, want %.2f", tick[1], want)
		}
	}
	for n, u := range s.units {
		from, to := place(u.Plan.Date), math.NaN()
		if n+1 < len(s.units) {
			to = place(s.units[n+1].Plan.Date)
		}
		if !slices.ContainsFunc(s.Paths, func(p pdftest.Path) bool {
			b := bounds(p.Points)
			return p.Fill != nil && near(b.Max.Y-b.Min.Y, 4.5, exact) && near(b.Min.X, from, exact) && (math.IsNaN(to) || near(b.Max.X, to, exact))
		}) {
			t.Errorf("no bar from %.2f to %.2f for %s", from, to, u.Plan.Date)
		}
	}
}

// checkFigures counts a unit, and what changed from the one before.
func (s *strip) checkFigures(t *testing.T, n int, at pdftest.Point) {
	t.Helper()
	u, w := s.units[n], s.words
	pieces, products := piecesOf(u), productsOf(u)
	want := []string{fmt.Sprintf(w.PiecesFirst, total(pieces)), fmt.Sprintf(w.ProductsFirst, len(products)), fmt.Sprintf(w.FoundCounts, 0, 1, 2)}
	if n > 0 {
		had, sold := piecesOf(s.units[n-1]), productsOf(s.units[n-1])
		in, out, come, gone, moved := 0, 0, 0, 0, 0
		for part, count := range pieces {
			in += max(0, count-had[part])
		}
		for part, count := range had {
			out += max(0, count-pieces[part])
		}
		for sku, places := range products {
			if sold[sku] == nil {
				come++
				continue
			}
			for address := range places {
				if !sold[sku][address] {
					moved++
				}
			}
		}
		for sku := range sold {
			if products[sku] == nil {
				gone++
			}
		}
		want[0] = fmt.Sprintf(w.PiecesThen, total(pieces), in, out)
		want[1] = fmt.Sprintf(w.ProductsThen, len(products), come, gone, moved)
	}
	for _, line := range want {
		if !slices.ContainsFunc(s.Texts, func(text pdftest.Text) bool { return text.S == line && near(text.At.X, at.X, exact) }) {
			t.Errorf("pack %d does not say %q", n+1, line)
		}
	}
}

// piecesOf counts all that hangs and stands, by part and cut length.
func piecesOf(u *unit.Unit) map[string]int {
	count := map[string]int{}
	for _, l := range list.Pick(u) {
		count[fmt.Sprint(l.Part.ID, " ", l.Cut)] += l.Quantity
	}
	return count
}

func total(count map[string]int) int {
	n := 0
	for _, c := range count {
		n += c
	}
	return n
}

// productsOf lists where each product is.
func productsOf(u *unit.Unit) map[string]map[string]bool {
	at := map[string]map[string]bool{}
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			for _, p := range row.Positions {
				if at[p.Product.SKU] == nil {
					at[p.Product.SKU] = map[string]bool{}
				}
				at[p.Product.SKU][p.Address] = true
			}
		}
	}
	return at
}

// checkFace finds a face in the column that begins there, by the floor under its
// name, and wants a filled box for each of its fronts. It returns how many.
func (s *strip) checkFace(t *testing.T, n int, f *unit.Face, at pdftest.Point) int {
	t.Helper()
	name := map[string]string{"F": s.words.FrontFace, "R": s.words.RightFace, "B": s.words.BackFace, "L": s.words.LeftFace}[f.Letter]
	width, reach := paper(f.Width)/s.den, 3*paper(f.Width)/s.den
	for _, text := range s.Texts {
		if text.S != name && text.S != f.Letter || text.At.X < at.X-exact || text.At.X > at.X+reach {
			continue
		}
		for _, l := range s.Lines {
			if near(l.From.X, text.At.X, exact) && near(l.Length(), width, exact) && near(l.From.Y, l.To.Y, exact) &&
				l.From.Y > text.At.Y && l.From.Y < text.At.Y+2.5*paper(f.Top)/s.den {
				return s.checkFronts(t, n, f, l.From)
			}
		}
	}
	t.Errorf("pack %d: no %s", n+1, name)
	return 0
}

// paper is a length in millimetres.
func paper(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }

func (s *strip) checkFronts(t *testing.T, n int, f *unit.Face, floor pdftest.Point) int {
	t.Helper()
	looked := 0
	for _, row := range f.Rows {
		for _, p := range row.Positions {
			for _, front := range p.Fronts {
				looked++
				b := front.Box
				want := pdftest.Box{
					Min: pdftest.Point{X: floor.X + paper(max(0, b.X0))/s.den, Y: floor.Y - paper(b.Y1)/s.den},
					Max: pdftest.Point{X: floor.X + paper(min(f.Width, b.X1))/s.den, Y: floor.Y - paper(b.Y0)/s.den},
				}
				if !slices.ContainsFunc(s.Paths, func(p pdftest.Path) bool {
					got := bounds(p.Points)
					return p.Fill != nil && near(got.Min.X, want.Min.X, exact) && near(got.Max.X, want.Max.X, exact) &&
						near(got.Min.Y, want.Min.Y, exact) && near(got.Max.Y, want.Max.Y, exact)
				}) {
					t.Errorf("pack %d: no front of %s at %.2f", n+1, p.Address, want)
				}
			}
		}
	}
	return looked
}

// TestCrowdedStrip draws more than fits: what is not drawn is counted, what is
// drawn is tidy and is the newest.
func TestCrowdedStrip(t *testing.T) {
	year, _ := yearOf(t, "", "", kit.Named)
	var models []archive.Summary
	for _, season := range year {
		models = append(models, archive.Summarize(season.Unit, nil, buy.Purchase{}))
	}
	pack := func(n int, unit, date string) seasons.Pack {
		p := seasons.Pack{File: fmt.Sprintf("%04d", n), Mark: fmt.Sprint(n), Summary: models[n%len(models)]}
		p.Unit.Name, p.Date = unit, date
		return p
	}
	many := func(n, apart int, units ...string) []seasons.Pack {
		var packs []seasons.Pack
		for i := range n {
			date := time.Date(2027, 1, 1+i*apart, 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
			packs = append(packs, pack(i, units[i%len(units)], date))
		}
		return packs
	}
	wide := pack(0, "Wall", "2027-01-01")
	wide.Faces = slices.Clone(wide.Faces)
	wide.Faces[0].Width = 900_000
	superseded := append(many(2, 30, "Door"), pack(2, "Door", "2027-01-01"), pack(2, "Door", "2027-01-01"), pack(3, "Door", ""))
	superseded[2].Revision = "9"
	for _, c := range []struct {
		packs   []seasons.Pack
		said    string
		numbers []string // drawn, "" for any
		reason  string
	}{
		{many(1, 1, "Door"), "", []string{"1"}, "one pack"},
		{many(2, 1, "Door"), "", []string{"1", "2"}, "a day apart"},
		{many(200, 1, "Door"), "Not drawn: earlier packs: 19", []string{"200", "199"}, "two hundred, a day apart"},
		{many(30, 365, "Door"), "Not drawn: earlier packs: 2", []string{"30", "29"}, "thirty years"},
		{many(6, 20, "Door", "Wall"), "", []string{"1", "2", "3"}, "two units beside each other"},
		{many(12, 20, "Door", "Wall", "Porch", "Till", "Barn", "Shed"), "Not drawn: other units: ", nil, "six units"},
		{superseded, "superseded: 1; copies: 1; without a date: 1", []string{"1", "2"}, "what was not up"},
		{[]seasons.Pack{pack(0, "Door", "")}, "No pack has a date", nil, "no date at all"},
		{[]seasons.Pack{wide}, "Not drawn: other units: 1", nil, "wider than any sheet at any scale"},
		{[]seasons.Pack{pack(0, "Door", "0001-01-01"), pack(1, "Door", "9999-12-31")}, "", []string{"1", "2"}, "all of time"},
		{[]seasons.Pack{pack(0, strings.Repeat("Door ", 40), "2027-01-01")}, "", []string{"1"}, "a long name"},
	} {
		for _, tongue := range []string{"en", "es", "fr"} {
			for i := range c.packs {
				c.packs[i].Language = tongue
			}
			line, _ := seasons.Make(c.packs)
			doc := inPDF(t, render.Seasons(line, render.Options{}))
			if len(doc.Pages) != 1 {
				t.Fatalf("%s: %d pages", c.reason, len(doc.Pages))
			}
			var all []string
			for _, text := range doc.Pages[0].Texts {
				all = append(all, text.S)
			}
			for _, clash := range doc.Pages[0].Clashes() {
				t.Errorf("%s, %s: %q meets another text or the edge", c.reason, tongue, all[clash[0]])
			}
			if tongue != "en" {
				continue
			}
			if text := strings.Join(all, "\n"); !strings.Contains(text, c.said) || c.said == "" && strings.Contains(text, "Not drawn") {
				t.Errorf("%s: the strip does not say %q:\n%s", c.reason, c.said, text)
			}
			for _, n := range c.numbers {
				if !slices.Contains(all, n) {
					t.Errorf("%s: pack %s is not drawn", c.reason, n)
				}
			}
		}
	}
}
