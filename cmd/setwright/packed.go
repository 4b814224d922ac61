package main

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"setwright/layout"
	"setwright/layout/archive"
	"setwright/layout/diag"
	"setwright/layout/parts"
	"setwright/layout/picture"
	"setwright/render/reader"
)

// packed is an archived pack: a PDF that carries what it was made from.
type packed struct {
	path     string
	data     []byte
	document *reader.Document
	*archive.Archive
	forged   []diag.Finding    // files that are not as the contents say, or not there
	prints   map[string][]byte // by their hashes
	embedded []*reader.Picture // that may be found among the prints if they are encoded anew

	// Where the pack is made once more it need not hold the pictures as they were.
	again  bool
	lost   map[string]string // the hashes of prints that it does not hold any more, by the pictures' names
	images *os.Root          // where the pictures themselves may be; nil for nowhere
	others []string          // pictures there that are not those that the pack was made with
}

// isPack says whether a file is a PDF, by its first bytes.
func isPack(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return false
	}
	head := make([]byte, 2048)
	n, _ := io.ReadFull(f, head)
	return reader.IsPDF(head[:n])
}

// openPack opens an archived pack. Errors name it; that files in it were changed
// is none yet.
func openPack(path string) (*packed, error) {
	data, err := readPack(path)
	if err != nil {
		return nil, err
	}
	p := &packed{path: path, data: data}
	var files []archive.File
	if p.document, files, err = attached(data); err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	if p.Archive, p.forged = archive.Open(files); p.Archive == nil {
		return nil, fmt.Errorf("%s: %s", path, diag.OneLine(p.forged[0].Message))
	}
	return p, nil
}

// attached opens a PDF and reads the files attached to it.
func attached(data []byte) (*reader.Document, []archive.File, error) {
	doc, err := reader.Open(data)
	if err != nil {
		return nil, nil, err
	}
	found, err := doc.Attachments()
	if err != nil {
		return nil, nil, err
	}
	files := make([]archive.File, len(found))
	for i, f := range found {
		files[i] = archive.File{Name: f.Name, Data: f.Data}
	}
	return doc, files, nil
}

func readPack(path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil, plainError(path, err)
	case info.IsDir():
		return nil, fmt.Errorf("%s: it is a folder", path)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("%s: it is not a plain file", path)
	case info.Size() > reader.MostBytes:
		return nil, fmt.Errorf("%s: %w", path, reader.ErrTooLarge)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, plainError(path, err)
	}
	return data, nil
}

// trusted refuses a pack whose files are not what the contents say.
func (p *packed) trusted() error {
	if len(p.forged) == 0 {
		return nil
	}
	var words []string
	for _, f := range p.forged {
		words = append(words, fmt.Sprintf("%s: %s", f.At.File, f.Message))
	}
	return fmt.Errorf("%s: what it was made from is not as it was: %s", p.path, diag.OneLine(strings.Join(words, "; ")))
}

// reader is what its plans are read with: the built-in parts list that the pack
// was made with, which may be another version's.
func (p *packed) reader() (*layout.Reader, error) {
	var files []parts.File
	for _, f := range p.BuiltIn() {
		files = append(files, parts.File{Name: f.Name, Text: f.Data})
	}
	same := func(a, b parts.File) bool { return a.Name == b.Name && bytes.Equal(a.Text, b.Text) }
	if slices.EqualFunc(files, parts.BuiltInFiles(), same) {
		return layout.NewReader(), nil
	}
	r, err := layout.NewReaderFrom(files)
	if err != nil {
		return nil, fmt.Errorf("%s: its built-in parts list cannot be read by this version: %v", p.path, err)
	}
	return r, nil
}

// load reads one of its plans, with a reader or else with its own.
func (p *packed) load(r *layout.Reader, plan int) (*layout.Project, error) {
	if r == nil {
		own, err := p.reader()
		if err != nil {
			return nil, err
		}
		r = own
	}
	said := p.Contents.Plans[plan]
	name := filepath.Base(said.Called)
	if said.Called == "-" {
		name = stdinName
	}
	text, _ := p.Data(said.File)
	pictures := func(name string) (*picture.Picture, string) { return p.picture(plan, name) }
	return r.WithPictures(pictures).Parse(withImages{p.FS(plan), p.images}, name, text), nil
}

// withImages is the files of a plan and, where its pictures are at hand, those.
type withImages struct {
	fs.FS
	images *os.Root
}

// Open opens one file (fs.FS).
func (w withImages) Open(name string) (fs.File, error) {
	f, err := w.FS.Open(name)
	if err != nil && w.images != nil {
		return w.images.FS().Open(name)
	}
	return f, err
}

// picture is a picture of one of its plans, as the pack has it printed, and the
// hash of its file.
func (p *packed) picture(plan int, name string) (*picture.Picture, string) {
	i := slices.IndexFunc(p.Contents.Pictures, func(s archive.Picture) bool { return s.Plan == plan && s.Name == name })
	if i < 0 {
		return nil, ""
	}
	said := p.Contents.Pictures[i]
	if p.images != nil {
		data, err := p.images.ReadFile(filepath.FromSlash(name))
		switch {
		case err == nil && archive.Sum(data) == said.SHA256:
			return nil, "" // it is read there
		case err == nil:
			p.others = append(p.others, name)
		}
	}
	print := []byte{} // no sheet shows it
	if said.Print != "" {
		print = p.print(said.Print)
		if print == nil && p.again {
			p.lost[name] = said.Print
			print = []byte(blankPNG)
		}
	}
	if print == nil {
		return nil, ""
	}
	return picture.Printed(said.Width, said.Height, print), said.SHA256
}

// blankPNG is one white pixel.
const blankPNG = "\x89PNG\r\n\x1a\n" +
	"\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x00\x00\x00\x00:~\x9bU" +
	"\x00\x00\x00\x0aIDATx\x9cc\xf8\x0f\x00\x01\x01\x01\x00\xb18\xf6\x14" +
	"\x00\x00\x00\x00IEND\xaeB`\x82"

// print is the picture that is embedded in the pack, by its hash; nil if it is
// not there any more as it was.
func (p *packed) print(sum string) []byte {
	if p.prints == nil {
		p.prints = map[string][]byte{}
		p.embedded = p.document.Pictures()
		for _, picture := range p.embedded {
			data := picture.File()
			p.prints[archive.Sum(data)] = data
		}
	}
	for p.prints[sum] == nil && len(p.embedded) > 0 {
		data := p.embedded[0].Anew()
		p.prints[archive.Sum(data)] = data
		p.embedded = p.embedded[1:]
	}
	return p.prints[sum]
}

// houseFile is the house's file that was given to the command by that name.
func (p *packed) houseFile(called string) ([]byte, bool) {
	for _, f := range []*archive.Plan{p.Contents.Parts, p.Contents.Stock} {
		if f != nil && f.Called == called {
			return p.Data(f.File)
		}
	}
	return nil, false
}

// single refuses a pack that is given in place of a plan and has more than one,
// or none.
func (p *packed) single() error {
	plans := p.Contents.Plans
	if len(plans) == 1 && p.Contents.Command != cutName {
		return nil
	}
	var names []string
	for _, plan := range plans {
		names = append(names, plan.File)
	}
	return fmt.Errorf("%s: a pack made by setwright %s of %s: get its files out with setwright recover and give one of them",
		p.path, p.Contents.Command, diag.OneLine(strings.Join(names, ", ")))
}

// inPack is how findings name a file of a pack.
func inPack(pack, name string) string { return pack + ":" + path.Clean(name) }
