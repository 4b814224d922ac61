package parts

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

func builtIn(t testing.TB) *List {
	t.Helper()
	list, err := BuiltIn()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func find(t testing.TB, list *List, id string) *Part {
	t.Helper()
	p, ok := list.Find(id)
	if !ok {
		t.Fatalf("there is no %s", id)
	}
	return p
}

// TestBuiltInIsWhole prints the built-in list, so that a change to it is seen.
func TestBuiltInIsWhole(t *testing.T) {
	var b strings.Builder
	for _, p := range builtIn(t).All() {
		fmt.Fprintf(&b, "%-22s %-9s %-40s %s\n", p.ID, p.Kind, p.Name, strings.Join(facts(p), ", "))
	}
	for _, m := range builtIn(t).Materials() {
		fmt.Fprintf(&b, "%-22s %-9s %-40s E %g N/mm², sag grows %g-fold\n", m.ID, "material", m.Name, m.E, m.LongTerm)
	}
	golden.Check(t, "testdata/builtin.txt", b.String())
}

// facts is what matters of a part, in inches and pounds.
func facts(p *Part) []string {
	in := func(l measure.Length) string { return strings.TrimSuffix(l.Text(measure.Inches), " in") }
	list := []string{fmt.Sprintf("%s x %s +%s -%s", in(p.Width), in(p.Depth), in(p.Above), in(p.Below)), p.Weight.Text(measure.Inches)}
	if p.Rated > 0 {
		list = append(list, "rated "+p.Rated.Text(measure.Inches))
	}
	for _, s := range p.Mounts {
		list = append(list, string(s))
	}
	if p.Usable > 0 {
		list = append(list, fmt.Sprintf("usable %s bearing %s lip %s", in(p.Usable), in(p.Bearing), in(p.Lip)))
	}
	if g := p.Grip; g.Slots > 0 {
		list = append(list, fmt.Sprintf("grip %d slots %d sides inset %s width %s shift %s", g.Slots, g.Sides, in(g.Inset), in(g.Width), in(g.Shift)))
	}
	if s := p.Bend; s != nil {
		list = append(list, fmt.Sprintf("%s EI %.4g N·mm² stop span/%d caution span/%d", s.Material.ID, s.Rigidity(p.Depth), s.Stop, s.Caution))
	}
	if p.Wire > 0 {
		list = append(list, "wire "+in(p.Wire))
	}
	if s := p.Stand; s != nil {
		list = append(list, fmt.Sprintf("%d feet offset %s inset %s", s.Feet, in(s.Offset), in(s.Inset)))
	}
	if s := p.Panel; s != nil {
		list = append(list, fmt.Sprintf("%s high, %d slots %s apart from %s", in(s.Height), s.Count, in(s.Pitch), in(s.First)))
	}
	return list
}

// TestBuiltInMakesSense holds every built-in part to what its kind means.
func TestBuiltInMakesSense(t *testing.T) {
	list := builtIn(t)
	for _, p := range list.All() {
		if p.Rated > 0 && !p.Assumed {
			t.Errorf("%s: a built-in rating is an assumption", p.ID)
		}
		if carries(p.Kind) && (p.Rated == 0 || p.Weight == 0) {
			t.Errorf("%s: no rating or weight", p.ID)
		}
		if p.Usable > p.Depth && p.Kind != Rail {
			t.Errorf("%s: usable %v is deeper than the part", p.ID, p.Usable)
		}
		if p.Bearing > p.Above || p.Bearing < -p.Below {
			t.Errorf("%s: goods bear outside of it", p.ID)
		}
		if p.Kind == Slope && p.Lip >= 0 {
			t.Errorf("%s: a slope falls to the front", p.ID)
		}
		for _, s := range p.Mounts {
			if n := p.Needs; n != nil && bracketOf(list, n.Reach, s) == nil {
				t.Errorf("%s: no %s bracket for %s", p.ID, n.Reach.Text(measure.Inches), s)
			}
		}
	}
}

// bracketOf is the bracket of a reach for a surface.
func bracketOf(list *List, reach measure.Length, s Surface) *Part {
	for _, p := range list.All() {
		if p.Kind == Bracket && p.Usable == reach && p.MountsOn(s) {
			return p
		}
	}
	return nil
}

// TestTradeFacts holds the list to common practice, which has no source.
func TestTradeFacts(t *testing.T) {
	list := builtIn(t)
	in := measure.Inch
	for _, height := range []int{48, 60, 72, 84, 96} {
		p := find(t, list, fmt.Sprintf("grid-24x%d", height))
		if p.Width != 24*in || p.Panel.Pitch != 3*in || p.Panel.Count != height/3+1 || p.Panel.First != 0 {
			t.Errorf("%s: %+v", p.ID, p.Panel)
		}
		if top := p.Panel.First + measure.Length(p.Panel.Count-1)*p.Panel.Pitch; top != p.Panel.Height {
			t.Errorf("%s: the top wire lies at %s", p.ID, top.Text(measure.Inches))
		}
	}
	for _, suffix := range []string{"", "-slat", "-peg"} {
		for _, length := range []int{2, 4, 6, 8, 10, 12} {
			p := find(t, list, fmt.Sprintf("hook-%d%s", length, suffix))
			if tip := measure.Length(length)*in - p.Usable; tip != in/2 {
				t.Errorf("%s: a tip of %s", p.ID, tip.Text(measure.Inches))
			}
		}
	}
	if n := find(t, list, "bullnose-48x13").Needs; n.Reach != 12*in || n.Every != 24*in {
		t.Errorf("a 13 in bullnose shelf takes 12 in brackets, not %+v", n)
	}
	if p := find(t, list, "rail-u-24"); p.Width != 24*in {
		t.Errorf("a U hang rail is as wide as a panel, not %s", p.Width.Text(measure.Inches))
	}
	// Casters and base put the lowest wire of a gondola at 6 in.
	stand, frame := find(t, list, "casters-locking").Stand, find(t, list, "gondola-h-48").Frame
	if bottom := stand.Height + frame.Base; bottom != 6*in || stand.Feet != 4 {
		t.Errorf("the lowest wire lies at %s on %d casters", bottom.Text(measure.Inches), stand.Feet)
	}
}

const house = `measure: mm
parts:
  hook-7:
    like: hook-6
    name: Peg hook 7 in
    depth: 7 1/4in
    usable: 165.1
  hook-6: {rated: 3kg}
  shelf-24x12: {pack: 6, needs: {every: 500}}
  hook-9: {like: hook-7, rated: 2, assumed: true}
`

func TestHouseList(t *testing.T) {
	base := builtIn(t)
	before := *find(t, base, "shelf-24x12")
	var found diag.List
	list := Load(base, "house.yaml", []byte(house), &found)
	if found.Len() > 0 {
		t.Fatalf("findings: %v", found.All())
	}
	hook := find(t, list, "hook-7")
	want := *find(t, base, "hook-6")
	want.ID, want.Name, want.Depth, want.Usable = "hook-7", "Peg hook 7 in", 29*measure.Inch/4, 13*measure.Inch/2
	if diff := cmp.Diff(want, *hook, cmpopts.IgnoreTypes(diag.Span{})); diff != "" {
		t.Errorf("a part like another differs in what is written only (-want +got):\n%s", diff)
	}
	if p := find(t, list, "hook-6"); p.Rated != 3*measure.Kilogram || p.Assumed || p.Name != "Peg hook 6 for wire grid" {
		t.Errorf("a house's own rating: %+v", p)
	}
	if p := find(t, list, "hook-9"); p.Rated != 2*measure.Kilogram || !p.Assumed {
		t.Errorf("an assumed rating: %+v", p)
	}
	if p := find(t, list, "shelf-24x12"); p.Pack != 6 || p.Needs.Every != 500*measure.Millimetre || p.Needs.Reach != 12*measure.Inch {
		t.Errorf("an override keeps the rest: %+v", p)
	}
	if diff := cmp.Diff(before, *find(t, base, "shelf-24x12")); diff != "" {
		t.Errorf("the base list changed:\n%s", diff)
	}
	ids := list.IDs()
	if tail := ids[len(ids)-2:]; len(ids) != len(base.IDs())+2 || tail[0] != "hook-7" || tail[1] != "hook-9" {
		t.Errorf("list order ends %v", tail)
	}
}

func TestAllErrorsInOneRun(t *testing.T) {
	base := builtIn(t)
	golden.Each(t, "testdata/*.yaml", func(t *testing.T, name string, text []byte) string {
		var found diag.List
		list := Load(base, name, text, &found)
		found.Sort()
		var b strings.Builder
		if err := found.WriteText(&b); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&b, "kept: %v\n", list.IDs()[len(base.IDs()):])
		return b.String()
	})
}

