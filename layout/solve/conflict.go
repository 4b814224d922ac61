package solve

// Conflict says why rows cannot stand: a chain of rows, each ordered above the
// next, that does not fit between the highest slot of its first and the lowest of
// its last. No smaller set of rows is in conflict. Of several equally small the
// one missing most slots is told, then the one missing most length before
// rounding to slots, then the one with the lowest indexes, read from the top.
type Conflict struct {
	Kind Kind
	Rows []int // indexes into Slots.Rows, from the top down
	// Short is the length missing in nanometres: that by which the rows' needs
	// exceed the room, or, when they would fit but for the slots, that which is
	// missing once every height is on a slot.
	Short int64
}

// Kind is the kind of a Conflict.
type Kind uint8

// The kinds of conflict.
const (
	Alone    Kind = iota // one row has no slot of its own: its limits exclude each other or its pin
	Reversed             // the upper row must stand lower than the lower one may, however little they need
	Crowded              // the rows are in order but need more room than there is
)

// climb is how far up a chain of rows pushes its top row at least: in slots, and
// in nanometres when slots are ignored.
type climb struct {
	slots  int
	height int64
	set    bool
}

func (a climb) less(b climb) bool {
	if a.set != b.set {
		return b.set
	}
	if a.slots != b.slots {
		return a.slots < b.slots
	}
	return a.height < b.height
}

// conflict finds the shortest chain that does not fit, by the length of the
// chain: an unfit set of rows always holds an unfit chain. There must be one.
func (g *graph) conflict(p Slots) *Conflict {
	level := make([]climb, len(p.Rows))
	for i := range level {
		lo, _ := p.limits(i)
		level[i] = climb{lo, p.height(lo), true}
	}
	for levels := [][]climb{level}; ; levels = append(levels, level) {
		if top, ok := p.worst(level); ok {
			return g.trace(p, levels, top)
		}
		next := make([]climb, len(p.Rows))
		for upper, lowers := range g.below {
			for _, lower := range lowers {
				if c := p.onto(level[lower], upper, lower); next[upper].less(c) {
					next[upper] = c
				}
			}
		}
		level = next
	}
}

// onto extends a chain that ends at lower by the row upper.
func (p Slots) onto(c climb, upper, lower int) climb {
	if !c.set {
		return c
	}
	need := p.need(upper, lower)
	return climb{c.slots + p.steps(need), c.height + need, true}
}

// miss is by how much a chain pushes its top row above its limit.
func (p Slots) miss(c climb, top int) climb {
	_, hi := p.limits(top)
	return climb{c.slots - hi, c.height - p.height(hi), c.set}
}

// worst is the row pushed furthest above its limit, if any is.
func (p Slots) worst(level []climb) (row int, ok bool) {
	var most climb
	for i, c := range level {
		if m := p.miss(c, i); m.set && m.slots > 0 && most.less(m) {
			row, most, ok = i, m, true
		}
	}
	return row, ok
}

// trace follows the chain that ends at top back down.
func (g *graph) trace(p Slots, levels [][]climb, top int) *Conflict {
	last := len(levels) - 1
	c := &Conflict{Kind: Crowded, Rows: []int{top}}
	miss := p.miss(levels[last][top], top)
	if c.Short = miss.height; c.Short <= 0 {
		c.Short = int64(miss.slots) * p.Pitch
	}
	row := top
	for ; last > 0; last-- {
		for _, lower := range g.below[row] {
			if p.onto(levels[last-1][lower], row, lower) == levels[last][row] {
				row = lower
				break
			}
		}
		c.Rows = append(c.Rows, row)
	}
	lo, _ := p.limits(row)
	_, hi := p.limits(top)
	switch {
	case row == top:
		c.Kind = Alone
	case hi < lo:
		c.Kind = Reversed
	}
	return c
}
