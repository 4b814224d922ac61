package saw

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
)

// shape is how a bar or sheet is cut, as a solver found it: which parts lie side
// by side, not yet where. Off-cuts are not in it.
type shape struct {
	way    Way
	parts  []shape
	piece  int  // of a shape that is not cut on
	turned bool // it lies across the grain
}

// layer puts a shape on a bar or sheet.
type layer struct {
	*shop
	tally []int // pieces laid so far, by piece
}

// extent is how far a shape reaches along its length and width, with the cuts
// inside it.
func (l *layer) extent(s *shape) (length, width measure.Length) {
	if s.way == Uncut {
		p := l.Pieces[s.piece]
		if s.turned {
			return p.Width, p.Length
		}
		return p.Length, p.Width
	}
	for i := range s.parts {
		pl, pw := l.extent(&s.parts[i])
		last := i == len(s.parts)-1
		if s.way == Cross {
			length, width = length+l.step(Cross, pl, last), max(width, pw)
		} else {
			length, width = max(length, pl), width+l.step(Rip, pw, last)
		}
	}
	return length, width
}

// step is how far from the beginning of a part the next one begins; of the last
// part, how far it reaches.
func (l *layer) step(way Way, size measure.Length, last bool) measure.Length {
	if last {
		return size
	}
	return l.next(way, size)
}

// next is where at the earliest a part may begin after one that size: past the
// saw's cut, and across grooves a whole number of them on.
func (l *layer) next(way Way, size measure.Length) measure.Length {
	if g := l.Stock.Grooves; g > 0 && way == Rip {
		return taken(size, l.Stock.Kerf, g) * g
	}
	return size + l.Stock.Kerf
}

// flat joins what is cut the same way twice over, and puts the largest part
// first: the saw's stop is set from long to short, and what is left stays whole
// as long as it can.
func (l *layer) flat(s shape) shape {
	var parts []shape
	for _, p := range s.parts {
		if p = l.flat(p); p.way == s.way && s.way != Uncut {
			parts = append(parts, p.parts...)
		} else {
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(a, b shape) int {
		al, aw := l.extent(&a)
		bl, bw := l.extent(&b)
		if s.way == Cross {
			return cmp.Or(cmp.Compare(bl, al), cmp.Compare(bw, aw), cmp.Compare(a.first(), b.first()))
		}
		return cmp.Or(cmp.Compare(bw, aw), cmp.Compare(bl, al), cmp.Compare(a.first(), b.first()))
	})
	s.parts = parts
	return s
}

// first is the first piece of a shape, to tell shapes of one size apart.
func (s *shape) first() int {
	if s.way == Uncut {
		return s.piece
	}
	return s.parts[0].first()
}

// root lays a shape on a whole bar or sheet: trimmed first, a sheet along its
// long edges and then across.
func (l *layer) root(s shape, src source) Node {
	r := l.room(src)
	inner := l.node(l.flat(s), Node{X: r.x, Y: r.y, Length: r.length, Width: r.width})
	whole := Node{Length: src.length, Width: src.width}
	ripped := whole
	ripped.X, ripped.Length = r.x, r.length
	return framed(framed(inner, ripped, Rip), whole, Cross)
}

// framed puts what is trimmed off on both sides of a node.
func framed(inner, whole Node, way Way) Node {
	before, after := whole, whole
	before.Kind, after.Kind = Trim, Trim
	if way == Cross {
		before.Length = inner.X - whole.X
		after.X = inner.X + inner.Length
		after.Length = whole.X + whole.Length - after.X
	} else {
		before.Width = inner.Y - whole.Y
		after.Y = inner.Y + inner.Width
		after.Width = whole.Y + whole.Width - after.Y
	}
	if sizeAlong(way, &before) == 0 && sizeAlong(way, &after) == 0 {
		return inner
	}
	whole.Way = way
	for _, n := range []Node{before, inner, after} {
		if sizeAlong(way, &n) > 0 {
			whole.Parts = append(whole.Parts, n)
		}
	}
	return whole
}

func sizeAlong(way Way, n *Node) measure.Length {
	if way == Cross {
		return n.Length
	}
	return n.Width
}

// node lays a shape in a rectangle, and says what becomes of the rest of it.
func (l *layer) node(s shape, r Node) Node {
	length, width := l.extent(&s)
	if s.way == Uncut {
		switch {
		case r.Length > length:
			return l.node(shape{way: Cross, parts: []shape{s}}, r)
		case r.Width > width:
			return l.node(shape{way: Rip, parts: []shape{s}}, r)
		}
		l.tally[s.piece]++
		r.Kind, r.Piece, r.Turned = Wanted, s.piece, s.turned
		return r
	}
	if len(s.parts) == 1 && sizeAlong(s.way, &Node{Length: length, Width: width}) == sizeAlong(s.way, &r) {
		return l.node(s.parts[0], r)
	}
	r.Way = s.way
	at := measure.Length(0)
	for i, p := range s.parts {
		pl, pw := l.extent(&p)
		size := sizeAlong(s.way, &Node{Length: pl, Width: pw})
		r.Parts = append(r.Parts, l.node(p, r.slice(at, size)))
		next := at + l.next(s.way, size)
		if i < len(s.parts)-1 {
			r.sliver(at+size, next, l.Stock.Kerf)
			at = next
			continue
		}
		l.rest(&r, at+size, next)
	}
	return r
}

// slice is the part of a rectangle from at on, so large in the way it is cut.
func (n *Node) slice(at, size measure.Length) Node {
	s := Node{X: n.X, Y: n.Y, Length: n.Length, Width: n.Width}
	if n.Way == Cross {
		s.X, s.Length = n.X+at, size
	} else {
		s.Y, s.Width = n.Y+at, size
	}
	return s
}

// sliver adds the waste between a part that ends and the next that begins, if
// the saw's two cuts leave any.
func (n *Node) sliver(end, next, kerf measure.Length) {
	if size := next - end - 2*kerf; size > 0 {
		s := n.slice(end+kerf, size)
		s.Kind = Waste
		n.Parts = append(n.Parts, s)
	}
}

// rest adds what is left past the last part, which ends at end; the next might
// begin at next.
func (l *layer) rest(n *Node, end, next measure.Length) {
	size, kerf := sizeAlong(n.Way, n), l.Stock.Kerf
	if next >= size {
		next = end + kerf
	}
	if next >= size {
		return
	}
	rest := n.slice(next, size-next)
	if l.keeps(&rest) {
		rest.Kind = Kept
		n.sliver(end, next, kerf)
	} else {
		rest = n.slice(end+kerf, size-end-kerf)
		rest.Kind = Waste
	}
	n.Parts = append(n.Parts, rest)
}

// keeps says whether an off-cut is worth keeping.
func (s *shop) keeps(n *Node) bool {
	keep := s.Stock.Keep
	return keep > 0 && n.Length >= keep && (n.Width == 0 || n.Width >= keep)
}
