package measure

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"unicode/utf8"
)

// maxText is how many bytes a length or weight may be written with: far more
// than any honest one, and few enough that exact arithmetic stays cheap.
const maxText = 64

// ParseLength reads a length as a designer writes it: 54in, 54", 6 1/2 in,
// 6-1/2", 6½", 4ft 6in, 4' 6-1/2", 4'-6", 1372mm, 137.2cm, 1.372m. A bare
// number reads in bare's inches or millimetres; the typographic marks ′ ″ ’ ”
// and fraction glyphs are understood. The arithmetic is exact; a length that
// is not a whole number of nanometres (1/3 in) is rounded half up, once, here.
//
// Zero is a length. Negative numbers, exponents, NaN and anything beyond
// MaxLength are errors, worded for the end of a message: "-3in" is negative.
func ParseLength(s string, bare System) (Length, error) {
	d := dimension{name: "length", unit: lengthUnit, bare: "in", major: "ft", minor: "in", perMajor: 12,
		max: int64(MaxLength), maxText: "100 m"}
	if bare == Millimetres {
		d.bare = "mm"
	}
	n, err := d.parse(s)
	return Length(n), err
}

// ParseMass reads a weight: 2.5lb, 40oz, 2lb 8oz, 1.1kg, 350g. A bare number
// reads in pounds where lengths read in inches, else in kilograms. The
// arithmetic is exact; a weight that is not a whole number of milligrams is
// rounded half up, once, here. Errors are as for ParseLength.
func ParseMass(s string, bare System) (Mass, error) {
	d := dimension{name: "weight", unit: massUnit, bare: "lb", major: "lb", minor: "oz", perMajor: 16,
		max: int64(MaxMass), maxText: "10000 kg"}
	if bare == Millimetres {
		d.bare = "kg"
	}
	n, err := d.parse(s)
	return Mass(n), err
}

// lengthUnit is a unit of length as a ratio of nanometres, and its short name.
func lengthUnit(word string) (short string, num, den int64) {
	switch word {
	case "in", "inch", "inches", `"`:
		return "in", int64(Inch), 1
	case "ft", "foot", "feet", "'":
		return "ft", int64(Foot), 1
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return "mm", int64(Millimetre), 1
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return "cm", int64(Centimetre), 1
	case "m", "metre", "metres", "meter", "meters":
		return "m", int64(Metre), 1
	}
	return "", 0, 0
}

// massUnit is a unit of mass as a ratio of milligrams, and its short name.
func massUnit(word string) (short string, num, den int64) {
	switch word {
	case "lb", "lbs", "pound", "pounds":
		return "lb", poundNum, poundDen
	case "oz", "ounce", "ounces":
		return "oz", poundNum, poundDen * 16
	case "mg", "milligram", "milligrams":
		return "mg", int64(Milligram), 1
	case "g", "gram", "grams":
		return "g", int64(Gram), 1
	case "kg", "kilogram", "kilograms", "kilo", "kilos":
		return "kg", int64(Kilogram), 1
	}
	return "", 0, 0
}

// dimension is what lengths and weights differ in.
type dimension struct {
	name     string
	unit     func(word string) (short string, num, den int64)
	bare     string // the unit of a bare number
	major    string // the unit that may be followed by a smaller one: ft, lb
	minor    string // that smaller one: in, oz
	perMajor int64
	max      int64
	maxText  string
}

// term is one number and its unit, "" if it has none.
type term struct {
	value *big.Rat
	unit  string
}

func (d dimension) parse(s string) (int64, error) {
	if n, ok := d.plain(s); ok {
		return n, nil
	}
	fail := func(format string, args ...any) (int64, error) {
		return 0, fmt.Errorf("%q %s", shorten(s), fmt.Sprintf(format, args...))
	}
	if len(s) > maxText {
		return fail("is too long for a %s", d.name)
	}
	text := plainMarks(s)
	if strings.TrimSpace(text) == "" {
		return 0, fmt.Errorf("no %s is given", d.name)
	}
	if strings.HasPrefix(strings.TrimSpace(text), "-") {
		if _, err := d.sum(strings.TrimLeft(text, " -")); err == nil {
			return fail("is negative")
		}
	}
	total, err := d.sum(text)
	if err != nil {
		return fail("%v", err)
	}
	n := roundHalfUp(total)
	if !n.IsInt64() || n.Int64() > d.max {
		return fail("is more than %s", d.maxText)
	}
	return n.Int64(), nil
}

