package measure

import (
	"fmt"
	"strings"
)

// Money is a sum in whole hundredths of a currency, which is a label elsewhere:
// all sums of one plan or one order are in the same.
type Money int64

// MaxMoney bounds what a price may say; sums of hundreds of millions of them
// still fit an int64.
const MaxMoney Money = 1e10

// ParseMoney reads a decimal number of zero or more with a point, such as 12.5
// or 0.35. It is false if there is anything finer than hundredths in it, or if
// it is more than MaxMoney.
func ParseMoney(decimal string) (Money, bool) {
	whole, part, _ := strings.Cut(decimal, ".")
	part = strings.TrimRight(part, "0")
	if len(part) > 2 || whole+part == "" && !strings.Contains(decimal, "0") {
		return 0, false
	}
	var m Money
	for _, c := range whole + (part + "00")[:2] {
		if c < '0' || c > '9' {
			return 0, false
		}
		if m = m*10 + Money(c-'0'); m > MaxMoney {
			return 0, false
		}
	}
	return m, true
}

// String is the sum with two decimals and a point, without a currency: -0.50.
func (m Money) String() string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	return fmt.Sprintf("%s%d.%02d", sign, m/100, m%100)
}
