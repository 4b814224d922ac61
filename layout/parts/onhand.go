package parts

import (
	"fmt"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// OnHand is so many of one thing in the stockroom: pieces of a part, or bars or
// sheets of stock of one size, off-cuts among them.
type OnHand struct {
	Part          *Part  // nil for stock
	Stock         *Stock // nil for a part
	Length, Width measure.Length
	Count         int
	At            diag.Span
}

// LoadOnHand reads what is on hand from CSV, a line a thing:
//
//	part,length,width,on hand
//	hook-6,,,40
//	strip-white,96in,,3
//	strip-white,37in,,1
//
// part is the id of a part, or of stock, which needs a length and, for sheets,
// a width; any size will do, so that off-cuts can be listed. Lines that say the
// same thing twice are added up, with a note. What the list does not know is a
// note too: a stockroom holds more than one unit needs.
func LoadOnHand(list *List, file string, text []byte, bare measure.System, found *diag.List) []OnHand {
	r := &handReader{list: list, bare: bare, first: map[handKey]int{}}
	decode.CSV(file, text, decode.Columns{
		Needed:   []string{"part", "on hand"},
		Optional: []string{"length", "width"},
		Lengths:  []string{"length", "width"},
	}, found, r.row)
	return r.lines
}

type handKey struct {
	id            string
	length, width measure.Length
}

type handReader struct {
	list  *List
	bare  measure.System
	lines []OnHand
	first map[handKey]int
}

func (r *handReader) row(m *decode.Map) {
	h := OnHand{At: m.At}
	v := m.Need("part")
	id, ok := v.Name()
	if !ok || m.Need("on hand") == nil || !m.Int("on hand", 0, 1_000_000, &h.Count) {
		return
	}
	h.At = v.At
	h.Part, _ = r.list.Find(id)
	h.Stock, _ = r.list.Stock(id)
	sized := m.Size("length", r.bare, &h.Length)
	wide := m.Size("width", r.bare, &h.Width)
	switch {
	case m.There("length") && !sized && h.Length == 0 && !m.Get("length").IsEmpty(), m.There("width") && !wide && !m.Get("width").IsEmpty():
		return // said already
	case h.Stock != nil && sized:
		h.Part = nil
	case h.Part != nil:
		h.Stock, h.Length, h.Width = nil, 0, 0
	case h.Stock != nil:
		v.Fail("missing-cell", fmt.Sprintf("%s is stock, and its length is not given", id), "the length of each bar, such as 96in", "")
		return
	default:
		v.Report(diag.Finding{Level: diag.Note, Code: "unknown-part", At: v.At,
			Message: fmt.Sprintf("the parts list knows no %q: what is on hand of it is left out", id), Fix: decode.Suggest(id, r.list.IDs())})
		return
	}
	if h.Stock != nil && h.Stock.Sheet() && h.Width == 0 {
		v.Fail("missing-cell", fmt.Sprintf("%s is sheets, and its width is not given", id), "length and width of each sheet", "")
		return
	}
	r.keep(id, h, v)
}

// keep adds a line, to an earlier one of the same thing if there is one.
func (r *handReader) keep(id string, h OnHand, v *decode.Value) {
	key := handKey{id, h.Length, h.Width}
	if i, there := r.first[key]; there {
		r.lines[i].Count += h.Count
		v.Report(diag.Finding{Level: diag.Note, Code: "twice-on-hand", At: h.At,
			Message: fmt.Sprintf("%s is listed twice: the two are added up to %d", id, r.lines[i].Count),
			Notes:   []diag.Related{{At: r.lines[i].At, Message: "it is here already"}}})
		return
	}
	r.first[key] = len(r.lines)
	r.lines = append(r.lines, h)
}
