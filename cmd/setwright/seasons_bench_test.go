package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"testing"
	"time"
)

// manyPacks builds packs of the gondola samples, each with another season and
// date, two days apart, in folders of a hundred. Four units are dressed in
// turn.
func manyPacks(b *testing.B, n int) string {
	b.Helper()
	dir := b.TempDir()
	head := regexp.MustCompile(`(?m)^(season|date):.*\n`)
	for i, path := range yearPlans(n) {
		text, err := os.ReadFile(path)
		if err != nil {
			b.Fatal(err)
		}
		date := time.Date(2020, 1, 1+i*2, 0, 0, 0, 0, time.UTC)
		text = fmt.Appendf(head.ReplaceAll(text, nil), "\nseason: Season %d\ndate: %s\n", i+1, date.Format(time.DateOnly))
		text = bytes.Replace(text, []byte("\n  name: Aisle gondola\n"), fmt.Appendf(nil, "\n  name: Gondola %d\n", i%4+1), 1)
		made, err := build(source{path: "-", dir: filepath.Dir(path)}, bytes.NewReader(text), false)
		if err != nil || made.pdf == nil {
			b.Fatal("no pack: ", err)
		}
		folder := filepath.Join(dir, fmt.Sprint(i/100))
		if err := os.MkdirAll(folder, 0o777); err != nil {
			b.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("%04d.pdf", i)), made.pdf, 0o666); err != nil {
			b.Fatal(err)
		}
	}
	return dir
}

// BenchmarkSeasons lists a folder of a thousand packs with the built program,
// start to end, as tables and as a strip.
func BenchmarkSeasons(b *testing.B) {
	dir := manyPacks(b, 1000)
	binary := filepath.Join(b.TempDir(), "setwright.exe")
	if out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput(); err != nil {
		b.Fatalf("go build: %v\n%s", err, out)
	}
	for _, args := range [][]string{nil, {"-o", "-"}} {
		name := "table"
		if args != nil {
			name = "strip"
		}
		b.Run(name, func(b *testing.B) {
			var peak int64
			for b.Loop() {
				cmd := exec.Command(binary, append([]string{"seasons", dir}, args...)...)
				var out, said bytes.Buffer
				cmd.Stdout, cmd.Stderr = &out, &said
				if err := cmd.Run(); err != nil || said.Len() > 0 || name == "table" && bytes.Count(out.Bytes(), []byte(" up ")) != 1000 {
					b.Fatalf("%v\n%s", err, said.Bytes())
				}
				peak = max(peak, peakMemory(cmd.ProcessState))
			}
			if peak > 0 {
				b.ReportMetric(float64(peak)/1e6, "MB-peak")
			}
		})
	}
}
