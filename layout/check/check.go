// Package check judges a dressed unit by rules and says what it finds, with
// the rule's source. It measures nothing itself: places are the unit's.
package check

import (
	"fmt"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// Run applies every rule and returns what they find, in the order of the
// unit's faces and rows.
func Run(u *unit.Unit) []diag.Finding {
	var found []diag.Finding
	for _, f := range u.Faces {
		for _, row := range f.Rows {
			found = append(found, loads(u, row)...)
		}
	}
	return found
}

// loads compares what each piece of a row carries, when full, with its rating.
func loads(u *unit.Unit, row *unit.Row) []diag.Finding {
	if row.Part.Rated == 0 {
		return nil
	}
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
			return []diag.Finding{overRating(u, row, load[piece], where[piece])}
		}
	}
	return nil
}

func overRating(u *unit.Unit, row *unit.Row, load measure.Mass, where []string) diag.Finding {
	sys := u.Plan.Measure
	rating := "rated"
	if row.Part.Assumed {
		rating = "rating assumed:"
	}
	return diag.Finding{
		Level: diag.Stop, Code: "over-rating", At: row.Declared.Span, Where: where,
		Message: fmt.Sprintf("%s at %s carries %s when full, %s %s: %s too much",
			row.Part.ID, row.Address, load.Text(sys), rating, row.Part.Rated.Text(sys), (load - row.Part.Rated).Text(sys)),
		Fix:    "fewer or lighter goods, or a stronger part; the maker's rating governs",
		Source: "the parts list's rated load",
	}
}
