package solve

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

const (
	inch  = 25_400_000
	panel = 60 * inch
)

// gridPanel is a 60 in wire-grid panel over a 6 in deck, without rows.
func gridPanel() Slots {
	return Slots{First: 7 * inch, Pitch: 3 * inch, Count: 20, Top: 66 * inch, Bottom: 6 * inch}
}

// stacks makes separate stacks of ten rows, each tight enough to matter.
func stacks(n int) Slots {
	r := rand.New(rand.NewPCG(uint64(n), 4))
	p := gridPanel()
	for s := range n {
		for i := range 10 {
			row := Row{Lo: 1, Hi: p.Count, Above: int64(r.IntN(4*inch)) + inch, Below: int64(r.IntN(inch))}
			if r.IntN(4) == 0 {
				row.Wish, row.HasWish = 6*inch+int64(r.IntN(panel)), true
			}
			p.Rows = append(p.Rows, row)
			for above := range i {
				p.Orders = append(p.Orders, Order{s*10 + above, s*10 + i})
			}
		}
	}
	return p
}

// weave makes one component of rows over many bays: four of a bay's own, and one
// that it shares with the next.
func weave(rows int) Slots {
	r := rand.New(rand.NewPCG(uint64(rows), 5))
	p := gridPanel()
	bays, level := make([][]int, rows/5+2), r.Perm(rows)
	for i := range rows {
		b := i / 5
		row := Row{Lo: 1, Hi: p.Count, Above: int64(r.IntN(2*inch)) + inch, Below: int64(r.IntN(inch))}
		if r.IntN(4) == 0 {
			row.Wish, row.HasWish = 6*inch+int64(r.IntN(panel)), true
		}
		p.Rows = append(p.Rows, row)
		spans := []int{b}
		if i%5 == b%5 {
			spans = append(spans, b+1)
		}
		for _, bay := range spans {
			for _, other := range bays[bay] {
				upper, lower := i, other
				if level[i] < level[other] {
					upper, lower = other, i
				}
				p.Orders = append(p.Orders, Order{upper, lower})
			}
			bays[bay] = append(bays[bay], i)
		}
	}
	return p
}

func benchSlots(b *testing.B, p Slots) {
	if _, c := p.Place(); c != nil {
		b.Fatalf("no arrangement: %+v", c)
	}
	b.ReportAllocs()
	for b.Loop() {
		p.Place()
	}
}

func BenchmarkSlots1000Rows(b *testing.B) { benchSlots(b, stacks(100)) }

func BenchmarkSlotsGrowth(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		b.Run(fmt.Sprintf("stacks=%d", n), func(b *testing.B) { benchSlots(b, stacks(n)) })
	}
	for _, n := range []int{75, 300, 1200} {
		b.Run(fmt.Sprintf("component=%d", n), func(b *testing.B) { benchSlots(b, weave(n)) })
	}
}

// BenchmarkSlotsFine puts a chain on a panel with a slot every millimetre.
func BenchmarkSlotsFine(b *testing.B) {
	p := stacks(1)
	p.Pitch, p.Count = 1_000_000, 1500
	for i := range p.Rows {
		p.Rows[i].Hi = p.Count
	}
	benchSlots(b, p)
}

// hooks makes pieces along one long run of 24 in wire-grid bays, a vertical wire
// every 3 in, with targets a little closer than the pieces are wide now and then.
func hooks(n int) Places {
	r := rand.New(rand.NewPCG(uint64(n), 6))
	const width = 4 * inch
	run := int64(n+8) * width
	p := Places{Lattice: Lattice{Step: inch / 16}}
	for i := range n {
		p.Targets = append(p.Targets, int64(i+2)*width+int64(r.IntN(inch))-inch/2)
		p.Lo, p.Hi = append(p.Lo, 0), append(p.Hi, run)
		if i > 0 {
			p.Gaps = append(p.Gaps, width*19/20)
		}
	}
	for x := int64(0); x < run; x += 3 * inch {
		p.Blocked = append(p.Blocked, Interval{x - inch/4, x + inch/4})
		p.Columns = append(p.Columns, x+inch)
	}
	return p
}

func benchPlaces(b *testing.B, p Places) {
	if _, ok := p.Solve(); !ok {
		b.Fatal("no places")
	}
	b.ReportAllocs()
	for b.Loop() {
		p.Solve()
	}
}

func BenchmarkPlaces10000(b *testing.B) { benchPlaces(b, hooks(10000)) }

func BenchmarkPlacesGrowth(b *testing.B) {
	for _, n := range []int{100, 1000, 30_000} {
		b.Run(fmt.Sprintf("pieces=%d", n), func(b *testing.B) { benchPlaces(b, hooks(n)) })
	}
}

// BenchmarkPlacesCrowded pushes a bay's pieces well off their targets: all in one
// block, on a lattice as fine as lengths go.
func BenchmarkPlacesCrowded(b *testing.B) {
	for _, n := range []int{25, 100, 400, 1600} {
		b.Run(fmt.Sprintf("pieces=%d", n), func(b *testing.B) {
			p := hooks(n)
			p.Lattice = Lattice{}
			for i := range p.Targets {
				p.Targets[i] = p.Targets[i] * 3 / 4
			}
			benchPlaces(b, p)
		})
	}
}
