package reset

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"setwright/layout"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/oracle"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// What follows tries every way in which the pieces of one unit may become those
// of another, and judges each by the rules of handling alone, as they are told
// to a crew:
//
//   - A piece comes down in half of the time it takes to put up; to stock or from
//     there it takes 10 s more.
//   - Left in its place it takes nothing; what rests on brackets can be left only
//     if they are all left, and they are those it is to rest on.
//   - What does not rest on brackets may be slid in 5 s between the same wires of a
//     grid, or along a groove of one panel, but not past another.
//   - What is fixed to a piece goes along with it if it is to be fixed to it again.
//   - A facing comes off in 4 s and 1 s a unit, and is put on in 4 s and 2 s a
//     unit. On a piece that is left or slid it may stay, and be filled up or thinned
//     out by unit; on shelves, in baskets and on rails it may be nudged along in 4 s,
//     but not past another that stays.
//   - Each unit of a product that one unit holds more than the other takes 1 s.

// object is a piece of hardware.
type object struct {
	*unit.Piece
	face   *unit.Face
	host   int   // what it is fixed to, by number; -1 for none
	on     []int // the brackets it rests on
	fronts []*unit.Front
	skus   []string // of the fronts
}

// objects lists what hangs on a unit.
func objects(u *unit.Unit) (all []object) {
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			first := len(all)
			for _, p := range row.Pieces {
				t := object{Piece: p, face: face, host: -1}
				for _, position := range row.Positions {
					for i := range position.Fronts {
						if f := &position.Fronts[i]; f.Piece == p {
							t.fronts, t.skus = append(t.fronts, f), append(t.skus, position.Product.SKU)
						}
					}
				}
				all = append(all, t)
			}
			last := len(all)
			holder := func(p *unit.Piece) int {
				for i := first; i < last; i++ {
					if all[i].Box.X0 <= p.X && p.X <= all[i].Box.X1 {
						return i
					}
				}
				return -1
			}
			for _, p := range row.Brackets {
				all[holder(p)].on = append(all[holder(p)].on, len(all))
				all = append(all, object{Piece: p, face: face, host: -1})
			}
			for _, p := range row.Extras {
				all = append(all, object{Piece: p, face: face, host: holder(p)})
			}
		}
	}
	return all
}

// trial is one pair of units and the best that was found of it.
type trial struct {
	old, new []object
	to       []int // the new place of each old piece, -1 for stock
	from     []int // the old one of each new, -1 for stock
	base     int   // seconds, whatever is paired
	best     int
	tried    int
	budget   int // how many pairings may be tried
}

// leastHandling tries every pairing. It gives up, with false, where there are more
// of them than the budget.
func leastHandling(old, new *unit.Unit, budget int) (seconds int, done bool) {
	t := &trial{old: objects(old), new: objects(new), best: 1 << 30, budget: budget}
	more := map[string]int{}
	for _, o := range t.old {
		for i, f := range o.fronts {
			t.base += 4 + f.Units
			more[o.skus[i]] -= f.Units
		}
	}
	for _, n := range t.new {
		t.from = append(t.from, -1)
		for i, f := range n.fronts {
			t.base += 4 + 2*f.Units
			more[n.skus[i]] += f.Units
		}
	}
	for _, units := range more {
		t.base += max(units, -units)
	}
	t.try()
	return t.best, t.tried <= t.budget
}

func (t *trial) try() {
	if t.tried > t.budget {
		return
	}
	i := len(t.to)
	if i == len(t.old) {
		t.tried++
		t.best = min(t.best, t.base+t.judge())
		return
	}
	for k := range t.new {
		if t.from[k] < 0 && t.old[i].Part.ID == t.new[k].Part.ID && t.old[i].Cut == t.new[k].Cut {
			t.to, t.from[k] = append(t.to, k), i
			t.try()
			t.to, t.from[k] = t.to[:i], -1
		}
	}
	t.to = append(t.to, -1)
	t.try()
	t.to = t.to[:i]
}

func down(p *unit.Piece) int { return (list.Seconds(p.Part) + 1) / 2 }

// judge is the least time of a pairing, beside its base.
func (t *trial) judge() (seconds int) {
	var slidable [][2]int
	for k, n := range t.new {
		if t.from[k] < 0 {
			seconds += 10 + list.Seconds(n.Part)
		}
	}
	for i, k := range t.to {
		o := t.old[i]
		switch {
		case k < 0:
			seconds += down(o.Piece) + 10
		case o.host >= 0 && t.new[k].host >= 0 && t.to[o.host] == t.new[k].host: // goes along
		case t.canSlide(i, k):
			slidable = append(slidable, [2]int{i, k})
		case t.canStay(i, k):
			seconds -= kept(o, t.new[k], 0)
		default:
			seconds += down(o.Piece) + list.Seconds(o.Part)
		}
	}
	return seconds + t.slide(slidable, nil)
}

