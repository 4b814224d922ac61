package assign

import (
	"encoding/binary"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// random is a table of costs from low to high.
func random(rng *rand.Rand, rows, columns int, low, high int64) [][]int64 {
	cost := make([][]int64, rows)
	for i := range cost {
		cost[i] = make([]int64, columns)
		for j := range cost[i] {
			cost[i][j] = low + rng.Int64N(high-low+1)
		}
	}
	return cost
}

// least tries every pairing.
func least(cost [][]int64) int64 {
	if len(cost) == 0 || len(cost[0]) == 0 {
		return 0
	}
	skip := max(0, len(cost)-len(cost[0])) // so many rows have no partner
	taken := make([]bool, len(cost[0]))
	best, found := int64(0), false
	var try func(i, skip int, sum int64)
	try = func(i, skip int, sum int64) {
		if i == len(cost) {
			if !found || sum < best {
				best, found = sum, true
			}
			return
		}
		if skip > 0 {
			try(i+1, skip-1, sum)
		}
		for j, c := range cost[i] {
			if !taken[j] {
				taken[j] = true
				try(i+1, skip, sum+c)
				taken[j] = false
			}
		}
	}
	try(0, skip, 0)
	return best
}

// solved solves and checks.
func solved(t testing.TB, cost [][]int64) Result {
	t.Helper()
	var before [][]int64
	for _, row := range cost {
		before = append(before, slices.Clone(row))
	}
	r := Solve(cost)
	if err := r.Check(cost); err != nil {
		t.Fatalf("%v: %v", cost, err)
	}
	if !slices.EqualFunc(cost, before, slices.Equal) {
		t.Fatal("the costs were changed")
	}
	return r
}

// TestBrute wants the least total of all pairings.
func TestBrute(t *testing.T) {
	for _, c := range []struct {
		low, high int64
		size      int // at most
		cases     int
		reason    string
	}{
		{0, 1, 7, 1500, "nearly all ties"},
		{-3, 3, 6, 3000, "ties and negative costs"},
		{-100, -1, 6, 2000, "all negative"},
		{1, 1_000_000, 6, 2000, "no ties"},
		{1 - Limit, Limit - 1, 6, 2000, "as wide as costs may be: counted in 64 bits"},
		{1 << 39, 1<<39 + 5, 6, 1000, "great costs close together: counted in 32 bits"},
		{-1 << 26, 1 << 26, 6, 1000, "on the edge of 32 bits"},
	} {
		t.Run(c.reason, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1, uint64(c.size)))
			for range c.cases {
				cost := random(rng, 1+rng.IntN(c.size), 1+rng.IntN(c.size), c.low, c.high)
				if r := solved(t, cost); r.Total != least(cost) {
					t.Fatalf("%v: total %d, want %d", cost, r.Total, least(cost))
				}
			}
		})
	}
}

// TestEmpty pairs nothing where there is nothing to pair.
func TestEmpty(t *testing.T) {
	for _, cost := range [][][]int64{nil, {}, {{}}, {{}, {}, {}}} {
		r := solved(t, cost)
		if r.Total != 0 || slices.ContainsFunc(r.Column, func(j int) bool { return j != -1 }) {
			t.Errorf("%v: %+v", cost, r)
		}
	}
}

