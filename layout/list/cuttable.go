package list

import (
	"fmt"

	"setwright/layout/measure"
	"setwright/layout/saw"
)

// cutLine is one part of a pattern that is not cut on.
type cutLine struct {
	plan    *saw.Plan
	pattern *saw.Pattern
	node    *saw.Node
}

// CutTable is the cut list: every pattern part by part in running order, what is
// trimmed off left out.
func CutTable(system measure.System, plans []saw.Plan) *Table {
	var lines []cutLine
	for i := range plans {
		for k := range plans[i].Patterns {
			p := &plans[i].Patterns[k]
			p.Root.Leaves(func(n *saw.Node) {
				if n.Kind != saw.Trim {
					lines = append(lines, cutLine{&plans[i], p, n})
				}
			})
		}
	}
	return tabled("cut", system, cutColumns(), lines)
}

func cutColumns() []column[cutLine] {
	return []column[cutLine]{
		{Column{Name: "stock", Kind: Text}, func(l cutLine) Cell { return text(l.plan.Job.Stock.ID) }},
		{Column{Name: "pattern", Kind: Whole}, func(l cutLine) Cell { return whole(l.pattern.Number) }},
		{Column{Name: "times", Kind: Whole}, func(l cutLine) Cell { return whole(l.pattern.Times) }},
		{Column{Name: "of length", Kind: Length}, func(l cutLine) Cell { return length(l.pattern.Root.Length) }},
		{Column{Name: "of width", Kind: Length}, func(l cutLine) Cell { return known(l.pattern.Root.Width) }},
		{Column{Name: "what", Kind: Word}, func(l cutLine) Cell { return word(l.what()) }},
		{Column{Name: "mark", Kind: Text}, func(l cutLine) Cell { return text(l.mark()) }},
		{Column{Name: "name", Kind: Text, Detail: true}, func(l cutLine) Cell { return text(l.name()) }},
		{Column{Name: "length", Kind: Length}, func(l cutLine) Cell { return length(l.node.Length) }},
		{Column{Name: "width", Kind: Length}, func(l cutLine) Cell { return known(l.node.Width) }},
		{Column{Name: "cut at", Kind: Length}, func(l cutLine) Cell { return length(l.node.X + l.node.Length) }},
		{Column{Name: "rip at", Kind: Length}, func(l cutLine) Cell { return known(l.node.Y + l.node.Width) }},
		{Column{Name: "addresses", Kind: Text}, func(l cutLine) Cell { return joined(l.node.Where) }},
	}
}

func (l cutLine) what() string {
	switch l.node.Kind {
	case saw.Wanted:
		return "piece"
	case saw.Kept:
		return "keep"
	}
	return "waste"
}

// mark is what to write on it.
func (l cutLine) mark() string {
	if l.node.Kind == saw.Wanted {
		return l.plan.Job.Pieces[l.node.Piece].Mark
	}
	return l.node.Name
}

func (l cutLine) name() string {
	if l.node.Kind == saw.Wanted {
		return l.plan.Job.Pieces[l.node.Piece].Name
	}
	return ""
}

// StockTable is what bars or sheets a plan takes.
func StockTable(system measure.System, p *saw.Plan) *Table {
	sum := func(u saw.Use, all bool) Cell {
		one, every, ok := p.Price(u)
		switch {
		case !p.Priced || !ok || u.Bought == 0:
			return Cell{}
		case all:
			return price(every.String())
		}
		return price(one.String())
	}
	return tabled("stock", system, []column[saw.Use]{
		{Column{Name: "length", Kind: Length}, func(u saw.Use) Cell { return length(u.Length) }},
		{Column{Name: "width", Kind: Length}, func(u saw.Use) Cell { return known(u.Width) }},
		{Column{Name: "on hand", Kind: Whole, Total: true}, func(u saw.Use) Cell { return whole(u.OnHand) }},
		{Column{Name: "to buy", Kind: Whole, Total: true}, func(u saw.Use) Cell { return whole(u.Bought) }},
		{Column{Name: "each", Kind: Decimal}, func(u saw.Use) Cell { return sum(u, false) }},
		{Column{Name: "sum", Kind: Decimal}, func(u saw.Use) Cell { return sum(u, true) }},
	}, p.Used)
}

// Verdict says in a sentence how good a plan is: for a terminal, in English.
func Verdict(p *saw.Plan, currency string) string {
	within := "how near to the least is not known"
	switch {
	case p.Proven:
		within = "proven to be the least"
	case p.Over >= 0:
		within = fmt.Sprintf("at most %d.%02d %% over the least", p.Over/100, p.Over%100)
	}
	switch {
	case !p.Buys() && p.Short():
		return "nothing to buy for what can be cut"
	case !p.Buys():
		return "nothing to buy"
	case p.Priced:
		return fmt.Sprintf("to buy: %s%s, %s", currency, p.Cost, within)
	}
	return "cut for the least material, since not all prices are known: " + within
}
