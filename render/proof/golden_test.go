package proof

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"setwright/layout/golden"
	"setwright/render/sheet"
)

// dumped are the samples whose sheets are kept whole, as text: those with the
// most kinds of hardware on wire grid, and one in millimetres. The dressed
// unit is kept of every sample.
var dumped = map[string]bool{"spring": true, "children": true, "books": true}

// TestGoldens compares the dressed unit and the page model of samples with
// what they were, so that a change shows as a change of text.
func TestGoldens(t *testing.T) {
	dir := filepath.Join(root, "testdata", "golden")
	each(t, func(t *testing.T, p *plan) {
		if !p.sample() {
			t.Skip("samples are enough")
		}
		name := strings.TrimPrefix(p.name, "samples/")
		golden.Check(t, filepath.Join(dir, name+".json"), string(p.dump))
		if !dumped[name] {
			return
		}
		var all strings.Builder
		for _, s := range p.pack.Sheets {
			all.WriteString(sheet.Dump(s))
		}
		golden.Check(t, filepath.Join(dir, name+".sheets.txt"), all.String())
	})
}

// TestGoldensStaySmall wants less than 3 MB of goldens, and none that no
// sample has.
func TestGoldensStaySmall(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(root, "testdata", "golden", "*"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no goldens (%v)", err)
	}
	total := int64(0)
	for _, file := range files {
		info, err := os.Stat(file)
		if err != nil {
			t.Fatal(err)
		}
		total += info.Size()
		name, _, _ := strings.Cut(filepath.Base(file), ".")
		if _, err := os.Stat(filepath.Join(root, "samples", name, "plan.yaml")); err != nil {
			t.Errorf("%s is of no sample", file)
		}
	}
	if total > 3<<20 {
		t.Errorf("%d bytes of goldens", total)
	}
}
