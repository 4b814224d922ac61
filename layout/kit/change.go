package kit

import (
	"slices"
	"strings"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/saw"
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

// Change is what is done before one season.
type Change struct {
	Cuts     []saw.Plan // by stock, in the order of the lines
	Purchase buy.Purchase
}

// Total is what the purchases before all seasons cost, delivered.
func (k *Kit) Total() measure.Money { return total(k.Changes) }

func total(changes []Change) measure.Money {
	var sum measure.Money
	for i := range changes {
		sum += changes[i].Purchase.Total
	}
	return sum
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
// less over all seasons, and none as cheap leaves fewer pieces lying about. Each
// order is then settled exactly, as buy.Plan does. Where one would have to be
// filled up with what no season needs, to reach a minimum or free delivery, it
// takes what later seasons need of that supplier if that costs less (lookAhead).
// Orders are not joined only to save freight: AtOnce tells what the most that
// could save is.
func Make(seasons []Season, hand []parts.OnHand) (*Kit, []diag.Finding) {
	list, system := listOf(seasons), seasons[0].Unit.Plan.Measure
	year := newBuyer(lines(seasons, hand), list, system, hand)
	changes, bought := year.year(seasons)
	if short := filled(changes); short != nil {
		again := newBuyer(lines(seasons, hand), list, system, hand)
		for _, id := range short {
			s, _ := list.Supplier(id)
			again.ahead[id] = lookAhead(again.lines, changes, id, s.Minimum)
		}
		if anew, found := again.year(seasons); total(anew) < total(changes) {
			year, changes, bought = again, anew, found
		}
	}
	number(changes)
	k := &Kit{Seasons: seasons, Lines: year.lines, Changes: changes}
	once, notes := newBuyer(k.Lines, list, system, hand).all()
	k.AtOnce = once
	return k, slices.Concat(agree(seasons), bought, said(&seasons[0], notes, false))
}

// number numbers the patterns of all seasons throughout, so that no two off-cuts
// in the stockroom have one name.
func number(changes []Change) {
	var cuts []saw.Plan
	for _, c := range changes {
		cuts = append(cuts, c.Cuts...)
	}
	saw.Number(cuts) // the patterns are shared with the changes
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
