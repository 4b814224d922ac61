package measure

import "math/big"

// Number is the length as a decimal number of the system's unit, inches or
// millimetres: the shortest that ParseLength reads as the same length, so that
// nothing is lost where most lengths are no finite decimal of an inch.
func (l Length) Number(s System) string {
	if s == Millimetres {
		return l.MM()
	}
	return shortest(int64(l), int64(Inch))
}

// Number is the weight as a decimal number of kilograms, exactly, or of pounds to
// a thousandth. A weight is whole milligrams, and a pound is not: in full, four
// times 12 lb would be 47.999996 lb.
func (m Mass) Number(s System) string {
	if s == Millimetres {
		return m.Kilograms()
	}
	return decimal(roundDiv(int64(m)*1000*poundDen, poundNum), 3)
}

// shortest is n as a decimal number of a unit of so many: the fewest decimals
// that, rounded half away from zero, are n again.
func shortest(n, unit int64) string {
	if n < 0 {
		return "-" + shortest(-n, unit)
	}
	exact, each := big.NewRat(n, unit), big.NewRat(unit, 1)
	for places := 0; ; places++ {
		text := exact.FloatString(places)
		back, _ := new(big.Rat).SetString(text)
		if roundHalfUp(back.Mul(back, each)).Int64() == n {
			return text
		}
	}
}
