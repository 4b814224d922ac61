package draw

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/unit"
	"setwright/render/bars"
	"setwright/render/sheet"
)

// PositionKey draws the key for staff: what goes where, a card a position, by
// face and row in walking order.
func (j *Job) PositionKey() []*Page {
	s := &section{job: j, name: "position-key", title: j.Words.PositionKey, under: j.Words.KeyUnder}
	f := s.flowFresh()
	if len(j.key) == 0 {
		f.text(j.Words.NoGoods, letter(plain), 0)
		return s.pages
	}
	columns := (wide(f.area) + cardGap) / (leastCard + cardGap)
	width := (wide(f.area)+cardGap)/columns - cardGap
	for _, row := range byRow(j.key) {
		cards := make([]card, len(row))
		for i, line := range row {
			cards[i] = j.card(line, width)
		}
		f.rowHeading(row[0], lineHeight(cards, int(columns)))
		f.cards(cards, int(columns))
	}
	return s.pages
}

// byRow splits the key where another row begins.
func byRow(key []list.KeyLine) [][]list.KeyLine {
	var rows [][]list.KeyLine
	for i, line := range key {
		if i == 0 || line.Row != key[i-1].Row {
			rows = append(rows, nil)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], line)
	}
	return rows
}

// rowHeading names the row, and its face where a face begins, over at least
// keep of cards.
func (f *flow) rowHeading(first list.KeyLine, keep measure.Length) {
	j, row := f.section.job, first.Row
	s := letter(plain).strong()
	words := []string{row.Address}
	if row.Declared != nil && row.Declared.Label != "" {
		words = append(words, row.Declared.Label)
	}
	text := strings.Join(append(words, j.partName(row.Part, 0)), " · ")
	keep += s.pitch() * measure.Length(len(wrap(text, s, wide(f.area)))-1)
	if row == first.Face.Rows[firstDressed(first.Face)] {
		f.heading(j.faceName(first.Face.ID), s.pitch()+3*mm+keep)
	}
	f.headed(text, s, keep)
}

// firstDressed is the first row of a face with goods.
func firstDressed(face *unit.Face) int {
	return slices.IndexFunc(face.Rows, func(r *unit.Row) bool { return len(r.Positions) > 0 })
}

const (
	leastCard   = 85 * mm
	cardGap     = 2 * mm
	cardPad     = 1200 * micron
	thumbWidth  = 12 * mm
	thumbHeight = 15 * mm
)

// card is one position of the key, set but not placed.
type card struct {
	line      list.KeyLine
	width     measure.Length
	symbol    bars.Symbol
	barred    bool
	name, sku []string   // their lines
	figures   [][]figure // their lines
	height    measure.Length
}

// figure is a number with its label over it, at its place from the left.
type figure struct {
	label, value string
	left         measure.Length
}

func (j *Job) card(line list.KeyLine, width measure.Length) card {
	p := line.Position
	c := card{line: line, width: width}
	c.symbol, c.barred = j.symbols[p.Product.GTIN]
	room, sku := c.textWidth(), p.Product.SKU
	if p.Product.GTIN != "" && !c.barred {
		sku += "\nGTIN " + p.Product.GTIN
	}
	beside := room - thumbWidth - cardPad
	c.name, c.sku = wrap(p.Product.Name, letter(plain), beside), wrap(sku, letter(fine), beside)
	c.figures = figureLines(room, []figure{
		{label: j.Words.Facings, value: strconv.Itoa(len(p.Fronts))}, {label: j.Words.Units, value: strconv.Itoa(p.Units)},
		{label: j.Words.ReorderAt, value: strconv.Itoa(line.Reorder)}, {label: fmt.Sprintf(j.Words.HeightIn, j.unitName()), value: j.figure(p.Height)},
	})
	c.height = c.upperHeight() + figuresHeight()*measure.Length(len(c.figures))
	if c.barred {
		c.height = max(c.height, fullHeight(c.symbol)+digitsDrop())
	}
	c.height += 2 * cardPad
	return c
}

// textWidth is what a card has left of its bars.
func (c *card) textWidth() measure.Length {
	w := c.width - 2*cardPad
	if c.barred {
		w -= barsWidth(c.symbol)
	}
	return w
}

// upperHeight is what address, name and SKU take, or the thumbnail beside them.
func (c *card) upperHeight() measure.Length {
	text := letter(large).pitch() + letter(plain).pitch()*measure.Length(len(c.name)) + letter(fine).pitch()*measure.Length(len(c.sku))
	return max(thumbHeight, text) + 1*mm
}

func figuresHeight() measure.Length { return letter(fine).pitch() + letter(plain).pitch() }

// figureLines puts figures beside one another, spread over the width, on as
// many lines as it takes.
func figureLines(width measure.Length, all []figure) [][]figure {
	const gap = 1500 * micron
	var lines [][]figure
	used := width
	for _, f := range all {
		w := max(letter(fine).width(f.label), letter(plain).strong().width(f.value))
		if used+gap+w > width {
			lines = append(lines, nil)
			used = -gap
		}
		f.left = used + gap
		used = f.left + w
		lines[len(lines)-1] = append(lines[len(lines)-1], f)
	}
	if len(lines) == 1 {
		spare := (width - used) / measure.Length(len(all))
		for i := range all {
			lines[0][i].left += spare * measure.Length(i)
		}
	}
	return lines
}

