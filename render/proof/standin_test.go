package proof

import (
	"cmp"
	"fmt"
	layplan "setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"slices"
)

// fakeSteps lists steps row
// by row, as if nothing were ever in the way.
func fakeSteps(r *reset.Reset) {
	type sk struct {
		verb     reset.Verb
		from, to *unit.Row
		way      reset.Way
	}
	steps := map[sk]*reset.Step{}
	var order []*reset.Step
	add := func(k sk, face layplan.FaceID, a reset.Act, sec int) {
		s := steps[k]
		if s == nil {
			s = &reset.Step{Verb: k.verb, From: k.from, To: k.to, Face: face, People: 1}
			steps[k] = s
			order = append(order, s)
		}
		a.Verb = k.verb
		s.Acts = append(s.Acts, a)
		s.Seconds += sec
	}
	for _, x := range r.Facings {
		if x.Way == reset.Return || x.Way == reset.Rehang {
			add(sk{reset.TakeOff, x.From.Row, nil, 0}, x.From.Face.ID, reset.Act{Facing: x}, x.Seconds)
		}
	}
	for _, x := range r.Items {
		switch x.Way {
		case reset.Return:
			add(sk{reset.TakeDown, x.From.Row, nil, 0}, x.From.Face.ID, reset.Act{Item: x}, x.Seconds)
		case reset.Rehang, reset.Slide:
			add(sk{reset.Shift, x.From.Row, x.To.Row, 0}, x.To.Face.ID, reset.Act{Item: x}, x.Seconds)
		case reset.Fetch:
			add(sk{reset.Hang, nil, x.To.Row, 0}, x.To.Face.ID, reset.Act{Item: x}, x.Seconds)
		}
	}
	for _, x := range r.Facings {
		if x.Way == reset.Fetch || x.Way == reset.Rehang {
			add(sk{reset.PutOn, nil, x.To.Row, 0}, x.To.Face.ID, reset.Act{Facing: x}, x.Seconds)
		}
	}
	slices.SortStableFunc(order, func(a, b *reset.Step) int { return cmp.Compare(a.Verb, b.Verb) })
	for i, s := range order {
		s.Number = i + 1
		s.Person = i % 3
		if i == 5 {
			s.Caution = "tip"
			s.People = 2
		}
		if i == 6 {
			s.Wait = 3
		}
		r.Steps = append(r.Steps, *s)
		r.Seconds += s.Seconds
	}
	r.Together = r.Seconds * 6 / 10
	fmt.Println("items", len(r.Items), "facings", len(r.Facings), "steps", len(r.Steps))
}
