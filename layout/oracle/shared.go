package oracle

import (
	"os"
	"path/filepath"
	"testing"
)

// SharedPath is where a file of the open benchmark data is, if it is there at
// all: beside the working tree, in ../shared/data from the module's root.
func SharedPath(t testing.TB, elems ...string) string {
	t.Helper()
	return filepath.Join(append([]string{moduleRoot(t), "..", "shared", "data"}, elems...)...)
}

// moduleRoot is the folder with go.mod over the one the test runs in.
func moduleRoot(t testing.TB) string {
	t.Helper()
	root, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for !IsThere(filepath.Join(root, "go.mod")) && root != filepath.Dir(root) {
		root = filepath.Dir(root)
	}
	return root
}

// Shared returns the text of a file of the open benchmark data, or skips the
// test where it is missing.
func Shared(t testing.TB, elems ...string) string {
	t.Helper()
	text, err := os.ReadFile(SharedPath(t, elems...))
	if err != nil {
		t.Skipf("open benchmark data is not here: %v", err)
	}
	return string(text)
}

// IsThere says whether a file can be found.
func IsThere(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
