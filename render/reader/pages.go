package reader

import (
	"bytes"
	"math"
	"slices"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// mostPages is how many pages a document may have.
const mostPages = 20_000

// Page is one page of a document.
type Page struct {
	d         *Document
	dict      types.Dict
	resources types.Object
	box       [4]float64 // left, bottom, right and top in points
	rotate    int        // degrees
}

// Pages are the document's pages in order.
func (d *Document) Pages() (pages []*Page, err error) {
	err = guarded(func() error {
		t := &pageTree{d: d, seen: map[int]bool{}}
		if err := t.walk(d.root["Pages"], Page{d: d}, deepest); err != nil {
			return err
		}
		pages = t.pages
		return nil
	})
	return pages, err
}

// pageTree gathers pages (ISO 32000-1, 7.7.3).
type pageTree struct {
	d     *Document
	pages []*Page
	seen  map[int]bool
}

// walk takes over what a node leaves to its kids.
func (t *pageTree) walk(node types.Object, from Page, depth int) error {
	if ref, ok := node.(types.IndirectRef); ok {
		n := ref.ObjectNumber.Value()
		if t.seen[n] {
			return ErrDamaged
		}
		t.seen[n] = true
	}
	dict, ok := t.d.dict(node)
	if !ok || depth == 0 || len(t.pages) == mostPages {
		return ErrDamaged
	}
	from.dict = dict
	if dict["Resources"] != nil {
		from.resources = dict["Resources"]
	}
	if box := t.d.array(dict["MediaBox"]); len(box) == 4 {
		for i := range from.box {
			from.box[i] = t.d.number(box[i])
		}
	}
	if dict["Rotate"] != nil {
		from.rotate = t.d.integer(dict["Rotate"])
	}
	kids := t.d.array(dict["Kids"])
	if kids == nil {
		t.pages = append(t.pages, &from)
		return nil
	}
	for _, kid := range kids {
		if err := t.walk(kid, from, depth-1); err != nil {
			return err
		}
	}
	return nil
}

func (d *Document) number(o types.Object) float64 {
	n, err := d.ctx.DereferenceNumber(o)
	if err != nil || math.IsNaN(n) || math.IsInf(n, 0) {
		return 0
	}
	return n
}

// content is the page's operators.
func (p *Page) content() ([]byte, error) {
	o, err := p.d.ctx.Dereference(p.dict["Contents"])
	if err != nil {
		return nil, ErrDamaged
	}
	parts := []types.Object{p.dict["Contents"]}
	switch o := o.(type) {
	case nil:
		return nil, nil
	case types.Array:
		parts = o
	}
	var all bytes.Buffer
	for _, part := range parts {
		data, err := p.d.stream(part, mostDecoded)
		if err != nil {
			return nil, err
		}
		if all.Len()+len(data) > mostDecoded {
			return nil, ErrTooLarge
		}
		all.Write(data)
		all.WriteByte('\n')
	}
	return all.Bytes(), nil
}

// notes is how many annotations the page has that are no links: what people and
// other programs put over it.
func (p *Page) notes() int {
	return len(slices.DeleteFunc(slices.Clone(p.d.array(p.dict["Annots"])), func(o types.Object) bool {
		dict, ok := p.d.dict(o)
		return !ok || nameOf(dict["Subtype"]) == "Link"
	}))
}

// Producer is the program that wrote the document's file, as it says itself.
func (d *Document) Producer() string {
	if d.ctx.Info == nil {
		return ""
	}
	info, _ := d.dict(*d.ctx.Info)
	name, err := d.ctx.DereferenceStringOrHexLiteral(info["Producer"], 0, nil)
	if err != nil {
		return ""
	}
	return name
}
