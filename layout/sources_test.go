package layout

import (
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"testing/fstest"

	"setwright/layout/parts"
	"setwright/layout/picture"
)

// sourced is a plan with a file of each kind.
func sourced() fstest.MapFS {
	return fstest.MapFS{
		"plan.yaml": {Data: []byte(`
plan: 1
title: Small gondola
measure: in
paper: letter
parts: [a.yaml]
goods: [goods.csv, goods.csv]
stock: [stock.csv]
unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60}}
dress:
  front:
    - {use: hook-6, at: 54in, goods: {POT: 2}}
`)},
		"a.yaml":    {Data: []byte("parts:\n  hook-6: {name: Our hook}\n")},
		"goods.csv": {Data: []byte("sku,name,form,width,height,depth,weight,image\nPOT,Pot,peg,3,4,0.1,0.02,pot.jpg\n")},
		"stock.csv": {Data: []byte("part,on hand\nhook-6,3\n")},
	}
}

// TestSources wants what was read, as it was, in the order it was read.
func TestSources(t *testing.T) {
	files := sourced()
	pot := picture.Printed(300, 200, []byte("print"))
	ask := func(path string) (*picture.Picture, string) {
		if path == "pot.jpg" {
			return pot, "sum"
		}
		return nil, ""
	}
	house := []byte("parts:\n  hook-8: {name: Another}\n")
	p := NewReader().Over("house.yaml", house).WithPictures(ask).Load(files, "plan.yaml")
	if p.Unit == nil {
		t.Fatal(p.Findings.All())
	}
	var got []string
	for _, s := range p.Sources() {
		got = append(got, s.Name+" "+string(s.Role))
		if s.Role != HouseRole && string(s.Text) != string(files[s.Name].Data) {
			t.Errorf("%s: another text", s.Name)
		}
	}
	if want := "[plan.yaml plan a.yaml parts house.yaml house goods.csv goods goods.csv goods stock.csv stock]"; fmt.Sprint(got) != want {
		t.Errorf("%v, want %v", got, want)
	}
	if i := p.Images(); len(i) != 1 || i[0].Name != "pot.jpg" || i[0].SHA256 != "sum" || p.Image("pot.jpg") != pot {
		t.Errorf("pictures %v", i)
	}
	if print := pot.Fit(10, 10); string(print) != "print" {
		t.Errorf("printed anew: %q", print)
	}
}

// TestImageSum: a picture that is read from a file has that file's hash.
func TestImageSum(t *testing.T) {
	files := sourced()
	jpg := picturesFile(t)
	files["pot.jpg"] = &fstest.MapFile{Data: jpg}
	p := Load(files, "plan.yaml")
	if p.Unit == nil {
		t.Fatal(p.Findings.All())
	}
	if i := p.Images(); len(i) != 1 || i[0].SHA256 != fmt.Sprintf("%x", sha256.Sum256(jpg)) {
		t.Errorf("%+v", i)
	}
}

// TestReaderFrom starts from another version's built-in list.
func TestReaderFrom(t *testing.T) {
	files := parts.BuiltInFiles()
	files[0].Text = append(files[0].Text[:len(files[0].Text):len(files[0].Text)], "# of another version\n"...)
	r, err := NewReaderFrom(files)
	if err != nil {
		t.Fatal(err)
	}
	fsys := sourced()
	fsys["pot.jpg"] = &fstest.MapFile{Data: picturesFile(t)}
	if p := r.Load(fsys, "plan.yaml"); p.Unit == nil || string(p.BuiltIn()[0].Text) != string(files[0].Text) {
		t.Error(p.Findings.All())
	}
	files[0].Text = []byte("parts: 1\n")
	if _, err := NewReaderFrom(files); err == nil {
		t.Error("a list that is none was taken")
	}
}

func picturesFile(t *testing.T) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("picture", "testdata", "grey.jpg"))
	if err != nil {
		t.Fatal(err)
	}
	return data
}
