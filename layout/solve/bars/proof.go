package bars

// Proof shows that no plan costs less than the plan's Bound, in whole numbers. The
// kinds it speaks of are the lengths wanted at all, each once, longest first.
//
// Worths of kinds make a cut on sets of bars: let a bar be worth what its best
// pattern is; then bars that are together worth less than all pieces cannot make
// them. No set of bars that keeps all Cuts, is not part of an Excluded one and is
// within the limits costs less than Bound. There is no need to look at more bars of a
// kind than pieces fit it, nor at bars for which others can stand in, of which there is any
// number, that hold as much and cost no more. Equal bars are counted with the first of them.
type Proof struct {
	Cuts     [][]int64 // worths by kind
	Excluded []Excluded
}

// Excluded is a number of bars of each kind of the job, at most, from which the
// pieces cannot be made, though no cut shows it.
type Excluded struct {
	Bars []int64
	Tree *Node
}

// Node shows that pieces cannot be made from the bars of an Excluded. Either the
// worths do, or there is a pair of kinds: Together, one bar holds a piece of each
// (two of the kind, if they are the same); Apart, none does.
//
// Together, one piece of each makes way for a piece of a new kind, as long as both,
// that is numbered after all kinds so far and may not be on a bar with what either
// of the two may not be with.
type Node struct {
	Worth           []int64
	Pair            [2]int
	Together, Apart *Node
}
