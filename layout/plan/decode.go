package plan

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Version is the version of the plan file's format this program reads.
const Version = 1

// Greatest numbers a plan may ask for: beyond any shop's, and small enough
// that what is worked out from them stays bounded.
const (
	maxBays   = 100
	maxCount  = 10_000
	maxFronts = 10_000
	maxRepeat = 200

	maxRestock = 366 // days
)

// Decode reads a plan. Everything wrong with it that can be seen without the
// parts and goods it names is reported, in one run. It returns nil only if the
// file is no YAML mapping at all; a plan with errors holds what could be read.
func Decode(file string, text []byte, into *diag.List) *Plan {
	m := decode.YAML(file, text, into)
	if m == nil {
		return nil
	}
	p := &Plan{File: file, Text: text, Paper: "letter", Language: "en", Restock: 7, Aim: Cover, AimSeconds: 2, Lift: DefaultLift}
	r := &reader{plan: p, ruled: make(map[string]diag.Span)}
	r.head(m)
	r.unit(m.Need("unit").Map())
	r.site(m.Get("site").Map())
	r.rules(m.Get("rules"))
	r.dress(m.Get("dress").Map())
	m.Done()
	return p
}

// reader reads a plan; bare numbers are in the plan's measure.
type reader struct {
	plan  *Plan
	bare  measure.System
	ruled map[string]diag.Span // where each rule is set
}

func (r *reader) head(m *decode.Map) {
	p := r.plan
	if v := m.Need("plan"); v != nil {
		if n, ok := v.Int(1, 1_000_000); ok && n != Version {
			v.Fail("plan-version", fmt.Sprintf("this plan is of version %d of the format", n),
				fmt.Sprintf("version %d", Version), "use the program version it was written for")
		}
	}
	r.bare, _ = m.Get("measure").Measure()
	p.Measure = r.bare
	if r.bare == measure.Millimetres {
		p.Paper = "a4"
	}
	decode.Into(m.Need("title").Name, &p.Title)
	m.Name("season", &p.Season)
	m.Name("revision", &p.Revision)
	m.Name("by", &p.By)
	r.date(m.Get("date"))
	decode.Word(m, "paper", Papers(), &p.Paper)
	decode.Word(m, "language", Languages(), &p.Language)
	r.aim(m.Get("aim"))
	r.currency(m.Get("currency"))
	r.tags(m.Get("tags").Map())
	m.Int("restock", 0, maxRestock, &p.Restock)
	p.PartsFiles = refs(m.Get("parts"))
	p.GoodsFiles = refs(m.Get("goods"))
	p.StockFiles = refs(m.Get("stock"))
	r.lift(m.Get("lift"))
}

// DefaultLift is the load constant of the revised NIOSH lifting equation, DHHS
// (NIOSH) 94-110: what nobody is to lift alone even where nothing else speaks
// against it. Its metric form is exact, 51 lb are that rounded.
const DefaultLift = 23 * measure.Kilogram

// lift reads the most that one person is to lift at once.
func (r *reader) lift(v *decode.Value) {
	m, ok := v.Mass(r.bare)
	switch {
	case !ok:
	case m <= 0 || m > DefaultLift:
		v.Fail("bad-lift", "this is no limit for one person's lift", "more than nothing, and at most "+DefaultLift.Text(r.bare)+", the load constant of the NIOSH lifting equation", "")
	default:
		r.plan.Lift = m
	}
}

// Papers lists the papers a plan may ask for.
func Papers() []string { return []string{"letter", "tabloid", "a4", "a3"} }

// Languages lists the languages a plan may ask for.
func Languages() []string { return []string{"en", "es", "fr"} }

// date reads a calendar date of ISO 8601, and keeps its spelling.
func (r *reader) date(v *decode.Value) {
	s, ok := v.Text()
	if !ok {
		return
	}
	if _, err := time.Parse(time.DateOnly, s); err != nil {
		v.Fail("bad-date", fmt.Sprintf("%q is not a date", s), "a date as year-month-day, such as 2027-02-15", "")
		return
	}
	r.plan.Date = s
}

// refs reads a list of names, or one name.
func refs(v *decode.Value) []Ref {
	items := []*decode.Value{v}
	if v.IsList() {
		items = v.List()
	}
	var list []Ref
	for _, item := range items {
		if ref := ref(item); ref.Name != "" {
			list = append(list, ref)
		}
	}
	return list
}

// ref reads one name; it is empty if there is none.
func ref(v *decode.Value) Ref {
	name, ok := v.Name()
	if !ok {
		return Ref{}
	}
	return Ref{Name: name, At: v.At}
}

