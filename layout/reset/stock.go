package reset

import (
	"cmp"
	"slices"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/list"
	"setwright/layout/parts"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// Pulled is what goes back to stock, as lines of the old unit's pick list, and
// Fetched what comes from there, as lines of the new one's: pieces, with the
// fixings they were or will be put up with. What both would list of one fixing
// is in neither. In a rebuild what differs of the bare unit is among them.
func (r *Reset) Pulled() []list.PickLine {
	pulled, _ := r.net()
	return pulled
}

// Fetched is the other half of Pulled.
func (r *Reset) Fetched() []list.PickLine {
	_, fetched := r.net()
	return fetched
}

// net is the pick lists of what goes and of what comes, less what both have.
// Pieces that hang are paired already; what is left are fixings and, in a rebuild,
// the bare unit.
func (r *Reset) net() (pulled, fetched []list.PickLine) {
	pulled = list.PickOnly(r.Old, r.Rebuild, r.goes())
	fetched = list.PickOnly(r.New, r.Rebuild, r.comes())
	for i := range fetched {
		b := &fetched[i]
		if b.Group != list.Structure && b.Part.Kind != parts.Fixing {
			continue
		}
		k := slices.IndexFunc(pulled, func(a list.PickLine) bool { return a.Part.ID == b.Part.ID && bareUnlike(a.Part, b.Part) == nil })
		if k < 0 {
			continue
		}
		both := min(b.Quantity, pulled[k].Quantity)
		pulled[k], *b = pulled[k].Less(both), b.Less(both)
	}
	none := func(l list.PickLine) bool { return l.Quantity == 0 }
	return slices.DeleteFunc(pulled, none), slices.DeleteFunc(fetched, none)
}

// goes is true of the old unit's pieces that go back to stock.
func (r *Reset) goes() func(*unit.Piece) bool {
	set := map[*unit.Piece]bool{}
	for _, it := range r.Items {
		if it.Way == Return {
			set[it.From.Piece] = true
		}
	}
	return func(p *unit.Piece) bool { return set[p] }
}

// comes is true of the new unit's pieces that come from stock.
func (r *Reset) comes() func(*unit.Piece) bool {
	set := map[*unit.Piece]bool{}
	for _, it := range r.Items {
		if it.Way == Fetch {
			set[it.To.Piece] = true
		}
	}
	return func(p *unit.Piece) bool { return set[p] }
}

// Buying is how the pieces that are fetched and cut from stock are sawn, and what
// must be bought of what is fetched, with so much on hand besides what hangs on
// the unit. Pieces that are pulled count by being used again, at the length they
// have: what is fetched is what they do not cover, and no strip is sawn from a
// longer one. As for a whole unit, there is no purchase where nothing says what is
// on hand and nothing has a price. Findings of no supplier and no part name no
// place.
func (r *Reset) Buying(hand []parts.OnHand) ([]saw.Plan, buy.Purchase, []diag.Finding) {
	fetched, system := r.Fetched(), r.New.Plan.Measure
	cuts, found := list.CutsOnly(r.New, fetched, hand, r.comes())
	items := list.Items(r.New, fetched, cuts, hand)
	stocked := len(hand) > 0 || len(r.New.Plan.StockFiles) > 0
	if !stocked && !slices.ContainsFunc(items, func(i buy.Item) bool { return len(i.Buying.Packs) > 0 }) {
		return cuts, buy.Purchase{}, found
	}
	bought, more := buy.Plan(items, r.New.Parts, system)
	if found = append(found, more...); stocked {
		found = append(found, bought.Shortage(system)...)
	}
	return cuts, bought, found
}

// GoodsLine is the units of one product that go back to stock or come from it.
type GoodsLine struct {
	Product   *goods.Product
	Units     int
	Addresses []string // where they come off, or where they go
}

// Cases is how many whole cases the units are, and how many single units remain.
// All are single where the size of a case is not known.
func (l GoodsLine) Cases() (cases, single int) {
	if l.Product.Case == 0 {
		return 0, l.Units
	}
	return l.Units / l.Product.Case, l.Units % l.Product.Case
}

// PulledGoods is the units that go back to stock, by name and SKU.
func (r *Reset) PulledGoods() []GoodsLine {
	return r.goodsLines(func(f *Facing) (int, *Spot) { return -f.Stock, f.From })
}

// FetchedGoods is the units that come from stock, by name and SKU.
func (r *Reset) FetchedGoods() []GoodsLine {
	return r.goodsLines(func(f *Facing) (int, *Spot) { return f.Stock, f.To })
}

func (r *Reset) goodsLines(of func(*Facing) (units int, at *Spot)) []GoodsLine {
	var lines []GoodsLine
	where := map[string]int{}
	for _, f := range r.Facings {
		units, spot := of(f)
		if units <= 0 {
			continue
		}
		i, there := where[f.Product.SKU]
		if !there {
			i = len(lines)
			where[f.Product.SKU] = i
			lines = append(lines, GoodsLine{Product: f.Product})
		}
		l := &lines[i]
		l.Units += units
		if a := spot.Position.Address; !slices.Contains(l.Addresses, a) {
			l.Addresses = append(l.Addresses, a)
		}
	}
	slices.SortFunc(lines, func(a, b GoodsLine) int { return byName(a.Product, b.Product) })
	return lines
}

func byName(a, b *goods.Product) int {
	return cmp.Or(cmp.Compare(a.Name, b.Name), cmp.Compare(a.SKU, b.SKU))
}
