package decode

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

type kind uint8

const (
	scalar kind = iota
	nothing
	sequence
	mapping
)

// Value is one value of a file. Its readers return false when there is nothing
// to read: the Value is nil, or is wrong and that has been reported.
type Value struct {
	At diag.Span

	src  *source
	node *yaml.Node // nil for a CSV cell
	kind kind
	text string

	cell    bool    // of a CSV file, in which numbers are written
	figures figures // like this
	unit    string  // what a bare number in this column is in, "" for the file's measure
}

// IsMap says whether the value is a mapping.
func (v *Value) IsMap() bool { return v != nil && v.kind == mapping }

// IsList says whether the value is a list.
func (v *Value) IsList() bool { return v != nil && v.kind == sequence }

// IsEmpty says whether a key was written with nothing after it.
func (v *Value) IsEmpty() bool { return v != nil && v.kind == nothing }

// Name is the key itself as a name: the id of a part, the SKU of a product.
func (e Entry) Name() (string, bool) {
	key := Value{At: e.At, src: e.Value.src, text: e.Key}
	return key.Name()
}

// Fail reports an error at the value.
func (v *Value) Fail(code, message, expected, fix string) {
	v.src.fail(code, v.At, message, expected, fix)
}

// Report reports a finding made elsewhere, at the value if it has no place.
func (v *Value) Report(f diag.Finding) {
	if f.At == (diag.Span{}) {
		f.At = v.At
	}
	v.src.report(f)
}

// what names the value in a message.
func (v *Value) what() string {
	switch v.kind {
	case mapping:
		return "a mapping"
	case sequence:
		return "a list"
	case nothing:
		return "nothing"
	}
	return quote(v.text)
}

// scalar is the spelling of a single value.
func (v *Value) scalar(expected string) (string, bool) {
	switch {
	case v == nil:
		return "", false
	case v.kind == scalar:
		return v.text, true
	}
	v.notSingle(expected)
	return "", false
}

// isSingle says whether the value can be read as one, for readers that word
// what was expected only where they must: goods files have many values.
func (v *Value) isSingle() bool { return v != nil && v.kind == scalar }

// notSingle reports a mapping or list, or that there is nothing after a key.
func (v *Value) notSingle(expected string) {
	if v != nil {
		v.Fail("wrong-type", fmt.Sprintf("a single value belongs here, not %s", v.what()), expected, "")
	}
}

// Longest texts and names, in characters. Sheets have to print them.
const (
	maxTextLen = 1000
	maxNameLen = 200
)

// Text is the value as it is spelt, without space around it; numbers and dates
// are text too.
func (v *Value) Text() (string, bool) { return v.textOf(maxTextLen) }

func (v *Value) textOf(most int) (string, bool) {
	s, ok := v.scalar("text")
	if n := utf8.RuneCountInString(s); n > most {
		v.Fail("too-long", fmt.Sprintf("this text is %d characters long", n), fmt.Sprintf("at most %d characters", most), "")
		return "", false
	}
	return strings.TrimSpace(s), ok
}

// Name is a text that is not empty, on one line: an id, a file name, a title.
func (v *Value) Name() (string, bool) {
	s, ok := v.textOf(maxNameLen)
	if ok && s == "" || strings.ContainsAny(s, "\n\t") {
		v.Fail("wrong-type", "a name on one line belongs here", "", "")
		return "", false
	}
	return s, ok
}

// Length reads a length of zero or more; a bare number is in the column's unit
// or else in bare's.
func (v *Value) Length(bare measure.System) (measure.Length, bool) {
	if !v.isSingle() {
		v.notSingle(v.lengthExpected(bare))
		return 0, false
	}
	number, ok := v.number(v.text)
	if !ok {
		return 0, false
	}
	l, err := measure.ParseLength(number, bare)
	if err != nil {
		v.Fail("bad-length", err.Error(), v.lengthExpected(bare), "")
		return 0, false
	}
	return l, true
}

func (v *Value) lengthExpected(bare measure.System) string {
	if bare == measure.Millimetres {
		return "a length, such as 1372mm, 137.2cm or 54in; a bare number is in " + v.bare("mm")
	}
	return "a length, such as 54in, 4ft 6in or 1372mm; a bare number is in " + v.bare("inches")
}

// Size reads a length greater than zero.
func (v *Value) Size(bare measure.System) (measure.Length, bool) {
	l, ok := v.Length(bare)
	if ok && l == 0 {
		v.Fail("bad-length", "this length is zero", "a length greater than zero", "")
		return 0, false
	}
	return l, ok
}

// Offset reads a length that may be negative.
func (v *Value) Offset(bare measure.System) (measure.Length, bool) {
	if v != nil && v.kind == scalar {
		if rest, ok := strings.CutPrefix(strings.TrimSpace(v.text), "-"); ok {
			up := *v
			up.text = rest
			l, ok := up.Length(bare)
			return -l, ok
		}
	}
	return v.Length(bare)
}

// Mass reads a weight of zero or more.
func (v *Value) Mass(bare measure.System) (measure.Mass, bool) {
	if !v.isSingle() {
		v.notSingle(v.massExpected(bare))
		return 0, false
	}
	number, ok := v.number(v.text)
	if !ok {
		return 0, false
	}
	m, err := measure.ParseMass(number, bare)
	if err != nil {
		v.Fail("bad-weight", err.Error(), v.massExpected(bare), "")
		return 0, false
	}
	return m, true
}

func (v *Value) massExpected(bare measure.System) string {
	if bare == measure.Millimetres {
		return "a weight, such as 1.1kg or 350g; a bare number is in " + v.bare("kg")
	}
	return "a weight, such as 2.5lb, 40oz or 1.1kg; a bare number is in " + v.bare("lb")
}

