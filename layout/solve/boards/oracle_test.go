package boards

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// program states a job as an integer program over rectangles: how many of each are cut
// where, or used as a piece; none can be cut that does not come from a board or from
// another (F. Furini, E. Malaguti and D. Thomopulos, INFORMS Journal on Computing 28,
// 2016, here with stages and kerf).
type program struct {
	job     Job
	reached [2][]int
	seen    map[rectangle]bool
	order   []rectangle            // as they were found
	comes   map[rectangle][]string // variables that give a rectangle
	goes    map[rectangle][]string // variables that use one up
	made    [][]string             // by piece
	names   []string
}

// rectangle is a part that may still be cut in so many stages, the first of which runs one
// way (1: parts the length).
type rectangle struct{ length, width, stages, way int }

func newProgram(job Job) *program {
	p := &program{job: job, seen: map[rectangle]bool{}, comes: map[rectangle][]string{}, goes: map[rectangle][]string{}, made: make([][]string, len(job.Pieces))}
	longest, widest := int64(0), int64(0)
	for _, b := range job.Boards {
		longest, widest = max(longest, b.Length), max(widest, b.Width)
	}
	p.reached = [2][]int{reached(job, int(longest+job.Kerf), true), reached(job, int(widest+job.Kerf), false)}
	for b, board := range job.Boards {
		for way := range 2 {
			name := p.name("board_%d_%d", b, way)
			p.give(name, rectangle{int(board.Length - 2*job.Trim), int(board.Width - 2*job.Trim), job.Stages, way})
		}
	}
	for i := 0; i < len(p.order); i++ {
		p.use(p.order[i])
	}
	return p
}

func (p *program) name(format string, args ...any) string {
	name := fmt.Sprintf(format, args...)
	p.names = append(p.names, name)
	return name
}

// give notes that a variable makes a rectangle.
func (p *program) give(name string, r rectangle) {
	if r.length <= 0 || r.width <= 0 {
		return
	}
	if !p.seen[r] {
		p.seen[r] = true
		p.order = append(p.order, r)
	}
	if n := len(p.comes[r]); n > 0 && p.comes[r][n-1] == name {
		p.comes[r][n-1] = "2 " + name // cut in half
		return
	}
	p.comes[r] = append(p.comes[r], name)
}

// use lists all that a rectangle can become.
func (p *program) use(r rectangle) {
	at := fmt.Sprintf("%d_%d_%d_%d", r.length, r.width, r.stages, r.way)
	for i, piece := range p.job.Pieces {
		l, w := int(piece.Length), int(piece.Width)
		if piece.Count > 0 && (l == r.length && w == r.width || piece.Turn && w == r.length && l == r.width) {
			name := p.name("piece_%d_%s", i, at)
			p.goes[r] = append(p.goes[r], name)
			p.made[i] = append(p.made[i], name)
		}
	}
	if r.stages == 0 {
		return
	}
	name := p.name("next_%s", at)
	p.goes[r] = append(p.goes[r], name)
	p.give(name, rectangle{r.length, r.width, r.stages - 1, 1 - r.way})
	end, sums, kerf := r.width, p.reached[1], int(p.job.Kerf)
	if r.way == 1 {
		end, sums = r.length, p.reached[0]
	}
	for cut := 1; cut < end; cut++ {
		if sums[cut+kerf] != cut+kerf {
			continue
		}
		name := p.name("cut_%s_%d", at, cut)
		p.goes[r] = append(p.goes[r], name)
		low, high := r, r
		if r.way == 1 {
			low.length, high.length = cut, end-cut-kerf
		} else {
			low.width, high.width = cut, end-cut-kerf
		}
		p.give(name, low)
		p.give(name, high)
	}
}

// write stores the program in CPLEX LP format.
func (p *program) write(t *testing.T, path string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("Minimize\n obj:")
	for i, board := range p.job.Boards {
		fmt.Fprintf(&b, "\n + %d board_%d_0 + %d board_%d_1", board.Cost, i, board.Cost, i)
	}
	b.WriteString("\nSubject To\n")
	for i, names := range p.made {
		if n := p.job.Pieces[i].Count; n > 0 {
			fmt.Fprintf(&b, " made%d: %s >= %d\n", i, strings.Join(names, "\n + "), n)
		}
	}
	for i, board := range p.job.Boards {
		if board.Limit >= 0 {
			fmt.Fprintf(&b, " limit%d: board_%d_0 + board_%d_1 <= %d\n", i, i, i, board.Limit)
		}
	}
	for _, r := range p.order {
		if len(p.goes[r]) > 0 {
			fmt.Fprintf(&b, " r%d_%d_%d_%d: %s\n - %s >= 0\n", r.length, r.width, r.stages, r.way,
				strings.Join(p.comes[r], "\n + "), strings.Join(p.goes[r], "\n - "))
		}
	}
	fmt.Fprintf(&b, "General\n %s\nEnd\n", strings.Join(p.names, "\n "))
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}

// middlingJob draws a job that is too large to try everything on and small enough for
// integer programs.
func middlingJob(seed uint64) Job {
	r := rand.New(rand.NewPCG(seed, 5))
	job := Job{Kerf: r.Int64N(2), Trim: r.Int64N(2), Stages: 2 + r.IntN(3)}
	for range 1 + r.IntN(2) {
		l, w := 18+r.Int64N(10), 10+r.Int64N(8)
		job.Boards = append(job.Boards, Board{Length: l, Width: w, Cost: l * w / 20, Limit: -1})
	}
	for range 3 + r.IntN(3) {
		job.Pieces = append(job.Pieces, Piece{Length: 4 + r.Int64N(10), Width: 3 + r.Int64N(7), Count: 1 + r.IntN(4), Turn: r.IntN(3) == 0})
	}
	return job
}

