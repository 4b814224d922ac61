package bars

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"setwright/layout/oracle"
)

// arcFlow states a job without limits as an integer program in the CPLEX LP format:
// a flow from 0 to the lengths of bars along arcs that are pieces or waste (Valerio
// de Carvalho 1999, 2002). Nodes are the sums that pieces reach from the longest
// on, so that no set of pieces is there in two orders; waste leads to the next node.
func arcFlow(job Job) string {
	p := readProof(job)
	longest := int64(0)
	for _, b := range p.bars {
		longest = max(longest, p.room(b))
	}
	reached := make([]bool, longest+1)
	reached[0] = true
	into, out := map[int64][]string{}, map[int64][]string{}
	var names []string
	arc := func(name string, from, to int64) string {
		out[from], into[to] = append(out[from], name), append(into[to], name)
		names = append(names, name)
		return name
	}
	var text, demands strings.Builder
	for k, w := range p.width {
		var made []string
		known := map[int64]bool{}
		for n := int64(0); n < p.need[k]; n++ { // each pass starts where the last piece of the kind, or others before it, ended
			before := slices.Clone(reached)
			for v := longest - w; v >= 0; v-- {
				if before[v] && !known[v] {
					known[v], reached[v+w] = true, true
					made = append(made, arc(fmt.Sprintf("x%d_%d", k, v), v, v+w))
				}
			}
			if n > longest/w {
				break
			}
		}
		fmt.Fprintf(&demands, "d%d: %s >= %d\n", k, strings.Join(made, " + "), p.need[k])
	}
	text.WriteString("Minimize\ncost:")
	for i, b := range p.bars {
		reached[p.room(b)] = true
		name := fmt.Sprintf("y%d", i)
		out[p.room(b)] = append(out[p.room(b)], name)
		names = append(names, name)
		fmt.Fprintf(&text, " + %d %s", job.Bars[b].Cost, name)
	}
	last := int64(0)
	for v := int64(1); v <= longest; v++ {
		if reached[v] {
			if last > 0 {
				arc(fmt.Sprintf("z%d", last), last, v)
			}
			last = v
		}
	}
	text.WriteString("\nSubject To\n" + demands.String())
	for v := int64(1); v <= longest; v++ {
		if reached[v] {
			fmt.Fprintf(&text, "n%d:", v)
			for _, name := range into[v] {
				fmt.Fprintf(&text, " + %s\n", name)
			}
			for _, name := range out[v] {
				fmt.Fprintf(&text, " - %s\n", name)
			}
			text.WriteString(" = 0\n")
		}
	}
	text.WriteString("Generals\n" + strings.Join(names, "\n") + "\nEnd\n")
	return text.String()
}

// answer is what a peer found: proven least cost, or that it was not done in time.
type answer struct {
	done bool
	cost int64
	took time.Duration
}

// peers are general solvers, each with how to have it solve the program in a file
// within some seconds.
var peers = []struct {
	name string
	ask  func(t testing.TB, path string, seconds int) answer
}{
	{"glpsol", func(t testing.TB, path string, seconds int) answer {
		out := run(t, oracle.Need(t, "glpsol"), "--lp", path, "--cuts", "--tmlim", strconv.Itoa(seconds), "-o", path+".glpsol")
		return readAnswer(t, path+".glpsol", strings.Contains(out.text, "INTEGER OPTIMAL SOLUTION FOUND"), "Objective:  cost = %g", out.took)
	}},
	{"cbc", func(t testing.TB, path string, seconds int) answer {
		out := run(t, oracle.Need(t, "cbc"), path, "ratioGap", "0", "sec", strconv.Itoa(seconds), "solve", "solution", path+".cbc")
		return readAnswer(t, path+".cbc", strings.Contains(out.text, "Result - Optimal solution found"), "Optimal - objective value %g", out.took)
	}},
	{"highs", func(t testing.TB, path string, seconds int) answer {
		out := run(t, oracle.NeedPython(t, "highspy"), "-c", askHiGHS, path, strconv.Itoa(seconds))
		var cost, took float64
		var done int
		last := out.text[max(0, strings.LastIndex(out.text, "answer")):]
		if n, err := fmt.Sscanf(last, "answer %d %g %g", &done, &cost, &took); n != 3 {
			t.Fatalf("highs: %v: %q", err, out.text)
		}
		return answer{done == 1, int64(math.Round(cost)), time.Duration(took * 1e9)}
	}},
}

