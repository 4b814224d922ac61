package xlsx

import (
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"setwright/layout/list"
)

// Widths of columns, in figures of the body's font: the widest that is not
// wrapped, and the room beside a cell's text and beside a head's filter button.
const (
	widest    = 48
	cellRoom  = 2
	headRoom  = 4
	narrowest = 6
)

// sheet is the worksheet of one table: heads, rows, sums.
func (b *book) sheet(t *list.Table) string {
	var x strings.Builder
	x.WriteString(`<worksheet xmlns="` + sheetNS + `"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>` +
		`<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/>` +
		`<selection pane="bottomLeft"/></sheetView></sheetViews>`)
	x.WriteString(`<cols>`)
	for i := range t.Columns {
		fmt.Fprintf(&x, `<col min="%d" max="%d" width="%d" customWidth="1"/>`, i+1, i+1, b.width(t, i))
	}
	x.WriteString(`</cols><sheetData>`)
	b.heads(&x, t)
	for i, row := range t.Rows {
		fmt.Fprintf(&x, `<row r="%d">`, i+2)
		for n, c := range row {
			b.cell(&x, t, reference(n, i+2), c)
		}
		x.WriteString(`</row>`)
	}
	if len(t.Rows) > 0 {
		b.sums(&x, t)
	}
	body := strings.ReplaceAll(absolute(t), "$", "")
	fmt.Fprintf(&x, `</sheetData><autoFilter ref="%s"/>%s`, body, b.print())
	// A GTIN is digits and still a text: not a slip to be pointed out.
	fmt.Fprintf(&x, `<ignoredErrors><ignoredError sqref="%s" numberStoredAsText="1"/></ignoredErrors>`, body)
	return x.String() + `</worksheet>`
}

func (b *book) heads(x *strings.Builder, t *list.Table) {
	x.WriteString(`<row r="1">`)
	for i, c := range t.Columns {
		look := headEnd
		if c.Kind == list.Text || c.Kind == list.Word {
			look = headStyle
		}
		writeText(x, reference(i, 1), look, b.head(t, c))
	}
	x.WriteString(`</row>`)
}

// head is a column's head in the plan's language, with its unit.
func (b *book) head(t *list.Table, c list.Column) string {
	head := b.words.ListWord(c.Name)
	switch unit := t.Unit(c); unit {
	case "":
		return head
	case "in":
		return head + " (" + b.words.Inch + ")"
	default:
		return head + " (" + unit + ")"
	}
}

// cell writes one cell of the body; one without a value is not written.
func (b *book) cell(x *strings.Builder, t *list.Table, at string, c list.Cell) {
	look := styleOf(t, c)
	switch c.Kind {
	case list.Nothing:
	case list.Text:
		writeText(x, at, look, c.Text)
	case list.Word:
		writeText(x, at, look, b.words.ListWord(c.Text))
	default:
		fmt.Fprintf(x, `<c r="%s" s="%d"><v>%s</v></c>`, at, look, t.Number(c))
	}
}

// sums writes the line under the body: of each column whose sum means something,
// the sum of the rows that the filter leaves.
func (b *book) sums(x *strings.Builder, t *list.Table) {
	last := len(t.Rows) + 1
	fmt.Fprintf(x, `<row r="%d">`, last+1)
	for i, c := range t.Columns {
		at := reference(i, last+1)
		switch {
		case c.Total:
			look := allWhole
			if c.Kind == list.Mass {
				look = allMass
			}
			// Function 109 is SUM of what is not hidden.
			fmt.Fprintf(x, `<c r="%s" s="%d"><f>SUBTOTAL(109,%s:%s)</f><v>%s</v></c>`,
				at, look, reference(i, 2), reference(i, last), t.Number(t.Sum(i)))
		case i == 0:
			writeText(x, at, allStyle, b.words.ListWord("all"))
		default:
			fmt.Fprintf(x, `<c r="%s" s="%d"/>`, at, allStyle)
		}
	}
	x.WriteString(`</row>`)
}

// width fits a column to its head and cells.
func (b *book) width(t *list.Table, column int) int {
	w := max(narrowest, utf8.RuneCountInString(b.head(t, t.Columns[column]))+headRoom)
	for _, row := range t.Rows {
		text := t.Figure(row[column])
		if row[column].Kind == list.Word {
			text = b.words.ListWord(text)
		}
		w = max(w, min(widest, utf8.RuneCountInString(text)+cellRoom))
	}
	return w
}

// print is how the sheet is printed: on the plan's paper, lying, as wide as the
// page, with the plan's title, revision and mark on every one.
func (b *book) print() string {
	// Sizes of paper by number, from ECMA-376, part 1, pageSetup.
	sizes := map[string]int{"letter": 1, "tabloid": 3, "a3": 8, "a4": 9}
	middle := ""
	if b.o.Stopped {
		middle = "&C" + code(b.words.NotForConstruction)
	}
	head := "&L" + code(spaced(b.plan.Title, b.plan.Season)) + middle + "&R" + code(spaced(b.plan.Revision, b.plan.Date))
	foot := "&L" + code(b.o.Fingerprint) + "&C&A&R&P / &N"
	return `<pageMargins left="0.5" right="0.5" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>` +
		fmt.Sprintf(`<pageSetup paperSize="%d" orientation="landscape" fitToWidth="1" fitToHeight="0"/>`, sizes[b.plan.Paper]) +
		`<headerFooter><oddHeader>` + escape(head) + `</oddHeader><oddFooter>` + escape(foot) + `</oddFooter></headerFooter>`
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

// writeText writes a cell of text, cut short where a spreadsheet would refuse
// the workbook: only the addresses of a product in thousands of places are that
// long.
func writeText(x *strings.Builder, at string, look style, text string) {
	const most = 32_767 // UTF-16 units (Excel specifications and limits, from memory)
	if units := utf16.Encode([]rune(text)); len(units) > most {
		text = string(utf16.Decode(units[:most-1])) + "…"
	}
	fmt.Fprintf(x, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, at, look, escape(literal(text)))
}

// literal keeps a text from being read as one with escapes: _x0041_ would be
// taken for A, so its first underscore is written as _x005F_ (ECMA-376, part 1,
// ST_Xstring). One such may begin with the underscore that ends another.
func literal(text string) string {
	const length = len("_x0041_")
	var b strings.Builder
	for i := range len(text) {
		if i+length <= len(text) && looksEscaped(text[i:i+length]) {
			b.WriteString("_x005F")
		}
		b.WriteByte(text[i])
	}
	return b.String()
}

func looksEscaped(s string) bool {
	return strings.HasPrefix(s, "_x") && s[6] == '_' && strings.Trim(s[2:6], "0123456789ABCDEFabcdef") == ""
}

// reference is a cell by its column, from 0, and its row, from 1: B7.
func reference(column, row int) string { return letters(column) + fmt.Sprint(row) }

// letters is the name of a column, from 0: A to Z, AA and so on.
func letters(column int) string {
	name := string(rune('A' + column%26))
	if column >= 26 {
		return letters(column/26-1) + name
	}
	return name
}

// absolute is the range of a table's heads and body: $A$1:$J$12.
func absolute(t *list.Table) string {
	return fmt.Sprintf("$A$1:$%s$%d", letters(len(t.Columns)-1), len(t.Rows)+1)
}
