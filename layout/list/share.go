package list

import (
	"setwright/layout/buy"
	"setwright/layout/measure"
	"setwright/layout/saw"
)

// What lists of several units share with those of one.

// InWalkingOrder compares two pick lines, of whatever units, by where the walk
// through the stockroom meets them: it is below zero if that is a first.
func InWalkingOrder(a, b PickLine) int { return compare(&a, &b) }

// StockItems is what a cutting plan is sawn from, by size. Off-cuts that are
// used up are among it, as nothing to buy.
func StockItems(cut *saw.Plan, system measure.System) []buy.Item {
	items := make([]buy.Item, len(cut.Used))
	for i, use := range cut.Used {
		items[i] = stockItem(cut, use, system)
	}
	return items
}
