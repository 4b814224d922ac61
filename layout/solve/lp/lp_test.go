package lp

import (
	"math"
	"math/rand/v2"
	"testing"
)

// near is how far sums of tested programs may be from what they ought to be.
const near = 1e-6

// checkOptimal checks an answer by what makes it one, without knowing how it was
// found: values keep rows, duals pay no column more than its cost, and both come
// to the same (strong duality, Dantzig 1963).
func checkOptimal(t *testing.T, p *Program) {
	t.Helper()
	sums, cost := make([]float64, p.Rows()), 0.0
	for j := range p.Columns() {
		x := p.Value(j)
		if x < 0 || p.barred[j] && x > near {
			t.Errorf("column %d has the value %g, barred %v", j, x, p.barred[j])
		}
		cost += p.cost[j] * x
		d := p.cost[j]
		for _, e := range p.entries[j] {
			sums[e.Index] += e.Value * x
			d -= p.Dual(e.Index) * e.Value
		}
		if d < -near && !p.barred[j] {
			t.Errorf("column %d has the reduced cost %g", j, d)
		}
	}
	paid := 0.0
	for r, sum := range sums {
		if p.slack[r]*(p.bound[r]-sum) < -near {
			t.Errorf("row %d sums to %g, bound %g", r, sum, p.bound[r])
		}
		paid += p.Dual(r) * p.bound[r]
	}
	if math.Abs(cost-paid) > near*(1+math.Abs(cost)) || math.Abs(cost-p.Objective()) > near*(1+math.Abs(cost)) {
		t.Errorf("values cost %g, duals pay %g, objective %g", cost, paid, p.Objective())
	}
}

func TestSolve(t *testing.T) {
	type row struct {
		sense Sense
		bound float64
	}
	type column struct {
		cost    float64
		entries []Entry
	}
	for _, c := range []struct {
		reason    string
		rows      []row
		columns   []column
		status    Status
		objective float64
	}{
		{reason: "nothing to do costs nothing"},
		{reason: "no column for a row", rows: []row{{AtLeast, 1}}, status: Infeasible},
		{reason: "two rows that contradict each other", rows: []row{{AtLeast, 3}, {AtMost, 2}},
			columns: []column{{1, []Entry{{0, 1}, {1, 1}}}}, status: Infeasible},
		{reason: "a column that earns and nothing holds", rows: []row{{AtLeast, 1}},
			columns: []column{{-1, []Entry{{0, 1}}}}, status: Unbounded},
		{reason: "a bound below zero from above", rows: []row{{AtMost, -2}},
			columns: []column{{3, []Entry{{0, -1}}}}, objective: 6},
		{reason: "the diet of two foods, by hand: 2 of the first and 1 of the second", rows: []row{{AtLeast, 5}, {AtLeast, 4}},
			columns: []column{{2, []Entry{{0, 2}, {1, 1}}}, {3, []Entry{{0, 1}, {1, 2}}}}, objective: 7},
		{reason: "Beale 1955, on which the largest reduced cost cycles: -1/20", rows: []row{{AtMost, 0}, {AtMost, 0}, {AtMost, 1}},
			columns: []column{{-.75, []Entry{{0, .25}, {1, .5}}}, {150, []Entry{{0, -60}, {1, -90}}},
				{-.02, []Entry{{0, -.04}, {1, -.02}, {2, 1}}}, {6, []Entry{{0, 9}, {1, 3}}}}, objective: -.05},
	} {
		var p Program
		for _, r := range c.rows {
			p.AddRow(r.sense, r.bound, nil)
		}
		for _, k := range c.columns {
			p.AddColumn(k.cost, k.entries)
		}
		if got := p.Solve(); got != c.status {
			t.Errorf("%s: status %v, want %v", c.reason, got, c.status)
			continue
		}
		if c.status != Optimal {
			continue
		}
		checkOptimal(t, &p)
		if math.Abs(p.Objective()-c.objective) > near {
			t.Errorf("%s: objective %g, want %g", c.reason, p.Objective(), c.objective)
		}
	}
}

