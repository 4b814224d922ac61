package cutfile

import (
	"fmt"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/saw"
)

// YAML reads a list that says all of it, and returns nil if anything is wrong
// with it:
//
//	cut: 1                      # version of this format
//	title: Rails for the tea room
//	measure: in                 # in | mm: how bare numbers read and sheets print
//	kerf: 1/8
//	stock:
//	  - {length: 96, price: 21.50}
//	  - {length: 60, on hand: 2}
//	pieces:
//	  - {mark: A, length: 31 1/2, count: 4}
//
// Sheets and their pieces have a width too; a piece that may lie across the grain
// says turn: yes, and all may where grain is left out. A size with on hand and no
// price can not be bought. by, paper, language, currency, name (of the
// stock), trim, keep and grooves are as in plans and parts lists.
func YAML(name string, text []byte, found *diag.List) *File {
	m := decode.YAML(name, text, found)
	if m == nil {
		return nil
	}
	before := found.Count(diag.Error)
	b := newBuilder(name, found)
	b.head(m)
	b.saw(m)
	b.stockList(m.Need("stock"))
	b.pieceList(m.Need("pieces"))
	m.Done()
	b.ok = b.ok && found.Count(diag.Error) == before
	return b.done()
}

func (b *builder) head(m *decode.Map) {
	h := b.file.Head
	if v := m.Need("cut"); v != nil {
		if n, ok := v.Int(1, 1_000_000); ok && n != Version {
			v.Fail("cut-version", fmt.Sprintf("this list is of version %d of the format", n), fmt.Sprintf("version %d", Version), "use the program version it was written for")
		}
	}
	if h.Measure, _ = m.Get("measure").Measure(); h.Measure == measure.Millimetres {
		h.Paper = "a4"
	}
	decode.Into(m.Need("title").Name, &h.Title)
	m.Name("by", &h.By)
	m.Name("currency", &h.Currency)
	decode.Word(m, "paper", plan.Papers(), &h.Paper)
	decode.Word(m, "language", plan.Languages(), &h.Language)
}

// saw reads what the saw does to all stock.
func (b *builder) saw(m *decode.Map) {
	s, bare := b.file.Job.Stock, b.file.Head.Measure
	m.Name("name", &s.Name)
	if s.Name != "" {
		s.ID = s.Name
	}
	m.Length("kerf", bare, &s.Kerf)
	m.Length("trim", bare, &s.Trim)
	m.Length("keep", bare, &s.Keep)
	m.Bool("grain", &s.Grain)
	if m.Size("grooves", bare, &s.Grooves) {
		s.Grain = true
		if s.Grooves < measure.Inch/8 {
			m.Get("grooves").Fail("bad-length", "the grooves are closer than 1/8 in", "the distance from one groove to the next, such as 3in", "")
		}
	}
	s.At = m.KeyAt("stock")
	for _, key := range []string{"kerf", "trim", "keep", "grooves"} {
		b.units.see(m.Get(key))
	}
}

func (b *builder) stockList(v *decode.Value) {
	items := v.List()
	if len(items) > maxSizes {
		v.Fail("too-many", fmt.Sprintf("%d sizes of stock", len(items)), fmt.Sprintf("at most %d", maxSizes), "")
		return
	}
	for _, item := range items {
		m := item.Map()
		if m == nil {
			continue
		}
		z := Size{Held: -1, At: item.At}
		m.Need("length")
		b.length(m, "length", &z.Length)
		b.length(m, "width", &z.Width)
		z.Priced = m.Money("price", &z.Price)
		m.Int("on hand", 0, maxCount, &z.Held)
		m.Done()
		if z.Length > 0 {
			b.size(z)
		}
	}
}

func (b *builder) length(m *decode.Map, key string, to *measure.Length) {
	m.Size(key, b.file.Head.Measure, to)
	b.units.see(m.Get(key))
}

func (b *builder) pieceList(v *decode.Value) {
	items := v.List()
	if len(items) > maxLines {
		v.Fail("too-many", fmt.Sprintf("%d lines of pieces", len(items)), fmt.Sprintf("at most %d", maxLines), "")
		return
	}
	for _, item := range items {
		if m := item.Map(); m != nil {
			b.read(m, item.At)
			m.Done()
		}
	}
}

// read reads a piece from a mapping or a row.
func (b *builder) read(m *decode.Map, at diag.Span) {
	p := saw.Piece{Count: 1, At: at, Turn: !b.file.Job.Stock.Grain}
	m.Name("mark", &p.Mark)
	m.Name("name", &p.Name)
	m.Need("length")
	b.length(m, "length", &p.Length)
	b.length(m, "width", &p.Width)
	m.Int("count", 0, maxCount, &p.Count)
	m.Bool("turn", &p.Turn)
	if p.Width == 0 || b.file.Job.Stock.Grooves > 0 {
		p.Turn = false
	}
	if p.Length > 0 {
		b.piece(p)
	}
}