func FuzzLoad(f *testing.F) {
	f.Add(house)
	text, err := builtin.ReadFile("builtin/other.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(text))
	f.Add("parts: {f: {kind: frame, name: f, frame: {form: box, bays: 1, gap: 9}}, s: {kind: stand, name: s, stand: {form: fixed}}}")
	f.Add("materials: {mdf-black: {name: Black, e: 2700.5, long-term: 1.5, source: x}}\nparts: {shelf-24x12: {bend: {material: mdf-black}}, hook-6: {wire: 3mm}}")
	f.Add("materials: {m: {name: m, e: 1, source: x}}\nparts: {slope-24: {bend: {thick: 1, stop: 9}}, s: {like: shelf-shoe, bend: {ei: 1}}}")
	f.Add("parts: {a: {kind: panel, name: a, width: 1, panel: {surface: wire, pitch: 0, count: 9999}}}")
	f.Add(priced)
	f.Add(cutHouse)
	base := builtIn(f)
	f.Fuzz(func(t *testing.T, text string) {
		var found diag.List
		list := Load(base, "house.yaml", []byte(text), &found)
		checkBuying(t, list)
		for _, m := range list.Materials() {
			if m.Name == "" || m.Source == "" || !(m.E >= 1 && m.E <= maxE) || !(m.LongTerm >= 1) {
				t.Fatalf("%q: kept %+v", text, m)
			}
		}
		for _, p := range list.All() {
			if s := p.Bend; s != nil && (!(s.Rigidity(p.Depth) > 0) || s.Stop < 1 || s.Caution < s.Stop || s.EI > 0 && s.Thick > 0) {
				t.Fatalf("%q: kept %+v", text, s)
			}
			if p.PerFoot() < 0 || p.Wire < 0 {
				t.Fatalf("%q: kept %+v", text, p)
			}
			if p.Kind == "" || p.Name == "" || p.Pack < 1 || p.Above < 0 || p.Below < 0 {
				t.Fatalf("%q: kept %+v", text, p)
			}
			if s := p.Panel; (p.Kind == Panel) != (s != nil) || s != nil && (s.Pitch < minPitch || s.Count < 1 || s.Count > maxSlots) {
				t.Fatalf("%q: kept panel %+v", text, s)
			}
			if (p.Kind == Frame) != (p.Frame != nil) || (p.Kind == Stand) != (p.Stand != nil) {
				t.Fatalf("%q: kept %s without its section", text, p.Kind)
			}
			if carries(p.Kind) && (p.Width <= 0 || p.Depth <= 0 || p.Usable <= 0) {
				t.Fatalf("%q: kept %+v", text, p)
			}
		}
	})
}

func TestTakesAndRun(t *testing.T) {
	rail := find(t, builtIn(t), "rail-u-24")
	if !rail.Takes(goods.Hanger) || rail.Takes(goods.Peg) || rail.Run() != 23*measure.Inch {
		t.Errorf("a rail takes hangers over its length: %v, %d", rail.Holds, rail.Run())
	}
}

func BenchmarkBuiltIn(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := BuiltIn(); err != nil {
			b.Fatal(err)
		}
	}
}