// TestGrowing changes random programs in every way there is, again and again. Rows
// have costly columns that fill them, so that there always is an optimum.
func TestGrowing(t *testing.T) {
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 1))
		var p Program
		addRow := func() {
			sense, bound := Sense(rng.IntN(2)), float64(rng.IntN(9))
			var over []Entry
			for j := range p.Columns() {
				if rng.IntN(3) == 0 {
					over = append(over, Entry{j, float64(rng.IntN(5))})
				}
			}
			r := p.AddRow(sense, bound, over)
			p.AddColumn(1000, []Entry{{r, -p.slack[r]}})
		}
		addColumn := func() {
			var entries []Entry
			for r := range p.Rows() {
				if rng.IntN(3) == 0 {
					entries = append(entries, Entry{r, float64(1 + rng.IntN(4))})
				}
			}
			p.AddColumn(float64(rng.IntN(20)), entries)
		}
		for range 1 + rng.IntN(12) {
			addRow()
		}
		fills := p.Columns()
		for range 40 {
			for range 1 + rng.IntN(4) {
				switch j := p.Columns(); rng.IntN(5) {
				case 0:
					addRow()
				case 1, 2:
					addColumn()
				case 3:
					p.SetBound(rng.IntN(p.Rows()), float64(rng.IntN(9)))
				default:
					if j = rng.IntN(j); j >= fills && p.cost[j] < 1000 {
						p.Bar(j, !p.barred[j])
					}
				}
			}
			if got := p.Solve(); got != Optimal {
				t.Fatalf("seed %d: status %v", seed, got)
			}
			checkOptimal(t, &p)
			if t.Failed() {
				t.Fatalf("seed %d", seed)
			}
		}
	}
}

// TestInfeasible holds verdicts on programs without filling columns against the
// same programs with them: they are used if and only if there is no solution.
func TestInfeasible(t *testing.T) {
	count := map[Status]int{}
	for seed := range uint64(2000) {
		rng := rand.New(rand.NewPCG(seed, 2))
		var p, filled Program
		for range 1 + rng.IntN(6) {
			sense, bound := Sense(rng.IntN(2)), float64(rng.IntN(9))
			p.AddRow(sense, bound, nil)
			r := filled.AddRow(sense, bound, nil)
			filled.AddColumn(1, []Entry{{r, -filled.slack[r]}})
		}
		for range 1 + rng.IntN(6) {
			var entries []Entry
			for r := range p.Rows() {
				if rng.IntN(2) == 0 {
					entries = append(entries, Entry{r, float64(rng.IntN(5))})
				}
			}
			p.AddColumn(0, entries)
			filled.AddColumn(0, entries)
		}
		status := p.Solve()
		count[status]++
		filled.Solve()
		if short := filled.Objective() > near; short != (status == Infeasible) || !short && status != Optimal {
			t.Fatalf("seed %d: status %v, but %g is missing", seed, status, filled.Objective())
		}
	}
	if count[Optimal] < 200 || count[Infeasible] < 200 {
		t.Errorf("the cases are one-sided: %v", count)
	}
}

// TestDegenerate covers every pair of a set by triples of it: duals and values
// with many ties.
func TestDegenerate(t *testing.T) {
	const n = 12
	var p Program
	pair := map[[2]int]int{}
	for i := range n {
		for j := range i {
			pair[[2]int{i, j}] = p.AddRow(AtLeast, 1, nil)
		}
	}
	for i := range n {
		for j := range i {
			for k := range j {
				p.AddColumn(1, []Entry{{pair[[2]int{i, j}], 1}, {pair[[2]int{i, k}], 1}, {pair[[2]int{j, k}], 1}})
			}
		}
	}
	if got := p.Solve(); got != Optimal {
		t.Fatal(got)
	}
	checkOptimal(t, &p)
	if want := float64(n * (n - 1) / 6); math.Abs(p.Objective()-want) > near {
		t.Errorf("objective %g, want %g: each triple in equal part", p.Objective(), want)
	}
}

// TestSame solves the same program twice and wants the same bits.
func TestSame(t *testing.T) {
	solve := func() (x []float64) {
		rng := rand.New(rand.NewPCG(7, 3))
		var p Program
		for range 30 {
			r := p.AddRow(AtLeast, float64(1+rng.IntN(9)), nil)
			p.AddColumn(100, []Entry{{r, 1}})
		}
		for range 300 {
			p.AddColumn(1, []Entry{{rng.IntN(10), 1}, {10 + rng.IntN(10), 2}, {20 + rng.IntN(10), 1}})
		}
		p.Solve()
		for j := range p.Columns() {
			x = append(x, p.Value(j))
		}
		return x
	}
	a, b := solve(), solve()
	for j := range a {
		if a[j] != b[j] {
			t.Fatalf("column %d: %g, then %g", j, a[j], b[j])
		}
	}
}

// BenchmarkCover covers 200 rows, about as many as lists of cuts have, with
// columns of four entries.
func BenchmarkCover(b *testing.B) {
	for b.Loop() {
		rng := rand.New(rand.NewPCG(1, 4))
		var p Program
		for range 200 {
			r := p.AddRow(AtLeast, float64(1+rng.IntN(3)), nil)
			p.AddColumn(2, []Entry{{r, 1}})
		}
		for range 2000 {
			p.AddColumn(1, []Entry{{rng.IntN(50), 1}, {50 + rng.IntN(50), 1}, {100 + rng.IntN(50), 1}, {150 + rng.IntN(50), 1}})
		}
		if p.Solve() != Optimal {
			b.Fatal("no optimum")
		}
		b.ReportMetric(float64(p.Work()), "work")
	}
}
