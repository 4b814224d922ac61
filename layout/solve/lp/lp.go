// Package lp is a small revised simplex for linear programs that grow: columns
// are found by pricing while the program is being solved, rows come in as cuts.
//
// A program minimises cost over columns that are not negative, under rows that
// hold a sum of columns from below or from above. Whatever is changed, the next
// Solve starts from the basis of the last: new columns enter by the primal
// simplex; after a new row, another bound or a barred column the dual simplex
// mends what was broken. A program that might have no solution is best given
// columns of high cost that fill its rows, so that there always are duals to
// price with.
//
// Arithmetic is in floats and answers are true to about Tolerance. Whoever needs
// a proof rounds the duals to integers and checks those. No choice depends on
// anything but the program's history, and each product is rounded before it is
// added (float64 keeps compilers from fusing the two), so that the same calls give
// the same bits everywhere.
package lp

import "math"

// Tolerance is how far below zero a value or a reduced cost may be and still
// count as zero. Programs with coefficients and costs of about 1 suit it.
const Tolerance = 1e-9

// Sense says which way a row holds its sum.
type Sense int8

// The two senses; a row that holds both ways is two rows.
const (
	AtLeast Sense = iota
	AtMost
)

// Status says how a Solve ended.
type Status int8

const (
	// Optimal: values and duals are those of an optimum.
	Optimal Status = iota
	// Infeasible: no values keep all rows.
	Infeasible
	// Unbounded: there are solutions of any cost, however low.
	Unbounded
	// Stopped: rounding or degeneracy kept the simplex from ending. Values and duals mean nothing.
	Stopped
)

// Entry is one coefficient: Index is the row's number in a column, the column's in a row.
type Entry struct {
	Index int
	Value float64
}

// Program is a linear program and the basis it was last solved with. The zero
// value is an empty program. It is not for several goroutines at once.
type Program struct {
	bound []float64 // by row
	slack []float64 // by row: coefficient of its slack, -1 at least, 1 at most

	cost    []float64 // by column
	entries [][]Entry
	barred  []bool

	basis   []int       // by place: a column, or ^row for the slack of a row
	place   []int       // by column: its place in the basis, or -1
	home    []int       // by row: the place of its slack, or -1
	inverse [][]float64 // of the basis: by place, by row
	value   []float64   // by place
	dual    []float64   // by row

	priced, pricedSlack []float64 // costs in use, by column and row: those of the dual simplex may be raised
	alpha, rho          []float64 // scratch: the entering column by place, the leaving row by row
	nonzero             []int     // scratch of pivot

	age  int   // pivots since the inverse was worked out afresh
	work int64 // multiplications, about
}

// AddRow adds a row over columns that are there already and returns its number.
// No column may be named twice.
func (p *Program) AddRow(sense Sense, bound float64, over []Entry) int {
	r, n := len(p.bound), len(p.basis)
	slack := 1.0
	if sense == AtLeast {
		slack = -1
	}
	p.bound = append(p.bound, bound)
	p.slack = append(p.slack, slack)
	p.pricedSlack = append(p.pricedSlack, 0)
	p.basis = append(p.basis, ^r)
	p.home = append(p.home, n)
	p.dual = append(p.dual, 0)
	p.value = append(p.value, 0)
	p.alpha, p.rho = append(p.alpha, 0), append(p.rho, 0)
	for i := range p.inverse {
		p.inverse[i] = append(p.inverse[i], 0)
	}
	row := make([]float64, r+1)
	for _, e := range over {
		p.entries[e.Index] = append(p.entries[e.Index], Entry{r, e.Value})
		if at := p.place[e.Index]; at >= 0 {
			for k, v := range p.inverse[at] {
				row[k] -= float64(slack * e.Value * v)
			}
		}
	}
	row[r] = slack
	p.inverse = append(p.inverse, row)
	return r
}

// AddColumn adds a column and returns its number. No row may be named twice; the
// entries are copied.
func (p *Program) AddColumn(cost float64, entries []Entry) int {
	p.cost = append(p.cost, cost)
	p.entries = append(p.entries, append([]Entry(nil), entries...))
	p.barred = append(p.barred, false)
	p.place = append(p.place, -1)
	p.priced = append(p.priced, cost)
	return len(p.cost) - 1
}

// SetBound changes what a row holds its sum to.
func (p *Program) SetBound(row int, bound float64) { p.bound[row] = bound }

// SetCost changes the cost of a column.
func (p *Program) SetCost(column int, cost float64) { p.cost[column] = cost }

// Bar holds a column at zero, or lets it go again.
func (p *Program) Bar(column int, barred bool) { p.barred[column] = barred }

// Rows is the number of rows.
func (p *Program) Rows() int { return len(p.bound) }

// Columns is the number of columns.
func (p *Program) Columns() int { return len(p.cost) }

// Value is what the last Solve gave a column.
func (p *Program) Value(column int) float64 {
	if at := p.place[column]; at >= 0 {
		return math.Max(0, p.value[at])
	}
	return 0
}

// Dual is what one more on the bound of a row would cost: not negative for a row
// that holds from below, not positive for one that holds from above.
func (p *Program) Dual(row int) float64 {
	if p.slack[row] < 0 {
		return math.Max(0, p.dual[row])
	}
	return math.Min(0, p.dual[row])
}

// Objective is the cost of the values of the last Solve.
func (p *Program) Objective() float64 {
	sum := 0.0
	for at, j := range p.basis {
		if j >= 0 {
			sum += float64(p.cost[j] * p.value[at])
		}
	}
	return sum
}

// Work counts, about, the multiplications of all Solves so far: a measure of
// effort that is the same on every machine.
func (p *Program) Work() int64 { return p.work }

// Solve finds an optimum, starting from the basis of the last one.
func (p *Program) Solve() Status {
	for range refreshes {
		copy(p.priced, p.cost)
		clear(p.pricedSlack)
		p.evaluate()
		status := Optimal
		if !p.feasible() {
			p.raiseCosts()
			status = p.dualSimplex()
			copy(p.priced, p.cost)
			clear(p.pricedSlack)
			p.reprice()
		}
		if status == Optimal {
			status = p.primalSimplex()
		}
		if status != Stopped && p.accurate() {
			return status
		}
		p.refactor()
	}
	return Stopped
}

// refreshes is how often a Solve begins again with an inverse worked out afresh.
const refreshes = 6

// patience is how many pivots a simplex may take before it is stopped.
func (p *Program) patience() int { return 1000 + 20*(len(p.bound)+len(p.cost)) }

// stall is how many pivots without progress are taken before the choice of
// pivots goes by number only (Bland 1977), which cannot cycle.
func (p *Program) stall() int { return 50 + len(p.bound) }
