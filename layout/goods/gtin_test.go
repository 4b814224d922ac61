package goods_test

import (
	"strings"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

// gtins are worked examples of GS1, its member organisations and others.
func gtins() [][2]string {
	return [][2]string{
		{"6291041500213", "gs1.org, how to calculate a check digit manually"},
		{"7300011000017", "gs1.se"},
		{"8904000210037", "gs1india.org"},
		{"5012345678900", "the number from a prompt of GS1 UK, its check digit worked out by hand"},
		{"036000241457", "easystickersoftware.com, a UPC-A number"},
		{"036000291452", "the well-known UPC-A example, from memory"},
		{"96385074", "the well-known GTIN-8 example, from memory"},
		{"40987650000223", "ibm.com, a GTIN-14"},
	}
}

func TestCheckDigits(t *testing.T) {
	for _, c := range gtins() {
		for digit := '0'; digit <= '9'; digit++ {
			code := c[0][:len(c[0])-1] + string(digit)
			if right := code == c[0]; goods.IsGTIN(code) != right {
				t.Errorf("%s: a GTIN %v, want %v (%s)", code, !right, right, c[1])
			}
			var found diag.List
			goods.Load(goods.NewCatalog(), "g.csv", []byte("sku,name,form,width,height,depth,gtin\nA,B,peg,1,1,1,"+code+"\n"), measure.Inches, &found)
			if right := code == c[0]; right != (found.Len() == 0) {
				t.Errorf("%s: accepted %v, want %v (%s)", code, !right, right, c[1])
			}
		}
	}
}

// TestCheckDigitFindsSlips: the digit shows every single wrong digit, and every
// swap of neighbours that do not differ by five (GS1 General Specifications).
func TestCheckDigitFindsSlips(t *testing.T) {
	for _, c := range gtins() {
		code := []byte(c[0])
		for i := range code {
			for d := byte('0'); d <= '9'; d++ {
				slip := append([]byte{}, code...)
				slip[i] = d
				if goods.IsGTIN(string(slip)) != (d == code[i]) {
					t.Errorf("%s passes for %s", slip, code)
				}
			}
			if i == 0 {
				continue
			}
			swap := append([]byte{}, code...)
			swap[i-1], swap[i] = swap[i], swap[i-1]
			apart := (int(code[i]) - int(code[i-1]) + 10) % 10
			if goods.IsGTIN(string(swap)) != (apart == 0 || apart == 5) {
				t.Errorf("%s for %s: wrong verdict", swap, code)
			}
		}
	}
}

func TestGTINsOfSpreadsheets(t *testing.T) {
	for _, c := range []struct{ cell, want, fix, reason string }{
		{"6291041500213", "", "", "as it is"},
		{"629 1041-500213", "", "", "spaces and dashes"},
		{"'036000241457", "", "", "a mark for text"},
		{`"=""036000241457"""`, "", "", "a formula that keeps it as text"},
		{"6.29104E+12", "its last digits are lost", "format the column as text", "a number without its last digits"},
		{`"6,29104E+12"`, "its last digits are lost", "format the column as text", "the same with a decimal comma"},
		{"6.291041500213E+12", "a spreadsheet has written this GTIN as the number", "write 6291041500213", "all digits are there"},
		{"6.291041500214E+12", "its last digits are lost", "format the column", "all digits, of which one is wrong"},
		{"36000241457", "has 11 digits: zeros in front may be lost", "did you mean 036000241457?", "one zero lost"},
		{"1230", "is not a GTIN", "", "too short, and its check digit is wrong"},
		{"1236", "has 4 digits", "did you mean 00001236?", "zeros of a GTIN-8 lost"},
		{"123456789", "is not a GTIN", "", "nine digits"},
		{"6291041500214", "the check digit of", "look at the product", "a wrong digit"},
		{"62910415002131", "the check digit of", "look at the product", "one digit too many makes a GTIN-14"},
		{"629104150021312", "is not a GTIN", "", "fifteen digits"},
		{"none", "is not a GTIN", "", "a word"},
	} {
		var found diag.List
		cat := goods.NewCatalog()
		goods.Load(cat, "g.csv", []byte("sku,name,form,width,height,depth,gtin\nA,B,peg,1,1,1,"+c.cell+"\n"), measure.Inches, &found)
		if c.want == "" {
			if found.Len() > 0 || !goods.IsGTIN(cat.All()[0].GTIN) {
				t.Errorf("%s: %v: %s", c.cell, found.All(), c.reason)
			}
			continue
		}
		if found.Len() != 1 || !strings.Contains(found.All()[0].Message, c.want) || !strings.HasPrefix(found.All()[0].Fix, c.fix) {
			t.Errorf("%s: %v, want %q, %q: %s", c.cell, found.All(), c.want, c.fix, c.reason)
		}
	}
}
