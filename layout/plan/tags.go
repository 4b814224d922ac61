package plan

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/measure"
)

// Tags asks for position tags of that size, to be cut and clipped to hooks and
// shelf edges.
type Tags struct {
	Width, Height measure.Length
	At            diag.Span
}

// A tag of the least size holds an address, a price, a line of a name and a
// number in lettering of 1.8 mm: house rule.
const (
	leastTagWidth  = 25 * measure.Millimetre
	leastTagHeight = 12 * measure.Millimetre
)

// longestCurrency is in characters: a sign or a code of ISO 4217, and room.
const longestCurrency = 8

// TagRoom returns the greatest width and height of one tag on that paper: a
// little less than margins, heading and title block leave of it.
func TagRoom(paper string) (width, height measure.Length) {
	const in, mm = measure.Inch, measure.Millimetre
	switch paper {
	case "a4":
		return 160 * mm, 200 * mm
	case "a3":
		return 240 * mm, 320 * mm
	case "tabloid":
		return 9 * in, 13 * in
	}
	return 13 * in / 2, 7 * in
}

// tags reads the size of the position tags, after the paper.
func (r *reader) tags(m *decode.Map) {
	if m == nil {
		return
	}
	t := &Tags{At: m.At}
	width, height := TagRoom(r.plan.Paper)
	sound := r.side(m, "width", leastTagWidth, width, &t.Width)
	sound = r.side(m, "height", leastTagHeight, height, &t.Height) && sound
	if sound {
		r.plan.Tags = t
	}
	m.Done()
}

// side reads one side of a tag, within its bounds.
func (r *reader) side(m *decode.Map, key string, least, most measure.Length, to *measure.Length) bool {
	v := m.Need(key)
	l, ok := v.Size(r.bare)
	if !ok {
		return false
	}
	expected := "from " + least.Text(r.bare) + " to " + most.Text(r.bare) + " on this paper"
	switch {
	case l < least:
		v.Fail("bad-tags", "a tag of this "+key+" is too small for its lettering", expected, "")
	case l > most:
		v.Fail("bad-tags", "a tag of this "+key+" is larger than a sheet has room for", expected, "")
	default:
		*to = l
		return true
	}
	return false
}

// currency reads what is printed with prices.
func (r *reader) currency(v *decode.Value) {
	s, ok := v.Text()
	if !ok {
		return
	}
	if utf8.RuneCountInString(s) > longestCurrency || strings.ContainsAny(s, "\n\t") {
		v.Fail("bad-currency", "this is no currency", fmt.Sprintf("a sign or a code of at most %d letters, such as $ or EUR", longestCurrency), "")
		return
	}
	r.plan.Currency = s
}
