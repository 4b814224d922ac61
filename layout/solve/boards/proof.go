package boards

// Proof shows that no plan costs less than a bound, in whole numbers only. Each cut of
// it gives every piece a value, such that no board can be cut into pieces worth more
// than it is said to hold, however often one piece is taken. The boards of any plan
// must then hold as much as all wanted pieces are worth; that leaves numbers of boards
// within their limits to choose from, and none of them costs less than the bound.
type Proof struct{ Needs []Need }

// Need is one cut of a proof.
type Need struct {
	Value []int64 // of a piece, by index into Job.Pieces
	Holds []int64 // the most a board can be worth, by index into Job.Boards
}

// proof writes the needs out by pieces and boards of the job.
func (s *solver) proof() *Proof {
	p := &Proof{}
	for _, n := range s.needs {
		out := Need{make([]int64, len(s.shop.job.Pieces)), make([]int64, len(s.shop.job.Boards))}
		for k, of := range s.shop.kinds {
			for _, m := range of.members {
				out.Value[m] = n.value[k]
			}
		}
		for b, of := range s.shop.boards {
			out.Holds[of.index] = n.holds[b]
		}
		p.Needs = append(p.Needs, out)
	}
	return p
}
