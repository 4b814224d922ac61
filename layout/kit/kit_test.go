package kit

import (
	"fmt"
	"math/rand"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

// wall is a slatwall plan with so many hooks of each length and shelves with
// ticket strips.
type wall struct {
	title, season string
	hooks         map[string]int // by part
	shelves       int
	more          string // lines of the plan's head
}

func (w wall) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "plan: 1\ntitle: %s\n", w.title)
	if w.season != "" {
		fmt.Fprintf(&b, "season: %s\n", w.season)
	}
	b.WriteString(w.more)
	b.WriteString("unit: {frame: wall-run, bays: 2, stand: fixed, panels: {front: slat-24x96}}\ndress:\n  front:\n")
	for _, id := range []string{"hook-2-slat", "hook-6-slat"} {
		for n := w.hooks[id]; n > 0; n -= 10 {
			fmt.Fprintf(&b, "    - {use: %s, bay: 1, count: %d}\n", id, min(n, 10))
		}
	}
	if len(w.hooks)+w.shelves == 0 {
		b.WriteString("    - {use: hook-2-slat, count: 1}\n")
	}
	for range w.shelves {
		b.WriteString("    - {use: shelf-24x12, bay: 2, count: 1, with: [strip-ticket]}\n")
	}
	return b.String()
}

// read makes seasons of walls, with a house's parts list over their own.
func read(t testing.TB, house string, walls ...wall) []Season {
	t.Helper()
	reader := layout.NewReader()
	if house != "" {
		reader = reader.Over("./house.yaml", []byte(house))
	}
	seasons := make([]Season, len(walls))
	for i, w := range walls {
		file := fmt.Sprintf("plan-%d.yaml", i+1)
		p := reader.Parse(fstest.MapFS{}, file, []byte(w.text()))
		if p.Unit == nil {
			var said strings.Builder
			p.Findings.WriteText(&said)
			t.Fatalf("plan %d:\n%s%s", i+1, w.text(), said.String())
		}
		seasons[i] = Season{File: file, Mark: p.Fingerprint, Unit: p.Unit}
	}
	return seasons
}

// hand is so many pieces on hand, by part.
func hand(s []Season, pieces map[string]int) []parts.OnHand {
	var list []parts.OnHand
	for _, id := range []string{"hook-2-slat", "hook-6-slat", "shelf-24x12"} {
		if p, ok := s[0].Unit.Parts.Find(id); ok && pieces[id] > 0 {
			list = append(list, parts.OnHand{Part: p, Count: pieces[id]})
		}
	}
	return list
}

func lineOf(t testing.TB, k *Kit, id string) *Line {
	t.Helper()
	for i := range k.Lines {
		if k.Lines[i].Part.ID == id {
			return &k.Lines[i]
		}
	}
	t.Fatalf("no %s in the kit", id)
	return nil
}

const prices = `
suppliers:
  fernhill: {name: Fernhill Fittings, freight: 12}
  oakbeck: {name: Oakbeck Boards, minimum: 50}
stock:
  strip-ticket: {name: Ticket strip, kerf: 1/8, keep: 12, bars: [{length: 96, price: 4.25}]}
parts:
  hook-2-slat: {supplier: fernhill, packs: [{pieces: 5, price: 6}, {pieces: 25, price: 20}]}
  hook-6-slat: {supplier: fernhill, packs: [{pieces: 1, price: 2.20}, {pieces: 10, price: 15}]}
  shelf-24x12: {pack: 1, supplier: oakbeck, price: 14.50}
  bracket-12-slat: {pack: 2, supplier: oakbeck, price: 5}
  wall-run: {supplier: oakbeck, price: 60}
  slat-24x96: {pack: 1, supplier: oakbeck, price: 45}
`

// anySum is the price list of suppliers that deliver however little.
func anySum(house string) string { return strings.ReplaceAll(house, ", minimum: 50", "") }

