package reset

import (
	"math"
	"slices"

	"setwright/layout/check"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// faceCount is how many faces a unit can have.
const faceCount = 4

// faceIndex counts the faces in sheet order.
func faceIndex(id plan.FaceID) int { return slices.Index(plan.FaceIDs(), id) }

// load is weights on the unit: all together, and the mass on each face.
type load struct {
	all   check.Weights
	faces [faceCount]measure.Mass
}

// loadOn is one weight on a face.
func loadOn(f *unit.Face, m measure.Mass, at unit.Solid) load {
	l := load{all: check.WeightAt(m, at)}
	l.faces[faceIndex(f.ID)] = m
	return l
}

func (l load) plus(o load) load {
	l.all = l.all.Plus(o.all)
	for i, m := range o.faces {
		l.faces[i] += m
	}
	return l
}

func (l load) minus(o load) load {
	l.all = l.all.Minus(o.all)
	for i, m := range o.faces {
		l.faces[i] -= m
	}
	return l
}

// hanging is all hardware and goods of the old unit. Goods weigh what the new
// plan says, if it has them.
func (r *Reset) hanging() load {
	var sum load
	for _, it := range r.Items {
		sum = sum.plus(it.From.where(r.Old).load())
	}
	for _, f := range r.Facings {
		sum = sum.plus(f.From.where(f.Product.Weight).load())
	}
	return sum
}

// judge tells how the unit stands under a load, and what is wrong with it. What
// it is held to is fixed for the night.
type judge struct {
	unit   *unit.Unit
	stance *check.Stance
	pairs  []pair
	share  float64 // of the benchmark's push, the least that is not cautioned about
	tilt   float64 // degrees, the same
}

// pair is two opposite faces and by how much they may differ.
type pair struct {
	a, b  int
	limit measure.Mass
}

// rounding keeps what is at a limit from being taken to be over it.
const rounding = 1e-9

// newJudge sets the limits for a unit that carries one load at first and another
// in the end, and is never higher than top: those of the checks, or what either
// comes to by itself if that is worse, for which the night is not to blame; then
// it may be a tenth less steady still, so that nobody carries single facings from
// side to side for nothing (house rule). Of opposite faces the heaviest that
// either ever is sets the limit.
func newJudge(u *unit.Unit, top measure.Length, start, end load) *judge {
	j := &judge{unit: u, stance: check.NewStance(u, top), share: math.Inf(-1), tilt: math.Inf(-1)}
	if !check.Waived(u.Plan, "balance") {
		for _, faces := range j.stance.Opposite() {
			p := pair{a: faceIndex(faces[0]), b: faceIndex(faces[1])}
			if u.Face(faces[0]) == nil || u.Face(faces[1]) == nil {
				continue
			}
			p.limit = check.Unbalanced(max(start.faces[p.a], start.faces[p.b], end.faces[p.a], end.faces[p.b]))
			p.limit = max(p.limit, p.apart(start), p.apart(end))
			j.pairs = append(j.pairs, p)
		}
	}
	startShare, startTilt := j.tips(start)
	endShare, endTilt := j.tips(end)
	if !check.Waived(u.Plan, "tip-force") {
		j.share = least(1, startShare, endShare)
	}
	if !check.Waived(u.Plan, "tip-tilt") {
		j.tilt = least(check.LeastTilt, startTilt, endTilt)
	}
	return j
}

// least is what a benchmark asks for, or nine tenths of what a unit that falls
// short of it comes to before or after.
func least(benchmark, start, end float64) float64 {
	if worst := min(start, end); worst < benchmark {
		benchmark = min(worst, 0.9*worst)
	}
	return benchmark - rounding
}

// apart is by how much the faces differ.
func (p pair) apart(l load) measure.Mass {
	d := l.faces[p.a] - l.faces[p.b]
	return max(d, -d)
}

func (j *judge) tips(l load) (share, tilt float64) { return j.stance.Tips(j.stance.Bare.Plus(l.all)) }

// The codes of what may be wrong with a standing.
const (
	tipCode     = "tip"
	balanceCode = "balance"
)

// fault is what is wrong with a standing, the graver thing if both are: its code,
// "" if nothing is, and how far it is over the limit as a share of it.
type fault struct {
	code string
	over float64
}

// worse orders faults: tipping before balance, then by how far.
func (f fault) worse(o fault) bool {
	if (f.code == tipCode) != (o.code == tipCode) {
		return f.code == tipCode
	}
	return f.over > o.over
}

// fault judges a load. Balance is asked first, which is quick.
func (j *judge) fault(l load) fault {
	var worst fault
	for _, p := range j.pairs {
		if d := p.apart(l); d > p.limit {
			worst = fault{balanceCode, max(worst.over, float64(d-p.limit)/float64(p.limit))}
		}
	}
	share, tilt := j.tips(l)
	if short := max(j.share-share, (j.tilt-tilt)/check.LeastTilt); short > 0 {
		return fault{tipCode, short}
	}
	return worst
}

// standing is how the unit stands, as a step tells it.
func (j *judge) standing(l load) Standing {
	share, tilt := j.tips(l)
	s := Standing{Mass: j.stance.Bare.Mass + l.all.Mass, Share: share, Tilt: tilt, Carried: map[plan.FaceID]measure.Mass{}}
	for _, f := range j.unit.Faces {
		s.Carried[f.ID] = l.faces[faceIndex(f.ID)]
	}
	return s
}
