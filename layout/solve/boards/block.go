package boards

// block is a layout while it is being worked out: parts side by side, or one piece.
// It holds no places: how large it is follows from its pieces, and what is left over
// from where it is put.
type block struct {
	axis  axis // the parts follow one another in this direction
	parts []*block
	lie   int // of a piece: no parts
}

// size is what a block takes, with kerf.
func (b *block) size(lies []gridLie) [2]int64 {
	if b.parts == nil {
		return lies[b.lie].size
	}
	var all [2]int64
	for _, p := range b.parts {
		size := p.size(lies)
		all[b.axis] += size[b.axis]
		all[b.axis.other()] = max(all[b.axis.other()], size[b.axis.other()])
	}
	return all
}

// join puts parts side by side, leaving out what is nothing. What comes of parts
// already side by side in that direction becomes part of the row.
func join(a axis, parts ...*block) *block {
	b := &block{axis: a}
	for _, p := range parts {
		switch {
		case p == nil:
		case p.parts != nil && p.axis == a:
			b.parts = append(b.parts, p.parts...)
		default:
			b.parts = append(b.parts, p)
		}
	}
	return stack(a, b.parts)
}

// stack puts blocks one after another without taking them apart.
func stack(a axis, parts []*block) *block {
	switch len(parts) {
	case 0:
		return nil
	case 1:
		return parts[0]
	}
	return &block{axis: a, parts: parts}
}

// count adds how many of each kind a block gives.
func (b *block) count(lies []gridLie, to []int) {
	if b == nil {
		return
	}
	if b.parts == nil {
		to[lies[b.lie].kind]++
	}
	for _, p := range b.parts {
		p.count(lies, to)
	}
}

// within drops the pieces that are no longer wanted and takes the others off what is.
func (b *block) within(lies []gridLie, wanted []int) *block {
	if b == nil {
		return nil
	}
	if b.parts == nil {
		if k := lies[b.lie].kind; wanted[k] > 0 {
			wanted[k]--
			return b
		}
		return nil
	}
	var kept []*block
	for _, p := range b.parts {
		if p = p.within(lies, wanted); p != nil {
			kept = append(kept, p)
		}
	}
	return stack(b.axis, kept)
}

// depth is how many stages of cuts take a block out of a rectangle of a width that may be
// more than its own, and of any length in the direction of its parts.
func (b *block) depth(lies []gridLie, width int64) int {
	deepest := 0
	for _, p := range b.parts {
		size := p.size(lies)
		switch {
		case p.parts == nil && size[b.axis.other()] < width:
			deepest = max(deepest, 1)
		case p.parts == nil:
		case p.axis == b.axis:
			deepest = max(deepest, p.depth(lies, width)-1)
		default:
			deepest = max(deepest, p.depth(lies, size[b.axis]))
		}
	}
	return deepest + 1
}

// renumbered is a block with other numbers for its lies.
func (b *block) renumbered(lies []int) *block {
	if b.parts == nil {
		return &block{lie: lies[b.lie]}
	}
	c := &block{axis: b.axis}
	for _, p := range b.parts {
		c.parts = append(c.parts, p.renumbered(lies))
	}
	return c
}
