package kit

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/parts"
)

// OnHand is what is on hand before the first season where nothing else says:
// what the first plan that names stock files says. There is one stockroom, so
// the plans' figures are not added up; a finding tells where they differ.
func OnHand(seasons []Season) ([]parts.OnHand, []diag.Finding) {
	var first *Season
	var found []diag.Finding
	for i := range seasons {
		s := &seasons[i]
		switch {
		case len(s.OnHand) == 0:
		case first == nil:
			first = s
		case !slices.EqualFunc(first.OnHand, s.OnHand, sameHand):
			found = append(found, diag.Finding{Level: diag.Caution, Code: "another-stockroom", At: s.file(),
				Message:  fmt.Sprintf("the plan's stock files say something else than those of %s, which hold for all", first.Name),
				Expected: "one stockroom for all plans"})
		}
	}
	if first == nil {
		return nil, nil
	}
	return first.OnHand, found
}

func sameHand(a, b parts.OnHand) bool {
	id := func(h parts.OnHand) string {
		if h.Part != nil {
			return h.Part.ID
		}
		return h.Stock.ID
	}
	return id(a) == id(b) && (a.Part == nil) == (b.Part == nil) && a.Length == b.Length && a.Width == b.Width && a.Count == b.Count
}

// LoadOnHand reads a stock file for all seasons at once, as parts.LoadOnHand
// does: what any of their parts lists knows is taken.
func LoadOnHand(seasons []Season, file string, text []byte, found *diag.List) []parts.OnHand {
	return parts.LoadOnHand(listOf(seasons), file, text, seasons[0].Unit.Plan.Measure, found)
}
