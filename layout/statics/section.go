package statics

import "math"

// RoundI is the second moment of area of a round bar of diameter d, mm⁴:
// πd⁴/64 (Roark's Formulas for Stress and Strain, table A.1).
func RoundI(d float64) float64 { return math.Pi * d * d * d * d / 64 }

// RoundS is the section modulus of a round bar of diameter d, mm³: πd³/32.
func RoundS(d float64) float64 { return math.Pi * d * d * d / 32 }

// RoundJ is the torsion constant of a round bar of diameter d, mm⁴: πd⁴/32.
func RoundJ(d float64) float64 { return math.Pi * d * d * d * d / 32 }

// RectI is the second moment of area of a rectangle b wide and h high, mm⁴:
// bh³/12 (Wood Handbook, FPL-GTR-190, equation 9-3).
func RectI(b, h float64) float64 { return b * h * h * h / 12 }

// RectS is the section modulus of a rectangle b wide and h high, mm³: bh²/6.
func RectS(b, h float64) float64 { return b * h * h / 6 }
