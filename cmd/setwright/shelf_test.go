package main

import (
	"bytes"
	"math/rand"
	"path/filepath"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
)

// TestDamagedPacks cuts a pack short every 1,024 bytes, and changes single bytes
// of it: either it says what it did, or it is refused.
func TestDamagedPacks(t *testing.T) {
	made, err := build(newSource(filepath.Join(moduleRoot, "samples", "peg-end", "plan.yaml")), nil, false)
	if err != nil || made.pdf == nil {
		t.Fatal("no pack: ", err)
	}
	take := func(data []byte) taken {
		reading := taker{fsys: fstest.MapFS{"a.pdf": {Data: data}}}
		return reading.take("a.pdf")
	}
	whole := take(made.pdf)
	if whole.summary == nil {
		t.Fatal("the pack is refused whole: ", whole.finding.Message)
	}
	refused, tried := 0, 0
	try := func(data []byte, what string, at int) {
		got := take(data)
		if tried++; got.finding.Code != "" {
			refused++
		} else if diff := cmp.Diff(whole.summary, got.summary); diff != "" || got.mark != whole.mark {
			t.Errorf("%s %d: it says something else:\n%s", what, at, diff)
		}
	}
	for n := 0; n < len(made.pdf); n += 1024 {
		try(made.pdf[:n], "cut to", n)
	}
	if refused < tried*9/10 {
		t.Errorf("of %d packs cut short only %d are refused", tried, refused)
	}
	random := rand.New(rand.NewSource(1))
	for range 400 {
		data := bytes.Clone(made.pdf)
		at := random.Intn(len(data))
		data[at] ^= byte(1 + random.Intn(255))
		try(data, "changed at", at)
	}
}
