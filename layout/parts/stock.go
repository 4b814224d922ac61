package parts

import (
	"cmp"
	"fmt"
	"slices"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Stock is what parts are cut from: bars cut to length, or sheets cut to size
// with straight cuts from edge to edge.
type Stock struct {
	ID   string
	Name string

	Kerf measure.Length // what the saw takes at each cut
	Trim measure.Length // cut off each end of a bar, each edge of a sheet, before anything else
	Keep measure.Length // an off-cut this long, and of a sheet this wide, is kept; 0: none is

	Grain bool // sheets have a grain, along their length
	// Grooves is how far apart a sheet's grooves are, which run along its length
	// as a grain does; 0 if it has none. Slatwall that is cut keeps its slots in
	// line only where each piece begins a whole number of them from the sheet's edge.
	Grooves measure.Length
	Sizes   []StockSize

	At diag.Span
}

// StockSize is one length of a bar, or one size of a sheet, as it is sold.
type StockSize struct {
	Length, Width measure.Length // a bar has no width; a sheet's grain runs along its length
	Weight        measure.Mass   // 0 if it is not known
	Buy           Buying
}

// Sheet says whether the stock is sheets, not bars.
func (s *Stock) Sheet() bool { return len(s.Sizes) > 0 && s.Sizes[0].Width > 0 }

// Text is the size as a label: 96 in, or 96 x 48 in.
func (z StockSize) Text(system measure.System) string {
	if z.Width == 0 {
		return z.Length.Text(system)
	}
	return z.Length.Figure(system) + " x " + z.Width.Text(system)
}

// Grain is the side of a piece that lies along the grain of its sheet.
type Grain string

// The grains. A piece of a sheet without a grain may lie either way, whatever
// it says; one that says nothing lies with its width along the grain, a panel
// with its height, but a slatwall panel with its width along the grooves.
const (
	AnyGrain    Grain = "any"
	GrainWidth  Grain = "width"
	GrainDepth  Grain = "depth"
	GrainHeight Grain = "height"
)

// mostSizes bounds the sizes of one stock: more than any dealer has.
const mostSizes = 50

// Stock returns the stock of that id.
func (l *List) Stock(id string) (*Stock, bool) { return l.stock.find(id) }

// Stocks returns all stock in list order.
func (l *List) Stocks() []*Stock { return l.stock.all() }

// stock reads one stock, over a copy of the one it overrides. Sizes written
// anew take the place of all there were.
func (r *reader) stock(e decode.Entry) *Stock {
	s := &Stock{}
	old, found := r.list.stock.find(e.Key)
	if found {
		s = copyOf(old)
	}
	s.ID, s.At = e.Key, e.At
	if !plainID(s.ID) {
		r.fail(e.At, "bad-id", fmt.Sprintf("%q is no id of stock", s.ID), "lower-case letters, digits, dots and dashes, such as strip-white")
	}
	r.want(r.Map, "name", r.Name("name", &s.Name))
	r.length(r.Map, "kerf", &s.Kerf)
	r.length(r.Map, "trim", &s.Trim)
	r.length(r.Map, "keep", &s.Keep)
	r.want(r.Map, "grain", r.Bool("grain", &s.Grain))
	r.size(r.Map, "grooves", &s.Grooves)
	bars, sheets := r.Get("bars"), r.Get("sheets")
	switch {
	case bars != nil && sheets != nil:
		r.fail(sheets.At, "wrong-section", fmt.Sprintf("%s has both bars and sheets", s.ID), "one of the two")
	case bars != nil:
		s.Sizes = r.stockSizes(bars, false)
	case sheets != nil:
		s.Sizes = r.stockSizes(sheets, true)
	}
	r.Done()
	if r.ok && found && old.Sheet() != s.Sheet() {
		r.fail(e.At, "bad-stock", fmt.Sprintf("%s was bars or sheets before, and is the other here", s.ID), "another id, for the parts cut from it cannot follow")
	}
	if r.ok {
		r.checkStock(s)
	}
	return s
}

func (r *reader) stockSizes(v *decode.Value, sheets bool) []StockSize {
	var sizes []StockSize
	items := []*decode.Value{v}
	if v.IsList() {
		items = v.List()
	}
	for _, item := range items {
		m := item.Map()
		if m == nil {
			r.ok = false
			continue
		}
		var z StockSize
		r.ok = m.Need("length") != nil && r.ok
		r.size(m, "length", &z.Length)
		if sheets {
			r.ok = m.Need("width") != nil && r.ok
			r.size(m, "width", &z.Width)
		}
		r.want(m, "weight", m.Mass("weight", r.bare, &z.Weight))
		pack := 1
		r.count(m, "pack", 1, maxPack, &pack)
		r.buying(m, pack, &z.Buy)
		m.Done()
		sizes = append(sizes, z)
	}
	return sizes
}

func (r *reader) checkStock(s *Stock) {
	switch {
	case s.Name == "":
		r.fail(s.At, "missing-key", fmt.Sprintf("%s lacks %q", s.ID, "name"), "the stock's name as the crew knows it")
	case len(s.Sizes) == 0:
		r.fail(s.At, "missing-key", fmt.Sprintf("%s lacks its sizes", s.ID), "bars: with their lengths, or sheets: with length and width")
	case len(s.Sizes) > mostSizes:
		r.fail(s.At, "too-many", fmt.Sprintf("%s has %d sizes", s.ID, len(s.Sizes)), fmt.Sprintf("at most %d", mostSizes))
	}
	switch {
	case s.Grooves == 0:
	case len(s.Sizes) > 0 && !s.Sheet():
		r.fail(r.KeyAt("grooves"), "wrong-section", fmt.Sprintf("%s is bars, and only sheets have grooves", s.ID), "")
	case s.Grooves < minPitch:
		r.fail(r.KeyAt("grooves"), "bad-length", fmt.Sprintf("the grooves of %s are closer than 1/8 in", s.ID), "the distance from one groove to the next, such as 3in")
	default:
		s.Grain = true
	}
	for i, z := range s.Sizes {
		same := func(o StockSize) bool { return o.Length == z.Length && o.Width == z.Width }
		switch least := min(z.Length, cmp.Or(z.Width, z.Length)); {
		case slices.IndexFunc(s.Sizes, same) < i:
			r.fail(s.At, "duplicate-size", fmt.Sprintf("%s has the size %s twice", s.ID, z.Text(r.bare)), "each size once, with all its packs")
		case 2*s.Trim >= least:
			r.fail(r.KeyAt("trim"), "bad-length", fmt.Sprintf("nothing is left of %s once its ends are trimmed", z.Text(r.bare)), "")
		case s.Kerf >= least:
			r.fail(r.KeyAt("kerf"), "bad-length", fmt.Sprintf("a kerf of %s leaves nothing of %s", s.Kerf.Text(r.bare), z.Text(r.bare)), "the thickness of the saw's cut, such as 1/8in")
		}
	}
}

// cut reads what stock a part is cut from.
func (r *reader) cut(p *Part) {
	m := r.section("cut")
	if m == nil {
		return
	}
	cut := over(&p.Cut)
	if _, stock, given := refer(r, m, "from", &r.list.stock, "unknown-stock", "there is no stock", "stock of this list or one before it"); given {
		cut.From = stock
	}
	r.size(m, "length", &cut.Length)
	r.want(m, "grain", decode.Word(m, "grain", []Grain{AnyGrain, GrainWidth, GrainDepth, GrainHeight}, &cut.Grain))
	m.Done()
}

// checkCut wants stock that the part can be made from.
func (r *reader) checkCut(p *Part) {
	c := p.Cut
	if c == nil {
		return
	}
	at := r.KeyAt("cut")
	switch {
	case c.From == nil:
		r.fail(at, "missing-key", fmt.Sprintf("%s does not say what it is cut from", p.ID), "from: the id of stock")
	case p.Kind == Strip && c.From.Sheet():
		r.fail(at, "bad-stock", fmt.Sprintf("%s is a strip, cut to length, and %s is sheets", p.ID, c.From.ID), "stock that is bars")
	case c.From.Sheet() && c.Length > 0:
		r.fail(at, "wrong-section", fmt.Sprintf("%s is cut to its own width and depth from a sheet, not to a length", p.ID), "")
	case c.From.Sheet() && !slices.Contains(p.sides(), cmp.Or(c.Grain, AnyGrain)):
		r.fail(at, "bad-word", fmt.Sprintf("the grain of %s cannot lie along its %s", p.ID, c.Grain), "")
	case c.From.Grooves > 0 && (p.Panel == nil || p.Panel.Surface != Slatwall || p.Panel.Pitch != c.From.Grooves):
		r.fail(at, "bad-stock", fmt.Sprintf("%s has grooves %s apart, and %s is no slatwall panel with slots as far apart", c.From.ID, c.From.Grooves.Text(r.bare), p.ID), "")
	case c.From.Grooves > 0 && c.Grain != "" && c.Grain != GrainWidth:
		r.fail(at, "bad-word", fmt.Sprintf("the grooves of %s run along its width", p.ID), "grain: width, or no grain")
	case p.Kind == Frame || p.Kind == Stand || p.Kind == Fixing:
		r.fail(at, "wrong-section", fmt.Sprintf("a %s is not cut from stock", p.Kind), "")
	}
}

// sides are the words for the sides of the piece that is cut from a sheet.
func (p *Part) sides() []Grain {
	if p.Panel != nil {
		return []Grain{AnyGrain, GrainWidth, GrainHeight}
	}
	return []Grain{AnyGrain, GrainWidth, GrainDepth}
}

// Blank is the piece of sheet a part is cut to: Along its grain and Across it,
// and whether it may be turned.
type Blank struct {
	Along, Across measure.Length
	Turn          bool
}

// Blank returns what a part cut from a sheet is cut to.
func (p *Part) Blank() Blank {
	other := p.Depth
	usual := GrainWidth
	if p.Panel != nil {
		other, usual = p.Panel.Height, GrainHeight
	}
	if p.Cut.From.Grooves > 0 {
		usual = GrainWidth
	}
	b := Blank{Along: p.Width, Across: other, Turn: !p.Cut.From.Grain || p.Cut.Grain == AnyGrain}
	if cmp.Or(p.Cut.Grain, usual) != GrainWidth && p.Cut.Grain != AnyGrain {
		b.Along, b.Across = b.Across, b.Along
	}
	return b
}

// CutLength is what one of a part that is cut from a bar and is no strip is cut
// to.
func (p *Part) CutLength() measure.Length { return cmp.Or(p.Cut.Length, p.Width) }
