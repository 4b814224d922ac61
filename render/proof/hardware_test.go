package proof

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/parts"
	"setwright/render/pdf/pdftest"
)

// shown lists the rows of a face with hardware in the bays of a sheet.
func (f *face) shown(bays [2]int) []row {
	zone := f.zone(bays)
	var list []row
	for _, r := range f.Rows {
		if slices.ContainsFunc(r.all(), func(p piece) bool { return p.Box.X0 < zone[1] && p.Box.X1 > zone[0] }) {
			list = append(list, r)
		}
	}
	return list
}

// elevations lists the sheets that draw a face's hardware, and fails unless
// together they show each of its bays once.
func (p *plan) elevations(t *testing.T, f *face) []*page {
	t.Helper()
	var list []*page
	next := 1
	for _, pg := range p.of(hardware, f.Letter) {
		if pg.den == 0 {
			continue
		}
		if pg.bays[0] != next {
			t.Errorf("sheet %d begins with bay %d, not %d", pg.number, pg.bays[0], next)
		}
		next = pg.bays[1] + 1
		list = append(list, pg)
	}
	if len(list) > 0 && next != f.Bays+1 {
		t.Errorf("%s: the elevations end with bay %d of %d", f.Face, next-1, f.Bays)
	}
	if len(list) == 0 && len(f.Rows) > 0 {
		t.Errorf("%s: %d rows and no elevation", f.Face, len(f.Rows))
	}
	return list
}

// slotWord is what a slot is called on a face's surface.
func (p *plan) slotWord(letter string) string {
	for _, f := range p.project.Unit.Faces {
		if f.Letter != letter {
			continue
		}
		switch f.Panel.Panel.Surface {
		case parts.Wire:
			return p.words.Wire
		case parts.Slatwall:
			return p.words.Groove
		case parts.Pegboard:
			return p.words.Hole
		}
	}
	return p.words.Slot
}

// TestEveryHeight rebuilds the list of hardware heights and slots from the
// running heights of each elevation alone: it is that of the dressed unit.
func TestEveryHeight(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				heights := map[int]figure{}
				edges := map[string]figure{}
				for _, c := range p.dimensions(pg).chains {
					for _, dim := range c.dims {
						word, number, _ := strings.Cut(dim.slot, " ")
						slot, err := strconv.Atoi(number)
						switch {
						case !c.upright:
						case err != nil:
							edges[dim.slot] = dim.figure
						case word != p.slotWord(f.Letter):
							t.Errorf("sheet %d: slots are called %s", pg.number, word)
						default:
							heights[slot] = dim.figure
						}
					}
				}
				for _, r := range f.shown(pg.bays) {
					if r.Height != f.SlotFirst+nm(r.Slot-1)*f.SlotPitch {
						t.Errorf("%s: slot %d is not at %d", r.Address, r.Slot, r.Height)
					}
					if h, ok := heights[r.Slot]; !ok || !p.says(h, r.Height) {
						t.Errorf("sheet %d: %s hangs on slot %d at %.2f mm, the sheet says %v", pg.number, r.Address, r.Slot, r.Height.mm(), h)
					}
				}
				for slot := range heights {
					if !slices.ContainsFunc(f.shown(pg.bays), func(r row) bool { return r.Slot == slot }) {
						t.Errorf("sheet %d: nothing hangs on slot %d", pg.number, slot)
					}
				}
				for name, l := range map[string]nm{p.words.TopEdge: f.Top, p.words.BottomEdge: f.Bottom} {
					if h, ok := edges[name]; ok && !p.says(h, l) {
						t.Errorf("sheet %d: %s is at %.2f mm, the sheet says %v", pg.number, name, l.mm(), h)
					}
				}
			}
		}
	})
}

