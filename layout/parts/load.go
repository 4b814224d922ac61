package parts

import (
	"embed"
	"fmt"
	"slices"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

//go:embed builtin/*.yaml
var builtin embed.FS

// builtinFiles is the order of the built-in list, and so of the pick list.
func builtinFiles() []string {
	return []string{"materials.yaml", "structure.yaml", "shelving.yaml", "hooks.yaml", "rails.yaml", "other.yaml"}
}

// File is the text of one file of the built-in list.
type File struct {
	Name string
	Text []byte
}

// BuiltInFiles are the files of the built-in list, in the order they are read.
func BuiltInFiles() []File {
	var files []File
	for _, name := range builtinFiles() {
		text, err := builtin.ReadFile("builtin/" + name)
		if err != nil {
			panic("parts: " + err.Error()) // it is in the program or the program was not built
		}
		files = append(files, File{name, text})
	}
	return files
}

// BuiltIn is the list that is always at hand: generic parts, their ratings
// assumptions. An error is a fault of the program, not of its user.
func BuiltIn() (*List, error) { return BuiltInFrom(BuiltInFiles()) }

// BuiltInFrom is the built-in list as these files have it, in this order: those
// of another version, perhaps. The first thing wrong with them is an error.
func BuiltInFrom(files []File) (*List, error) {
	list := &List{}
	var found diag.List
	for _, f := range files {
		list = Load(list, f.Name, f.Text, &found)
	}
	for _, f := range found.All() {
		return nil, fmt.Errorf("%s: %s", f.At, f.Message)
	}
	return list, nil
}

// Load reads a house's parts list and returns base with its parts added; base
// itself is not changed. The file is YAML:
//
//	measure: in            # how bare numbers read: in (the default) or mm
//	parts:
//	  hook-7:              # a new part, made from another
//	    like: hook-6
//	    name: Peg hook 7 in
//	    depth: 7 1/2
//	    usable: 6 1/2
//	  shelf-24x12:         # a part there already: only what differs is written
//	    rated: 120lb
//	materials:             # what parts that bend are made of
//	  mdf-black: {name: Black MDF, e: 2700, long-term: 1.5, source: the maker}
//	stock:                 # what parts are cut from: bars or sheets
//	  tube-25: {name: Tube 25 mm, kerf: 1/8, keep: 12, bars: [{length: 144, price: 21.5}]}
//	suppliers:             # where parts and stock are bought
//	  fernhill: {name: Fernhill Fittings, freight: 35, free: 500}
//
// A part may be like one of base or one further up in the file; an override of
// a part keeps all of it that is not written anew, in its sections too. The
// keys of a part are the fields of Part in small letters: kind, name, mounts,
// width, depth, above, below, usable, headroom, lip, bearing, grip {slots,
// sides, inset, width, shift}, holds, weight, rated, assumed, needs {bracket,
// every, inset}, bend {material, thick, ei, stop, caution}, wire, pack, cut
// {from, length, grain}, fixed (how many of which fixings), setup (seconds),
// pegs, steps, notes; what buying takes: supplier, minimum, price (of a pack) or
// packs [{pieces, price}]; and a section of its own for a panel
// {surface, height, thick, first, pitch, count, across-first, across-pitch,
// wire, uprights, edge}, a frame {form, bays, gap, base, base-depth} and a stand
// {form, height, feet, radius, offset, inset}. Those of a material are name, e
// (N/mm²), long-term and source; of stock name, kerf, trim, keep, grain, grooves (of
// sheets: how far apart), and bars or sheets [{length, width, weight, pack, and what
// buying takes}]; of a supplier name, minimum, freight, free and duty (per cent). Parts of either list may be
// made of them, wherever in the file they stand.
//
// Writing a new rating makes it the house's own, no longer an assumption,
// unless assumed: true stands beside it. Parts with errors are left out.
func Load(base *List, file string, text []byte, into *diag.List) *List {
	list := base.clone()
	top := decode.YAML(file, text, into)
	bare, _ := top.Get("measure").Measure()
	stow(top.Get("materials").Map(), bare, list, &list.materials, (*reader).material)
	stow(top.Get("suppliers").Map(), bare, list, &list.suppliers, (*reader).supplier)
	stow(top.Get("stock").Map(), bare, list, &list.stock, (*reader).stock)
	hardware := top.Get("parts")
	if !top.There("materials") && !top.There("suppliers") && !top.There("stock") {
		hardware = top.Need("parts")
	}
	stow(hardware.Map(), bare, list, &list.parts, (*reader).part)
	top.Done()
	list.relink()
	return list
}

// relink has every part cut from its stock as the last file writes it. Lists that
// share a part with this one keep theirs.
func (l *List) relink() {
	for _, p := range l.All() {
		if p.Cut == nil {
			continue
		}
		if s, _ := l.Stock(p.Cut.From.ID); s != p.Cut.From {
			c := p.clone()
			c.Cut.From = s
			l.parts.put(p.ID, c)
		}
	}
}

func (l *List) clone() *List {
	if l == nil {
		l = &List{}
	}
	return &List{parts: l.parts.clone(), materials: l.materials.clone(), stock: l.stock.clone(), suppliers: l.suppliers.clone()}
}

// IDs returns every id in list order.
func (l *List) IDs() []string { return slices.Clone(l.parts.order) }

// reader reads one part. ok turns false when anything about it is wrong.
type reader struct {
	*decode.Map
	bare measure.System
	list *List
	ok   bool
}

// part reads the part of one entry, over a copy of what it is like or overrides.
func (r *reader) part(e decode.Entry) *Part {
	p := r.model(e.Key)
	p.ID, p.At = e.Key, e.At
	if !plainID(p.ID) {
		r.fail(e.At, "bad-id", fmt.Sprintf("%q is no part id", p.ID), "lower-case letters, digits, dots and dashes, such as hook-6")
	}
	r.name(p)
	r.sizes(p)
	r.loads(p)
	r.use(p)
	r.bend(p)
	r.panel(p)
	r.frame(p)
	r.stand(p)
	r.Done()
	if r.ok {
		r.check(p)
	}
	return p
}

// model is a copy of the part this one starts from: what it is like, the part
// of the same id, or nothing.
func (r *reader) model(id string) *Part {
	if v := r.Get("like"); v != nil {
		name, ok := v.Name()
		if old, found := r.list.Find(name); found {
			return old.clone()
		}
		if r.ok = false; ok {
			v.Fail("unknown-part", fmt.Sprintf("unknown part %q", name), "a part further up or of another list", decode.Suggest(name, r.list.parts.order))
		}
		return &Part{Pack: 1}
	}
	if old, found := r.list.Find(id); found {
		return old.clone()
	}
	return &Part{Pack: 1}
}

// clone copies a part and all it points to.
func (p *Part) clone() *Part {
	c := *p
	c.Mounts, c.Holds, c.Fixed = slices.Clone(p.Mounts), slices.Clone(p.Holds), slices.Clone(p.Fixed)
	c.Buy.Packs = slices.Clone(p.Buy.Packs)
	c.Needs, c.Cut, c.Bend = copyOf(p.Needs), copyOf(p.Cut), copyOf(p.Bend)
	c.Panel, c.Frame, c.Stand = copyOf(p.Panel), copyOf(p.Frame), copyOf(p.Stand)
	if c.Panel != nil {
		c.Panel.Uprights = slices.Clone(c.Panel.Uprights)
	}
	return &c
}

func copyOf[T any](p *T) *T {
	if p == nil {
		return nil
	}
	c := *p
	return &c
}

// want notes whether a key that is there could be read.
func (r *reader) want(m *decode.Map, key string, read bool) {
	if !read && m.There(key) {
		r.ok = false
	}
}

func (r *reader) fail(at diag.Span, code, message, expected string) {
	r.ok = false
	r.Report(diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Expected: expected})
}

