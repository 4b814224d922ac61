package boards

import "slices"

// filler cuts one board into pieces that are all still wanted, for a high value: strips
// of up to three stages, each chosen by what strips of its width could make of the rest
// of the board. It is no optimum.
type filler struct {
	*staged
	left  []int // of each kind, still wanted
	board int
	worth []int64 // scratch: by point of the strip
	taken []bool  // scratch: by offer and point
}

// offer is a part that a strip may have once.
type offer struct {
	block *block
	at    int // on the ruler, how long it is
	value int64
}

// fill fills a board both ways and keeps the better. What it takes is no longer wanted
// in left.
func (s *staged) fillBoard(b int, value []int64, left []int) *block {
	s.value = slices.Clone(value)
	for k, n := range left {
		if n == 0 {
			s.value[k] = 0
		}
	}
	s.stacks()
	var best *block
	most, rest := int64(0), []int(nil)
	for a := along; a <= across; a++ {
		f := &filler{staged: s, left: slices.Clone(left), board: b}
		if l, v := f.strips(a); v > most {
			best, most, rest = l, v, f.left
		}
	}
	if best != nil {
		copy(left, rest)
	}
	return best
}

// stacks prices the strips of level 1 alone.
func (s *staged) stacks() {
	if s.top == 1 {
		return
	}
	for a := along; a <= across; a++ {
		for w := range s.tables[1][a] {
			s.strip(1, a, w)
		}
	}
}

// strips fills a board with strips that follow one another in direction a.
func (f *filler) strips(a axis) (*block, int64) {
	if f.top == 1 {
		return f.single(a)
	}
	var rows []*block
	sum := int64(0)
	for room := f.grid.boards[f.board][a]; room > 0; {
		row, at, value := f.next(a, room)
		if row == nil {
			break
		}
		row.within(f.lies(), f.left)
		rows, sum = append(rows, row), sum+value
		room = int(f.grid.rulers[a].left(room)[at])
	}
	return stack(a, rows), sum
}

func (f *filler) lies() []gridLie { return f.grid.lies }

// single fills a board that is one strip of pieces as wide as itself.
func (f *filler) single(a axis) (*block, int64) {
	w := f.grid.fitting(f.board, a.other())
	if w < 0 {
		return nil, 0
	}
	row, value := f.knapsack(a, f.grid.boards[f.board][a], f.pieces(a, w))
	row.within(f.lies(), f.left)
	return row, value
}

// next chooses the next strip of at most room: the one of most value in the best
// filling of the room with strips that may be cut again and again.
func (f *filler) next(a axis, room int) (row *block, at int, value int64) {
	var items []item
	end := f.grid.boards[f.board][a.other()]
	for _, w := range f.widths(a, room) {
		if v := f.worthOf(a.other(), end, f.offers(a, w)); v > 0 {
			items = append(items, item{w, w, v})
		}
	}
	line := make([]int64, room+1)
	f.fill(line, a, items)
	best := item{}
	for i := room; line[i] > 0; {
		if line[i-1] == line[i] {
			i--
			continue
		}
		left := f.grid.rulers[a].left(i)
		for _, it := range items {
			if it.at <= i && line[left[it.at]]+it.value == line[i] {
				if i = int(left[it.at]); it.value > best.value {
					best = it
				}
				break
			}
		}
	}
	if best.value == 0 {
		return nil, 0, 0
	}
	row, value = f.knapsack(a.other(), end, f.offers(a, best.at))
	return row, best.at, value
}

// widths lists the widths that a strip might well have: those of stacks of one class,
// or of single pieces if there is no third stage.
func (f *filler) widths(a axis, room int) []int {
	useful := make([]bool, room+1)
	if f.top == 2 {
		for _, l := range f.lies() {
			if f.wants(l) && l.at[a] <= room {
				useful[l.at[a]] = true
			}
		}
	} else {
		for _, line := range f.tables[1][a] {
			for i := 1; i <= room; i++ {
				useful[i] = useful[i] || line[i] > line[i-1]
			}
		}
	}
	var widths []int
	for i, u := range useful {
		if u {
			widths = append(widths, i)
		}
	}
	return widths
}

// wants tells whether a lie would help.
func (f *filler) wants(l gridLie) bool {
	return l.at[along] > 0 && l.at[across] > 0 && f.left[l.kind] > 0 && f.value[l.kind] > 0
}

