package solve

// Proof shows that no allotment is worth more than a bound.
type Proof struct{ Root *ProofNode }

// ProofNode is one part of the problem.
type ProofNode struct{}

func (s *allotter) proof(bound int64) *Proof { return &Proof{s.root} }

func (r *ProofNode) multiply(p prices, product []int64) {}
func (r *ProofNode) finish()                            {}
func (r *ProofNode) splitRow(p, row int)                {}
func (r *ProofNode) splitCut(k cut)                     {}
func (r *ProofNode) kid(side int) *ProofNode            { return nil }
