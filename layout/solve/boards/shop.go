package boards

// shop is a job as the solver has it. Every piece is a kerf longer and wider than it
// is and so is what trimming leaves of a board: then parts of a rectangle fit it when
// their sizes add up to no more than its own, whatever the number of cuts.
type shop struct {
	job    *Job
	kinds  []kind
	lies   []lie
	boards []board
	unit   int64 // of costs
	stages int   // endless if any number
}

// endless stands for any number of stages: more than any layout needs.
const endless = 1 << 30

// kind gathers the pieces of one size.
type kind struct {
	size    [2]int64 // along the length and along the width, with kerf
	turn    bool
	count   int
	members []int // indexes into Job.Pieces
}

// lie is a way of laying a kind on a board.
type lie struct {
	kind int
	size [2]int64
}

// board is a board that can hold at least one piece.
type board struct {
	index int // into Job.Boards
	size  [2]int64
	cost  int64 // in parts of the greatest common divisor of all costs
	area  int64 // in some unit, for choosing among plans of one cost
	limit int   // never more than there are pieces
}

// axis is a direction to measure in, and also to name cuts by: cuts that part the
// length have axis along.
type axis int

const (
	along axis = iota
	across
)

func (a axis) other() axis { return 1 - a }

// newShop puts a job in the solver's terms, or says which pieces no board can give.
func newShop(job *Job) (*shop, error) {
	s := &shop{job: job, stages: job.Stages}
	if s.stages == 0 {
		s.stages = endless
	}
	s.gather()
	for i, b := range job.Boards {
		room := [2]int64{b.Length - 2*job.Trim + job.Kerf, b.Width - 2*job.Trim + job.Kerf}
		if b.Limit != 0 && room[along] > job.Kerf && room[across] > job.Kerf {
			s.boards = append(s.boards, board{index: i, size: room, limit: b.Limit})
		}
	}
	if err := s.misfits(); err != nil {
		return nil, err
	}
	s.price()
	return s, nil
}

// gather puts pieces of one size together and lays them every way they may lie.
func (s *shop) gather() {
	for i, p := range s.job.Pieces {
		if p.Count == 0 {
			continue
		}
		size := [2]int64{p.Length + s.job.Kerf, p.Width + s.job.Kerf}
		turn := p.Turn && size[along] != size[across]
		at := 0
		for at < len(s.kinds) && (s.kinds[at].size != size || s.kinds[at].turn != turn) {
			at++
		}
		if at == len(s.kinds) {
			s.kinds = append(s.kinds, kind{size: size, turn: turn})
		}
		s.kinds[at].count += p.Count
		s.kinds[at].members = append(s.kinds[at].members, i)
	}
	for k, of := range s.kinds {
		s.lies = append(s.lies, lie{k, of.size})
		if of.turn {
			s.lies = append(s.lies, lie{k, [2]int64{of.size[across], of.size[along]}})
		}
	}
}

// holds tells whether a board gives a piece of a size within the stages: a cut is
// needed for each direction in which something is left over.
func (s *shop) holds(b board, size [2]int64) bool {
	cuts := 0
	for a := range size {
		if size[a] > b.size[a] {
			return false
		}
		if size[a] < b.size[a] {
			cuts++
		}
	}
	return cuts <= s.stages
}

func (s *shop) held(size [2]int64) bool {
	for _, b := range s.boards {
		if s.holds(b, size) {
			return true
		}
	}
	return false
}

// misfits says which pieces no board gives.
func (s *shop) misfits() error {
	var e FitError
	for i, p := range s.job.Pieces {
		size := [2]int64{p.Length + s.job.Kerf, p.Width + s.job.Kerf}
		turned := s.held([2]int64{size[across], size[along]})
		if p.Count > 0 && !s.held(size) && !(p.Turn && turned) {
			e.Misfits = append(e.Misfits, Misfit{i, turned})
		}
	}
	if len(e.Misfits) > 0 {
		return &e
	}
	return nil
}

// price brings costs, areas and limits to numbers that sums cannot overflow with.
func (s *shop) price() {
	total := 0
	for _, k := range s.kinds {
		total += k.count
	}
	var side [2]int64
	for _, b := range s.boards {
		s.unit = gcd(s.unit, s.job.Boards[b.index].Cost)
		side[along], side[across] = max(side[along], b.size[along]), max(side[across], b.size[across])
	}
	s.unit = max(s.unit, 1)
	for i := range s.boards {
		b := &s.boards[i]
		b.cost = s.job.Boards[b.index].Cost / s.unit
		b.area = (b.size[along] / (side[along]>>18 + 1)) * (b.size[across] / (side[across]>>18 + 1))
		if b.limit < 0 || b.limit > total {
			b.limit = total
		}
	}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// values gives each kind the greatest value of its pieces.
func (s *shop) values(pieces []int64) []int64 {
	value := make([]int64, len(s.kinds))
	for k := range s.kinds {
		for _, p := range s.kinds[k].members {
			value[k] = max(value[k], pieces[p])
		}
	}
	return value
}
