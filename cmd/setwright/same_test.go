package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"testing"
	"time"

	"setwright/layout/list"
	"setwright/layout/unit"
)

// everything is all that is made of a plan, in one piece.
func everything(t testing.TB, plan string) []byte {
	t.Helper()
	p, err := build(newSource(plan), nil, true)
	if err != nil {
		t.Fatal(err)
	}
	if p.project.Unit == nil {
		var said bytes.Buffer
		p.findings.WriteText(&said)
		t.Fatalf("%s:\n%s", plan, said.Bytes())
	}
	var all bytes.Buffer
	if err := unit.WriteJSON(&all, p.project.Unit, p.project.Fingerprint); err != nil {
		t.Fatal(err)
	}
	if err := p.findings.WriteJSON(&all); err != nil {
		t.Fatal(err)
	}
	all.Write(p.pdf)
	for _, svg := range p.svgs {
		all.Write(svg)
	}
	made, err := listTargets{csv: "lists", xlsx: "lists.xlsx"}.files(p.project, list.Tables(p.project.Unit, p.project.Cuts, p.project.Purchase))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range made.files {
		all.Write(f.data.Bytes())
	}
	return all.Bytes()
}

func samplePlans(t testing.TB) []string {
	t.Helper()
	plans, err := filepath.Glob(filepath.Join(moduleRoot, "samples", "*", "plan.yaml"))
	if err != nil || len(plans) < 8 {
		t.Fatalf("samples: %d plans found (%v)", len(plans), err)
	}
	return plans
}

// TestSameBytes makes every sample twice, at different times and with different
// numbers of processors, and wants the same bytes.
func TestSameBytes(t *testing.T) {
	first := map[string][]byte{}
	for _, plan := range samplePlans(t) {
		first[plan] = everything(t, plan)
	}
	time.Sleep(1100 * time.Millisecond) // the dates of a PDF count seconds
	for _, procs := range []int{1, 3} {
		before := runtime.GOMAXPROCS(procs)
		for _, plan := range samplePlans(t) {
			if !bytes.Equal(first[plan], everything(t, plan)) {
				t.Errorf("%s: other bytes on %d processors a second later", plan, procs)
			}
		}
		runtime.GOMAXPROCS(before)
	}
}

// TestSameBytesAnywhere runs the real command under other time zones, locales,
// processors and folders.
func TestSameBytesAnywhere(t *testing.T) {
	plan, err := filepath.Abs(filepath.Join(moduleRoot, "samples", "spring", "plan.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	made := func(dir, plan string, env ...string) []byte {
		t.Helper()
		var all []byte
		for _, args := range [][]string{{"sheets", plan, "-o", "-"}, {"lists", plan, "--xlsx", "-"}} {
			cmd := exec.Command("setwright", args...)
			cmd.Dir, cmd.Env = dir, append(os.Environ(), env...)
			out, err := cmd.Output()
			if err != nil {
				t.Fatal(env, err)
			}
			all = append(all, out...)
		}
		return all
	}
	want := made("", plan)
	for _, env := range [][]string{
		{"TZ=Asia/Tokyo", "GOMAXPROCS=1"},
		{"TZ=America/St_Johns", "GOMAXPROCS=7", "GOGC=10"},
		{"LANG=fr_FR.UTF-8", "LC_ALL=tr_TR.UTF-8", "HOME=/nowhere"},
	} {
		if !bytes.Equal(want, made("", plan, env...)) {
			t.Errorf("other bytes under %v", env)
		}
	}
	if !bytes.Equal(want, made(filepath.Dir(plan), "plan.yaml")) {
		t.Error("other bytes from the plan's own folder")
	}
}
