package measure

import (
	"fmt"
	"strconv"
	"strings"
)

// String is the short name of the system's unit of length: in or mm.
func (s System) String() string {
	if s == Millimetres {
		return "mm"
	}
	return "in"
}

// perInch is the finest fraction of an inch that is printed.
const perInch = 16

// sixteenths rounds the magnitude of l to the nearest 1/16 in, ties up, and
// says whether that is exact.
func (l Length) sixteenths() (n int64, exact bool) {
	l = max(l, -l)
	const step = Inch / perInch // 1 587 500 nm, a whole number
	return int64((l + step/2) / step), l%step == 0
}

// millimetres rounds the magnitude of l to whole millimetres, ties up.
func (l Length) millimetres() int64 {
	return int64((max(l, -l) + Millimetre/2) / Millimetre)
}

// Text writes a length for messages and tables, in ASCII and with its unit:
// "54 1/2 in", to the nearest 1/16 and marked "~" if that rounds it, or
// "1372 mm", whole. Ties round away from zero.
func (l Length) Text(s System) string {
	if s == Millimetres {
		n := l.millimetres()
		return sign(l < 0 && n > 0, "-") + strconv.FormatInt(n, 10) + " mm"
	}
	n, exact := l.sixteenths()
	whole, top, bottom := mixed(n)
	mark := sign(!exact, "~") + sign(l < 0 && n > 0, "-")
	switch {
	case top == 0:
		return fmt.Sprintf("%s%d in", mark, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d in", mark, top, bottom)
	}
	return fmt.Sprintf("%s%d %d/%d in", mark, whole, top, bottom)
}

// Figure writes a length for a drawing: no unit, and typographic fractions:
// "54½", "54³⁄₁₆", marked "≈" if rounded to the nearest 1/16 in; or whole
// millimetres, "1372", which ISO 129-1 leaves unmarked.
func (l Length) Figure(s System) string {
	if s == Millimetres {
		n := l.millimetres()
		return sign(l < 0 && n > 0, "−") + strconv.FormatInt(n, 10)
	}
	n, exact := l.sixteenths()
	whole, top, bottom := mixed(n)
	text := sign(!exact, "≈") + sign(l < 0 && n > 0, "−")
	if whole > 0 || top == 0 {
		text += strconv.FormatInt(whole, 10)
	}
	return text + fraction(top, bottom)
}

// MM is the exact length in decimal millimetres, without trailing zeros.
func (l Length) MM() string { return decimal(int64(l), 6) }

// Text writes a weight for people: pounds with one decimal, or kilograms with
// two, rounded half away from zero.
func (m Mass) Text(s System) string {
	if s == Millimetres {
		return fixed(roundDiv(int64(m), 10*int64(Gram)), 2) + " kg"
	}
	// A tenth of a pound is 45359.237 mg.
	return fixed(roundDiv(int64(m)*1000, poundNum), 1) + " lb"
}

// Kilograms is the exact weight in decimal kilograms, without trailing zeros.
func (m Mass) Kilograms() string { return decimal(int64(m), 6) }

// mixed splits sixteenths into a whole number and a fraction in lowest terms.
func mixed(n int64) (whole, top, bottom int64) {
	whole, top, bottom = n/perInch, n%perInch, perInch
	for top > 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	return whole, top, bottom
}

// fraction is top/bottom as type sets it: one glyph where there is one, else
// raised and lowered digits on each side of the fraction slash.
func fraction(top, bottom int64) string {
	if top == 0 {
		return ""
	}
	switch bottom {
	case 2:
		return "½"
	case 4:
		return map[int64]string{1: "¼", 3: "¾"}[top]
	case 8:
		return map[int64]string{1: "⅛", 3: "⅜", 5: "⅝", 7: "⅞"}[top]
	}
	return setDigits(top, "⁰¹²³⁴⁵⁶⁷⁸⁹") + "⁄" + setDigits(bottom, "₀₁₂₃₄₅₆₇₈₉")
}

func setDigits(n int64, digits string) string {
	set := []rune(digits)
	var b strings.Builder
	for _, d := range strconv.FormatInt(n, 10) {
		b.WriteRune(set[d-'0'])
	}
	return b.String()
}

func sign(wanted bool, mark string) string {
	if wanted {
		return mark
	}
	return ""
}

// decimal writes n / 10^places exactly.
func decimal(n int64, places int) string {
	return strings.TrimSuffix(strings.TrimRight(fixed(n, places), "0"), ".")
}

// fixed writes n / 10^places with that many decimals.
func fixed(n int64, places int) string {
	digits := fmt.Sprintf("%0*d", places+1, max(n, -n))
	point := len(digits) - places
	return sign(n < 0, "-") + digits[:point] + "." + digits[point:]
}

// roundDiv is n/d to the nearest whole number, half away from zero; d > 0.
func roundDiv(n, d int64) int64 {
	if n < 0 {
		return -roundDiv(-n, d)
	}
	return (n + d/2) / d
}
