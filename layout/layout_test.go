package layout

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"setwright/layout/diag"
)

const (
	smallPlan = `plan: 1
title: Small gondola
parts: [ours.yaml]
goods: [data/goods.csv]
unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}}
dress: {front: [{use: our-hook, bay: 1, at: 57in, goods: [SEED]}]}
`
	smallParts = "parts:\n  our-hook: {like: hook-6, name: Our own hook}\n"
	smallGoods = "sku,name,form,width (in),height (in),depth (in),image\nSEED,Seeds,peg,3.25,4.5,0.1,seed.png\n"
)

// files is a plan's folder; a pair of name and text replaces or adds a file.
func files(pairs ...string) fstest.MapFS {
	fsys := fstest.MapFS{}
	add := func(name, text string) { fsys[name] = &fstest.MapFile{Data: []byte(text)} }
	add("plan.yaml", smallPlan)
	add("ours.yaml", smallParts)
	add("data/goods.csv", smallGoods)
	add("data/seed.png", string(encoded("png", 30, 20, 255)))
	for i := 0; i < len(pairs); i += 2 {
		add(pairs[i], pairs[i+1])
	}
	return fsys
}

// encoded is a picture of one colour, of that opacity.
func encoded(kind string, width, height int, alpha uint8) []byte {
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for i := range width * height {
		img.SetNRGBA(i%width, i/width, color.NRGBA{200, 100, 0, alpha})
	}
	var out bytes.Buffer
	if kind == "png" {
		png.Encode(&out, img)
	} else {
		jpeg.Encode(&out, img, nil)
	}
	return out.Bytes()
}

func told(p *Project) string {
	var b strings.Builder
	p.Findings.WriteText(&b)
	return b.String()
}

func TestLoad(t *testing.T) {
	p := Load(files(), "plan.yaml")
	if p.Unit == nil || p.Findings.Has(diag.Error) || p.Findings.Has(diag.Stop) {
		t.Fatalf("a sound plan:\n%s", told(p))
	}
	if diff := cmp.Diff([]string{"plan.yaml", "ours.yaml", "data/goods.csv", "data/seed.png"}, p.Files); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
	if p.Unit.Faces[0].Rows[0].Part.Name != "Our own hook" {
		t.Error("the house list was not used")
	}
	if p.Image("data/seed.png") == nil || p.Image("seed.png") != nil {
		t.Error("an image is named from its goods file, and known from the plan's folder")
	}
}

// TestReport wants what the checks found among the findings, and no report
// without a unit.
func TestReport(t *testing.T) {
	p := Load(files(), "plan.yaml")
	if p.Report.Assessment == nil || len(p.Report.Findings) == 0 {
		t.Fatalf("a unit on casters: %+v", p.Report)
	}
	for _, f := range p.Report.Findings {
		if !slices.ContainsFunc(p.Findings.All(), func(g diag.Finding) bool { return g.Code == f.Code && g.Message == f.Message }) {
			t.Errorf("not among the findings: %s", f.Message)
		}
	}
	if p := Load(files("data/goods.csv", ""), "plan.yaml"); p.Report.Assessment != nil || p.Report.Findings != nil {
		t.Errorf("without a unit: %+v", p.Report)
	}
}

