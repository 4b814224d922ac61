package kit

import (
	"strings"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// Kit is one unit over several seasons. It is complete when Make returns it and
// is not changed afterwards.
type Kit struct {
	Seasons []Season
	Lines   []Line   // in walking order
	Changes []Change // one before each season

	// AtOnce is the purchase if all is bought before the first season.
	AtOnce buy.Purchase
}

// Total is what the purchases before all seasons cost, delivered.
func (k *Kit) Total() measure.Money {
	var total measure.Money
	for _, c := range k.Changes {
		total += c.Purchase.Total
	}
	return total
}

// Currency is the first that any plan names, "" if none does.
func (k *Kit) Currency() string {
	for _, s := range k.Seasons {
		if c := s.Unit.Plan.Currency; c != "" {
			return c
		}
	}
	return ""
}

// Make plans the kit of seasons that follow one another as given, at least one,
// each with its name, from what is on hand before the first.
//
// A part is bought when a season first needs more of it than there are. Which
// packs of it are bought when is exact: no other purchase of the part costs
// less over all seasons, and none as cheap leaves fewer pieces lying about.
// Freight, least orders and free delivery are then settled order by order, each
// exactly. Orders are not moved from one season to another to save freight;
// AtOnce tells what the most that could save is.
func Make(seasons []Season, hand []parts.OnHand) (*Kit, []diag.Finding) {
	k := &Kit{Seasons: seasons, Lines: lines(seasons, hand)}
	found := agree(seasons)
	list, system := listOf(seasons), seasons[0].Unit.Plan.Measure
	year := newBuyer(k.Lines, list, system, hand)
	for t := range seasons {
		change, more := year.change(t)
		k.Changes = append(k.Changes, change)
		found = append(found, said(&seasons[t], more, true)...)
	}
	once, more := newBuyer(k.Lines, list, system, hand).all()
	k.AtOnce = once
	return k, append(found, said(&seasons[0], more, false)...)
}

// said is what buying and sawing found that is about one season, with its name,
// or else what holds for all of them: notes on prices and stock.
func said(s *Season, found []diag.Finding, seasonal bool) []diag.Finding {
	var list []diag.Finding
	for _, f := range found {
		if own := f.Level > diag.Note || strings.HasPrefix(f.Code, "order-"); own != seasonal {
			continue
		}
		if f.At = s.file(); seasonal {
			f.Message = "before " + s.Name + ": " + f.Message
		}
		list = append(list, f)
	}
	return list
}

// listOf is the parts of all seasons; where they disagree, the first holds.
func listOf(seasons []Season) *parts.List {
	lists := make([]*parts.List, len(seasons))
	for i, s := range seasons {
		lists[i] = s.Unit.Parts
	}
	return parts.Together(lists...)
}
