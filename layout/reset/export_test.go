package reset

import "setwright/layout/unit"

// Safe tries every order of the acts between two units, up to so many of them,
// and says whether there is one after each of whose acts the unit stands well;
// not known if there are more acts.
func Safe(old, new *unit.Unit, most int) (safe, known bool) {
	r := &Reset{Old: old, New: new}
	r.match()
	w := r.work()
	if len(w.jobs) > most {
		return false, false
	}
	w.judge = newJudge(r.New, max(old.Extent.Z1, new.Extent.Z1), w.start, w.end)
	reached := map[uint32]load{0: w.start}
	for range w.jobs {
		next := map[uint32]load{}
		for done, now := range reached {
			for i := range w.jobs {
				if done>>i&1 != 0 || !w.free(i, done) {
					continue
				}
				with := now.plus(w.jobs[i].change)
				if w.judge.fault(with).code == "" {
					next[done|1<<i] = with
				}
			}
		}
		reached = next
	}
	return len(reached) > 0, true
}

// free says whether all is done that must come before a job.
func (w *work) free(job int, done uint32) bool {
	for i := range w.jobs {
		if done>>i&1 != 0 {
			continue
		}
		for _, n := range w.jobs[i].next {
			if int(n) == job {
				return false
			}
		}
	}
	return true
}