// TestUnknownRules wants rules that there are not reported with their nearest.
func TestUnknownRules(t *testing.T) {
	p := Load(files("plan.yaml", smallPlan+"rules:\n  - {castors-locked: off, because: no wheels}\n  - {xyzzy: on}\n  - {casters-locked: on}\n"), "plan.yaml")
	var got []string
	for _, f := range p.Findings.All() {
		got = append(got, f.At.String()+" "+f.Code+" "+f.Fix)
	}
	want := []string{`plan.yaml:8:6 unknown-rule write "casters-locked"`, "plan.yaml:9:6 unknown-rule "}
	if diff := cmp.Diff(want, got); diff != "" || p.Unit != nil {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestFingerprint(t *testing.T) {
	first := Load(files(), "plan.yaml").Fingerprint
	for _, c := range []struct {
		name, text string
		same       bool
		reason     string
	}{
		{"plan.yaml", smallPlan, true, "nothing changed"},
		{"other.csv", "x", true, "a file the plan does not name"},
		{"plan.yaml", smallPlan + "# seen\n", false, "the plan's text is what was approved, comments too"},
		{"ours.yaml", smallParts + "\n", false, "a parts list changed"},
		{"data/goods.csv", smallGoods + "\n", false, "a goods file changed"},
	} {
		if got := Load(files(c.name, c.text), "plan.yaml").Fingerprint; (got == first) != c.same {
			t.Errorf("%s: fingerprint %s, at first %s: %s", c.name, got, first, c.reason)
		}
	}
}

// TestAllAtOnce wants the errors of every file in one run, and none that only
// follows from another.
func TestAllAtOnce(t *testing.T) {
	p := Load(files(
		"plan.yaml", strings.Replace(smallPlan, "title", "titel", 1),
		"ours.yaml", "parts:\n  our-hook: {like: hok-6}\n",
		"data/goods.csv", strings.Replace(smallGoods, "peg", "pegg", 1),
	), "plan.yaml")
	var got []string
	for _, f := range p.Findings.All() {
		got = append(got, f.At.String()+" "+f.Code)
	}
	want := []string{
		"data/goods.csv:2:12 bad-word",
		"ours.yaml:2:20 unknown-part",
		"plan.yaml:1:1 missing-key",
		"plan.yaml:2:1 unknown-key",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("findings (-want +got):\n%s\n%s", diff, told(p))
	}
	if p.Unit != nil {
		t.Error("a unit in spite of errors")
	}
}

// TestNoFrame wants what rows ask for looked up even where there is no unit.
func TestNoFrame(t *testing.T) {
	text := strings.Replace(smallPlan, "gondola-h-48", "gondola", 1)
	text = strings.Replace(text, "[SEED]}", "[SEAD]}, {use: shelf-24x12, with: [hook-6], goods: [SEED]}, {use: hok-6}", 1)
	var got []string
	p := Load(files("plan.yaml", text), "plan.yaml")
	for _, f := range p.Findings.All() {
		got = append(got, f.At.String()+" "+f.Code)
	}
	want := []string{
		"plan.yaml:5:15 unknown-part", // the frame
		"plan.yaml:6:59 unknown-goods",
		"plan.yaml:6:93 wrong-kind",
		"plan.yaml:6:124 unknown-part",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("findings (-want +got):\n%s\n%s", diff, told(p))
	}
}

func TestParse(t *testing.T) {
	p := Parse(files(), "stdin", []byte(smallPlan))
	if p.Unit == nil {
		t.Fatal(told(p))
	}
	p = Parse(files(), "stdin", bytes.Repeat([]byte("#"), PlanLimit+1))
	if p.Unit != nil || !p.Findings.Has(diag.Error) {
		t.Error("a plan without end was taken")
	}
}

// TestImages wants pictures kept as fine as the largest front of any product
// that names them can show, or as their files are.
func TestImages(t *testing.T) {
	const head = "sku,name,form,width (in),height (in),depth (in),image\n"
	for _, c := range []struct {
		goods         string
		width, height int
		reason        string
	}{
		{"SEED,Seeds,peg,4,8,0.1,seed.png\n", 200, 300, "50 to an inch across; the shape stays"},
		{"SEED,Seeds,peg,20,10,0.1,seed.png\n", 333, 500, "50 to an inch up"},
		{"SEED,Seeds,peg,1,1,0.1,seed.png\n", 107, 160, "small goods have 160 each way"},
		{"SEED,Seeds,peg,4,8,0.1,\nMORE,More,peg,9,9,0.1,seed.png\n", 107, 160, "a product that is not on the unit"},
		{"SEED,Seeds,peg,20,40,0.1,seed.png\n", 600, 900, "all that the file has"},
		{"MORE,More,peg,9,9,0.1,seed.png\nSEED,Seeds,peg,4,8,0.1,seed.png\n", 200, 300, "named by two, the second of which is on the unit"},
	} {
		p := Load(files("data/goods.csv", head+c.goods, "data/seed.png", string(encoded("png", 600, 900, 255))), "plan.yaml")
		if p.Unit == nil {
			t.Errorf("%s:\n%s", c.reason, told(p))
			continue
		}
		config, _, err := image.DecodeConfig(bytes.NewReader(p.Image("data/seed.png").Fit(2000, 2000)))
		if err != nil || config.Width != c.width || config.Height != c.height {
			t.Errorf("%s: %d by %d pixels (%v), want %d by %d", c.reason, config.Width, config.Height, err, c.width, c.height)
		}
	}
}

// TestImagesInOrder wants what is wrong with pictures told by product, and their
// files in that order, however many are read at once.
func TestImagesInOrder(t *testing.T) {
	text := "sku,name,form,width (in),height (in),depth (in),image\nSEED,Seeds,peg,3.25,4.5,0.1,seed.png\n"
	pairs := []string{"data/goods.csv", ""}
	want := []string{"plan.yaml", "ours.yaml", "data/goods.csv", "data/seed.png"}
	for i := range 40 {
		name := fmt.Sprintf("%02d.jpg", 39-i)
		text += fmt.Sprintf("P%02d,Product,peg,3,4,0.1,%s\n", i, name)
		want = append(want, "data/"+name)
		if i%3 > 0 {
			pairs = append(pairs, "data/"+name, string(encoded("jpeg", 90+i, 60, 255)[:300+200*(i%3)]))
		}
	}
	pairs[1] = text
	first := ""
	for range 5 {
		p := Load(files(pairs...), "plan.yaml")
		if diff := cmp.Diff(want, p.Files); diff != "" {
			t.Fatalf("files (-want +got):\n%s", diff)
		}
		if first == "" {
			first = told(p)
		}
		if got := told(p); got != first || strings.Count(got, "error:") < 25 {
			t.Fatalf("findings at first:\n%s\nthen:\n%s", first, got)
		}
	}
}

// FuzzLoad feeds the whole way in: whatever the files hold, it neither panics
// nor dresses a unit that has errors.
func FuzzLoad(f *testing.F) {
	f.Add(smallPlan, smallParts, smallGoods)
	f.Add(strings.Replace(smallPlan, "at: 57in", "near: 3ft, every: 2 1/2in, repeat: 3", 1), smallParts, smallGoods)
	f.Add(strings.Replace(smallPlan, "dress: {", "dress: {back: {same: front}, ", 1), "", strings.ReplaceAll(smallGoods, ",", ";"))
	f.Add(shelfPlan, shelfParts, shelfGoods)
	f.Add(strings.Replace(shelfPlan, "casters-locking", "fixed", 1), "", strings.Replace(shelfGoods, ",9,", ",0,", 1))
	f.Fuzz(func(t *testing.T, plan, parts, goods string) {
		p := Load(files("plan.yaml", plan, "ours.yaml", parts, "data/goods.csv", goods), "plan.yaml")
		if (p.Unit == nil) != p.Findings.Has(diag.Error) {
			t.Errorf("unit: %v, findings:\n%s", p.Unit != nil, told(p))
		}
		for _, f := range p.Report.Findings {
			if said := f.Message + f.Fix; strings.Contains(said, "NaN") || strings.Contains(said, "Inf") || f.Source == "" {
				t.Errorf("%s: %s", f.Code, said)
			}
		}
	})
}

// A plan, parts and goods for which most of the checks have work.
const (
	shelfPlan = `plan: 1
title: Shelves
parts: [ours.yaml]
goods: [data/goods.csv]
unit: {frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}}
site: {aisle: 40in, ceiling: 9ft, deflectors: 8ft 9in}
rules: [{sag: off, because: tested}, {reach: on}]
dress:
  front: [{use: shelf-48x12, at: 54in, goods: [VASE]}, {use: rail-u-24, bay: 1, goods: [COAT]}, {use: slope-24, bay: 2, goods: [VASE]}]
  right: [{use: hook-12, goods: [SEED]}]
`
	shelfParts = "materials:\n  foam: {name: Foam, e: 1, long-term: 10, source: us}\n" +
		"parts:\n  shelf-48x12: {bend: {material: foam, thick: 1mm}, needs: {every: 48}}\n  casters-locking: {stand: {feet: 3, offset: 3}}\n"
	shelfGoods = "sku,name,form,width,height,depth,weight,breakable\n" +
		"VASE,Vase,stand,4,9,4,9,yes\nCOAT,Coat,hanger,15,22,2,3,\nSEED,Seeds,peg,3,4,0.1,0.1,no\n"
)
