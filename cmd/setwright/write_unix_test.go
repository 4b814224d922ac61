//go:build unix

package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestInterrupted stops the command at random moments: the pack is there whole
// or as it was before, and nothing else is left behind.
func TestInterrupted(t *testing.T) {
	plan, err := filepath.Abs(filepath.Join(moduleRoot, "samples", "boots", "plan.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	pack := filepath.Join(dir, "pack.pdf")
	earlier := []byte("an earlier pack")
	random := rand.New(rand.NewPCG(1, 2))
	stopped := 0
	for range 25 {
		if err := os.WriteFile(pack, earlier, 0o666); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("setwright", "sheets", plan, "-o", pack)
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.IntN(60)) * time.Millisecond)
		cmd.Process.Signal(os.Interrupt) // it may be done already
		if cmd.Wait() != nil {
			stopped++
		}
		got, err := os.ReadFile(pack)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, earlier) && !wholePDF(got) {
			t.Fatalf("half a pack: %d bytes", len(got))
		}
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			if strings.HasSuffix(e.Name(), ".tmp") {
				t.Fatalf("%s was left behind", e.Name())
			}
		}
	}
	if stopped == 0 {
		t.Error("no run was stopped: this test tested nothing")
	}
}
