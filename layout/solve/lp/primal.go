package lp

import "math"

// primalSimplex goes from a feasible basis to an optimal one.
func (p *Program) primalSimplex() Status {
	still := 0
	for range p.patience() {
		if p.age >= lifetime {
			p.refactor()
			p.evaluate()
			if !p.feasible() {
				return Stopped // rounding: the caller begins again
			}
		}
		careful := still > p.stall()
		j, found := p.entering(careful)
		if !found {
			return Optimal
		}
		d := p.reduced(j)
		p.column(j)
		at := p.leaving(careful)
		if at < 0 {
			return Unbounded
		}
		if p.step(j, at, d) > Tolerance {
			still = 0
		} else {
			still++
		}
	}
	return Stopped
}

// entering chooses a column or slack whose increase lowers the cost most, or,
// carefully, the first that lowers it.
func (p *Program) entering(careful bool) (j int, found bool) {
	best := -Tolerance
	for r, at := range p.home {
		if at >= 0 {
			continue
		}
		if d := p.reduced(^r); d < best {
			if best, j, found = d, ^r, true; careful {
				return j, true
			}
		}
	}
	for c, at := range p.place {
		if at >= 0 || p.barred[c] {
			continue
		}
		p.work += int64(len(p.entries[c]))
		if d := p.reduced(c); d < best {
			if best, j, found = d, c, true; careful {
				return j, true
			}
		}
	}
	return j, found
}

// leaving chooses the place whose value is first to reach zero as alpha comes in.
// Within a tolerance of the first it takes the largest entry (Harris 1973), or,
// carefully, of the very first the lowest number. It returns -1 if none does.
func (p *Program) leaving(careful bool) int {
	slackened, reach := Tolerance, math.Inf(1)
	if careful {
		slackened = 0
	}
	for at := range p.basis {
		if ratio, blocks := p.ratio(at, slackened); blocks {
			reach = min(reach, ratio)
		}
	}
	best := -1
	for at := range p.basis {
		ratio, blocks := p.ratio(at, 0)
		if !blocks || ratio > reach {
			continue
		}
		switch {
		case best < 0,
			careful && p.number(at) < p.number(best),
			!careful && math.Abs(p.alpha[at]) > math.Abs(p.alpha[best]):
			best = at
		}
	}
	return best
}

// ratio is how far the entering column can go before the value in a place leaves
// its bounds by more than slackened, and whether it ever does.
func (p *Program) ratio(at int, slackened float64) (ratio float64, blocks bool) {
	a := p.alpha[at]
	if a > least {
		return (max(0, p.value[at]) + slackened) / a, true
	}
	if a < -least && p.held(at) {
		return slackened / -a, true
	}
	return 0, false
}

// number orders columns before slacks, for choices that go by number.
func (p *Program) number(at int) int {
	if j := p.basis[at]; j >= 0 {
		return j + len(p.bound)
	}
	return ^p.basis[at]
}

// step lets column j with reduced cost d enter in a place and returns by how much
// the cost sank.
func (p *Program) step(j, at int, d float64) float64 {
	theta := 0.0
	if p.alpha[at] > 0 {
		theta = max(0, p.value[at]) / p.alpha[at]
	}
	p.move(j, at, d, theta)
	return -d * theta
}

// move changes values and duals for a pivot in which column j enters at theta.
func (p *Program) move(j, at int, d, theta float64) {
	for i, a := range p.alpha {
		p.value[i] -= float64(theta * a)
	}
	p.value[at] = theta
	by := d / p.alpha[at]
	for r, v := range p.inverse[at] {
		p.dual[r] += float64(by * v)
	}
	p.work += int64(2 * len(p.basis))
	p.enter(j, at)
}
