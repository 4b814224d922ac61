package bars

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"setwright/layout/oracle"
)

// solve solves a job and checks the plan and its proof.
func solve(t testing.TB, job Job, effort int64) (*Plan, error) {
	t.Helper()
	p, err := Solve(job, effort)
	var short *Short
	switch {
	case errors.As(err, &short):
		if err := checkProof(job, short.Proof, -1); err != nil {
			t.Fatalf("%+v: not short: %v", job, err)
		}
	case err == nil:
		if err := checkPlan(job, p); err != nil {
			t.Fatalf("%+v: plan %+v: %v", job, p.Patterns, err)
		}
		if err := checkProof(job, p.Proof, p.Bound); err != nil {
			t.Fatalf("%+v: bound %d: %v", job, p.Bound, err)
		}
	}
	return p, err
}

// randomJob is a small job of any kind there is.
func randomJob(rng *rand.Rand) Job {
	var job Job
	longest := int64(4 + rng.IntN(30))
	if rng.IntN(2) == 0 {
		job.Kerf = int64(rng.IntN(3))
	}
	if rng.IntN(3) == 0 {
		job.Trim = int64(rng.IntN(3))
	}
	costs := rng.IntN(4)
	for range 1 + rng.IntN(3) {
		b := Bar{Length: 1 + rng.Int64N(longest), Limit: -1}
		switch costs {
		case 0:
			b.Cost = b.Length
		case 1:
			b.Cost = int64(rng.IntN(3))
		case 2:
			b.Cost = 1
		default:
			b.Cost = 5 + b.Length*2 + int64(rng.IntN(5))
		}
		if rng.IntN(3) == 0 {
			b.Limit = rng.IntN(4)
		}
		job.Bars = append(job.Bars, b)
	}
	left := 1 + rng.IntN(8)
	for left > 0 {
		n := rng.IntN(min(left, 4) + 1)
		job.Pieces = append(job.Pieces, Piece{1 + rng.Int64N(longest*2/3), n})
		left -= max(n, 1)
	}
	return job
}

// bruteForce finds the least cost and then length of a job by trying every pattern
// for a bar that holds the first piece left.
func bruteForce(job Job) (best [2]int64, found bool) {
	need, stock := make([]int, len(job.Pieces)), make([]int, len(job.Bars))
	for i, p := range job.Pieces {
		need[i] = p.Count
	}
	for b, bar := range job.Bars {
		stock[b] = bar.Limit
	}
	known := map[string][2]int64{}
	const none = int64(1) << 60
	var least func() [2]int64
	least = func() [2]int64 {
		first := slices.IndexFunc(need, func(n int) bool { return n > 0 })
		if first < 0 {
			return [2]int64{}
		}
		key := fmt.Sprint(need, stock)
		if v, found := known[key]; found {
			return v
		}
		best := [2]int64{none, none}
		for b, bar := range job.Bars {
			if stock[b] == 0 {
				continue
			}
			stock[b]--
			var fill func(i int, left int64)
			fill = func(i int, left int64) {
				if i == len(need) {
					rest := least()
					rest[0] += bar.Cost
					rest[1] += bar.Length
					if rest[0] < best[0] || rest[0] == best[0] && rest[1] < best[1] {
						best = rest
					}
					return
				}
				fill(i+1, left)
				if w := job.Pieces[i].Length + job.Kerf; need[i] > 0 && w <= left {
					need[i]--
					fill(i, left-w)
					need[i]++
				}
			}
			if w := job.Pieces[first].Length + job.Kerf; w <= bar.Length-job.Trim+job.Kerf {
				need[first]--
				fill(first, bar.Length-job.Trim+job.Kerf-w)
				need[first]++
			}
			stock[b]++
		}
		known[key] = best
		return best
	}
	best = least()
	return best, best[0] < none
}

