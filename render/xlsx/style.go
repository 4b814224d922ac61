package xlsx

import (
	"fmt"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
)

// style is the index of a cell's look in the workbook's styles.
type style int

// The looks of cells; those in bold are of the line of sums.
const (
	plainStyle  style = iota
	headStyle         // head of a column of text
	headEnd           // head of a column of numbers
	textStyle         // text, which stays text when it is edited
	quotedStyle       // text that looks like a formula, marked as text once more
	wholeStyle
	decimalStyle
	lengthStyle // exactly as shown
	aboutStyle  // rounded as shown
	massStyle
	allStyle
	allWhole
	allMass
	styleCount
)

// Formats of numbers: those every spreadsheet has by number (ECMA-376, part 1,
// numFmt), and from 164 the workbook's own.
const (
	general     = 0
	wholeFormat = 1  // 0
	twoPlaces   = 2  // 0.00
	textFormat  = 49 // @
	onePlace    = 164
	fraction    = 165 // the fraction of an inch in lowest terms
	sixteenths  = 166 // the nearest sixteenth
)

// look is what a style is made of: font 1 is bold, fill 2 is pale, border 1 is
// a line over the cell, 2 one under it.
type look struct {
	format, font, fill, border int
	align                      string
	quoted                     bool
}

// looks are the styles by their index. Weights have the decimals the sheets
// give them, lengths are whole millimetres or inches to the nearest sixteenth.
func looks(system measure.System) [styleCount]look {
	const wrapped = `<alignment vertical="top" wrapText="1"/>`
	mass, length, about := onePlace, fraction, sixteenths
	if system == measure.Millimetres {
		mass, length, about = twoPlaces, wholeFormat, wholeFormat
	}
	number := func(format int) look { return look{format: format, align: `<alignment vertical="top"/>`} }
	all := func(format int) look { return look{format: format, font: 1, border: 1} }
	return [styleCount]look{
		headStyle:    {font: 1, fill: 2, border: 2},
		headEnd:      {font: 1, fill: 2, border: 2, align: `<alignment horizontal="right"/>`},
		textStyle:    {format: textFormat, align: wrapped},
		quotedStyle:  {format: textFormat, align: wrapped, quoted: true},
		wholeStyle:   number(wholeFormat),
		decimalStyle: number(twoPlaces),
		lengthStyle:  number(length),
		aboutStyle:   number(about),
		massStyle:    number(mass),
		allStyle:     all(general),
		allWhole:     all(wholeFormat),
		allMass:      all(mass),
	}
}

// styleOf is the look of a cell in the body of a table.
func styleOf(t *list.Table, c list.Cell) style {
	switch c.Kind {
	case list.Text, list.Word:
		if list.Runs(c.Text) {
			return quotedStyle
		}
		return textStyle
	case list.Whole:
		return wholeStyle
	case list.Decimal:
		return decimalStyle
	case list.Mass:
		return massStyle
	case list.Length:
		if strings.HasPrefix(t.Figure(c), "~") {
			return aboutStyle
		}
		return lengthStyle
	}
	return plainStyle
}

// styles is the part that holds every look.
func (b *book) styles() string {
	var x strings.Builder
	x.WriteString(`<styleSheet xmlns="` + sheetNS + `"><numFmts count="3">`)
	fmt.Fprintf(&x, `<numFmt numFmtId="%d" formatCode="0.0"/>`, onePlace)
	fmt.Fprintf(&x, `<numFmt numFmtId="%d" formatCode="# ??/??"/>`, fraction)
	fmt.Fprintf(&x, `<numFmt numFmtId="%d" formatCode="&quot;≈&quot;# ??/16"/>`, sixteenths)
	x.WriteString(`</numFmts>` +
		`<fonts count="2"><font><sz val="10"/><name val="Arial"/></font><font><b/><sz val="10"/><name val="Arial"/></font></fonts>` +
		`<fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>` +
		`<fill><patternFill patternType="solid"><fgColor rgb="FFE6E6E6"/><bgColor indexed="64"/></patternFill></fill></fills>` +
		`<borders count="3"><border><left/><right/><top/><bottom/><diagonal/></border>` +
		`<border><left/><right/><top style="thin"/><bottom/><diagonal/></border>` +
		`<border><left/><right/><top/><bottom style="thin"/><diagonal/></border></borders>` +
		`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>`)
	fmt.Fprintf(&x, `<cellXfs count="%d">`, styleCount)
	for _, l := range looks(b.plan.Measure) {
		fmt.Fprintf(&x, `<xf numFmtId="%d" fontId="%d" fillId="%d" borderId="%d" xfId="0" applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" applyAlignment="1"`,
			l.format, l.font, l.fill, l.border)
		if l.quoted {
			x.WriteString(` quotePrefix="1"`)
		}
		x.WriteString(`>` + l.align + `</xf>`)
	}
	x.WriteString(`</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`)
	return x.String()
}