// bare is what a bare number here is in: the column's unit, or else the file's.
func (v *Value) bare(file string) string {
	switch {
	case v == nil || v.unit == "":
		return file
	case v.unit == "in":
		return "inches"
	}
	return v.unit
}

// number writes a cell's number with a decimal point and its column's unit. It
// is false, and that is reported, if the number can be read in two ways.
func (v *Value) number(s string) (string, bool) {
	s = strings.TrimSpace(s)
	if !v.cell {
		return s, true
	}
	plain, ok := v.figures.plain(s)
	if !ok {
		v.twoWays(s)
		return "", false
	}
	bare := strings.Trim(plain, "0123456789./- ½¼¾⅓⅔⅛⅜⅝⅞") == ""
	if v.unit != "" && bare && s != "" {
		plain += v.unit
	}
	return plain, true
}

// twoWays reports a number with one mark that may stand between thousands or
// before decimals.
func (v *Value) twoWays(s string) {
	thousands, decimals := v.figures.either(s)
	v.Fail("bad-number", fmt.Sprintf("%s may be read in two ways", quote(s)), "",
		fmt.Sprintf("write %s or %s", thousands, decimals))
}

// Int reads a whole number from lo to hi.
func (v *Value) Int(lo, hi int) (int, bool) {
	s, ok := v.scalar("a whole number")
	if !ok {
		return 0, false
	}
	s = strings.TrimSpace(s)
	plain := s
	if v.cell {
		if plain, ok = v.figures.whole(s); !ok {
			v.Fail("bad-number", fmt.Sprintf("%s may be read in two ways", quote(s)), "a whole number without marks", "")
			return 0, false
		}
	}
	n, err := strconv.Atoi(plain)
	message := ""
	switch {
	case errors.Is(err, strconv.ErrRange) || err == nil && (n < lo || n > hi):
		message = fmt.Sprintf("%s is out of range", quote(s))
	case err != nil || strings.HasPrefix(s, "+"):
		message = fmt.Sprintf("%s is not a whole number", quote(s))
	default:
		return n, true
	}
	v.Fail("bad-number", message, fmt.Sprintf("a whole number from %d to %d", lo, hi), "")
	return 0, false
}

// Decimal reads a decimal number of zero or more and returns its spelling, with
// a decimal point. In a CSV cell it may have a sign of currency or the code of
// one beside it, which is dropped.
func (v *Value) Decimal() (string, bool) {
	const expected = "a decimal number, such as 3.50"
	s, ok := v.scalar(expected)
	if !ok {
		return "", false
	}
	s = strings.TrimSpace(s)
	plain := s
	if v.cell {
		if plain, ok = v.figures.plain(withoutCurrency(s)); !ok {
			v.twoWays(withoutCurrency(s))
			return "", false
		}
	}
	whole, part, pointed := strings.Cut(plain, ".")
	if whole == "" || len(plain) > 20 || strings.Trim(whole+part, "0123456789") != "" || pointed && part == "" {
		v.Fail("bad-number", fmt.Sprintf("%s is not a decimal number", quote(s)), expected, "")
		return "", false
	}
	return plain, true
}

// Money reads a sum of zero or more; in a CSV cell it may have its currency
// beside it, as for Decimal.
func (v *Value) Money() (measure.Money, bool) {
	s, ok := v.Decimal()
	if !ok {
		return 0, false
	}
	m, ok := measure.ParseMoney(s)
	if !ok {
		v.Fail("bad-number", fmt.Sprintf("%s is not a price", quote(s)), "whole hundredths, such as 3.50, of at most "+measure.MaxMoney.String(), "")
	}
	return m, ok
}

// Bool reads true or false, or yes or no.
func (v *Value) Bool() (bool, bool) {
	s, ok := v.scalar("true or false")
	if !ok {
		return false, false
	}
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "true", "yes", "on":
		return true, true
	case "false", "no", "off":
		return false, true
	}
	v.Fail("bad-word", fmt.Sprintf("%s is neither true nor false", quote(s)), "true or false", "")
	return false, false
}

// Measure reads the system that bare numbers are in: in or mm.
func (v *Value) Measure() (measure.System, bool) {
	word, ok := v.OneOf(measure.Inches.String(), measure.Millimetres.String())
	if word == measure.Millimetres.String() {
		return measure.Millimetres, ok
	}
	return measure.Inches, ok
}

// OneOf reads one of the words; capitals do not count.
func (v *Value) OneOf(words ...string) (string, bool) { return oneWord(v, words) }

// oneWord is OneOf for a type made of text.
func oneWord[T ~string](v *Value, words []T) (T, bool) {
	if v.isSingle() {
		for _, w := range words {
			if strings.EqualFold(strings.TrimSpace(v.text), string(w)) {
				return w, true
			}
		}
	}
	spelt := make([]string, len(words))
	for i, w := range words {
		spelt[i] = string(w)
	}
	if s, ok := v.scalar(oneOf(spelt)); ok {
		s = strings.TrimSpace(s)
		v.Fail("bad-word", fmt.Sprintf("%s is not understood here", quote(s)), oneOf(spelt), Suggest(s, spelt))
	}
	return "", false
}

// oneOf lists words as what was expected.
func oneOf(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return "one of " + strings.Join(words, ", ")
}

// Suggest is the fix for a misspelt word: to write the nearest of the words,
// or "" if none is near.
func Suggest(word string, words []string) string {
	if near := diag.Near(word, words); near != "" {
		return "write " + quote(near)
	}
	return ""
}

// quote quotes what was written, at a readable length.
func quote(s string) string { return strconv.Quote(shorten(s)) }

// shorten keeps what a message repeats to a readable length.
func shorten(s string) string {
	const most = 40
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}
