package kit

import (
	"slices"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/saw"
	"setwright/layout/solve"
)

// buyer buys season by season. It fills in what comes of each line.
type buyer struct {
	lines  []Line
	list   *parts.List
	system measure.System   // in which sizes of stock are written
	stock  []parts.OnHand   // what there is to cut from at the time
	ahead  map[string][]int // by supplier, up to which season an order buys; one that is not there buys for its own
	plans  [][][]int        // by line and season, the packs to buy; nil while it is not worked out
}

func newBuyer(lines []Line, list *parts.List, system measure.System, hand []parts.OnHand) *buyer {
	b := &buyer{lines: lines, list: list, system: system, ahead: map[string][]int{}, plans: make([][][]int, len(lines))}
	for _, h := range hand {
		if h.Stock != nil {
			b.stock = append(b.stock, h)
		}
	}
	return b
}

// year makes the changes of all seasons.
func (b *buyer) year(seasons []Season) ([]Change, []diag.Finding) {
	var changes []Change
	var found []diag.Finding
	for t := range seasons {
		change, more := b.change(t)
		changes = append(changes, change)
		found = append(found, said(&seasons[t], more, true)...)
	}
	return changes, found
}

// change buys and cuts what a season needs, those before it being done.
func (b *buyer) change(season int) (Change, []diag.Finding) {
	wanted, needed := make([]int, len(b.lines)), make([]int, len(b.lines))
	for i := range b.lines {
		if wanted[i] = b.wanted(i, season); wanted[i] > 0 {
			needed[i] = b.lines[i].Owned(season) + wanted[i]
		}
	}
	change, found := b.order(season, season, needed)
	for i := range b.lines {
		if b.lines[i].Come[season] != wanted[i] {
			b.plans[i] = nil // a pack more was taken: the seasons to come need less
		}
	}
	return change, found
}

// wanted is how many pieces of a line are to come before a season.
func (b *buyer) wanted(i, season int) int {
	l := &b.lines[i]
	need := l.missing()
	if l.Part.Cut != nil {
		return max(0, need[season]-sum(l.Come[:season]))
	}
	if b.plans[i] == nil {
		if last := b.ahead[l.Part.Buy.Supplier]; last != nil {
			for t := range need {
				need[t] = need[last[t]]
			}
		}
		come := sum(l.Come[:season])
		for t := range need {
			need[t] = max(0, need[t]-come)
		}
		b.plans[i] = append(make([][]int, season), l.lots(need[season:])...)
	}
	pieces := 0
	for size, n := range b.plans[i][season] {
		pieces += n * packsOf(l.Part)[size].Pieces
	}
	return pieces
}

// lots is which packs of a line to buy before which season.
func (l *Line) lots(need []int) [][]int {
	return solve.Lots{Need: need, Packs: packsOf(l.Part), Least: l.Part.Buy.Minimum}.Solve()
}

// packsOf is a part's packs; where no price is known, its usual pack, with its
// pieces as the price.
func packsOf(p *parts.Part) []solve.Pack {
	if len(p.Buy.Packs) == 0 {
		n := max(p.Buy.Usual, 1)
		return []solve.Pack{{Pieces: n, Price: int64(n)}}
	}
	return buy.Packs(p.Buy)
}

// all is the purchase if all that is ever missing is bought before the first
// season. What is there already is among what it holds.
func (b *buyer) all() (buy.Purchase, []diag.Finding) {
	needed := make([]int, len(b.lines))
	b.lines = slices.Clone(b.lines)
	for i := range b.lines {
		l := &b.lines[i]
		needed[i], l.Come = l.Most(), make([]int, len(l.Used))
	}
	change, found := b.order(0, len(b.lines[0].Used)-1, needed)
	return change.Purchase, found
}

// order buys and cuts before a season, until there are so many pieces of each
// line; lines that need none are left out. It is for the seasons up to one.
func (b *buyer) order(season, upTo int, needed []int) (Change, []diag.Finding) {
	var items []buy.Item
	missing := make([]int, len(b.lines)) // of what is cut
	for i := range b.lines {
		l := &b.lines[i]
		owned := l.Owned(season)
		switch {
		case needed[i] == 0:
		case l.Part.Cut == nil:
			items = append(items, buy.Item{ID: l.Part.ID, Name: l.Part.Name, Buying: l.Part.Buy, Needed: needed[i], OnHand: owned})
		default:
			missing[i] = max(0, needed[i]-owned)
			l.Come[season] = missing[i]
		}
	}
	cuts, found := b.saw(missing)
	for i := range cuts {
		items = append(items, list.StockItems(&cuts[i])...)
		b.lack(season, &cuts[i])
	}
	purchase, more := buy.Plan(items, b.list, b.system)
	for _, o := range purchase.Orders {
		for i := range o.Lines {
			b.receive(season, upTo, &o.Lines[i])
		}
	}
	return Change{cuts, purchase}, append(found, more...)
}

// receive puts what was bought into the stockroom. A part was ordered up to a
// number that may serve later seasons too; what its line says is needed is what
// is needed up to the last season it is for, the rest is spare.
func (b *buyer) receive(season, upTo int, bought *buy.Line) {
	if bought.Stock() {
		b.receiveStock(bought)
		return
	}
	for i := range b.lines {
		if l := &b.lines[i]; l.Part.ID == bought.ID && l.Part.Cut == nil {
			l.Come[season] = bought.Pieces
			if last := b.ahead[l.Part.Buy.Supplier]; last != nil {
				upTo = max(upTo, last[season])
			}
			bought.Needed = slices.Max(l.Used[:upTo+1])
			bought.Short = max(0, bought.Needed-bought.OnHand)
			bought.Spare = bought.OnHand + bought.Pieces - bought.Needed
		}
	}
}

// lack takes back what could not be cut.
func (b *buyer) lack(season int, p *saw.Plan) {
	for i, n := range p.Missing {
		for k := range b.lines {
			if b.lines[k].mark() == p.Job.Pieces[i].Mark {
				b.lines[k].Come[season] -= n
			}
		}
	}
}
