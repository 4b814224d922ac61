package lp

import (
	"math"
	"slices"
)

const (
	// tiny entries of the inverse are taken for rounding.
	tiny = 1e-13
	// least is the smallest pivot that is divided by.
	least = 1e-8
	// drift is how far rows may be from their bounds, for each unit of these.
	drift = 1e-7
	// lifetime is how many pivots an inverse serves.
	lifetime = 150
)

// column puts inverse times a column into alpha; ^row stands for a slack.
func (p *Program) column(j int) {
	if j < 0 {
		for at, row := range p.inverse {
			p.alpha[at] = row[^j] * p.slack[^j]
		}
		p.work += int64(len(p.inverse))
		return
	}
	entries := p.entries[j]
	for at, row := range p.inverse {
		sum := 0.0
		for _, e := range entries {
			sum += float64(row[e.Index] * e.Value)
		}
		p.alpha[at] = sum
	}
	p.work += int64(len(p.inverse) * len(entries))
}

// reduced is the cost of a nonbasic column or slack less what the duals pay for it.
func (p *Program) reduced(j int) float64 {
	if j < 0 {
		return p.pricedSlack[^j] - float64(p.dual[^j]*p.slack[^j])
	}
	d := p.priced[j]
	for _, e := range p.entries[j] {
		d -= float64(p.dual[e.Index] * e.Value)
	}
	return d
}

// across is the entry of a nonbasic column or slack in the leaving row, rho.
func (p *Program) across(j int) float64 {
	if j < 0 {
		return p.rho[^j] * p.slack[^j]
	}
	sum := 0.0
	for _, e := range p.entries[j] {
		sum += float64(p.rho[e.Index] * e.Value)
	}
	return sum
}

// enter makes column j, whose alpha is at hand, basic in the place of another.
// Values and duals are the caller's to change.
func (p *Program) enter(j, at int) {
	p.leave(p.basis[at])
	p.basis[at] = j
	if j < 0 {
		p.home[^j] = at
	} else {
		p.place[j] = at
	}
	p.eliminate(at)
	p.age++
}

// leave makes a column or slack nonbasic.
func (p *Program) leave(j int) {
	if j < 0 {
		p.home[^j] = -1
	} else {
		p.place[j] = -1
	}
}

// eliminate brings the inverse up to date with alpha in the place of at.
func (p *Program) eliminate(at int) {
	pivot := p.inverse[at]
	p.nonzero = p.nonzero[:0]
	by := 1 / p.alpha[at]
	for k, v := range pivot {
		if math.Abs(v) <= tiny {
			pivot[k] = 0
			continue
		}
		pivot[k] = v * by
		p.nonzero = append(p.nonzero, k)
	}
	for i, row := range p.inverse {
		a := p.alpha[i]
		if i == at || math.Abs(a) <= tiny {
			continue
		}
		for _, k := range p.nonzero {
			row[k] -= float64(a * pivot[k])
		}
		p.work += int64(len(p.nonzero))
	}
	p.work += int64(2 * len(pivot))
}

// evaluate works out values and duals from the inverse.
func (p *Program) evaluate() {
	for at, row := range p.inverse {
		sum := 0.0
		for r, v := range row {
			sum += float64(v * p.bound[r])
		}
		p.value[at] = sum
	}
	p.work += int64(len(p.inverse) * len(p.inverse))
	p.reprice()
}

// reprice works out the duals from the inverse and the costs in use.
func (p *Program) reprice() {
	clear(p.dual)
	for at, j := range p.basis {
		c := 0.0
		if j < 0 {
			c = p.pricedSlack[^j]
		} else {
			c = p.priced[j]
		}
		if c == 0 {
			continue
		}
		for r, v := range p.inverse[at] {
			p.dual[r] += float64(c * v)
		}
		p.work += int64(len(p.dual))
	}
}

// feasible says whether all basic values are what they may be.
func (p *Program) feasible() bool {
	for at := range p.basis {
		if p.excess(at) != 0 {
			return false
		}
	}
	return true
}

// excess is how far a basic value is below zero, as a negative number, or above
// it where its column is barred.
func (p *Program) excess(at int) float64 {
	v := p.value[at]
	if v < -Tolerance || v > Tolerance && p.held(at) {
		return v
	}
	return 0
}

// held says whether the column in a place is barred.
func (p *Program) held(at int) bool { return p.basis[at] >= 0 && p.barred[p.basis[at]] }

// accurate says whether rows and basic costs still add up.
func (p *Program) accurate() bool {
	sum, size := make([]float64, len(p.bound)), 1.0
	for r, b := range p.bound {
		sum[r] = -b
		size = max(size, math.Abs(b))
	}
	for at, j := range p.basis {
		if j < 0 {
			sum[^j] += float64(p.slack[^j] * p.value[at])
			continue
		}
		for _, e := range p.entries[j] {
			sum[e.Index] += float64(e.Value * p.value[at])
		}
	}
	for _, s := range sum {
		if !(math.Abs(s) <= drift*size) {
			return false
		}
	}
	for _, j := range p.basis {
		if d := p.reduced(j); !(math.Abs(d) <= drift*(1+math.Abs(p.costOf(j)))) {
			return false
		}
	}
	return true
}

func (p *Program) costOf(j int) float64 {
	if j < 0 {
		return 0
	}
	return p.cost[j]
}

// refactor works the inverse out afresh: slacks first, then columns from the
// shortest, each in the free place where its entry is largest. A column that
// depends on those before it gives way to a slack.
func (p *Program) refactor() {
	var columns []int
	for at, j := range p.basis {
		if j >= 0 {
			columns = append(columns, j)
			p.place[j] = -1
		}
		clear(p.inverse[at])
	}
	slices.SortStableFunc(columns, func(a, b int) int { return len(p.entries[a]) - len(p.entries[b]) })
	free := make([]bool, len(p.basis))
	for r := range p.basis {
		free[r] = p.home[r] < 0
	}
	for r := range p.basis {
		p.basis[r], p.home[r] = ^r, r
		p.inverse[r][r] = p.slack[r]
	}
	for _, j := range columns {
		p.column(j)
		at := -1
		for i, f := range free {
			if f && (at < 0 || math.Abs(p.alpha[i]) > math.Abs(p.alpha[at])) {
				at = i
			}
		}
		if at < 0 || math.Abs(p.alpha[at]) < least {
			continue
		}
		free[at] = false
		p.enter(j, at)
	}
	p.age = 0
}
