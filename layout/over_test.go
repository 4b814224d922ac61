package layout

import (
	"testing"
	"testing/fstest"

	"setwright/layout/diag"
)

// TestReaderOver lays a house's list over the parts of every plan, their own
// lists among them.
func TestReaderOver(t *testing.T) {
	files := fstest.MapFS{
		"plain.yaml":     {Data: []byte("plan: 1\ntitle: Plain\nunit: {frame: wall-run, bays: 1, stand: fixed, panels: {front: slat-24x96}}\n")},
		"own.yaml":       {Data: []byte("plan: 1\ntitle: Own\nparts: [own-parts.yaml]\nunit: {frame: wall-run, bays: 1, stand: fixed, panels: {front: slat-24x96}}\n")},
		"own-parts.yaml": {Data: []byte("parts:\n  hook-7: {like: hook-6, price: 3}\n")},
	}
	plain := NewReader()
	over := plain.Over("./house.yaml", []byte("parts:\n  hook-6: {price: 2.50}\n"))
	for _, c := range []struct{ file, part, reason string }{
		{"plain.yaml", "hook-6", "a built-in part has the house's price"},
		{"own.yaml", "hook-6", "also where the plan has parts of its own"},
	} {
		was, is := plain.Load(files, c.file), over.Load(files, c.file)
		p, _ := is.Parts.Find(c.part)
		if is.Unit == nil || len(p.Buy.Packs) != 1 || p.Buy.Packs[0].Price != 250 {
			t.Errorf("%s: %+v", c.reason, p.Buy)
		}
		if was.Fingerprint == is.Fingerprint {
			t.Errorf("%s: another list of parts, and the same mark", c.file)
		}
		if p, _ := was.Parts.Find(c.part); len(p.Buy.Packs) > 0 {
			t.Errorf("%s: the plain reader knows the price too", c.file)
		}
	}
	bad := over.Over("./worse.yaml", []byte("parts:\n  hook-6: {price: much}\n")).Load(files, "plain.yaml")
	if bad.Unit != nil || bad.Findings.All()[0].At != (diag.Span{File: "./worse.yaml", Line: 2, Col: 19, Len: 4}) {
		t.Errorf("a fault of the list is found there: %v", bad.Findings.All())
	}
}
