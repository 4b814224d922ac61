package solve

import "fmt"

// Row is one row of hardware to be placed on a slot. Slots count from 1 at the
// bottom; lengths are nanometres.
type Row struct {
	Lo, Hi       int   // slots allowed, inclusive; with Lo > Hi the row cannot stand at all
	Pin          int   // 0 when free, else the one slot to stand on
	Wish         int64 // height wished for, read when HasWish
	HasWish      bool
	Above, Below int64 // room needed over and under the slot's line; the sum is not negative
}

// Order says that row Upper stays above row Lower, because they overlap
// sideways: their heights differ by at least Below of the upper and Above of the
// lower. Both are indexes into Slots.Rows.
type Order struct{ Upper, Lower int }

// Slots asks for the slot of every row of a face. Lengths are nanometres and
// heights are measured from one datum.
//
// The answer keeps every limit and order, and among all that do:
//
//  1. the total distance of rows from the heights wished for is least;
//  2. then spare room is shared as evenly as the slots allow: the sum of the
//     squares of all spare gaps is least. There is a gap between each two rows
//     with no third between them in the order, one from Top to each row with
//     nothing above it, and one from each row with nothing below it to Bottom.
//     A row that reaches past Top or Bottom leaves no spare there;
//  3. then every row stands as low as it can: of all arrangements equal so far
//     one is the lowest for every row at once.
//
// The orders form no cycle.
type Slots struct {
	First, Pitch int64 // height of slot 1, distance between slots
	Count        int   // slots 1..Count
	Top, Bottom  int64 // heights between which spare room is shared
	Rows         []Row
	Orders       []Order
}

// maxLength bounds every length given, far above the hundred metres a plan may
// hold, so that sums of a million of them fit an int64.
const maxLength = int64(1) << 43

// Place returns the slot of each row, or why there is none. It panics when the
// orders form a cycle or name no row, when a row's Above and Below sum to less
// than nothing, or when a length exceeds some eight kilometres.
func (p Slots) Place() ([]int, *Conflict) {
	p.mustBeSound()
	g := newGraph(p)
	lo, hi, fits := g.bounds(p)
	if !fits {
		return nil, g.conflict(p)
	}
	at := make([]int, len(p.Rows))
	for _, rows := range g.stacks() {
		s := newStack(p, g, rows, lo, hi)
		s.descend()
		for i, row := range rows {
			at[row] = s.at[i]
		}
	}
	return at, nil
}

// height of a slot.
func (p Slots) height(slot int) int64 { return p.First + int64(slot-1)*p.Pitch }

// need is the least difference in height between the two rows of an order.
func (p Slots) need(upper, lower int) int64 { return p.Rows[upper].Below + p.Rows[lower].Above }

// steps is the least number of slots that spans a need.
func (p Slots) steps(need int64) int { return int(ceilDiv(need, p.Pitch)) }

// limits are the slots row i may stand on, orders aside; none when lo > hi, and
// then lo-hi slots are missing.
func (p Slots) limits(i int) (lo, hi int) {
	r := p.Rows[i]
	lo, hi = max(r.Lo, 1), min(r.Hi, p.Count)
	if r.Pin != 0 {
		lo, hi = max(lo, r.Pin), min(hi, r.Pin)
	}
	return lo, hi
}

func (p Slots) mustBeSound() {
	if p.Pitch <= 0 || p.Pitch > maxLength || p.Count < 0 || int64(p.Count) > maxLength/p.Pitch {
		panic(fmt.Sprintf("solve: %d slots %d apart", p.Count, p.Pitch))
	}
	mustBeShort(p.First, p.Top, p.Bottom)
	for i, r := range p.Rows {
		mustBeShort(r.Wish, r.Above, r.Below)
		if r.Above+r.Below < 0 {
			panic(fmt.Sprintf("solve: row %d needs less than no room", i))
		}
		lo, hi := p.limits(i)
		if far := int(maxLength / p.Pitch); max(lo, hi) > far || min(lo, hi) < -far {
			panic(fmt.Sprintf("solve: row %d is limited to slots %d to %d", i, lo, hi))
		}
	}
	for _, o := range p.Orders {
		if min(o.Upper, o.Lower) < 0 || max(o.Upper, o.Lower) >= len(p.Rows) {
			panic(fmt.Sprintf("solve: order %v of %d rows", o, len(p.Rows)))
		}
	}
}

func mustBeShort(lengths ...int64) {
	for _, l := range lengths {
		if l < -maxLength || l > maxLength {
			panic(fmt.Sprintf("solve: length %d out of range", l))
		}
	}
}

// ceilDiv is a/b rounded up, for b > 0.
func ceilDiv(a, b int64) int64 { return -floorDiv(-a, b) }

// floorDiv is a/b rounded down, for b > 0.
func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
