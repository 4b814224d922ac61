package solve

import (
	"testing"
	"time"
)

func TestTmp(t *testing.T) {
	names, optima := facingOptima(t)
	for _, name := range names {
		a := readAllotLP(t, readShared(t, "facing", name+".lp"))
		a.Effort = 20 * StepsPerSecond
		debugFloor = 0
		t0 := time.Now()
		r, ok := a.Solve()
		d := time.Since(t0)
		t.Logf("%s %v opt %d got %d bound %d steps %d M %v %.0f M/s", name, ok, optima[name], r.Value, r.Bound, r.Steps/1e6, d, float64(r.Steps)/1e6/d.Seconds())
	}
}
