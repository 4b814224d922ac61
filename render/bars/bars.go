// Package bars turns a GTIN into the bars of its symbol: EAN-13, EAN-8 or
// UPC-A (GS1 General Specifications, section 5.2). It counts in modules, the
// width of the narrowest bar, and knows no paper.
package bars

import (
	"strings"

	"github.com/boombuler/barcode"
	"github.com/boombuler/barcode/ean"
)

// Symbol is a barcode. Modules count from 0 at the first bar's left edge.
type Symbol struct {
	Bars        []Bar // from the left
	Modules     int   // from the first bar to the last
	Left, Right int   // modules that stay blank on either side: the quiet zones
	Short       bool  // EAN-8: its bars are lower too
	Texts       []Text
}

// Bar is one bar, from one module's left edge to another's. A long one reaches
// down between the digits.
type Bar struct {
	From, To int
	Long     bool
}

// Text is digits to be set under the symbol, in the middle between two modules.
// Modules under 0 and over Symbol.Modules lie under the quiet zones.
type Text struct {
	Digits   string
	From, To int
}

// Width is how many modules the symbol takes with its quiet zones.
func (s Symbol) Width() int { return s.Left + s.Modules + s.Right }

// Encode returns the symbol of a GTIN of 8, 12 or 13 digits, or of 14 that
// begin with 0, with its check digit; false if there is none: a GTIN-14 of a
// case needs another kind of symbol.
func Encode(gtin string) (Symbol, bool) {
	if len(gtin) == 14 && gtin[0] == '0' {
		gtin = gtin[1:]
		if gtin[0] == '0' {
			gtin = gtin[1:]
		}
	}
	if strings.Trim(gtin, "0123456789") != "" {
		return Symbol{}, false
	}
	switch len(gtin) {
	case 8:
		return draw(gtin, ean8(gtin))
	case 12:
		return draw("0"+gtin, upcA(gtin))
	case 13:
		return draw(gtin, ean13(gtin))
	}
	return Symbol{}, false
}

// Quiet zones and the places of digits: GS1 General Specifications, section
// 5.2.3, figures recalled from memory but for the quiet zones, which the GS1
// Sweden size guide gives too.

func ean13(d string) Symbol {
	return Symbol{Left: 11, Right: 7, Texts: []Text{{d[:1], -9, -2}, {d[1:7], 3, 45}, {d[7:], 50, 92}}}
}

func upcA(d string) Symbol {
	return Symbol{Left: 9, Right: 9, Texts: []Text{{d[:1], -9, -2}, {d[1:6], 10, 45}, {d[6:11], 50, 85}, {d[11:], 97, 104}}}
}

func ean8(d string) Symbol {
	return Symbol{Left: 7, Right: 7, Short: true, Texts: []Text{{d[:4], 3, 31}, {d[4:], 36, 64}}}
}

// draw gives the symbol its bars. Those that no digits stand under are long:
// the guards, and the first and last digit of UPC-A.
func draw(digits string, s Symbol) (Symbol, bool) {
	code, err := ean.Encode(digits)
	if err != nil {
		return Symbol{}, false
	}
	s.Modules = code.Bounds().Dx()
	for at := 0; at < s.Modules; at++ {
		if !dark(code, at) {
			continue
		}
		bar := Bar{From: at, Long: true}
		for at < s.Modules && dark(code, at) {
			at++
		}
		bar.To = at
		for _, t := range s.Texts {
			bar.Long = bar.Long && (bar.To <= t.From || bar.From >= t.To)
		}
		s.Bars = append(s.Bars, bar)
	}
	return s, true
}

func dark(code barcode.Barcode, at int) bool {
	r, _, _, _ := code.At(at, 0).RGBA()
	return r == 0
}
