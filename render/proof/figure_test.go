package proof

import (
	"math/big"
	"strings"
	"testing"
)

// figure is a number as drawings print it: whole or with a fraction of an
// inch, "≈" in front if rounded to a sixteenth.
type figure struct {
	value   *big.Rat
	rounded bool
}

// parseFigure reads a printed figure: 54, 54½, ³⁄₁₆, ≈7¹⁵⁄₁₆, −3. It reads
// nothing else: words, units and decimals are not figures.
func parseFigure(s string) (f figure, ok bool) {
	s, f.rounded = strings.CutPrefix(s, "≈")
	s, negative := strings.CutPrefix(s, "−")
	whole := strings.TrimLeft(s, "0123456789")
	digits := s[:len(s)-len(whole)]
	if digits == "" && whole == "" || len(digits) > 6 || len(digits) > 1 && digits[0] == '0' {
		return f, false
	}
	f.value = new(big.Rat)
	if digits != "" {
		f.value.SetString(digits)
	}
	if whole != "" {
		part, ok := parseFraction(whole)
		if !ok {
			return f, false
		}
		f.value.Add(f.value, part)
	}
	if negative {
		f.value.Neg(f.value)
	}
	return f, true
}

func parseFraction(s string) (*big.Rat, bool) {
	single := map[string][2]int64{"½": {1, 2}, "¼": {1, 4}, "¾": {3, 4}, "⅛": {1, 8}, "⅜": {3, 8}, "⅝": {5, 8}, "⅞": {7, 8}}
	if f, ok := single[s]; ok {
		return big.NewRat(f[0], f[1]), true
	}
	top, bottom, ok := strings.Cut(s, "⁄")
	if !ok {
		return nil, false
	}
	n, okTop := setNumber(top, "⁰¹²³⁴⁵⁶⁷⁸⁹")
	d, okBottom := setNumber(bottom, "₀₁₂₃₄₅₆₇₈₉")
	if !okTop || !okBottom || n <= 0 || d <= n {
		return nil, false
	}
	return big.NewRat(n, d), true
}

// setNumber reads a number set in raised or lowered digits.
func setNumber(s, digits string) (n int64, ok bool) {
	for _, r := range s {
		at := strings.IndexRune(digits, r)
		if at < 0 || n > 99 {
			return 0, false
		}
		n = n*10 + int64(len([]rune(digits[:at])))
	}
	return n, s != ""
}

// step is the finest that figures show, in millimetres.
func (p *plan) step() *big.Rat {
	if p.mm() {
		return big.NewRat(1, 1)
	}
	return big.NewRat(254, 160) // 1/16 in
}

// mmOf is what a figure says, in millimetres.
func (p *plan) mmOf(f figure) float64 {
	v := new(big.Rat).Set(f.value)
	if !p.mm() {
		v.Mul(v, big.NewRat(254, 10))
	}
	out, _ := v.Float64()
	return out
}

// says reports whether a figure is right for a length: the nearest step, away
// from zero when halfway, and in inches marked if that rounds it.
func (p *plan) says(f figure, l nm) bool {
	exact := big.NewRat(int64(l), 1_000_000)
	exact.Quo(exact, p.step())
	twice := new(big.Rat).Mul(new(big.Rat).Abs(exact), big.NewRat(2, 1))
	twice.Add(twice, big.NewRat(1, 1))
	steps := new(big.Int).Div(twice.Num(), new(big.Int).Mul(twice.Denom(), big.NewInt(2)))
	want := new(big.Rat).SetInt(steps)
	if exact.Sign() < 0 {
		want.Neg(want)
	}
	if marked := !exact.IsInt() && !p.mm(); marked != f.rounded {
		return false
	}
	if !p.mm() {
		want.Quo(want, big.NewRat(16, 1))
	}
	return want.Cmp(f.value) == 0
}

func TestParseFigure(t *testing.T) {
	for _, c := range []struct {
		text   string
		want   *big.Rat // nil: not a figure
		approx bool
		reason string
	}{
		{"54", big.NewRat(54, 1), false, "whole"},
		{"0", big.NewRat(0, 1), false, "the datum"},
		{"54½", big.NewRat(109, 2), false, "one glyph"},
		{"⅞", big.NewRat(7, 8), false, "under one"},
		{"7¹⁵⁄₁₆", big.NewRat(127, 16), false, "set of raised and lowered digits"},
		{"≈³⁄₁₆", big.NewRat(3, 16), true, "rounded"},
		{"−3", big.NewRat(-3, 1), false, "below the datum"},
		{"1372", big.NewRat(1372, 1), false, "millimetres"},
		{"", nil, false, "nothing"},
		{"≈", nil, false, "only the mark"},
		{"007", nil, false, "not how figures are set"},
		{"F-2", nil, false, "an address"},
		{"wire 18", nil, false, "a slot"},
		{"1.5", nil, false, "a decimal"},
		{"3 of 22", nil, false, "a sheet number"},
		{"1⁷⁄₅", nil, false, "an improper fraction"},
		{"1/2", nil, false, "not how fractions are set"},
	} {
		got, ok := parseFigure(c.text)
		if ok != (c.want != nil) || ok && (got.value.Cmp(c.want) != 0 || got.rounded != c.approx) {
			t.Errorf("%s: %q = %v, %v", c.reason, c.text, got, ok)
		}
	}
}

func TestSays(t *testing.T) {
	inches, metric := &plan{unit: dressed{Measure: "in"}}, &plan{unit: dressed{Measure: "mm"}}
	for _, c := range []struct {
		plan   *plan
		text   string
		length nm
		want   bool
		reason string
	}{
		{inches, "54½", 1_384_300_000, true, "exact"},
		{inches, "≈54½", 1_384_300_000, false, "exact, but marked as rounded"},
		{inches, "54½", 1_384_300_001, false, "rounded, but not marked"},
		{inches, "≈54½", 1_384_300_001, true, "rounded"},
		{inches, "≈³⁄₁₆", 25_400_000 * 5 / 32, true, "halfway: away from zero"},
		{inches, "≈⅛", 25_400_000 * 5 / 32, false, "halfway, down"},
		{metric, "1372", 1_371_600_000, true, "ISO 129-1 leaves millimetres unmarked"},
		{metric, "1371", 1_371_600_000, false, "the wrong one"},
	} {
		f, ok := parseFigure(c.text)
		if !ok || c.plan.says(f, c.length) != c.want {
			t.Errorf("%s: %s for %d", c.reason, c.text, c.length)
		}
	}
}

func FuzzParseFigure(f *testing.F) {
	for _, s := range []string{"54½", "≈7¹⁵⁄₁₆", "−3", "1⁄2", "⁄", "99999999"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if fig, ok := parseFigure(s); ok && fig.value == nil {
			t.Errorf("%q: a figure without a value", s)
		}
	})
}