func (r *reader) unit(m *decode.Map) {
	if m == nil {
		return
	}
	u := &r.plan.Unit
	u.At = m.At
	m.Name("name", &u.Name)
	u.Frame = ref(m.Need("frame"))
	u.Stand = ref(m.Need("stand"))
	m.Int("bays", 1, maxBays, &u.Bays)
	panels := m.Need("panels").Map()
	for _, face := range FaceIDs() {
		if v := panels.Get(string(face)); v != nil {
			if panel := ref(v); panel.Name != "" {
				u.Panels = append(u.Panels, FacePanel{face, panel})
			}
		}
	}
	panels.Done()
	m.Done()
}

func (r *reader) site(m *decode.Map) {
	if m == nil {
		return
	}
	s := &r.plan.Site
	s.Given, s.At = true, m.At
	m.Size("aisle", r.bare, &s.Aisle)
	m.Size("ceiling", r.bare, &s.Ceiling)
	m.Size("deflectors", r.bare, &s.Deflectors)
	s.Sprinklers = s.Deflectors > 0 // they are there if their height is
	m.Bool("sprinklers", &s.Sprinklers)
	m.Bool("must-reach", &s.MustReach)
	if s.Deflectors > 0 && !s.Sprinklers {
		m.Get("sprinklers").Fail("bad-site", "there are no sprinklers here, and yet deflectors", "", "delete one of the two")
	}
	if s.Ceiling > 0 && s.Deflectors > s.Ceiling {
		m.Get("deflectors").Fail("bad-length", "the sprinklers' deflectors are over the ceiling", "a height of at most "+s.Ceiling.Text(r.bare), "")
	}
	m.Done()
}

// dress reads the faces in sheet order, whatever their order in the file.
func (r *reader) dress(m *decode.Map) {
	for _, id := range FaceIDs() {
		v := m.Get(string(id))
		if v == nil {
			continue
		}
		d := Dress{Face: id, At: v.At}
		switch {
		case v.IsMap() && (v.Map().There("rows") || v.Map().There("fill")):
			r.face(v.Map(), &d)
		case v.IsMap():
			r.same(v.Map(), &d)
		default:
			r.rows(v, &d)
		}
		r.plan.Dress = append(r.plan.Dress, d)
	}
	m.Done()
	r.checkSame(m)
}

// face reads a face given as a whole: its rows, and the goods that fill them.
func (r *reader) face(m *decode.Map, d *Dress) {
	r.rows(m.Need("rows"), d)
	if m.Has("fill") {
		d.Fill = append(d.Fill, r.fill(m))
		return
	}
	m.Done()
}

// rows reads the rows of a face, and what fills them.
func (r *reader) rows(v *decode.Value, d *Dress) {
	if v == nil {
		return
	}
	for _, item := range v.List() {
		m := item.Map()
		switch {
		case m == nil:
		case m.Has("fill") && !m.Has("use"):
			d.Fill = append(d.Fill, r.fill(m))
		default:
			d.Rows = append(d.Rows, r.row(m))
		}
	}
}

func (r *reader) same(m *decode.Map, d *Dress) {
	if v := m.Need("same"); v != nil {
		d.At = v.At
		if word, ok := v.OneOf(spelt(FaceIDs())...); ok {
			d.Same = FaceID(word)
		}
	}
	m.Done()
}

// checkSame reports faces that mirror themselves, or a face that is a mirror.
func (r *reader) checkSame(m *decode.Map) {
	for _, d := range r.plan.Dress {
		if d.Same == "" {
			continue
		}
		i := slices.IndexFunc(r.plan.Dress, func(o Dress) bool { return o.Face == d.Same })
		finding := diag.Finding{Level: diag.Error, Code: "bad-same", At: d.At, Expected: "a face with rows of its own"}
		switch {
		case d.Same == d.Face:
			finding.Message = fmt.Sprintf("the %s face cannot be the same as itself", d.Face)
		case i < 0:
			finding.Message = fmt.Sprintf("the %s face is to be the same as the %s, which is not dressed", d.Face, d.Same)
		case r.plan.Dress[i].Same != "":
			finding.Message = fmt.Sprintf("the %s face is to be the same as the %s, which mirrors another itself", d.Face, d.Same)
			finding.Notes = []diag.Related{{At: r.plan.Dress[i].At, Message: fmt.Sprintf("the %s face is the same as the %s", d.Same, r.plan.Dress[i].Same)}}
			if model := r.plan.Dress[i].Same; model != d.Face {
				finding.Fix = fmt.Sprintf("write %q", model)
			}
		default:
			continue
		}
		m.Report(finding)
	}
}

func spelt[T ~string](list []T) []string {
	words := make([]string, len(list))
	for i, w := range list {
		words[i] = string(w)
	}
	return words
}

