package parts

// Together returns a list of all parts, stock and suppliers that any of the
// lists has, at least one list. What several have under one id is as the first
// of them has it. The lists themselves are not changed.
func Together(lists ...*List) *List {
	var all *List
	for _, l := range lists {
		if all == nil {
			all = l.clone()
			continue
		}
		all.parts.addMissing(&l.parts)
		all.stock.addMissing(&l.stock)
		all.suppliers.addMissing(&l.suppliers)
	}
	return all
}