// offers lists what a strip that is w wide in direction a may be made of: of each class
// one stack after another until what is wanted of it is used up or the board is full.
func (f *filler) offers(a axis, w int) []offer {
	o := a.other()
	if f.top == 2 {
		for _, l := range f.lies() {
			if l.at[a] == w && f.wants(l) {
				return f.pieces(o, l.class[a])
			}
		}
		return nil
	}
	var offers []offer
	at := make([]int, len(f.tables[1][a]))
	for _, l := range f.lies() {
		at[l.class[o]] = l.at[o]
	}
	for c, line := range f.tables[1][a] {
		if line[w] == 0 || at[c] <= 0 {
			continue
		}
		left := slices.Clone(f.left)
		items := f.items(1, a, c)
		for room := f.grid.boards[f.board][o]; room >= at[c]; room = int(f.grid.rulers[o].left(room)[at[c]]) {
			b, value := f.pile(a, w, items, left)
			if b == nil {
				break
			}
			offers = append(offers, offer{b, at[c], value})
		}
	}
	return offers
}

// pile stacks pieces of one class up to w, the largest first, and takes them off left.
func (f *filler) pile(a axis, w int, items []item, left []int) (*block, int64) {
	var parts []*block
	value := int64(0)
	for _, it := range slices.Backward(items) {
		kind := f.lies()[it.which].kind
		for it.at <= w && left[kind] > 0 {
			parts, value = append(parts, &block{lie: it.which}), value+it.value
			left[kind]--
			w = int(f.grid.rulers[a].left(w)[it.at])
		}
	}
	*f.steps += int64(20 + len(f.left) + len(items) + 20*len(parts)) // allocations among them
	return stack(a, parts), value
}

// pieces offers the pieces of one class of widths, each as often as it is wanted.
func (f *filler) pieces(a axis, class int) []offer {
	var offers []offer
	end := f.grid.boards[f.board][a]
	for i, l := range f.lies() {
		if l.class[a.other()] != class || !f.wants(l) {
			continue
		}
		n := f.left[l.kind]
		for room := end; n > 0 && room >= l.at[a]; n-- {
			offers = append(offers, offer{&block{lie: i}, l.at[a], f.value[l.kind]})
			room = int(f.grid.rulers[a].left(room)[l.at[a]])
		}
	}
	return offers
}

// worthOf is the most that offers up to end are worth together.
func (f *filler) worthOf(a axis, end int, offers []offer) int64 {
	f.run(a, end, offers, false)
	return f.worth[end]
}

// run is the knapsack of offers that can be taken once each.
func (f *filler) run(a axis, end int, offers []offer, note bool) {
	if len(f.worth) <= end {
		f.worth = make([]int64, end+1)
	}
	clear(f.worth)
	if note {
		f.taken = make([]bool, len(offers)*(end+1))
	}
	at := f.grid.rulers[a].at
	for n, o := range offers {
		for i, left := end, end; i >= o.at; i-- {
			for at[left] > at[i]-at[o.at] {
				left--
			}
			if v := f.worth[left] + o.value; v > f.worth[i] {
				f.worth[i] = v
				if note {
					f.taken[n*(end+1)+i] = true
				}
			}
		}
	}
	*f.steps += int64(len(offers) * (end + 1))
}

// knapsack chooses the offers that are worth most together. A piece that may lie two
// ways may be offered twice; it is then taken no more often than it is wanted.
func (f *filler) knapsack(a axis, end int, offers []offer) (*block, int64) {
	f.run(a, end, offers, true)
	var parts []*block
	i := end
	for n := len(offers) - 1; n >= 0; n-- {
		if f.taken[n*(end+1)+i] {
			parts = append(parts, offers[n].block)
			i = int(f.grid.rulers[a].left(i)[offers[n].at])
		}
	}
	slices.Reverse(parts)
	row := stack(a, parts).within(f.lies(), slices.Clone(f.left))
	return row, f.valueOf(row)
}

func (f *filler) valueOf(b *block) int64 {
	if b == nil {
		return 0
	}
	if b.parts == nil {
		return f.value[f.lies()[b.lie].kind]
	}
	sum := int64(0)
	for _, p := range b.parts {
		sum += f.valueOf(p)
	}
	return sum
}
