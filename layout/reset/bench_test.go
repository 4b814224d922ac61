package reset

import (
	"fmt"
	"strings"
	"testing"
)

// wallText is a wall run with so many hooks a row, set off from the left.
func wallText(rows, hooks int, gap string) string {
	var b strings.Builder
	b.WriteString("plan: 1\ntitle: Wall\nunit: {frame: wall-run, bays: 12, stand: fixed, panels: {front: slat-48x96}}\ndress:\n  front:\n")
	for range rows {
		fmt.Fprintf(&b, "    - {use: hook-6-slat, count: %d, every: %s}\n", hooks, gap)
	}
	return b.String()
}

// Two faces of 500 pieces each: every one has to move.
func BenchmarkReset(b *testing.B) {
	old, new := dressed(b, wallText(10, 50, "11in")), dressed(b, wallText(10, 50, "10in"))
	r := Make(old, new, Options{})
	b.Logf("%d items", len(r.Items))
	for b.Loop() {
		Make(old, new, Options{})
	}
}
