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
//	strip-ticket,96in,,3
//	strip-ticket,37in,,1
//
// part is the id of a part, or of stock, which needs a length and, for sheets,
// a width; any size will do, so that off-cuts can be listed. The id of a part
// that is cut from bars stands, with a length, for the bars. Lines that say the
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

// mostOnHand bounds the pieces of one line.
const mostOnHand = 1_000_000

// handKey tells one thing on hand from another.
type handKey struct {
	part          *Part
	stock         *Stock
	length, width measure.Length
}

type handReader struct {
	list  *List
	bare  measure.System
	lines []OnHand
	first map[handKey]int
}

func (r *handReader) row(m *decode.Map) {
	v := m.Need("part")
	id, named := v.Name()
	var h OnHand
	counted := m.Need("on hand") != nil && m.Int("on hand", 0, mostOnHand, &h.Count)
	long := m.Size("length", r.bare, &h.Length) || !m.There("length")
	wide := m.Size("width", r.bare, &h.Width) || !m.There("width")
	if named && counted && long && wide && r.find(id, v, &h) {
		h.At = v.At
		r.keep(id, h, v)
	}
}

// find says what an id is of.
func (r *handReader) find(id string, v *decode.Value, h *OnHand) bool {
	part, isPart := r.list.Find(id)
	stock, isStock := r.list.Stock(id)
	if isPart && !isStock && part.Cut != nil && !part.Cut.From.Sheet() {
		stock, isStock = part.Cut.From, true
	}
	switch {
	case !isPart && !isStock:
		r.note(v, "unknown-part", fmt.Sprintf("the parts list knows no %q: what is on hand of it is left out", id), decode.Suggest(id, r.ids()))
		return false
	case isStock && (h.Length > 0 || !isPart || part.Kind == Strip):
		h.Stock = stock
		return r.sized(id, v, h)
	}
	if h.Part = part; h.Length > 0 || h.Width > 0 {
		r.note(v, "unused-size", fmt.Sprintf("pieces of %s are all of one size: the one given here is left out", id), "leave length and width blank")
		h.Length, h.Width = 0, 0
	}
	return true
}

// sized wants the size of a bar or a sheet.
func (r *handReader) sized(id string, v *decode.Value, h *OnHand) bool {
	switch sheet := h.Stock.Sheet(); {
	case sheet && (h.Length == 0 || h.Width == 0):
		v.Fail("missing-cell", fmt.Sprintf("the size of each sheet of %s is not given", id), "its length, along the grain, and its width", "")
		return false
	case h.Length == 0:
		v.Fail("missing-cell", fmt.Sprintf("the length of each bar of %s is not given", id), "a length, such as 96in", "")
		return false
	case !sheet && h.Width > 0:
		r.note(v, "unused-size", fmt.Sprintf("%s is bars: the width given here is left out", id), "leave the width blank")
		h.Width = 0
	}
	return true
}

func (r *handReader) ids() []string { return append(r.list.IDs(), r.list.stock.order...) }

func (r *handReader) note(v *decode.Value, code, message, fix string) {
	v.Report(diag.Finding{Level: diag.Note, Code: code, At: v.At, Message: message, Fix: fix})
}

// keep adds a line, to an earlier one of the same thing if there is one.
func (r *handReader) keep(id string, h OnHand, v *decode.Value) {
	key := handKey{h.Part, h.Stock, h.Length, h.Width}
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
