package solve

import (
	"testing"
	"time"
)

func TestTmp(t *testing.T) {
	names, optima := facingOptima(t)
	for _, name := range names {
		a := readAllotLP(t, readShared(t, "facing", name+".lp"))
		a.Effort = 30 * StepsPerSecond
		t0 := time.Now()
		r, ok := a.Solve()
		d := time.Since(t0)
		t.Logf("%s %v opt %d got %d bound %d steps %d M %v %.0f M/s", name, ok, optima[name], r.Value, r.Bound, r.Steps/1e6, d, float64(r.Steps)/1e6/d.Seconds())
	}
}

func TestTmpRow(t *testing.T) {
	for seed := range uint64(3) {
		for _, unit := range []int64{254000, 100000, 1} {
			for _, load := range []bool{false, true} {
				a := longRow(seed, 200, unit, load)
				t0 := time.Now()
				r, ok := a.Solve()
				t.Logf("unit %d load %v: %v %d %d steps %d M in %v", unit, load, ok, r.Value, r.Bound, r.Steps/1e6, time.Since(t0))
			}
		}
	}
}

func TestTmpShop(t *testing.T) {
	for _, k := range []allotKind{{15, 3, 254000, false, 0, false, 4}, {30, 4, 254000, false, 0, false, 4}, {60, 5, 254000, false, 0, false, 4},
		{60, 5, 1, false, 0, false, 4}, {60, 5, 254000, true, 0, false, 4},
		{15, 3, 254000, false, 3, false, 4}, {30, 4, 254000, false, 4, false, 4}, {60, 5, 254000, false, 5, false, 4}, {60, 5, 254000, true, 5, true, 4},
		{200, 12, 254000, false, 0, false, 4}, {200, 12, 254000, false, 8, false, 8}} {
		for seed := range uint64(2) {
			a := shopAllot(seed, k)
			a.Effort = StepsPerSecond
			t0 := time.Now()
			r, ok := a.Solve()
			t.Logf("%+v: %v %d %d gap %.3f%% steps %d M in %v", k, ok, r.Value, r.Bound, 100*float64(r.Bound-r.Value)/float64(r.Bound), r.Steps/1e6, time.Since(t0))
		}
	}
}
