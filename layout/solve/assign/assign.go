// Package assign pairs the rows of a table of costs with its columns at least
// total cost, and proves it: the duals that come with every result show that no
// other pairing is cheaper. It imports nothing of ours.
//
// The method is that of Jonker and Volgenant, "A shortest augmenting path
// algorithm for dense and sparse linear assignment problems", Computing 38
// (1987): cheap steps pair most rows, shortest paths the rest. Unlike theirs it
// takes tables that are not square, and the cheap steps end after so many, as
// rows that bid against each other may otherwise do so until the costs run out.
package assign

import (
	"fmt"
	"math"
)

// Limit is what every cost must stay below, by its amount.
const Limit = 1 << 40

// Result is a pairing of least total cost. RowDual and ColumnDual prove it: no
// cost is below the sum of the duals of its row and column, of pairs it is
// that sum, and where rows and columns are not as many, duals on the longer side
// are at most 0, and 0 where there is no partner.
type Result struct {
	Column     []int // of each row, -1 for none
	Total      int64
	RowDual    []int64
	ColumnDual []int64
}

// Solve pairs each row with at most one column, as many as the shorter side has,
// at least total cost; cost[r][c] is what row r and column c cost together, and
// may be negative. The same costs give the same pairs. It panics if rows are
// not of one length or a cost reaches Limit.
func Solve(cost [][]int64) Result {
	rows, columns := len(cost), 0
	if rows > 0 {
		columns = len(cost[0])
	}
	r := Result{Column: make([]int, rows), RowDual: make([]int64, rows), ColumnDual: make([]int64, columns)}
	for i := range r.Column {
		r.Column[i] = -1
	}
	low, high := extent(cost, columns)
	switch {
	case rows == 0 || columns == 0:
	case high-low <= math.MaxInt32/16: // nothing in the search passes eight times the extent
		pair[int32](&r, cost, low)
	default:
		pair[int64](&r, cost, low)
	}
	return r
}

// extent is the least and the greatest cost.
func extent(cost [][]int64, columns int) (low, high int64) {
	low, high = Limit, -Limit
	for i, row := range cost {
		if len(row) != columns {
			panic(fmt.Sprintf("assign: row %d has %d columns, row 0 has %d", i, len(row), columns))
		}
		for j, c := range row {
			if c <= -Limit || c >= Limit {
				panic(fmt.Sprintf("assign: row %d, column %d costs %d, the limit is %d", i, j, c, int64(Limit)))
			}
			low, high = min(low, c), max(high, c)
		}
	}
	return low, high
}

// pair solves the table, turned if need be so that each row gets a column, and
// writes the result.
func pair[T number](r *Result, cost [][]int64, low int64) {
	short, long := r.RowDual, r.ColumnDual
	turned := len(short) > len(long)
	if turned {
		short, long = long, short
	}
	s := newSearch(flat[T](cost, low, turned), len(short), len(long))
	s.solve()
	for j, v := range s.v {
		long[j] = int64(v)
	}
	for i, j := range s.column {
		short[i] = int64(s.row(i)[j]-s.v[j]) + low
		row, column := i, int(j)
		if turned {
			row, column = column, row
		}
		r.Column[row] = column
		r.Total += cost[row][column]
	}
}

// flat is the table in one piece, less the least of its costs.
func flat[T number](cost [][]int64, low int64, turned bool) []T {
	rows, columns := len(cost), len(cost[0])
	table := make([]T, rows*columns)
	if turned {
		for i, row := range cost {
			for j, c := range row {
				table[j*rows+i] = T(c - low)
			}
		}
		return table
	}
	for i, row := range cost {
		line := table[i*columns:][:len(row)]
		for j, c := range row {
			line[j] = T(c - low)
		}
	}
	return table
}
