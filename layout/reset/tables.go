package reset

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"setwright/layout/buy"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/saw"
	"setwright/layout/unit"
)

// Where pieces and goods come from and go, if that is no row.
const (
	stock  = "stockroom"
	cart   = "cart"
	beside = "beside the unit"
)

// Tables are the reset as tables: its steps (steps), what goes back to stock
// (pull), what is fetched from there (pick), what must be bought of that (buy) and
// how goods move (goods). Where pieces are cut for it, the cut list comes last
// (cut). Cuts and purchase are those of Buying.
func Tables(r *Reset, cuts []saw.Plan, bought buy.Purchase) []*list.Table {
	tables := []*list.Table{
		r.stepTable(),
		r.stockTable("pull", "from", r.Pulled(), r.PulledGoods()),
		r.stockTable("pick", "to", r.Fetched(), r.FetchedGoods()),
		list.BuyTables(r.New, bought)[0],
		r.goodsTable(),
	}
	if len(cuts) > 0 {
		tables = append(tables, list.CutTable(r.New.Plan.Measure, cuts))
	}
	return tables
}

func (r *Reset) table(name string, columns ...list.Column) *list.Table {
	return &list.Table{Name: name, Measure: r.New.Plan.Measure, Currency: r.New.Plan.Currency, Columns: columns}
}

func (r *Reset) stepTable() *list.Table {
	t := r.table("steps", list.Column{Name: "step", Kind: list.Whole}, list.Column{Name: "to do", Kind: list.Word}, list.Column{Name: "what", Kind: list.Text},
		list.Column{Name: "quantity", Kind: list.Whole}, list.Column{Name: "units", Kind: list.Whole, Detail: true},
		list.Column{Name: "from", Kind: list.Word}, list.Column{Name: "to", Kind: list.Word},
		list.Column{Name: "seconds", Kind: list.Whole, Total: true}, list.Column{Name: "people", Kind: list.Whole, Detail: true},
		list.Column{Name: "person", Kind: list.Whole}, list.Column{Name: "wait for", Kind: list.Whole})
	for i := range r.Steps {
		s := &r.Steps[i]
		what, units := s.what()
		t.Rows = append(t.Rows, []list.Cell{whole(s.Number), word(s.Verb.String()), text(what), whole(len(s.Acts)), given(units),
			word(s.from()), word(s.to()), whole(s.Seconds), whole(s.People), given(s.Person), given(s.Wait)})
	}
	return t
}

// String is the verb as the lists have it, in English.
func (v Verb) String() string {
	return [...]string{"take off", "take down", "set aside", "slide along", "move", "hang", "put on", "nudge"}[v]
}

// what is what a step handles, each part or SKU once with how many there are, and
// the units of goods.
func (s *Step) what() (names string, units int) {
	var ids []string
	count := map[string]int{}
	for _, a := range s.Acts {
		id := ""
		if a.Item != nil {
			id = a.Item.Part.ID
		} else {
			id = a.Facing.Product.SKU
			units += a.units()
		}
		if count[id]++; count[id] == 1 {
			ids = append(ids, id)
		}
	}
	for i, id := range ids {
		if count[id] > 1 {
			ids[i] = fmt.Sprintf("%d x %s", count[id], id)
		}
	}
	return strings.Join(ids, ", "), units
}

// units is how many units of goods an act handles.
func (a Act) units() int {
	f := a.Facing
	switch more := f.More(); {
	case a.Verb == Nudge:
		return f.To.Front.Units
	case f.Way == Rehang && a.Verb == TakeOff:
		return f.From.Front.Units
	case f.Way == Rehang:
		return f.To.Front.Units
	default:
		return max(more, -more)
	}
}

// from is the row that a step takes things from, or where else they are.
func (s *Step) from() string {
	if s.From != nil {
		return s.From.Address
	}
	first := s.Acts[0]
	switch {
	case first.Item != nil && first.Item.From != nil:
		return beside
	case first.Item != nil:
		return stock
	case s.Verb == PutOn && slices.ContainsFunc(s.Acts, func(a Act) bool { return a.Facing.Stock < a.units() }):
		return cart
	case s.Verb == PutOn:
		return stock
	}
	return ""
}

// to is the row that a step puts things in, or where else they go.
func (s *Step) to() string {
	if s.To != nil {
		return s.To.Address
	}
	switch {
	case s.Verb == TakeDown:
		return stock
	case s.Verb == SetAside:
		return beside
	case s.Verb == TakeOff && slices.ContainsFunc(s.Acts, func(a Act) bool { return -a.Facing.Stock < a.units() }):
		return cart
	case s.Verb == TakeOff:
		return stock
	}
	return ""
}

