package check_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/layout"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
)

// sampleProjects loads every sample.
func sampleProjects(t *testing.T) map[string]*layout.Project {
	t.Helper()
	dir := filepath.Join("..", "..", "samples")
	plans, err := filepath.Glob(filepath.Join(dir, "*", "plan.yaml"))
	if err != nil || len(plans) == 0 {
		t.Fatal("no samples", err)
	}
	all := map[string]*layout.Project{}
	for _, path := range plans {
		all[filepath.Base(filepath.Dir(path))] = layout.Load(os.DirFS(filepath.Dir(path)), "plan.yaml")
	}
	return all
}

// TestSamplesStand wants every sample to be safe to build but the one that is
// there to show what is not.
func TestSamplesStand(t *testing.T) {
	all := sampleProjects(t)
	if !all["wrong"].Findings.Has(diag.Stop) {
		t.Error("the wrong gondola may be built")
	}
	delete(all, "wrong")
	for name, p := range all {
		for _, f := range p.Report.Findings {
			if f.Level >= diag.Stop {
				t.Errorf("%s: %s: %s", name, f.Code, f.Message)
			}
		}
	}
}

// TestEquilibrium wants what hangs on each face to be what its panels hold, what
// each shelf carries to be what holds it, and the whole weight to be on the
// feet and in the lists.
func TestEquilibrium(t *testing.T) {
	const gravity, near = 9.80665, 1e-6
	same := func(name, what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > near*max(1, math.Abs(want)) {
			t.Errorf("%s: %s %g, want %g", name, what, got, want)
		}
	}
	for name, p := range sampleProjects(t) {
		a := p.Report.Assessment
		var lift float64
		for _, f := range a.Faces {
			var held float64
			for _, panel := range a.Panels {
				if panel.Face == f.Face {
					held += panel.Load
				}
			}
			same(name, string(f.Face)+" panels hold", held, (f.Goods+f.Hardware)*gravity)
			same(name, string(f.Face)+" weighs", f.Full.Mass, f.Goods+f.Hardware)
			lift += f.Full.Mass*f.Full.Z - f.Bare.Mass*f.Bare.Z
		}
		same(name, "goods raise the centre by", lift, a.Full.Mass*a.Full.Z-a.Bare.Mass*a.Bare.Z)
		for _, s := range a.Shelves {
			var up float64
			for _, r := range s.Reaction {
				up += r
			}
			same(name, s.Row.Address+" is held by", up, s.Load)
			if s.Sag < 0 || len(s.Curve) == 0 || len(s.Others) != 2 || s.Others[1].Sag > s.Others[0].Sag {
				t.Errorf("%s: sag of %s: %+v", name, s.Row.Address, s)
			}
		}
		var stands float64
		for _, f := range a.Feet {
			stands += f.Load
		}
		if len(a.Feet) > 0 {
			same(name, "the feet carry", stands, a.Full.Mass*gravity)
		}
		sum := list.Summarize(p.Unit)
		same(name, "the lists weigh", float64(sum.Structure+sum.Hardware+sum.Goods)/float64(measure.Kilogram), a.Full.Mass)
	}
}

// TestTipCases wants every sample that stands by itself to be tried in every
// state over every edge, stocking never to help the bare unit on the side that
// is not stocked, and the force to follow from weight, arm and height.
func TestTipCases(t *testing.T) {
	a := sampleProjects(t)["spring"].Report.Assessment
	states := map[string]int{}
	for _, c := range a.Tips {
		states[c.State]++
		if want := c.Body.Mass * 9.80665 * c.Arm / 1400; math.Abs(c.Force1400-want) > 1e-6 {
			t.Errorf("%s: %g N at 1.4 m, want %g", c.State, c.Force1400, want)
		}
		if want := math.Atan2(c.Arm, c.Body.Z) * 180 / math.Pi; math.Abs(c.Tilt-want) > 1e-9 {
			t.Errorf("%s: tilt %g, want %g", c.State, c.Tilt, want)
		}
	}
	want := map[string]int{"full": 4, "bare": 4, "front first": 4, "right first": 4, "back first": 4, "left first": 4, "low shelves empty": 4}
	if diff := cmp.Diff(want, states); diff != "" {
		t.Errorf("states (-want +got):\n%s", diff)
	}
	for name, p := range sampleProjects(t) {
		if fixed := name == "books" || name == "tools" || name == "peg-end" || name == "photos"; fixed != (len(p.Report.Assessment.Tips) == 0) {
			t.Errorf("%s: %d tip cases", name, len(p.Report.Assessment.Tips))
		}
	}
}