// TestExamples wants totals that are known.
func TestExamples(t *testing.T) {
	for _, c := range []struct {
		cost   [][]int64
		total  int64
		reason string
	}{
		{[][]int64{{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}, 5, "SciPy's documentation of linear_sum_assignment, recalled"},
		{[][]int64{{400, 150, 400}, {400, 450, 600}, {300, 225, 300}}, 850, "SciPy's tests, recalled"},
		{[][]int64{{400, 150, 400, 1}, {400, 450, 600, 2}, {300, 225, 300, 3}}, 452, "the same, wider"},
		{[][]int64{{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}, 18, "SciPy's tests, recalled"},
		{product(40), 40 * 41 * 42 / 6, "large with small: the least of all orders (Hardy, Littlewood and Polya, Inequalities, 1934)"},
		{[][]int64{{7}, {5}, {6}}, 5, "one column for three rows"},
		{[][]int64{{0, 2, 1 << 39, 1 << 39}, {0, 3, 1 << 39, 1 << 39}, {0, 5, 1 << 39, 1 << 39}}, 2 + 1<<39, "three rows that could bid for two columns by ones until doomsday"},
	} {
		if r := solved(t, c.cost); r.Total != c.total {
			t.Errorf("%s: total %d, want %d", c.reason, r.Total, c.total)
		}
	}
}

// TestCheck wants what is no proof refused.
func TestCheck(t *testing.T) {
	cost := [][]int64{{4, 1, 3, 9}, {2, 0, 5, 9}, {3, 2, 2, 9}}
	for _, c := range []struct {
		reason string
		spoil  func(r *Result)
		want   string
	}{
		{"nothing is wrong", func(r *Result) {}, ""},
		{"two rows with one column", func(r *Result) { r.Column[0] = r.Column[1] }, "has a row already"},
		{"a row without a column", func(r *Result) { r.Column[0] = -1 }, "2 pairs, there can be 3"},
		{"a column that is not there", func(r *Result) { r.Column[0] = 4 }, "there is no column 4"},
		{"a column before the first", func(r *Result) { r.Column[0] = -2 }, "there is no column -2"},
		{"partners of too few rows", func(r *Result) { r.Column = r.Column[:2] }, "2 partners"},
		{"duals of too few columns", func(r *Result) { r.ColumnDual = r.ColumnDual[:3] }, "4 columns of costs, 3 duals"},
		{"a total too low", func(r *Result) { r.Total-- }, "the total is 4"},
		{"a pairing that is dearer", func(r *Result) {
			r.Column[0], r.Column[2] = r.Column[2], r.Column[0]
			r.Total = cost[0][r.Column[0]] + cost[1][r.Column[1]] + cost[2][r.Column[2]]
		}, "duals come to 5"},
		{"a dual too low", func(r *Result) { r.RowDual[1]-- }, "duals come to 4"},
		{"a dual too high", func(r *Result) { r.RowDual[1]++ }, "row 1, column 0: duals"},
		{"a dual above 0 of a column more than rows", func(r *Result) { r.ColumnDual[3] = 1 }, "column 3: its dual is 1"},
		{"a dual that overflows", func(r *Result) { r.RowDual[0] = 1 << 62 }, "row 0: its dual"},
	} {
		r := solved(t, cost)
		c.spoil(&r)
		if err := r.Check(cost); (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.reason, err, c.want)
		}
	}
}

// TestPanics wants tables refused that are none.
func TestPanics(t *testing.T) {
	for reason, cost := range map[string][][]int64{
		"rows of two lengths": {{1, 2}, {1}},
		"a cost too high":     {{1, Limit}},
		"a cost too low":      {{-Limit}},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: taken", reason)
				}
			}()
			Solve(cost)
		}()
	}
}

// FuzzAssign wants a proof of any table: two bytes for its sides, one for how wide
// costs are, then two for each cost.
func FuzzAssign(f *testing.F) {
	f.Add([]byte{3, 4, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
	f.Add([]byte{6, 6, 38})
	f.Add([]byte("rows and columns of costs that are letters"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) < 3 {
			return
		}
		rows, columns, shift := int(data[0]%24), int(data[1]%24), data[2]%24
		data = data[3:]
		cost := make([][]int64, rows)
		for i := range cost {
			cost[i] = make([]int64, columns)
			for j := range cost[i] {
				if len(data) > 1 {
					cost[i][j] = int64(int16(binary.LittleEndian.Uint16(data))) << shift
					data = data[2:]
				}
			}
		}
		solved(t, cost)
	})
}
