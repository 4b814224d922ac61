package boards

// pricer finds the most that single boards can give when each kind of piece has a
// value, none limited in number.
type pricer interface {
	price(value []int64)    // none negative
	best(b int) int64       // the most a board can give, at the values last priced
	layouts(b int) []*block // ways to come to it, or nearly: one or more if it is over 0
}

// newPricer chooses the pricer for a shop's stages.
func newPricer(g *grid, steps *int64) pricer {
	if g.shop.stages > manyStages {
		return newFree(g, steps)
	}
	return newStaged(g, g.shop.stages, steps)
}

// manyStages is the number beyond which tables by stage cost more than they are worth;
// a bound without stages is a bound with them too, but its layouts may be too deep.
const manyStages = 6
