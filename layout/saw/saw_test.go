package saw

import (
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
)

const in = measure.Inch

// priced is a size of stock that costs so many hundredths, or is not priced.
func priced(length, width measure.Length, price measure.Money) parts.StockSize {
	z := parts.StockSize{Length: length, Width: width}
	if price > 0 {
		z.Buy.Packs = []parts.Pack{{Pieces: 1, Price: price}}
	}
	return z
}

// randomJob is a small job of bars or sheets with whatever saws have.
func randomJob(r *rand.Rand, sheet bool) Job {
	eighth := in / 8
	stock := &parts.Stock{ID: "s", Kerf: measure.Length(r.Intn(3)) * eighth, Trim: measure.Length(r.Intn(3)) * eighth, Keep: measure.Length(r.Intn(3)) * 6 * in}
	if sheet {
		stock.Grain = r.Intn(2) == 0
		if r.Intn(3) == 0 {
			stock.Grain, stock.Grooves = true, 3*in
		}
	}
	width := func(of measure.Length) measure.Length {
		if !sheet {
			return 0
		}
		return of
	}
	job := Job{Stock: stock}
	prices := r.Intn(2) == 0
	for _, l := range []measure.Length{48, 60, 96}[:1+r.Intn(3)] {
		price := measure.Money(0)
		if prices {
			price = measure.Money(400 + r.Intn(900))
		}
		stock.Sizes = append(stock.Sizes, priced(l*in, width(48*in+measure.Length(r.Intn(2))*in/2), price))
	}
	for range r.Intn(3) {
		job.OnHand = append(job.OnHand, parts.OnHand{Stock: stock, Length: measure.Length(20+r.Intn(80)) * in, Width: width(measure.Length(12+r.Intn(50)) * in), Count: 1 + r.Intn(2)})
	}
	if r.Intn(4) == 0 && len(job.OnHand) > 0 {
		stock.Sizes = nil // nothing can be bought
	}
	for i := range 1 + r.Intn(4) {
		p := Piece{Mark: fmt.Sprint(i + 1), Length: measure.Length(8*4+r.Intn(8*40)) * eighth, Count: 1 + r.Intn(4), Turn: sheet && !stock.Grain}
		if p.Width = width(measure.Length(8*4+r.Intn(8*30)) * eighth); r.Intn(3) == 0 {
			p.Width = width(measure.Length(1+r.Intn(16)) * 3 * in)
		}
		for n := range p.Count * r.Intn(2) {
			p.Where = append(p.Where, fmt.Sprintf("F-%d", n/2+1))
		}
		job.Pieces = append(job.Pieces, p)
	}
	return job
}

// TestRandomPlans has random jobs cut and looks at every plan as whoever stands at
// the saw would: with nothing but the plan.
func TestRandomPlans(t *testing.T) {
	for seed := range int64(1000) {
		job := randomJob(rand.New(rand.NewSource(seed)), seed%2 == 1)
		plan, found := Cut(job)
		for _, fault := range faults(&plan) {
			t.Errorf("seed %d: %s", seed, fault)
		}
		stops := slices.ContainsFunc(found, func(f diag.Finding) bool { return f.Level == diag.Stop })
		if stops != plan.Short() {
			t.Errorf("seed %d: a stop was found: %v; pieces are missing: %v", seed, stops, plan.Missing)
		}
	}
}

// faults is what is wrong with a plan.
func faults(p *Plan) (list []string) {
	fault := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	made := slices.Clone(p.Missing)
	addressed := make([][]string, len(p.Job.Pieces))
	taken := make([]int, len(p.Used))
	names := map[string]bool{}
	for i := range p.Patterns {
		pat := &p.Patterns[i]
		u := p.Used[pat.Use]
		taken[pat.Use] += pat.Times
		if pat.Root.Length != u.Length || pat.Root.Width != u.Width || pat.Root.X != 0 || pat.Root.Y != 0 {
			fault("pattern %d is not of its stock", pat.Number)
		}
		list = append(list, treeFaults(&pat.Root, p.Job.Stock.Kerf)...)
		list = append(list, strokeFaults(pat, p.Job.Stock.Kerf)...)
		pat.Root.Leaves(func(n *Node) {
			switch {
			case n.Kind == Wanted:
				made[n.Piece] += pat.Times
				addressed[n.Piece] = append(addressed[n.Piece], n.Where...)
				if len(p.Job.Pieces[n.Piece].Where) > 0 && len(n.Where) != pat.Times {
					fault("piece %d has %d addresses on %d", n.Piece, len(n.Where), pat.Times)
				}
			case n.Kind == Kept && names[n.Name]:
				fault("two off-cuts are called %q", n.Name)
			case n.Kind == Kept:
				names[n.Name] = true
			}
			list = append(list, p.leafFaults(n, &u)...)
		})
	}
	for i, piece := range p.Job.Pieces {
		if made[i] != piece.Count {
			fault("%d of piece %d, want %d", made[i], i, piece.Count)
		}
		slices.Sort(addressed[i])
		if p.Missing[i] == 0 && !slices.Equal(addressed[i], slices.Sorted(slices.Values(piece.Where))) {
			fault("piece %d goes to %v, want %v", i, addressed[i], piece.Where)
		}
	}
	return append(list, p.stockFaults(taken)...)
}

