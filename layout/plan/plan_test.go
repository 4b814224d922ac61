package plan_test

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"setwright/layout/diag"
	"setwright/layout/golden"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

const full = `plan: 1                                  # version of this file format
title: Spring gift gondola
season: Spring 2027
revision: B
date: 2027-02-15
by: Store design
measure: in
paper: tabloid
language: fr
aim: {for: profit, seconds: 10}
restock: 3
currency: $
tags: {width: 2-1/2in, height: 30mm}
parts: [larkfield-parts.yaml]
goods: spring-goods.csv
unit:
  name: Shop door gondola
  frame: gondola-h-48
  stand: casters-locking
  bays: 3
  panels: {left: grid-24x60, front: grid-24x60}
site: {aisle: 44in, ceiling: 10ft, deflectors: 9ft 6in}
rules:
  - {hook-eye: off, reach: off, because: "behind the counter, staff only"}
  - {sag: on}
dress:
  back: {same: front}
  right: []
  left:
    fill: [family: seeds]
    aim: range
    rows: [{use: hook-6, at: 57}]
  front:
    - use: hook-6
      label: seeds
      bay: 1
      at: 57in
      count: 4
      every: 150mm
      gap: 1/2
      align: center
      repeat: 2
      with: [strip-ticket, sign-11x7]
      goods: {SEED-TOM: 2, SEED-BAS: 1}
    - {use: shelf-48x12, bay: 1-2, near: 42, goods: [TEA, 0012]}
    - {use: rail-u-24}
    - {use: hook-2, fill: {family: labels}}
    - {fill: [family: tea and coffee, HONEY], bay: 2}
`

