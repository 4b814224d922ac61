package solve
import ("testing";"time")
func TestTmpOne(t *testing.T) {
	a := shopAllot(1, allotKind{200, 12, 254000, false, 0, false, 4})
	a.Effort = StepsPerSecond
	t0 := time.Now()
	r, ok := a.Solve()
	t.Log(ok, r.Value, r.Bound, r.Steps/1e6, time.Since(t0))
}
