package measure

import (
	"math/rand/v2"
	"testing"
)

func TestLengthNumber(t *testing.T) {
	for _, c := range []struct {
		length Length
		system System
		want   string
		reason string
	}{
		{0, Inches, "0", "nothing"},
		{54 * Inch, Inches, "54", "whole"},
		{54*Inch + Inch/16, Inches, "54.0625", "a sixteenth is four decimals, exactly"},
		{Inch / 3, Inches, "0.3333333", "a third was rounded to nanometres; so many decimals are enough"},
		{1372 * Millimetre, Inches, "54.01574803", "millimetres are no finite decimal of an inch"},
		{-Inch / 2, Inches, "-0.5", "the other way"},
		{1372 * Millimetre, Millimetres, "1372", "whole"},
		{Inch, Millimetres, "25.4", "an inch is a finite decimal of millimetres"},
		{MaxLength, Inches, "3937.007874", "the longest there is"},
	} {
		if got := c.length.Number(c.system); got != c.want {
			t.Errorf("%d nm: %q, want %q: %s", c.length, got, c.want, c.reason)
		}
	}
}

func TestMassNumber(t *testing.T) {
	for _, c := range []struct {
		mass   Mass
		system System
		want   string
		reason string
	}{
		{Pounds(1), Inches, "1", "a pound is rounded to milligrams, and is a pound again"},
		{22_680, Inches, "0.05", "so is a twentieth of one"},
		{4 * Pounds(12), Inches, "48", "four rounded weights"},
		{Ounces(1), Inches, "0.063", "0.0625, half away from zero"},
		{-Ounces(1), Inches, "-0.063", "the other way"},
		{MaxMass, Inches, "22046.226", "the heaviest there is: 22046.22622 lb (NIST SP 811, appendix B.8)"},
		{1100 * Gram, Millimetres, "1.1", "kilograms"},
	} {
		if got := c.mass.Number(c.system); got != c.want {
			t.Errorf("%d mg: %q, want %q: %s", c.mass, got, c.want, c.reason)
		}
	}
}

// TestNumbersReadBack wants every number to be read as what it was written from,
// pounds but for their thousandths.
func TestNumbersReadBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		l, m := Length(rng.Int64N(int64(MaxLength))), Mass(rng.Int64N(int64(MaxMass)))
		for _, s := range []System{Inches, Millimetres} {
			if got, err := ParseLength(l.Number(s), s); err != nil || got != l {
				t.Fatalf("%d nm is written %s, read as %d nm (%v)", l, l.Number(s), got, err)
			}
			lost := Mass(0)
			if s == Inches {
				lost = Pounds(1)/2000 + 1
			}
			if got, err := ParseMass(m.Number(s), s); err != nil || max(got-m, m-got) > lost {
				t.Fatalf("%d mg is written %s, read as %d mg (%v)", m, m.Number(s), got, err)
			}
		}
	}
}
