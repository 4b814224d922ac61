// Package statics is pure mechanics: beams, wires, frames, loads on feet,
// tipping. Plain numbers in, plain numbers out; it knows no unit, no part and
// no rule. It works in float64 and newtons, millimetres and newtons per square
// millimetre, and states how far off its answers may be.
package statics

// Beam is a straight beam of one section on any number of rigid supports that
// carry a vertical force and no moment. Lengths are millimetres from the left
// end. Supports ascend; the beam may overhang the outer ones.
type Beam struct {
	Length   float64
	EI       float64 // bending stiffness, N·mm²
	Supports []float64
	Loads    []Load
}

// Load is a vertical force, down positive: at one place if From equals To, else
// spread evenly from From to To. Total is in newtons.
type Load struct{ From, To, Total float64 }