// leafFaults looks at one part that is not cut on.
func (p *Plan) leafFaults(n *Node, u *Use) (list []string) {
	fault := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	s := p.Job.Stock
	if n.Length <= 0 || n.Width < 0 || u.Width > 0 && n.Width == 0 {
		fault("a part of no size")
	}
	width := n.Width
	if g := s.Grooves; g > 0 { // it must begin as pieces do
		width -= (g - n.Y%g) % g
	}
	large := s.Keep > 0 && n.Length >= s.Keep && (u.Width == 0 || width >= s.Keep)
	switch n.Kind {
	case Kept, Waste:
		if (n.Kind == Kept) != large {
			fault("an off-cut of %d by %d is kept: %v", n.Length, n.Width, n.Kind == Kept)
		}
	case Wanted:
		piece := p.Job.Pieces[n.Piece]
		length, width := piece.Length, piece.Width
		if n.Turned {
			length, width = width, length
		}
		if n.Length != length || n.Width != width || n.Turned && !piece.Turn {
			fault("piece %d is cut to %d by %d", n.Piece, n.Length, n.Width)
		}
	}
	if n.Kind == Trim {
		return list
	}
	if n.X < s.Trim || n.X+n.Length > u.Length-s.Trim || u.Width > 0 && (n.Y < s.Trim || n.Y+n.Width > u.Width-s.Trim) {
		fault("a part reaches into the trim")
	}
	if s.Grooves > 0 && n.Kind != Waste && n.Y%s.Grooves != 0 {
		fault("a part begins %d from the edge, between grooves of another panel", n.Y)
	}
	return list
}

// stockFaults looks at what is taken and bought.
func (p *Plan) stockFaults(taken []int) (list []string) {
	fault := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	cost := measure.Money(0)
	for i, u := range p.Used {
		held := 0
		for _, h := range p.Job.OnHand {
			if h.Length == u.Length && h.Width == u.Width {
				held += h.Count
			}
		}
		size := slices.IndexFunc(p.Job.Stock.Sizes, func(z parts.StockSize) bool { return z.Length == u.Length && z.Width == u.Width })
		if u.OnHand+u.Bought != taken[i] || u.OnHand > held || u.Bought > 0 && size < 0 || u.Size != size {
			fault("%d taken and %d bought of a size of which %d are cut and %d on hand", u.OnHand, u.Bought, taken[i], held)
		}
		if p.Priced && u.Bought > 0 {
			cost += p.Job.Stock.Sizes[size].Buy.Packs[0].Price * measure.Money(u.Bought)
		}
	}
	if cost != p.Cost || p.Bound > p.Cost || p.Proven && p.Bound != p.Cost {
		fault("a cost of %v, bound %v, proven %v; the stock comes to %v", p.Cost, p.Bound, p.Proven, cost)
	}
	return list
}

// treeFaults wants the parts of each node inside it, from edge to edge, in order
// and a cut apart, and no more than three stages.
func treeFaults(n *Node, kerf measure.Length) (list []string) {
	if deep := depth(n); deep > 3 {
		list = append(list, fmt.Sprintf("%d stages of cuts", deep))
	}
	at := measure.Length(-1)
	for i := range n.Parts {
		p := &n.Parts[i]
		begin, end, side := p.X, p.X+p.Length, p.Y == n.Y && p.Width == n.Width
		lo, hi := n.X, n.X+n.Length
		if n.Way == Rip {
			begin, end, side = p.Y, p.Y+p.Width, p.X == n.X && p.Length == n.Length
			lo, hi = n.Y, n.Y+n.Width
		}
		trimmed := p.Kind == Trim || i > 0 && n.Parts[i-1].Kind == Trim
		if !side || begin < lo || end > hi || at >= 0 && (begin < at || !trimmed && begin < at+kerf) {
			list = append(list, fmt.Sprintf("part %d of a node lies at %d to %d", i, begin, end))
		}
		at = end
		list = append(list, treeFaults(p, kerf)...)
	}
	return list
}

// depth is how many stages of cuts a node takes, squaring up left out.
func depth(n *Node) int {
	if n.Kind != Through {
		return 0
	}
	most, own := 0, 1
	for i := range n.Parts {
		most = max(most, depth(&n.Parts[i]))
		if n.Parts[i].Kind == Trim {
			own = 0
		}
	}
	return most + own
}