func TestDecode(t *testing.T) {
	var found diag.List
	got := plan.Decode("plan.yaml", []byte(full), &found)
	if found.Len() > 0 {
		t.Fatalf("findings: %v", found.All())
	}
	in := measure.Inch
	ref := func(name string) plan.Ref { return plan.Ref{Name: name} }
	want := &plan.Plan{
		File: "plan.yaml", Text: []byte(full),
		Title: "Spring gift gondola", Season: "Spring 2027", Revision: "B", Date: "2027-02-15", By: "Store design",
		Paper: "tabloid", Aim: plan.Profit, AimSeconds: 10, Lift: plan.DefaultLift, Restock: 3, Language: "fr",
		Currency: "$", Tags: &plan.Tags{Width: 5 * in / 2, Height: 30 * measure.Millimetre},
		PartsFiles: []plan.Ref{ref("larkfield-parts.yaml")}, GoodsFiles: []plan.Ref{ref("spring-goods.csv")},
		Unit: plan.Unit{Name: "Shop door gondola", Frame: ref("gondola-h-48"), Stand: ref("casters-locking"), Bays: 3,
			Panels: []plan.FacePanel{{Face: plan.Front, Panel: ref("grid-24x60")}, {Face: plan.Left, Panel: ref("grid-24x60")}}},
		Site: plan.Site{Aisle: 44 * in, Ceiling: 120 * in, Deflectors: 114 * in, Sprinklers: true, Given: true},
		Rules: []plan.RuleSetting{
			{ID: ref("hook-eye"), Off: true, Because: "behind the counter, staff only"},
			{ID: ref("reach"), Off: true, Because: "behind the counter, staff only"},
			{ID: ref("sag")},
		},
		Dress: []plan.Dress{
			{Face: plan.Front, Rows: []plan.Row{
				{Use: ref("hook-6"), Label: "seeds", BayFrom: 1, BayTo: 1, At: &plan.Height{From: 57 * in}, Count: 4,
					Every: 150 * measure.Millimetre, Gap: in / 2, Align: plan.AlignCenter, Repeat: 2,
					With:  []plan.Ref{ref("strip-ticket"), ref("sign-11x7")},
					Goods: []plan.Facings{{SKU: ref("SEED-TOM"), Fronts: 2}, {SKU: ref("SEED-BAS"), Fronts: 1}}},
				{Use: ref("shelf-48x12"), BayFrom: 1, BayTo: 2, Near: &plan.Height{From: 42 * in}, Align: plan.Spread, Repeat: 1,
					Goods: []plan.Facings{{SKU: ref("TEA")}, {SKU: ref("0012")}}},
				{Use: ref("rail-u-24"), Align: plan.Spread, Repeat: 1},
				{Use: ref("hook-2"), Align: plan.Spread, Repeat: 1, Fill: &plan.Fill{Goods: []plan.FillGoods{{Family: "labels"}}}},
			}, Fill: []plan.Fill{{Goods: []plan.FillGoods{{Family: "tea and coffee"}, {SKU: "HONEY"}}, BayFrom: 2, BayTo: 2}}},
			{Face: plan.Right},
			{Face: plan.Back, Same: plan.Front},
			{Face: plan.Left, Rows: []plan.Row{{Use: ref("hook-6"), At: &plan.Height{From: 57 * in}, Align: plan.Spread, Repeat: 1}},
				Fill: []plan.Fill{{Goods: []plan.FillGoods{{Family: "seeds"}}, Aim: plan.Range}}},
		},
	}
	if diff := cmp.Diff(want, got, cmpopts.IgnoreTypes(diag.Span{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// TestSpansPointAtTheWord cuts what each span covers out of the file.
func TestSpansPointAtTheWord(t *testing.T) {
	var found diag.List
	p := plan.Decode("plan.yaml", []byte(full), &found)
	lines := strings.Split(full, "\n")
	row := p.Dress[0].Rows[0]
	for _, c := range []struct {
		at   diag.Span
		want string
	}{
		{p.Tags.At, "{"},
		{p.GoodsFiles[0].At, "spring-goods.csv"},
		{p.Unit.Frame.At, "gondola-h-48"},
		{row.Use.At, "hook-6"},
		{p.Rules[1].ID.At, "reach"},
		{row.BayAt, "1"},
		{row.At.At, "57in"},
		{row.CountAt, "4"},
		{row.EveryAt, "150mm"},
		{row.With[1].At, "sign-11x7"},
		{row.Goods[1].SKU.At, "SEED-BAS"},
		{p.Dress[0].Rows[1].Goods[1].SKU.At, "0012"},
		{p.Dress[2].At, "front"},
	} {
		line := []rune(lines[c.at.Line-1])
		if got := string(line[c.at.Col-1 : c.at.Col-1+c.at.Len]); got != c.want {
			t.Errorf("the span of %q covers %q", c.want, got)
		}
	}
}

func TestDefaults(t *testing.T) {
	for _, c := range []struct{ measure, paper, reason string }{
		{"in", "letter", "inches go with letter paper"},
		{"mm", "a4", "millimetres go with A4"},
	} {
		var found diag.List
		p := plan.Decode("p", []byte("plan: 1\ntitle: T\nmeasure: "+c.measure+"\nunit: {frame: f, stand: s, panels: {front: p}}\n"), &found)
		if found.Len() > 0 || p.Paper != c.paper || p.Language != "en" || p.Measure.String() != c.measure {
			t.Errorf("%s: paper %s, language %s, %v: %s", c.measure, p.Paper, p.Language, found.All(), c.reason)
		}
	}
}

// TestTags reads tags of every size that may be and some that may not.
func TestTags(t *testing.T) {
	const head = "plan: 1\ntitle: T\nunit: {frame: f, stand: s, panels: {front: p}}\n"
	for _, c := range []struct {
		more   string
		sound  bool
		reason string
	}{
		{"tags: {width: 25mm, height: 12mm}", true, "the smallest"},
		{"tags: {width: 24.9mm, height: 1/2in}", false, "narrower"},
		{"tags: {width: 1in, height: 11.9mm}", false, "lower"},
		{"tags: {width: 6.5in, height: 7in}", true, "the largest on letter paper"},
		{"tags: {width: 6.501in, height: 7in}", false, "wider"},
		{"tags: {width: 6.501in, height: 7in}\npaper: tabloid", true, "not wider on tabloid, named after it"},
		{"tags: {width: 60, height: 30}\nmeasure: mm", true, "bare millimetres"},
		{"tags: {width: 60, height: 30}", false, "bare inches"},
		{"tags: {width: 2in}", false, "no height"},
		{"tags: {width: 2in, height: 1in, depth: 1in}", false, "a side too many"},
		{"tags: 2in", false, "no mapping"},
	} {
		var found diag.List
		p := plan.Decode("p.yaml", []byte(head+c.more+"\n"), &found)
		if sound := found.Len() == 0 && p.Tags != nil; sound != c.sound {
			t.Errorf("%s: %+v, %v", c.reason, p.Tags, found.All())
		}
	}
}

// TestRules reads the shapes in which rules may be set.
func TestRules(t *testing.T) {
	const head = "plan: 1\ntitle: T\nunit: {frame: f, stand: s, panels: {front: p}}\n"
	for _, c := range []struct{ rules, want, reason string }{
		{``, ``, "nothing set"},
		{`rules: {sag: off, because: "tested"}`, `sag off: tested`, "one mapping"},
		{`rules: {because: tested, sag: "OFF"}`, `sag off: tested`, "the reason first; quoted, in capitals"},
		{"rules:\n  - {sag: off, because: a}\n  - {reach: off, because: b}", `sag off: a; reach off: b`, "a list, each with its reason"},
		{`rules: {sag: off, reach: off, because: both}`, `sag off: both; reach off: both`, "one reason for two"},
		{`rules: [{sag: on}]`, `sag on: `, "on needs no reason"},
		{`rules: {}`, ``, "an empty mapping"},
		{`rules: []`, ``, "an empty list"},
	} {
		var found diag.List
		p := plan.Decode("p.yaml", []byte(head+c.rules+"\n"), &found)
		var got []string
		for _, r := range p.Rules {
			word := "on"
			if r.Off {
				word = "off"
			}
			got = append(got, r.ID.Name+" "+word+": "+r.Because)
		}
		if s := strings.Join(got, "; "); s != c.want || found.Len() > 0 {
			t.Errorf("%s: %q, want %q; %v", c.reason, s, c.want, found.All())
		}
	}
}

// TestAllErrorsInOneRun reads wrong plans and compares everything said about
// them.
func TestAllErrorsInOneRun(t *testing.T) {
	golden.Each(t, "testdata/*.yaml", func(t *testing.T, name string, text []byte) string {
		var found diag.List
		plan.Decode(name, text, &found)
		found.Sort()
		var b strings.Builder
		if err := found.WriteText(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	})
}

func TestFingerprint(t *testing.T) {
	// SHA-256 of eight zero bytes, the length of an empty text, begins AF5570F5.
	if got := plan.Fingerprint([]byte{}); got != "AF55-70F5" {
		t.Errorf("an empty text gives %s", got)
	}
	a, b := []byte("ab"), []byte("c")
	if plan.Fingerprint(a, b) == plan.Fingerprint([]byte("a"), []byte("bc")) {
		t.Error("moving a letter to another file leaves the mark alone")
	}
	if again := plan.Fingerprint([]byte("ab"), []byte("c")); again != plan.Fingerprint(a, b) {
		t.Error("the same files give two marks")
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(full)
	for _, name := range []string{"wrong", "same", "tab", "anchors", "rules", "tags"} {
		text, err := os.ReadFile("testdata/" + name + ".yaml")
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	f.Fuzz(func(t *testing.T, text string) {
		var found diag.List
		p := plan.Decode("p.yaml", []byte(text), &found)
		if p == nil && !found.Has(diag.Error) {
			t.Fatalf("%q gives neither a plan nor an error", text)
		}
		for _, x := range found.All() {
			if x.At.File != "p.yaml" || x.At.Line < 0 || x.At.Col < 0 {
				t.Fatalf("%q: finding at %+v", text, x.At)
			}
		}
		if p == nil {
			return
		}
		for _, r := range p.Rules {
			if r.ID.Name == "" || r.Off && r.Because == "" && !found.Has(diag.Error) {
				t.Fatalf("%q: rule %+v", text, r)
			}
		}
		if s := p.Site; s.Deflectors > 0 && !s.Sprinklers && !found.Has(diag.Error) {
			t.Fatalf("%q: site %+v", text, s)
		}
		if tag := p.Tags; tag != nil && (tag.Width < 25*measure.Millimetre || tag.Height < 12*measure.Millimetre) {
			t.Fatalf("%q: tags %+v", text, tag)
		}
		for _, d := range p.Dress {
			for _, r := range d.Rows {
				if r.Repeat < 1 || r.BayFrom > r.BayTo || r.Count < 0 || r.Every < 0 {
					t.Fatalf("%q: row %+v", text, r)
				}
			}
		}
	})
}
