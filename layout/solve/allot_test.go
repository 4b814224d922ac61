package solve

import (
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"strings"
	"testing"

	"setwright/layout/oracle"
)

// TestAllotKnapsack solves a published knapsack as one row, and as two rows of which
// one has no room.
func TestAllotKnapsack(t *testing.T) {
	text, err := os.ReadFile("testdata/knapsack.txt")
	if err != nil {
		t.Fatal(err)
	}
	var a Allot
	var want int64 = -1
	for line := range strings.Lines(string(text)) {
		var x, y int64
		if n, _ := fmt.Sscan(line, &x, &y); n != 2 {
			continue
		}
		if want < 0 {
			a.Rows, want = []AllotRow{{Room: x}}, y
			continue
		}
		a.Products = append(a.Products, AllotProduct{Options: []AllotOption{{Fronts: 1, Width: y, Value: x}}})
	}
	for range 2 {
		got, ok := a.Solve()
		if !ok || got.Value != want || got.Bound != want {
			t.Errorf("%d rows: got %+v %v, want %d", len(a.Rows), got, ok, want)
		}
		a.Rows = append(a.Rows, AllotRow{})
	}
}

// TestAllotWithinEffort stops the search early: what it says must be true all the
// same, and proven.
func TestAllotWithinEffort(t *testing.T) {
	alone(t)
	open := 0
	for seed := range uint64(60) {
		a := shopAllot(seed, allotKind{products: 8 + int(seed%8), rows: 2 + int(seed%3), unit: inch / 4, loads: seed%3 == 0,
			families: int(seed % 4), heavyLow: seed%5 == 0, must: int(seed % 7)})
		best, ok := a.Solve()
		if best.Value != best.Bound {
			t.Fatalf("seed %d: %+v %v", seed, best, ok)
		}
		if !ok {
			continue // too much that must be placed
		}
		a.WantProof = true
		for _, effort := range []int64{1, 1_000_000, 5_000_000} {
			a.Effort = effort
			got, ok := a.Solve()
			if !ok || got.Value > best.Value || got.Bound < best.Value {
				t.Fatalf("seed %d, effort %d: %d to %d %v, best %d", seed, effort, got.Value, got.Bound, ok, best.Value)
			}
			if value, fits := worthOf(a, got.Chosen); !fits || value != got.Value {
				t.Fatalf("seed %d, effort %d: not an allotment worth %d", seed, effort, got.Value)
			}
			if err := replayProof(a, got.Proof, got.Bound, false); err != nil {
				t.Fatalf("seed %d, effort %d: proof of %d: %v", seed, effort, got.Bound, err)
			}
			if got.Bound > got.Value {
				open++
			}
		}
	}
	if open < 10 {
		t.Errorf("only %d stopped early", open)
	}
}

// TestAllotProofs replays the proofs of cases of some size.
func TestAllotProofs(t *testing.T) {
	for seed := range uint64(12) {
		a := shopAllot(seed, allotKind{products: 14, rows: 3, unit: inch / 8, loads: seed%2 == 0, families: int(seed % 4), must: 6})
		a.WantProof = true
		got, ok := a.Solve()
		if err := replayProof(a, got.Proof, got.Bound, !ok); err != nil {
			t.Errorf("seed %d: proof of %d %v: %v", seed, got.Bound, ok, err)
		}
		if err := replayProof(a, got.Proof, got.Bound-1, false); ok && got.Value == got.Bound && err == nil {
			t.Errorf("seed %d: the proof shows less than what there is", seed)
		}
	}
}

// TestAllotSame solves twice: all of the answer is the same.
func TestAllotSame(t *testing.T) {
	alone(t)
	a := shopAllot(3, allotKind{products: 20, rows: 3, unit: inch / 100, families: 2, must: 5})
	a.WantProof = true
	first, _ := a.Solve()
	second, _ := a.Solve()
	if !reflect.DeepEqual(first, second) {
		t.Errorf("got %+v, then %+v", first, second)
	}
}

