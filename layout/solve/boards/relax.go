package boards

import (
	"math"

	"setwright/layout/solve/lp"
)

// scale turns the duals of a linear program into whole values of pieces.
const scale = 1 << 30

// unmet is what a piece that is not cut costs in a linear program whose dearest board
// costs 1.
const unmet = 8

// relaxation is the cutting of parts of boards: a linear program whose columns are
// layouts, found as they are needed (P. C. Gilmore and R. E. Gomory, Operations Research
// 9, 1961, and 13, 1965).
type relaxation struct {
	*solver
	program lp.Program
	cost    []float64 // by board
	columns []int     // of the program, by layout of the pool
}

// relax solves the cutting of what is wanted from at most so many of each board, at
// costs by board. Layouts are priced with coarse marks until those give no more.
func (s *solver) relax(wanted, limits []int, cost []float64) *relaxation {
	r := &relaxation{solver: s, cost: cost}
	for k, n := range wanted {
		r.program.AddRow(lp.AtLeast, float64(n), nil)
		r.program.AddColumn(unmet, []lp.Entry{{Index: k, Value: 1}})
	}
	for _, n := range limits {
		r.program.AddRow(lp.AtMost, float64(n), nil)
	}
	for i := range s.pool {
		r.add(i)
	}
	for _, p := range []pricer{s.quick, s.tight} {
		for r.program.Solve() == lp.Optimal && r.extend(p) && s.steps <= s.effort {
		}
	}
	return r
}

// duals turns the program's duals into values of pieces. Whatever values are, they prove
// a bound, so that nothing depends on how true the program's floats are.
func (r *relaxation) duals() []int64 {
	value := make([]int64, len(r.shop.kinds))
	for k := range value {
		value[k] = min(max(int64(r.program.Dual(k)*scale), 0), unmet*scale)
	}
	return value
}

// add makes a layout of the pool a column.
func (r *relaxation) add(i int) {
	u := r.pool[i]
	entries := []lp.Entry{{Index: len(u.counts) + u.board, Value: 1}}
	for k, n := range u.counts {
		if n > 0 {
			entries = append(entries, lp.Entry{Index: k, Value: float64(n)})
		}
	}
	r.columns = append(r.columns, r.program.AddColumn(r.cost[u.board], entries))
}

// extend prices layouts at the duals and adds those that are worth more than their board
// costs.
func (r *relaxation) extend(by pricer) (found bool) {
	value := r.duals()
	by.price(value)
	for b := range r.shop.boards {
		pays := r.cost[b] - r.program.Dual(len(value)+b)
		if float64(by.best(b)) <= pays*scale+math.Max(pays, 1)*scale*slight {
			continue
		}
		for _, l := range by.layouts(b) {
			if i, added := r.keep(l, b); added {
				r.add(i)
				found = true
			}
		}
	}
	r.steps += int64(len(value) * len(value))
	return found
}

// slight is by how much of the dearest board a layout must be worth more than it costs
// to be let in: enough to stand out from rounding.
const slight = 1e-7
