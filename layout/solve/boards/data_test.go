package boards

import (
	"fmt"
	"strings"
	"testing"
)

// sheet is an instance of cutting the most valuable pieces from one board.
type sheet struct {
	job   Job
	value []int64 // by piece
}

// readSheet reads an instance in the format of OR-Library: the number of pieces, the
// board, and of each piece length, width, how many at most (if limited) and value.
func readSheet(t testing.TB, text string, limited bool) sheet {
	t.Helper()
	in := strings.NewReader(text)
	next := func() (n int64) {
		if _, err := fmt.Fscan(in, &n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	n := next()
	s := sheet{job: Job{Boards: []Board{{Length: next(), Width: next(), Cost: 1, Limit: -1}}}}
	for range n {
		p := Piece{Length: next(), Width: next()}
		if p.Count = 1; limited {
			p.Count = int(next())
		}
		s.job.Pieces = append(s.job.Pieces, p)
		s.value = append(s.value, next())
	}
	return s
}

// unlimited allows as many of each piece as could lie on a board.
func (s *sheet) unlimited() {
	for i, p := range s.job.Pieces {
		b := s.job.Boards[0]
		s.job.Pieces[i].Count = int(max(b.Length/p.Length, 1) * max(b.Width/p.Width, 1))
	}
}
