package check

import (
	"slices"

	"setwright/layout/parts"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// curvePoints is how many points a sag curve is drawn through.
const curvePoints = 49

// shelve solves every shelf and slope as a beam on what holds it.
func (s *subject) shelve() {
	for _, l := range s.all() {
		if c, ok := s.shelfCase(l); ok {
			s.a.Shelves = append(s.a.Shelves, c)
		}
	}
}

// shelfCase is one shelf as a beam; not ok if it is none or hangs from fewer
// than two places, which is found where the unit is dressed.
func (s *subject) shelfCase(l *laden) (ShelfCase, bool) {
	supports := supportsOf(l)
	if len(supports) < 2 {
		return ShelfCase{}, false
	}
	loads := beamLoads(l)
	c := ShelfCase{Row: l.row, Piece: l.piece, Supports: supports}
	for _, load := range loads {
		c.Load += load.Total
	}
	beam := statics.Beam{Length: mm(l.piece.Box.Width()), EI: 1, Supports: supports, Loads: loads}
	bend, creep := l.piece.Part.Bend, 1.0
	if bend != nil {
		beam.EI, creep = bend.Rigidity(l.piece.Part.Depth), bend.LongTerm()
	}
	solved, reactions, err := resting(beam)
	if err != nil {
		return ShelfCase{}, false
	}
	c.Reaction = reactions
	if bend == nil {
		return c, true // how it bends is not known
	}
	c.SagX, c.Sag, c.Span = solved.MaxSag()
	c.Sag *= creep
	for i := range curvePoints {
		x := beam.Length * float64(i) / (curvePoints - 1)
		c.Curve = append(c.Curve, SagAt{x, creep * solved.Deflection(x)})
	}
	for n := 2; n <= 3; n++ {
		beam.Supports = spread(supports, n)
		if other, _, err := resting(beam); err == nil {
			_, sag, _ := other.MaxSag()
			c.Others = append(c.Others, SagWith{n, creep * sag})
		}
	}
	return c, true
}

// resting solves a shelf that lies on its supports and is not held down: it
// lifts off those that would have to pull, the one that would pull most first.
func resting(beam statics.Beam) (statics.Solution, []float64, error) {
	on := make([]int, len(beam.Supports)) // of all supports, those it rests on
	for i := range on {
		on[i] = i
	}
	for all := beam.Supports; ; {
		beam.Supports = make([]float64, len(on))
		for i, k := range on {
			beam.Supports[i] = all[k]
		}
		solved, err := beam.Solve()
		if err != nil {
			return statics.Solution{}, nil, err
		}
		least := slices.Index(solved.Reactions, slices.Min(solved.Reactions))
		if len(on) > 2 && solved.Reactions[least] < 0 {
			on = slices.Delete(on, least, least+1)
			continue
		}
		reactions := make([]float64, len(all))
		for i, k := range on {
			reactions[k] = solved.Reactions[i]
		}
		return solved, reactions, nil
	}
}

// supportsOf is where a shelf's brackets or a slope's grips hold it, from its
// left end, in millimetres.
func supportsOf(l *laden) []float64 {
	var at []float64
	box := l.piece.Box
	switch l.piece.Part.Kind {
	case parts.Shelf:
		for _, b := range l.row.Brackets {
			if box.X0 <= b.X && b.X <= box.X1 {
				at = append(at, mm(b.X-box.X0))
			}
		}
	case parts.Slope:
		for _, g := range l.piece.Grips {
			at = append(at, mm((g.X0+g.X1)/2-box.X0))
		}
	}
	return at
}

// spread is n supports evenly between the outer ones.
func spread(supports []float64, n int) []float64 {
	first, last := supports[0], supports[len(supports)-1]
	at := make([]float64, n)
	for i := range at {
		at[i] = first + (last-first)*float64(i)/float64(n-1)
	}
	return at
}

// beamLoads is what a shelf carries, each front where it stands, its own weight
// and that of its strips along all of it. What sticks out past an end bears on
// the end.
func beamLoads(l *laden) []statics.Load {
	box, length := l.piece.Box, mm(l.piece.Box.Width())
	loads := []statics.Load{{From: 0, To: length, Total: l.own()}}
	for _, h := range l.held {
		from := min(max(mm(h.front.Box.X0-box.X0), 0), length)
		to := min(max(mm(h.front.Box.X1-box.X0), from), length)
		loads = append(loads, statics.Load{From: from, To: to, Total: newtons(h.weight)})
	}
	return loads
}

// own is the weight of a piece and of what is fixed to it, N.
func (l *laden) own() float64 {
	own := newtons(weightOf(l.piece))
	for _, extra := range l.extras {
		own += newtons(weightOf(extra))
	}
	return own
}

// arm is how far out from the panel all that is on a piece has its middle, and
// the force of it, the piece's own weight included.
func (l *laden) arm() (force, arm float64) {
	middle := func(b unit.Box) float64 { return mm(b.D0+b.D1) / 2 }
	own := l.own()
	force, moment := own, own*middle(l.piece.Box)
	for _, h := range l.held {
		n := newtons(h.weight)
		force += n
		moment += n * middle(h.front.Box)
	}
	if force == 0 {
		return 0, 0
	}
	return force, moment / force
}
