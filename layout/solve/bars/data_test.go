package bars

import (
	"fmt"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// published is an instance with the bounds of its cost that were published.
type published struct {
	name         string
	job          Job
	lower, upper int64
}

// readSingle reads a set of instances with one length of bar, of cost 1 (BPPLIB,
// Delorme, Iori and Martello 2018).
func readSingle(t testing.TB, set string) (all []published) {
	t.Helper()
	for line := range strings.Lines(oracle.Shared(t, "1d", "optima.tsv")) {
		var of, name string
		var items int
		var p published
		if n, _ := fmt.Sscan(line, &of, &name, &items, &p.lower, &p.upper); n != 5 || of != set {
			continue
		}
		p.name = name
		in := strings.NewReader(oracle.Shared(t, "1d", set, name+".txt"))
		var kinds int
		bar := Bar{Cost: 1, Limit: -1}
		fmt.Fscan(in, &kinds, &bar.Length)
		p.job = Job{Bars: []Bar{bar}, Pieces: readPieces(t, in, kinds)}
		all = append(all, p)
	}
	return all
}

// readMulti reads the instances with several lengths of bars at prices.
func readMulti(t testing.TB) (all []published) {
	t.Helper()
	for line := range strings.Lines(oracle.Shared(t, "1d_multi", "optima.txt")) {
		var p published
		var state string // OPT, or open
		if n, _ := fmt.Sscanf(line, "%s %s LB %d UB %d", &p.name, &state, &p.lower, &p.upper); n != 4 {
			t.Fatalf("optima.txt: %q", line)
		}
		p.job = readJob(t, oracle.Shared(t, "1d_multi", p.name))
		all = append(all, p)
	}
	return all
}

// readJob reads the numbers of bars and kinds of pieces, a line for each bar with
// length and cost, and one for each kind with length and count.
func readJob(t testing.TB, text string) (job Job) {
	t.Helper()
	in := strings.NewReader(text)
	var bars, kinds int
	fmt.Fscan(in, &bars, &kinds)
	for range bars {
		b := Bar{Limit: -1}
		fmt.Fscan(in, &b.Length, &b.Cost)
		job.Bars = append(job.Bars, b)
	}
	job.Pieces = readPieces(t, in, kinds)
	return job
}

func readPieces(t testing.TB, in *strings.Reader, kinds int) (pieces []Piece) {
	t.Helper()
	for range kinds {
		var p Piece
		if n, err := fmt.Fscan(in, &p.Length, &p.Count); n != 2 {
			t.Fatal(err)
		}
		pieces = append(pieces, p)
	}
	return pieces
}

// singles are the sets with one length of bar that are closed throughout, and how
// many instances each has.
var singles = []struct {
	set       string
	instances int
}{
	{"falkenauer_u", 20}, {"falkenauer_t", 40}, {"scholl1", 540}, {"scholl2", 360},
	{"schwerin1", 100}, {"schwerin2", 100}, {"random", 1440}, {"waescher", 15},
}

// TestPublished wants every instance closed at what was published, with a plan and a
// proof that hold.
func TestPublished(t *testing.T) {
	check := func(t *testing.T, all []published, instances int) {
		if len(all) != instances {
			t.Fatalf("%d instances, want %d", len(all), instances)
		}
		for _, p := range all {
			got, err := solve(t, p.job, StepsPerSecond)
			if err != nil {
				t.Errorf("%s: %v", p.name, err)
			} else if !got.Proven || got.Cost < p.lower || got.Cost > p.upper {
				t.Errorf("%s: cost %d, bound %d; published %d to %d", p.name, got.Cost, got.Bound, p.lower, p.upper)
			}
		}
	}
	for _, s := range singles {
		t.Run(s.set, func(t *testing.T) {
			alone(t)
			if s.instances > 100 {
				oracle.Long(t)
			}
			check(t, readSingle(t, s.set), s.instances)
		})
	}
	t.Run("multi", func(t *testing.T) {
		alone(t)
		check(t, readMulti(t), 50)
	})
}

// TestHard28 wants bounds and plans of the hardest set (Schoenfield 2002) to hold
// with what is published even where a small effort does not close the gap.
func TestHard28(t *testing.T) {
	oracle.Long(t)
	alone(t)
	closed := 0
	for _, p := range readSingle(t, "hard28") {
		got, err := solve(t, p.job, StepsPerSecond)
		if err != nil {
			t.Errorf("%s: %v", p.name, err)
			continue
		}
		if got.Bound > p.upper || got.Cost < p.lower {
			t.Errorf("%s: cost %d, bound %d; published %d to %d", p.name, got.Cost, got.Bound, p.lower, p.upper)
		}
		if got.Proven {
			closed++
		}
	}
	if closed < 24 {
		t.Errorf("%d closed, want 24 at least", closed)
	}
}

// alone ends a long test of one goroutine, in which the race detector would find
// nothing but take minutes.
func alone(t *testing.T) {
	t.Helper()
	if oracle.Racing {
		t.Skip("takes minutes under the race detector")
	}
}
