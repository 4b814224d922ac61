package check

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// loadRules compare what things carry with what they are rated for.
func loadRules() []judged {
	const rated = "the parts list's rated load"
	return []judged{
		{Rule{"over-rating", "Rated loads", diag.Stop, rated,
			"no piece of hardware carries more goods than it is rated for when every position is full"}, overRating},
		{Rule{"bracket-load", "Brackets", diag.Stop, rated + "; reactions of a continuous beam, AISC Manual table 3-23",
			"no bracket carries more of its shelf and the goods on it than it is rated for"}, bracketLoad},
		{Rule{"panel-load", "Panels", diag.Stop, rated,
			"no panel carries more than it is rated for, both sides of a shared spine together, and the frame no more with all its panels"}, panelLoad},
		{Rule{"foot-load", "Casters and feet", diag.Stop, rated + "; one foot off the floor, common practice",
			"no caster or leveller carries more than its share of the set's rating: a stop on a level floor, for casters a caution with one of the others off the floor"}, footLoad},
	}
}

// rating names a rated load as what it is.
func rating(assumed bool) string {
	if assumed {
		return "rating assumed:"
	}
	return "rated"
}

// overRating finds the first piece of each row that carries too much.
func overRating(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	last := (*unit.Row)(nil)
	for _, l := range s.all() {
		load, rated := l.goods(), l.row.Part.Rated
		if l.row == last || rated == 0 || load <= rated {
			continue
		}
		last = l.row
		found = append(found, r.finding(l.row.Declared.Span, l.where,
			fmt.Sprintf("%s at %s carries %s when full, %s %s: %s too much",
				l.row.Part.ID, l.row.Address, s.mass(load), rating(l.row.Part.Assumed), s.mass(rated), s.mass(load-rated)),
			s.strongerThan(l)+"; the maker's rating governs"))
	}
	return found
}

// strongerThan is what would clear an overloaded piece: the nearest part that
// takes the heaviest of its goods and is rated for all of them, if there is one.
func (s *subject) strongerThan(l *laden) string {
	const fewer = "fewer or lighter goods"
	if s.Parts == nil || len(l.held) == 0 {
		return fewer + ", or a stronger part"
	}
	heaviest := l.held[0]
	for _, h := range l.held {
		if h.weight > heaviest.weight {
			heaviest = h
		}
	}
	q := unit.Nearest(s.Parts, l.face.Panel.Panel.Surface, l.row.Part, heaviest.product, l.goods())
	if q == nil {
		return fewer + ": no part at hand is rated for that much"
	}
	return fmt.Sprintf("use: %s, or %s", q.ID, fewer)
}

// slack is by how much a load worked out in floating point may seem to pass a
// rating it only meets.
const slack = 1 + 1e-9

// worstOfRows is, for each row, its case with the greatest figure, the first of
// those that differ by no more than rounding. Cases of one row stand together.
func worstOfRows[T any](cases []T, of func(*T) (*unit.Row, float64)) []*T {
	var list []*T
	for i := range cases {
		row, figure := of(&cases[i])
		if len(list) > 0 {
			if last, worst := of(list[len(list)-1]); last == row {
				if figure > worst*slack {
					list[len(list)-1] = &cases[i]
				}
				continue
			}
		}
		list = append(list, &cases[i])
	}
	return list
}

// bracketLoad finds the bracket of each row that carries most over its rating.
func bracketLoad(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, worst := range worstOfRows(s.a.Holds, func(c *HoldCase) (*unit.Row, float64) { return c.Row, c.Load }) {
		if worst.Piece.Part.Kind != parts.Bracket || worst.Rated == 0 || worst.Load <= worst.Rated*slack {
			continue
		}
		found = append(found, r.finding(worst.Row.Declared.Span, s.on(worst.Row, worst.Piece),
			fmt.Sprintf("%s under %s at %s carries %s when full, %s %s: %s too much",
				worst.Piece.Part.ID, worst.Row.Part.ID, worst.Row.Address, s.carried(worst.Load), rating(worst.Assumed), s.carried(worst.Rated), s.carried(worst.Load-worst.Rated)),
			"fewer or lighter goods, more brackets, or stronger ones; the maker's rating governs"))
	}
	return found
}

