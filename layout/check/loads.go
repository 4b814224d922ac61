package check

import (
	"fmt"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// loadRules compare what a piece carries with what it is rated for.
func loadRules() []judged {
	return []judged{
		{Rule{"over-rating", "Rated loads", diag.Stop, "the parts list's rated load",
			"no piece of hardware carries more than it is rated for when every position is full"}, overRating},
	}
}

// overRating finds the first piece of each row that carries too much.
func overRating(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, f := range s.Faces {
		for _, row := range f.Rows {
			if row.Part.Rated > 0 {
				found = append(found, s.overloaded(row, r)...)
			}
		}
	}
	return found
}

func (s *subject) overloaded(row *unit.Row, r Rule) []diag.Finding {
	load := map[*unit.Piece]measure.Mass{}
	where := map[*unit.Piece][]string{}
	for _, pos := range row.Positions {
		last := (*unit.Piece)(nil)
		for _, front := range pos.Fronts {
			load[front.Piece] += measure.Mass(front.Units) * pos.Product.Weight
			if front.Piece != last {
				where[front.Piece] = append(where[front.Piece], pos.Address)
			}
			last = front.Piece
		}
	}
	for _, piece := range row.Pieces {
		if load[piece] > row.Part.Rated {
			return []diag.Finding{s.tooMuch(row, r, load[piece], where[piece])}
		}
	}
	return nil
}

func (s *subject) tooMuch(row *unit.Row, r Rule, load measure.Mass, where []string) diag.Finding {
	sys := s.Plan.Measure
	rating := "rated"
	if row.Part.Assumed {
		rating = "rating assumed:"
	}
	return r.finding(row.Declared.Span, where,
		fmt.Sprintf("%s at %s carries %s when full, %s %s: %s too much",
			row.Part.ID, row.Address, load.Text(sys), rating, row.Part.Rated.Text(sys), (load-row.Part.Rated).Text(sys)),
		"fewer or lighter goods, or a stronger part; the maker's rating governs")
}
