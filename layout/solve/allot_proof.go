package solve

// Proof shows that no allotment is worth more than a bound, or that there is none,
// in whole numbers only. It splits the problem into parts until each is done with.
//
// An option could be taken when its row exists, its width and weight are not
// negative and it fits its row on its own. Widths are counted in units of Unit,
// which divides those of all options that could be taken; rooms are rounded down,
// and are no more than the widest options of all products need. Weights are
// counted in Part likewise. Prices and bounds are in parts of 1/Scale of a value.
type Proof struct {
	Scale      int64
	Unit, Part []int64 // by row
	Root       *ProofNode
}

// ProofNode is a part of the problem. First every one of Prices bounds it from
// above, and strikes out the options with which the bound is less than what is
// needed to be worth more than the proven one; so do the chains (what products that
// are sure to be placed leave no room for). Then, unless that is the end of it, all
// that is left open is how each row is filled, or there is a split.
type ProofNode struct {
	Prices []ProofPrices
	Fill   bool          // every row on its own: no product has two rows left
	Cut    *ProofCut     // or: split at a chain
	Row    *ProofRow     // or: split at a product
	Parts  [2]*ProofNode // of a split, nil where the bound of this part is enough
}

// ProofPrices bound a part. Without Product, each product takes the option that is
// worth most after paying for width and weight, and the rows sell all they have.
// With it, each row takes what fits its room and is worth most after paying for
// weight and for the product, once for each, and the products are paid once each.
type ProofPrices struct {
	Room, Load []int64 // of a unit, by row; none negative
	Product    []int64
}

// ProofCut splits a part: either no product of the chain with a class up to Class
// is on a row of a rank over Rank, or none of a greater class is on another.
type ProofCut struct{ Chain, Class, Rank int }

// ProofRow splits a part: either the product is on the row, or it is not.
type ProofRow struct{ Product, Row int }

// proof hands over what was written down.
func (s *allotter) proof() *Proof {
	return &Proof{Scale: s.scale, Unit: s.unitOf, Part: s.partOf, Root: s.root}
}

// multiply writes down prices.
func (s *allotter) multiply(r *ProofNode, p prices, product []int64) {
	if r == nil {
		return
	}
	w := ProofPrices{Room: make([]int64, len(s.rows)), Load: make([]int64, len(s.rows)), Product: append([]int64(nil), product...)}
	for row := range s.rows {
		w.Room[row], w.Load[row] = s.unit(p, row)
	}
	r.Prices = append(r.Prices, w)
}

// finish writes down that each row is filled on its own.
func (r *ProofNode) finish() {
	if r != nil {
		r.Fill = true
	}
}

// splitRow writes a split at a product down and gives its parts.
func (r *ProofNode) splitRow(product, row int) (in, out *ProofNode) {
	if r == nil {
		return nil, nil
	}
	r.Row, r.Parts = &ProofRow{product, row}, [2]*ProofNode{{}, {}}
	return r.Parts[0], r.Parts[1]
}

// writeCut writes a split at a chain down and gives its parts.
func (s *allotter) writeCut(r *ProofNode, k cut) (early, late *ProofNode) {
	if r == nil {
		return nil, nil
	}
	c := s.chains[k.chain]
	r.Cut, r.Parts = &ProofCut{c.number, c.classAt[k.class], c.rankAt[k.rank]}, [2]*ProofNode{{}, {}}
	return r.Parts[0], r.Parts[1]
}
