package pdftest

import (
	"errors"
	"fmt"
	"unicode/utf16"
)

// font is a composite font with two-byte codes.
type font struct {
	name     string
	unicode  map[int]string
	widths   map[int]float64 // in thousandths of an em
	standard float64
	program  *program // nil when none is embedded
}

func (r *reader) font(at ref) (*font, error) {
	if f, ok := r.fonts[at]; ok {
		return f, nil
	}
	d, err := r.dict(at)
	if err != nil {
		return nil, err
	}
	if d["Subtype"] != name("Type0") || d["Encoding"] != name("Identity-H") {
		return nil, fmt.Errorf("font %v of kind %v, %v is not understood", d["BaseFont"], d["Subtype"], d["Encoding"])
	}
	base, _ := d["BaseFont"].(name)
	f := &font{name: string(base)}
	if f.unicode, err = r.toUnicode(d["ToUnicode"]); err != nil {
		return nil, fmt.Errorf("font %s: %w", base, err)
	}
	embedded, err := r.descendant(d, f)
	if err != nil {
		return nil, fmt.Errorf("font %s: %w", base, err)
	}
	r.fonts[at] = f
	r.doc.Fonts = append(r.doc.Fonts, Font{f.name, embedded, len(f.unicode) > 0})
	return f, nil
}

func (r *reader) descendant(d dict, f *font) (embedded bool, err error) {
	list, err := r.array(d["DescendantFonts"])
	if err != nil || len(list) != 1 {
		return false, errors.New("no descendant font")
	}
	cid, err := r.dict(list[0])
	if err != nil {
		return false, err
	}
	f.standard = 1000
	if w, ok := cid["DW"].(float64); ok {
		f.standard = w
	}
	if f.widths, err = r.widths(cid["W"]); err != nil {
		return false, err
	}
	descriptor, err := r.dict(cid["FontDescriptor"])
	if err != nil {
		return false, err
	}
	program, err := r.get(descriptor["FontFile2"])
	if err != nil || program == nil {
		return false, err
	}
	s, ok := program.(stream)
	if !ok {
		return false, errors.New("font program is no stream")
	}
	data, err := r.unfold(s)
	if err != nil {
		return false, err
	}
	if size, _ := s.dict["Length1"].(float64); int(size) != len(data) {
		return false, fmt.Errorf("font program of %d bytes, said %v", len(data), s.dict["Length1"])
	}
	if cid["CIDToGIDMap"] != name("Identity") {
		return false, errors.New("codes are no glyph numbers")
	}
	f.program, err = parseProgram(data)
	return err == nil, err
}

// widths reads /W: "c [w w ...]" and "first last w".
func (r *reader) widths(o any) (map[int]float64, error) {
	list, err := r.array(o)
	if err != nil {
		return nil, err
	}
	out := make(map[int]float64)
	for len(list) >= 2 {
		first, ok := list[0].(float64)
		if !ok {
			return nil, errors.New("bad widths")
		}
		if run, ok := list[1].([]any); ok {
			for i, w := range run {
				if out[int(first)+i], ok = w.(float64); !ok {
					return nil, errors.New("bad width")
				}
			}
			list = list[2:]
			continue
		}
		last, ok := list[1].(float64)
		if !ok || len(list) < 3 || last-first > maxWhole {
			return nil, errors.New("bad widths")
		}
		w, ok := list[2].(float64)
		if !ok {
			return nil, errors.New("bad width")
		}
		for c := int(first); c <= int(last); c++ {
			out[c] = w
		}
		list = list[3:]
	}
	if len(list) > 0 {
		return nil, errors.New("widths cut short")
	}
	return out, nil
}

// toUnicode reads the two kinds of entry of a CMap (9.10.3).
func (r *reader) toUnicode(o any) (map[int]string, error) {
	o, err := r.get(o)
	if err != nil {
		return nil, err
	}
	s, ok := o.(stream)
	if !ok {
		return nil, errors.New("no map to Unicode")
	}
	data, err := r.unfold(s)
	if err != nil {
		return nil, err
	}
	out := make(map[int]string)
	l := &lexer{data: data}
	var args []any
	for {
		o, err := l.object(0)
		if err != nil {
			return nil, err
		}
		k, ok := o.(keyword)
		if !ok {
			args = append(args, o)
			continue
		}
		switch k {
		case "":
			return out, nil
		case "endbfchar":
			err = bfChars(out, args)
		case "endbfrange":
			err = bfRanges(out, args)
		}
		if err != nil {
			return nil, err
		}
		args = args[:0]
	}
}

func bfChars(out map[int]string, args []any) error {
	for ; len(args) >= 2; args = args[2:] {
		from, ok1 := args[0].(text)
		to, ok2 := args[1].(text)
		if !ok1 || !ok2 {
			return errors.New("bad bfchar")
		}
		if _, twice := out[code(from)]; twice {
			return fmt.Errorf("glyph %d mapped twice", code(from))
		}
		out[code(from)] = decodeUTF16(string(to))
	}
	if len(args) > 0 {
		return errors.New("bfchar cut short")
	}
	return nil
}

func bfRanges(out map[int]string, args []any) error {
	for ; len(args) >= 3; args = args[3:] {
		from, ok1 := args[0].(text)
		to, ok2 := args[1].(text)
		first, ok3 := args[2].(text)
		if !ok1 || !ok2 || !ok3 || len(first) != 2 || len(from) > 2 || len(to) > 2 {
			return errors.New("bad bfrange")
		}
		for c := code(from); c <= code(to); c++ {
			out[c] = string(rune(code(first) + c - code(from)))
		}
	}
	if len(args) > 0 {
		return errors.New("bfrange cut short")
	}
	return nil
}

func code(t text) int {
	n := 0
	for i := range len(t) {
		n = n<<8 | int(t[i])
	}
	return n
}

func decodeUTF16(s string) string {
	units := make([]uint16, 0, len(s)/2)
	for i := 0; i+1 < len(s); i += 2 {
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	return string(utf16.Decode(units))
}

// glyph is one as shown: its number, its character, its advance in ems.
type glyph struct {
	number  int
	unicode string
	width   float64
}

// decode turns a shown string into glyphs.
func (f *font) decode(shown text) ([]glyph, error) {
	var glyphs []glyph
	if len(shown)%2 != 0 {
		return nil, errors.New("odd number of bytes in a text")
	}
	for i := 0; i < len(shown); i += 2 {
		c := code(shown[i : i+2])
		u, ok := f.unicode[c]
		if !ok {
			return nil, fmt.Errorf("glyph %d of %s has no character", c, f.name)
		}
		w, ok := f.widths[c]
		if !ok {
			w = f.standard
		}
		glyphs = append(glyphs, glyph{c, u, w / 1000})
	}
	return glyphs, nil
}
