package decode

import "strings"

// Decimals says which decimal sign the numbers of a CSV file show.
type Decimals string

// The decimal signs. Both is a file that mixes them.
const (
	NoDecimals Decimals = "none"
	Points     Decimals = "point"
	Commas     Decimals = "comma"
	Both       Decimals = "both"
)

// figures is how a CSV file writes its numbers.
type figures struct {
	sign  byte // the decimal sign, '.' or ','
	known known
}

// known says how the decimal sign of a file is known.
type known uint8

const (
	assumed known = iota // no number shows it beyond doubt
	shown                // some do, and none shows the other
	mixed                // some show the one, some the other
)

// tally counts what the numbers of a file show of its decimal sign.
type tally struct{ points, commas, maybePoints, maybeCommas int }

// add counts a number.
func (t *tally) add(s string) {
	n, ok := takeNumeral(s)
	switch {
	case !ok:
	case n.doubt && n.sign == '.':
		t.maybePoints++
	case n.doubt:
		t.maybeCommas++
	case n.shows == '.':
		t.points++
	case n.shows == ',':
		t.commas++
	}
}

// settle is how the numbers are to be read. Where they do not tell, a comma goes
// with semicolons between the cells, as spreadsheets have it, and a point with
// all else.
func (t *tally) settle(separator rune) (figures, Decimals) {
	switch {
	case t.points > 0 && t.commas == 0:
		return figures{'.', shown}, Points
	case t.commas > 0 && t.points == 0:
		return figures{',', shown}, Commas
	}
	f, decimals, maybe := figures{'.', assumed}, Points, t.maybePoints
	if separator == ';' {
		f, decimals, maybe = figures{',', assumed}, Commas, t.maybeCommas
	}
	switch {
	case t.points > 0:
		return figures{f.sign, mixed}, Both
	case maybe == 0:
		return f, NoDecimals
	}
	return f, decimals
}

// numeral is the number a text begins with, taken apart.
type numeral struct {
	whole, part string // the digits before and after the decimal sign
	sign        byte   // '.' or ',', 0 if it has no decimals
	doubt       bool   // the sign may as well stand between thousands: 1,250
	shows       byte   // the decimal sign that its marks show, 0 if they show none
	rest        string // what follows
}

// takeNumeral reads the number a text begins with: digits, with a decimal sign
// or without, in groups of three or not. It is false for what is no such number,
// fractions among them; the rest is what follows all the same.
func takeNumeral(s string) (numeral, bool) {
	const most = 8
	var groups, marks [most]string
	end := digitsLen(s)
	groups[0] = s[:end]
	n := 1
	for ; ; n++ {
		mark := groupMark(s[end:])
		digits := digitsLen(s[end+len(mark):])
		if mark == "" || digits == 0 {
			break
		}
		if n < most {
			marks[n], groups[n] = mark, s[end+len(mark):end+len(mark)+digits]
		}
		end += len(mark) + digits
	}
	rest := s[end:]
	if end == 0 || n > most || strings.HasPrefix(rest, "/") || strings.HasPrefix(rest, "⁄") {
		return numeral{rest: rest}, false
	}
	return assemble(groups[:n], marks[1:n], rest)
}

// assemble makes a number of groups of digits and the marks between them.
func assemble(groups, marks []string, rest string) (numeral, bool) {
	n := len(marks)
	if n == 0 {
		return numeral{whole: groups[0], rest: rest}, true
	}
	last := marks[n-1]
	isSign := last == "." || last == ","
	switch {
	case n == 1 && isSign:
		return numeral{whole: groups[0], part: groups[1], sign: last[0], shows: last[0],
			doubt: thousands(groups), rest: rest}, true
	case same(marks) && thousands(groups):
		joined := numeral{whole: strings.Join(groups, ""), rest: rest}
		if isSign { // 1.234.567: the other sign is left for decimals
			joined.shows = '.' + ',' - last[0]
		}
		return joined, true
	case isSign && last != marks[0] && same(marks[:n-1]) && thousands(groups[:n]):
		return numeral{whole: strings.Join(groups[:n], ""), part: groups[n], sign: last[0], shows: last[0], rest: rest}, true
	}
	return numeral{rest: rest}, false
}

