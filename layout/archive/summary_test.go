package archive

import (
	"bytes"
	"compress/zlib"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// project reads a sample.
func project(t *testing.T, name string) *layout.Project {
	t.Helper()
	p := layout.Load(os.DirFS(filepath.Join("..", "..", "samples", name)), "plan.yaml")
	if p.Unit == nil {
		t.Fatalf("%s does not resolve", name)
	}
	return p
}

// TestSummary counts a sample's unit once more, and reads its summary back.
func TestSummary(t *testing.T) {
	for _, name := range []string{"spring", "sweets", "books", "peg-end", "tools"} {
		p := project(t, name)
		s := Summarize(p.Unit, p.Findings.All(), p.Purchase)
		if err := s.check(); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		pieces, fronts, units, goods := 0, 0, 0, measure.Mass(0)
		at := map[string]string{} // SKU by address
		for _, f := range p.Unit.Faces {
			for _, row := range f.Rows {
				pieces += len(row.All())
				for _, position := range row.Positions {
					fronts += len(position.Fronts)
					units += position.Units
					goods += measure.Mass(position.Units) * position.Product.Weight
					at[position.Address] = position.Product.SKU
				}
			}
		}
		drawn, boxes := 0, 0
		for _, f := range s.Faces {
			drawn += len(f.Hardware)
			for _, g := range f.Goods {
				boxes += len(g.Fronts)
			}
		}
		counted := 0
		for _, product := range s.Products {
			counted += product.Fronts
			for _, address := range product.At {
				if at[address] != product.SKU {
					t.Errorf("%s: %s is said to be at %s", name, product.SKU, address)
				}
				delete(at, address)
			}
		}
		if drawn != pieces || boxes != fronts || counted != fronts || s.Units != units || s.Goods != goods || len(at) > 0 {
			t.Errorf("%s: %d pieces, %d and %d fronts, %d units of %v; the unit has %d, %d, %d of %v, and %v are left",
				name, drawn, boxes, counted, s.Units, s.Goods, pieces, fronts, units, goods, at)
		}
		for _, level := range []diag.Level{diag.Note, diag.Caution, diag.Stop} {
			if got, want := s.Count(level), p.Findings.Count(level); got != want {
				t.Errorf("%s: %d of level %v, want %d", name, got, level, want)
			}
		}
		if s.System() != p.Plan.Measure {
			t.Errorf("%s is in another measure", name)
		}
		text, err := json.Marshal(s)
		if err != nil {
			t.Fatal(err)
		}
		var again Summary
		if err := json.Unmarshal(text, &again); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(s, again); diff != "" {
			t.Errorf("%s: read back:\n%s", name, diff)
		}
	}
}

// TestSummaryIsSmall: every pack carries it.
func TestSummaryIsSmall(t *testing.T) {
	p := project(t, "spring")
	text, err := json.Marshal(Summarize(p.Unit, p.Findings.All(), p.Purchase))
	if err != nil {
		t.Fatal(err)
	}
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	w.Write(text)
	w.Close()
	if packed.Len() > 6000 {
		t.Errorf("%d bytes, %d deflated", len(text), packed.Len())
	}
}

// TestStanding draws what stands on the floor only where it is seen.
func TestStanding(t *testing.T) {
	p := project(t, "spring")
	for i, f := range Summarize(p.Unit, nil, p.Purchase).Faces {
		face := p.Unit.Faces[i]
		if f.Face != string(face.ID) || len(f.Panels) != face.Bays || len(f.Standing) == 0 {
			t.Errorf("%s: %d panels, %d things on the floor", f.Face, len(f.Panels), len(f.Standing))
		}
		for _, b := range f.Standing {
			if b[0] < 0 || b[2] > f.Width || b[3] > tenths(face.Top) {
				t.Errorf("%s: %v is not on it", f.Face, b)
			}
		}
	}
}

func TestTenths(t *testing.T) {
	for _, c := range []struct {
		length measure.Length
		want   int
		reason string
	}{
		{0, 0, "nothing"},
		{measure.Inch, 254, "exact"},
		{measure.Inch / 16, 15, "1.5875 mm is rounded down"},
		{-measure.Inch / 16, -16, "down is away from zero on the other side"},
		{-measure.Inch, -254, "exact there too"},
	} {
		if got := tenths(c.length); got != c.want {
			t.Errorf("%d: got %d, want %d: %s", c.length, got, c.want, c.reason)
		}
	}
}

// TestHostileSummaries: what no pack has is refused before it is drawn.
func TestHostileSummaries(t *testing.T) {
	sound := func() Summary {
		return Summary{Measure: "in", Faces: []Face{{Face: "front", Width: 100}}, Unit: Bare{Panels: []Panel{{"front", "grid", 1}}},
			Parts: []Part{{ID: "hook", Count: 1}}, Products: []Product{{SKU: "S", Fronts: 1}}, Findings: []Finding{{"note", "n", 1}}}
	}
	if s := sound(); s.check() != nil {
		t.Fatal("a sound summary is refused: ", s.check())
	}
	for _, c := range []struct {
		spoil  func(s *Summary)
		reason string
	}{
		{func(s *Summary) { s.Faces[0].Face = "top" }, "no such face: it has no letter"},
		{func(s *Summary) { s.Unit.Panels[0].Face = "" }, "a panel of no face"},
		{func(s *Summary) { s.Unit.Panels[0].Bays = -1 }, "less than no bays"},
		{func(s *Summary) { s.Faces[0].Width = 1 << 40 }, "wider than a town"},
		{func(s *Summary) { s.Faces[0].Width = -1 }, "inside out"},
		{func(s *Summary) { s.Faces[0].Hardware = []Box{{0, 0, 0, 1 << 50}} }, "higher than the sky"},
		{func(s *Summary) { s.Faces[0].Goods = []Stock{{Fronts: []Box{{5, 0, 4, 1}}}} }, "inside out"},
		{func(s *Summary) { s.Parts[0].Count = -5 }, "pieces to fetch from nowhere"},
		{func(s *Summary) { s.Parts[0].Cut = 1 << 60 }, "cut longer than any bar"},
		{func(s *Summary) { s.Products[0].Fronts = 1 << 40 }, "more fronts than there is room for"},
		{func(s *Summary) { s.Findings[0].Count = -1 }, "less than nothing found"},
		{func(s *Summary) { s.Units = 1 << 40 }, "more goods than there are"},
		{func(s *Summary) { s.Unit.Height = -1 }, "under the floor"},
		{func(s *Summary) { s.Goods = 1 << 62 }, "two of them overflow"},
		{func(s *Summary) { s.Worth = -1 }, "worth less than nothing"},
	} {
		s := sound()
		if c.spoil(&s); s.check() == nil {
			t.Errorf("it is not refused: %s", c.reason)
		}
	}
	said := &Contents{Format: 1, Plans: []Plan{{File: "p", Called: "p"}}, Files: []Entry{{Name: "p"}}, Summary: &Summary{Units: -1}}
	if _, err := Read(said.JSON()); err == nil || !strings.Contains(err.Error(), "summary") {
		t.Errorf("contents with such a summary are read: %v", err)
	}
}

// TestBoxTurnsBack holds a face's view of a solid against the way there.
func TestBoxTurnsBack(t *testing.T) {
	for _, f := range project(t, "spring").Unit.Faces {
		b := unit.Box{X0: 10, X1: 30, Y0: 5, Y1: 9, D0: -7, D1: 2}
		if got := f.Box(f.Solid(b)); got != b {
			t.Errorf("%s: %v comes back as %v", f.ID, b, got)
		}
	}
}
