package assign

import (
	"fmt"
	"math/big"
)

// Check proves a result against the costs: that its pairs are pairs, as many as
// there can be, at what the total says, and that no other pairing costs less.
//
// The last is weak duality. No pair costs less than its row's and its column's
// dual together; as many pairs as there can be take in every dual of the shorter
// side, and leave out none on the longer that is above 0: they cost no less than
// the sum of all duals, which is the total. That the duals of the result's own
// pairs come to their costs follows. The error says what is wrong first.
func (r Result) Check(cost [][]int64) error {
	rows, columns := len(r.RowDual), len(r.ColumnDual)
	if len(cost) != rows || len(r.Column) != rows {
		return fmt.Errorf("%d rows of costs, %d partners, %d duals", len(cost), len(r.Column), rows)
	}
	for i, row := range cost {
		if len(row) != columns {
			return fmt.Errorf("row %d: %d columns of costs, %d duals", i, len(row), columns)
		}
	}
	if err := r.checkPairs(cost); err != nil {
		return err
	}
	return r.checkDuals(cost)
}

func (r Result) checkPairs(cost [][]int64) error {
	taken := make([]bool, len(r.ColumnDual))
	pairs, total := 0, new(big.Int)
	for i, j := range r.Column {
		if j == -1 {
			continue
		}
		if j < 0 || j >= len(taken) {
			return fmt.Errorf("row %d: there is no column %d", i, j)
		}
		if taken[j] {
			return fmt.Errorf("row %d: column %d has a row already", i, j)
		}
		taken[j] = true
		pairs++
		total.Add(total, big.NewInt(cost[i][j]))
	}
	if most := min(len(r.Column), len(taken)); pairs != most {
		return fmt.Errorf("%d pairs, there can be %d", pairs, most)
	}
	if total.Cmp(big.NewInt(r.Total)) != 0 {
		return fmt.Errorf("pairs cost %v, the total is %d", total, r.Total)
	}
	return nil
}

// dualLimit keeps the sum of two duals from overflowing.
const dualLimit = 1 << 61

func (r Result) checkDuals(cost [][]int64) error {
	sum := new(big.Int)
	side := func(name string, duals []int64, longer bool) error {
		for k, d := range duals {
			if d < -dualLimit || d > dualLimit || longer && d > 0 {
				return fmt.Errorf("%s %d: its dual is %d", name, k, d)
			}
			sum.Add(sum, big.NewInt(d))
		}
		return nil
	}
	if err := side("row", r.RowDual, len(r.RowDual) > len(r.ColumnDual)); err != nil {
		return err
	}
	if err := side("column", r.ColumnDual, len(r.ColumnDual) > len(r.RowDual)); err != nil {
		return err
	}
	for i, row := range cost {
		for j, c := range row {
			if u, v := r.RowDual[i], r.ColumnDual[j]; u+v > c {
				return fmt.Errorf("row %d, column %d: duals %d and %d, cost %d", i, j, u, v, c)
			}
		}
	}
	if sum.Cmp(big.NewInt(r.Total)) != 0 {
		return fmt.Errorf("duals come to %v, the total is %d", sum, r.Total)
	}
	return nil
}
