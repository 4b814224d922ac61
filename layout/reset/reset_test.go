package reset

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/unit"
)

// sample is a dressed unit of the samples.
func sample(t testing.TB, name string) *unit.Unit { return at(t, "../../samples/"+name) }

// at is the dressed unit of a folder.
func at(t testing.TB, dir string) *unit.Unit {
	t.Helper()
	p := layout.NewReader().Parse(os.DirFS(dir), "plan.yaml", must(os.ReadFile(dir+"/plan.yaml")))
	if p.Unit == nil {
		t.Fatalf("%s: %v", dir, p.Findings)
	}
	return p.Unit
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// dressed is a unit of a plan's text.
func dressed(t testing.TB, text string, files ...string) *unit.Unit {
	t.Helper()
	disk := fstest.MapFS{}
	for i := 0; i+1 < len(files); i += 2 {
		disk[files[i]] = &fstest.MapFile{Data: []byte(files[i+1])}
	}
	p := layout.NewReader().Parse(disk, "plan.yaml", []byte(text))
	if p.Unit == nil {
		t.Fatalf("no unit: %v\n%s", p.Findings, text)
	}
	return p.Unit
}

// paired is Make without the order of the work.
func paired(old, new *unit.Unit, o Options) *Reset {
	r := &Reset{Old: old, New: new, Rebuild: o.Rebuild}
	r.compare()
	if len(r.Differences) == 0 || o.Rebuild {
		r.match()
	}
	return r
}

// dump is a reset as text: what becomes of each piece and each facing.
func (r *Reset) dump() string {
	var b strings.Builder
	for _, d := range r.Differences {
		fmt.Fprintf(&b, "differs: %v\n", d)
	}
	for _, f := range r.Findings {
		fmt.Fprintf(&b, "%v %s: %s\n", f.Level, f.Code, f.Message)
	}
	names := [...]string{"stay", "slide", "ride", "rehang", "fetch", "return"}
	place := func(p *Place) string {
		if p == nil {
			return "stock"
		}
		return fmt.Sprintf("%s x %s", p.Row.Address, p.Piece.X.Text(r.New.Plan.Measure))
	}
	for _, it := range r.Items {
		fmt.Fprintf(&b, "%s %-6s %-14s %s", it.Way.Mark(), names[it.Way], it.Part.ID, place(it.From))
		if it.Way != Stay {
			fmt.Fprintf(&b, " -> %s", place(it.To))
		} else if it.From.Row.Address != it.To.Row.Address {
			fmt.Fprintf(&b, " = %s", it.To.Row.Address)
		}
		fmt.Fprintf(&b, " %d s\n", it.Seconds)
	}
	spot := func(s *Spot) string {
		if s == nil {
			return "stock"
		}
		return fmt.Sprintf("%s (%d)", s.Position.Address, s.Front.Units)
	}
	for _, f := range r.Facings {
		fmt.Fprintf(&b, "%s %-6s %-14s %s -> %s stock %+d %d s\n", f.Way.Mark(), names[f.Way], f.Product.SKU, spot(f.From), spot(f.To), f.Stock, f.Seconds)
	}
	fmt.Fprintf(&b, "handling %d s\n", r.Handling())
	return b.String()
}
