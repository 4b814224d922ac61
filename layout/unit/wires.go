package unit

import "slices"

// maxHung bounds how many sets of fronts are looked at to find the best that
// hangs between the wires of a panel.
const maxHung = 200_000

// hanger looks for the best fronts of one row of single pieces among all sets
// whose widths fit, not only the best by width, that find places on the panel.
type hanger struct {
	fill  *filling
	bin   *bin
	rest  []int64 // by choice: the greatest worth of it and those after it
	dense []int64 // the greatest worth of theirs per million of room, rounded up
	set   []int   // the set being looked at
	seen  int
}

// bestHanging improves on fronts that hang, in a row of single pieces by itself,
// and reports whether nothing better hangs. The bin has its full room again.
func (fill *filling) bestHanging(room int64) bool {
	if len(fill.bins) != 1 || !single(fill.bins[0].d.part.Kind) {
		return false
	}
	fill.bins[0].room = room
	n := len(fill.choices)
	h := &hanger{fill: fill, bin: fill.bins[0], rest: make([]int64, n+1), dense: make([]int64, n+1), set: make([]int, n)}
	for i := n - 1; i >= 0; i-- {
		c := fill.choices[i]
		most := int64(0)
		h.dense[i] = h.dense[i+1]
		for _, o := range c.options {
			most = max(most, o.value)
			h.dense[i] = max(h.dense[i], o.value*million/o.bin.width(c.product, o.fronts)+1)
		}
		h.rest[i] = h.rest[i+1] + most
	}
	h.look(0, 0, room, h.bin.load)
	return h.seen < maxHung
}

// million keeps the worth of a unit of room, which is in nanometres, a whole
// number worth having: a value of at most a thousand million times it still fits.
const million = 1_000_000

// look tries every option of choice i and of those after it.
func (h *hanger) look(i int, value, room, load int64) {
	if h.seen++; h.seen >= maxHung {
		return
	}
	if i == len(h.set) {
		if value > h.fill.value && h.bin.d.hangs(h.fill.frontsIn(0, h.set)) {
			h.fill.value, h.fill.chosen = value, slices.Clone(h.set)
		}
		return
	}
	if value+min(h.rest[i], room/million*h.dense[i]+h.dense[i]) <= h.fill.value {
		return
	}
	c := h.fill.choices[i]
	for k := len(c.options) - 1; k >= 0; k-- {
		o := &c.options[k]
		width, weight := h.bin.width(c.product, o.fronts), h.bin.weight(c.product, o.fronts, o.units)
		if width <= room && (h.bin.load == 0 || weight <= load) {
			h.set[i] = k
			h.look(i+1, value+o.value, room-width, load-weight)
		}
	}
	if !h.fill.listed {
		h.set[i] = -1
		h.look(i+1, value, room, load)
	}
}