func TestKit(t *testing.T) {
	spring := wall{title: "Spring", hooks: map[string]int{"hook-2-slat": 4, "hook-6-slat": 6}}
	summer := wall{title: "Summer", hooks: map[string]int{"hook-6-slat": 14}}
	autumn := wall{title: "Autumn", hooks: map[string]int{"hook-2-slat": 7, "hook-6-slat": 2}, shelves: 2}
	for _, c := range []struct {
		walls      []wall
		hand       map[string]int
		id         string
		come, idle []int
		reason     string
	}{
		{[]wall{spring}, nil, "hook-6-slat", []int{6}, []int{0}, "one season: what it needs, singly since that is cheaper than a pack"},
		{[]wall{spring, summer}, nil, "hook-6-slat", []int{10, 4}, []int{4, 0}, "the most at once: the pack first, for one is needed anyhow"},
		{[]wall{summer, spring}, nil, "hook-6-slat", []int{14, 0}, []int{0, 8}, "what fewer are needed of later lies idle"},
		{[]wall{spring, spring}, nil, "hook-2-slat", []int{5, 0}, []int{1, 1}, "the same plan again needs nothing"},
		{[]wall{spring, autumn}, nil, "hook-2-slat", []int{5, 5}, []int{1, 3}, "a small pack each time is cheaper than the large one"},
		{[]wall{spring, summer}, map[string]int{"hook-6-slat": 13}, "hook-6-slat", []int{0, 1}, []int{7, 0}, "what is on hand is used first"},
		{[]wall{spring, autumn}, nil, "bracket-12-slat", []int{0, 4}, []int{0, 0}, "a part of one season alone comes for it"},
		{[]wall{spring, autumn, summer}, nil, "strip-ticket", []int{0, 2, 0}, []int{0, 0, 2}, "what is cut stays too"},
	} {
		seasons := Named(read(t, anySum(prices), c.walls...))
		k, _ := Make(seasons, hand(seasons, c.hand))
		l := lineOf(t, k, c.id)
		var idle []int
		for season := range c.walls {
			idle = append(idle, l.Idle(season))
		}
		if !slices.Equal(l.Come, c.come) || !slices.Equal(idle, c.idle) {
			t.Errorf("%s: %s comes %v, idle %v; want %v, %v", c.reason, c.id, l.Come, idle, c.come, c.idle)
		}
	}
}

// TestOrdersLookAhead: a supplier that does not deliver so little is sent what
// later seasons need, not what nobody does.
func TestOrdersLookAhead(t *testing.T) {
	first := wall{title: "First", shelves: 4}
	second := wall{title: "Second", shelves: 5}
	third := wall{title: "Third", shelves: 7}
	seasons := Named(read(t, prices, first, second, third))
	k, found := Make(seasons, nil)
	if shelf := lineOf(t, k, "shelf-24x12"); !slices.Equal(shelf.Come, []int{4, 3, 0}) {
		t.Errorf("shelves come %v: one shelf and its brackets are under the minimum, those of both seasons are not", shelf.Come)
	}
	for _, f := range found {
		if f.Code == "order-filled-up" {
			t.Errorf("an order is filled up all the same: %s", f.Message)
		}
	}
	orders := k.Changes[1].Purchase.Orders
	if len(orders) != 1 || orders[0].Lines[0].Needed != 14 || orders[0].Lines[0].Spare != 0 {
		t.Errorf("the order says %+v: it is for both seasons, and says what both need", orders)
	}
}

// TestOrdersWithoutAPrice: a supplier's minimum and a part of which no price is
// known do not go together; nothing is filled up for it, and nothing fails.
func TestOrdersWithoutAPrice(t *testing.T) {
	house := strings.Replace(prices, "bracket-12-slat: {pack: 2, supplier: oakbeck, price: 5}", "bracket-12-slat: {pack: 2, supplier: oakbeck}", 1)
	seasons := Named(read(t, house, wall{title: "First", hooks: map[string]int{"hook-6-slat": 2}}, wall{title: "Second", shelves: 1}, wall{title: "Third", shelves: 7}))
	hand := hand(seasons, map[string]int{"shelf-24x12": 1})
	k, _ := Make(seasons, hand)
	if shelf, bracket := lineOf(t, k, "shelf-24x12"), lineOf(t, k, "bracket-12-slat"); !slices.Equal(shelf.Come, []int{0, 0, 6}) || !slices.Equal(bracket.Come, []int{0, 2, 12}) {
		t.Errorf("shelves come %v, brackets %v", shelf.Come, bracket.Come)
	}
}

