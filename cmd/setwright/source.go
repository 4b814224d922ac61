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
)

// stdinName is what findings call a plan read from standard input.
const stdinName = "stdin"

// source is a plan on disk, or on standard input.
type source struct {
	path string // as given; "-" is standard input
	dir  string // the folder its other files are relative to
}

func newSource(path string) source {
	if path == "-" {
		return source{path, "."}
	}
	return source{path, filepath.Dir(path)}
}

// load reads and resolves the plan. Nothing outside its folder is read, not
// even through a link. Findings name files as seen from where the command runs.
func (s source) load(in io.Reader) (*layout.Project, error) {
	return s.loadBy(layout.NewReader(), in)
}

// loadBy is load, for more plans than one.
func (s source) loadBy(reader *layout.Reader, in io.Reader) (*layout.Project, error) {
	root, err := os.OpenRoot(s.dir)
	if err != nil {
		return nil, plainError(s.path, err)
	}
	defer root.Close()
	var project *layout.Project
	if s.path == "-" {
		text, err := io.ReadAll(io.LimitReader(in, layout.PlanLimit+1))
		if err != nil {
			return nil, plainError(stdinName, err)
		}
		project = reader.Parse(root.FS(), stdinName, text)
	} else {
		project = reader.Load(root.FS(), filepath.Base(s.path))
	}
	project.Findings.Add(letters(project)...)
	project.Findings.Sort()
	project.Findings.Dedupe()
	return project, nil
}

// findings are the project's, with the files named as the user would.
func (s source) findings(p *layout.Project) *diag.List {
	files := map[string]bool{}
	for _, name := range p.Files {
		files[name] = name != stdinName || s.path != "-"
	}
	located := func(at diag.Span) diag.Span {
		if files[at.File] {
			at.File = filepath.Join(s.dir, filepath.FromSlash(at.File))
		}
		return at
	}
	var list diag.List
	for _, f := range p.Findings.All() {
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
