package untangle

import (
	"encoding/json"
	"math/rand/v2"
	"os/exec"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// askORTools has a general solver (CP-SAT) number the nodes that stay so that each
// comes after what it waits for, at the least worth of those that do not.
const askORTools = `
import json, sys
from ortools.sat.python import cp_model
for line in sys.stdin:
    case = json.loads(line)
    before, weight = case["Before"], case["Weight"]
    n = len(before)
    m = cp_model.CpModel()
    out = [m.NewBoolVar("") for _ in range(n)]
    turn = [m.NewIntVar(0, n, "") for _ in range(n)]
    for i in range(n):
        for j in set(before[i] or []):
            if i == j:
                m.Add(out[i] == 1)
            else:
                m.Add(turn[j] < turn[i]).OnlyEnforceIf(out[i].Not(), out[j].Not())
    one = n * n
    m.Minimize(sum(out[i] * (weight[i] * n * one * 2 + one + i) for i in range(n)))
    s = cp_model.CpSolver()
    s.parameters.num_workers = 1
    assert s.Solve(m) == cp_model.OPTIMAL
    print(json.dumps([i for i in range(n) if s.Value(out[i])]))
`

// TestOracle wants sets as good as those of a general solver, of graphs too large
// to try every set.
func TestOracle(t *testing.T) {
	python := oracle.NeedPython(t, "ortools.sat.python.cp_model")
	type problem struct {
		Before [][]int
		Weight []int64
	}
	var all []problem
	var in strings.Builder
	for seed := range uint64(24) {
		rng := rand.New(rand.NewPCG(seed, 3))
		nodes := 15 + rng.IntN(30)
		before, weight := random(rng, nodes, (1.5+2*rng.Float64())/float64(nodes), []int64{0, 1, 9, 1000}[seed%4])
		all = append(all, problem{before, weight})
		if err := json.NewEncoder(&in).Encode(all[seed]); err != nil {
			t.Fatal(err)
		}
	}
	cmd := exec.Command(python, "-c", askORTools)
	cmd.Stdin = strings.NewReader(in.String())
	text, err := cmd.Output()
	if err != nil {
		t.Fatalf("ortools: %v\n%s", err, text)
	}
	answers, taken := json.NewDecoder(strings.NewReader(string(text))), 0
	for _, p := range all {
		var theirs []int
		if err := answers.Decode(&theirs); err != nil {
			t.Fatal(err)
		}
		ours, proven := Fewest(p.Before, p.Weight)
		if !proven || !orderly(p.Before, ours) || !orderly(p.Before, theirs) || worth(ours, p.Weight) != worth(theirs, p.Weight) {
			t.Errorf("%v, weights %v: %v (proven %v), a general solver says %v", p.Before, p.Weight, ours, proven, theirs)
		}
		taken += len(ours)
	}
	if taken < len(all) {
		t.Errorf("%d nodes taken out of %d graphs: too little to judge by", taken, len(all))
	}
}
