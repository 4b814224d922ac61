package boards

import "math/rand/v2"

// brute finds the least cost of a tiny job by trying every cut at every place. Wanted
// pieces are counted in the digits of a number; sets of such numbers say what a
// rectangle can give.
type brute struct {
	job   Job
	place []int // of each piece, its digit's weight
	total int   // one more than all that is wanted
	memo  map[[4]int][]bool
}

func newBrute(job Job) *brute {
	b := &brute{job: job, total: 1, memo: map[[4]int][]bool{}}
	for _, p := range job.Pieces {
		b.place = append(b.place, b.total)
		b.total *= p.Count + 1
	}
	return b
}

// add joins two numbers of pieces unless one becomes more than is wanted.
func (b *brute) add(p, q int) (sum int, wanted bool) {
	for i, piece := range b.job.Pieces {
		base := piece.Count + 1
		if p/b.place[i]%base+q/b.place[i]%base > piece.Count {
			return 0, false
		}
	}
	return p + q, true
}

// gives lists what a rectangle can give with so many stages, the first of which runs one
// way (1: parts the length).
func (b *brute) gives(length, width, stages, way int) []bool {
	key := [4]int{length, width, stages, way}
	if set := b.memo[key]; set != nil {
		return set
	}
	set := make([]bool, b.total)
	set[0] = true
	for i, p := range b.job.Pieces {
		l, w := int(p.Length), int(p.Width)
		if p.Count > 0 && (l == length && w == width || p.Turn && w == length && l == width) {
			set[b.place[i]] = true
		}
	}
	if stages > 0 {
		b.cut(set, length, width, stages, way)
		for n, found := range b.gives(length, width, stages-1, 1-way) {
			set[n] = set[n] || found
		}
	}
	b.memo[key] = set
	return set
}

func (b *brute) cut(set []bool, length, width, stages, way int) {
	end := width
	if way == 1 {
		end = length
	}
	for at := 1; at < end; at++ {
		rest := end - at - int(b.job.Kerf)
		var low, high []bool
		if way == 1 {
			low, high = b.gives(at, width, stages, way), b.nothing()
			if rest > 0 {
				high = b.gives(rest, width, stages, way)
			}
		} else {
			low, high = b.gives(length, at, stages, way), b.nothing()
			if rest > 0 {
				high = b.gives(length, rest, stages, way)
			}
		}
		for p, is := range low {
			for q, too := range high {
				if is && too {
					if sum, wanted := b.add(p, q); wanted {
						set[sum] = true
					}
				}
			}
		}
	}
}

func (b *brute) nothing() []bool {
	set := make([]bool, b.total)
	set[0] = true
	return set
}

// cost is the least cost of cutting all pieces, or -1.
func (b *brute) cost() int64 {
	stages := b.job.Stages
	if stages == 0 {
		stages = 8 // more than any tiny job needs
	}
	least := make([]int64, b.total) // of cutting so many pieces from the boards so far
	for i := range least {
		least[i] = -1
	}
	least[0] = 0
	for _, board := range b.job.Boards {
		length, width := int(board.Length-2*b.job.Trim), int(board.Width-2*b.job.Trim)
		if length <= 0 || width <= 0 {
			continue
		}
		limit := board.Limit
		if limit < 0 {
			limit = b.total
		}
		for range limit {
			before := append([]int64(nil), least...)
			for way := range 2 {
				for p, found := range b.gives(length, width, stages, way) {
					if found && p > 0 {
						b.extend(least, before, p, board.Cost)
					}
				}
			}
			if equal(before, least) {
				break
			}
		}
	}
	return least[b.total-1]
}

func (b *brute) extend(least, before []int64, p int, cost int64) {
	for q, c := range before {
		if c < 0 {
			continue
		}
		if sum, wanted := b.add(p, q); wanted && (least[sum] < 0 || c+cost < least[sum]) {
			least[sum] = c + cost
		}
	}
}

func equal(a, b []int64) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// tinyJob draws a job that brute can do.
func tinyJob(r *rand.Rand) Job {
	job := Job{Kerf: r.Int64N(3), Trim: r.Int64N(5) / 4, Stages: r.IntN(5)}
	for range 1 + r.IntN(3) {
		job.Boards = append(job.Boards, Board{Length: 4 + r.Int64N(9), Width: 4 + r.Int64N(7), Cost: r.Int64N(6), Limit: r.IntN(5) - 1})
	}
	for range 1 + r.IntN(4) {
		job.Pieces = append(job.Pieces, Piece{Length: 1 + r.Int64N(8), Width: 1 + r.Int64N(6), Count: r.IntN(3), Turn: r.IntN(3) == 0})
	}
	return job
}

// most is the most that the pieces of one board are worth, none taken too often.
func (b *brute) most(value []int64) int64 {
	stages := b.job.Stages
	if stages == 0 {
		stages = 8
	}
	most := int64(0)
	for way := range 2 {
		for n, found := range b.gives(int(b.job.Boards[0].Length), int(b.job.Boards[0].Width), stages, way) {
			sum := int64(0)
			for i, p := range b.job.Pieces {
				sum += int64(n/b.place[i]%(p.Count+1)) * value[i]
			}
			if found {
				most = max(most, sum)
			}
		}
	}
	return most
}
