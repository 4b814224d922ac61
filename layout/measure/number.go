package measure

import "math/big"

// Number is the length as a decimal number of the system's unit, inches or
// millimetres: the shortest that ParseLength reads as the same length, so that
// nothing is lost where most lengths are no finite decimal of an inch.
func (l Length) Number(s System) string {
	if s == Millimetres {
		return l.MM()
	}
	return shortest(int64(l), int64(Inch), 1)
}

// Number is the weight as a decimal number of pounds or, where lengths are in
// millimetres, kilograms: the shortest that ParseMass reads as the same weight.
func (m Mass) Number(s System) string {
	if s == Millimetres {
		return m.Kilograms()
	}
	return shortest(int64(m), poundNum, poundDen)
}

// shortest is n as a decimal number of a unit of num/den: the fewest decimals
// that, rounded half away from zero, are n again.
func shortest(n, num, den int64) string {
	if n < 0 {
		return "-" + shortest(-n, num, den)
	}
	unit := big.NewRat(num, den)
	exact := new(big.Rat).Quo(new(big.Rat).SetInt64(n), unit)
	for places := 0; ; places++ {
		text := exact.FloatString(places)
		back, _ := new(big.Rat).SetString(text)
		if roundHalfUp(back.Mul(back, unit)).Int64() == n {
			return text
		}
	}
}
