package goods

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// NewCatalog is a catalog without goods.
func NewCatalog() *Catalog { return &Catalog{bySKU: make(map[string]*Product)} }

// Add puts a product into the catalog, in the place of any of its SKU.
func (c *Catalog) Add(p *Product) {
	if _, there := c.bySKU[p.SKU]; !there {
		c.order = append(c.order, p.SKU)
	}
	c.bySKU[p.SKU] = p
}

// greatest is the largest count a product may have: units a case, units sold a
// week, facings.
const greatest = 1_000_000

// Load reads a goods file into the catalog, as CSV with one product a row or,
// if its name ends in .yaml or .yml, as YAML:
//
//	measure: in                # how bare numbers read; that of the plan if left out
//	goods:
//	  SEED-TOM: {name: Tomato seeds, form: peg, width: 3.25, height: 4.5, depth: 0.1}
//
// The columns of a CSV file and the keys of a YAML one are the same: sku, name,
// family, form, width, height, depth, weight, gtin, case, weekly, price, cost,
// colour, image, min, max, stack, breakable (yes or no). Of these sku (in YAML the key), name, form,
// width, height and depth are needed. A bare number is in the unit of its
// column's header, width (in), or else in bare's. A SKU that is in the file
// twice is an error; one of an earlier file is overridden. Products with errors
// are left out.
func Load(into *Catalog, file string, text []byte, bare measure.System, found *diag.List) {
	file = strings.ReplaceAll(file, `\`, "/")
	r := &reader{catalog: into, bare: bare, folder: path.Dir(file), first: make(map[string]diag.Span)}
	switch strings.ToLower(path.Ext(file)) {
	case ".yaml", ".yml":
		r.yaml(file, text, found)
	default:
		decode.CSV(file, text, columns(), found, r.row)
	}
}

func columns() decode.Columns {
	return decode.Columns{
		Needed:   []string{"sku", "name", "form", "width", "height", "depth"},
		Optional: []string{"family", "weight", "gtin", "case", "weekly", "price", "cost", "colour", "image", "min", "max", "stack", "breakable"},
		Measured: []string{"width", "height", "depth", "weight"},
	}
}

// reader reads the products of one file.
type reader struct {
	catalog *Catalog
	bare    measure.System
	folder  string               // the file's, from the plan's
	first   map[string]diag.Span // where in this file each SKU stands
}

func (r *reader) yaml(file string, text []byte, found *diag.List) {
	top := decode.YAML(file, text, found)
	units := []string{measure.Inches.String(), measure.Millimetres.String()}
	if word, ok := top.Get("measure").OneOf(units...); ok {
		r.bare = measure.Inches
		if word == measure.Millimetres.String() {
			r.bare = measure.Millimetres
		}
	}
	for _, e := range top.Need("goods").Map().Entries() {
		p := &Product{At: e.At}
		named := decode.Into(e.Name, &p.SKU)
		if m := e.Value.Map(); m != nil {
			if r.product(m, p) && named {
				r.catalog.Add(p)
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
		r.catalog.Add(p)
	}
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
	want("width", m.Size("width", r.bare, &p.Width))
	want("height", m.Size("height", r.bare, &p.Height))
	want("depth", m.Size("depth", r.bare, &p.Depth))
	want("weight", m.Mass("weight", r.bare, &p.Weight))
	want("case", m.Int("case", 1, greatest, &p.Case))
	want("weekly", m.Int("weekly", 0, greatest, &p.Weekly))
	want("price", m.Decimal("price", &p.Price))
	want("cost", m.Decimal("cost", &p.Cost))
	want("min", m.Int("min", 1, greatest, &p.Min))
	want("max", m.Int("max", 1, greatest, &p.Max))
	want("stack", m.Int("stack", 1, greatest, &p.Stack))
	want("breakable", m.Bool("breakable", &p.Breakable))
	want("image", m.Name("image", &p.Image))
	if p.Image != "" && r.folder != "." {
		p.Image = r.folder + "/" + p.Image
	}
	want("gtin", gtin(m.Get("gtin"), &p.GTIN))
	want("colour", colour(m.Get("colour"), &p.Colour))
	if p.Max > 0 && p.Min > p.Max {
		m.Get("min").Fail("bad-number", fmt.Sprintf("min is %d, more than max, which is %d", p.Min, p.Max), "", "")
		good = false
	}
	return good
}

// gtin reads a GTIN of 8, 12, 13 or 14 digits and checks its check digit: from
// the right, digits weigh 3 and 1 in turn, and the sum with the check digit is
// a multiple of ten (GS1 General Specifications, section 7.9).
func gtin(v *decode.Value, to *string) bool {
	s, ok := v.Text()
	if !ok {
		return false
	}
	digits := strings.ReplaceAll(strings.ReplaceAll(s, " ", ""), "-", "")
	if strings.Trim(digits, "0123456789") != "" || !slices.Contains([]int{8, 12, 13, 14}, len(digits)) {
		v.Fail("bad-gtin", fmt.Sprintf("%q is not a GTIN", s), "8, 12, 13 or 14 digits", "")
		return false
	}
	body, check := digits[:len(digits)-1], digits[len(digits)-1:]
	if want := checkDigit(body); check != want {
		v.Fail("bad-gtin", fmt.Sprintf("the check digit of %q is wrong", s), "a last digit of "+want, "look at the product: one digit is wrong")
		return false
	}
	*to = digits
	return true
}

// checkDigit is the digit that belongs after these.
func checkDigit(body string) string {
	sum := 0
	for i := range len(body) {
		d := int(body[len(body)-1-i] - '0')
		if i%2 == 0 {
			d *= 3
		}
		sum += d
	}
	return string(rune('0' + (10-sum%10)%10))
}

// colour reads #rrggbb, #rgb, or one of the commoner colour names of CSS (CSS
// Color Module Level 4, section 6.1), and gives #rrggbb in small letters.
func colour(v *decode.Value, to *string) bool {
	s, ok := v.Text()
	if !ok {
		return false
	}
	low := strings.ToLower(s)
	if hex, ok := strings.CutPrefix(low, "#"); ok && strings.Trim(hex, "0123456789abcdef") == "" {
		switch len(hex) {
		case 6:
			*to = low
			return true
		case 3:
			*to = "#" + strings.Repeat(hex[:1], 2) + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:], 2)
			return true
		}
	}
	var names []string
	for _, c := range commonColours() {
		if c[0] == strings.ReplaceAll(low, "grey", "gray") {
			*to = c[1]
			return true
		}
		names = append(names, c[0])
	}
	v.Fail("bad-colour", fmt.Sprintf("%q is not a colour", s), "#rrggbb, or a name such as green", decode.Suggest(low, names))
	return false
}

func commonColours() [][2]string {
	return [][2]string{
		{"black", "#000000"}, {"silver", "#c0c0c0"}, {"gray", "#808080"}, {"white", "#ffffff"},
		{"maroon", "#800000"}, {"red", "#ff0000"}, {"purple", "#800080"}, {"fuchsia", "#ff00ff"},
		{"green", "#008000"}, {"lime", "#00ff00"}, {"olive", "#808000"}, {"yellow", "#ffff00"},
		{"navy", "#000080"}, {"blue", "#0000ff"}, {"teal", "#008080"}, {"aqua", "#00ffff"},
		{"orange", "#ffa500"}, {"pink", "#ffc0cb"}, {"brown", "#a52a2a"}, {"beige", "#f5f5dc"},
		{"turquoise", "#40e0d0"}, {"gold", "#ffd700"}, {"tan", "#d2b48c"}, {"violet", "#ee82ee"},
	}
}