// row reads one row of a face.
func (r *reader) row(m *decode.Map) Row {
	row := Row{Span: m.At, Align: Spread, Repeat: 1}
	row.Use = ref(m.Need("use"))
	m.Name("label", &row.Label)
	row.BayFrom, row.BayTo, row.BayAt = r.bay(m.Get("bay"))
	r.heights(m, &row)
	if m.Int("count", 1, maxCount, &row.Count) {
		row.CountAt = m.Get("count").At
	}
	if m.Size("every", r.bare, &row.Every) {
		row.EveryAt = m.Get("every").At
	}
	m.Length("gap", r.bare, &row.Gap)
	decode.Word(m, "align", []Align{Spread, AlignLeft, AlignCenter, AlignRight}, &row.Align)
	m.Int("repeat", 1, maxRepeat, &row.Repeat)
	row.With = refs(m.Get("with"))
	row.Goods = facings(m.Get("goods"))
	r.rowFill(m, &row)
	m.Done()
	return row
}

// rowFill reads the goods a row is to be filled from, in the place of goods of
// its own.
func (r *reader) rowFill(m *decode.Map, row *Row) {
	v := m.Get("fill")
	if v == nil {
		return
	}
	row.Fill = &Fill{Goods: fillGoods(v), Span: v.At}
	if goods := m.Get("goods"); goods != nil {
		v.Report(diag.Finding{Level: diag.Error, Code: "goods-and-fill", At: v.At,
			Message: "a row names its goods or is filled, not both", Fix: "delete one of them",
			Notes: []diag.Related{{At: goods.At, Message: "its goods are here"}}})
	}
}

// bay reads one bay, 2, or a range of them, 1-2; from is 0 if none is given.
func (r *reader) bay(v *decode.Value) (from, to int, at diag.Span) {
	s, ok := v.Text()
	if !ok {
		return 0, 0, at
	}
	first, last, ranged := strings.Cut(s, "-")
	from, ok1 := bayNumber(first)
	to, ok2 := from, ok1
	if ranged {
		to, ok2 = bayNumber(last)
	}
	const expected = `a bay's number, counted from the left, or a range such as "1-2"`
	switch {
	case !ok1 || !ok2:
		v.Fail("bad-bay", fmt.Sprintf("%q is not a bay", s), expected, "")
	case from > to:
		v.Fail("bad-bay", fmt.Sprintf("the bays %q run backwards", s), expected, fmt.Sprintf(`write "%d-%d"`, to, from))
	default:
		return from, to, v.At
	}
	return 0, 0, v.At
}

func bayNumber(s string) (int, bool) {
	s = strings.TrimSpace(s)
	if s == "" || len(s) > 3 || strings.Trim(s, "0123456789") != "" {
		return 0, false
	}
	n := 0
	for _, c := range s {
		n = 10*n + int(c-'0')
	}
	return n, n >= 1 && n <= maxBays
}

// heights reads where the row is to be: pinned, wished for, or left open.
func (r *reader) heights(m *decode.Map, row *Row) {
	at, near := m.Get("at"), m.Get("near")
	if l, ok := at.Length(r.bare); ok {
		row.At = &Height{l, at.At}
	}
	if l, ok := near.Length(r.bare); ok {
		row.Near = &Height{l, near.At}
	}
	if at == nil || near == nil {
		return
	}
	near.Report(diag.Finding{Level: diag.Error, Code: "at-and-near", At: near.At,
		Message: "a row is pinned by at: or placed near: a height, not both", Fix: "delete one of them",
		Notes: []diag.Related{{At: at.At, Message: "it is pinned here"}}})
	row.Near = nil
}

// facings reads goods as a list of SKUs, or a mapping of SKUs to facings.
func facings(v *decode.Value) []Facings {
	if v == nil {
		return nil
	}
	var list []Facings
	first := make(map[string]diag.Span)
	add := func(v *decode.Value, f Facings) {
		if at, twice := first[f.SKU.Name]; twice {
			v.Report(diag.Finding{Level: diag.Error, Code: "duplicate-goods", At: f.SKU.At,
				Message: fmt.Sprintf("%q is in this row twice", f.SKU.Name), Fix: "delete one, or write the facings: {" + f.SKU.Name + ": 2}",
				Notes: []diag.Related{{At: at, Message: "it is here already"}}})
			return
		}
		first[f.SKU.Name] = f.SKU.At
		list = append(list, f)
	}
	if v.IsMap() {
		for _, e := range v.Map().Entries() {
			name, ok := e.Name()
			if fronts, read := e.Value.Int(1, maxFronts); ok && read {
				add(e.Value, Facings{Ref{name, e.At}, fronts})
			}
		}
		return list
	}
	items := []*decode.Value{v}
	if v.IsList() {
		items = v.List()
	}
	for _, item := range items {
		if sku := ref(item); sku.Name != "" {
			add(item, Facings{SKU: sku})
		}
	}
	return list
}
