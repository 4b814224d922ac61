// Package goods is what is sold: the products of a goods file, as declared.
package goods

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Form is how a product is displayed, and so how a position holds it.
type Form string

// The forms. A card hangs on a peg; a jar stands; a shirt folds or hangs on a
// hanger; a belt hangs by its loop; shoes come boxed under a sample; small
// things lie loose in a basket.
const (
	Peg    Form = "peg"
	Stand  Form = "stand"
	Fold   Form = "fold"
	Hanger Form = "hanger"
	Loop   Form = "loop"
	Boxed  Form = "boxed"
	Loose  Form = "loose"
)

// Forms lists every form, in the order they are documented.
func Forms() []Form { return []Form{Peg, Stand, Fold, Hanger, Loop, Boxed, Loose} }

// Product is one line of a goods file. Width, Height and Depth are those of
// one unit as the shopper faces it; a hanging product's Height is what hangs
// below the hook or rail, its Depth the thickness it takes along it.
type Product struct {
	SKU    string
	Name   string
	Family string
	Form   Form

	Width, Height, Depth measure.Length
	Weight               measure.Mass

	GTIN     string
	Case     int    // units a case, 0 if not given
	Weekly   int    // units sold a week, 0 if not given
	Price    string // as written, a decimal number; the currency is a label elsewhere
	Cost     string
	Colour   string // "#rrggbb" or ""
	Image    string // path from the plan's folder, or ""; in the file it is from the file's own
	Min, Max int    // facings, 0 if not given
	Stack    int    // how many may stand or lie on one another, 0 if not given

	Short string         // a short name for drawings and tags, "" if not given
	Hole  measure.Length // of a hanging card: from the top of its hole up to its top edge, 0 if not given
	Sizes []string       // of boxed goods: one box of each makes a full run, smallest first; nil if not given
	Look  int            // units one front needs to look full, 0 if not given

	Breakable bool // glass, pottery and the like: what cuts or shatters when it falls

	Extra []Extra // what its row says in columns that are not known, in their order; nil if nothing

	At diag.Span
}

// Extra is a cell in a column that is not known: kept, and not used.
type Extra struct{ Name, Text string }

// Catalog is the goods of all the files of a plan, by SKU, later files
// overriding earlier ones.
type Catalog struct {
	bySKU map[string]*Product
	order []string // SKUs in the order first met
}

// NewCatalog is a catalog without goods.
func NewCatalog() *Catalog { return &Catalog{bySKU: make(map[string]*Product)} }

// Add puts a product into the catalog, in the place of any of its SKU.
func (c *Catalog) Add(p *Product) {
	if _, there := c.bySKU[p.SKU]; !there {
		c.order = append(c.order, p.SKU)
	}
	c.bySKU[p.SKU] = p
}

// Find returns the product of that SKU.
func (c *Catalog) Find(sku string) (*Product, bool) { p, ok := c.bySKU[sku]; return p, ok }

// All returns every product in the order of the files.
func (c *Catalog) All() []*Product {
	all := make([]*Product, len(c.order))
	for i, sku := range c.order {
		all[i] = c.bySKU[sku]
	}
	return all
}

// SameCodes reports products that have the GTIN of an earlier one, as cautions
// at the later: a till cannot tell them apart. A GTIN is the same with zeros in
// front or without (GS1 General Specifications, from memory: as 14 digits).
// No more than a hundred are reported: nobody reads more.
func (c *Catalog) SameCodes() []diag.Finding {
	const most = 100
	var found []diag.Finding
	first := make(map[string]*Product)
	for _, sku := range c.order {
		p := c.bySKU[sku]
		code := strings.TrimLeft(p.GTIN, "0")
		if code == "" {
			continue
		}
		other, there := first[code]
		if !there {
			first[code] = p
			continue
		}
		if len(found) == most {
			break
		}
		found = append(found, diag.Finding{Level: diag.Caution, Code: "same-gtin", At: p.At,
			Message: fmt.Sprintf("%q has the same GTIN as %q: %s", p.SKU, other.SKU, p.GTIN),
			Fix:     "look at both products: each trade item has a GTIN of its own",
			Source:  "GS1 General Specifications: a GTIN identifies one trade item (from memory)",
			Notes:   []diag.Related{{At: other.At, Message: "it is this product's already"}}})
	}
	return found
}
