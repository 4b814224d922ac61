package bars

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// sharedData is where open benchmark data lies beside the working tree.
const sharedData = "../../../../shared/data"

// published is an instance with the bounds of its cost that were published.
type published struct {
	name         string
	job          Job
	lower, upper int64
}

// readShared opens a file of the open benchmark data, or skips the test.
func readShared(t testing.TB, elems ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(append([]string{sharedData}, elems...)...))
	if err != nil {
		t.Skipf("open benchmark data is not here: %v", err)
	}
	return string(text)
}

// readSingle reads a set of instances with one length of bar, of cost 1 (BPPLIB,
// Delorme, Iori and Martello 2018).
func readSingle(t testing.TB, set string) (all []published) {
	t.Helper()
	for line := range strings.Lines(readShared(t, "1d", "optima.tsv")) {
		var of, name string
		var items int
		var p published
		if n, _ := fmt.Sscan(line, &of, &name, &items, &p.lower, &p.upper); n != 5 || of != set {
			continue
		}
		p.name = name
		in := strings.NewReader(readShared(t, "1d", set, name+".txt"))
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
	for line := range strings.Lines(readShared(t, "1d_multi", "optima.txt")) {
		var p published
		var state string // OPT, or open
		if n, _ := fmt.Sscanf(line, "%s %s LB %d UB %d", &p.name, &state, &p.lower, &p.upper); n != 4 {
			t.Fatalf("optima.txt: %q", line)
		}
		in := strings.NewReader(readShared(t, "1d_multi", p.name))
		var bars, kinds int
		fmt.Fscan(in, &bars, &kinds)
		for range bars {
			b := Bar{Limit: -1}
			fmt.Fscan(in, &b.Length, &b.Cost)
			p.job.Bars = append(p.job.Bars, b)
		}
		p.job.Pieces = readPieces(t, in, kinds)
		all = append(all, p)
	}
	return all
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
