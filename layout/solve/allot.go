package solve

import "slices"

// Allot is the problem of giving products fronts on rows. Every product takes at
// most one of its options, so that its fronts stand side by side; the options
// taken keep within each row's room and load, and the products keep the order of
// every chain. The total value is greatest.
//
// Widths and rooms are in one unit and weights and loads in one; each sum of what
// could be taken stays below 1<<55. Options that name no row, or that are
// negative in width or weight, are never taken.
type Allot struct {
	Rows      []AllotRow
	Products  []AllotProduct
	Chains    []Chain
	Effort    int64 // how many steps the search may take (StepsPerSecond), 0: until it is proven
	WantProof bool  // fill in Allotment.Proof
}

// AllotRow is one row that products can be given to.
type AllotRow struct {
	Room int64 // for the widths
	Load int64 // for the weights, 0: no limit
}

// AllotProduct is one product and the ways in which it can be placed.
type AllotProduct struct {
	Must    bool // exactly one option, not at most one
	Options []AllotOption
}

// AllotOption is one way to place a product.
type AllotOption struct {
	Row, Fronts          int
	Width, Weight, Value int64
}

// Chain orders products over rows: of two products of the chain on rows of
// different rank, the one on the row of lower rank has a class that is not
// greater. Rows of equal rank are unordered.
type Chain struct {
	Class []int // by product; negative: not in the chain
	Rank  []int // by row
}

// Allotment is an answer with what is proven about it.
type Allotment struct {
	Chosen []int  // by product: index into its Options, -1 left out
	Value  int64  // of the options chosen
	Bound  int64  // no allotment is worth more; equal to Value when that is proven best
	Steps  int64  // that the search took
	Proof  *Proof // of Bound, when asked for
}

// StepsPerSecond tells callers who think in seconds what Effort to give: about
// so many steps take a second, on small units half as long, on a virtual machine with
// AMD EPYC cores. A step is one look at one cell of a row's table.
const StepsPerSecond = 1_500_000_000

// looks is how many steps it takes to look at an option.
const looks = 6

// Solve finds the best allotment, or the best it can within Effort. It tells false
// when the products that must be placed cannot all be. The effort is exceeded
// where that has to be settled first, and where there is one row only, which is
// always solved to the end.
//
// The method is branch and bound. Two relaxations bound a node from above, both
// with whole multipliers, so that every bound is exact: prices on the rows' rooms
// and loads, with which each product chooses for itself, and prices on the
// products, with which each row fills itself by dynamic programming (Lagrangian
// relaxation of the generalised assignment problem: M. L. Fisher, Management
// Science 27, 1981). Options that a bound shows to lead to nothing better are struck
// out; what is left is small. (M. Posta, J. A. Ferland and P. Michelon, Computational
// Optimization and Applications 52, 2012; cited from memory.)
func (a *Allot) Solve() (Allotment, bool) {
	s := newAllotter(a)
	if len(s.rows) == 1 && len(s.chains) == 0 {
		s.solveRow()
	} else {
		s.search(s.beginning(), &s.open, s.effort)
	}
	answer := Allotment{Chosen: make([]int, len(a.Products)), Bound: s.bound(), Steps: s.steps}
	if a.WantProof {
		answer.Proof = s.proof()
	}
	if s.best == nil {
		answer.Chosen = nil
		return answer, false
	}
	for p, o := range s.best {
		answer.Chosen[p] = s.options[o].index
	}
	answer.Value = s.value
	return answer, true
}

// class of a product in the chain, negative when it is not in it.
func (c Chain) class(product int) int {
	if product >= len(c.Class) {
		return -1
	}
	return c.Class[product]
}

// rank of a row in the chain.
func (c Chain) rank(row int) int {
	if row >= len(c.Rank) {
		return 0
	}
	return c.Rank[row]
}

// levels lists the values that are there, each once, ascending.
func levels(values []int) []int {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	return slices.Compact(sorted)
}

// place of a value among ascending ones, -1 when it is not there.
func place(sorted []int, value int) int {
	if at, found := slices.BinarySearch(sorted, value); found {
		return at
	}
	return -1
}
