package decode

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout/diag"
)

func TestRead(t *testing.T) {
	fsys := fstest.MapFS{
		"goods.csv":     {Data: []byte("sku\n")},
		"sub/Été 1.csv": {Data: []byte("é")},
		"large.csv":     {Data: []byte(strings.Repeat("x", 11))},
		"pipe":          {Mode: fs.ModeNamedPipe},
	}
	at := diag.Span{File: "plan.yaml", Line: 3, Col: 9}
	for _, c := range []struct{ name, code, fix, reason string }{
		{"goods.csv", "", "", "a file beside the plan"},
		{"./goods.csv", "", "", "spelt with a dot"},
		{`sub\Été 1.csv`, "", "", "a backslash, a space and accents"},
		{"sub/../goods.csv", "", "", "out and in again"},
		{"../goods.csv", "outside-folder", "", "out of the folder"},
		{`..\goods.csv`, "outside-folder", "", "out of it with a backslash"},
		{"/etc/passwd", "outside-folder", "", "an absolute path"},
		{`C:\goods.csv`, "outside-folder", "", "a drive"},
		{`\\server\goods.csv`, "outside-folder", "", "a server"},
		{"", "outside-folder", "", "no name"},
		{"a\x00b", "outside-folder", "", "a NUL"},
		{"godos.csv", "no-file", `write "goods.csv"`, "misspelt"},
		{"sub/Eté 1.csv", "no-file", `write "sub/Été 1.csv"`, "misspelt in a folder"},
		{"nowhere/x.csv", "no-file", "", "a folder that is not there"},
		{"sub", "not-a-file", "", "a folder"},
		{"pipe", "not-a-file", "", "a pipe"},
		{"large.csv", "too-large", "", "one byte over the limit"},
	} {
		var found diag.List
		text, ok := Read(fsys, c.name, 10, at, &found)
		if ok != (c.code == "") || ok && len(text) == 0 {
			t.Errorf("%q: ok %v: %s; %v", c.name, ok, c.reason, found.All())
			continue
		}
		if !ok {
			f := found.All()[0]
			if f.Code != c.code || f.At != at || c.fix != "" && f.Fix != c.fix {
				t.Errorf("%q: %s at %v, fix %q: %s", c.name, f.Code, f.At, f.Fix, c.reason)
			}
		}
	}
}

// endless is a file that says it is empty and never ends.
type endless struct{ fs.File }

func (endless) Read(p []byte) (int, error) { return len(p), nil }

type endlessFS struct{ fstest.MapFS }

func (e endlessFS) Open(name string) (fs.File, error) {
	f, err := e.MapFS.Open(name)
	return endless{f}, err
}

func TestReadStopsAtTheLimit(t *testing.T) {
	var found diag.List
	if _, ok := Read(endlessFS{fstest.MapFS{"x": {}}}, "x", 1000, diag.Span{}, &found); ok || found.All()[0].Code != "too-large" {
		t.Errorf("an endless file is read: %v", found.All())
	}
}
