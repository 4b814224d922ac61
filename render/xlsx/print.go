package xlsx

import (
	"errors"
	"strings"

	"github.com/xuri/excelize/v2"
)

// print is how a sheet is printed: on the plan's paper, lying, as wide as the
// page, the heads repeated on every page, with the plan's title, revision and
// mark.
func (b *book) print(name string) error {
	// Sizes of paper by number, from ECMA-376, part 1, pageSetup.
	sizes := map[string]int{"letter": 1, "tabloid": 3, "a3": 8, "a4": 9}
	middle := ""
	if b.o.Stopped {
		middle = "&C" + code(b.words.NotForConstruction)
	}
	return errors.Join(
		b.file.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: new(true)}),
		b.file.SetPageLayout(name, &excelize.PageLayoutOptions{
			Size: new(sizes[b.plan.Paper]), Orientation: new("landscape"), FitToWidth: new(1), FitToHeight: new(0)}),
		b.file.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{
			Left: new(0.5), Right: new(0.5), Top: new(0.75), Bottom: new(0.75), Header: new(0.3), Footer: new(0.3)}),
		b.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{
			OddHeader: "&L" + code(spaced(b.plan.Title, b.plan.Season)) + middle + "&R" + code(spaced(b.plan.Revision, b.plan.Date)),
			OddFooter: "&L" + code(b.o.Fingerprint) + "&C&A&R&P / &N"}),
		b.file.SetDefinedName(&excelize.DefinedName{
			Name: "_xlnm.Print_Titles", RefersTo: "'" + name + "'!$1:$1", Scope: name}))
}

// code is a text among the codes of a header, which may be 255 long in all.
func code(text string) string {
	const most = 40
	if runes := []rune(text); len(runes) > most {
		text = string(runes[:most-1]) + "…"
	}
	return strings.ReplaceAll(text, "&", "&&")
}

// spaced joins what there is.
func spaced(words ...string) string {
	return strings.TrimSpace(strings.Join(words, "  "))
}
