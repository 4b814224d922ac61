package reset

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/solve/assign"
)

// match decides which pieces and facings stay, move, come and go, so that the
// handling takes the least time by the figures of times.go.
//
// Why that is exact, though goods, brackets and strips are handled with the
// pieces: take it that every old piece is taken down and sent back with all that
// is on it, and every new one fetched, hung and filled. That costs the same
// whatever is paired. How many pieces of a kind and units of a product come from
// stock and go there is the difference of what the two units have of them: that
// too is the same for every pairing with as many pairs as there can be. What is
// left is what a pair saves by itself: taking down and hanging, if the piece
// stays or slides; with it the goods that stay on it; and the strips that ride
// on it. Brackets save only where they are left, and shelves stay only on brackets
// that can be: a bracket in the place where another of its kind is wanted is
// always best left there. So the most that all pairs save together is the most
// that pairs of one kind save, kind by kind, and that is an assignment.
//
// Pieces that can slide must not pass each other, which is no assignment. But
// between two walls hangs one row and so one kind of piece, and the best pairs
// there are an alignment of two sequences; what is left over is hung anew, and
// all pairings of that save the same. Where strips ride, they do not, and all is
// one assignment (riders.go), unless its pieces would pass each other: then alone
// more strips might have ridden along.
func (r *Reset) match() {
	m := r.matcher()
	m.carriers()
	m.brackets()
	m.extras()
	m.leftovers()
	r.Items = m.items()
	m.carried()
	m.onCart()
	r.Facings = m.facings()
}

// matcher pairs the pieces and facings of two units.
type matcher struct {
	rebuild  bool
	old, new *survey
	kinds    []bucket // by kind, from 1
	wares    int      // products in both, numbered from 1
}

// bucket is the pieces of one kind, old and new, by their role.
type bucket [extra + 1]struct{ old, new []*hung }

func (r *Reset) matcher() *matcher {
	s := &surveyor{numbers[kindKey]{}, numbers[placeKey]{}, numbers[cellKey]{}, numbers[wareKey]{}, r.otherParts(), r.otherGoods()}
	m := &matcher{rebuild: r.Rebuild, old: s.survey(r.Old, true), new: s.survey(r.New, false)}
	m.kinds, m.wares = make([]bucket, len(s.kinds)+1), len(s.wares)
	for _, h := range m.old.pieces {
		b := &m.kinds[h.kind][h.role]
		b.old = append(b.old, h)
	}
	for _, h := range m.new.pieces {
		b := &m.kinds[h.kind][h.role]
		b.new = append(b.new, h)
	}
	return m
}

// join makes a pair.
func join(o, n *hung, way Way) {
	o.partner, n.partner = n, o
	o.way, n.way = way, way
}

// single drops those that have a partner.
func single(list []*hung) []*hung {
	return slices.DeleteFunc(slices.Clone(list), func(h *hung) bool { return h.partner != nil })
}

// carriers pairs what rows name.
func (m *matcher) carriers() {
	for i := range m.kinds {
		b := &m.kinds[i][carrier]
		if !m.rebuild {
			if m.riders(b.old, b.new) {
				continue
			}
			m.slide(b.old, b.new)
			m.pin(b.old, b.new)
		}
		m.pair(single(b.old), single(b.new), m.saves)
	}
}

// slide pairs pieces between the same walls.
func (m *matcher) slide(old, new []*hung) {
	cells, order := map[int]*struct{ old, new []*hung }{}, []int(nil)
	for _, o := range old {
		if o.cell == 0 {
			continue
		}
		if cells[o.cell] == nil {
			cells[o.cell] = &struct{ old, new []*hung }{}
			order = append(order, o.cell)
		}
		cells[o.cell].old = append(cells[o.cell].old, o)
	}
	for _, n := range new {
		if c := cells[n.cell]; c != nil {
			c.new = append(c.new, n)
		}
	}
	for _, cell := range order {
		c := cells[cell]
		for _, pair := range aligned(byX(c.old), byX(c.new), worthSliding) {
			o, n := c.old[pair[0]], c.new[pair[1]]
			way := Slide
			if o.place == n.place {
				way = Stay
			}
			join(o, n, way)
		}
	}
}

