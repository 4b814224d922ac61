package solve

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"setwright/layout/oracle"
)

// allotProgram states a case as an integer program: one variable for each option, and
// for each pair of products of a chain and each rank that not both are on the wrong
// side of it.
func allotProgram(a Allot) program {
	var p program
	var objective sum
	widths, weights := make([]sum, len(a.Rows)), make([]sum, len(a.Rows))
	var names [][]string
	for i, product := range a.Products {
		var one sum
		names = append(names, nil)
		for j, o := range product.Options {
			name := fmt.Sprintf("x_%d_%d", i, j)
			names[i] = append(names[i], name)
			p.binary = append(p.binary, name)
			one = append(one, term{1, name})
			objective = append(objective, term{-o.Value, name})
			widths[o.Row] = append(widths[o.Row], term{o.Width, name})
			weights[o.Row] = append(weights[o.Row], term{o.Weight, name})
		}
		op := "<="
		if product.Must {
			op = "="
		}
		p.add(one, op, 1)
	}
	for r, row := range a.Rows {
		p.add(widths[r], "<=", row.Room)
		if row.Load > 0 {
			p.add(weights[r], "<=", row.Load)
		}
	}
	for _, c := range a.Chains {
		for i := range a.Products {
			for j := range a.Products {
				if c.Class[i] < 0 || c.Class[i] >= c.Class[j] {
					continue
				}
				for _, rank := range c.Rank {
					var wrong sum
					for k, o := range a.Products[i].Options {
						if c.Rank[o.Row] > rank {
							wrong = append(wrong, term{1, names[i][k]})
						}
					}
					early := len(wrong)
					for k, o := range a.Products[j].Options {
						if c.Rank[o.Row] <= rank {
							wrong = append(wrong, term{1, names[j][k]})
						}
					}
					if early > 0 && early < len(wrong) {
						p.add(wrong, "<=", 1)
					}
				}
			}
		}
	}
	return p.aim(objective)
}

// peerAnswer is what a general solver found within its time: bounds of the least
// objective, the upper one only if it has a solution.
type peerAnswer struct {
	lower, upper float64
	found        bool
	took         time.Duration
}

const allotHiGHS = `
import sys, time, highspy
limit = float(sys.argv[1])
for path in sys.argv[2:]:
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.0)
    h.setOptionValue("threads", 1)
    h.setOptionValue("time_limit", limit)
    h.readModel(path)
    start = time.time()
    h.run()
    took = time.time() - start
    i, s = h.getInfo(), h.getModelStatus()
    if s == highspy.HighsModelStatus.kInfeasible:
        print("answer", 1e30, 1e30, 0, took)
        continue
    assert s in (highspy.HighsModelStatus.kOptimal, highspy.HighsModelStatus.kTimeLimit), (path, s)
    found = i.primal_solution_status == 2
    print("answer", repr(float(i.mip_dual_bound)), repr(float(i.objective_function_value)), int(found), took)
`

