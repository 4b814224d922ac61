package solve

import "math/rand/v2"

// allotKind says what a made-up unit is like.
type allotKind struct {
	products, rows int
	unit           int64 // every width is a multiple of it, in nanometres
	loads          bool  // rows carry less than their goods could weigh
	families       int   // families that keep an order over the rows, 0: none
	heavyLow       bool  // heavier goods lower, family by family
	must           int   // one product in so many must be placed, 0: none
}

// shopAllot makes the case of dressing a unit of shelves each 48 in wide: products 2
// to 10 in wide with a value for one front that more fronts raise less and less, and
// rows at the eye worth more than others. The seed tells all.
func shopAllot(seed uint64, k allotKind) Allot {
	r := rand.New(rand.NewPCG(seed, 22))
	a := Allot{Products: make([]AllotProduct, k.products)}
	const room = 48 * inch
	for range k.rows {
		row := AllotRow{Room: room}
		if k.loads {
			row.Load = 12_000_000 + int64(r.IntN(8_000_000)) // milligrams
		}
		a.Rows = append(a.Rows, row)
	}
	worth := make([]int64, k.rows) // in percent
	for i := range worth {
		worth[i] = int64(85 + r.IntN(45))
	}
	share := []int64{0, 1000, 1160, 1270, 1350, 1420, 1480} // of a front's value, by fronts
	class := make([]int, k.products)
	for p := range a.Products {
		width := (2*inch + int64(r.IntN(8*inch))) / k.unit * k.unit
		weight := int64(150_000 + r.IntN(1_200_000))
		value := int64(200+r.IntN(1800)) * (50 + width/inch*10)
		class[p] = r.IntN(max(k.families, 1))
		product := &a.Products[p]
		product.Must = k.must > 0 && r.IntN(k.must) == 0
		least := 1 + r.IntN(2)
		for row := range k.rows {
			for n := least; n < least+3+r.IntN(3) && n < len(share); n++ {
				product.Options = append(product.Options, AllotOption{Row: row, Fronts: n, Width: int64(n) * width,
					Weight: int64(n) * weight, Value: value / 100 * worth[row] / 100 * share[n] / 100})
			}
		}
	}
	rank := make([]int, k.rows)
	for i := range rank {
		rank[i] = i
	}
	if k.families > 1 {
		a.Chains = append(a.Chains, Chain{Class: class, Rank: rank})
	}
	if k.heavyLow {
		a.Chains = append(a.Chains, heavyLow(a, class)...)
	}
	return a
}

// heavyLow orders the products of each family into light ones above heavy ones.
func heavyLow(a Allot, family []int) []Chain {
	var chains []Chain
	last := 0
	for _, f := range family {
		last = max(last, f)
	}
	for f := range last + 1 {
		c := Chain{Class: make([]int, len(a.Products)), Rank: make([]int, len(a.Rows))}
		for p := range c.Class {
			o := a.Products[p].Options[0]
			c.Class[p] = -1
			if family[p] == f {
				c.Class[p] = int(o.Weight / int64(o.Fronts) / 500_000)
			}
		}
		for row := range c.Rank {
			c.Rank[row] = row
		}
		chains = append(chains, c)
	}
	return chains
}

// longRow makes the case of one row of 20 m.
func longRow(seed uint64, products int, unit int64, load bool) Allot {
	a := shopAllot(seed, allotKind{products: products, rows: 1, unit: unit, must: 5})
	a.Rows[0].Room = 20_000_000_000
	if load {
		a.Rows[0].Load = int64(products) * 900_000
	}
	return a
}
