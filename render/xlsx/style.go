package xlsx

import (
	"strings"

	"github.com/xuri/excelize/v2"

	"setwright/layout/list"
	"setwright/layout/measure"
)

// style is the look of a cell.
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
	allMoney
	styleCount
)

// Formats of numbers that every spreadsheet has by number (ECMA-376, part 1,
// numFmt).
const (
	wholeFormat = 1  // 0
	twoPlaces   = 2  // 0.00
	textFormat  = 49 // @
)

// looks are what the styles are made of. Weights have the decimals the sheets
// give them, lengths are whole millimetres or inches to the nearest sixteenth.
func looks(system measure.System) [styleCount]excelize.Style {
	own := func(code string) excelize.Style { return excelize.Style{CustomNumFmt: &code} }
	whole := excelize.Style{NumFmt: wholeFormat}
	mass, length, about := own("0.0"), own("# ??/??"), own(`"≈"# ??/16`)
	if system == measure.Millimetres {
		mass, length, about = excelize.Style{NumFmt: twoPlaces}, whole, whole
	}
	body := func(s excelize.Style) excelize.Style {
		s.Font = &excelize.Font{Family: "Arial", Size: 10}
		s.Alignment = &excelize.Alignment{Vertical: "top", WrapText: s.NumFmt == textFormat}
		return s
	}
	bold := func(s excelize.Style, lined string) excelize.Style {
		s.Font = &excelize.Font{Family: "Arial", Size: 10, Bold: true}
		s.Border = []excelize.Border{{Type: lined, Style: 1, Color: "000000"}}
		return s
	}
	head := bold(excelize.Style{Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"E6E6E6"}}}, "bottom")
	end := head
	end.Alignment = &excelize.Alignment{Horizontal: "right"}
	text := body(excelize.Style{NumFmt: textFormat})
	return [styleCount]excelize.Style{
		headStyle:    head,
		headEnd:      end,
		textStyle:    text,
		quotedStyle:  text,
		wholeStyle:   body(whole),
		decimalStyle: body(excelize.Style{NumFmt: twoPlaces}),
		lengthStyle:  body(length),
		aboutStyle:   body(about),
		massStyle:    body(mass),
		allStyle:     bold(excelize.Style{}, "top"),
		allWhole:     bold(whole, "top"),
		allMass:      bold(mass, "top"),
		allMoney:     bold(excelize.Style{NumFmt: twoPlaces}, "top"),
	}
}

// makeStyles puts every look into the workbook.
func (b *book) makeStyles() error {
	for s, look := range looks(b.plan.Measure) {
		if style(s) == quotedStyle {
			b.styles[s] = b.quoted(b.styles[textStyle])
			continue
		}
		var err error
		if b.styles[s], err = b.file.NewStyle(&look); err != nil {
			return err
		}
	}
	return nil
}

// quoted is a style with the mark of text that stays text however it begins,
// which the library can write but not set.
func (b *book) quoted(index int) int {
	formats := b.file.Styles.CellXfs
	format := formats.Xf[index]
	format.QuotePrefix = new(true)
	formats.Xf = append(formats.Xf, format)
	formats.Count = len(formats.Xf)
	return formats.Count - 1
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
	case list.Decimal, list.Money:
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

// sumStyle is the look of the sum under a column.
func sumStyle(kind list.Kind) style {
	switch kind {
	case list.Mass:
		return allMass
	case list.Money:
		return allMoney
	}
	return allWhole
}
