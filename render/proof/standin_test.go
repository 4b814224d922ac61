package proof

import (
	"cmp"
	"fmt"
	"setwright/layout/measure"
	"setwright/layout/parts"
	layplan "setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"slices"
)

// standIn pairs what hangs in two units in the simplest way and lists steps row
// by row, as if nothing were ever in the way.
func standIn(old, new *unit.Unit) *reset.Reset {
	r := &reset.Reset{Old: old, New: new}
	type key struct {
		part string
		cut  measure.Length
	}
	pool := map[key][]*reset.Place{}
	fpool := map[string][]*reset.Spot{}
	for _, f := range old.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				k := key{p.Part.ID, p.Cut}
				pool[k] = append(pool[k], &reset.Place{Face: f, Row: row, Piece: p, Solid: f.Solid(p.Box)})
			}
			for _, pos := range row.Positions {
				for i := range pos.Fronts {
					fpool[pos.Product.SKU] = append(fpool[pos.Product.SKU], &reset.Spot{Face: f, Row: row, Position: pos, Front: &pos.Fronts[i], Solid: f.Solid(pos.Fronts[i].Box)})
				}
			}
		}
	}
	_ = parts.Hook
	for _, pass := range []int{0, 1, 2} {
		for _, f := range new.Faces {
			for _, row := range f.Rows {
				for _, p := range row.All() {
					to := &reset.Place{Face: f, Row: row, Piece: p, Solid: f.Solid(p.Box)}
					if slices.ContainsFunc(r.Items, func(i *reset.Item) bool { return i.To != nil && i.To.Piece == p }) {
						continue
					}
					k := key{p.Part.ID, p.Cut}
					at := slices.IndexFunc(pool[k], func(q *reset.Place) bool { return pass > 0 || q.Solid == to.Solid && q.Face.ID == f.ID })
					if at < 0 {
						if pass == 2 {
							r.Items = append(r.Items, &reset.Item{Part: p.Part, Cut: p.Cut, To: to, Way: reset.Fetch, Seconds: 40})
						}
						continue
					}
					from := pool[k][at]
					pool[k] = slices.Delete(pool[k], at, at+1)
					way := reset.Rehang
					sec := 35
					if pass == 0 {
						way, sec = reset.Stay, 0
					}
					r.Items = append(r.Items, &reset.Item{Part: p.Part, Cut: p.Cut, From: from, To: to, Way: way, Seconds: sec})
				}
				for _, pos := range row.Positions {
					for i := range pos.Fronts {
						to := &reset.Spot{Face: f, Row: row, Position: pos, Front: &pos.Fronts[i], Solid: f.Solid(pos.Fronts[i].Box)}
						if slices.ContainsFunc(r.Facings, func(x *reset.Facing) bool { return x.To != nil && x.To.Front == to.Front }) {
							continue
						}
						k := pos.Product.SKU
						at := slices.IndexFunc(fpool[k], func(q *reset.Spot) bool { return pass > 0 || q.Solid == to.Solid && q.Face.ID == f.ID })
						if at < 0 {
							if pass == 2 {
								r.Facings = append(r.Facings, &reset.Facing{Product: pos.Product, To: to, Way: reset.Fetch, Seconds: 20, Stock: to.Front.Units})
							}
							continue
						}
						from := fpool[k][at]
						fpool[k] = slices.Delete(fpool[k], at, at+1)
						way := reset.Rehang
						if pass == 0 {
							way = reset.Stay
						}
						r.Facings = append(r.Facings, &reset.Facing{Product: pos.Product, From: from, To: to, Way: way, Seconds: 15})
					}
				}
			}
		}
	}
	for _, f := range old.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				for _, q := range pool[key{p.Part.ID, p.Cut}] {
					if q.Piece == p {
						r.Items = append(r.Items, &reset.Item{Part: p.Part, Cut: p.Cut, From: q, Way: reset.Return, Seconds: 20})
					}
				}
			}
			for _, pos := range row.Positions {
				for i := range pos.Fronts {
					for _, q := range fpool[pos.Product.SKU] {
						if q.Front == &pos.Fronts[i] {
							r.Facings = append(r.Facings, &reset.Facing{Product: pos.Product, From: q, Way: reset.Return, Seconds: 10, Stock: -q.Front.Units})
						}
					}
				}
			}
		}
	}
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
		case reset.Rehang:
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
	return r
}
