package measure

import (
	"math/rand/v2"
	"strings"
	"testing"
)

func TestLengthFormats(t *testing.T) {
	mm := func(s string) Length {
		l, err := ParseLength(s, Millimetres)
		if err != nil {
			t.Fatal(err)
		}
		return l
	}
	for _, c := range []struct {
		l                                   Length
		inText, inFigure, mmText, mmFig, mm string
		reason                              string
	}{
		{0, "0 in", "0", "0 mm", "0", "0", "nothing"},
		{54 * Inch, "54 in", "54", "1372 mm", "1372", "1371.6", "a whole number of inches"},
		{54*Inch + Inch/2, "54 1/2 in", "54½", "1384 mm", "1384", "1384.3", "a half"},
		{3 * Inch / 4, "3/4 in", "¾", "19 mm", "19", "19.05", "a fraction alone"},
		{Inch + 7*Inch/8, "1 7/8 in", "1⅞", "48 mm", "48", "47.625", "an eighth"},
		{54*Inch + 3*Inch/16, "54 3/16 in", "54³⁄₁₆", "1376 mm", "1376", "1376.3625", "sixteenths have no glyph"},
		{15 * Inch / 16, "15/16 in", "¹⁵⁄₁₆", "24 mm", "24", "23.8125", "two digits raised"},
		{Inch / 32, "~1/16 in", "≈¹⁄₁₆", "1 mm", "1", "0.79375", "a tie goes up"},
		{Inch - 1, "~1 in", "≈1", "25 mm", "25", "25.399999", "16/16 carries"},
		{1, "~0 in", "≈0", "0 mm", "0", "0.000001", "one nanometre"},
		{-3 * Inch / 2, "-1 1/2 in", "−1½", "-38 mm", "−38", "-38.1", "a difference may be negative"},
		{-1, "~0 in", "≈0", "0 mm", "0", "-0.000001", "no minus before a rounded nothing"},
		{500 * Micrometre, "~0 in", "≈0", "1 mm", "1", "0.5", "half a millimetre goes up"},

		// V10: millimetres to the nearest 1/16 in, floor(16 in + 1/2), from the
		// exact inch of NIST SP 811 appendix B.8.
		{mm("100"), "~3 15/16 in", "≈3¹⁵⁄₁₆", "100 mm", "100", "100", "V10"},
		{mm("610"), "~24 in", "≈24", "610 mm", "610", "610", "V10"},
		{mm("1219.2"), "48 in", "48", "1219 mm", "1219", "1219.2", "V10"},
		{mm("19"), "~3/4 in", "≈¾", "19 mm", "19", "19", "V10"},
		{mm("38.1"), "1 1/2 in", "1½", "38 mm", "38", "38.1", "V10"},
		{mm("2030"), "~79 15/16 in", "≈79¹⁵⁄₁₆", "2030 mm", "2030", "2030", "V10"},
		{mm("685"), "~26 15/16 in", "≈26¹⁵⁄₁₆", "685 mm", "685", "685", "V10"},
	} {
		got := []string{c.l.Text(Inches), c.l.Figure(Inches), c.l.Text(Millimetres), c.l.Figure(Millimetres), c.l.MM()}
		want := []string{c.inText, c.inFigure, c.mmText, c.mmFig, c.mm}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%d nm prints %q, want %q: %s", c.l, got[i], want[i], c.reason)
			}
		}
	}
}

func TestMassFormats(t *testing.T) {
	for _, c := range []struct {
		m             Mass
		lb, kg, exact string
		reason        string
	}{
		{0, "0.0 lb", "0.00 kg", "0", "nothing"},
		{Pounds(5), "5.0 lb", "2.27 kg", "2.267962", "five pounds, 2 267 961.85 mg"},
		{1_133_981, "2.5 lb", "1.13 kg", "1.133981", "two and a half pounds"},
		{1_100 * Gram, "2.4 lb", "1.10 kg", "1.1", "kilograms keep their zeros in text only"},
		{5 * Gram, "0.0 lb", "0.01 kg", "0.005", "a tie goes up"},
		{-5 * Gram, "0.0 lb", "-0.01 kg", "-0.005", "a difference may be negative"},
		{Ounces(40), "2.5 lb", "1.13 kg", "1.133981", "forty ounces"},
	} {
		if got := c.m.Text(Inches); got != c.lb {
			t.Errorf("%d mg prints %q, want %q: %s", c.m, got, c.lb, c.reason)
		}
		if got := c.m.Text(Millimetres); got != c.kg {
			t.Errorf("%d mg prints %q, want %q: %s", c.m, got, c.kg, c.reason)
		}
		if got := c.m.Kilograms(); got != c.exact {
			t.Errorf("%d mg prints %q, want %q: %s", c.m, got, c.exact, c.reason)
		}
	}
}

// TestExactFormatsReadBack checks that whatever is printed without a mark of
// rounding reads back as the same length.
func TestExactFormatsReadBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	random := func() Length {
		switch rnd.IntN(3) {
		case 0:
			return Length(rnd.Int64N(60_000)) * Inch / 16
		case 1:
			return Length(rnd.Int64N(100_000)) * Millimetre
		}
		return Length(rnd.Int64N(int64(MaxLength)))
	}
	for range 20_000 {
		l := random()
		texts := map[string]System{l.MM(): Millimetres, l.MM() + " mm": Inches}
		if text := l.Text(Inches); !strings.HasPrefix(text, "~") {
			texts[text] = Millimetres
			texts[l.Figure(Inches)] = Inches
		}
		if l%Millimetre == 0 {
			texts[l.Text(Millimetres)] = Inches
			texts[l.Figure(Millimetres)] = Millimetres
		}
		for text, sys := range texts {
			if back, err := ParseLength(text, sys); err != nil || back != l {
				t.Fatalf("%d nm prints %q, which reads as %d, %v", l, text, back, err)
			}
		}
	}
	for range 20_000 {
		m := Mass(rnd.Int64N(int64(MaxMass)))
		if back, err := ParseMass(m.Kilograms(), Millimetres); err != nil || back != m {
			t.Fatalf("%d mg prints %q, which reads as %d, %v", m, m.Kilograms(), back, err)
		}
	}
}
