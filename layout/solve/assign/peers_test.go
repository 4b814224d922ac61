package assign

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"setwright/layout/oracle"
)

// askSciPy solves a table in floats, in which SciPy's compiled code works, and tells
// the total in integers and the best time of several.
const askSciPy = `
import sys, time, numpy
from scipy.optimize import linear_sum_assignment
cost = numpy.fromfile(sys.argv[1], dtype="<i8").reshape(int(sys.argv[2]), int(sys.argv[3]))
floats = cost.astype(float)
best = float("inf")
for n in range(int(sys.argv[4])):
    start = time.perf_counter()
    rows, columns = linear_sum_assignment(floats)
    best = min(best, time.perf_counter() - start)
print(int(cost[rows, columns].sum()), best)
`

// scipy has SciPy solve a table so many times.
func scipy(t testing.TB, cost [][]int64, times int) (total int64, best time.Duration) {
	t.Helper()
	python := oracle.NeedPython(t, "scipy.optimize")
	path := filepath.Join(t.TempDir(), "cost")
	var table bytes.Buffer
	for _, row := range cost {
		if err := binary.Write(&table, binary.LittleEndian, row); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(path, table.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(python, "-c", askSciPy, path, fmt.Sprint(len(cost)), fmt.Sprint(len(cost[0])), fmt.Sprint(times)).CombinedOutput()
	var seconds float64
	if n, _ := fmt.Sscan(string(out), &total, &seconds); n != 2 {
		t.Fatalf("scipy: %v: %s", err, out)
	}
	return total, time.Duration(seconds * 1e9)
}

// TestPeer wants the totals that SciPy's linear_sum_assignment finds (Crouse, "On
// implementing 2D rectangular assignment algorithms", 2016), and certificates.
func TestPeer(t *testing.T) {
	all := instances()
	for seed := range uint64(3) {
		all = append(all, instance{fmt.Sprintf("negative, seed %d", seed), func(testing.TB) [][]int64 {
			return random(rand.New(rand.NewPCG(seed, 5)), 200, 150+50*int(seed), -1000, 1000)
		}})
	}
	for _, in := range all {
		t.Run(in.name, func(t *testing.T) {
			cost := in.cost(t)
			want, _ := scipy(t, cost, 1)
			if r := solved(t, cost); r.Total != want {
				t.Errorf("total %d, SciPy says %d", r.Total, want)
			}
		})
	}
}

// BenchmarkPeers solves each instance beside SciPy, the best of seven each, and
// reports in how many times SciPy's time ours is done, at worst.
func BenchmarkPeers(b *testing.B) {
	const times = 7
	worst := 0.0
	for b.Loop() {
		for _, in := range instances() {
			cost := in.cost(b)
			want, theirs := scipy(b, cost, times)
			ours := time.Duration(1 << 62)
			for range times {
				start := time.Now()
				r := Solve(cost)
				ours = min(ours, time.Since(start))
				if r.Total != want {
					b.Fatalf("%s: total %d, SciPy says %d", in.name, r.Total, want)
				}
			}
			ratio := float64(ours) / float64(theirs)
			worst = max(worst, ratio)
			b.Logf("%-22s %8.3f ms, SciPy %8.3f ms: %.2f of its time", in.name, ours.Seconds()*1e3, theirs.Seconds()*1e3, ratio)
		}
	}
	b.ReportMetric(worst, "of-its-time-at-worst")
}
