package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"setwright/layout"
	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/render/reader"
)

// stdinName is what findings call a plan read from standard input.
const stdinName = "stdin"

// source is a plan on disk, on standard input, or in an archived pack.
type source struct {
	path string // as given; "-" is standard input
	dir  string // the folder its other files are relative to
	pack bool   // path is a pack, and the plan is attached to it

	// A plan that is made into sheets once more: path and pack are as they were
	// then, and it is read from this pack, as this one of its plans.
	from *packed
	plan int
}

func newSource(path string) source {
	s := newNamed(path)
	s.pack = path != "-" && isPack(path)
	return s
}

// newNamed is newSource without a look at what is there.
func newNamed(path string) source {
	if path == "-" {
		return source{path: path, dir: "."}
	}
	return source{path: path, dir: filepath.Dir(path)}
}

// load reads and resolves the plan. Nothing outside its folder is read, not
// even through a link. Findings name files as seen from where the command runs.
func (s source) load(in io.Reader) (*layout.Project, error) {
	return s.loadBy(nil, in)
}

// loadBy is load, for more plans than one. Without a reader the built-in parts
// list is this version's or, for a pack's plan, the one in the pack.
func (s source) loadBy(r *layout.Reader, in io.Reader) (*layout.Project, error) {
	project, err := s.read(r, in)
	if err != nil {
		return nil, err
	}
	project.Findings.Add(letters(project)...)
	project.Findings.Sort()
	project.Findings.Dedupe()
	return project, nil
}

func (s source) read(r *layout.Reader, in io.Reader) (*layout.Project, error) {
	switch {
	case s.from != nil:
		return s.from.load(r, s.plan)
	case s.pack:
		return s.unpack(r)
	case r == nil:
		r = layout.NewReader()
	}
	root, err := os.OpenRoot(s.dir)
	if err != nil {
		return nil, plainError(s.path, err)
	}
	defer root.Close()
	if s.path != "-" {
		return r.Load(root.FS(), filepath.Base(s.path)), nil
	}
	text, err := io.ReadAll(io.LimitReader(in, layout.PlanLimit+1))
	if err != nil {
		return nil, plainError(stdinName, err)
	}
	if reader.IsPDF(text) {
		return nil, fmt.Errorf("%s: a pack is not read from there: give its file", stdinName)
	}
	return r.Parse(root.FS(), stdinName, text), nil
}

// unpack reads the only plan of a pack.
func (s source) unpack(r *layout.Reader) (*layout.Project, error) {
	p, err := openPack(s.path)
	if err != nil {
		return nil, err
	}
	if err := p.single(); err != nil {
		return nil, err
	}
	if err := p.trusted(); err != nil {
		return nil, err
	}
	return p.load(r, 0)
}

// says is how the user is told of a file of the plan's.
func (s source) says(name string) string {
	if s.pack {
		return inPack(s.path, name)
	}
	return filepath.Join(s.dir, filepath.FromSlash(name))
}

// program is what sheets made from the plan are marked with: the version that
// made the pack, where that is made once more.
func (s source) program() string {
	if s.from != nil {
		return s.from.Contents.Program
	}
	return program
}

// findings are the project's, with the files named as the user would.
func (s source) findings(p *layout.Project) *diag.List { return s.named(p, p.Findings.All()) }

// named is any findings about the project, likewise and in the same order.
func (s source) named(p *layout.Project, found []diag.Finding) *diag.List {
	files := map[string]bool{}
	for _, name := range p.Files {
		files[name] = name != stdinName || s.path != "-"
	}
	located := func(at diag.Span) diag.Span {
		if files[at.File] {
			at.File = s.says(at.File)
		}
		return at
	}
	var list diag.List
	for _, f := range found {
		f.At = located(f.At)
		notes := make([]diag.Related, len(f.Notes))
		for i, n := range f.Notes {
			notes[i] = diag.Related{At: located(n.At), Message: n.Message}
		}
		f.Notes = notes
		list.Add(f)
	}
	return &list
}

// readNamed reads a file named on the command line, wherever it is; that it
// cannot be read is a finding.
func readNamed(file string, limit int64, findings *diag.List) ([]byte, bool) {
	dir, name := filepath.Split(file)
	at := diag.Span{File: filepath.ToSlash(file)}
	return decode.Read(os.DirFS(filepath.Clean(dir)), name, limit, at, findings)
}

// plainError says what went wrong with a file without the system call's name.
func plainError(path string, err error) error {
	switch {
	case os.IsNotExist(err):
		return fmt.Errorf("%s: no such file or folder", path)
	case os.IsPermission(err):
		return fmt.Errorf("%s: permission denied", path)
	}
	text := err.Error()
	if i := strings.LastIndex(text, ": "); i >= 0 {
		text = text[i+2:]
	}
	return fmt.Errorf("%s: %s", path, text)
}