// thousands says whether the digits are grouped as thousands are.
func thousands(groups []string) bool {
	first := groups[0]
	if first == "" || first[0] == '0' || len(first) > 3 {
		return false
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

func same(marks []string) bool {
	for _, m := range marks {
		if m != marks[0] {
			return false
		}
	}
	return true
}

// groupMark is the mark at the front that may stand inside a number, or "".
func groupMark(s string) string {
	for _, mark := range [...]string{".", ",", " ", "'", "’", "\u00a0", "\u202f", "\u2009"} {
		if strings.HasPrefix(s, mark) {
			return mark
		}
	}
	return ""
}

func digitsLen(s string) int {
	n := 0
	for n < len(s) && '0' <= s[n] && s[n] <= '9' {
		n++
	}
	return n
}

// plain writes every number of a text with a decimal point and no marks between
// thousands. It is false if one of them can be read in two ways.
func (f figures) plain(s string) (string, bool) {
	if f.sign == '.' && f.known != mixed && isPlain(s) {
		return s, true
	}
	var b strings.Builder
	for s != "" {
		start := strings.IndexAny(s, "0123456789.,")
		if start < 0 {
			break
		}
		b.WriteString(s[:start])
		s = s[start:]
		n, ok := takeNumeral(s)
		word := s[:max(len(s)-len(n.rest), 1)] // as it is, if it is no number
		s = s[len(word):]
		if ok {
			if word, ok = f.word(n); !ok {
				return "", false
			}
		}
		b.WriteString(word)
	}
	return b.String() + s, true
}

// isPlain says whether a text is digits with a point or without, as nearly all
// are.
func isPlain(s string) bool {
	points := 0
	for i := range len(s) {
		if s[i] == '.' {
			points++
		} else if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return points < 2
}

// word writes a number with a decimal point; false if it can be read in two ways.
func (f figures) word(n numeral) (string, bool) {
	switch {
	case n.sign == 0:
		return n.whole, true
	case !n.doubt || n.sign == f.sign && f.known != mixed:
		return n.whole + "." + n.part, true
	case f.known == shown:
		return n.whole + n.part, true
	}
	return "", false
}

// whole is the spelling of a whole number: 1,250 can be no other, nor can 24.0.
// It is false if the number can be read in two ways.
func (f figures) whole(s string) (string, bool) {
	if digitsLen(s) == len(s) {
		return s, true
	}
	n, ok := takeNumeral(s)
	switch {
	case !ok || n.rest != "":
		return s, true
	case n.doubt && n.sign == f.sign:
		return "", false
	case n.doubt:
		return n.whole + n.part, true
	case n.sign != 0 && strings.Trim(n.part, "0") != "":
		return s, true
	}
	return n.whole, true
}

// either tells the two ways a number in doubt can be read, each as it would be
// written without doubt.
func (f figures) either(s string) (thousands, decimals string) {
	n, _ := takeNumeral(s)
	thousands, decimals = n.whole+n.part, n.whole+string(rune(f.sign))+n.part
	if f.known == mixed {
		decimals += "0" // four digits are no thousands
	}
	return thousands, decimals
}

// withoutCurrency strips a sign of currency or an ISO 4217 code off a price.
func withoutCurrency(s string) string {
	s = strings.TrimSpace(s)
	if isPlain(s) {
		return s
	}
	trimmed := strings.TrimSpace(strings.Trim(s, "$€£¥"))
	if trimmed != s {
		return trimmed
	}
	n := len(s) - 3
	switch {
	case n > 0 && isCode(s[:3]) && !isCapital(s[3]):
		return strings.TrimSpace(s[3:])
	case n > 0 && isCode(s[n:]) && !isCapital(s[n-1]):
		return strings.TrimSpace(s[:n])
	}
	return s
}

func isCode(s string) bool { return isCapital(s[0]) && isCapital(s[1]) && isCapital(s[2]) }

func isCapital(c byte) bool { return 'A' <= c && c <= 'Z' }