const highsScript = `
import sys, highspy
for path in sys.argv[2:]:
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.0)
    h.setOptionValue("threads", 1)
    h.setOptionValue("time_limit", float(sys.argv[1]))
    h.readModel(path)
    h.run()
    i = h.getInfo()
    print("answer", repr(float(i.mip_dual_bound)), repr(float(i.objective_function_value) if i.primal_solution_status == 2 else 1e30))
`

// askHiGHS has HiGHS work at each program for some seconds and gives its bounds.
func askHiGHS(t *testing.T, seconds int, paths []string) (bounds [][2]float64) {
	t.Helper()
	python := oracle.NeedPython(t, "highspy")
	out, err := exec.Command(python, append([]string{"-c", highsScript, strconv.Itoa(seconds)}, paths...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("highs: %v\n%s", err, out)
	}
	for line := range strings.Lines(string(out)) {
		var lower, upper float64
		if n, _ := fmt.Sscanf(line, "answer %g %g", &lower, &upper); n == 2 {
			bounds = append(bounds, [2]float64{lower, upper})
		}
	}
	if len(bounds) != len(paths) {
		t.Fatalf("highs: %d answers to %d programs:\n%s", len(bounds), len(paths), out)
	}
	return bounds
}

var cbcAnswer = regexp.MustCompile(`(?m)^Objective value: +(-?[0-9.]+)`)

// askCBC has CBC do the same; its bound is 0 unless it proves the optimum.
func askCBC(t *testing.T, seconds int, paths []string) (bounds [][2]float64) {
	t.Helper()
	cbc := oracle.Need(t, "cbc")
	for _, path := range paths {
		out, err := exec.Command(cbc, path, "sec", strconv.Itoa(seconds), "ratio", "0", "allow", "0", "solve").CombinedOutput()
		if err != nil {
			t.Fatalf("cbc: %v\n%s", err, out)
		}
		b := [2]float64{0, 1e30}
		if m := cbcAnswer.FindSubmatch(out); m != nil && !strings.Contains(string(out), "No feasible solution found") {
			if b[1], err = strconv.ParseFloat(string(m[1]), 64); err != nil {
				t.Fatal(err)
			}
		}
		if strings.Contains(string(out), "Optimal solution found") {
			b[0] = b[1]
		}
		bounds = append(bounds, b)
	}
	return bounds
}

var glpkAnswer = regexp.MustCompile(`(?m)^Status: +INTEGER OPTIMAL\nObjective: +obj = (\S+)`)

// askGLPK has glpsol do the same.
func askGLPK(t *testing.T, seconds int, paths []string) (bounds [][2]float64) {
	t.Helper()
	glpsol := oracle.Need(t, "glpsol")
	for _, path := range paths {
		answer := path + ".glpk"
		if out, err := exec.Command(glpsol, "--lp", path, "--tmlim", strconv.Itoa(seconds), "-o", answer).CombinedOutput(); err != nil {
			t.Fatalf("glpsol: %v\n%s", err, out)
		}
		text, err := os.ReadFile(answer)
		if err != nil {
			t.Fatal(err)
		}
		b := [2]float64{0, 1e30}
		if m := glpkAnswer.FindSubmatch(text); m != nil {
			if b[0], err = strconv.ParseFloat(string(m[1]), 64); err != nil {
				t.Fatal(err)
			}
			b[1] = b[0]
		}
		bounds = append(bounds, b)
	}
	return bounds
}

// TestBesidePeers holds plans and bounds against what general solvers say of the same jobs
// as integer programs, 3 s each.
func TestBesidePeers(t *testing.T) {
	alone(t)
	oracle.Long(t)
	dir := t.TempDir()
	var paths []string
	var plans []*Plan
	proven := 0
	for seed := range uint64(12) {
		job := middlingJob(seed)
		plan := mustSolve(t, job, 2e8)
		if err := checkProof(job, plan.Bound, plan.Proof); err != nil {
			t.Fatalf("job %d: %v", seed, err)
		}
		if plan.Proven {
			proven++
		}
		path := filepath.Join(dir, fmt.Sprintf("%d.lp", seed))
		newProgram(job).write(t, path)
		paths, plans = append(paths, path), append(plans, plan)
	}
	for _, peer := range []struct {
		name string
		ask  func(*testing.T, int, []string) [][2]float64
	}{{"HiGHS", askHiGHS}, {"CBC", askCBC}, {"GLPK", askGLPK}} {
		t.Run(peer.name, func(t *testing.T) {
			closed := 0
			for i, b := range peer.ask(t, 3, paths) {
				if b[1]-b[0] < 0.5 {
					closed++
				}
				if float64(plans[i].Bound) > b[1]+0.5 || float64(plans[i].Cost) < b[0]-0.5 {
					t.Errorf("job %d: %d to %d, %s says %v", i, plans[i].Bound, plans[i].Cost, peer.name, b)
				}
			}
			t.Logf("proven: %d, by %s %d, of %d", proven, peer.name, closed, len(paths))
		})
	}
}
