package boards

import "math/bits"

// placer puts blocks on a board and says how the saw gets there.
type placer struct {
	lies   []gridLie
	kerf   int64
	wanted [][]int // of each kind: pieces of the job still to be placed, one entry each
}

// rect is a part of a board, a kerf longer and wider than it is.
type rect struct{ from, size [2]int64 }

// fits tells whether a layout fits a board within the stages. One worked out on rounded
// sizes might not.
func (s *shop) fits(lies []gridLie, l *block, b int) bool {
	room := s.boards[b].size
	size := l.size(lies)
	if size[along] > room[along] || size[across] > room[across] {
		return false
	}
	_, stages := split(lies, l, room, s.stages)
	return stages <= s.stages
}

// split decides whether a board is first parted in two, the layout and one large
// off-cut, before the layout's own cuts are made: only then is what is left over in both
// directions not part of each strip. It gives the stages that all of it takes.
func split(lies []gridLie, l *block, room [2]int64, most int) (first bool, stages int) {
	size := l.size(lies)
	if l.parts == nil {
		for a := range size {
			if size[a] < room[a] {
				stages++
			}
		}
		return false, stages
	}
	other := l.axis.other()
	if size[other] < room[other] {
		if stages = 1 + l.depth(lies, size[other]); stages <= most {
			return true, stages
		}
	}
	return false, l.depth(lies, room[other])
}

// board places a layout on a whole board.
func (p *placer) board(l *block, b board, trim int64, stages int) Node {
	return p.place(l, rect{[2]int64{trim, trim}, b.size}, stages)
}

// place places a block in a rectangle that is no smaller, by so many stages at most.
func (p *placer) place(b *block, in rect, stages int) Node {
	size := b.size(p.lies)
	if b.parts != nil {
		if first, _ := split(p.lies, b, in.size, stages); first {
			return p.row(b.axis.other(), []*block{b}, in, stages)
		}
		return p.row(b.axis, b.parts, in, stages)
	}
	if size == in.size {
		return p.piece(p.lies[b.lie].kind, in)
	}
	a := along // the first cut is that which leaves more
	if more(in.size[across]-size[across], in.size[along], in.size[along]-size[along], in.size[across]) {
		a = across
	}
	return p.row(a, []*block{b}, in, stages)
}

// more tells whether a times b is more than c times d.
func more(a, b, c, d int64) bool {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	hi2, lo2 := bits.Mul64(uint64(c), uint64(d))
	return hi > hi2 || hi == hi2 && lo > lo2
}

// row places blocks from the low end of a rectangle and keeps what is left over.
func (p *placer) row(a axis, parts []*block, in rect, stages int) Node {
	if len(parts) == 1 && parts[0].size(p.lies)[a] == in.size[a] {
		return p.place(parts[0], in, stages)
	}
	n := p.node(in)
	n.Cut = [...]Cut{along: Cross, across: Rip}[a]
	for _, b := range parts {
		part := in
		part.size[a] = b.size(p.lies)[a]
		n.Parts = append(n.Parts, p.place(b, part, stages-1))
		in.from[a] += part.size[a]
		in.size[a] -= part.size[a]
	}
	if in.size[a] > p.kerf {
		n.Parts = append(n.Parts, p.node(in))
	}
	return n
}

func (p *placer) node(in rect) Node {
	return Node{X: in.from[along], Y: in.from[across], Length: in.size[along] - p.kerf, Width: in.size[across] - p.kerf, Piece: Offcut}
}

// piece makes a rectangle the next piece of a kind.
func (p *placer) piece(kind int, in rect) Node {
	n := p.node(in)
	n.Piece = p.wanted[kind][0]
	p.wanted[kind] = p.wanted[kind][1:]
	return n
}
