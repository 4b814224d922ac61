// Package measure is lengths and weights as exact whole numbers: parsing what a
// designer writes, printing what a crew reads, and one rounding rule for both.
package measure

// Length is a distance in whole nanometres. Inches (25.4 mm) and millimetres
// are both exact, so a plan may mix them freely and no sum ever drifts.
//
// A product of two lengths overflows int64 beyond about 3 m by 3 m: areas and
// moments are computed in a coarser unit.
type Length int64

// Units of length. The inch is exactly 25.4 mm (NIST SP 811, appendix B.8).
const (
	Nanometre  Length = 1
	Micrometre Length = 1_000
	Millimetre Length = 1_000_000
	Centimetre Length = 10_000_000
	Metre      Length = 1_000_000_000
	Inch       Length = 25_400_000
	Foot       Length = 12 * Inch
)

// MaxLength bounds what a plan may say: no shop display is longer than 100 m,
// and tens of millions of such lengths still add up within an int64.
const MaxLength = 100 * Metre

// System is the family of units a plan is written and printed in.
type System uint8

// The two systems: bare numbers read, and sheets print, in inches or in
// millimetres. A bare weight reads in pounds or in kilograms to match.
const (
	Inches System = iota
	Millimetres
)
