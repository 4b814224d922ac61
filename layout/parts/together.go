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
		for _, p := range l.All() {
			if _, there := all.Find(p.ID); !there {
				all.put(p)
			}
		}
		all.stock.addMissing(&l.stock)
		all.suppliers.addMissing(&l.suppliers)
	}
	return all
}

func (s *shelf[T]) addMissing(from *shelf[T]) {
	for _, id := range from.order {
		if _, there := s.byID[id]; !there {
			s.put(id, from.byID[id])
		}
	}
}
