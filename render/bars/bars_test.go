package bars

import (
	"strings"
	"testing"
)

// The tables of GS1 General Specifications, section 5.2.1.2: number set A, and
// which digits of the left half of an EAN-13 are of set B for each first digit.
// Set C is A with bars and spaces exchanged, set B is C read backwards.
var (
	setA = [10]string{"0001101", "0011001", "0010011", "0111101", "0100011", "0110001", "0101111", "0111011", "0110111", "0001011"}
	lead = [10]string{"AAAAAA", "AABABB", "AABBAB", "AABBBA", "ABAABB", "ABBAAB", "ABBBAA", "ABABAB", "ABABBA", "ABBABA"}
)

func setC(d byte) string { return strings.NewReplacer("0", "1", "1", "0").Replace(setA[d-'0']) }

func setB(d byte) string {
	var b strings.Builder
	for c := setC(d); c != ""; c = c[:len(c)-1] {
		b.WriteByte(c[len(c)-1])
	}
	return b.String()
}

// pattern is the modules of a symbol by those tables, 1 for a bar.
func pattern(digits string) string {
	left, sets := digits[:len(digits)/2], "AAAA"
	if len(digits) == 13 {
		left, sets = digits[1:7], lead[digits[0]-'0']
	}
	p := "101"
	for i := range len(left) {
		if sets[i] == 'A' {
			p += setA[left[i]-'0']
		} else {
			p += setB(left[i])
		}
	}
	p += "01010"
	for _, d := range []byte(digits[len(digits)-len(left):]) {
		p += setC(d)
	}
	return p + "101"
}

func modules(s Symbol) string {
	p := []byte(strings.Repeat("0", s.Modules))
	for _, b := range s.Bars {
		for at := b.From; at < b.To; at++ {
			p[at] = '1'
		}
	}
	return string(p)
}

// check is the digit that makes a number a GTIN (section 7.9).
func check(body string) string {
	sum, weight := 0, 3
	for i := len(body) - 1; i >= 0; i-- {
		sum += weight * int(body[i]-'0')
		weight = 4 - weight
	}
	return body + string(rune('0'+(10-sum%10)%10))
}

func TestEncode(t *testing.T) {
	for _, c := range []struct {
		gtin, digits string // as encoded: UPC-A is EAN-13 with a 0 before it
		left, right  int
		width, long  int
		reason       string
	}{
		{"6291041500213", "6291041500213", 11, 7, 113, 6, "EAN-13 (example of gs1.org's check digit calculator)"},
		{"7300011000017", "7300011000017", 11, 7, 113, 6, "EAN-13 (example of gs1.se)"},
		{"036000241457", "0036000241457", 9, 9, 113, 10, "UPC-A: its first and last digit are long too"},
		{"96385074", "96385074", 7, 7, 81, 6, "EAN-8"},
		{"07300011000017", "7300011000017", 11, 7, 113, 6, "GTIN-14 that begins with 0 is an EAN-13"},
		{"00036000241457", "0036000241457", 9, 9, 113, 10, "GTIN-14 that begins with 00 is a UPC-A"},
	} {
		s, ok := Encode(c.gtin)
		if !ok {
			t.Errorf("%s: no symbol: %s", c.gtin, c.reason)
			continue
		}
		if got, want := modules(s), pattern(c.digits); got != want {
			t.Errorf("%s: %s\n got %s\nwant %s", c.gtin, c.reason, got, want)
		}
		long, shown := 0, ""
		for _, b := range s.Bars {
			if b.Long {
				long++
			}
		}
		for _, text := range s.Texts {
			shown += text.Digits
		}
		if s.Left != c.left || s.Right != c.right || s.Width() != c.width || long != c.long || !strings.HasSuffix(c.gtin, shown) || len(shown) < 8 {
			t.Errorf("%s: quiet %d and %d, %d modules, %d long bars, digits %s: %s", c.gtin, s.Left, s.Right, s.Width(), long, shown, c.reason)
		}
	}
}

// Every first digit, every digit at every place.
func TestEveryDigit(t *testing.T) {
	for _, places := range []int{12, 7} {
		for first := range 10 {
			for step := range 10 {
				var body strings.Builder
				for i := range places {
					body.WriteByte('0' + byte((first+i*step)%10))
				}
				gtin := check(body.String())
				if s, ok := Encode(gtin); !ok || modules(s) != pattern(gtin) {
					t.Errorf("%s: %v, %s", gtin, ok, modules(s))
				}
			}
		}
	}
}

func TestNoSymbol(t *testing.T) {
	for _, c := range []struct{ gtin, reason string }{
		{"", "not given"}, {"17300011000014", "a GTIN-14 of a case"}, {"7300011000018", "a wrong check digit"},
		{"123456", "too short"}, {"96385O74", "a letter"}, {"030001100001é", "a letter of two bytes"},
	} {
		if s, ok := Encode(c.gtin); ok {
			t.Errorf("%q has a symbol %s: %s", c.gtin, modules(s), c.reason)
		}
	}
}
