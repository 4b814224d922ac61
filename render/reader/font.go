package reader

import (
	"strings"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// font is what is needed of a font to read text and its places.
type font struct {
	wide     bool            // codes are two bytes
	text     map[int]string  // by code
	widths   map[int]float64 // by code, in ems
	fallback float64
	room     int // for widths and letters still: ranges of hostile fonts overlap
}

// first is the first code of a string and what follows.
func (f *font) first(s string) (code int, rest string) {
	if f.wide && len(s) > 1 {
		return int(s[0])<<8 | int(s[1]), s[2:]
	}
	return int(s[0]), s[1:]
}

func (f *font) width(code int) float64 {
	if w, ok := f.widths[code]; ok {
		return w
	}
	return f.fallback
}

const (
	mostCodes = 1 << 16
	mostRoom  = 1 << 20
)

// font reads a font: composite ones with codes of two bytes, and simple ones.
// Text is known where the font maps it to Unicode, as all of ours do.
func (d *Document) font(o types.Object) *font {
	dict, ok := d.dict(o)
	if !ok {
		return nil
	}
	f := &font{text: map[int]string{}, widths: map[int]float64{}, room: mostRoom}
	if kids := d.array(dict["DescendantFonts"]); len(kids) > 0 {
		f.wide, f.fallback = true, 1
		if kid, ok := d.dict(kids[0]); ok {
			if kid["DW"] != nil {
				f.fallback = d.number(kid["DW"]) / 1000
			}
			d.cidWidths(f, d.array(kid["W"]))
		}
	} else {
		first := d.integer(dict["FirstChar"])
		for i, w := range d.array(dict["Widths"]) {
			f.widths[first+i] = d.number(w) / 1000
		}
	}
	if dict["ToUnicode"] != nil {
		if data, err := d.stream(dict["ToUnicode"], mostDecoded); err == nil {
			f.readMap(data)
		}
	}
	return f
}

// cidWidths reads runs of widths (ISO 32000-1, 9.7.4.3).
func (d *Document) cidWidths(f *font, list types.Array) {
	for i := 0; i+1 < len(list); {
		from := d.integer(list[i])
		if each := d.array(list[i+1]); each != nil {
			for k, w := range each {
				f.widths[from+k] = d.number(w) / 1000
			}
			i += 2
			continue
		}
		if i+2 >= len(list) {
			return
		}
		to := min(d.integer(list[i+1]), mostCodes)
		for code := from; code <= to && f.room > 0; code++ {
			f.room--
			f.widths[code] = d.number(list[i+2]) / 1000
		}
		i += 3
	}
}

// readMap reads a map of codes to Unicode (ISO 32000-1, 9.10.3).
func (f *font) readMap(data []byte) {
	s := &scanner{data: data}
	var words []token
	for {
		w, ok := s.next()
		switch {
		case !ok:
			return
		case w.kind != 'o':
			words = append(words, w)
			continue
		case w.text == "endbfchar":
			for i := 0; i+1 < len(words); i += 2 {
				f.text[code(words[i].text)] = fromUTF16(words[i+1].text)
			}
		case w.text == "endbfrange":
			f.readRanges(words)
		}
		words = words[:0]
	}
}

func (f *font) readRanges(words []token) {
	for i := 0; i+2 < len(words); {
		from, to := code(words[i].text), min(code(words[i+1].text), mostCodes)
		if words[i+2].kind != '[' {
			base := []byte(words[i+2].text)
			for c := from; c <= to && len(base) > 0 && f.room > 0; c++ {
				f.room--
				f.text[c] = fromUTF16(string(base))
				base[len(base)-1]++
			}
			i += 3
			continue
		}
		for i += 3; i < len(words) && words[i].kind != ']'; i++ {
			f.text[from] = fromUTF16(words[i].text)
			from++
		}
		i++
	}
}

func code(s string) int {
	n := 0
	for i := range min(len(s), 4) {
		n = n<<8 | int(s[i])
	}
	return n
}

func fromUTF16(s string) string {
	units := make([]uint16, len(s)/2)
	for i := range units {
		units[i] = uint16(s[2*i])<<8 | uint16(s[2*i+1])
	}
	return strings.TrimRight(string(utf16.Decode(units)), "\x00")
}
