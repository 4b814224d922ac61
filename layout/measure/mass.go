package measure

// Mass is a weight in whole milligrams, rounded once, at parsing.
type Mass int64

// Units of mass. The pound is exactly 0.45359237 kg (NIST SP 811, appendix
// B.8), which is not a whole number of milligrams: multiples of a pound are
// computed from the exact ratio and rounded half away from zero once.
const (
	Milligram Mass = 1
	Gram      Mass = 1_000
	Kilogram  Mass = 1_000_000
)

// MaxMass bounds what a plan may say about one part or product.
const MaxMass = 10_000 * Kilogram

// A pound is poundNum/poundDen milligrams, exactly.
const poundNum, poundDen = 45_359_237, 100

// Pounds is n pounds, rounded half away from zero to whole milligrams.
func Pounds(n int64) Mass { return Mass(roundDiv(n*poundNum, poundDen)) }

// Ounces is n ounces, sixteen to the pound, rounded likewise.
func Ounces(n int64) Mass { return Mass(roundDiv(n*poundNum, poundDen*16)) }
