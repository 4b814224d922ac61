package lp

import "math"

// raiseCosts raises the costs in use so that no reduced cost is negative: the
// dual simplex may then start. Its end is feasible, and from there the primal
// simplex goes on with the true costs.
func (p *Program) raiseCosts() {
	for r, at := range p.home {
		if d := p.reduced(^r); at < 0 && d < 0 {
			p.pricedSlack[r] -= d
		}
	}
	for j, at := range p.place {
		if at >= 0 || p.barred[j] {
			continue
		}
		if d := p.reduced(j); d < 0 {
			p.priced[j] -= d
		}
	}
}

// dualSimplex goes from a basis without negative reduced costs to a feasible one.
func (p *Program) dualSimplex() Status {
	still := 0
	for range p.patience() {
		if p.age >= lifetime {
			p.refactor()
			p.evaluate()
			p.raiseCosts()
		}
		careful := still > p.stall()
		at := p.worst(careful)
		if at < 0 {
			return Optimal
		}
		copy(p.rho, p.inverse[at])
		j, found := p.answering(p.value[at] > 0, careful)
		if !found {
			return Infeasible
		}
		d := max(0, p.reduced(j))
		p.column(j)
		if math.Abs(p.alpha[at]) < least {
			return Stopped // rounding: the inverse is spent
		}
		theta := p.value[at] / p.alpha[at]
		p.move(j, at, d, theta)
		if d > Tolerance {
			still = 0
		} else {
			still++
		}
	}
	return Stopped
}

// worst is the place whose value is furthest from where it may be, or, carefully,
// the one of lowest number; -1 if none is.
func (p *Program) worst(careful bool) int {
	best, far := -1, 0.0
	for at := range p.basis {
		e := math.Abs(p.excess(at))
		if e == 0 {
			continue
		}
		if best < 0 || careful && p.number(at) < p.number(best) || !careful && e > far {
			best, far = at, e
		}
	}
	return best
}

// answering chooses the column or slack that can make up for the leaving row rho
// at the least reduced cost, of equal ones that with the largest entry or,
// carefully, the first.
func (p *Program) answering(above, careful bool) (j int, found bool) {
	sign := -1.0
	if above {
		sign = 1
	}
	least, entry := math.Inf(1), 0.0
	consider := func(k int) {
		a := sign * p.across(k)
		if a <= pivotal {
			return
		}
		ratio := max(0, p.reduced(k)) / a
		if ratio < least-Tolerance || ratio <= least+Tolerance && !careful && a > entry {
			least, entry, j, found = min(ratio, least), a, k, true
		}
	}
	for r, at := range p.home {
		if at < 0 {
			consider(^r)
		}
	}
	for c, at := range p.place {
		if at < 0 && !p.barred[c] {
			consider(c)
			p.work += int64(2 * len(p.entries[c]))
		}
	}
	return j, found
}

// pivotal is the smallest entry for which the dual simplex takes a column.
const pivotal = 1e-7
