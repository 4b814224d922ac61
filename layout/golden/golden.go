// Package golden compares test output with files kept beside the tests. It is
// imported by tests only. SETWRIGHT_UPDATE=1 writes the files anew; the
// variable is read inside the test, so that test caching sees it.
package golden

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Check fails the test unless got is what the file holds. A missing file fails
// too: it is never taken for agreement.
func Check(t testing.TB, file, got string) {
	t.Helper()
	if os.Getenv("SETWRIGHT_UPDATE") == "1" {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; SETWRIGHT_UPDATE=1 writes it", err)
	}
	plain := strings.ReplaceAll(string(want), "\r\n", "\n")
	if diff := cmp.Diff(plain, got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", file, diff)
	}
}

// Each runs a test for every file that matches the pattern, and fails if none
// does. What run returns is compared with the file of that name and .txt.
func Each(t *testing.T, pattern string, run func(t *testing.T, name string, text []byte) (got string)) {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no files match %s: %v", pattern, err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			Check(t, file+".txt", run(t, filepath.Base(file), text))
		})
	}
}
