package reset_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/unit"
)

// wares are goods of every form, light and heavy.
const wares = `sku,name,family,form,width,height,depth,weight,case
SEED,Seeds,A,peg,3,4,0.5,0.1,12
CARD,Cards,A,peg,4.5,6,0.25,0.2,10
TOOL,Trowel,A,loop,3,12,2,1.5,6
LAMP,Lantern,A,loop,6,9,4,4,2
TIN,Tea tin,B,stand,3.5,5,3.5,0.7,12
POT,Pot,B,stand,7,7,7,5,4
JAR,Honey,B,stand,3,4,3,1.2,12
BOOT,Boots,B,boxed,5,4.5,11,3,4
SHIRT,Shirt,C,fold,9,1,11,0.6,6
COAT,Raincoat,C,hanger,17,28,1,1.5,4
SCARF,Scarf,C,loop,3,20,1,0.4,6
BALL,Wool,D,loose,4,4,4,0.3,10
`

// bareUnits are the units that random plans dress, and what hangs on them.
var bareUnits = []struct {
	name, unit string
	faces      []string
	bays       int
	menu       []string
}{
	{"a shared spine on casters", "{frame: gondola-h-48, stand: casters-locking, panels: {front: grid-24x60, right: grid-24x60, left: grid-24x60}}",
		[]string{"front", "right", "back", "left"}, 2, gridMenu},
	{"a box of slatwall", "{frame: gondola-box-48, stand: levellers, panels: {front: slat-24x60, back: slat-24x60, left: slat-24x60}}",
		[]string{"front", "back", "left"}, 2, slatMenu},
	{"a tower of pegboard", "{frame: tower-24, stand: casters-locking, panels: {front: peg-24x60, right: peg-24x60, back: peg-24x60, left: peg-24x60}}",
		[]string{"front", "right", "back", "left"}, 1, pegMenu},
	{"a wall of standards", "{frame: wall-run, stand: fixed, bays: 3, panels: {front: std-24x84}}", []string{"front"}, 3, stdMenu},
	{"a low shared spine of slatwall", "{frame: gondola-h-48, stand: fixed, panels: {front: slat-24x60}}", []string{"front", "back"}, 2, slatMenu},
}

// Rows that random plans choose from.
var (
	gridMenu = []string{"use: hook-6, goods: [SEED, CARD]", "use: hook-6, goods: {SEED: 2, TOOL: 1}", "use: hook-8, goods: [LAMP]", "use: hook-8, count: 3",
		"use: shelf-24x12, goods: [TIN, JAR]", "use: shelf-24x12, with: [strip-ticket], goods: {POT: 2}", "use: bullnose-24x13, with: [strip-ticket], goods: [JAR, BOOT]",
		"use: bullnose-24x13, goods: [SHIRT]", "use: slope-24, goods: [TIN]", "use: basket-24, goods: [BALL]", "use: bar-belt-22, goods: [SCARF]",
		"use: face-out-12, goods: [COAT]", "use: rail-u-24, goods: [COAT]", "use: shelf-shoe, goods: [BOOT]", "use: sign-11x7", "use: shelf-24x12, with: [sign-11x7], goods: {TIN: 3}"}
	slatMenu = []string{"use: hook-6-slat, goods: [SEED, CARD]", "use: hook-6-slat, goods: {SEED: 2, TOOL: 1}", "use: hook-8-slat, goods: [LAMP]",
		"use: shelf-24x12, goods: [TIN, JAR]", "use: shelf-24x12, with: [strip-ticket], goods: {POT: 2}", "use: bullnose-24x13, goods: [JAR, BOOT]",
		"use: face-out-12-slat, goods: [COAT]", "use: rail-u-24-slat, goods: [COAT]", "use: basket-24-slat, goods: [BALL]", "use: sign-11x7-slat"}
	pegMenu = []string{"use: hook-6-peg, goods: [SEED, CARD]", "use: hook-4-peg, goods: {SEED: 2, TOOL: 1}", "use: hook-8-peg, goods: [LAMP]",
		"use: shelf-24x12, goods: [TIN, JAR]", "use: shelf-24x12, with: [strip-ticket], goods: {POT: 2}", "use: basket-12-peg, goods: [BALL]", "use: sign-11x7-peg"}
	stdMenu = []string{"use: shelf-24x12, goods: [TIN, JAR]", "use: shelf-24x12, with: [strip-ticket], goods: {POT: 2}", "use: bullnose-24x13, goods: [JAR, BOOT]",
		"use: rail-24-std, goods: [COAT]", "use: face-out-12-std, goods: [COAT]"}
)