// TestOffCutsStay: strips of the second season come out of the bar that the
// first has begun.
func TestOffCutsStay(t *testing.T) {
	seasons := Named(read(t, prices, wall{title: "First", shelves: 1}, wall{title: "Second", shelves: 3}))
	k, _ := Make(seasons, nil)
	names := map[string]bool{}
	for season, want := range []int{1, 0} {
		bars := 0
		for i := range k.Changes[season].Cuts {
			for _, o := range k.Changes[season].Cuts[i].Offcuts() {
				if names[o.Name] || o.Name == "" {
					t.Errorf("season %d: an off-cut is called %q, as another is", season+1, o.Name)
				}
				names[o.Name] = true
			}
		}
		for _, cut := range k.Changes[season].Cuts {
			for _, u := range cut.Used {
				bars += u.Bought
			}
		}
		if bars != want {
			t.Errorf("season %d buys %d bars, want %d", season+1, bars, want)
		}
	}
}

// TestRandomKits holds random kits against what must be true of any: enough in
// every season, never more owned than packs make it, and for each part no more
// spent than on its cheapest cover, where no supplier fills orders up.
func TestRandomKits(t *testing.T) {
	r := rand.New(rand.NewSource(7))
	plain := anySum(prices)
	for n := range 60 {
		var walls []wall
		for range 1 + r.Intn(4) {
			walls = append(walls, wall{title: "Wall", shelves: r.Intn(5), hooks: map[string]int{"hook-2-slat": 1 + r.Intn(40), "hook-6-slat": r.Intn(25)}})
		}
		house := plain
		if n%2 == 0 {
			house = prices
		}
		seasons := Named(read(t, house, walls...))
		onHand := map[string]int{"hook-2-slat": r.Intn(12), "hook-6-slat": r.Intn(12)}
		k, _ := Make(seasons, hand(seasons, onHand))
		spent := map[string]measure.Money{}
		for season, change := range k.Changes {
			pieces := map[string]int{}
			for _, o := range change.Purchase.Orders {
				for _, l := range o.Lines {
					spent[l.ID] += l.Cost
					pieces[l.ID+l.Size(measure.Inches)] += l.Pieces
				}
			}
			for i := range k.Lines {
				l := &k.Lines[i]
				if l.Used[season] != countIn(&seasons[season], l) || l.Owned(season) < l.Used[season] {
					t.Errorf("kit %d, season %d: %s is used %d times, %d owned", n, season, l.Part.ID, l.Used[season], l.Owned(season))
				}
				if l.Part.Cut == nil && l.Come[season] != pieces[l.Part.ID] {
					t.Errorf("kit %d, season %d: %d of %s come, %d are ordered", n, season, l.Come[season], l.Part.ID, pieces[l.Part.ID])
				}
			}
		}
		for i := range k.Lines {
			if l := &k.Lines[i]; l.Part.Cut == nil && house == plain {
				least := cover(l.Part.Buy, l.Most()-l.OnHand)
				if spent[l.Part.ID] != least {
					t.Errorf("kit %d: %v is spent on %s, the least is %v", n, spent[l.Part.ID], l.Part.ID, least)
				}
			}
		}
		if k.AtOnce.Total > k.Total() {
			t.Errorf("kit %d: all at once costs %v, season by season %v", n, k.AtOnce.Total, k.Total())
		}
	}
}

// countIn counts the pieces of a line in a season's unit, piece by piece.
func countIn(s *Season, l *Line) int {
	n := 0
	switch l.Part.Kind {
	case parts.Frame:
		return 1
	case parts.Panel:
		for _, p := range s.Unit.Structure {
			if p.Part.ID == l.Part.ID {
				n++
			}
		}
	}
	for _, f := range s.Unit.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				if p.Part.ID == l.Part.ID && p.Cut == l.Cut {
					n++
				}
			}
		}
	}
	return n
}

// cover is the least cost of so many pieces, tried pack by pack.
func cover(b parts.Buying, pieces int) measure.Money {
	if pieces <= 0 || len(b.Packs) == 0 {
		return 0
	}
	best := measure.Money(-1)
	for _, p := range b.Packs {
		if cost := p.Price + cover(b, pieces-p.Pieces); best < 0 || cost < best {
			best = cost
		}
	}
	return best
}

