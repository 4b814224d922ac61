package goods

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"setwright/layout/decode"
)

// Limits on a size run, and on the name of one size in characters.
const (
	maxSizes    = 100
	maxSizeName = 20
)

const sizesExpected = "sizes such as 36 37 38, S/M/L or 36-41"

// sizes reads a size run: names of sizes with spaces, slashes or semicolons
// between them, commas too where they cannot be decimal commas, or ranges of
// whole numbers such as 36-41. In YAML it may also be a list.
func sizes(v *decode.Value, to *[]string) bool {
	words, ok := sizeWords(v)
	if !ok {
		return false
	}
	var run []string
	for _, word := range words {
		lo, hi, isRange := sizeRange(word)
		switch {
		case isRange && lo >= hi:
			v.Fail("bad-sizes", fmt.Sprintf("the range %q does not go up", word), sizesExpected, "")
			return false
		case isRange && hi-lo >= maxSizes:
			return tooManySizes(v)
		case isRange:
			for n := lo; n <= hi; n++ {
				run = append(run, strconv.Itoa(n))
			}
		default:
			run = append(run, word)
		}
	}
	if len(run) > maxSizes {
		return tooManySizes(v)
	}
	if !soundSizes(v, run) {
		return false
	}
	*to = run
	return true
}

// sizeWords is what is written between the separators.
func sizeWords(v *decode.Value) ([]string, bool) {
	if v.IsList() {
		var words []string
		good := true
		for _, item := range v.List() {
			name, ok := item.Name()
			good = good && ok
			words = append(words, name)
		}
		return words, good
	}
	s, ok := v.Text()
	return strings.FieldsFunc(betweenDigits(s), func(r rune) bool { return strings.ContainsRune(" \t\n\u00a0/;", r) }), ok
}

// betweenDigits writes spaces for the commas of a text, but for those with a
// digit on both sides: 36,5.
func betweenDigits(s string) string {
	if strings.IndexByte(s, ',') < 0 {
		return s
	}
	out := []byte(s)
	for i, c := range out {
		if c == ',' && !(i > 0 && i+1 < len(s) && isDigits(s[i-1:i]) && isDigits(s[i+1:i+2])) {
			out[i] = ' '
		}
	}
	return string(out)
}

// sizeRange takes 36-41 apart; false if it is not two whole numbers.
func sizeRange(word string) (lo, hi int, ok bool) {
	from, to, dashed := strings.Cut(strings.Replace(word, "–", "-", 1), "-")
	if !dashed || from == "" || to == "" || len(from) > 4 || len(to) > 4 || !isDigits(from+to) {
		return 0, 0, false
	}
	lo, _ = strconv.Atoi(from) // digits, and few
	hi, _ = strconv.Atoi(to)
	return lo, hi, true
}

func tooManySizes(v *decode.Value) bool {
	v.Fail("bad-sizes", fmt.Sprintf("there are more than %d sizes", maxSizes), sizesExpected, "")
	return false
}

// soundSizes reports a run without sizes, a size that is there twice and a name
// that is too long.
func soundSizes(v *decode.Value, run []string) bool {
	if len(run) == 0 {
		v.Fail("bad-sizes", "there are no sizes here", sizesExpected, "")
		return false
	}
	for i, size := range run {
		switch {
		case utf8.RuneCountInString(size) > maxSizeName:
			v.Fail("bad-sizes", fmt.Sprintf("the size %q is longer than %d characters", size, maxSizeName), sizesExpected, "")
			return false
		case slices.Contains(run[:i], size):
			v.Fail("bad-sizes", fmt.Sprintf("the size %q is there twice", size), sizesExpected, "delete one of them")
			return false
		}
	}
	return true
}