// stockTable is what goes back to stock or comes from it: parts in walking order,
// then goods by name. Packs are whole packs of a part and whole cases of goods,
// single what is over. What is cut from stock is in no packs.
func (r *Reset) stockTable(name, where string, hardware []list.PickLine, goods []GoodsLine) *list.Table {
	t := r.table(name, list.Column{Name: "what", Kind: list.Word}, list.Column{Name: "code", Kind: list.Text}, list.Column{Name: "name", Kind: list.Text},
		list.Column{Name: "cut length", Kind: list.Length}, list.Column{Name: "cut width", Kind: list.Length, Detail: true},
		list.Column{Name: "quantity", Kind: list.Whole}, list.Column{Name: "packs", Kind: list.Whole}, list.Column{Name: "pack size", Kind: list.Whole},
		list.Column{Name: "single", Kind: list.Whole}, list.Column{Name: "weight", Kind: list.Mass, Total: true}, list.Column{Name: where, Kind: list.Text})
	for _, l := range hardware {
		size, packs, single := list.Cell{}, list.Cell{}, whole(l.Quantity)
		if n := max(l.Part.Pack, 1); l.Part.Cut == nil && n > 1 {
			size, packs, single = whole(n), given(l.Quantity/n), given(l.Quantity%n)
		}
		long, wide := l.CutTo()
		t.Rows = append(t.Rows, []list.Cell{word("part"), text(l.Part.ID), text(l.Part.Name), length(long), length(wide),
			whole(l.Quantity), packs, size, single, mass(l.Weight), text(strings.Join(l.Rows, ", "))})
	}
	for _, l := range goods {
		cases, single := l.Cases()
		t.Rows = append(t.Rows, []list.Cell{word("goods"), text(l.Product.SKU), text(l.Product.Name), {}, {},
			whole(l.Units), given(cases), given(l.Product.Case), given(single), mass(measure.Mass(l.Units) * l.Product.Weight), text(strings.Join(l.Addresses, ", "))})
	}
	return t
}

// goodsMove is facings of one product that go from one position to another.
type goodsMove struct {
	first   *Facing
	facings int
	units   int // handled
	stock   int // of these, from stock; below zero to stock
}

// goodsTable is every product of which anything is handled, by name and SKU.
func (r *Reset) goodsTable() *list.Table {
	t := r.table("goods", list.Column{Name: "mark", Kind: list.Text}, list.Column{Name: "sku", Kind: list.Text}, list.Column{Name: "name", Kind: list.Text},
		list.Column{Name: "from", Kind: list.Word}, list.Column{Name: "to", Kind: list.Word}, list.Column{Name: "fronts", Kind: list.Whole, Total: true},
		list.Column{Name: "units", Kind: list.Whole}, list.Column{Name: "from stock", Kind: list.Whole, Total: true}, list.Column{Name: "to stock", Kind: list.Whole, Total: true})
	for _, m := range r.goodsMoves() {
		f := m.first
		t.Rows = append(t.Rows, []list.Cell{text(string(f.Way.Mark())), text(f.Product.SKU), text(f.Product.Name), word(addressOf(f.From)), word(addressOf(f.To)),
			whole(m.facings), whole(m.units), given(max(m.stock, 0)), given(max(-m.stock, 0))})
	}
	return t
}

func (r *Reset) goodsMoves() []goodsMove {
	type key struct {
		sku      string
		from, to *unit.Position
		mark     Mark
		in       bool
	}
	at := func(s *Spot) *unit.Position {
		if s == nil {
			return nil
		}
		return s.Position
	}
	var moves []goodsMove
	where := map[key]int{}
	for _, f := range r.Facings {
		if f.Way == Stay && f.More() == 0 {
			continue
		}
		k := key{f.Product.SKU, at(f.From), at(f.To), f.Way.Mark(), f.Stock > 0}
		i, there := where[k]
		if !there {
			i = len(moves)
			where[k] = i
			moves = append(moves, goodsMove{first: f})
		}
		moves[i].facings++
		moves[i].units += f.handled()
		moves[i].stock += f.Stock
	}
	slices.SortStableFunc(moves, func(a, b goodsMove) int {
		return cmp.Or(byName(a.first.Product, b.first.Product), strings.Compare(string(a.first.Way.Mark()), string(b.first.Way.Mark())))
	})
	return moves
}

// handled is how many units of a facing are moved or fetched: of one that stays
// where it is, those that are added or taken off.
func (f *Facing) handled() int {
	switch {
	case f.Way == Stay:
		return max(f.More(), -f.More())
	case f.To != nil:
		return f.To.Front.Units
	}
	return f.From.Front.Units
}

func addressOf(s *Spot) string {
	if s == nil {
		return stock
	}
	return s.Position.Address
}

func text(s string) list.Cell {
	if s == "" {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Text, Text: s}
}

func word(s string) list.Cell {
	if s == "" {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Word, Text: s}
}

func whole(n int) list.Cell { return list.Cell{Kind: list.Whole, N: int64(n)} }

// given is a number of which 0 stands for none.
func given(n int) list.Cell {
	if n == 0 {
		return list.Cell{}
	}
	return whole(n)
}

func length(l measure.Length) list.Cell {
	if l == 0 {
		return list.Cell{}
	}
	return list.Cell{Kind: list.Length, N: int64(l)}
}

func mass(m measure.Mass) list.Cell { return list.Cell{Kind: list.Mass, N: int64(m)} }