// TestEveryChain matches every chain of running dimensions along a face with
// the rows at one height: each gives the place of every hook, bracket and grip
// of those rows that the sheet shows, and of nothing else.
func TestEveryChain(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		rows, chained := 0, 0
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				d := p.dimensions(pg)
				found := map[string]bool{}
				for _, c := range d.chains {
					if c.upright || c.origin.Y > d.floor() {
						continue
					}
					r := p.rowsOf(f, d, c)
					if r == nil {
						t.Errorf("sheet %d: no rows hang at %s", pg.number, said(c))
					}
					for _, address := range r {
						if found[address] {
							t.Errorf("sheet %d: two chains for %s", pg.number, address)
						}
						found[address] = true
					}
				}
				for _, r := range f.shown(pg.bays) {
					if len(r.measured(f.zone(pg.bays))) > 0 {
						rows++
						if found[r.Address] {
							chained++
						}
					}
				}
			}
		}
		t.Logf("%d of %d rows have their places on the drawing, all have them in the table", chained, rows)
		if p.sample() && chained*10 < rows*7 {
			t.Errorf("only %d of %d rows have their places on the drawing", chained, rows)
		}
	})
}

// floor is where on paper the finished floor is: where the heights begin.
func (d *drawing) floor() float64 {
	for _, c := range d.chains {
		if c.upright {
			return c.origin.Y
		}
	}
	return 0
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

// TestEveryDepth holds the running depths under each section against how far
// the hardware of the rows shown reaches out.
func TestEveryDepth(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				var depths []nm
				if f.DeckDepth > 0 {
					depths = append(depths, f.DeckDepth)
				}
				for _, r := range f.shown(pg.bays) {
					for _, piece := range r.all() {
						depths = append(depths, piece.Box.D1)
					}
				}
				slices.Sort(depths)
				depths = slices.Compact(depths)
				d := p.dimensions(pg)
				drawn := slices.ContainsFunc(d.chains, func(c *chain) bool {
					return !c.upright && c.origin.Y > d.floor() && p.same(c, depths)
				})
				if !drawn && len(depths) > 0 {
					t.Errorf("sheet %d: the section's depths are not those of the hardware: %v", pg.number, depths)
				}
			}
		}
	})
}

// TestEveryBay holds the widths under each elevation against the face.
func TestEveryBay(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				n := pg.bays[1] - pg.bays[0] + 1
				bays, whole := 0, 0
				for _, dim := range p.dimensions(pg).plain {
					switch {
					case n > 1 && p.says(dim.figure, f.Width/nm(f.Bays)*nm(n)):
						whole++
					case p.says(dim.figure, f.Width/nm(f.Bays)):
						bays++
					default:
						t.Errorf("sheet %d: a width of %s", pg.number, dim.text.S)
					}
				}
				if bays != n || n > 1 && whole != 1 {
					t.Errorf("sheet %d: %d widths of bays and %d over all, of %d bays", pg.number, bays, whole, n)
				}
			}
		}
	})
}

// item is a line of the pick list: a part, and the length it is cut to.
type item struct {
	number int
	part   string
	cut    string // as printed, "" if it is not cut
	rows   []string
	count  int
}

// items reads the pick list.
func (p *plan) items(t *testing.T) map[int]item {
	t.Helper()
	w := p.words
	list := map[int]item{}
	cut := regexp.MustCompile(strings.Replace(regexp.QuoteMeta(w.CutTo), "%s", `(\S+)`, 1))
	for _, e := range table(p.of(pickList, ""), w.Item, w.Part, w.Quantity, w.Where) {
		it := item{rows: regexp.MustCompile(`[FRBL]-\d+`).FindAllString(e.text(w.Where), -1)}
		var err1, err2 error
		it.number, err1 = strconv.Atoi(e.text(w.Item))
		it.count, err2 = strconv.Atoi(e.text(w.Quantity))
		lines := e.cells[w.Part]
		if err1 != nil || err2 != nil || len(lines) < 2 || list[it.number].number > 0 {
			t.Fatalf("sheet %d: a line of the pick list that is not one: %v", e.page.number, e.cells)
		}
		it.part = lines[len(lines)-1]
		for _, m := range cut.FindAllStringSubmatch(strings.ReplaceAll(strings.Join(lines, " "), "\u00a0", " "), -1) {
			it.cut = m[1] // the last: names may say it too
		}
		list[it.number] = it
	}
	return list
}

