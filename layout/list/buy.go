package list

import (
	"setwright/layout/buy"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// Items is what a unit needs that can be bought, and how much of it is on hand:
// the lines of its pick list, in that order. What is cut is bought as its stock.
func Items(u *unit.Unit, pick []PickLine, hand []parts.OnHand) []buy.Item {
	held := map[string]int{}
	for _, h := range hand {
		if h.Part != nil {
			held[h.Part.ID] += h.Count
		}
	}
	var items []buy.Item
	for _, line := range pick {
		if p := line.Part; p.Cut == nil {
			items = append(items, buy.Item{ID: p.ID, Name: p.Name, Buying: p.Buy, Needed: line.Quantity, OnHand: held[p.ID]})
		}
	}
	return items
}
