package pdftest

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
)

// maxWhole bounds counts and codes: no test's file has more objects, and codes
// have two bytes.
const maxWhole = 1 << 20

// maxInflated bounds what one stream may unfold to.
const maxInflated = 256 << 20

// place is where an object is: at a byte of the file, or in an object stream.
type place struct {
	at        int
	container int // number of the object stream; 0 for none
	index     int // in it
}

// file gives objects by number.
type file struct {
	data    []byte
	places  map[int]place
	trailer dict
	ready   map[int]any
}

// open reads the cross-reference sections, newest first.
func open(data []byte) (*file, error) {
	f := &file{data: data, places: make(map[int]place), ready: make(map[int]any)}
	tail := bytes.LastIndex(data, []byte("startxref"))
	if tail < 0 || !bytes.HasPrefix(data, []byte("%PDF-")) {
		return nil, errors.New("no PDF")
	}
	l := &lexer{data: data, at: tail + len("startxref")}
	next, err := l.object(0)
	if err != nil {
		return nil, err
	}
	for seen := map[float64]bool{}; next != nil; {
		at, ok := next.(float64)
		if !ok || at < 0 || at >= float64(len(data)) || seen[at] {
			return nil, fmt.Errorf("cross-reference at %v", next)
		}
		seen[at] = true
		trailer, err := f.section(int(at))
		if err != nil {
			return nil, err
		}
		if f.trailer == nil {
			f.trailer = trailer
		}
		next = trailer["Prev"]
	}
	return f, nil
}

func (f *file) section(at int) (dict, error) {
	l := &lexer{data: f.data, at: at}
	if l.take("xref") {
		return f.table(l)
	}
	return f.tableStream(at)
}

// table reads the classic form: 20 bytes an entry.
func (f *file) table(l *lexer) (dict, error) {
	for {
		first, err := l.object(0)
		if err != nil {
			return nil, err
		}
		if first == keyword("trailer") {
			o, err := l.object(0)
			if d, ok := o.(dict); ok {
				return d, err
			}
			return nil, l.errorf("no trailer")
		}
		count, err := l.object(0)
		if err != nil {
			return nil, err
		}
		n, ok1 := first.(float64)
		c, ok2 := count.(float64)
		if !ok1 || !ok2 {
			return nil, l.errorf("cross-reference subsection")
		}
		for i := range int(c) {
			var at, generation int
			var kind string
			l.space()
			if l.at+18 > len(l.data) {
				return nil, l.errorf("cross-reference cut short")
			}
			if _, err := fmt.Sscanf(string(l.data[l.at:l.at+18]), "%d %d %s", &at, &generation, &kind); err != nil {
				return nil, l.errorf("cross-reference entry: %v", err)
			}
			l.at += 18
			if kind == "n" {
				f.put(int(n)+i, place{at: at})
			}
		}
	}
}

func (f *file) put(n int, p place) {
	if _, newer := f.places[n]; !newer {
		f.places[n] = p
	}
}

// tableStream reads a cross-reference stream (7.5.8).
func (f *file) tableStream(at int) (dict, error) {
	_, o, err := f.parse(at)
	if err != nil {
		return nil, err
	}
	s, ok := o.(stream)
	if !ok || s.dict["Type"] != name("XRef") {
		return nil, fmt.Errorf("no cross-reference at byte %d", at)
	}
	data, err := f.unfold(s)
	if err != nil {
		return nil, err
	}
	w, err := whole(s.dict["W"])
	if err != nil || len(w) != 3 || w[0]+w[1]+w[2] == 0 {
		return nil, errors.New("cross-reference stream without /W")
	}
	index, err := whole(s.dict["Index"])
	if s.dict["Index"] == nil {
		index, err = whole([]any{0.0, s.dict["Size"]})
	}
	if err != nil {
		return nil, err
	}
	for i := 0; i+1 < len(index); i += 2 {
		for n := index[i]; n < index[i]+index[i+1]; n++ {
			if len(data) < w[0]+w[1]+w[2] {
				return nil, errors.New("cross-reference stream cut short")
			}
			var field [3]int
			field[0] = 1
			for k, size := range w {
				if size > 0 {
					field[k] = 0
				}
				for ; size > 0; size-- {
					field[k] = field[k]<<8 | int(data[0])
					data = data[1:]
				}
			}
			switch field[0] {
			case 1:
				f.put(n, place{at: field[1]})
			case 2:
				f.put(n, place{container: field[1], index: field[2]})
			}
		}
	}
	return s.dict, nil
}

func whole(o any) ([]int, error) {
	list, ok := o.([]any)
	if !ok {
		return nil, errors.New("no list of numbers")
	}
	out := make([]int, len(list))
	for i, v := range list {
		n, ok := v.(float64)
		if !ok || n < 0 || n > maxWhole {
			return nil, errors.New("no count")
		}
		out[i] = int(n)
	}
	return out, nil
}

