package list

import (
	"setwright/layout/buy"
	"setwright/layout/parts"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// Items is what a unit needs that can be bought, and how much of it is on hand:
// the lines of its pick list, then what the parts that are cut are sawn from, by
// size. Off-cuts that are used up are among them, and pieces that are cut already,
// as nothing to buy.
func Items(u *unit.Unit, pick []PickLine, cuts []saw.Plan, hand []parts.OnHand) []buy.Item {
	held := map[string]int{}
	for _, h := range hand {
		if h.Part != nil {
			held[h.Part.ID] += h.Count
		}
	}
	var items []buy.Item
	for _, line := range pick {
		p := line.Part
		item := buy.Item{ID: p.ID, Name: p.Name, Buying: p.Buy, Needed: line.Quantity, OnHand: held[p.ID]}
		if p.Cut != nil {
			if item.OnHand == 0 {
				continue
			}
			item.Buying, item.Needed, item.Made = parts.Buying{}, min(item.Needed, item.OnHand), true
		}
		items = append(items, item)
	}
	for i := range cuts {
		items = append(items, StockItems(&cuts[i])...)
	}
	return items
}

// StockItems is what a cutting plan is sawn from, by size. Off-cuts that are
// used up are among it, as nothing to buy.
func StockItems(cut *saw.Plan) []buy.Item {
	items := make([]buy.Item, len(cut.Used))
	for i, use := range cut.Used {
		stock := cut.Job.Stock
		items[i] = buy.Item{ID: stock.ID, Name: stock.Name, Length: use.Length, Width: use.Width,
			Needed: use.OnHand + use.Bought, OnHand: use.OnHand, Made: use.Size < 0}
		if use.Size >= 0 {
			items[i].Buying = stock.Sizes[use.Size].Buy
		}
	}
	return items
}
