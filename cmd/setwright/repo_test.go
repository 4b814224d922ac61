package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// moduleRoot is the folder of go.mod, from where this package's tests run.
const moduleRoot = "../.."

// TestDevelopersPaths keeps DEVELOPERS.md true: every path it names exists. A
// path is what stands in backquotes, has a slash or a dot, and does not start
// with the name of a host.
func TestDevelopersPaths(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(moduleRoot, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	paths := namedPaths(string(text))
	if len(paths) < 20 {
		t.Fatalf("only %d paths found in DEVELOPERS.md: does this test still read it?", len(paths))
	}
	for _, path := range paths {
		found, err := filepath.Glob(filepath.Join(moduleRoot, path))
		if err != nil || len(found) == 0 {
			t.Errorf("DEVELOPERS.md names %s, which does not exist", path)
		}
	}
}

var (
	codeSpan = regexp.MustCompile("`([^`\n]+)`")
	pathLike = regexp.MustCompile(`^\.?[A-Za-z0-9_*-]+([./][A-Za-z0-9_*.-]+)*/?$`)
	hostLike = regexp.MustCompile(`^[a-z0-9-]+(\.[a-z0-9-]+)*\.(com|org|in|co)(/|$)`)
	fileLike = regexp.MustCompile(`/|\.(go|md|mod|sum|yaml|csv|txtar)$`)
)

func namedPaths(text string) []string {
	var paths []string
	for _, m := range codeSpan.FindAllStringSubmatch(text, -1) {
		if w := m[1]; pathLike.MatchString(w) && fileLike.MatchString(w) && !hostLike.MatchString(w) {
			paths = append(paths, w)
		}
	}
	return paths
}

// TestNoClock reads the program's own sources: nothing that is not a test asks
// for the time, so no sheet can depend on it.
func TestNoClock(t *testing.T) {
	asks := regexp.MustCompile(`\btime\.(Now|Since|Until)\b`)
	files := 0
	err := filepath.WalkDir(moduleRoot, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		files++
		text, err := os.ReadFile(path)
		if err == nil && asks.Match(text) {
			t.Errorf("%s asks for the time", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 20 {
		t.Errorf("only %d source files seen", files)
	}
}