func (t *trial) samePlace(i, k int) bool {
	o, n := t.old[i], t.new[k]
	return o.face.ID == n.face.ID && o.Slot == n.Slot && o.Box == n.Box && o.host < 0 && n.host < 0
}

func (t *trial) canStay(i, k int) bool {
	if !t.samePlace(i, k) || len(t.old[i].on) != len(t.new[k].on) {
		return false
	}
	for b, bracket := range t.old[i].on {
		if t.to[bracket] != t.new[k].on[b] || !t.samePlace(bracket, t.to[bracket]) {
			return false
		}
	}
	return true
}

// canSlide says whether nothing of the panel is between the grips of a piece in its
// old and in its new place.
func (t *trial) canSlide(i, k int) bool {
	o, n := t.old[i], t.new[k]
	panel := o.face.Panel
	surface := panel.Panel.Surface
	if surface != parts.Wire && surface != parts.Slatwall || o.face.ID != n.face.ID || o.Slot != n.Slot ||
		len(o.on)+len(n.on) > 0 || o.host >= 0 || n.host >= 0 || len(o.Grips) == 0 || o.Part.Width >= panel.Width {
		return false
	}
	for g := range o.Grips {
		a, b := (o.Grips[g].X0+o.Grips[g].X1)/2, (n.Grips[g].X0+n.Grips[g].X1)/2
		if a/panel.Width != b/panel.Width {
			return false
		}
		for x := panel.Panel.AcrossFirst; surface == parts.Wire && x < panel.Width; x += panel.Panel.AcrossPitch {
			if wire := x + a/panel.Width*panel.Width; (a < wire) != (b < wire) {
				return false
			}
		}
	}
	return true
}

// slide is the least time of pairs that may be slid or hung anew, those that are
// slid (or left) before given.
func (t *trial) slide(pairs, slid [][2]int) int {
	if len(pairs) == 0 {
		return 0
	}
	pair := pairs[0]
	o, n := t.old[pair[0]], t.new[pair[1]]
	best := down(o.Piece) + list.Seconds(o.Part) + t.slide(pairs[1:], slid)
	for _, s := range slid {
		p, q := t.old[s[0]], t.new[s[1]]
		if o.face == p.face && o.Slot == p.Slot && (o.X < p.X) != (n.X < q.X) {
			return best
		}
	}
	way := 5
	if o.X == n.X {
		way = 0
	}
	return min(best, way-kept(o, n, 0)+t.slide(pairs[1:], append(slid, pair)))
}

// kept is the most time that goods staying on a piece save, from the i-th front
// on, by trying what each may become; used are fronts of the new place taken.
func kept(o, n object, i int, used ...[2]int) int {
	if i == len(o.fronts) {
		return 0
	}
	best := kept(o, n, i+1, used...)
	from := o.fronts[i]
	runs := false
	switch o.Part.Kind {
	case parts.Shelf, parts.Slope, parts.Basket, parts.Rail:
		runs = true
	}
next:
	for k, to := range n.fronts {
		way := to.Box.X0 - n.X - (from.Box.X0 - o.X)
		still := way == 0 && to.Box.D0 == from.Box.D0
		if o.skus[i] != n.skus[k] || !still && !runs {
			continue
		}
		for _, u := range used {
			if u[1] == k || inOrder(o, u[0], i) != inOrder(n, u[1], k) {
				continue next
			}
		}
		saves := 4 + from.Units + 4 + 2*to.Units - max(from.Units-to.Units, 2*(to.Units-from.Units))
		if !still {
			saves -= 4
		}
		best = max(best, saves+kept(o, n, i+1, append(used[:len(used):len(used)], [2]int{i, k})...))
	}
	return best
}

// inOrder says whether one front of a piece is left of another.
func inOrder(on object, a, b int) bool {
	x, y := on.fronts[a].Box.X0, on.fronts[b].Box.X0
	return x < y || x == y && a < b
}