func TestBruteForce(t *testing.T) {
	cases := uint64(6000)
	if oracle.Racing {
		cases = 300
	}
	count := map[string]int{}
	for seed := range cases {
		job := randomJob(rand.New(rand.NewPCG(seed, 1)))
		want, found := bruteForce(job)
		p, err := solve(t, job, 0)
		var short *Short
		var long *TooLong
		switch {
		case err == nil:
			if !found || p.Cost != want[0] || !p.Proven {
				t.Fatalf("seed %d: %+v: cost %d (proven %v), want %v", seed, job, p.Cost, p.Proven, want)
			}
			if p.Length < want[1] || p.Shortest && p.Length != want[1] {
				t.Fatalf("seed %d: %+v: length %d, want %v", seed, job, p.Length, want)
			}
			if !p.Shortest {
				count["not shortest"]++
			}
			count["plan"]++
		case errors.As(err, &short):
			if found {
				t.Fatalf("seed %d: %+v: want %v: %v", seed, job, want, err)
			}
			checkShort(t, job, short)
			count["short"]++
		case errors.As(err, &long):
			if found || !isLong(job, long.Pieces) {
				t.Fatalf("seed %d: %+v: want %v: %v", seed, job, want, err)
			}
			count["long"]++
		default:
			t.Fatalf("seed %d: %+v: %v", seed, job, err)
		}
	}
	t.Log(count)
}

// TestStocked checks jobs too large for brute force, with kerf, trim, bars at hand
// and bars to buy: all can be closed.
func TestStocked(t *testing.T) {
	cases, short := uint64(200), 0
	if oracle.Racing {
		cases = 20
	}
	for seed := range cases {
		rng := rand.New(rand.NewPCG(seed, 2))
		job := Job{Kerf: rng.Int64N(4), Trim: rng.Int64N(3) * 5}
		for range 1 + rng.IntN(6) {
			b := Bar{Length: 200 + rng.Int64N(600), Limit: -1}
			if b.Cost = b.Length/10 + rng.Int64N(10); rng.IntN(4) == 0 {
				b.Cost, b.Limit = 0, rng.IntN(6)
			} else if rng.IntN(3) == 0 {
				b.Limit = rng.IntN(6)
			}
			job.Bars = append(job.Bars, b)
		}
		for range 3 + rng.IntN(15) {
			job.Pieces = append(job.Pieces, Piece{30 + rng.Int64N(150), 1 + rng.IntN(6)})
		}
		p, err := solve(t, job, 0)
		if _, ok := errors.AsType[*Short](err); ok {
			short++
		} else if err != nil || !p.Proven || !p.Shortest {
			t.Errorf("seed %d: %+v: %+v, %v", seed, job, p, err)
		}
	}
	if short == 0 || short > int(cases)/2 {
		t.Errorf("the cases are one-sided: %d of %d are short", short, cases)
	}
}

// checkShort checks that the stock with what is missing is enough.
func checkShort(t *testing.T, job Job, short *Short) {
	t.Helper()
	if !short.Proven {
		t.Fatalf("%+v: not known what is missing: %+v", job, short)
	}
	more, less := job, job
	more.Bars, less.Pieces = slices.Clone(job.Bars), slices.Clone(job.Pieces)
	for b, n := range short.More {
		if n > 0 {
			more.Bars[b].Limit += n
		}
	}
	for i, n := range short.Missing {
		less.Pieces[i].Count -= n
	}
	if _, found := bruteForce(more); !found {
		t.Fatalf("%+v: %v more are not enough", job, short.More)
	}
	if _, found := bruteForce(less); !found {
		t.Fatalf("%+v: %v fewer are still too many", job, short.Missing)
	}
}

// isLong says whether exactly these pieces are longer than all bars.
func isLong(job Job, pieces []int) bool {
	for i, p := range job.Pieces {
		long := p.Count > 0
		for _, b := range job.Bars {
			long = long && p.Length > b.Length-job.Trim
		}
		if long != slices.Contains(pieces, i) {
			return false
		}
	}
	return true
}
