package goods

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/decode"
)

// CheckDigit is the last digit of a GTIN of which these are the others: from the
// right they weigh 3 and 1 in turn, and the sum with the check digit is a
// multiple of ten (GS1 General Specifications, section 7.9). Zeros in front
// change nothing. The text is digits only.
func CheckDigit(body string) string {
	sum := 0
	for i := range len(body) {
		d := int(body[len(body)-1-i] - '0')
		if i%2 == 0 {
			d *= 3
		}
		sum += d
	}
	return string(rune('0' + (10-sum%10)%10))
}

// IsGTIN says whether a text is a GTIN-8, -12, -13 or -14: so many digits, the
// last of them the check digit.
func IsGTIN(s string) bool { return isGTINLength(len(s)) && isDigits(s) && endsInCheck(s) }

func isGTINLength(n int) bool { return n == 8 || 12 <= n && n <= 14 }

func isDigits(s string) bool { return strings.Trim(s, "0123456789") == "" }

// endsInCheck is for digits, two or more.
func endsInCheck(s string) bool { return CheckDigit(s[:len(s)-1]) == s[len(s)-1:] }

// readGTIN reads a GTIN, of which spaces and dashes are no part.
func readGTIN(v *decode.Value, to *string) bool {
	s, ok := v.Text()
	if !ok {
		return false
	}
	digits := strings.TrimPrefix(s, "'") // a spreadsheet's mark for text
	for _, gap := range []string{" ", "-", "\u00a0"} {
		digits = strings.ReplaceAll(digits, gap, "")
	}
	if IsGTIN(digits) {
		*to = digits
		return true
	}
	const expected = "8, 12, 13 or 14 digits"
	full, isPower := withoutExponent(digits)
	switch {
	case IsGTIN(full):
		v.Fail("bad-gtin", fmt.Sprintf("a spreadsheet has written this GTIN as the number %s", s), expected, "write "+full)
	case isPower:
		v.Fail("bad-gtin", fmt.Sprintf("a spreadsheet has written this GTIN as the number %s: its last digits are lost", s), expected,
			"format the column as text, fill the GTINs in again from where they came, and save")
	case isDigits(digits) && isGTINLength(len(digits)):
		v.Fail("bad-gtin", fmt.Sprintf("the check digit of %q is wrong", s), "a last digit of "+CheckDigit(digits[:len(digits)-1]),
			"look at the product: one digit is wrong")
	case isDigits(digits) && 2 <= len(digits) && len(digits) < 12 && endsInCheck(digits):
		v.Fail("bad-gtin", fmt.Sprintf("%q has %d digits: zeros in front may be lost", s, len(digits)), expected,
			"did you mean "+padded(digits)+"?")
	default:
		v.Fail("bad-gtin", fmt.Sprintf("%q is not a GTIN", s), expected, "")
	}
	return false
}

// padded puts the zeros back that make digits the next longer GTIN.
func padded(digits string) string {
	length := 12
	if len(digits) < 8 {
		length = 8
	}
	return strings.Repeat("0", length-len(digits)) + digits
}

// withoutExponent says whether a text is a number such as 6.29104E+12, and gives
// its digits if none of them is lost.
func withoutExponent(s string) (digits string, ok bool) {
	mantissa, power, _ := strings.Cut(strings.ToUpper(s), "E")
	whole, part, _ := strings.Cut(strings.Replace(mantissa, ",", ".", 1), ".")
	power = strings.TrimPrefix(power, "+")
	if len(whole) != 1 || power == "" || len(power) > 2 || !isDigits(whole+part+power) {
		return "", false
	}
	if power == strconv.Itoa(len(part)) {
		return whole + part, true
	}
	return "", true
}
