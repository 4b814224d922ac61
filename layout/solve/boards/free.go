package boards

// free finds the most that each board can give, at a value for each kind, by any
// number of stages of cuts: for every rectangle of points the best of a piece, of a
// smaller rectangle and of two parts (P. C. Gilmore and R. E. Gomory, Operations
// Research 14, 1966; J. E. Beasley, Journal of the Operational Research Society 36,
// 1985; G. F. Cintra and others, European Journal of Operational Research 191, 2008).
// No piece is limited in number.
type free struct {
	grid  *grid
	value []int64
	worth []int64 // of rectangles, by length and then width
	steps *int64
}

func newFree(g *grid, steps *int64) *free {
	return &free{grid: g, worth: make([]int64, len(g.rulers[along].at)*len(g.rulers[across].at)), steps: steps}
}

// row gives the rectangles of one length.
func (f *free) row(i int) []int64 {
	n := len(f.grid.rulers[across].at)
	return f.worth[i*n : i*n+n]
}

// price works the values of all rectangles out.
func (f *free) price(value []int64) {
	f.value = value
	clear(f.worth)
	starts := make([][]int, len(f.grid.rulers[along].at)) // lies by their length
	for i, l := range f.grid.lies {
		if l.at[along] > 0 && l.at[across] > 0 {
			starts[l.at[along]] = append(starts[l.at[along]], i)
		}
	}
	var lengths []int // at which rectangles become worth more
	for i := 1; i < len(starts); i++ {
		row, before := f.row(i), f.row(i-1)
		copy(row, before)
		for _, l := range starts[i] {
			at := f.grid.lies[l].at[across]
			row[at] = max(row[at], value[f.grid.lies[l].kind])
		}
		f.crosscut(row, i, lengths)
		f.rip(row)
		for j := range row {
			if row[j] != before[j] {
				lengths = append(lengths, i)
				break
			}
		}
	}
}

// crosscut takes the best of all cuts that part the length i.
func (f *free) crosscut(row []int64, i int, lengths []int) {
	r := &f.grid.rulers[along]
	left := r.left(i)
	for _, a := range lengths {
		if 2*r.at[a] > r.at[i] {
			break
		}
		low, high := f.row(a), f.row(int(left[a]))
		high = high[:len(low)]
		row = row[:len(low)]
		for j, v := range low {
			if v += high[j]; v > row[j] {
				row[j] = v
			}
		}
		*f.steps += int64(len(row))
	}
}

// rip takes the best of all cuts that part the width, from the narrowest rectangle on.
func (f *free) rip(row []int64) {
	r := &f.grid.rulers[across]
	var widths []int // at which rectangles become worth more
	for j := 1; j < len(row); j++ {
		v, left := max(row[j], row[j-1]), r.left(j)
		for _, b := range widths {
			if 2*r.at[b] > r.at[j] {
				break
			}
			v = max(v, row[b]+row[left[b]])
		}
		if row[j] = v; v > row[j-1] {
			widths = append(widths, j)
		}
		*f.steps += int64(len(widths))
	}
}

func (f *free) best(b int) int64 {
	return f.row(f.grid.boards[b][along])[f.grid.boards[b][across]]
}

func (f *free) layouts(b int) []*block {
	if f.best(b) == 0 {
		return nil
	}
	return []*block{f.trace(f.grid.boards[b])}
}

// trace finds how a rectangle comes to its worth.
func (f *free) trace(end [2]int) *block {
	v := f.row(end[along])[end[across]]
	if v == 0 {
		return nil
	}
	for f.row(end[along] - 1)[end[across]] == v {
		end[along]--
	}
	row := f.row(end[along])
	for row[end[across]-1] == v {
		end[across]--
	}
	for i, l := range f.grid.lies {
		if l.at == end && f.value[l.kind] == v {
			return &block{lie: i}
		}
	}
	for a := along; a <= across; a++ {
		left := f.grid.rulers[a].left(end[a])
		for at := 1; at < end[a]; at++ {
			one, two := end, end
			one[a], two[a] = at, int(left[at])
			if f.row(one[along])[one[across]]+f.row(two[along])[two[across]] == v {
				return join(a, f.trace(one), f.trace(two))
			}
		}
	}
	panic("boards: a rectangle's worth has no source")
}
