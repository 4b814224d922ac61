package assign

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// published are instances of the OR-Library (J. E. Beasley, "OR-Library:
// distributing test problems by electronic mail", JORS 41, 1990), with the least
// totals given there.
var published = []struct {
	name  string
	total int64
}{{"assign100", 305}, {"assign500", 991}}

// readPublished reads the number of rows and columns, then the costs.
func readPublished(t testing.TB, name string) [][]int64 {
	t.Helper()
	in := strings.NewReader(oracle.Shared(t, "lap", name+".txt"))
	var size int
	fmt.Fscan(in, &size)
	cost := make([][]int64, size)
	for i := range cost {
		cost[i] = make([]int64, size)
		for j := range cost[i] {
			if n, err := fmt.Fscan(in, &cost[i][j]); n != 1 {
				t.Fatalf("%s: row %d, column %d: %v", name, i, j, err)
			}
		}
	}
	return cost
}

// TestPublished wants the published totals, with certificates.
func TestPublished(t *testing.T) {
	for _, p := range published {
		if r := solved(t, readPublished(t, p.name)); r.Total != p.total {
			t.Errorf("%s: total %d, published %d", p.name, r.Total, p.total)
		}
	}
}
