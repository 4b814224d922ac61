package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"setwright/layout"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/list"
	"setwright/layout/unit"
)

// The figures of README come from here: go test -run=- -bench=. ./cmd/setwright

var spring = filepath.Join(moduleRoot, "samples", "spring", "plan.yaml")

// BenchmarkSpring is the whole pipeline in process, from the plan's file to the
// bytes of its pack, with the collector set as main sets it.
func BenchmarkSpring(b *testing.B) {
	defer debug.SetGCPercent(debug.SetGCPercent(gcPercent))
	b.ReportAllocs()
	for b.Loop() {
		p, err := build(newSource(spring), nil, false)
		if err != nil || p.pdf == nil {
			b.Fatal("no pack: ", err)
		}
		b.ReportMetric(float64(len(p.pdf))/1000, "kB/pack")
		b.ReportMetric(float64(len(p.drawn.Sheets)), "sheets")
	}
}

// BenchmarkSpringResolve goes as far as the dressed and checked unit.
func BenchmarkSpringResolve(b *testing.B) {
	b.ReportAllocs()
	fsys := os.DirFS(filepath.Dir(spring))
	reader := layout.NewReader()
	for b.Loop() {
		if reader.Load(fsys, "plan.yaml").Unit == nil {
			b.Fatal("no unit")
		}
	}
}

// BenchmarkSpringLists makes the lists of the dressed unit, as CSV and as a
// workbook.
func BenchmarkSpringLists(b *testing.B) {
	project := layout.Load(os.DirFS(filepath.Dir(spring)), "plan.yaml")
	b.ReportAllocs()
	for b.Loop() {
		made, err := listTargets{csv: "lists", xlsx: "lists.xlsx"}.files(project, list.Tables(project.Unit, project.Cuts, project.Purchase))
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(made.files[len(made.files)-1].data.Len())/1000, "kB/workbook")
	}
}

// BenchmarkPartsList reads the built-in list, which a process does once.
func BenchmarkPartsList(b *testing.B) {
	for b.Loop() {
		layout.NewReader()
	}
}

// BenchmarkSpringProcess runs the built program, start to end.
func BenchmarkSpringProcess(b *testing.B) { benchmarkProcess(b, spring) }

// benchmarkProcess runs the built program on a plan, and returns the size of
// the pack.
func benchmarkProcess(b *testing.B, plan string) int64 {
	dir := b.TempDir()
	binary, pdf := filepath.Join(dir, "setwright.exe"), filepath.Join(dir, "pack.pdf")
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		b.Fatalf("go build: %v\n%s", err, out)
	}
	var peak int64
	for b.Loop() {
		cmd := exec.Command(binary, "sheets", plan, "-o", pdf)
		if out, err := cmd.CombinedOutput(); err != nil {
			b.Fatalf("%v\n%s", err, out)
		}
		peak = max(peak, peakMemory(cmd.ProcessState))
	}
	if peak > 0 {
		b.ReportMetric(float64(peak)/1e6, "MB-peak")
	}
	info, err := os.Stat(pdf)
	if err != nil {
		b.Fatal(err)
	}
	return info.Size()
}

// hooksPlan is a slatwall run with so many hooks, ten a row, ten rows a bay.
func hooksPlan(hooks int) fstest.MapFS {
	bays := max(hooks/100, 1)
	var text strings.Builder
	fmt.Fprintf(&text, "plan: 1\ntitle: %d hooks\nunit: {frame: wall-run, bays: %d, stand: fixed, panels: {front: slat-24x96}}\n", hooks, bays)
	fmt.Fprint(&text, "dress:\n  front:\n")
	for bay := range bays {
		for range min(hooks-100*bay, 100) / 10 {
			fmt.Fprintf(&text, "    - {use: hook-2-slat, bay: %d, count: 10}\n", bay+1)
		}
	}
	return fstest.MapFS{"plan.yaml": {Data: []byte(text.String())}}
}

// BenchmarkHooks shows how the cost of resolving grows with the hooks.
func BenchmarkHooks(b *testing.B) {
	for _, hooks := range []int{100, 1000, 10_000} {
		fsys := hooksPlan(hooks)
		b.Run(fmt.Sprint(hooks), func(b *testing.B) {
			for b.Loop() {
				if got := hooksOf(layout.Load(fsys, "plan.yaml")); got != hooks {
					b.Fatalf("%d hooks", got)
				}
			}
		})
	}
}

// checksPlan is a slatwall run of a hundred bays, each with nine rows of ten
// hooks and four shelves on two brackets, all of them full: 10,200 parts.
func checksPlan() fstest.MapFS {
	var text strings.Builder
	fmt.Fprint(&text, "plan: 1\ntitle: Many parts\ngoods: [goods.csv]\n"+
		"unit: {frame: wall-run, bays: 100, stand: fixed, panels: {front: slat-24x96}}\n"+
		"site: {aisle: 48in, ceiling: 12ft, deflectors: 11ft}\ndress:\n  front:\n")
	for bay := range 100 {
		for i := range 13 {
			switch {
			case i < 9:
				fmt.Fprintf(&text, "    - {use: hook-2-slat, bay: %d, count: 10, goods: {CARD: 10}}\n", bay+1)
			default:
				fmt.Fprintf(&text, "    - {use: shelf-24x12, bay: %d, count: 1, goods: {TIN: 4}}\n", bay+1)
			}
		}
	}
	return fstest.MapFS{
		"plan.yaml": {Data: []byte(text.String())},
		"goods.csv": {Data: []byte("sku,name,form,width (in),height (in),depth (in),weight (lb)\nCARD,Card,peg,2,2,0.2,0.05\nTIN,Tin,stand,4,4,4,0.5\n")},
	}
}

