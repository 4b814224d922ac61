package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// TestYear holds the four resets of samples/year against the plans they lead
// through. A pack's contents have the hash of every file it is made from and of
// every sheet, so that two with the same contents show the same; their bytes may
// differ where another release of Go compresses otherwise.
func TestYear(t *testing.T) {
	t.Chdir(moduleRoot) // the packs name their plans from here
	for _, c := range []struct{ file, old, new string }{
		{"1-spring-to-children.pdf", "spring", "children"},
		{"2-children-to-shirts.pdf", "children", "shirts"},
		{"3-shirts-to-sweets.pdf", "shirts", "sweets"},
		{"4-sweets-to-boots.pdf", "sweets", "boots"},
	} {
		kept, made := "samples/year/"+c.file, filepath.Join(t.TempDir(), c.file)
		plan := func(name string) string { return fmt.Sprintf("samples/%s/plan.yaml", name) }
		if out, errs, status := ran("reset", plan(c.old), plan(c.new), "-o", made,
			"--parts", "samples/year/larkfield-parts.yaml", "--stock", "samples/year/stock.csv"); status != exitFine {
			t.Fatalf("%s: exit %d\n%s%s", c.file, status, out, errs)
		}
		if out, errs, status := ran("verify", made); status != exitFine {
			t.Errorf("%s: verify: exit %d\n%s%s", c.file, status, out, errs)
		}
		if same(t, kept, made) {
			continue
		}
		if os.Getenv("SETWRIGHT_UPDATE") != "1" {
			t.Errorf("%s is not what the plans make; SETWRIGHT_UPDATE=1 writes it", kept)
			continue
		}
		data, err := os.ReadFile(made)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(kept, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// same says whether two packs have the same contents. One that cannot be read
// has none.
func same(t *testing.T, kept, made string) bool {
	t.Helper()
	b, err := openPack(made)
	if err != nil {
		t.Fatal(err)
	}
	a, err := openPack(kept)
	return err == nil && a.forged == nil && bytes.Equal(a.said(), b.said())
}
