package layout

import (
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/parts"
)

// yearPlans are the plans that samples/year equips.
func yearPlans() []string { return []string{"spring", "children", "shirts", "sweets", "boots"} }

// equipped is a sample with the year's parts list over its own, and what is on
// hand.
func equipped(t *testing.T, sample string) *Project {
	t.Helper()
	files := fstest.MapFS{}
	for _, folder := range []string{"../samples/" + sample, "../samples/year"} {
		fsys := os.DirFS(folder)
		err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			text, err := fs.ReadFile(fsys, name)
			files[name] = &fstest.MapFile{Data: text}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	text := string(files["plan.yaml"].Data)
	text = regexp.MustCompile(`(?m)^stock: .*\n`).ReplaceAllString(text, "")
	if named := "parts: [parts.yaml"; strings.Contains(text, named) {
		text = strings.Replace(text, named, named+", larkfield-parts.yaml", 1)
	} else {
		text += "\nparts: [larkfield-parts.yaml]\n"
	}
	text += "\nstock: stock.csv\n"
	return Parse(files, "plan.yaml", []byte(text))
}

// TestYear wants a price for everything that the gondolas of a year take, and
// counts it again from their rows.
func TestYear(t *testing.T) {
	for _, sample := range yearPlans() {
		p := equipped(t, sample)
		for _, f := range p.Findings.All() {
			ours := f.At.File == "larkfield-parts.yaml" && f.Code != "order-filled-up" || f.At.File == "stock.csv" || f.Code == "price-missing"
			if f.Level == diag.Error || ours {
				t.Errorf("%s: %s: %v: %s", sample, f.At, f.Level, f.Message)
			}
		}
		if p.Unit == nil {
			continue
		}
		if p.Purchase.Unpriced > 0 || p.Purchase.Wants > 0 || p.Purchase.Total <= 0 {
			t.Errorf("%s: %d lines and %d things have no price, %v in all", sample, p.Purchase.Unpriced, p.Purchase.Wants, p.Purchase.Total)
		}
		needed := map[string]int{}
		for _, l := range linesOf(&p.Purchase) {
			needed[l.ID] += l.Needed
		}
		for id, n := range hung(p) {
			if needed[id] != n {
				t.Errorf("%s: %d %s needed, and %d hang there", sample, needed[id], id, n)
			}
		}
	}
}

func linesOf(p *buy.Purchase) []buy.Line {
	lines := p.Held
	for _, o := range p.Orders {
		lines = append(lines[:len(lines):len(lines)], o.Lines...)
	}
	return lines
}

// hung counts the pieces of a unit that are not cut, and what they are put up
// with.
func hung(p *Project) map[string]int {
	count := map[string]int{}
	add := func(part *parts.Part) {
		if part.Cut == nil {
			count[part.ID]++
		}
		for _, f := range part.Fixed {
			count[f.Part] += f.Count
		}
	}
	add(p.Unit.Frame)
	add(p.Unit.Stand)
	for _, s := range p.Unit.Structure {
		if s.Bay > 0 {
			add(s.Part)
		}
	}
	for _, face := range p.Unit.Faces {
		for _, row := range face.Rows {
			for _, piece := range row.All() {
				add(piece.Part)
			}
		}
	}
	return count
}