// partsOf counts the hardware of a unit, brackets and extras too.
func partsOf(u *unit.Unit) int {
	n := 0
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			n += len(row.Pieces) + len(row.Brackets) + len(row.Extras)
		}
	}
	return n
}

// checked is a unit to be judged, as large as it says.
func checked(tb testing.TB, p *layout.Project, least int) *unit.Unit {
	tb.Helper()
	if p.Unit == nil || partsOf(p.Unit) < least || p.Findings.Has(diag.Error) {
		var said strings.Builder
		p.Findings.WriteText(&said)
		tb.Fatalf("no unit of %d parts:\n%s", least, said.String())
	}
	return p.Unit
}

// BenchmarkChecks is the whole assessment and every rule on a dressed unit.
func BenchmarkChecks(b *testing.B) {
	b.Run("spring", func(b *testing.B) {
		benchChecks(b, checked(b, layout.Load(os.DirFS(filepath.Dir(spring)), "plan.yaml"), 50))
	})
	b.Run("10000", func(b *testing.B) {
		benchChecks(b, checked(b, layout.Load(checksPlan(), "plan.yaml"), 10_000))
	})
}

func benchChecks(b *testing.B, u *unit.Unit) {
	b.ReportAllocs()
	for b.Loop() {
		if check.Run(u).Assessment == nil {
			b.Fatal("no assessment")
		}
	}
	b.ReportMetric(float64(partsOf(u)), "parts")
}

// TestChecksAreQuick judges ten thousand parts, and leaves a slow machine ten
// times the time that is meant.
func TestChecksAreQuick(t *testing.T) {
	const bound = 10 * 200 * time.Millisecond
	u := checked(t, layout.Load(checksPlan(), "plan.yaml"), 10_000)
	start := time.Now()
	check.Run(u)
	if took := time.Since(start); took > bound {
		t.Errorf("judging %d parts took %v", partsOf(u), took)
	}
}

func hooksOf(p *layout.Project) int {
	if p.Unit == nil {
		return -1
	}
	n := 0
	for _, row := range p.Unit.Faces[0].Rows {
		n += len(row.Pieces)
	}
	return n
}

// TestManyHooks resolves ten thousand hooks, and leaves a slow machine ten times
// the time that is meant.
func TestManyHooks(t *testing.T) {
	const hooks, bound = 10_000, 10 * time.Second
	start := time.Now()
	p := layout.Load(hooksPlan(hooks), "plan.yaml")
	if got := hooksOf(p); got != hooks {
		var said strings.Builder
		p.Findings.WriteText(&said)
		t.Fatalf("%d hooks:\n%s", got, said.String())
	}
	if took := time.Since(start); took > bound {
		t.Errorf("%d hooks took %v", hooks, took)
	}
}

// yearPlans are the gondola samples, so many in all, one after another.
func yearPlans(n int) []string {
	samples := []string{"children", "spring", "shirts", "sweets", "boots"}
	paths := make([]string, n)
	for i := range paths {
		paths[i] = filepath.Join(moduleRoot, "samples", samples[i%len(samples)], "plan.yaml")
	}
	return paths
}

// yearHouse is what the house's parts cost and what it has on hand.
func yearHouse() house {
	dir := filepath.Join(moduleRoot, "samples", "year")
	return house{parts: filepath.Join(dir, "larkfield-parts.yaml"), stock: filepath.Join(dir, "stock.csv")}
}

// BenchmarkKit is a kit of twelve plans, once they are resolved: the kit itself,
// then with its tables and sheets.
func BenchmarkKit(b *testing.B) {
	all, err := readSeveral(yearPlans(12), yearHouse(), kit.Named, nil)
	if err != nil || all.seasons == nil {
		b.Fatal("no seasons: ", err)
	}
	b.Run("plan", func(b *testing.B) {
		for b.Loop() {
			kit.Make(all.seasons, all.hand)
		}
	})
	b.Run("files", func(b *testing.B) {
		for b.Loop() {
			year, _ := kit.Make(all.seasons, all.hand)
			made, err := kitTargets{pdf: "year.pdf", csv: "year"}.files(all, year)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(made.files[len(made.files)-1].data.Len())/1000, "kB/pdf")
		}
	})
}

// BenchmarkCompare sets six resolved plans side by side, with the sheets.
func BenchmarkCompare(b *testing.B) {
	all, err := readSeveral(yearPlans(6), yearHouse(), kit.Titled, nil)
	if err != nil || all.seasons == nil {
		b.Fatal("no options: ", err)
	}
	for b.Loop() {
		options, _ := kit.Options(all.seasons, all.hand, all.own)
		if _, err := (compareTargets{pdf: "options.pdf"}).files(all, options); err != nil {
			b.Fatal(err)
		}
	}
}
