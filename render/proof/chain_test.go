package proof

import (
	"math"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"setwright/render/pdf/pdftest"
)

// chainFaults matches every chain of running dimensions along a face with the
// rows at one height: each gives the place of every hook, bracket and grip of
// those rows that the sheet shows, and of nothing else.
func (p *plan) chainFaults(f *face, pg *page) []string {
	_, faults := p.chained(f, pg)
	return faults
}

// chained lists the rows whose places are on the drawing.
func (p *plan) chained(f *face, pg *page) (rows map[string]bool, faults []string) {
	d := p.dimensions(pg)
	rows = map[string]bool{}
	for _, c := range d.chains {
		if c.upright || c.origin.Y > d.floor() {
			continue
		}
		found := p.rowsOf(f, d, c)
		if found == nil {
			faults = append(faults, "no rows hang at "+said(c))
		}
		for _, address := range found {
			if rows[address] {
				faults = append(faults, "two chains for "+address)
			}
			rows[address] = true
		}
	}
	return rows, faults
}

// TestMostPlacesAreOnTheDrawing counts the rows whose places stand on the
// drawing itself. All of them are in the table of the face; see TestEveryPlace.
func TestMostPlacesAreOnTheDrawing(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		rows, found := 0, 0
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				chained, _ := p.chained(f, pg)
				found += len(chained)
				for _, r := range f.shown(pg.bays) {
					if len(r.measured(f.zone(pg.bays))) > 0 {
						rows++
					}
				}
			}
		}
		if t.Logf("%d of %d rows", found, rows); p.sample() && found*10 < rows*7 {
			t.Errorf("only %d of %d rows", found, rows)
		}
	})
}

// measured lists the places that the crew measures to in a stretch of the
// face, each once. A grip on the edge of two bays belongs to both.
func (r row) measured(zone [2]nm) []nm {
	var list []nm
	for _, p := range append(append([]piece(nil), r.Pieces...), r.Brackets...) {
		for _, x := range p.measured() {
			if x >= zone[0] && x <= zone[1] {
				list = append(list, x)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// rowsOf finds the rows at one height, all of them or one, whose places a
// chain gives and whose hardware its extension lines come from.
func (p *plan) rowsOf(f *face, d *drawing, c *chain) []string {
	zone := f.zone(d.page.bays)
	bySlot := map[int][]row{}
	for _, r := range f.shown(d.page.bays) {
		bySlot[r.Slot] = append(bySlot[r.Slot], r)
	}
	for _, group := range bySlot {
		tries := [][]row{group}
		for _, r := range group {
			tries = append(tries, []row{r})
		}
		for _, rows := range tries {
			places, addresses, low, high := measuredOf(rows, zone)
			if p.same(c, places) && (d.extended(c, d.floor()-low.mm()/d.page.den) || d.extended(c, d.floor()-high.mm()/d.page.den)) {
				return addresses
			}
		}
	}
	return nil
}

// measuredOf gathers the places of rows in a stretch of the face, and between
// which heights their hardware is.
func measuredOf(rows []row, zone [2]nm) (places []nm, addresses []string, low, high nm) {
	low, high = math.MaxInt64, 0
	for _, r := range rows {
		places = append(places, r.measured(zone)...)
		addresses = append(addresses, r.Address)
		for _, piece := range r.all() {
			if piece.Box.X0 < zone[1] && piece.Box.X1 > zone[0] {
				low, high = min(low, piece.Box.Y0), max(high, piece.Box.Y1)
			}
		}
	}
	slices.Sort(places)
	return slices.Compact(places), addresses, low, high
}

// extended reports whether every place of a chain has an extension line that
// ends at a height on paper.
func (d *drawing) extended(c *chain, y float64) bool {
	for _, dim := range c.dims {
		if !slices.ContainsFunc(d.page.Lines, func(l pdftest.Line) bool {
			return near(l.From.X, dim.to.X, exact) && near(l.To.X, dim.to.X, exact) && (near(l.From.Y, y, exact) || near(l.To.Y, y, exact)) &&
				min(l.From.Y, l.To.Y) < dim.to.Y+exact && max(l.From.Y, l.To.Y) > dim.to.Y-exact
		}) {
			return false
		}
	}
	return true
}

// same reports whether a chain gives exactly these places.
func (p *plan) same(c *chain, places []nm) bool {
	if len(c.dims) != len(places) {
		return false
	}
	dims := slices.Clone(c.dims)
	sort.Slice(dims, func(i, k int) bool { return dims[i].to.X < dims[k].to.X })
	for i, dim := range dims {
		if !p.says(dim.figure, places[i]) {
			return false
		}
	}
	return true
}

func said(c *chain) string {
	var list []string
	for _, dim := range c.dims {
		list = append(list, dim.text.S)
	}
	return strings.Join(list, " · ")
}

// TestRowsWithoutAChainSayWhere follows what stands beside a row without
// running dimensions of its own: that its places are in the table, or those of
// another row, which then has them, and the same.
func TestRowsWithoutAChainSayWhere(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		as := regexp.MustCompile("^" + strings.Replace(regexp.QuoteMeta(p.words.PlacesAs), "%s", `([FRBL]-\d+)`, 1) + "$")
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				chained, _ := p.chained(f, pg)
				for _, text := range pg.Texts {
					m := as.FindStringSubmatch(text.S)
					if m == nil {
						continue
					}
					r := p.nearestWithout(f, pg, chained, center(text.Ink))
					other := slices.IndexFunc(f.Rows, func(r row) bool { return r.Address == m[1] })
					zone := f.zone(pg.bays)
					if r == nil || other < 0 || !chained[m[1]] || !slices.Equal(r.measured(zone), f.Rows[other].measured(zone)) {
						t.Errorf("sheet %d: %q stands by a row with other places", pg.number, text.S)
					}
				}
			}
		}
	})
}

// nearestWithout is the row nearest to a point on paper of those that have no
// chain.
func (p *plan) nearestWithout(f *face, pg *page, chained map[string]bool, at pdftest.Point) *row {
	d := p.dimensions(pg)
	g := ground{d.left(), d.floor(), pg.den, f.zone(pg.bays)}
	var best *row
	least := math.Inf(1)
	for i, r := range f.Rows {
		for _, piece := range r.all() {
			b := piece.Box
			if chained[r.Address] || b.X0 >= g.zone[1] || b.X1 <= g.zone[0] {
				continue
			}
			if far := away(at, g.box(b.X0, b.X1, b.Y0, b.Y1)); far < least {
				best, least = &f.Rows[i], far
			}
		}
	}
	return best
}