// rect is what lies on the saw: from, to along the length and along the width.
type rect [2][2]measure.Length

// strokeFaults saws: it takes a whole bar or sheet through the cuts one after
// another, each from edge to edge of what it finds there, and wants all pieces and
// off-cuts to be kept among what is left.
func strokeFaults(p *Pattern, kerf measure.Length) (list []string) {
	left := []rect{{{0, p.Root.Length}, {0, p.Root.Width}}}
	for _, k := range p.Strokes() {
		along, across := 0, 1
		if k.Way == Rip {
			along, across = 1, 0
		}
		i := slices.IndexFunc(left, func(r rect) bool {
			return r[across] == [2]measure.Length{k.From, k.To} && r[along][0] <= k.At && k.At < r[along][1]
		})
		if i < 0 {
			return []string{fmt.Sprintf("cut %d of pattern %d is through nothing that lies there", k.Number, p.Number)}
		}
		if k.Set != k.At-left[i][along][0] {
			list = append(list, fmt.Sprintf("cut %d of pattern %d: the stop is set to %d", k.Number, p.Number, k.Set))
		}
		off := left[i]
		off[along][1] = k.At
		fresh := k.At + kerf
		if k.Stage == 0 && k.At == 0 { // it shaves off less than the saw is thick
			fresh = shaved(&p.Root, along)
		}
		left[i][along][0] = min(fresh, left[i][along][1])
		left = append(left, off)
	}
	p.Root.Leaves(func(n *Node) {
		want := rect{{n.X, n.X + n.Length}, {n.Y, n.Y + n.Width}}
		if n.Kind != Trim && !slices.Contains(left, want) {
			list = append(list, fmt.Sprintf("pattern %d does not give %v", p.Number, want))
		}
	})
	return list
}

// shaved is what is trimmed off the near end or edge.
func shaved(n *Node, along int) measure.Length {
	for n.Kind == Through {
		if first := n.Parts[0]; first.Kind == Trim && (n.Way == Cross) == (along == 0) {
			return []measure.Length{first.Length, first.Width}[along]
		}
		n = n.inner()
	}
	return 0
}

// TestTheLeastIsTheLeast holds the cost of small jobs of bars against trying
// everything: what is on hand is free.
func TestTheLeastIsTheLeast(t *testing.T) {
	for seed := range int64(300) {
		r := rand.New(rand.NewSource(seed))
		job := Job{Stock: &parts.Stock{ID: "s", Kerf: in / 8, Trim: measure.Length(r.Intn(2)) * in / 4}}
		for _, l := range []measure.Length{60, 96, 120} {
			job.Stock.Sizes = append(job.Stock.Sizes, priced(l*in, 0, measure.Money(500+r.Intn(800))))
		}
		if r.Intn(2) == 0 {
			job.OnHand = []parts.OnHand{{Stock: job.Stock, Length: measure.Length(40+r.Intn(60)) * in, Count: 1}}
		}
		for i := range 2 + r.Intn(5) {
			job.Pieces = append(job.Pieces, Piece{Mark: fmt.Sprint(i), Length: measure.Length(80+r.Intn(320)) * in / 8, Count: 1})
		}
		plan, _ := Cut(job)
		if want := cheapest(&job, nil, 0); plan.Cost != want || !plan.Proven {
			t.Errorf("seed %d: costs %v, proven %v; trying all gives %v", seed, plan.Cost, plan.Proven, want)
		}
	}
}

// cheapest tries every way of putting the next piece on a bar that is begun, or on
// a new one.
func cheapest(job *Job, bars []bin, next int) measure.Money {
	if next == len(job.Pieces) {
		sum := measure.Money(0)
		for _, b := range bars {
			sum += b.price
		}
		return sum
	}
	need := job.Pieces[next].Length + job.Stock.Kerf
	best := measure.Money(1 << 40)
	for i := range bars {
		if bars[i].left >= need {
			bars[i].left -= need
			best = min(best, cheapest(job, bars, next+1))
			bars[i].left += need
		}
	}
	open := func(length measure.Length, price measure.Money, held bool) {
		if room := length - 2*job.Stock.Trim + job.Stock.Kerf; room >= need {
			best = min(best, cheapest(job, append(slices.Clone(bars), bin{room - need, price, held}), next+1))
		}
	}
	for _, z := range job.Stock.Sizes {
		open(z.Length, z.Buy.Packs[0].Price, false)
	}
	if len(job.OnHand) > 0 && !slices.ContainsFunc(bars, func(b bin) bool { return b.held }) {
		open(job.OnHand[0].Length, 0, true)
	}
	return best
}

// bin is a bar that is begun.
type bin struct {
	left  measure.Length
	price measure.Money
	held  bool
}