// FuzzAllot makes cases of any numbers at all: nothing panics, and what is given is
// an allotment.
func FuzzAllot(f *testing.F) {
	f.Add(uint64(1), int64(1)<<50, int64(-3))
	f.Add(uint64(2), int64(0), int64(1))
	f.Fuzz(func(t *testing.T, seed uint64, large, odd int64) {
		r := rand.New(rand.NewPCG(seed, 23))
		a := smallAllot(r)
		large &= 1<<50 - 1
		for i := range a.Rows {
			if r.IntN(3) == 0 {
				a.Rows[i].Room = large
			}
		}
		for p := range a.Products {
			for o := range a.Products[p].Options {
				option := &a.Products[p].Options[o]
				switch r.IntN(6) {
				case 0:
					option.Width = large / 3
				case 1:
					option.Value = large
				case 2:
					option.Width, option.Weight = odd%(1<<50), large
				case 3:
					option.Row = int(odd % 5)
				}
			}
		}
		a.Effort = 1_000_000
		got, ok := a.Solve()
		if _, possible := bruteAllot(a); possible != ok {
			t.Fatalf("%+v: %v", a, ok)
		}
		if value, fits := worthOf(a, got.Chosen); ok && (!fits || value != got.Value || got.Bound < value) {
			t.Fatalf("%+v: %+v", a, got)
		}
	})
}

// TestAllotFacingOptima solves the shared instances to their proven optima.
func TestAllotFacingOptima(t *testing.T) {
	alone(t)
	names, optima := facingOptima(t)
	for _, name := range names {
		a := readAllotLP(t, oracle.Shared(t, "facing", name+".lp"))
		a.WantProof = len(a.Products) < 20
		got, ok := a.Solve()
		if !ok || got.Value != optima[name] || got.Bound != got.Value {
			t.Errorf("%s: got %d to %d %v, want %d", name, got.Value, got.Bound, ok, optima[name])
		}
		if value, fits := worthOf(a, got.Chosen); !fits || value != got.Value {
			t.Errorf("%s: not an allotment worth %d", name, got.Value)
		}
		if a.WantProof {
			if err := replayProof(a, got.Proof, got.Bound, false); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

// TestAllotAssignment solves the shared generalised assignment instances, in which
// every product must be placed and has one option a row, as they stand and, with
// their costs turned round, for the least. It holds the answers against the published
// bounds.
func TestAllotAssignment(t *testing.T) {
	alone(t)
	proven, all := 0, 0
	for line := range strings.Lines(oracle.Shared(t, "gap", "bounds.txt")) {
		var name string
		var lower, upper int64
		if n, _ := fmt.Sscan(line, &name, &lower, &upper); n != 3 {
			continue
		}
		file, kind, _ := strings.Cut(strings.TrimSpace(name), "_M")
		if !oracle.IsThere(oracle.SharedPath(t, "gap", file)) {
			continue // only the smaller instances are shared
		}
		a, turned := readAssignment(t, oracle.Shared(t, "gap", file), kind == "in")
		if kind == "in" {
			lower, upper = turned-upper, turned-lower
		}
		a.Effort = StepsPerSecond / 50
		got, ok := a.Solve()
		value, fits := worthOf(a, got.Chosen)
		if !ok || !fits || value != got.Value || got.Value > upper || got.Bound < lower {
			t.Errorf("%s: got %d to %d, published %d to %d (%v %v)", name, got.Value, got.Bound, lower, upper, ok, fits)
		}
		if all++; got.Value == got.Bound {
			proven++
			if got.Value < lower {
				t.Errorf("%s: got %d as proven, published %d to %d", name, got.Value, lower, upper)
			}
		}
	}
	t.Logf("%d of %d proven", proven, all)
	if proven < all/3 {
		t.Errorf("only %d of %d proven", proven, all)
	}
}

// readAssignment reads an instance of OR-Library's layout: rows and products, costs
// row by row, widths row by row, rooms. When turned, values are what costs leave of
// the greatest cost, and turned is that times the number of products.
func readAssignment(t *testing.T, text string, turn bool) (a Allot, turned int64) {
	in := strings.NewReader(text)
	read := func() (x int64) {
		if _, err := fmt.Fscan(in, &x); err != nil {
			t.Fatal(err)
		}
		return x
	}
	m, n := int(read()), int(read())
	a.Rows, a.Products = make([]AllotRow, m), make([]AllotProduct, n)
	var most int64
	for r := range m {
		for p := range n {
			v := read()
			most = max(most, v)
			a.Products[p].Must = true
			a.Products[p].Options = append(a.Products[p].Options, AllotOption{Row: r, Fronts: 1, Value: v})
		}
	}
	for r := range m {
		for p := range n {
			a.Products[p].Options[r].Width = read()
		}
	}
	for r := range m {
		a.Rows[r].Room = read()
	}
	for p := range n {
		for r := range m {
			if o := &a.Products[p].Options[r]; turn {
				o.Value = most - o.Value
			}
		}
	}
	return a, most * int64(n)
}
