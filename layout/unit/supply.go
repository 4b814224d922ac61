package unit

// supply works out, for every position, the whole cases it takes and how long
// all positions of its product last.
func supply(u *Unit) {
	held := make(map[string]int) // by SKU
	visit := func(with func(*Position)) {
		for _, f := range u.Faces {
			for _, row := range f.Rows {
				for _, pos := range row.Positions {
					with(pos)
				}
			}
		}
	}
	visit(func(pos *Position) { held[pos.Product.SKU] += pos.Units })
	visit(func(pos *Position) {
		p := pos.Product
		pos.Days = -1
		if p.Weekly > 0 {
			pos.Days = held[p.SKU] * 7 / p.Weekly
		}
		if p.Case > 0 {
			pos.Cases = pos.Units / p.Case
		}
	})
}