const askHiGHS = `
import sys, time, highspy
h = highspy.Highs()
h.setOptionValue("output_flag", False)
h.setOptionValue("mip_rel_gap", 0.0)
h.setOptionValue("time_limit", float(sys.argv[2]))
h.readModel(sys.argv[1])
start = time.time()
h.run()
took = time.time() - start
print("answer", int(h.getModelStatus() == highspy.HighsModelStatus.kOptimal), h.getInfo().objective_function_value, took)
`

type output struct {
	text string
	took time.Duration
}

func run(t testing.TB, program string, arguments ...string) output {
	t.Helper()
	start := time.Now()
	text, err := exec.Command(program, arguments...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, text)
	}
	return output{string(text), time.Since(start)}
}

// readAnswer reads the line of a file that holds the cost.
func readAnswer(t testing.TB, path string, done bool, format string, took time.Duration) answer {
	t.Helper()
	if !done {
		return answer{took: took}
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		var cost float64
		if n, _ := fmt.Sscanf(line, format, &cost); n == 1 {
			return answer{true, int64(math.Round(cost)), took}
		}
	}
	t.Fatalf("%s: no cost:\n%s", path, text)
	return answer{}
}

// askPeers has all peers solve a job.
func askPeers(t testing.TB, job Job, seconds int) (answers []answer) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "bars.lp")
	if err := os.WriteFile(path, []byte(arcFlow(job)), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, p := range peers {
		answers = append(answers, p.ask(t, path, seconds))
	}
	return answers
}

// TestPeers wants the cost that general solvers prove.
func TestPeers(t *testing.T) {
	oracle.Long(t)
	alone(t)
	var jobs []published
	all := readMulti(t)
	for _, name := range []string{"ms_m5_d10_s1.txt", "ms_m5_d10_s2.txt", "ms_m5_d10_s3.txt"} {
		jobs = append(jobs, all[slices.IndexFunc(all, func(p published) bool { return p.name == name })])
	}
	for seed := range uint64(3) {
		jobs = append(jobs, published{name: fmt.Sprintf("shop %d", seed), job: small(seed)})
	}
	done := 0
	for _, j := range jobs {
		p, err := solve(t, j.job, 0)
		if err != nil || !p.Proven {
			t.Fatalf("%s: %+v, %v", j.name, p, err)
		}
		for i, a := range askPeers(t, j.job, 5) {
			if a.done {
				done++
				if a.cost != p.Cost {
					t.Errorf("%s: cost %d, %s says %d", j.name, p.Cost, peers[i].name, a.cost)
				}
			}
		}
	}
	if done < len(jobs) {
		t.Errorf("peers were done with only %d of %d programs", done, len(peers)*len(jobs))
	}
}

// small is a job that general solvers can do: few pieces to a bar, lengths in whole
// inches.
func small(seed uint64) Job {
	job := shopList(seed, inch)
	job.Pieces = job.Pieces[:10]
	job.Kerf, job.Trim = inch, 0
	for i := range job.Pieces {
		job.Pieces[i].Length = job.Pieces[i].Length/inch + 20
	}
	for i := range job.Bars {
		job.Bars[i].Length /= inch
	}
	job.Kerf /= inch
	return job
}

// BenchmarkPeers solves the instances with several lengths beside the peers, which
// get some seconds for each, and reports in how many times our time the best of
// them is done, in the median. One that is not done in time counts with that time.
func BenchmarkPeers(b *testing.B) {
	const seconds = 8
	var ratios []float64
	closed, best := 0, 0
	for b.Loop() {
		ratios, closed, best = ratios[:0], 0, 0
		for i, j := range readMulti(b) {
			if i%5 > 0 {
				continue // every fifth of each size
			}
			start := time.Now()
			p, err := Solve(j.job, 0)
			took := time.Since(start)
			if err != nil {
				b.Fatal(err)
			}
			if p.Proven {
				closed++
			}
			least := time.Duration(seconds) * time.Second
			someDone := false
			for _, a := range askPeers(b, j.job, seconds) {
				if a.done {
					least, someDone = min(least, a.took), true
				}
			}
			if someDone {
				best++
			}
			ratios = append(ratios, float64(least)/float64(took))
			b.Logf("%s: %v, best peer %v (done: %v)", j.name, took, least, someDone)
		}
	}
	slices.Sort(ratios)
	b.ReportMetric(float64(len(ratios)), "instances")
	b.ReportMetric(float64(closed), "closed")
	b.ReportMetric(float64(best), "closed-by-a-peer")
	b.ReportMetric(ratios[len(ratios)/2], "times-faster-median")
	b.ReportMetric(ratios[0], "times-faster-least")
}
