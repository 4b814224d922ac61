package solve

// Lots is when to buy how many packs of one thing that is used again season
// after season. What is bought stays: pieces left over from one season serve
// the next.
//
// Of all purchases that leave enough owned in each season, the answer is the
// one that costs least in all. Of those, it is the one that has the fewest
// pieces standing about, summed over the seasons; then the one of the fewest
// packs. With one price for all seasons the least cost is that of covering the
// last season's need at one go: what the seasons decide is when to buy which
// pack of it. Wagner and Whitin (Management Science 5, 1958) is the same with a
// price for each order and for keeping, and pieces sold singly.
type Lots struct {
	Need  []int  // pieces to have bought by each season; it never falls
	Packs []Pack // the packs there are, at least one, in any number
	Least int    // fewest pieces in one order, 0 or 1 for any
}

// Solve returns the packs to buy before each season: for each an int for each
// pack size, or nil where nothing is bought. It takes time in proportion to the
// seasons in which the need grows, the last season's need and the pack sizes;
// if Least is more than the smallest pack, also to the pieces of the largest.
func (l Lots) Solve() [][]int {
	seasons := make([][]int, len(l.Need))
	if len(l.Need) == 0 || l.Need[len(l.Need)-1] <= 0 {
		return seasons
	}
	top := l.Need[len(l.Need)-1]
	best := make([]lotCost, top+1)
	for s := range best[1:] {
		best[s+1] = lotCost{money: noLot}
	}
	openings := l.openings(top)
	trail := make([]*lotSeason, len(l.Need))
	before := 0
	for t, need := range l.Need {
		if need > before {
			trail[t] = l.season(best, openings, need, len(l.Need)-t)
			best = trail[t].best
		}
		before = max(before, need)
	}
	at := top
	for t := len(l.Need) - 1; t >= 0; t-- {
		if trail[t] != nil {
			at, seasons[t] = trail[t].back(at, openings, len(l.Packs))
		}
	}
	return seasons
}

// noLot is the cost of what cannot be.
const noLot = 1 << 62

// lotCost is compared part by part, the first first.
type lotCost struct{ money, standing, packs int64 }

func (a lotCost) add(b lotCost) lotCost {
	return lotCost{a.money + b.money, a.standing + b.standing, a.packs + b.packs}
}

func (a lotCost) less(b lotCost) bool {
	if a.money != b.money {
		return a.money < b.money
	}
	if a.standing != b.standing {
		return a.standing < b.standing
	}
	return a.packs < b.packs
}

// opening is a way to begin an order: the fewest packs that a supplier sends.
// Every order is an opening and single packs besides.
type opening struct {
	pieces int
	price  int64
	packs  []int // of each size
	count  int64
}

// costFor is what it costs before so many seasons, in which its pieces stand
// about.
func (o opening) costFor(seasons int) lotCost {
	return lotCost{o.price, int64(o.pieces) * int64(seasons), o.count}
}

// openings are single packs, where each of them may be ordered by itself; else
// the cheapest ways to order each number of pieces from Least up, as many as it
// can take to pass Least with the largest pack. Of those that bring all that is
// ever needed, only one that is cheaper than every smaller one is among them.
func (l Lots) openings(top int) []opening {
	smallest, largest := l.Packs[0].Pieces, 0
	for _, p := range l.Packs {
		smallest, largest = min(smallest, p.Pieces), max(largest, p.Pieces)
	}
	least := max(l.Least, 1)
	ways := make([]lotWay, largest+1)
	for i, p := range l.Packs {
		ways[p.Pieces].take(lotWay{p.Price, 1, i})
	}
	if least > smallest {
		ways = l.ways(least + largest)
	}
	var list []opening
	enough := int64(noLot)
	for n := least; n < len(ways); n++ {
		w := ways[n]
		if w.count == 0 || n >= top && w.price >= enough {
			continue
		}
		if n >= top {
			enough = w.price
		}
		o := opening{n, w.price, make([]int, len(l.Packs)), w.count}
		for left := n; left > 0; left -= l.Packs[ways[left].last].Pieces {
			o.packs[ways[left].last]++
		}
		list = append(list, o)
	}
	return list
}

// lotWay is the cheapest way to buy a number of pieces exactly, of equal ones
// that of the fewest packs; none at all if its count is 0.
type lotWay struct {
	price, count int64
	last         int // the pack taken last
}

func (w *lotWay) take(o lotWay) {
	if w.count == 0 || o.price < w.price || o.price == w.price && o.count < w.count {
		*w = o
	}
}

// ways are those to buy each number of pieces below most.
func (l Lots) ways(most int) []lotWay {
	ways := make([]lotWay, most)
	for n := range ways {
		for i, p := range l.Packs {
			if n > 0 && ways[n].count == 0 || n+p.Pieces >= most {
				continue
			}
			ways[n+p.Pieces].take(lotWay{ways[n].price + p.Price, ways[n].count + 1, i})
		}
	}
	return ways
}

// lotSeason is the cheapest ways to have bought so many pieces by a season; the
// last number stands for itself and all above. For each it is known whether
// anything was bought before this season, and what last.
type lotSeason struct {
	best   []lotCost
	bought []bool
	last   []lotStep
}

// lotStep leads from one number of pieces to another: by an opening, or by one
// more pack of the order.
type lotStep struct {
	from    int
	opening bool
	what    int // of the openings or packs
}

// season goes on from the seasons before it to one that needs so many pieces;
// with it there are so many seasons left.
func (l Lots) season(before []lotCost, openings []opening, need, left int) *lotSeason {
	top := len(before) - 1
	order := make([]lotCost, top+1)
	s := &lotSeason{best: append([]lotCost(nil), before...), bought: make([]bool, top+1), last: make([]lotStep, top+1)}
	for n := range order {
		order[n] = lotCost{money: noLot}
	}
	reach := func(n int, cost lotCost, by lotStep) {
		if cost.less(order[n]) {
			order[n], s.last[n] = cost, by
		}
	}
	for n, cost := range before[:top] {
		for i, o := range openings {
			if cost.money < noLot {
				reach(min(n+o.pieces, top), cost.add(o.costFor(left)), lotStep{n, true, i})
			}
		}
	}
	for n := range top {
		for i, p := range l.Packs {
			if order[n].money < noLot {
				one := lotCost{p.Price, int64(p.Pieces) * int64(left), 1}
				reach(min(n+p.Pieces, top), order[n].add(one), lotStep{n, false, i})
			}
		}
	}
	for n := range order {
		if s.bought[n] = order[n].less(s.best[n]); s.bought[n] {
			s.best[n] = order[n]
		}
		if n < need {
			s.best[n] = lotCost{money: noLot}
		}
	}
	return s
}

// back is how many pieces there were before the season's order, and its packs.
func (s *lotSeason) back(at int, openings []opening, sizes int) (int, []int) {
	if !s.bought[at] {
		return at, nil
	}
	packs := make([]int, sizes)
	for {
		step := s.last[at]
		at = step.from
		if !step.opening {
			packs[step.what]++
			continue
		}
		for i, n := range openings[step.what].packs {
			packs[i] += n
		}
		return at, packs
	}
}
