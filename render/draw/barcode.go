package draw

import (
	"setwright/layout/measure"
	"setwright/render/bars"
	"setwright/render/sheet"
)

// Sizes of barcodes. GS1 has a module of 0.33 mm, and from 0.264 to 0.66, with
// bars in proportion, 22.85 mm high and 18.23 for EAN-8 (GS1 Sweden size guide).
// 1/75 in is nearest to it that printers of 150, 300 and 600 dots an inch set in
// whole dots, so that no bar comes out wider than another.
const (
	module    = measure.Inch / 75
	barHeight = 22850 * module / 330 // of EAN-13 and UPC-A
	lowHeight = 18230 * module / 330 // of EAN-8
	leastBars = 8 * mm               // house rule: lower ones are hard to hit by hand
	guardDrop = 5 * module           // long bars reach so far below the others
	digitGap  = module               // at least half a module from the bars to the digits
)

// digitsDrop is what the digits under a barcode take below its bars.
func digitsDrop() measure.Length {
	s := letter(plain)
	return max(guardDrop, digitGap+s.height+s.drop())
}

// barsWidth is the width of a symbol with its quiet zones.
func barsWidth(s bars.Symbol) measure.Length { return module * measure.Length(s.Width()) }

// fullHeight is how high a symbol's bars are where there is room.
func fullHeight(s bars.Symbol) measure.Length {
	if s.Short {
		return lowHeight
	}
	return barHeight
}

// barcode draws a symbol whose left quiet zone begins at x and whose bars run
// from y down. Where height is less than the full one the height is truncated;
// module and quiet zones never are.
func (p *Page) barcode(x, y, height measure.Length, s bars.Symbol) {
	left := x + module*measure.Length(s.Left)
	at := func(m int) measure.Length { return left + module*measure.Length(m) }
	list := make([]sheet.Rect, len(s.Bars))
	for i, b := range s.Bars {
		list[i] = box(at(b.From), y, at(b.To), y+height)
		if b.Long {
			list[i].Max.Y += guardDrop
		}
	}
	p.Sheet.Add(sheet.Boxes{List: list, Fill: black()})
	digits := letter(plain).middle()
	for _, t := range s.Texts {
		p.write((at(t.From)+at(t.To))/2, y+height+digitGap+digits.height, t.Digits, digits)
	}
}
