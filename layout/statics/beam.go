// Package statics is pure mechanics: beams, wires, frames, loads on feet,
// tipping, lifting. Plain numbers in, plain numbers out; it knows no unit, no
// part and no rule. It works in float64 and newtons, millimetres and newtons per
// square millimetre (any other units that belong together serve as well), and
// states how far off its answers may be.
package statics

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// Beam is a straight beam of one section on any number of rigid supports that
// carry a vertical force, up or down, and no moment. Lengths are millimetres from
// the left end. Supports ascend; the beam may overhang the outer ones.
type Beam struct {
	Length   float64
	EI       float64 // bending stiffness, N·mm²
	Supports []float64
	Loads    []Load
}

// Load is a vertical force, down positive: at one place if From equals To, else
// spread evenly from From to To. Total is in newtons.
type Load struct{ From, To, Total float64 }

// Solve finds what the supports carry and how the beam bends, by bending alone:
// the shear of a shelf, whose span is many times its thickness, adds little. It
// fails on a beam that is not one: no length or stiffness, fewer than two
// supports, supports out of order, anything off its ends.
func (b Beam) Solve() (Solution, error) {
	if err := b.check(); err != nil {
		return Solution{}, err
	}
	stretches := b.stretches()
	moments := supportMoments(stretches)
	s := Solution{
		Reactions: reactions(stretches, moments),
		ei:        b.EI,
		supports:  slices.Clone(b.Supports),
		length:    b.Length,
		scale:     errorScale(stretches),
	}
	s.pieces = pieces(stretches, moments)
	return s, nil
}

func (b Beam) check() error {
	if !positive(b.Length) || !positive(b.EI) {
		return fmt.Errorf("a beam needs a length and a stiffness above zero, not %g and %g", b.Length, b.EI)
	}
	if len(b.Supports) < 2 {
		return errors.New("a beam needs two supports to stand still")
	}
	for i, x := range b.Supports {
		if !(x >= 0 && x <= b.Length) {
			return fmt.Errorf("the support at %g is not on the beam of %g", x, b.Length)
		}
		if i > 0 && x <= b.Supports[i-1] {
			return fmt.Errorf("the support at %g does not come after the one at %g", x, b.Supports[i-1])
		}
	}
	for _, l := range b.Loads {
		if !(l.From >= 0 && l.From <= l.To && l.To <= b.Length) {
			return fmt.Errorf("the load from %g to %g is not on the beam of %g", l.From, l.To, b.Length)
		}
		if math.IsNaN(l.Total) || math.IsInf(l.Total, 0) {
			return fmt.Errorf("the load from %g to %g is not a number: %g", l.From, l.To, l.Total)
		}
	}
	return nil
}

func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }
