package measure

import (
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
)

func TestParseLength(t *testing.T) {
	half := Inch / 2
	for _, c := range []struct {
		text   string
		bare   System
		want   Length
		reason string
	}{
		{"54in", Inches, 54 * Inch, "inches"},
		{`54"`, Millimetres, 54 * Inch, "a mark beats the plan's measure"},
		{"54″", Inches, 54 * Inch, "the typographic double prime"},
		{"54”", Inches, 54 * Inch, "a word processor's closing quote"},
		{"54''", Inches, 54 * Inch, "two apostrophes"},
		{"54 inches", Inches, 54 * Inch, "the unit spelt out"},
		{"54 in.", Inches, 54 * Inch, "an abbreviation with its full stop"},
		{"54IN", Inches, 54 * Inch, "capitals"},
		{"4ft 6in", Inches, 54 * Inch, "feet and inches"},
		{"4ft6in", Inches, 54 * Inch, "closed up"},
		{"4 ft 6", Inches, 54 * Inch, "a bare number after feet is inches"},
		{`4' 6-1/2"`, Inches, 54*Inch + half, "marks and a mixed number"},
		{`4'-6 1/2"`, Inches, 54*Inch + half, "the builder's dash"},
		{"4’ 6½”", Inches, 54*Inch + half, "curly marks and a glyph"},
		{"4′6″", Inches, 54 * Inch, "primes, closed up"},
		{"4ft", Inches, 48 * Inch, "feet alone"},
		{"4.5 ft", Inches, 54 * Inch, "decimal feet alone"},
		{"6 1/2 in", Inches, 6*Inch + half, "a mixed number"},
		{`6-1/2"`, Inches, 6*Inch + half, "a mixed number with a dash"},
		{"6½", Inches, 6*Inch + half, "a glyph on a bare number"},
		{"6 ½", Inches, 6*Inch + half, "a glyph set apart"},
		{"¾", Inches, 3 * Inch / 4, "a glyph alone"},
		{"1/2in", Inches, half, "a fraction alone"},
		{"3/2 in", Inches, 3 * half, "an improper fraction alone"},
		{"54³⁄₁₆", Inches, 54*Inch + 3*Inch/16, "as drawings print it"},
		{"1372mm", Inches, 1372 * Millimetre, "millimetres"},
		{"137.2cm", Inches, 1372 * Millimetre, "centimetres"},
		{"1.372m", Inches, 1372 * Millimetre, "metres"},
		{"1.372 metres", Inches, 1372 * Millimetre, "metres spelt out"},
		{"600", Millimetres, 600 * Millimetre, "bare in a metric plan"},
		{"54", Inches, 54 * Inch, "bare in an inch plan"},
		{"54.", Inches, 54 * Inch, "a trailing point"},
		{".5", Inches, half, "a leading point"},
		{"012", Inches, 12 * Inch, "leading zeros are not octal"},
		{" 54\u00a0in ", Inches, 54 * Inch, "spaces, one unbreakable"},
		{"0", Inches, 0, "zero is for the caller to judge"},
		{"1/3 in", Inches, 8_466_667, "8 466 666.67 nm rounds up once"},
		{"1/128 in", Inches, 198_438, "198 437.5 nm: a tie goes up"},
		{"100m", Inches, MaxLength, "the limit itself"},
	} {
		got, err := ParseLength(c.text, c.bare)
		if err != nil || got != c.want {
			t.Errorf("ParseLength(%q, %v) = %d, %v; want %d: %s", c.text, c.bare, got, err, c.want, c.reason)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, c := range []struct{ text, message, reason string }{
		{"", "no length is given", "empty"},
		{"   ", "no length is given", "blank"},
		{"-3in", "is negative", "negative"},
		{"−3in", "is negative", "negative with the true minus"},
		{"-x", "is not a length", "a dash before nonsense"},
		{"+3in", "is not a length", "no sign is part of a length"},
		{"NaN", "is not a length", "not a number"},
		{"inf", "is not a length", "infinity"},
		{"1e3mm", "is not a length", "an exponent"},
		{"0x10", "is not a length", "hexadecimal"},
		{"1_000mm", "is not a length", "digit grouping"},
		{"1,000mm", "is not a length", "a comma"},
		{"54 furlongs", `there is no unit "furlongs"`, "an unknown unit"},
		{"54kg", `there is no unit "kg"`, "a unit of weight"},
		{"54in 3", "is not a length", "something after inches"},
		{"4ft 6mm", "is not a length", "feet and millimetres"},
		{"6in 4ft", "is not a length", "the wrong way round"},
		{"4ft 6in 2in", "is not a length", "too much"},
		{"4ft 12in", "has 12 in or more", "a carry left undone"},
		{"4.5ft 6in", "has a fraction of ft", "a fraction of feet, then inches"},
		{"1/0 in", "over nothing", "division by zero"},
		{"1/ in", "over nothing", "a missing denominator"},
		{"6 3/2 in", "a fraction of one or more", "an improper mixed number"},
		{"6.5 1/2", "is not a length", "a decimal and a fraction"},
		{"½½", "is not a length", "two glyphs"},
		{".", "is not a length", "a point alone"},
		{"in", "is not a length", "a unit alone"},
		{"100.000001m", "is more than 100 m", "just beyond the limit"},
		{"99999999999999999999999", "is more than 100 m", "beyond an int64"},
		{strings.Repeat("1", 65), "is too long", "absurdly long"},
		{"54\x00in", "is not a length", "a control character"},
		{"5\xff", "is not a length", "invalid UTF-8"},
	} {
		got, err := ParseLength(c.text, Inches)
		if err == nil || !strings.Contains(err.Error(), c.message) {
			t.Errorf("ParseLength(%q) = %d, %v; want an error with %q: %s", c.text, got, err, c.message, c.reason)
		}
	}
}

func TestParseMass(t *testing.T) {
	for _, c := range []struct {
		text   string
		bare   System
		want   Mass
		reason string
	}{
		{"2.5lb", Inches, 1_133_981, "1 133 980.925 mg rounds once"},
		{"1lb", Inches, 453_592, "0.45359237 kg (NIST SP 811, appendix B.8)"},
		{"100 lbs", Inches, 45_359_237, "a hundred pounds are a whole number of mg"},
		{"40oz", Inches, 1_133_981, "forty ounces are two and a half pounds"},
		{"2lb 8oz", Inches, 1_133_981, "pounds and ounces"},
		{"1/2 lb", Inches, 226_796, "a fraction"},
		{"1.1kg", Inches, 1_100_000, "kilograms"},
		{"350 g", Inches, 350_000, "grams"},
		{"25mg", Inches, 25, "milligrams"},
		{"2", Inches, 907_185, "bare in an inch plan: pounds"},
		{"2", Millimetres, 2_000_000, "bare in a metric plan: kilograms"},
		{"10000kg", Inches, MaxMass, "the limit itself"},
	} {
		got, err := ParseMass(c.text, c.bare)
		if err != nil || got != c.want {
			t.Errorf("ParseMass(%q, %v) = %d, %v; want %d: %s", c.text, c.bare, got, err, c.want, c.reason)
		}
	}
	for _, text := range []string{"", "-1lb", "NaN", "1in", "2lb 16oz", "2.5lb 1oz", "10001kg", "1e3g", "2lb 8g"} {
		if got, err := ParseMass(text, Inches); err == nil {
			t.Errorf("ParseMass(%q) = %d; want an error", text, got)
		}
	}
}

// TestParseAgainstRationals writes random rationals and checks the parser
// against big.Rat's own arithmetic.
func TestParseAgainstRationals(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 11))
	for range 20_000 {
		whole, bottom := rnd.Int64N(3000), 1+rnd.Int64N(999)
		top := rnd.Int64N(bottom)
		exact := new(big.Rat).Add(big.NewRat(whole, 1), big.NewRat(top, bottom))
		text := big.NewRat(whole, 1).RatString() + " " + big.NewInt(top).String() + "/" + big.NewInt(bottom).String() + "in"
		got, err := ParseLength(text, Millimetres)
		if err != nil {
			t.Fatalf("ParseLength(%q): %v", text, err)
		}
		exact.Mul(exact, big.NewRat(int64(Inch), 1))
		off := new(big.Rat).Sub(big.NewRat(int64(got), 1), exact)
		if off.Cmp(big.NewRat(1, 2)) > 0 || off.Cmp(big.NewRat(-1, 2)) <= 0 {
			t.Fatalf("ParseLength(%q) = %d, off by %v nm: want half up", text, got, off)
		}
	}
}

// TestPlainNumbersAgree checks the short way for common numbers against the
// exact one for all.
func TestPlainNumbersAgree(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	dims := []struct {
		d     dimension
		units []string
	}{
		{dimension{name: "length", unit: lengthUnit, bare: "in", major: "ft", minor: "in", perMajor: 12, max: int64(MaxLength)},
			[]string{"", "in", "ft", "mm", "cm", "m", `"`, "'"}},
		{dimension{name: "weight", unit: massUnit, bare: "lb", major: "lb", minor: "oz", perMajor: 16, max: int64(MaxMass)},
			[]string{"", "lb", "oz", "mg", "g", "kg"}},
	}
	for range 50_000 {
		c := dims[rnd.IntN(len(dims))]
		text := big.NewInt(rnd.Int64N(1_000_000_000)).String()
		if cut := rnd.IntN(len(text) + 1); rnd.IntN(2) == 0 {
			text = text[:cut] + "." + text[cut:]
		}
		text += strings.Repeat(" ", rnd.IntN(2)) + c.units[rnd.IntN(len(c.units))]
		exact, err := c.d.sum(text)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		want := roundHalfUp(exact)
		got, ok := c.d.plain(text)
		if inside := want.Cmp(big.NewInt(c.d.max)) <= 0; ok != inside || ok && want.Cmp(big.NewInt(got)) != 0 {
			t.Fatalf("%q: %d, %v; want %v", text, got, ok, want)
		}
	}
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"54in", `4' 6-1/2"`, "6½", "54³⁄₁₆", "1.372m", "-3", "NaN", "1/0"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, s string, metric bool) {
		sys := Inches
		if metric {
			sys = Millimetres
		}
		l, err := ParseLength(s, sys)
		if err != nil {
			return
		}
		if l < 0 || l > MaxLength {
			t.Fatalf("ParseLength(%q) = %d: out of bounds", s, l)
		}
		if back, err := ParseLength(l.MM(), Millimetres); err != nil || back != l {
			t.Fatalf("%q reads as %d, %s mm reads as %d, %v", s, l, l.MM(), back, err)
		}
	})
}

func FuzzParseMass(f *testing.F) {
	for _, s := range []string{"2.5lb", "40oz", "2lb 8oz", "1.1kg", "350 g", "-1", "NaN"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, s string, metric bool) {
		sys := Inches
		if metric {
			sys = Millimetres
		}
		m, err := ParseMass(s, sys)
		if err != nil {
			return
		}
		if m < 0 || m > MaxMass {
			t.Fatalf("ParseMass(%q) = %d: out of bounds", s, m)
		}
		if back, err := ParseMass(m.Kilograms(), Millimetres); err != nil || back != m {
			t.Fatalf("%q reads as %d, %s kg reads as %d, %v", s, m, m.Kilograms(), back, err)
		}
	})
}