// byX sorts pieces from the left.
func byX(list []*hung) []*hung {
	slices.SortStableFunc(list, func(a, b *hung) int { return cmp.Compare(a.Piece.X, b.Piece.X) })
	return list
}

// worthSliding is what it saves that a piece is left or slid instead of being
// hung anew, in 2^24 to the second, and less for each inch of way. It is below
// zero where sliding it is more trouble.
func worthSliding(o, n *hung) int64 {
	saved := downTime(o.Piece.Part) + upTime(n.Piece.Part) + savedGoods(o, n)
	if o.place == n.place {
		return int64(saved) << 24
	}
	d := (o.Piece.X - n.Piece.X) / measure.Inch
	return int64(saved-slideTime)<<24 - 1<<10 - int64(min(max(d, -d), 1<<10))
}

// pin pairs what cannot slide and need not be touched at all: the same piece in
// the same place with the same goods and strips. Some best pairing has these
// pairs, so that only what changes has to be solved: let i and j be such a pair
// and another pairing have i with x and y with j. Handling keeps to the triangle,
// also by way of stock, so y becomes x for no more than y becomes j and i, which
// is the same thing, becomes x; and i stays for nothing.
func (m *matcher) pin(old, new []*hung) {
	at := map[int][]*hung{}
	for _, n := range new {
		at[n.place] = append(at[n.place], n)
	}
	for _, o := range old {
		for _, n := range at[o.place] {
			if o.cell == 0 && n.partner == nil && o.untouched(n) {
				join(o, n, Stay)
				break
			}
		}
	}
}

// untouched says whether a piece in the same place needs no hand at all.
func (o *hung) untouched(n *hung) bool {
	if len(o.goods) != len(n.goods) || len(o.extras) != len(n.extras) || !o.restsOnSame(n) || o.riding(n, nil) != len(o.extras) {
		return false
	}
	for i, f := range o.goods {
		if g := n.goods[i]; f.ware != g.ware || f.at != g.at || f.Front.Units != g.Front.Units {
			return false
		}
	}
	return true
}

// restsOnSame says whether a piece has under it in both units the same brackets
// in the same places.
func (o *hung) restsOnSame(n *hung) bool {
	return slices.EqualFunc(o.rests, n.rests, func(a, b *hung) bool { return a.kind == b.kind && a.place == b.place })
}

// riding counts the extras of a piece that its partner has too, and hands each
// such pair to found if that is not nil.
func (o *hung) riding(n *hung, found func(a, b *hung)) int {
	taken := make([]bool, len(n.extras))
	count := 0
	for _, a := range o.extras {
		for i, b := range n.extras {
			if !taken[i] && a.kind == b.kind {
				taken[i] = true
				if count++; found != nil {
					found(a, b)
				}
				break
			}
		}
	}
	return count
}

// saves is how many seconds a pair saves, beyond that nothing has to be fetched
// and sent back for it, and the way the piece then takes.
func (m *matcher) saves(o, n *hung) (seconds int, way Way) {
	ride := 0
	if len(o.extras) > 0 && len(n.extras) > 0 {
		o.riding(n, func(a, b *hung) { ride += downTime(a.Piece.Part) + upTime(b.Piece.Part) })
	}
	if !m.rebuild && o.cell == 0 && o.place == n.place && o.restsOnSame(n) {
		return ride + downTime(o.Piece.Part) + upTime(n.Piece.Part) + savedGoods(o, n), Stay
	}
	return ride, Rehang
}

// brackets pairs brackets, those of shelves that stay first.
func (m *matcher) brackets() {
	for _, o := range m.old.pieces {
		if o.partner != nil && o.way == Stay {
			for i, b := range o.rests {
				join(b, o.partner.rests[i], Stay)
			}
		}
	}
	for i := range m.kinds {
		b := &m.kinds[i][bracket]
		m.pair(single(b.old), single(b.new), func(o, n *hung) (int, Way) {
			if o.place == n.place && !m.rebuild {
				return downTime(o.Piece.Part) + upTime(n.Piece.Part), Stay
			}
			return 0, Rehang
		})
	}
}

// extras pairs what is fixed to pieces: it stays or goes along with them where
// it can.
func (m *matcher) extras() {
	for _, o := range m.old.pieces {
		if o.partner == nil {
			continue
		}
		way := Ride
		if o.way == Stay {
			way = Stay
		}
		o.riding(o.partner, func(a, b *hung) { join(a, b, way) })
	}
	for i := range m.kinds {
		b := &m.kinds[i][extra]
		m.pair(single(b.old), single(b.new), rehung)
	}
}

