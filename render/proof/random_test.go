package proof

import (
	"fmt"
	"math/rand"
	"strconv"
	"strings"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/diag"
)

// outfit is a frame with panels for its faces, and what can hang on them.
type outfit struct {
	frame, stand, panel string
	faces               []string
	bays                int // of front and back
	hooks, others       []string
}

var outfits = []outfit{
	{"gondola-h-48", "casters-locking", "grid-24x60", []string{"front", "right", "back", "left"}, 2,
		[]string{"hook-2", "hook-4", "hook-6", "hook-8", "hook-12"},
		[]string{"shelf-24x12", "slope-24", "basket-24", "rail-u-24", "face-out-12", "face-out-step-14", "bar-belt-22", "shelf-shoe", "sign-11x7"}},
	{"gondola-box-48", "levellers", "grid-24x84", []string{"front", "right", "back", "left"}, 2,
		[]string{"hook-4", "hook-8"}, []string{"shelf-48x12", "slope-48", "bullnose-48x13", "basket-12", "rail-u-24"}},
	{"tower-24", "casters-locking", "slat-24x60", []string{"front", "right", "back", "left"}, 1,
		[]string{"hook-4-slat", "hook-10-slat"}, []string{"shelf-24x12", "face-out-12-slat", "shelf-shoe-slat", "sign-11x7-slat"}},
	{"wall-run", "fixed", "peg-24x48", []string{"front"}, 4,
		[]string{"hook-2-peg", "hook-6-peg"}, []string{"shelf-24x12", "basket-12-peg", "sign-11x7-peg"}},
	{"wall-run", "levellers", "std-half-24x84", []string{"front"}, 3,
		[]string{"face-out-12-std"}, []string{"shelf-24x12", "rail-24-std", "bullnose-24x13"}},
}

// forms are goods that hang or stand on anything, small enough for most rows.
var forms = []string{"peg", "stand", "fold", "hanger", "loop", "boxed", "loose"}

// fixed are parts of the outfits with what they are put up with.
const fixed = `measure: in
parts:
  screw: {name: Screw, kind: fixing, weight: 0.01, pack: 100}
  clip: {name: Clip, kind: fixing, pack: 8}
  gondola-h-48: {fixed: {screw: 12}}
  levellers: {fixed: {screw: 4}}
  slat-24x60: {fixed: {screw: 6, clip: 2}}
  peg-24x48: {fixed: {screw: 8}}
  bracket-12: {fixed: {clip: 1}}
  basket-12-peg: {fixed: {clip: 2}}
  strip-ticket: {fixed: {clip: 3}}
`

// randomPlan writes a plan with random rows of random hardware, and its goods.
func randomPlan(r *rand.Rand) fstest.MapFS {
	o := outfits[r.Intn(len(outfits))]
	pick := func(list ...string) string { return list[r.Intn(len(list))] }
	var b, goods strings.Builder
	measure := pick("in", "in", "mm")
	fmt.Fprintf(&b, "plan: 1\ntitle: Chance %d\nseason: Any\nrevision: A\ndate: 2027-01-01\nby: Nobody\nmeasure: %s\npaper: %s\nlanguage: %s\nparts: [fixed.yaml]\ngoods: [goods.csv]\n",
		r.Intn(1000), measure, pick("letter", "tabloid", "a4", "a3"), pick("en", "es", "fr"))
	fmt.Fprintf(&b, "unit:\n  frame: %s\n  stand: %s\n", o.frame, o.stand)
	if o.frame == "wall-run" {
		o.bays = 1 + r.Intn(o.bays)
		fmt.Fprintf(&b, "  bays: %d\n", o.bays)
	}
	fmt.Fprintf(&b, "  panels: {front: %s", o.panel)
	for _, f := range o.faces[1:] {
		if f != "back" || o.frame != "gondola-h-48" {
			fmt.Fprintf(&b, ", %s: %s", f, o.panel)
		}
	}
	b.WriteString("}\n")
	if r.Intn(2) == 0 {
		fmt.Fprintf(&b, "site: {aisle: %din}\n", 30+r.Intn(50))
	}
	b.WriteString("dress:\n")
	goods.WriteString("sku,name,family,form,width (in),height (in),depth (in),weight (lb)\n")
	n := 0
	product := func() string {
		n++
		sku := fmt.Sprintf("P-%03d", n)
		fmt.Fprintf(&goods, "%s,%s %d,%s,%s,%.2f,%.2f,%.2f,0.1\n", sku, pick("Seeds", "Rake", "Very fine tin of tea", "Scarf"), n,
			pick("Plants", "Tools", "Food", "Wear"), forms[n%len(forms)], 1+3*r.Float64(), 2+5*r.Float64(), 1+2*r.Float64())
		return sku
	}
	for i, face := range o.faces {
		if i > 0 && r.Intn(3) == 0 {
			continue
		}
		rows, bays := 1+r.Intn(6), 1
		if face == "front" || face == "back" {
			bays = o.bays
		}
		fmt.Fprintf(&b, "  %s:\n", face)
		for range rows {
			use := pick(o.hooks...)
			if r.Intn(2) == 0 {
				use = pick(o.others...)
			}
			fmt.Fprintf(&b, "    - {use: %s", use)
			if bays > 1 && !strings.Contains(use, "48") && r.Intn(3) > 0 {
				b.WriteString(", bay: " + strconv.Itoa(1+r.Intn(bays)))
			}
			if r.Intn(3) == 0 {
				fmt.Fprintf(&b, ", count: %d", 1+r.Intn(4))
			}
			if r.Intn(4) == 0 {
				fmt.Fprintf(&b, ", align: %s", pick("left", "center", "right"))
			}
			if !strings.HasPrefix(use, "sign") {
				fmt.Fprintf(&b, ", goods: [%s", product())
				for range r.Intn(4) {
					b.WriteString(", " + product())
				}
				b.WriteString("]")
			}
			b.WriteString("}\n")
		}
	}
	return fstest.MapFS{"plan.yaml": {Data: []byte(b.String())}, "goods.csv": {Data: []byte(goods.String())}, "fixed.yaml": {Data: []byte(fixed)}}
}

// randomPlans returns so many plans that can be built; many others cannot.
func randomPlans(count int) (list []*plan) {
	for seed := int64(1); len(list) < count && seed < int64(10*count); seed++ {
		p := &plan{name: fmt.Sprintf("random/%d", seed), files: randomPlan(rand.New(rand.NewSource(seed)))}
		if project := layout.Load(p.files, "plan.yaml"); project.Unit != nil && !project.Findings.Has(diag.Stop) {
			list = append(list, p)
		}
	}
	return list
}