// askAllotHiGHS has HiGHS work at each program for some seconds.
func askAllotHiGHS(t *testing.T, seconds int, paths []string) []peerAnswer {
	python := oracle.NeedPython(t, "highspy")
	out, err := exec.Command(python, append([]string{"-c", allotHiGHS, strconv.Itoa(seconds)}, paths...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("highs: %v\n%s", err, out)
	}
	var answers []peerAnswer
	for line := range strings.Lines(string(out)) {
		var a peerAnswer
		var found int
		var took float64
		if n, _ := fmt.Sscanf(line, "answer %g %g %d %g", &a.lower, &a.upper, &found, &took); n == 4 {
			a.found, a.took = found == 1, time.Duration(took*1e9)
			answers = append(answers, a)
		}
	}
	if len(answers) != len(paths) {
		t.Fatalf("highs: %d answers to %d programs:\n%s", len(answers), len(paths), out)
	}
	return answers
}

// TestAllotAgainstHiGHS solves a hundred made-up units, seeds 0 to 99, with a second's
// effort and holds the values against what HiGHS says of the same as an integer program:
// the same optimum, or between its solution and its bound where its time runs out.
func TestAllotAgainstHiGHS(t *testing.T) {
	unhurried(t)
	oracle.NeedPython(t, "highspy")
	dir := t.TempDir()
	var paths []string
	var values []Allotment
	for seed := range uint64(100) {
		k := allotKind{products: 15 + int(seed%3)*5, rows: 3, unit: inch, loads: seed%4 == 1, must: int(seed % 6)}
		if seed%2 == 1 {
			k.families, k.heavyLow = 2+int(seed%3), seed%3 == 0
		}
		if seed%10 == 9 {
			k.products, k.rows = 40+int(seed/10)*2, 4+int(seed%20/10)
			k.families = 4
		}
		a := shopAllot(seed, k)
		for p := range a.Products { // to what floating point holds exactly
			for o := range a.Products[p].Options {
				a.Products[p].Options[o].Width /= inch
				a.Products[p].Options[o].Weight /= 1000
			}
		}
		for r := range a.Rows {
			a.Rows[r].Room /= inch
			a.Rows[r].Load /= 1000
		}
		a.Effort = StepsPerSecond
		got, ok := a.Solve()
		if value, fits := worthOf(a, got.Chosen); ok && (!fits || value != got.Value) {
			t.Fatalf("seed %d: not an allotment worth %d", seed, got.Value)
		}
		if !ok {
			got.Value, got.Bound = -1, -1
		}
		values = append(values, got)
		path := filepath.Join(dir, fmt.Sprintf("%d.lp", seed))
		allotProgram(a).write(t, path)
		paths = append(paths, path)
	}
	ours, theirs := 0, 0
	for seed, peer := range askAllotHiGHS(t, 1, paths) {
		got := values[seed]
		if got.Value < 0 {
			if peer.found || peer.lower < 1e29 && peer.upper-peer.lower < 0.5 {
				t.Errorf("seed %d: nothing fits, HiGHS found %v", seed, -peer.upper)
			}
			continue
		}
		if got.Value == got.Bound {
			ours++
		}
		if peer.found && peer.upper-peer.lower < 0.5 {
			theirs++
		}
		if peer.found && float64(got.Bound) < -peer.upper-0.5 || float64(got.Value) > -peer.lower+0.5 {
			t.Errorf("seed %d: got %d to %d, HiGHS %v to %v", seed, got.Value, got.Bound, -peer.upper, -peer.lower)
		}
	}
	t.Logf("proven: %d, by HiGHS in 1 s each %d, of %d", ours, theirs, len(paths))
	if theirs < 40 || ours < 60 {
		t.Errorf("proven: %d, by HiGHS %d", ours, theirs)
	}
}

var cbcAnswer = regexp.MustCompile(`(?m)^Objective value: +(-?[0-9.]+)`)

// TestAllotBesidePeers runs the shared instances through our search, HiGHS and CBC,
// one after another on one machine, and prints what each found and how long it
// took. The peers get 8 s each.
func TestAllotBesidePeers(t *testing.T) {
	unhurried(t)
	names, _ := facingOptima(t)
	cbc := oracle.Need(t, "cbc")
	t.Logf("%-12s %21s %28s %18s", "", "ours", "HiGHS", "CBC")
	for _, name := range names {
		text := oracle.Shared(t, "facing", name+".lp")
		path := oracle.SharedPath(t, "facing", name+".lp")
		start := time.Now()
		a := readAllotLP(t, text)
		got, ok := a.Solve()
		took := time.Since(start)
		if !ok || got.Value != got.Bound {
			t.Fatalf("%s: %d to %d %v", name, got.Value, got.Bound, ok)
		}
		highs := askAllotHiGHS(t, 8, []string{path})[0]
		start = time.Now()
		out, err := exec.Command(cbc, path, "sec", "8", "ratio", "0", "allow", "0", "solve").CombinedOutput()
		cbcTook := time.Since(start)
		if err != nil {
			t.Fatalf("cbc: %v\n%s", err, out)
		}
		found, proven := int64(-1), strings.Contains(string(out), "Optimal solution found")
		if m := cbcAnswer.FindSubmatch(out); m != nil {
			found = int64(number(t, string(m[1])) + 0.5)
			found = max(found, int64(0.5-number(t, string(m[1]))))
		}
		// HiGHS keeps the sense of the file: the greatest, so its bound is above.
		t.Logf("%-12s %8d in %8.3f s %8.0f to %8.0f in %5.2f s %8d in %5.2f s, proven %v", name, got.Value, took.Seconds(),
			highs.upper, highs.lower, highs.took.Seconds(), found, cbcTook.Seconds(), proven)
		if highs.found && (highs.upper > float64(got.Value)+0.5 || highs.lower < float64(got.Value)-0.5) {
			t.Errorf("%s: HiGHS found %v to %v", name, highs.upper, highs.lower)
		}
		if found > got.Value || proven && found != got.Value {
			t.Errorf("%s: CBC found %d", name, found)
		}
	}
}

// unhurried ends a test that measures itself against outside programs, where not all
// of them are asked for.
func unhurried(t *testing.T) {
	t.Helper()
	alone(t)
	oracle.Long(t)
}

// alone ends a long test of one goroutine, in which the race detector would find
// nothing in many minutes.
func alone(t *testing.T) {
	t.Helper()
	if oracle.Racing {
		t.Skip("runs without the race detector")
	}
}
