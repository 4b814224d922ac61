package reader

import (
	"bytes"
	"math"
	"slices"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Comparison is how alike the pages of two documents are.
type Comparison struct {
	// Rewritten says that none of the pages is drawn by the operators of the
	// other, as when a program has drawn all of them anew: then text and its
	// places were compared, and lines, fills and pictures were not.
	Rewritten bool
	// Differ are the pages that do not show the same, from 0.
	Differ []int
	// Notes are the pages that another program has put notes or stamps on.
	Notes []int
	// Pages is how many pages either document has.
	Pages [2]int
}

// Compare compares the pages of a document with those of the one that it is said
// to be. They are the same if the same operators draw them on the same fonts,
// pictures and paper, however these are packed.
func Compare(d, original *Document) (c *Comparison, err error) {
	err = guarded(func() error {
		pages, err := d.Pages()
		if err != nil {
			return err
		}
		wanted, err := original.Pages()
		if err != nil {
			return err
		}
		c = &Comparison{Pages: [2]int{len(pages), len(wanted)}}
		pages, wanted = pages[:min(len(pages), len(wanted))], wanted[:min(len(pages), len(wanted))]
		m := &matcher{a: d, b: original, known: map[[2]int]bool{}}
		for i, p := range pages {
			if p.notes() > wanted[i].notes() {
				c.Notes = append(c.Notes, i)
			}
			if !m.page(p, wanted[i]) {
				c.Differ = append(c.Differ, i)
			}
		}
		if len(pages) > 0 && len(c.Differ) == len(pages) {
			return c.byText(pages, wanted)
		}
		return nil
	})
	return c, err
}

// byText compares pages that were all drawn anew. If not even one has the same
// text, that they were is a guess no better than that they show something else.
func (c *Comparison) byText(pages, wanted []*Page) error {
	var differ []int
	for i, p := range pages {
		same, err := sameText(p, wanted[i])
		if err != nil {
			return err
		}
		if !same {
			differ = append(differ, i)
		}
	}
	c.Rewritten = len(differ) < len(pages)
	c.Differ = differ
	return nil
}

// matcher holds objects of two documents against each other, each pair once.
type matcher struct {
	a, b  *Document
	known map[[2]int]bool // the same, by their numbers
}

func (m *matcher) page(p, q *Page) bool {
	if p.box != q.box || p.rotate != q.rotate {
		return false
	}
	mine, err := p.content()
	yours, err2 := q.content()
	if err != nil || err2 != nil || !bytes.Equal(plainSpace(mine), plainSpace(yours)) {
		return false
	}
	return m.used(mine, p, q)
}

// used says whether the fonts, pictures and other resources that a content names
// are the same on two pages. What it does not name shows nowhere on them.
func (m *matcher) used(content []byte, p, q *Page) bool {
	names := map[string]bool{}
	for s := (&scanner{data: content}); ; {
		w, ok := s.next()
		if !ok {
			break
		}
		if w.kind == '/' {
			names[w.text] = true
		}
	}
	mine, _ := m.a.dict(p.resources)
	yours, _ := m.b.dict(q.resources)
	for _, kind := range [...]string{"Font", "XObject", "ExtGState", "ColorSpace", "Pattern", "Shading", "Properties"} {
		a, _ := m.a.dict(mine[kind])
		b, _ := m.b.dict(yours[kind])
		for name := range names {
			if !m.same(a[name], b[name], deepest) {
				return false
			}
		}
	}
	return true
}

// same says whether two objects hold the same. A loop of objects is the same as
// another as long as nothing on it differs.
func (m *matcher) same(x, y types.Object, depth int) bool {
	if depth == 0 {
		return false
	}
	rx, ok := x.(types.IndirectRef)
	ry, ok2 := y.(types.IndirectRef)
	if ok && ok2 {
		pair := [2]int{rx.ObjectNumber.Value(), ry.ObjectNumber.Value()}
		if same, known := m.known[pair]; known {
			return same
		}
		m.known[pair] = true
		same := m.direct(x, y, depth)
		m.known[pair] = same
		return same
	}
	return m.direct(x, y, depth)
}

func (m *matcher) direct(x, y types.Object, depth int) bool {
	x, err := m.a.ctx.Dereference(x)
	y, err2 := m.b.ctx.Dereference(y)
	if err != nil || err2 != nil {
		return false
	}
	switch x := x.(type) {
	case nil:
		return y == nil
	case types.Dict:
		y, ok := y.(types.Dict)
		return ok && m.dicts(x, y, depth)
	case types.StreamDict:
		y, ok := y.(types.StreamDict)
		return ok && m.streams(x, y, depth)
	case types.Array:
		y, ok := y.(types.Array)
		if !ok || len(x) != len(y) {
			return false
		}
		for i := range x {
			if !m.same(x[i], y[i], depth-1) {
				return false
			}
		}
		return true
	case types.Integer, types.Float:
		switch y.(type) {
		case types.Integer, types.Float:
			return math.Abs(m.a.number(x)-m.b.number(y)) < 1e-6 // printed with that many decimals
		}
		return false
	case types.StringLiteral, types.HexLiteral:
		return bytes.Equal(m.a.bytes(x), m.b.bytes(y))
	}
	return x == y
}

// packing are the entries of a stream that say how it is packed.
var packing = []string{"Length", "Filter", "DecodeParms", "DL"}

func (m *matcher) streams(x, y types.StreamDict, depth int) bool {
	if !m.dicts(x.Dict, y.Dict, depth, packing...) {
		return false
	}
	if bytes.Equal(x.Raw, y.Raw) && m.same(x.Dict["Filter"], y.Dict["Filter"], depth-1) && m.same(x.Dict["DecodeParms"], y.Dict["DecodeParms"], depth-1) {
		return true
	}
	if x.DecodeWithLimit(mostDecoded) != nil || y.DecodeWithLimit(mostDecoded) != nil {
		return false
	}
	return bytes.Equal(x.Content, y.Content)
}

// dicts leaves some entries out.
func (m *matcher) dicts(x, y types.Dict, depth int, but ...string) bool {
	for key, value := range x {
		if !slices.Contains(but, key) && !m.same(value, y[key], depth-1) {
			return false
		}
	}
	for key, value := range y {
		if !slices.Contains(but, key) && x[key] == nil && value != nil {
			return false
		}
	}
	return true
}