// is reports whether a piece is of an item.
func (p *plan) is(it item, piece piece) bool {
	if it.part != piece.Part {
		return false
	}
	if piece.Cut == 0 {
		return it.cut == ""
	}
	f, ok := parseFigure(it.cut)
	return ok && p.says(f, piece.Cut)
}

// TestPickListCounts holds the pick list's quantities and rows against the unit.
func TestPickListCounts(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		pieces := 0
		for _, f := range p.unit.Faces {
			for _, r := range f.Rows {
				pieces += len(r.all())
			}
		}
		listed := 0
		for _, it := range items {
			n := 0
			rows := []string{}
			for _, f := range p.unit.Faces {
				for _, r := range f.Rows {
					before := n
					for _, piece := range r.all() {
						if p.is(it, piece) {
							n++
						}
					}
					if n > before {
						rows = append(rows, r.Address)
					}
				}
			}
			if len(rows) == 0 && len(it.rows) == 0 {
				continue // frame, stand, panels
			}
			listed += it.count
			if n != it.count || !slices.Equal(rows, it.rows) {
				t.Errorf("item %d, %s: %d in %v, the unit has %d in %v", it.number, it.part, it.count, it.rows, n, rows)
			}
		}
		if listed != pieces {
			t.Errorf("%d pieces listed, the unit has %d", listed, pieces)
		}
	})
}

// spot is one figure of the table of a face: of an item, in a row.
type spot struct {
	item    int
	address string
}

// placed is what the table of a face says of an item in a row.
type placed struct {
	slot   int
	height string
	places []string
}

var rowHead = regexp.MustCompile(`([FRBL]-\d+) [^\s,;]+ (\d+), ([^\s:;]+)(; |: )`)

// faceTable reads the table of what hangs on a face, over all its sheets.
func (p *plan) faceTable(t *testing.T, f *face) map[spot]placed {
	t.Helper()
	w := p.words
	unit := w.Inch
	if p.mm() {
		unit = w.Millimetre
	}
	where := fmt.Sprintf(w.WhereFrom, unit)
	all := map[spot]placed{}
	for _, e := range table(p.of(hardware, f.Letter), w.Item, where) {
		n, err := strconv.Atoi(e.text(w.Item))
		text := e.text(where)
		heads := rowHead.FindAllStringSubmatchIndex(text, -1)
		if err != nil || len(heads) == 0 || heads[0][0] != 0 {
			t.Fatalf("sheet %d: a line of the table that is not one: %v", e.page.number, e.cells)
		}
		open := 0 // heads that wait for their places
		for i, h := range heads {
			if text[h[8]:h[9]] == "; " {
				open++
				continue
			}
			end := len(text)
			if i+1 < len(heads) {
				end = heads[i+1][0]
			}
			places := strings.Split(strings.TrimSpace(text[h[1]:end]), " · ")
			for _, h := range heads[i-open : i+1] {
				slot, _ := strconv.Atoi(text[h[4]:h[5]])
				key := spot{n, text[h[2]:h[3]]}
				if _, twice := all[key]; twice {
					t.Errorf("sheet %d: item %d in %s twice", e.page.number, n, key.address)
				}
				all[key] = placed{slot, text[h[6]:h[7]], places}
			}
			open = 0
		}
	}
	return all
}

// TestEveryPlace rebuilds from the tables of each face where every hook,
// bracket and grip is, its slot and its height: it is the dressed unit, all
// of it and nothing else.
func TestEveryPlace(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		items := p.items(t)
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			table := p.faceTable(t, f)
			want := 0
			for _, r := range f.Rows {
				for _, it := range items {
					var pieces []piece
					for _, piece := range r.all() {
						if p.is(it, piece) {
							pieces = append(pieces, piece)
						}
					}
					if len(pieces) == 0 {
						continue
					}
					want++
					got, ok := table[spot{it.number, r.Address}]
					h, isFigure := parseFigure(got.height)
					height := f.SlotFirst + nm(pieces[0].Slot-1)*f.SlotPitch
					if !ok || got.slot != pieces[0].Slot || !isFigure || !p.says(h, height) || !p.spots(got.places, pieces) {
						t.Errorf("%s: item %d (%s) is at %+v in the table, the unit has %d on slot %d", r.Address, it.number, it.part, got, len(pieces), pieces[0].Slot)
					}
				}
			}
			if want != len(table) {
				t.Errorf("%s: %d entries in the table, the unit has %d", f.Face, len(table), want)
			}
		}
	})
}

