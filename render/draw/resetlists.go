package draw

import (
	"slices"

	"setwright/layout/list"
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
	pages = append(pages, j.list("pull", w.PullSheet, w.PullSheetUnder, w.NothingBack)...)
	pages = append(pages, j.list("pick", w.NetPick, w.NetPickUnder, w.NothingFetched)...)
	pages = append(pages, j.ordersOf("net-", w.NetBuy)...)
	pages = append(pages, j.cutsOf("net-", "", j.Cuts)...)
	pages = append(pages, j.list("goods", w.GoodsMoves, w.GoodsMovesUnder, w.NoneMoved)...)
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

// list draws one of the reset's tables with a box to tick before each line. An
// empty one says so in a line.
func (j *ResetJob) list(name, title, under, nothing string) []*Page {
	at := slices.IndexFunc(j.Lists, func(t *list.Table) bool { return t.Name == name })
	if at < 0 {
		return nil
	}
	s := &section{job: j.Job, name: name, title: title, under: under}
	f := s.flowFresh()
	if of := j.Lists[at]; len(of.Rows) == 0 {
		f.text(nothing, letter(plain), 0)
	} else {
		t := j.tabled(of)
		if t.heightIn(wide(f.area)) > f.left() {
			t.space = tightSpace
		}
		f.table(t)
	}
	return s.pages
}

// tabled is a list as a table of a sheet, without the columns that are left out
// where room is short.
func (j *ResetJob) tabled(of *list.Table) table {
	t := table{columns: []column{{tick: true}}}
	for _, c := range of.Columns {
		if c.Detail {
			continue
		}
		head := j.Words.ListWord(c.Name)
		if unit := of.Unit(c); unit != "" {
			head += " (" + unit + ")"
		}
		col := column{head: head, end: true}
		if c.Kind == list.Text || c.Kind == list.Word {
			col.end, col.flex = false, 1
		} else {
			col.head = stacked(head)
		}
		t.columns = append(t.columns, col)
	}
	for _, row := range of.Rows {
		cells := []string{""}
		for i, c := range of.Columns {
			if !c.Detail {
				cells = append(cells, j.cellText(of, row[i]))
			}
		}
		t.records = append(t.records, record{cells: cells})
	}
	return t
}

// cellText is a cell as the plan's language writes it.
func (j *ResetJob) cellText(t *list.Table, c list.Cell) string {
	switch c.Kind {
	case list.Nothing:
		return ""
	case list.Text:
		return c.Text
	case list.Word:
		return j.Words.ListWord(c.Text)
	}
	return j.Words.Decimal(t.Figure(c))
}