// plain reads the commonest spelling, a short decimal number with or without a
// unit, in machine arithmetic: goods files are full of them. What it does not
// take is left to sum.
func (d dimension) plain(s string) (int64, bool) {
	const maxDigits = 9 // so that the product with any unit fits an int64
	whole, rest := leadingDigits(s)
	decimals := ""
	if after, ok := strings.CutPrefix(rest, "."); ok {
		decimals, rest = leadingDigits(after)
	}
	digits := len(whole) + len(decimals)
	word := strings.TrimLeft(rest, " ")
	if word == "" {
		word = d.bare
	}
	_, num, den := d.unit(word)
	if digits == 0 || digits > maxDigits || num == 0 {
		return 0, false
	}
	var n int64
	for _, c := range whole + decimals {
		n = 10*n + int64(c-'0')
	}
	for range decimals {
		den *= 10
	}
	n = roundDiv(n*num, den)
	return n, n <= d.max
}

// leadingDigits splits the digits off the front of a text.
func leadingDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return s[:n], s[n:]
}

// sum reads one term, or a major and a minor one, and adds them up.
func (d dimension) sum(text string) (*big.Rat, error) {
	sc := &scanner{rest: strings.ToLower(text)}
	first, err := d.term(sc)
	if err != nil {
		return nil, err
	}
	if sc.spaces(); sc.rest == "" {
		return d.in(first, d.bare), nil
	}
	if first.unit != d.major {
		return nil, fmt.Errorf("is not a %s", d.name)
	}
	sc.take("-")
	second, err := d.term(sc)
	if err != nil {
		return nil, err
	}
	if sc.spaces(); sc.rest != "" || second.unit != "" && second.unit != d.minor {
		return nil, fmt.Errorf("is not a %s", d.name)
	}
	if !first.value.IsInt() {
		return nil, fmt.Errorf("has a fraction of %s before its %s", d.major, d.minor)
	}
	if second.value.Cmp(big.NewRat(d.perMajor, 1)) >= 0 {
		return nil, fmt.Errorf("has %d %s or more after its %s", d.perMajor, d.minor, d.major)
	}
	return new(big.Rat).Add(d.in(first, d.major), d.in(second, d.minor)), nil
}

// in is the term in base units; a term without a unit has the default one.
func (d dimension) in(t term, fallback string) *big.Rat {
	unit := t.unit
	if unit == "" {
		unit = fallback
	}
	_, num, den := d.unit(unit)
	return new(big.Rat).Mul(t.value, big.NewRat(num, den))
}

func (d dimension) term(sc *scanner) (term, error) {
	value, err := sc.number()
	if err != nil {
		return term{}, err
	}
	if value == nil {
		return term{}, fmt.Errorf("is not a %s", d.name)
	}
	word := sc.unit()
	if word == "" {
		return term{value: value}, nil
	}
	short, _, _ := d.unit(word)
	if short == "" {
		return term{}, fmt.Errorf("is not a %s: there is no unit %q", d.name, word)
	}
	return term{value, short}, nil
}

// roundHalfUp is the one rounding of what is parsed; r is not negative.
func roundHalfUp(r *big.Rat) *big.Int {
	twice := new(big.Int).Lsh(r.Num(), 1)
	twice.Add(twice, r.Denom())
	return twice.Quo(twice, new(big.Int).Lsh(r.Denom(), 1))
}

// scanner reads numbers and units off the front of a text.
type scanner struct{ rest string }

func (s *scanner) spaces() { s.rest = strings.TrimLeft(s.rest, " ") }

func (s *scanner) take(mark string) bool {
	s.spaces()
	rest, ok := strings.CutPrefix(s.rest, mark)
	s.rest = rest
	return ok
}

