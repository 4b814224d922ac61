package reader

import (
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// File is a file attached to a PDF.
type File struct {
	Name string // as it is attached, which may be anything
	Data []byte
}

const (
	mostFiles = 10_000
	mostFile  = 64 << 20 // what one may unfold to: twice the largest that a plan may name
	// mostAttached is what all attached files may unfold to.
	mostAttached = 256 << 20
	// deepest is how deep a tree of names may be.
	deepest = 20
)

// Attachments are the files attached to the document, in the order of their
// names' tree; those that only the catalogue's list of associated files has
// come last.
func (d *Document) Attachments() (files []File, err error) {
	err = guarded(func() error {
		w := &walk{d: d, seen: map[int]bool{}}
		if names, ok := d.dict(d.root["Names"]); ok {
			if err := w.tree(names["EmbeddedFiles"], deepest); err != nil {
				return err
			}
		}
		for _, spec := range d.array(d.root["AF"]) {
			if err := w.file(spec); err != nil {
				return err
			}
		}
		files = w.files
		return nil
	})
	return files, err
}

// walk gathers attached files.
type walk struct {
	d     *Document
	files []File
	seen  map[int]bool // streams, by object number
	bytes int
}

// tree walks a tree of names (ISO 32000-1, 7.9.6).
func (w *walk) tree(node types.Object, depth int) error {
	dict, ok := w.d.dict(node)
	if !ok {
		return nil
	}
	if depth == 0 {
		return ErrDamaged
	}
	pairs := w.d.array(dict["Names"])
	for i := 1; i < len(pairs); i += 2 {
		if err := w.file(pairs[i]); err != nil {
			return err
		}
	}
	for _, kid := range w.d.array(dict["Kids"]) {
		if err := w.tree(kid, depth-1); err != nil {
			return err
		}
	}
	return nil
}

// file adds the file of one specification, once.
func (w *walk) file(spec types.Object) error {
	dict, ok := w.d.dict(spec)
	if !ok {
		return nil
	}
	held, ok := w.d.dict(dict["EF"])
	if !ok {
		return nil
	}
	from := held["UF"]
	if from == nil {
		from = held["F"]
	}
	if ref, ok := from.(types.IndirectRef); ok {
		if n := ref.ObjectNumber.Value(); w.seen[n] {
			return nil
		} else {
			w.seen[n] = true
		}
	}
	data, err := w.d.stream(from, mostFile)
	if err != nil {
		return err
	}
	if w.bytes += len(data); w.bytes > mostAttached || len(w.files) == mostFiles {
		return ErrTooLarge
	}
	w.files = append(w.files, File{w.d.fileName(dict), data})
	return nil
}

// fileName is what a specification calls its file.
func (d *Document) fileName(spec types.Dict) string {
	for _, key := range []string{"UF", "F"} {
		if name, err := d.ctx.DereferenceStringOrHexLiteral(spec[key], 0, nil); err == nil && name != "" {
			return name
		}
	}
	return ""
}

func (d *Document) dict(o types.Object) (types.Dict, bool) {
	dict, err := d.ctx.DereferenceDict(o)
	return dict, err == nil && dict != nil
}

func (d *Document) array(o types.Object) types.Array {
	list, err := d.ctx.DereferenceArray(o)
	if err != nil {
		return nil
	}
	return list
}

// stream is a stream, decoded, of at most so many bytes.
func (d *Document) stream(o types.Object, most int64) ([]byte, error) {
	sd, _, err := d.ctx.DereferenceStreamDict(o)
	if err != nil || sd == nil {
		return nil, ErrDamaged
	}
	if err := sd.DecodeWithLimit(most); err != nil {
		return nil, ErrDamaged
	}
	return sd.Content, nil
}