// lineHeight is the height of the first line of cards.
func lineHeight(cards []card, columns int) measure.Length {
	h := measure.Length(0)
	for _, c := range cards[:min(columns, len(cards))] {
		h = max(h, c.height)
	}
	return h
}

// cards sets cards side by side, so many on a line.
func (f *flow) cards(cards []card, columns int) {
	for len(cards) > 0 {
		h := lineHeight(cards, columns)
		f.room(h)
		n := min(columns, len(cards))
		x := f.area.Min.X
		for i := range cards[:n] {
			f.page.card(box(x, f.y, x+cards[i].width, f.y+h), &cards[i])
			x += cards[i].width + cardGap
		}
		f.y += h + cardGap
		cards = cards[n:]
	}
}

// card draws a card in its outline; it leads to the drawing of its goods.
func (p *Page) card(r sheet.Rect, c *card) {
	at := c.line.Position
	p.outlineBox(r, pen(thin))
	in := inset(r, cardPad)
	p.thumbnail(sheet.Rect{Min: in.Min, Max: pt(in.Min.X+thumbWidth, in.Min.Y+thumbHeight)}, at.Product)
	x, y := in.Min.X+thumbWidth+cardPad, in.Min.Y
	p.write(x, y+letter(large).rise(), at.Address, letter(large).strong())
	y += letter(large).pitch()
	for _, line := range c.name {
		p.write(x, y+letter(plain).rise(), line, letter(plain))
		y += letter(plain).pitch()
	}
	for _, line := range c.sku {
		p.write(x, y+letter(fine).rise(), line, letter(fine))
		y += letter(fine).pitch()
	}
	p.figures(in.Min.X, in.Max.Y-figuresHeight()*measure.Length(len(c.figures)), c.figures)
	if c.barred {
		p.barcode(in.Max.X-barsWidth(c.symbol), in.Min.Y, fullHeight(c.symbol), c.symbol)
	}
	p.link(r, string(c.line.Face.ID)+"-goods")
}

func (p *Page) figures(x, y measure.Length, lines [][]figure) {
	label, value := letter(fine).pale(), letter(plain).strong()
	for _, line := range lines {
		for _, f := range line {
			p.write(x+f.left, y+label.rise(), f.label, label)
			p.write(x+f.left, y+label.pitch()+value.rise(), f.value, value)
		}
		y += figuresHeight()
	}
}

// thumbnail draws one front of a product as large as it fits: its picture, or
// its proportions in its family's hatch.
func (p *Page) thumbnail(r sheet.Rect, product *goods.Product) {
	w, h := wide(r), wide(r)*product.Height/product.Width
	if h > high(r) {
		w, h = high(r)*product.Width/product.Height, high(r)
	}
	w, h = max(w, 1*mm), max(h, 1*mm)
	x := (r.Min.X + r.Max.X - w) / 2
	front, picture := box(x, r.Min.Y, x+w, r.Min.Y+h), p.job.photo(product)
	p.front(front, p.job.familyOf(product), picture)
	if product.Form == goods.Peg && picture == nil {
		edge, hole, radius := pen(hair), white(), min(800*micron, w/6)
		p.circle((front.Min.X+front.Max.X)/2, front.Min.Y+2*radius, radius, &edge, &hole)
	}
}

// KeyIndex draws the key once more, a line a position: by name, then by SKU.
func (j *Job) KeyIndex() []*Page {
	if len(j.stock) == 0 {
		return nil
	}
	bySKU := slices.Clone(j.stock)
	slices.SortFunc(bySKU, func(a, b list.StockLine) int { return cmp.Compare(a.Product.SKU, b.Product.SKU) })
	name, sku := column{head: j.Words.Product, flex: 3}, column{head: j.Words.SKU, flex: 1}
	pages := j.listed("key-by-name", j.Words.KeyByName, j.stock, name, sku)
	return append(pages, j.listed("key-by-sku", j.Words.KeyBySKU, bySKU, sku, name)...)
}

// listed lists products under two columns of one's choice and what their
// positions hold.
func (j *Job) listed(sheetName, title string, lines []list.StockLine, first, second column) []*Page {
	s := &section{job: j, name: sheetName, title: title, under: j.Words.IndexUnder}
	t := table{height: fine, space: tightSpace, columns: []column{
		first, second, {head: j.Words.Address}, {head: j.Words.Facings, end: true}, {head: j.Words.Units, end: true},
		{head: j.Words.ReorderAt, end: true}, {head: fmt.Sprintf(j.Words.HeightIn, j.unitName()), end: true},
	}}
	for _, l := range lines {
		cells := []string{l.Product.Name, l.Product.SKU, "", "", "", "", ""}
		if second.head == j.Words.Product {
			cells[0], cells[1] = cells[1], cells[0]
		}
		for i, k := range l.Keys {
			p := k.Position
			for n, text := range []string{p.Address, strconv.Itoa(len(p.Fronts)), strconv.Itoa(p.Units), strconv.Itoa(k.Reorder), j.figure(p.Height)} {
				if i > 0 {
					cells[2+n] += "\n"
				}
				cells[2+n] += text
			}
		}
		t.records = append(t.records, record{cells: cells})
	}
	s.flowFresh().table(t)
	return s.pages
}