// randomPlan dresses the bare unit of that number at random, each face with at
// most so many rows.
func randomPlan(rng *rand.Rand, bare, rows int) string {
	of := &bareUnits[bare]
	var b strings.Builder
	fmt.Fprintf(&b, "plan: 1\ntitle: Random\nmeasure: in\ngoods: [wares.csv]\nunit: %s\ndress:\n", of.unit)
	for i, face := range of.faces {
		if i > 0 && rng.IntN(6) == 0 {
			continue
		}
		if face == "back" && rng.IntN(3) == 0 {
			b.WriteString("  back: {same: front}\n")
			continue
		}
		fmt.Fprintf(&b, "  %s:\n", face)
		for range 1 + rng.IntN(rows) {
			fmt.Fprintf(&b, "    - {%s", of.menu[rng.IntN(len(of.menu))])
			if of.bays > 1 && (face == "front" || face == "back") {
				fmt.Fprintf(&b, ", bay: %d", 1+rng.IntN(of.bays))
			}
			switch rng.IntN(3) {
			case 0:
				fmt.Fprintf(&b, ", near: %din", 12+rng.IntN(48))
			case 1:
				fmt.Fprintf(&b, ", repeat: 2")
			}
			if rng.IntN(5) == 0 {
				b.WriteString(", align: left")
			}
			b.WriteString("}\n")
		}
	}
	return b.String()
}

// randomUnits dresses a bare unit in so many ways that can be built, some of them
// small variations of another.
func randomUnits(t testing.TB, rng *rand.Rand, bare, n, rows int) []*unit.Unit {
	t.Helper()
	disk := fstest.MapFS{"wares.csv": {Data: []byte(wares)}}
	reader := layout.NewReader()
	var list []*unit.Unit
	last := ""
	for tries := 0; len(list) < n; tries++ {
		if tries > 60*n {
			t.Fatalf("%s: only %d of %d random plans can be built", bareUnits[bare].name, len(list), tries)
		}
		text := randomPlan(rng, bare, rows)
		if last != "" && rng.IntN(3) == 0 {
			text = varied(rng, last, bare)
		}
		p := reader.Parse(disk, "plan.yaml", []byte(text))
		if p.Unit == nil || !buildable(p.Findings) {
			continue
		}
		last = text
		list = append(list, p.Unit)
	}
	return list
}

// varied changes one row of a plan.
func varied(rng *rand.Rand, text string, bare int) string {
	lines := strings.Split(text, "\n")
	for range 20 {
		i := rng.IntN(len(lines))
		if !strings.Contains(lines[i], "- {use") {
			continue
		}
		menu := bareUnits[bare].menu
		tail := ""
		if at := strings.Index(lines[i], ", bay:"); at >= 0 {
			tail = strings.TrimSuffix(lines[i][at:], "}")
		}
		lines[i] = "    - {" + menu[rng.IntN(len(menu))] + tail + "}"
		break
	}
	return strings.Join(lines, "\n")
}

// buildable says whether nothing that was found concerns where things are.
func buildable(found diag.List) bool {
	for _, f := range found.All() {
		switch {
		case f.Level == diag.Error:
			return false
		case f.Level != diag.Stop:
		case strings.HasPrefix(f.Code, "tip"), strings.Contains(f.Code, "load"), strings.Contains(f.Code, "sag"):
		default:
			return false
		}
	}
	return true
}

// sampleUnit is a dressed unit of the samples.
func sampleUnit(t testing.TB, name string) *unit.Unit {
	t.Helper()
	p := layout.Load(os.DirFS("../../samples/"+name), "plan.yaml")
	if p.Unit == nil {
		t.Fatalf("%s: %v", name, p.Findings)
	}
	return p.Unit
}