// leftovers pairs pieces of one kind in different roles: a sign holder that
// stood by itself may come onto a shelf.
func (m *matcher) leftovers() {
	for i := range m.kinds {
		var old, new []*hung
		for _, b := range m.kinds[i] {
			old, new = append(old, single(b.old)...), append(new, single(b.new)...)
		}
		m.pair(old, new, rehung)
	}
}

func rehung(_, _ *hung) (int, Way) { return 0, Rehang }

// mostPairs bounds the table of pairs that is solved at once: 2,000 pieces of
// one kind that all change, old and new.
const mostPairs = 4_000_000

// pair pairs as many pieces as it can so that they save the most together, and
// of the ways to do so takes the one that is nearest.
func (m *matcher) pair(old, new []*hung, saves saving) {
	if len(old)*len(new) > mostPairs {
		pairInOrder(old, new, saves)
		return
	}
	for i, k := range solve(old, new, saves) {
		if k >= 0 {
			_, way := saves(old[i], new[k])
			join(old[i], new[k], way)
		}
	}
}

// pairInOrder leaves what can be left and pairs the others in sheet order, where
// there are too many to choose among them. That saves as much, but for strips that
// might have ridden along; only it is not the nearest.
func pairInOrder(old, new []*hung, saves saving) {
	at := map[int]*hung{}
	for _, n := range new {
		at[n.place] = n
	}
	for _, o := range old {
		if n := at[o.place]; n != nil && n.partner == nil {
			if _, way := saves(o, n); way == Stay {
				join(o, n, way)
			}
		}
	}
	old, new = single(old), single(new)
	for i := range min(len(old), len(new)) {
		join(old[i], new[i], Rehang)
	}
}

// saving is how many seconds a pair saves, and the way the piece takes.
type saving func(o, n *hung) (seconds int, way Way)

// solve gives each old piece its new one, by place in the list, -1 for none.
func solve(old, new []*hung, saves saving) []int {
	if len(old) == 0 || len(new) == 0 {
		return nil
	}
	saved, apart := make([][]int64, len(old)), make([][]int64, len(old))
	most := int64(1)
	for i, o := range old {
		saved[i], apart[i] = make([]int64, len(new)), make([]int64, len(new))
		for k, n := range new {
			seconds, way := saves(o, n)
			saved[i][k], apart[i][k] = int64(seconds), o.apart(n, way)
			most = max(most, saved[i][k])
		}
	}
	scale, shift := tieScale(min(len(old), len(new)), most)
	for i := range saved {
		for k, s := range saved[i] {
			saved[i][k] = apart[i][k]>>shift - s*scale
		}
	}
	return assign.Solve(saved).Column
}

// tieScale is what a second counts so that all ties of so many pairs together
// count less, and by how many bits these have to be made coarser for the costs
// to stay small enough. No piece holds more than 100,000 units of goods, so that
// they always can.
func tieScale(pairs int, most int64) (scale int64, shift int) {
	for {
		scale = int64(pairs)*(tieLimit>>shift) + 1
		if scale < assign.Limit/2/most || shift == 16 {
			return scale, shift
		}
		shift++
	}
}

// tieLimit is above every result of apart.
const tieLimit = 1 << 16

// apart is how far a pair is from nothing having to move, to tell between pairs
// that save as much: a piece that is left, one that is slid, a bracket that goes
// with its shelf, the same face, the nearest. Slides count by the square of their
// length, so that two of them do not cross.
func (o *hung) apart(n *hung, way Way) int64 {
	switch way {
	case Stay:
		return 0
	case Slide:
		d := int64((o.Piece.X - n.Piece.X) / (measure.Inch / 2))
		return 1<<14 + min(d*d, 1<<14-1)
	}
	far := int64(1 << 15)
	if o.role == bracket && o.host != nil && (n.host == nil || o.host.partner != n.host) {
		far += 1 << 14
	}
	if o.Face.ID != n.Face.ID {
		far += 1 << 13
	}
	return far + min(int64(distance(o.Solid, n.Solid)/measure.Inch), 1<<13-1)
}
