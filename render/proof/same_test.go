package proof

import (
	"crypto/sha256"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// TestSameBytesElsewhere builds every pack in another process, on one
// processor and on seven, under time zones a day apart: the bytes are the
// same.
func TestSameBytesElsewhere(t *testing.T) {
	here := sums(t)
	if os.Getenv("SETWRIGHT_PROOF_SUMS") == "1" {
		fmt.Print(here)
		return
	}
	for _, env := range [][]string{
		{"GOMAXPROCS=1", "TZ=Pacific/Kiritimati"},
		{"GOMAXPROCS=7", "TZ=Pacific/Pago_Pago"},
	} {
		cmd := exec.Command(os.Args[0], "-test.run=^TestSameBytesElsewhere$")
		cmd.Env = append(append(os.Environ(), "SETWRIGHT_PROOF_SUMS=1"), env...)
		out, err := cmd.Output()
		if err != nil {
			t.Fatal(env, err)
		}
		if !strings.Contains(string(out), here) {
			t.Errorf("under %v:\n%s\nhere:\n%s", env, out, here)
		}
	}
}

// sums lists the hash of every pack and of every dump of a unit, as built here
// and now.
func sums(t *testing.T) string {
	t.Helper()
	list, err := planFiles()
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, p := range list {
		if p.paper != "" {
			continue // the same plan once more
		}
		if err := p.make(); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&all, "%s %x %x\n", p.name, sha256.Sum256(p.file), sha256.Sum256(p.dump))
	}
	return all.String()
}