// panelLoad sums what hangs on each panel, on a shared spine from both sides.
func panelLoad(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, f := range s.Unit.Faces {
		if f.Twin == plan.Front {
			continue // its panels are the front's
		}
		for bay := 1; bay <= f.Bays; bay++ {
			load, rated := s.a.panel(f.ID, bay), newtons(f.Panel.Rated)
			twin, behind := s.Face(f.Twin), f.Bays+1-bay
			if twin != nil {
				load += s.a.panel(twin.ID, behind)
			}
			if rated == 0 || load <= rated*slack {
				continue
			}
			where, sides := s.rowsIn(f, bay), ""
			if twin != nil {
				where, sides = append(where, s.rowsIn(twin, behind)...), " from both sides"
			}
			found = append(found, r.finding(s.panelAt(f.ID), where,
				fmt.Sprintf("%s in bay %d of the %s face carries %s%s when full, %s %s: %s too much",
					f.Panel.ID, bay, f.ID, s.carried(load), sides, rating(f.Panel.Assumed), s.carried(rated), s.carried(load-rated)),
				"fewer or lighter goods in that bay, or a stronger panel; the maker's rating governs"))
		}
	}
	return append(found, s.frameLoad(r)...)
}

// frameLoad compares all that hangs on the unit with the frame's rating.
func (s *subject) frameLoad(r Rule) []diag.Finding {
	var load float64
	for _, f := range s.a.Faces {
		load += f.all() * gravity
	}
	rated := newtons(s.Frame.Rated)
	if s.Frame.Frame.Form == parts.WallForm { // which is rated by the bay
		rated *= float64(s.Unit.Faces[0].Bays) / float64(s.Frame.Frame.Bays)
	}
	if rated == 0 || load <= rated*slack {
		return nil
	}
	return []diag.Finding{r.finding(s.Plan.Unit.Frame.At, nil,
		fmt.Sprintf("all that hangs on %s weighs %s when full, %s %s: %s too much",
			s.Frame.ID, s.carried(load), rating(s.Frame.Assumed), s.carried(rated), s.carried(load-rated)),
		"fewer or lighter goods, or a stronger frame; the maker's rating governs")}
}

// panel is the load on one bay of one face, N.
func (a *Assessment) panel(face plan.FaceID, bay int) float64 {
	for _, p := range a.Panels {
		if p.Face == face && p.Bay == bay {
			return p.Load
		}
	}
	return 0
}

// rowsIn is the addresses of the rows that hold on to a bay.
func (s *subject) rowsIn(f *unit.Face, bay int) []string {
	var where []string
	for _, row := range f.Rows {
		holds := func(p *unit.Piece) bool {
			return slices.ContainsFunc(p.Grips, func(g unit.Grip) bool { return bayOf(f, g) == bay })
		}
		if slices.ContainsFunc(row.All(), holds) {
			where = append(where, row.Address)
		}
	}
	return where
}

// bayOf is the bay, from 1, that the middle of a grip lies in.
func bayOf(f *unit.Face, g unit.Grip) int {
	return max(1, min(f.Bays, int((g.X0+g.X1)/2/f.Panel.Width)+1))
}

// panelAt is where the plan names a face's panel.
func (s *subject) panelAt(id plan.FaceID) diag.Span {
	for _, p := range s.Plan.Unit.Panels {
		if p.Face == id {
			return p.Panel.At
		}
	}
	return s.Plan.Unit.At
}

// footLoad judges the most loaded foot.
func footLoad(s *subject, r Rule) []diag.Finding {
	var level, rocking *FootCase
	for i := range s.a.Feet {
		f := &s.a.Feet[i]
		if level == nil || f.Load > level.Load*slack {
			level = f
		}
		if rocking == nil || f.OneOff > rocking.OneOff*slack {
			rocking = f
		}
	}
	if level == nil || level.Rated == 0 {
		return nil
	}
	fix := "lighter goods, an evener spread of them, or a stronger stand; the maker's rating governs"
	where := s.Plan.Unit.Stand.At
	switch {
	case level.Load > level.Rated*slack:
		return []diag.Finding{r.finding(where, nil,
			fmt.Sprintf("the most loaded foot of %s carries %s, %s %s each: %s too much",
				s.Stand.ID, s.carried(level.Load), rating(level.Assumed), s.carried(level.Rated), s.carried(level.Load-level.Rated)), fix)}
	case s.Stand.Stand.Form == "casters" && rocking.OneOff > rocking.Rated*slack: // levellers are screwed down to the floor
		return []diag.Finding{as(diag.Caution, r.finding(where, nil,
			fmt.Sprintf("with one foot off the floor another of %s carries %s, %s %s each: %s too much",
				s.Stand.ID, s.carried(rocking.OneOff), rating(rocking.Assumed), s.carried(rocking.Rated), s.carried(rocking.OneOff-rocking.Rated)), fix))}
	}
	return nil
}