func (r *reader) name(p *Part) {
	r.want(r.Map, "name", r.Name("name", &p.Name))
	r.want(r.Map, "kind", decode.Word(r.Map, "kind", Kinds(), &p.Kind))
	r.want(r.Map, "notes", r.Text("notes", &p.Notes))
	r.words("mounts", func(v *decode.Value) bool { return words(v, surfaces(), &p.Mounts) })
	r.words("holds", func(v *decode.Value) bool { return words(v, goods.Forms(), &p.Holds) })
}

func (r *reader) words(key string, read func(*decode.Value) bool) {
	if v := r.Get(key); v != nil {
		r.ok = read(v) && r.ok
	} else {
		r.want(r.Map, key, false)
	}
}

// words reads a list of words, or one word, in place of what was there.
func words[T ~string](v *decode.Value, known []T, to *[]T) bool {
	spelt := make([]string, len(known))
	for i, w := range known {
		spelt[i] = string(w)
	}
	items, ok := []*decode.Value{v}, true
	if v.IsList() {
		items = v.List()
	}
	*to = nil
	for _, item := range items {
		w, read := item.OneOf(spelt...)
		ok = ok && read
		if read && !slices.Contains(*to, T(w)) {
			*to = append(*to, T(w))
		}
	}
	return ok
}

// size reads lengths greater than zero; lengths of zero or more; lengths that
// may be negative.
func (r *reader) size(m *decode.Map, key string, to *measure.Length) {
	r.want(m, key, m.Size(key, r.bare, to))
}

func (r *reader) length(m *decode.Map, key string, to *measure.Length) {
	r.want(m, key, m.Length(key, r.bare, to))
}

func (r *reader) offset(m *decode.Map, key string, to *measure.Length) {
	r.want(m, key, m.Offset(key, r.bare, to))
}

func (r *reader) count(m *decode.Map, key string, lo, hi int, to *int) {
	r.want(m, key, m.Int(key, lo, hi, to))
}

// Kinds lists every kind of part, structure first.
func Kinds() []Kind {
	return []Kind{Panel, Frame, Stand, Hook, Shelf, Slope, Bracket, Rail, FaceOut, Basket, Bar, Shoe, Sign, Strip, Fixing}
}

func surfaces() []Surface { return []Surface{Wire, Slatwall, Pegboard, Standards} }

// plainID says whether an id can be typed anywhere and told apart anywhere.
func plainID(id string) bool {
	if id == "" || len(id) > 40 {
		return false
	}
	for _, c := range id {
		if !('a' <= c && c <= 'z' || '0' <= c && c <= '9' || c == '-' || c == '.') {
			return false
		}
	}
	return true
}
