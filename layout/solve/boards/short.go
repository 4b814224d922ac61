package boards

import "fmt"

// ShortError says that the boards there are do not do, and what would.
type ShortError struct {
	Proven  bool   // there is no way to cut all pieces from them; otherwise none was found
	Proof   *Proof // that no numbers of boards within their limits meet all needs, if Proven
	Plan    *Plan  // of the same boards and more of them: cuts all; its costs are those of the added ones
	More    []int  // boards that Plan has beyond their limits, by index into Job.Boards
	Missing []int  // pieces that Plan cuts from those, by index into Job.Pieces
}

func (e *ShortError) Error() string {
	sum := func(list []int) (n int) {
		for _, x := range list {
			n += x
		}
		return n
	}
	found := "were found not to"
	if e.Proven {
		found = "cannot"
	}
	return fmt.Sprintf("boards: all boards together %s do: %d more would give the missing %d pieces", found, sum(e.More), sum(e.Missing))
}

// missing finds which boards beyond their limits would do at the least cost: their own,
// or their area where none has one. Those within their limits cost nothing then.
func (s *shop) missing(effort int64, proof *Proof) error {
	job := *s.job
	job.Boards = nil
	for _, b := range s.job.Boards {
		b.Cost = 0
		job.Boards = append(job.Boards, b)
	}
	priced := false
	for _, b := range s.job.Boards {
		priced = priced || b.Cost > 0
	}
	for _, b := range s.job.Boards {
		if b.Limit = -1; !priced {
			b.Cost = (b.Length>>23 + 1) * (b.Width>>23 + 1)
		}
		job.Boards = append(job.Boards, b)
	}
	plan, err := solve(&job, effort)
	if err != nil {
		return err
	}
	n := len(s.job.Boards)
	plan.Proof = nil // it is of boards that are listed twice
	e := &ShortError{Proven: proof != nil, Proof: proof, Plan: plan, More: make([]int, n), Missing: make([]int, len(job.Pieces))}
	for i := range plan.Layouts {
		l := &plan.Layouts[i]
		if l.Board < n {
			continue
		}
		l.Board -= n
		e.More[l.Board] += l.Times
		l.Root.tally(l.Times, e.Missing)
	}
	return e
}

// tally counts the pieces of a layout that is cut some times.
func (n *Node) tally(times int, to []int) {
	if n.Piece != Offcut {
		to[n.Piece] += times
	}
	for i := range n.Parts {
		n.Parts[i].tally(times, to)
	}
}