// TestWaived wants a rule that is off to find nothing and to be listed with the
// plan's reason, and all others to find what they found.
func TestWaived(t *testing.T) {
	off := func(text string) string {
		return text + "rules:\n  - {sag: off, because: the maker tested it}\n  - {aisle: on, balance: off, because: the back is against a wall}\n"
	}
	before, after := wrongPlan(t, "plan.yaml", asItIs), wrongPlan(t, "plan.yaml", off)
	if diff := cmp.Diff([]check.Waiver{{Rule: "sag", Because: "the maker tested it"}, {Rule: "balance", Because: "the back is against a wall"}}, after.Report.Waived); diff != "" {
		t.Errorf("waived (-want +got):\n%s", diff)
	}
	var want []diag.Finding
	for _, f := range before.Report.Findings {
		if f.Code != "sag" && f.Code != "balance" {
			want = append(want, f)
		}
	}
	if diff := cmp.Diff(want, after.Report.Findings); diff != "" {
		t.Errorf("findings (-want +got):\n%s", diff)
	}
	if len(before.Report.Waived) > 0 {
		t.Errorf("nothing is off: %+v", before.Report.Waived)
	}
}

// TestHeavier wants the plan with goods a quarter heavier to find what was
// foretold, and nothing else to be new.
func TestHeavier(t *testing.T) {
	lighter := wrongPlan(t, "mended.yaml", asItIs)
	var foretold, got []string
	for _, n := range lighter.Report.Assessment.Heavier {
		foretold = append(foretold, n.Rule+" "+n.Level.String()+" "+strings.Join(n.Where, " ")+": "+n.Message)
	}
	for _, row := range lighter.Goods.All() {
		row.Weight = row.Weight * 5 / 4
	}
	for _, f := range check.Run(lighter.Unit).Findings {
		got = append(got, f.Code+" "+f.Level.String()+" "+strings.Join(f.Where, " ")+": "+f.Message)
	}
	if len(foretold) == 0 {
		t.Fatal("the mended gondola would bear any weight")
	}
	if diff := cmp.Diff(foretold, got); diff != "" {
		t.Errorf("foretold and found (-foretold +found):\n%s", diff)
	}
}

// TestAisleNarrowed wants what sticks out to narrow the aisle, by all of it, but
// not what is shorter than 24 in and leaves 32 in, or is over people's heads.
func TestAisleNarrowed(t *testing.T) {
	tests := []struct {
		reason, aisle, hooks string
		level                diag.Level
		found                bool
	}{
		{"12 1/4 in out of 48 1/4 in leaves 36 in", "48 1/4in", "hook-12", 0, false},
		{"of 44 1/4 in it leaves 32 in, over 21 in", "44 1/4in", "hook-12", 0, false},
		{"a sixteenth less is too little", "44 3/16in", "hook-12", diag.Caution, true},
		{"of 42 1/4 in it leaves 30 in", "42 1/4in", "hook-12", diag.Caution, true},
		{"a sixteenth less is no way past", "42 3/16in", "hook-12", diag.Stop, true},
	}
	for _, tt := range tests {
		p := wrongPlan(t, "plan.yaml", func(text string) string {
			return strings.Replace(strings.Replace(text, "aisle: 44in", "aisle: "+tt.aisle, 1), "use: hook-12", "use: "+tt.hooks, 1)
		})
		found := fired(p.Report, "aisle")
		if (len(found) > 0) != tt.found || tt.found && (found[0].Level != tt.level || len(found[0].Where) == 0) {
			t.Errorf("%s: %+v", tt.reason, found)
		}
	}
}

// TestSymmetric has the mended gondola on casters: both sides alike, so that its
// centre of gravity is in its middle, each caster carries a quarter and, with
// one off the floor, at most half; each edge is 3 in of inset and 1 in of
// swivel in from the base of 48 by 24 in, and one side first tips sooner.
func TestSymmetric(t *testing.T) {
	a := wrongPlan(t, "mended.yaml", func(text string) string {
		return strings.Replace(text, "stand: fixed", "stand: casters-locking", 1)
	}).Report.Assessment
	weight := a.Full.Mass * 9.80665
	if math.Abs(a.Full.X) > 1 || math.Abs(a.Full.Y) > 1 {
		t.Errorf("centre of gravity at %g, %g mm", a.Full.X, a.Full.Y)
	}
	for _, f := range a.Feet {
		if math.Abs(f.Load-weight/4) > weight/200 || math.Abs(f.OneOff-weight/2) > weight/100 {
			t.Errorf("a caster carries %g N, with one off the floor %g, of %g", f.Load, f.OneOff, weight)
		}
	}
	least := map[string]float64{}
	for _, c := range a.Tips {
		arm := 8 * 25.4
		if c.FromX == c.ToX {
			arm = 20 * 25.4
		}
		if c.State == "full" && math.Abs(c.Arm-arm) > 1 {
			t.Errorf("the arm over the edge from %g, %g is %g mm, want %g", c.FromX, c.FromY, c.Arm, arm)
		}
		if tilt, known := least[c.State]; !known || c.Tilt < tilt {
			least[c.State] = c.Tilt
		}
	}
	if least["front first"] >= least["full"] || math.Abs(least["front first"]-least["back first"]) > 0.1 {
		t.Errorf("least tilts: %v", least)
	}
}
