// Package oracle finds the outside tools and data that tests compare against.
// Only tests import it.
//
// A missing tool skips the test by name, so that a fresh clone needs nothing
// but Go; where the environment variable SETWRIGHT_ORACLES is 1, as it is
// where every tool is installed, a missing one fails instead.
package oracle

import (
	"os"
	"os/exec"
	"testing"
)

// Need returns the path of an executable, or ends the test when there is none.
func Need(t testing.TB, tool string) string {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		missing(t, "program "+tool)
	}
	return path
}

// NeedPython returns the path of a Python that can import module, or ends the
// test when there is none.
func NeedPython(t testing.TB, module string) string {
	t.Helper()
	python := Need(t, "python3")
	if exec.Command(python, "-c", "import "+module).Run() != nil {
		missing(t, "Python module "+module)
	}
	return python
}

func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("SETWRIGHT_ORACLES") == "1" {
		t.Fatalf("missing: %s (SETWRIGHT_ORACLES=1)", what)
	}
	t.Skipf("missing: %s", what)
}

// Long ends a test that takes minutes beside its outside programs, unless every one
// of them is asked for.
func Long(t testing.TB) {
	t.Helper()
	if os.Getenv("SETWRIGHT_ORACLES") != "1" {
		t.Skip("takes minutes: runs with SETWRIGHT_ORACLES=1")
	}
}
