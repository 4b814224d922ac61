package reset

import (
	"fmt"
	"math"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// write puts an order on paper, after what is there already: steps, how the unit
// stands after each, and what is to be said about that.
func (r *Reset) write(w *work) {
	now := w.start
	spans := w.spans()
	var steps []Step
	var loads []load // after each
	if len(r.Steps) == 0 {
		r.Start = w.judge.standing(now)
	}
	for _, s := range spans {
		step := w.step(s)
		step.Number = len(r.Steps) + len(steps) + 1
		for _, b := range s {
			now = now.plus(w.jobs[b].change)
		}
		loads = append(loads, now)
		step.After = w.judge.standing(now)
		step.Caution = w.judge.fault(now).code
		steps = append(steps, step)
	}
	r.caution(w, steps, loads)
	r.Together += divide(w, spans, steps)
	r.add(steps...)
}

// add adds steps and their time.
func (r *Reset) add(steps ...Step) {
	for _, s := range steps {
		r.Seconds += s.Seconds
	}
	r.Steps = append(r.Steps, steps...)
}

// spans cuts the order where the line of work changes.
func (w *work) spans() [][]int32 {
	var spans [][]int32
	begin := 0
	for i := range w.order {
		if i+1 == len(w.order) || w.jobs[w.order[i+1]].line != w.jobs[w.order[i]].line {
			spans = append(spans, w.order[begin:i+1])
			begin = i + 1
		}
	}
	return spans
}

// step is one step of the work.
func (w *work) step(span []int32) Step {
	first := &w.jobs[span[0]]
	s := Step{Verb: first.act.Verb, From: first.from, To: first.to, Face: plan.FaceIDs()[first.face], People: 1}
	for _, b := range span {
		j := &w.jobs[b]
		s.Acts = append(s.Acts, j.act)
		s.Seconds += j.seconds
		s.People = max(s.People, j.people)
	}
	return s
}

// caution tells of the steps after which the unit stands worse than it should:
// one finding for steps that follow each other.
func (r *Reset) caution(w *work, steps []Step, loads []load) {
	for i := 0; i < len(steps); i++ {
		code := steps[i].Caution
		if code == "" {
			continue
		}
		first, worst, over := i, loads[i], w.judge.fault(loads[i])
		for i+1 < len(steps) && steps[i+1].Caution == code {
			i++
			if f := w.judge.fault(loads[i]); f.worse(over) {
				worst, over = loads[i], f
			}
		}
		r.Findings = append(r.Findings, w.finding(code, steps[first].Number, steps[i].Number, worst))
	}
}

// finding says what is wrong from one step to another, and how far at worst.
func (w *work) finding(code string, first, last int, worst load) diag.Finding {
	when := fmt.Sprintf("after step %d", first)
	if last > first {
		when = fmt.Sprintf("after steps %d to %d", first, last)
	}
	f := diag.Finding{Level: diag.Caution, Code: code, At: w.reset.New.Plan.Unit.Stand.At,
		Source: "house rule: the limits of the checks tip-force, tip-tilt and balance, held through the night"}
	if code == balanceCode {
		f.Message, f.Fix = w.uneven(when, worst), "load both sides alternately, or one more person steadies the unit"
		return f
	}
	f.Fix = "one more person steadies the unit, casters locked, until it is past"
	share, tilt := w.judge.tips(worst)
	if share < w.judge.share {
		f.Message = fmt.Sprintf("%s a push of %.0f %% of the benchmark's lifts a foot; %.0f %% is the least tonight", when, math.Floor(100*share), math.Ceil(100*w.judge.share))
		if share < 0 {
			f.Message = when + " the unit goes over by itself"
		}
		return f
	}
	f.Message = fmt.Sprintf("%s the unit goes over at a lean of %.1f°; %.1f° is the least tonight", when, tilt, w.judge.tilt)
	return f
}

// uneven says which face is too heavy.
func (w *work) uneven(when string, worst load) string {
	text := func(m measure.Mass) string { return m.Text(w.reset.New.Plan.Measure) }
	for _, p := range w.judge.pairs {
		if p.apart(worst) <= p.limit {
			continue
		}
		a, b := p.a, p.b
		if worst.faces[a] < worst.faces[b] {
			a, b = b, a
		}
		faces := plan.FaceIDs()
		return fmt.Sprintf("%s the %s carries %s and the %s %s: %s more, and %s is the limit tonight", when,
			faces[a], text(worst.faces[a]), faces[b], text(worst.faces[b]), text(p.apart(worst)), text(p.limit))
	}
	return ""
}
