package decode

import (
	"fmt"
	"math/rand"
	"strings"
	"testing"
)

func TestPlainNumbers(t *testing.T) {
	point, comma, maybePoint, maybeComma := figures{'.', shown}, figures{',', shown}, figures{'.', assumed}, figures{',', assumed}
	for _, c := range []struct {
		in     figures
		text   string
		want   string // "?" where it may be read in two ways
		reason string
	}{
		{point, "3.25", "3.25", "plain"},
		{point, "3,25", "3.25", "the other sign where it cannot stand between thousands"},
		{point, "1,250", "1250", "the other sign between thousands"},
		{maybePoint, "1,250", "?", "the same where no number tells"},
		{maybePoint, "1.250", "1.250", "the file's own sign"},
		{comma, "1.250", "1250", "the same with a decimal comma"},
		{maybeComma, "1.250", "?", "and where no number tells"},
		{comma, "1,250", "1.250", "the file's own sign"},
		{maybeComma, "0.250", "0.250", "a nought in front is no thousand"},
		{maybeComma, "1250.500", "1250.500", "four digits in front are no thousand"},
		{maybeComma, ".125", ".125", "nothing in front is no thousand"},
		{maybePoint, "1,234,567", "1234567", "two marks alike are no decimal signs"},
		{maybePoint, "1.234.567,8", "1234567.8", "two marks and another"},
		{maybePoint, "1 234,5", "1234.5", "spaces"},
		{maybePoint, "1\u00a0234\u202f567", "1\u00a0234\u202f567", "two kinds of space"},
		{maybePoint, "1'234'567.5", "1234567.5", "apostrophes"},
		{maybePoint, "1,23,456", "1,23,456", "groups that are none"},
		{maybePoint, "4 1/2", "4 1/2", "a fraction"},
		{maybePoint, "4 125/1000", "4 125/1000", "a fraction that looks like thousands"},
		{maybePoint, "4' 6-1/2\"", "4' 6-1/2\"", "feet and inches"},
		{maybePoint, "4'6\"", "4'6\"", "feet and inches without a space"},
		{comma, "4ft 6,5in", "4ft 6.5in", "a comma in the second number"},
		{comma, "1.250 mm", "1250 mm", "a unit"},
		{figures{'.', mixed}, "1.250", "?", "its own sign in a file that mixes them"},
		{figures{'.', mixed}, "1.25", "1.25", "beyond doubt all the same"},
		{point, "abc", "abc", "no number"},
		{point, "3.", "3.", "a point and nothing"},
		{point, "", "", "nothing"},
		{point, strings.Repeat("1,234", 9), strings.Repeat("1,234", 9), "more groups than any number has"},
	} {
		got, ok := c.in.plain(c.text)
		if !ok {
			got = "?"
		}
		if got != c.want {
			t.Errorf("%c %q reads %q, want %q: %s", c.in.sign, c.text, got, c.want, c.reason)
		}
	}
}

func TestWholeNumbers(t *testing.T) {
	for _, c := range []struct {
		in                 figures
		text, want, reason string
	}{
		{figures{'.', assumed}, "24", "24", "plain"},
		{figures{'.', assumed}, "24.0", "24", "a spreadsheet's decimals"},
		{figures{'.', assumed}, "24.5", "24.5", "left for the error"},
		{figures{'.', assumed}, "1,250", "1250", "a whole number has no decimals, so these are thousands"},
		{figures{'.', shown}, "1.000", "?", "one or a thousand"},
		{figures{',', assumed}, "1.000", "1000", "the other sign"},
		{figures{',', assumed}, "1 000", "1000", "a space"},
		{figures{',', assumed}, "-1", "-1", "left for the error"},
	} {
		got, ok := c.in.whole(c.text)
		if !ok {
			got = "?"
		}
		if got != c.want {
			t.Errorf("%c %q reads %q, want %q: %s", c.in.sign, c.text, got, c.want, c.reason)
		}
	}
}

