package oracle

import (
	"os"
	"path/filepath"
	"testing"
)

// NeedVeraPDF returns the command that judges the PDFs named after it by
// veraPDF, or ends the test where there is none: a JDK, and the libraries in
// the folder that the environment variable SETWRIGHT_VERAPDF names. The head
// of testdata/verapdf/Judge.java tells how to fetch them, and what is printed.
func NeedVeraPDF(t testing.TB) []string {
	t.Helper()
	Need(t, "javac") // which a JDK has and other Java does not: the judge runs from its source
	libraries := os.Getenv("SETWRIGHT_VERAPDF")
	if libraries == "" {
		missing(t, "veraPDF (SETWRIGHT_VERAPDF)")
	}
	return []string{Need(t, "java"), "-cp", filepath.Join(libraries, "*"), filepath.Join(moduleRoot(t), "testdata", "verapdf", "Judge.java")}
}
