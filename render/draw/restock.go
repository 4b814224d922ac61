package draw

import (
	"fmt"
	"strconv"
	"strings"

	"setwright/layout/list"
)

// Restock draws the list of what to bring: a line a product, wherever it is.
func (j *Job) Restock() []*Page {
	if len(j.stock) == 0 {
		return nil
	}
	s := &section{job: j, name: "restock", title: j.Words.Restock, under: j.Words.RestockUnder}
	t := table{columns: []column{
		{tick: true}, {head: j.Words.Product, flex: 4}, {head: j.Words.SKU, flex: 2}, {head: j.Words.Where, flex: 3},
		{head: stacked(j.Words.Bring), end: true}, {head: j.Words.Cases, end: true}, {head: stacked(j.Words.LeftOver), end: true},
		{head: stacked(j.Words.FullLook), end: true}, {head: stacked(j.Words.ReorderAt), end: true}, {head: stacked(j.Words.LastsDays), end: true},
	}}
	units, cases := 0, 0
	for _, l := range j.stock {
		t.records = append(t.records, record{cells: j.restockCells(l)})
		units, cases = units+l.Units, cases+l.Cases
	}
	f := s.flowFresh()
	f.table(t)
	f.skip(2 * mm)
	f.text(fmt.Sprintf(j.Words.RestockTotal, len(j.stock), units, cases), letter(plain).strong(), 0)
	return s.pages
}

// stacked is a column's head with every word on a line of its own.
func stacked(head string) string { return strings.ReplaceAll(head, " ", "\n") }

// sizesOf is the sizes of a run in the stacks of all positions of a product,
// from the left, each from the top down.
func sizesOf(l list.StockLine) string {
	var stacks []string
	for _, k := range l.Keys {
		for _, sizes := range k.Position.Stacks() {
			stacks = append(stacks, strings.Join(sizes, ", "))
		}
	}
	return strings.Join(stacks, " | ")
}

func (j *Job) restockCells(l list.StockLine) []string {
	name := l.Product.Name
	if len(l.Product.Sizes) > 0 {
		name += "\n" + fmt.Sprintf(j.Words.Run, sizesOf(l))
	}
	var places []string
	for _, k := range l.Keys {
		places = append(places, k.Position.Address)
	}
	cases, over, days := "", "", ""
	if l.Cases > 0 {
		cases, over = fmt.Sprintf("%d × %d", l.Cases, l.Product.Case), strconv.Itoa(l.Over)
	}
	if l.Days >= 0 {
		days = strconv.Itoa(l.Days)
	}
	return []string{"", name, l.Product.SKU, strings.Join(places, ", "), strconv.Itoa(l.Units), cases, over, strconv.Itoa(l.Look), strconv.Itoa(l.Reorder), days}
}