func TestTogether(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	for n := range 2000 {
		goods, fixed := make([]measure.Money, 1+r.Intn(6)), make([]bool, 6)
		for i := range goods {
			goods[i], fixed[i] = measure.Money(r.Intn(4)*r.Intn(10)), r.Intn(4) == 0
		}
		least := measure.Money(r.Intn(25))
		last := together(goods, fixed[:len(goods)], least)
		if got, want := joinedCost(t, goods, fixed, least, last), bruteTogether(goods, fixed, least); got != want {
			t.Fatalf("case %d: goods %v, fixed %v, least %v: %v costs %v, the best %v", n, goods, fixed, least, last, got, want)
		}
	}
}

// joinedCost is what orders cost that serve up to the seasons given.
func joinedCost(t *testing.T, goods []measure.Money, fixed []bool, least measure.Money, last []int) (cost measure.Money) {
	for season := 0; season < len(goods); {
		sum := measure.Money(0)
		for h := season; h <= last[season]; h++ {
			if last[h] != last[season] || h > season && fixed[h] {
				t.Fatalf("goods %v, fixed %v: no joining of orders: %v", goods, fixed, last)
			}
			sum += goods[h]
		}
		if sum > 0 {
			cost += max(sum, least)
		}
		season = last[season] + 1
	}
	return cost
}

// bruteTogether tries every joining.
func bruteTogether(goods []measure.Money, fixed []bool, least measure.Money) measure.Money {
	if len(goods) == 0 {
		return 0
	}
	best, sum := measure.Money(-1), measure.Money(0)
	for h := range goods {
		if h > 0 && fixed[h] {
			break
		}
		sum += goods[h]
		cost := bruteTogether(goods[h+1:], fixed[h+1:], least)
		if sum > 0 {
			cost += max(sum, least)
		}
		if best < 0 || cost < best {
			best = cost
		}
	}
	return best
}

func TestNamed(t *testing.T) {
	a, b, c := wall{title: "Hooks", season: "Spring"}, wall{title: "Shelves", season: "Spring"}, wall{title: "Hooks"}
	for _, row := range []struct {
		walls         []wall
		named, titled []string
		reason        string
	}{
		{[]wall{a}, []string{"Spring"}, []string{"Hooks"}, "one plan needs no more"},
		{[]wall{a, b}, []string{"Spring: Hooks", "Spring: Shelves"}, []string{"Hooks", "Shelves"}, "two of one season go by their titles"},
		{[]wall{b, c}, []string{"Spring", "Hooks"}, []string{"Shelves", "Hooks"}, "without a season a plan goes by its title"},
		{[]wall{a, c}, []string{"Spring", "Hooks"}, []string{"Hooks, Spring", "Hooks"}, "two of one title, one of them without a season"},
		{[]wall{a, a}, []string{"Spring: Hooks (plan-1.yaml)", "Spring: Hooks (plan-2.yaml)"}, []string{"Hooks, Spring (plan-1.yaml)", "Hooks, Spring (plan-2.yaml)"}, "then by their files"},
	} {
		seasons := read(t, "", row.walls...)
		var named, titled []string
		for i := range seasons {
			named, titled = append(named, Named(seasons)[i].Name), append(titled, Titled(seasons)[i].Name)
		}
		if !slices.Equal(named, row.named) || !slices.Equal(titled, row.titled) {
			t.Errorf("%s: %q, %q", row.reason, named, titled)
		}
	}
}

func TestStockroomsThatDisagree(t *testing.T) {
	seasons := Named(read(t, "", wall{title: "A"}, wall{title: "B"}, wall{title: "C"}))
	seasons[1].OnHand = hand(seasons, map[string]int{"hook-6-slat": 4})
	seasons[2].OnHand = hand(seasons, map[string]int{"hook-6-slat": 4})
	if got, found := OnHand(seasons); len(got) != 1 || got[0].Count != 4 || found != nil {
		t.Errorf("two plans that agree: %v, %v; one stockroom is not two", got, found)
	}
	seasons[2].OnHand = hand(seasons, map[string]int{"hook-6-slat": 5})
	if got, found := OnHand(seasons); len(got) != 1 || got[0].Count != 4 || len(found) != 1 || found[0].Level != diag.Caution {
		t.Errorf("two plans that disagree: %v, %v; the first holds, with a caution", got, found)
	}
}