// dressing is a random dress of one panel or two: rows at one height of a few, and
// few pieces, so that every pairing can be tried.
func dressing(rng *rand.Rand, hook, small, extra string) string {
	var b strings.Builder
	b.WriteString("  front:\n")
	aligns := []string{"left", "center", "right"}
	goods := func(skus ...string) string {
		a, c := rng.IntN(2), 1+rng.IntN(2)
		rng.Shuffle(len(skus), func(i, j int) { skus[i], skus[j] = skus[j], skus[i] })
		if a == 0 {
			return fmt.Sprintf("{%s: %d}", skus[0], c)
		}
		return fmt.Sprintf("{%s: %d, %s: 1}", skus[0], c, skus[1])
	}
	rows := 0
	for _, height := range []measure.Length{57, 45, 30} {
		with := ""
		if rng.IntN(2) == 0 {
			with = ", with: [" + extra + "]"
		}
		bay := 1 + rng.IntN(2)
		align := aligns[rng.IntN(len(aligns))]
		switch rng.IntN(5) {
		case 0, 1:
			fmt.Fprintf(&b, "    - {use: %s, bay: %d, at: %din, count: %d, every: %din, align: %s, goods: %s}\n",
				hook, bay, height, 3, 4+rng.IntN(3), align, goods("CARD", "TAG"))
		case 2:
			fmt.Fprintf(&b, "    - {use: shelf-24x12, bay: %d, at: %din%s, goods: %s}\n", bay, height, with, goods("TIN", "JAR"))
		case 3:
			fmt.Fprintf(&b, "    - {use: %s, bay: %d, at: %din, count: %d, every: 12in, align: %s%s}\n", small, bay, height, 1+rng.IntN(2), align, with)
		default:
			continue
		}
		rows++
	}
	if rows == 0 {
		return "  front: []\n"
	}
	return b.String()
}

// tryDress is the unit of a dress, nil where it cannot be dressed so.
func tryDress(bare, dress string) *unit.Unit {
	text := "plan: 1\ntitle: Test\nmeasure: in\ngoods: [goods.csv]\n" + bare + "dress:\n" + dress
	return layout.Parse(fstest.MapFS{"goods.csv": {Data: []byte(someGoods)}}, "plan.yaml", []byte(text)).Unit
}

// TestLeastOfAll wants the handling of a reset to be the least of all pairings.
func TestLeastOfAll(t *testing.T) {
	if oracle.Racing {
		t.Skip("runs without the race detector: nothing here is shared")
	}
	for _, c := range []struct {
		name, bare, hook, small, extra string
		ways                           []Way // that must come up
	}{
		{"wires", wires, "hook-6", "shelf-shoe", "strip-ticket", []Way{Stay, Slide, Ride, Rehang, Fetch, Return}},
		{"slats", slats, "hook-6-slat", "shelf-shoe-slat", "sign-11x7-slat", []Way{Stay, Slide, Ride, Rehang, Fetch, Return}},
		{"holes", holes, "hook-6-peg", "basket-12-peg", "strip-ticket", []Way{Stay, Ride, Rehang, Fetch, Return}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(7, uint64(len(c.name))))
			ways := map[Way]int{}
			done := 0
			for n := range 300 {
				before, after := dressing(rng, c.hook, c.small, c.extra), dressing(rng, c.hook, c.small, c.extra)
				old, new := tryDress(c.bare, before), tryDress(c.bare, after)
				if old == nil || new == nil {
					continue
				}
				want, all := leastHandling(old, new, 10_000)
				if !all {
					continue
				}
				r := &Reset{Old: old, New: new}
				r.match()
				if r.Handling() != want {
					t.Fatalf("case %d: %d s, the least is %d s\nbefore:\n%safter:\n%s%s", n, r.Handling(), want, before, after, r.dump())
				}
				done++
				for _, it := range r.Items {
					ways[it.Way]++
				}
			}
			if done < 100 {
				t.Errorf("%d pairs of units, want 100 at least", done)
			}
			for _, way := range c.ways {
				if ways[way] == 0 {
					t.Errorf("no piece goes way %d", way)
				}
			}
		})
	}
}

// TestNoPassing wants the least handling where strips ride and goods would be
// best off if their baskets passed each other.
func TestNoPassing(t *testing.T) {
	for _, c := range []struct{ before, after, reason string }{
		{"{TIN: 5, JAR: 7}", "{JAR: 7, TIN: 5}", "two baskets change sides"},
		{"{TIN: 5, JAR: 7}", "{JAR: 7}", "one goes, the other would pass it"},
	} {
		dress := func(goods string) *unit.Unit {
			return tryDress(slats, "  front:\n    - {use: basket-24-slat, bay: 1, at: 50in, count: 2, with: [strip-ticket], goods: "+goods+"}\n")
		}
		old, new := dress(c.before), dress(c.after)
		want, all := leastHandling(old, new, 100_000)
		r := &Reset{Old: old, New: new}
		if r.match(); !all || r.Handling() != want {
			t.Errorf("%s: %d s, the least is %d s (all tried: %v)\n%s", c.reason, r.Handling(), want, all, r.dump())
		}
	}
}