// spots reports whether places name all that is measured of pieces in a row;
// of those that lie on others, both ends.
func (p *plan) spots(places []string, pieces []piece) bool {
	next := func(l nm) bool {
		if len(places) == 0 {
			return false
		}
		f, ok := parseFigure(places[0])
		places = places[1:]
		return ok && p.says(f, l)
	}
	for _, piece := range pieces {
		xs := piece.measured()
		for _, x := range xs {
			if !next(x) {
				return false
			}
		}
		if len(xs) > 0 {
			continue
		}
		var from, to string
		if len(places) == 0 {
			return false
		}
		text := strings.ReplaceAll(places[0], "\u00a0", " ")
		if n, err := fmt.Sscanf(text, strings.ReplaceAll(p.words.FromTo, "\u00a0", " "), &from, &to); n != 2 || err != nil {
			return false
		}
		a, okA := parseFigure(from)
		b, okB := parseFigure(to)
		if !okA || !okB || !p.says(a, piece.Box.X0) || !p.says(b, piece.Box.X1) {
			return false
		}
		places = places[1:]
	}
	return len(places) == 0
}

// TestEveryHookIsDrawn rebuilds the hooks from their symbols alone: a plate
// with one dot on its middle line. Measured from the floor and the left end of
// the bays, at the printed scale, they are the hooks of the dressed unit.
func TestEveryHookIsDrawn(t *testing.T) {
	each(t, func(t *testing.T, p *plan) {
		for i := range p.unit.Faces {
			f := &p.unit.Faces[i]
			for _, pg := range p.elevations(t, f) {
				d := p.dimensions(pg)
				drawn := pg.plates()
				zone := f.zone(pg.bays)
				for _, r := range f.shown(pg.bays) {
					for _, piece := range r.Pieces {
						if r.Kind != "hook" || piece.X < zone[0] || piece.X > zone[1] {
							continue
						}
						want := pdftest.Box{
							Min: pdftest.Point{X: d.left() + (piece.Box.X0-zone[0]).mm()/pg.den, Y: d.floor() - piece.Box.Y1.mm()/pg.den},
							Max: pdftest.Point{X: d.left() + (piece.Box.X1-zone[0]).mm()/pg.den, Y: d.floor() - piece.Box.Y0.mm()/pg.den},
						}
						at := slices.IndexFunc(drawn, func(b pdftest.Box) bool { return alike(b, want) })
						if at < 0 {
							t.Errorf("sheet %d: the hook of %s at %.1f mm is not drawn at its place", pg.number, r.Address, piece.X.mm())
							continue
						}
						drawn = slices.Delete(drawn, at, at+1)
					}
				}
				if len(drawn) > 0 {
					t.Errorf("sheet %d: hooks are drawn where there are none: %v", pg.number, drawn)
				}
			}
		}
	})
}

func alike(a, b pdftest.Box) bool {
	return near(a.Min.X, b.Min.X, exact) && near(a.Min.Y, b.Min.Y, exact) && near(a.Max.X, b.Max.X, exact) && near(a.Max.Y, b.Max.Y, exact)
}

// plates lists the symbols of hooks: a small rectangle, outlined 0.25 mm and
// filled with white, and right after it a dot on its middle line.
func (pg *page) plates() []pdftest.Box {
	var list []pdftest.Box
	for _, path := range pg.Paths {
		b, ok := rectangle(path)
		if !ok || path.Pen == nil || !near(path.Pen.Width, 0.25, exact) || path.Fill == nil {
			continue
		}
		for _, c := range pg.Circles {
			if c.Order == path.Order+1 && c.Pen == nil && near(c.Center.X, (b.Min.X+b.Max.X)/2, exact) && c.Center.Y > b.Min.Y-exact && c.Center.Y < b.Max.Y+exact && c.Radius < 1 {
				list = append(list, b)
			}
		}
	}
	return list
}
