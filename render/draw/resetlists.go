package draw

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/reset"
	"setwright/render/sheet"
)

// Sheets draws all sheets of a reset but the first, in the order a crew needs
// them; none where nothing changes.
func (j *ResetJob) Sheets() []*Page {
	if j.same() {
		return nil
	}
	w := j.Words
	var pages []*Page
	for _, id := range j.faceIDs() {
		pages = append(pages, j.HardwareChange(id)...)
		pages = append(pages, j.GoodsChange(id)...)
	}
	pages = append(pages, j.Steps()...)
	pages = append(pages, j.stockSheet("pull", w.PullSheet, w.PullSheetUnder, w.NothingBack, w.FromHead, j.reset.Pulled(), j.reset.PulledGoods())...)
	pages = append(pages, j.stockSheet("net-pick", w.NetPick, w.NetPickUnder, w.NothingFetched, w.ToHead, j.reset.Fetched(), j.reset.FetchedGoods())...)
	pages = append(pages, j.ordersOf("net-", w.NetBuy)...)
	pages = append(pages, j.cutsOf("net-", "", j.Cuts)...)
	pages = append(pages, j.moves()...)
	pages = append(pages, j.PositionKey()...)
	pages = append(pages, j.SignOff()...)
	unlink(pages)
	return pages
}

// unlink drops links to sheets that a reset does not have.
func unlink(pages []*Page) {
	names := map[string]bool{}
	for _, p := range pages {
		names[p.Sheet.Name] = true
	}
	for _, p := range pages {
		p.Sheet.Items = slices.DeleteFunc(p.Sheet.Items, func(item sheet.Item) bool {
			l, ok := item.(sheet.Link)
			return ok && !names[l.To]
		})
	}
}

// stockSheet draws what goes between unit and stock: hardware in walking order,
// then goods, each line with a box to tick. One without lines says so.
func (j *ResetJob) stockSheet(name, title, under, nothing, where string, hardware []list.PickLine, goods []reset.GoodsLine) []*Page {
	s := &section{job: j.Job, name: name, title: title, under: under}
	f := s.flowFresh()
	if len(hardware)+len(goods) == 0 {
		f.text(nothing, letter(plain), 0)
		return s.pages
	}
	if len(hardware) > 0 {
		f.heading(j.Words.ResetHardware, 14*mm)
		f.table(j.hardwareTable(where, hardware))
		f.skip(5 * mm)
	}
	if len(goods) > 0 {
		f.heading(j.Words.GoodsUnits, 14*mm)
		f.table(j.goodsTable(where, goods))
	}
	return s.pages
}

// hardwareTable lists parts by group, whole packs and what is over; what is cut
// is in none.
func (j *ResetJob) hardwareTable(where string, lines []list.PickLine) table {
	w := j.Words
	t := table{space: tightSpace, columns: []column{{tick: true}, {head: w.Part, flex: 5}, {head: w.Size, flex: 3}, {head: w.Quantity, end: true},
		{head: w.Packs, end: true}, {head: w.SingleHead, end: true}, {head: w.Weight, end: true}, {head: where, flex: 3}}}
	group, pieces, weight := list.Group(""), 0, measure.Mass(0)
	for _, l := range lines {
		if l.Group != group {
			group = l.Group
			t.records = append(t.records, record{group: j.groupName(group)})
		}
		packs, single := "", strconv.Itoa(l.Quantity)
		if n := l.Part.Pack; n > 1 && l.Part.Cut == nil {
			packs, single = whole(l.Quantity, n)
		}
		t.records = append(t.records, record{cells: []string{"", j.partName(l.Part, 0) + "\n" + l.Part.ID, j.pickSize(l), strconv.Itoa(l.Quantity), packs, single,
			j.weight(l.Weight), strings.Join(l.Rows, ", ")}})
		pieces, weight = pieces+l.Quantity, weight+l.Weight
	}
	t.records = append(t.records, record{bold: true, cells: []string{"", w.TogetherHead, "", strconv.Itoa(pieces), "", "", j.mass(weight)}})
	return t
}

// goodsTable lists products, whole cases and what is over.
func (j *ResetJob) goodsTable(where string, lines []reset.GoodsLine) table {
	w := j.Words
	t := table{space: tightSpace, columns: []column{{tick: true}, {head: w.SKU}, {head: w.Product, flex: 5}, {head: w.Units, end: true},
		{head: w.Cases, end: true}, {head: w.SingleHead, end: true}, {head: where, flex: 3}}}
	units := 0
	for _, l := range lines {
		cases, single := "", strconv.Itoa(l.Units)
		if l.Product.Case > 0 {
			cases, single = whole(l.Units, l.Product.Case)
		}
		t.records = append(t.records, record{cells: []string{"", l.Product.SKU, l.Product.Name, strconv.Itoa(l.Units), cases, single, strings.Join(l.Addresses, ", ")}})
		units += l.Units
	}
	t.records = append(t.records, record{bold: true, cells: []string{"", w.TogetherHead, "", strconv.Itoa(units)}})
	return t
}

// whole splits a number into full packs, 3 × 12, and single ones; either is ""
// for none.
func whole(n, pack int) (packs, single string) {
	if n >= pack {
		packs = fmt.Sprintf("%d × %d", n/pack, pack)
	}
	if n%pack > 0 {
		single = strconv.Itoa(n % pack)
	}
	return packs, single
}

// moves draws every product of which anything is handled: from where, to where.
func (j *ResetJob) moves() []*Page {
	at := slices.IndexFunc(j.Lists, func(t *list.Table) bool { return t.Name == "goods" })
	if at < 0 {
		return nil
	}
	w := j.Words
	s := &section{job: j.Job, name: "goods-moves", title: w.GoodsMoves, under: w.GoodsMovesUnder}
	f := s.flowFresh()
	of := j.Lists[at]
	if len(of.Rows) == 0 {
		f.text(w.NoneMoved, letter(plain), 0)
		return s.pages
	}
	heads := map[string]column{
		"mark": {head: w.MarkHead}, "sku": {head: w.SKU}, "name": {head: w.Product, flex: 1}, "from": {head: w.FromHead}, "to": {head: w.ToHead},
		"fronts": {head: w.Facings, end: true}, "units": {head: w.Units, end: true}, "from stock": {head: stacked(w.FetchHead), end: true}, "to stock": {head: stacked(w.BackHead), end: true},
	}
	t := table{space: tightSpace, columns: []column{{tick: true}}}
	for _, c := range of.Columns {
		t.columns = append(t.columns, heads[c.Name])
	}
	for _, row := range of.Rows {
		cells := []string{""}
		for _, c := range row {
			cells = append(cells, j.moveCell(of, c))
		}
		t.records = append(t.records, record{cells: cells})
	}
	f.table(t)
	return s.pages
}

// moveCell is a cell of the goods moves: places are addresses, or the stockroom.
func (j *ResetJob) moveCell(t *list.Table, c list.Cell) string {
	if c.Kind == list.Word && !strings.Contains(c.Text, "-") {
		return j.Words.InStock
	}
	if c.Kind == list.Nothing {
		return ""
	}
	return t.Figure(c)
}