// parse reads "n g obj ... endobj" at a byte of the file.
func (f *file) parse(at int) (number int, o any, err error) {
	if at < 0 || at >= len(f.data) {
		return 0, nil, fmt.Errorf("object at byte %d, beyond the file", at)
	}
	l := &lexer{data: f.data, at: at}
	var head [3]any
	for i := range head {
		if head[i], err = l.object(0); err != nil {
			return 0, nil, err
		}
	}
	n, ok := head[0].(float64)
	if !ok || head[2] != keyword("obj") {
		return 0, nil, fmt.Errorf("no object at byte %d", at)
	}
	if o, err = l.object(0); err != nil {
		return 0, nil, err
	}
	end, err := l.object(0)
	if err != nil {
		return 0, nil, err
	}
	if d, ok := o.(dict); ok && end == keyword("stream") {
		if !l.take("\r\n") && !l.take("\n") {
			return 0, nil, l.errorf("no line end after stream")
		}
		if o, err = f.body(l, d); err != nil {
			return 0, nil, err
		}
		if end, err = l.object(0); err != nil {
			return 0, nil, err
		}
	}
	if end != keyword("endobj") {
		return 0, nil, l.errorf("%v where endobj should be", end)
	}
	return int(n), o, nil
}

func (f *file) body(l *lexer, d dict) (any, error) {
	length, err := f.get(d["Length"])
	if err != nil {
		return nil, err
	}
	n, ok := length.(float64)
	if !ok || n < 0 || l.at+int(n) > len(l.data) {
		return nil, l.errorf("stream of length %v", length)
	}
	raw := l.data[l.at : l.at+int(n)]
	l.at += int(n)
	l.space()
	if !l.take("endstream") {
		return nil, l.errorf("stream longer than its length")
	}
	return stream{d, raw}, nil
}

// get follows references.
func (f *file) get(o any) (any, error) {
	for range maxDepth {
		r, ok := o.(ref)
		if !ok {
			return o, nil
		}
		var err error
		if o, err = f.load(r.number); err != nil {
			return nil, err
		}
	}
	return nil, errors.New("references without an end")
}

func (f *file) load(n int) (any, error) {
	if o, ok := f.ready[n]; ok {
		return o, nil
	}
	p, ok := f.places[n]
	if !ok {
		return nil, fmt.Errorf("object %d is not in the file", n)
	}
	var o any
	var err error
	if p.container > 0 {
		o, err = f.inContainer(p)
	} else {
		var number int
		number, o, err = f.parse(p.at)
		if err == nil && number != n {
			err = fmt.Errorf("object %d where %d should be", number, n)
		}
	}
	if err != nil {
		return nil, err
	}
	f.ready[n] = o
	return o, nil
}

// inContainer reads an object of an object stream (7.5.7).
func (f *file) inContainer(p place) (any, error) {
	if f.places[p.container].container > 0 {
		return nil, errors.New("object stream in an object stream")
	}
	o, err := f.load(p.container)
	if err != nil {
		return nil, err
	}
	s, ok := o.(stream)
	first, ok2 := s.dict["First"].(float64)
	if !ok || !ok2 {
		return nil, errors.New("no object stream")
	}
	data, err := f.unfold(s)
	if err != nil {
		return nil, err
	}
	l := &lexer{data: data}
	var at any
	for range 2*p.index + 2 {
		if at, err = l.object(0); err != nil {
			return nil, err
		}
	}
	offset, ok := at.(float64)
	if l.at = int(first + offset); !ok || l.at < 0 || l.at > len(data) {
		return nil, errors.New("object stream cut short")
	}
	return l.object(0)
}

// unfold undoes a stream's filter; only FlateDecode is known.
func (f *file) unfold(s stream) ([]byte, error) {
	filter, err := f.get(s.dict["Filter"])
	if err != nil {
		return nil, err
	}
	if list, ok := filter.([]any); ok && len(list) == 1 {
		filter = list[0]
	}
	switch filter {
	case nil:
		return s.raw, nil
	case name("FlateDecode"):
	default:
		return nil, fmt.Errorf("filter %v", filter)
	}
	z, err := zlib.NewReader(bytes.NewReader(s.raw))
	if err != nil {
		return nil, err
	}
	data, err := io.ReadAll(io.LimitReader(z, maxInflated))
	if err != nil {
		return nil, err
	}
	parms, _ := s.dict["DecodeParms"].(dict)
	if predictor, _ := parms["Predictor"].(float64); predictor >= 10 {
		columns, _ := parms["Columns"].(float64)
		return unpredict(data, max(1, int(columns)))
	}
	return data, nil
}

// unpredict undoes PNG's filters None and Up, which is all that
// cross-reference streams use.
func unpredict(data []byte, columns int) ([]byte, error) {
	var out []byte
	above := make([]byte, columns)
	for ; len(data) > columns; data = data[columns+1:] {
		row := bytes.Clone(data[1 : columns+1])
		switch data[0] {
		case 0:
		case 2:
			for i := range row {
				row[i] += above[i]
			}
		default:
			return nil, fmt.Errorf("predictor %d", data[0])
		}
		out, above = append(out, row...), row
	}
	return out, nil
}
