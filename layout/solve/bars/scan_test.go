package bars

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestScan(t *testing.T) {
	sets := os.Getenv("SCAN")
	if sets == "" {
		t.Skip()
	}
	secs := 1.0
	if v := os.Getenv("SECS"); v != "" {
		fmt.Sscan(v, &secs)
	}
	for _, set := range strings.Split(sets, ",") {
		var all []published
		if set == "multi" {
			all = readMulti(t)
		} else {
			all = readSingle(t, set)
		}
		var took []time.Duration
		closed := 0
		var steps int64
		for _, p := range all {
			if only := os.Getenv("ONLY"); only != "" && !strings.Contains(p.name, only) {
				continue
			}
			start := time.Now()
			got, err := Solve(p.job, int64(secs*StepsPerSecond))
			d := time.Since(start)
			took = append(took, d)
			if err != nil {
				t.Errorf("%s: %v", p.name, err)
				continue
			}
			steps += got.Steps
			if got.Proven {
				closed++
				if got.Cost != p.upper && set != "multi" || got.Cost < p.lower || got.Cost > p.upper {
					t.Errorf("%s: %d proven, published %d %d", p.name, got.Cost, p.lower, p.upper)
				}
			}
			if !got.Proven || d > 500*time.Millisecond || os.Getenv("V") != "" {
				fmt.Printf("  %s cost %d (published %d %d) bound %d proven %v %v steps %d\n", p.name, got.Cost, p.lower, p.upper, got.Bound, got.Proven, d, got.Steps)
			}
		}
		slices.Sort(took)
		var sum time.Duration
		for _, d := range took {
			sum += d
		}
		fmt.Printf("%s: %d/%d median %v worst %v total %v Msteps/s %.0f\n", set, closed, len(took), took[len(took)/2], took[len(took)-1], sum, float64(steps)/sum.Seconds()/1e6)
	}
}
