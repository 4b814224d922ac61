package check

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// Round wires, arms and rails are taken to be steel: E as in the statics of
// hooks, and G for the twisting of a rail's arms (Shigley, table A-5: E 207, G
// 79 GPa; E rounded down to AISC's 200).
const (
	steelE = 200_000 // N/mm²
	steelG = 79_000
)

// hold works out what every grip on a panel carries, and from it the panels.
func (s *subject) hold() {
	panels := s.panels()
	shelf := 0 // the next shelf case, which are in the same order
	for i, f := range s.Unit.Faces {
		for _, l := range s.faces[i] {
			var c *ShelfCase
			if shelf < len(s.a.Shelves) && s.a.Shelves[shelf].Piece == l.piece {
				c = &s.a.Shelves[shelf]
				shelf++
			}
			for _, h := range s.holds(l, c) {
				s.a.Holds = append(s.a.Holds, h.HoldCase)
				for k, g := range h.Piece.Grips {
					p := &s.a.Panels[panels[f.ID]+bayOf(f, g)-1]
					p.Load += h.grips[k]
					p.PerGrip = max(p.PerGrip, h.grips[k])
				}
			}
		}
	}
}

// panels lists the bays of every face, empty, and where each face's begin.
func (s *subject) panels() map[plan.FaceID]int {
	first := map[plan.FaceID]int{}
	for _, f := range s.Unit.Faces {
		first[f.ID] = len(s.a.Panels)
		for bay := 1; bay <= f.Bays; bay++ {
			s.a.Panels = append(s.a.Panels, PanelCase{Face: f.ID, Bay: bay, Rated: newtons(f.Panel.Rated)})
		}
	}
	return first
}

// holding is a hold and the force on each of its grips, N.
type holding struct {
	HoldCase
	grips []float64
}

// holds is what holds one piece: its brackets if it rests on some, else itself.
func (s *subject) holds(l *laden, c *ShelfCase) []holding {
	force, arm := l.arm()
	if l.piece.Part.Kind != parts.Shelf {
		h := newHolding(l.row, l.piece, newtons(l.goods()))
		h.Moment = force * arm
		h.Tip = tipOf(l)
		for i := range h.grips {
			h.grips[i] = force / float64(len(h.grips))
			if c != nil && len(c.Reaction) == len(h.grips) {
				h.grips[i] = c.Reaction[i]
			}
		}
		return []holding{h}
	}
	if c == nil {
		return nil
	}
	var list []holding
	for _, b := range l.row.Brackets {
		if b.X < l.piece.Box.X0 || b.X > l.piece.Box.X1 {
			continue
		}
		reaction, own := c.Reaction[len(list)], newtons(weightOf(b))
		h := newHolding(l.row, b, reaction)
		h.Moment = reaction*arm + own*mm(b.Box.D0+b.Box.D1)/2
		for i := range h.grips {
			h.grips[i] = (reaction + own) / float64(len(h.grips))
		}
		list = append(list, h)
	}
	return list
}

func newHolding(row *unit.Row, p *unit.Piece, load float64) holding {
	return holding{
		HoldCase{Row: row, Piece: p, Load: load, Rated: newtons(p.Part.Rated), Assumed: p.Part.Assumed},
		make([]float64, len(p.Grips)),
	}
}

// tipOf is how far the tip of a round wire sinks under what hangs on it, or the
// middle of a rail; 0 for what is not wire.
func tipOf(l *laden) float64 {
	p := l.piece.Part
	if p.Wire == 0 {
		return 0
	}
	d := mm(p.Wire)
	ei := steelE * statics.RoundI(d)
	switch p.Kind {
	case parts.Hook, parts.FaceOut:
		return statics.Cantilever{Length: mm(p.Depth), EI: ei}.Tip(along(l))
	case parts.Bar: // the most loaded of its pegs
		var most float64
		for _, h := range l.held {
			peg := []statics.Load{{From: mm(h.front.Box.D0), To: mm(h.front.Box.D1), Total: newtons(h.weight)}}
			most = max(most, statics.Cantilever{Length: mm(p.Depth), EI: ei}.Tip(peg))
		}
		return most
	case parts.Rail:
		rail := statics.URail{Arm: mm(p.Depth), Bar: mm(p.Usable), EI: ei, GJ: steelG * 2 * statics.RoundI(d)}
		return rail.Deflection(newtons(l.goods()))
	}
	return 0
}

// along is the goods on a hook or arm, spread over the part of it they take.
func along(l *laden) []statics.Load {
	loads := make([]statics.Load, len(l.held))
	for i, h := range l.held {
		loads[i] = statics.Load{From: mm(h.front.Box.D0), To: mm(h.front.Box.D1), Total: newtons(h.weight)}
	}
	return loads
}

// reach is the length that a wire's deflection is compared with: the hook's or
// arm's, for a rail its bar.
func reach(p *parts.Part) measure.Length {
	if p.Kind == parts.Rail {
		return p.Usable
	}
	return p.Depth
}
