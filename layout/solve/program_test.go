package solve

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// program is an integer program: one objective to make least under rules, over
// variables that are nought or one unless named continuous or whole.
type program struct {
	objective  sum
	rules      []string
	binary     []string
	continuous []string // at least nought, at most one unless in rules
	whole      []string // whole numbers, at least nought
}

// sum is a linear expression.
type sum []term

type term struct {
	factor int64
	name   string
}

func (s sum) String() string {
	if len(s) == 0 {
		return " 0 nothing"
	}
	var b strings.Builder
	for _, t := range s {
		fmt.Fprintf(&b, "\n %+d %s", t.factor, t.name)
	}
	return b.String()
}

// add requires that s stands in relation op to bound.
func (p *program) add(s sum, op string, bound int64) {
	p.rules = append(p.rules, fmt.Sprintf("r%d:%v %s %d", len(p.rules), s, op, bound))
}

// aim is a copy of the program with an objective.
func (p program) aim(objective sum) program {
	p.objective = objective
	p.rules = slices.Clone(p.rules)
	return p
}

// write stores the program in CPLEX LP format.
func (p program) write(t *testing.T, path string) {
	t.Helper()
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n obj:%v\nSubject To\n%s\nBounds\n nothing <= 0\n", p.objective, strings.Join(p.rules, "\n"))
	for _, name := range p.continuous {
		fmt.Fprintf(&b, " %s <= 1\n", name)
	}
	fmt.Fprintf(&b, "Binary\n %s\n", strings.Join(p.binary, "\n "))
	if len(p.whole) > 0 {
		fmt.Fprintf(&b, "General\n %s\n", strings.Join(p.whole, "\n "))
	}
	b.WriteString("End\n")
	if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
}

// question is a program and the least value that we say it has.
type question struct {
	name string
	program
	want int64
}

// ask has every question answered by both general solvers, or by those there are.
func ask(t *testing.T, questions []question) {
	dir := t.TempDir()
	paths := make([]string, len(questions))
	for i, q := range questions {
		paths[i] = filepath.Join(dir, fmt.Sprintf("%d.lp", i))
		q.write(t, paths[i])
	}
	compare := func(t *testing.T, answers []float64) {
		for i, q := range questions {
			if off := answers[i] - float64(q.want); off < -1e-3 || off > 1e-3 {
				t.Errorf("%s: got %d, the integer program says %v", q.name, q.want, answers[i])
			}
		}
	}
	t.Run("glpsol", func(t *testing.T) { compare(t, askGLPK(t, paths)) })
	t.Run("highs", func(t *testing.T) { compare(t, askHiGHS(t, paths)) })
}

var glpkObjective = regexp.MustCompile(`(?m)^Status: +INTEGER OPTIMAL\nObjective: +obj = (\S+)`)

func askGLPK(t *testing.T, paths []string) []float64 {
	glpsol := oracle.Need(t, "glpsol")
	var answers []float64
	for _, path := range paths {
		out := path + ".glpk"
		if text, err := exec.Command(glpsol, "--lp", path, "-o", out).CombinedOutput(); err != nil {
			t.Fatalf("glpsol: %v\n%s", err, text)
		}
		text, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		m := glpkObjective.FindSubmatch(text)
		if m == nil {
			t.Fatalf("glpsol found no optimum:\n%.300s", text)
		}
		answers = append(answers, number(t, string(m[1])))
	}
	return answers
}

const highsScript = `
import sys, highspy
for path in sys.argv[1:]:
    h = highspy.Highs()
    h.setOptionValue("output_flag", False)
    h.setOptionValue("mip_rel_gap", 0.0)
    h.setOptionValue("mip_abs_gap", 0.0)
    h.setOptionValue("threads", 1)
    h.readModel(path)
    h.run()
    assert h.getModelStatus() == highspy.HighsModelStatus.kOptimal, path
    print("objective", repr(float(h.getInfo().objective_function_value)))
`

func askHiGHS(t *testing.T, paths []string) []float64 {
	python := oracle.NeedPython(t, "highspy")
	out, err := exec.Command(python, append([]string{"-c", highsScript}, paths...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("highs: %v\n%s", err, out)
	}
	var answers []float64
	for line := range strings.Lines(string(out)) {
		if value, ok := strings.CutPrefix(line, "objective "); ok {
			answers = append(answers, number(t, strings.TrimSpace(value)))
		}
	}
	if len(answers) != len(paths) {
		t.Fatalf("highs: %d answers to %d programs:\n%s", len(answers), len(paths), out)
	}
	return answers
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
