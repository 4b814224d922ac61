package goods

import (
	"fmt"
	"path"
	"strings"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// greatest is the largest count a product may have: units a case, units sold a
// week, facings.
const greatest = 1_000_000

// File is what was understood of one goods file.
type File struct {
	Name     string
	CSV      *decode.Dialect // nil for a YAML file
	Bare     measure.System  // what a bare number is in where neither the header nor the cell says
	Products int             // without errors: those are in the catalog
	Over     []Override      // products of earlier files that it replaced, in its order
}

// Override is a product that a later file says anew.
type Override struct {
	SKU      string
	Was, Now diag.Span
}

// Load reads a goods file into the catalog, as CSV with one product a row or,
// if its name ends in .yaml or .yml, as YAML, and says what it understood:
//
//	measure: in                # how bare numbers read; that of the plan if left out
//	goods:
//	  SEED-TOM: {name: Tomato seeds, form: peg, width: 3.25, height: 4.5, depth: 0.1}
//
// The columns of a CSV file and the keys of a YAML one are the same: sku (in
// YAML the key), name, form, width, height and depth, which are needed, and
// those that columns lists. A bare number is in the unit of its column's header,
// width (in), or else in bare's. Columns that are not known are a product's
// Extra; keys that are not known are errors. A SKU that is in the file twice is
// an error; one of an earlier file is overridden. Products with errors are left
// out. Once all files are loaded, Catalog.SameCodes looks at them together.
func Load(into *Catalog, file string, text []byte, bare measure.System, found *diag.List) File {
	file = strings.ReplaceAll(file, `\`, "/")
	r := &reader{catalog: into, folder: path.Dir(file), first: make(map[string]diag.Span), file: File{Name: file, Bare: bare}}
	switch strings.ToLower(path.Ext(file)) {
	case ".yaml", ".yml":
		r.yaml(file, text, found)
	default:
		dialect := decode.CSV(file, text, columns(), found, r.row)
		r.file.CSV = &dialect
	}
	r.sides.note(found, diag.Span{File: file})
	r.runs.note(found, diag.Span{File: file})
	return r.file
}

func columns() decode.Columns {
	return decode.Columns{
		Needed: []string{"sku", "name", "form", "width", "height", "depth"},
		Optional: []string{"family", "short", "weight", "gtin", "case", "weekly", "price", "cost", "colour", "image", "min", "max",
			"stack", "breakable", "hole", "sizes", "look"},
		Lengths:  []string{"width", "height", "depth", "hole"},
		Weights:  []string{"weight"},
		Decimals: []string{"price", "cost"},
	}
}

// reader reads the products of one file.
type reader struct {
	catalog *Catalog
	folder  string               // the file's, from the plan's
	first   map[string]diag.Span // where in this file each SKU stands
	file    File
	sides   sides
	runs    runs
}

// keep puts a product into the catalog.
func (r *reader) keep(p *Product) {
	if old, there := r.catalog.Find(p.SKU); there {
		r.file.Over = append(r.file.Over, Override{SKU: p.SKU, Was: old.At, Now: p.At})
	}
	r.catalog.Add(p)
	r.file.Products++
	r.sides.look(p)
	r.runs.look(p)
}

func (r *reader) yaml(file string, text []byte, found *diag.List) {
	top := decode.YAML(file, text, found)
	decode.Into(top.Get("measure").Measure, &r.file.Bare)
	for _, e := range top.Need("goods").Map().Entries() {
		p := &Product{At: e.At}
		named := decode.Into(e.Name, &p.SKU)
		if m := e.Value.Map(); m != nil {
			if r.product(m, p) && named {
				r.keep(p)
			}
			m.Done()
		}
	}
	top.Done()
}

// row reads one row of a CSV file.
func (r *reader) row(m *decode.Map) {
	p := &Product{At: m.At}
	v := m.Need("sku")
	if !decode.Into(v.Name, &p.SKU) {
		return
	}
	p.At = v.At
	good := r.product(m, p)
	if at, twice := r.first[p.SKU]; twice {
		m.Report(diag.Finding{Level: diag.Error, Code: "duplicate-sku", At: p.At,
			Message: fmt.Sprintf("the sku %q is there twice", p.SKU), Fix: "delete one of the rows",
			Notes: []diag.Related{{At: at, Message: "it is here already"}}})
		return
	}
	r.first[p.SKU] = p.At
	if good {
		p.Extra = extra(m)
		r.keep(p)
	}
}

// extra is a row's cells in columns that are not known, nil if there are none.
func extra(m *decode.Map) []Extra {
	var all []Extra
	for _, e := range m.Extras() {
		all = append(all, Extra(e))
	}
	return all
}

// product reads all but the SKU, and says whether nothing was wrong.
func (r *reader) product(m *decode.Map, p *Product) bool {
	good := true
	for _, key := range []string{"name", "form", "width", "height", "depth"} {
		good = m.Need(key) != nil && good
	}
	want := func(key string, read bool) { good = good && (read || !m.There(key)) }
	want("name", m.Name("name", &p.Name))
	want("form", decode.Word(m, "form", Forms(), &p.Form))
	want("family", m.Text("family", &p.Family))
	want("short", m.Name("short", &p.Short))
	want("width", m.Size("width", r.file.Bare, &p.Width))
	want("height", m.Size("height", r.file.Bare, &p.Height))
	want("depth", m.Size("depth", r.file.Bare, &p.Depth))
	want("hole", m.Size("hole", r.file.Bare, &p.Hole))
	want("weight", m.Mass("weight", r.file.Bare, &p.Weight))
	want("case", m.Int("case", 1, greatest, &p.Case))
	want("weekly", m.Int("weekly", 0, greatest, &p.Weekly))
	want("price", m.Decimal("price", &p.Price))
	want("cost", m.Decimal("cost", &p.Cost))
	want("min", m.Int("min", 1, greatest, &p.Min))
	want("max", m.Int("max", 1, greatest, &p.Max))
	want("stack", m.Int("stack", 1, greatest, &p.Stack))
	want("look", m.Int("look", 1, greatest, &p.Look))
	want("sizes", sizes(m.Get("sizes"), &p.Sizes))
	want("breakable", m.Bool("breakable", &p.Breakable))
	want("image", m.Name("image", &p.Image))
	if p.Image != "" && r.folder != "." {
		p.Image = r.folder + "/" + p.Image
	}
	want("gtin", readGTIN(m.Get("gtin"), &p.GTIN))
	want("colour", colour(m.Get("colour"), &p.Colour))
	if p.Max > 0 && p.Min > p.Max {
		m.Get("min").Fail("bad-number", fmt.Sprintf("min is %d, more than max, which is %d", p.Min, p.Max), "", "")
		good = false
	}
	return good
}