func (s *scanner) digits() (d string) {
	d, s.rest = leadingDigits(s.rest)
	return d
}

// number reads 54, 54.5, .5, 1/2, 6 1/2 or 6-1/2; nil if no number is there.
func (s *scanner) number() (*big.Rat, error) {
	s.spaces()
	whole := s.digits()
	if strings.HasPrefix(s.rest, ".") {
		s.rest = s.rest[1:]
		decimals := s.digits()
		if whole+decimals == "" {
			return nil, nil
		}
		return ratio(whole+decimals, "1"+strings.Repeat("0", len(decimals))), nil
	}
	if whole == "" {
		return nil, nil
	}
	if strings.HasPrefix(s.rest, "/") {
		return s.over(whole)
	}
	before := s.rest
	s.take("-")
	s.spaces()
	if top := s.digits(); top != "" && strings.HasPrefix(s.rest, "/") {
		part, err := s.over(top)
		if err != nil {
			return nil, err
		}
		if part.Cmp(big.NewRat(1, 1)) >= 0 {
			return nil, errors.New("has a fraction of one or more after a whole number")
		}
		return part.Add(part, ratio(whole, "1")), nil
	}
	s.rest = before
	return ratio(whole, "1"), nil
}

// over reads the stroke and the lower half of a fraction.
func (s *scanner) over(top string) (*big.Rat, error) {
	s.take("/")
	bottom := s.digits()
	if strings.Trim(bottom, "0") == "" {
		return nil, errors.New("has a fraction over nothing")
	}
	return ratio(top, bottom), nil
}

// unit reads a unit: a word, with or without a full stop, or a mark.
func (s *scanner) unit() string {
	s.spaces()
	if strings.HasPrefix(s.rest, "'") || strings.HasPrefix(s.rest, `"`) {
		mark := s.rest[:1]
		s.rest = s.rest[1:]
		return mark
	}
	n := 0
	for n < len(s.rest) && 'a' <= s.rest[n] && s.rest[n] <= 'z' {
		n++
	}
	word := s.rest[:n]
	if s.rest = s.rest[n:]; word != "" {
		s.rest = strings.TrimPrefix(s.rest, ".")
	}
	return word
}

// ratio is top/bottom; both are digits, which SetString cannot refuse.
func ratio(top, bottom string) *big.Rat {
	var num, den big.Int
	num.SetString("0"+top, 10)
	den.SetString("0"+bottom, 10)
	return new(big.Rat).SetFrac(&num, &den)
}

// plainMarks writes typographic marks, fractions and spaces in ASCII.
func plainMarks(s string) string {
	if isASCII(s) && !strings.Contains(s, "''") {
		return s
	}
	s = strings.NewReplacer(
		"″", `"`, "”", `"`, "“", `"`, "′′", `"`, "’’", `"`, "''", `"`,
		"′", "'", "’", "'", "‘", "'",
		"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
		"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8",
		"⁄", "/", "−", "-", "–", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ",
		"₀", "0", "₁", "1", "₂", "2", "₃", "3", "₄", "4", "₅", "5", "₆", "6", "₇", "7", "₈", "8", "₉", "9",
	).Replace(s)
	return plainSuperscripts(s)
}

// plainSuperscripts puts a run of raised digits apart from the number before
// it: 54³/16 is 54 3/16.
func plainSuperscripts(s string) string {
	var b strings.Builder
	raised := false
	for _, r := range s {
		digit := strings.IndexRune("⁰¹²³⁴⁵⁶⁷⁸⁹", r)
		if digit < 0 {
			b.WriteRune(r)
			raised = false
			continue
		}
		if !raised {
			b.WriteByte(' ')
		}
		raised = true
		b.WriteByte(byte('0' + utf8.RuneCountInString("⁰¹²³⁴⁵⁶⁷⁸⁹"[:digit])))
	}
	return b.String()
}

func isASCII(s string) bool {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// shorten keeps what a message quotes to a readable length.
func shorten(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}