// spelt writes a number with three decimals at most, grouped or not.
func spelt(r *rand.Rand, n, places int, group, sign string) string {
	text := fmt.Sprintf("%0*d", places+1, n)
	whole, part := text[:len(text)-places], text[len(text)-places:]
	if group != "" {
		for i := len(whole) - 3; i > 0; i -= 3 {
			whole = whole[:i] + group + whole[i:]
		}
	}
	if places == 0 {
		return whole
	}
	return whole + sign + part
}

// TestEverySpelling writes random numbers in every way and wants each read back,
// or refused as readable in two ways, never read as another.
func TestEverySpelling(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	refused := 0
	for range 20_000 {
		sign, group := ".", []string{"", ",", "'", " ", "\u00a0"}[r.Intn(5)]
		if r.Intn(2) == 0 {
			sign, group = ",", strings.Replace(group, ",", ".", 1)
		}
		places, n := r.Intn(4), r.Intn(1<<r.Intn(30))
		text := spelt(r, n, places, group, sign)
		want := spelt(r, n, places, "", ".")
		sure := figures{sign[0], shown}
		if got, ok := sure.plain(text); !ok || got != want {
			t.Fatalf("%q reads %q, %v, want %q", text, got, ok, want)
		}
		got, ok := figures{'.', assumed}.plain(text)
		if !ok {
			refused++
		} else if got != want && sign == "." {
			t.Fatalf("%q reads %q where no number tells, want %q or a refusal", text, got, want)
		}
	}
	if refused == 0 {
		t.Error("nothing was refused")
	}
}

func TestSettle(t *testing.T) {
	for _, c := range []struct {
		numbers   string
		separator rune
		want      figures
		decimals  Decimals
		reason    string
	}{
		{"3 4", ',', figures{'.', assumed}, NoDecimals, "no decimals"},
		{"3.5", ';', figures{'.', shown}, Points, "points, whatever the separator"},
		{"3,5", '\t', figures{',', shown}, Commas, "commas, whatever the separator"},
		{"3,5 3.5", ';', figures{',', mixed}, Both, "both"},
		{"1,250", ';', figures{',', assumed}, Commas, "a comma in doubt, after semicolons"},
		{"1,250", ',', figures{'.', assumed}, NoDecimals, "a comma in doubt, after commas"},
		{"1.250", ',', figures{'.', assumed}, Points, "a point in doubt, after commas"},
		{"1.250 1,5", ',', figures{',', shown}, Commas, "a number that tells"},
		{"1,234,567", ';', figures{'.', shown}, Points, "thousands that leave the point"},
	} {
		var counts tally
		for _, n := range strings.Fields(c.numbers) {
			counts.add(n)
		}
		if got, decimals := counts.settle(c.separator); got != c.want || decimals != c.decimals {
			t.Errorf("%s after %q: %v %s, want %v %s: %s", c.numbers, c.separator, got, decimals, c.want, c.decimals, c.reason)
		}
	}
}

func FuzzNumeral(f *testing.F) {
	for _, s := range []string{"1,234.5", "4' 6-1/2", "1 234", "1'234'567,8 mm", ".5", "1.234.567", "12e5", "½"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		n, ok := takeNumeral(s)
		if ok && (!strings.HasSuffix(s, n.rest) || digitsIn(s[:len(s)-len(n.rest)]) != n.whole+n.part) {
			t.Fatalf("%q reads %+v", s, n)
		}
		for _, in := range []figures{{'.', shown}, {',', assumed}} {
			plain, ok := in.plain(s)
			if ok && digitsIn(plain) != digitsIn(s) {
				t.Fatalf("%q reads %q", s, plain)
			}
			if again, ok := (figures{'.', shown}).plain(plain); ok && isPlain(plain) && again != plain {
				t.Fatalf("%q reads %q and then %q", s, plain, again)
			}
		}
	})
}

func digitsIn(s string) string {
	return strings.Map(func(r rune) rune {
		if '0' <= r && r <= '9' {
			return r
		}
		return -1
	}, s)
}
