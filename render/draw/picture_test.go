package draw

import (
	"math/rand"
	"slices"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/unit"
)

// apart reports by which axis two boxes are parted, if by exactly one plane
// the first is certainly behind the second.
func certainlyBehind(a, b *block3) bool {
	behind := a.X1 <= b.X0 || a.Y0 >= b.Y1 || a.Z1 <= b.Z0
	before := b.X1 <= a.X0 || b.Y0 >= a.Y1 || b.Z1 <= a.Z0
	return behind && !before
}

func randomBlocks(rnd *rand.Rand, n int) []*block3 {
	var list []*block3
	for range n {
		x, y, z := measure.Length(rnd.Intn(40)), measure.Length(rnd.Intn(40)), measure.Length(rnd.Intn(40))
		size := func() measure.Length { return measure.Length(1 + rnd.Intn(12)) }
		b := &block3{Solid: unit.Solid{X0: x * mm, X1: (x + size()) * mm, Y0: y * mm, Y1: (y + size()) * mm, Z0: z * mm, Z1: (z + size()) * mm}}
		b.silhouette()
		list = append(list, b)
	}
	return list
}

// Every box comes out once, and for boxes in a stack or a row, where no ring
// is possible, what is behind is drawn before what hides it.
func TestPainterOrder(t *testing.T) {
	rnd := rand.New(rand.NewSource(3))
	for range 200 {
		list := randomBlocks(rnd, 2) // two boxes never make a ring
		order := painter(list)
		if len(order) != 2 {
			t.Fatalf("%d boxes of 2", len(order))
		}
		if order[0].overlaps(order[1]) && certainlyBehind(order[1], order[0]) {
			t.Fatalf("%+v is drawn before %+v, which is behind it", order[0].Solid, order[1].Solid)
		}
	}
	for range 50 {
		list := randomBlocks(rnd, 60)
		order := painter(list)
		for _, b := range list {
			if !slices.Contains(order, b) {
				t.Fatal("a box was lost")
			}
		}
		if len(order) != len(list) {
			t.Fatalf("%d boxes of %d", len(order), len(list))
		}
	}
}

// A shelf unit, boxes on boards on a wall: no ring, so every pair must be right.
func TestPainterShelves(t *testing.T) {
	var list []*block3
	add := func(s unit.Solid) { list = append(list, &block3{Solid: s}) }
	add(unit.Solid{X0: 0, X1: 48, Y0: 0, Y1: 1, Z0: 0, Z1: 60})
	for shelf := range measure.Length(4) {
		z := 6 + 14*shelf
		for i := range measure.Length(6) {
			add(unit.Solid{X0: 8*i + 1, X1: 8*i + 7, Y0: -11, Y1: -1, Z0: z + 1, Z1: z + 9})
		}
		add(unit.Solid{X0: 0, X1: 48, Y0: -12, Y1: 0, Z0: z, Z1: z + 1})
	}
	for _, b := range list {
		s := &b.Solid
		for _, l := range []*measure.Length{&s.X0, &s.X1, &s.Y0, &s.Y1, &s.Z0, &s.Z1} {
			*l *= measure.Inch
		}
		b.silhouette()
	}
	order := painter(list)
	for i, a := range order {
		for _, b := range order[i+1:] {
			if a.overlaps(b) && certainlyBehind(b, a) {
				t.Errorf("%+v is drawn before %+v, which is behind it", a.Solid, b.Solid)
			}
		}
	}
}

// The silhouette test agrees with sampling: two boxes one of whose points
// projects into the middle of the other overlap.
func TestSilhouettesOverlap(t *testing.T) {
	a := &block3{Solid: unit.Solid{X0: 0, X1: 10 * mm, Y0: 0, Y1: 10 * mm, Z0: 0, Z1: 10 * mm}}
	far := &block3{Solid: unit.Solid{X0: 30 * mm, X1: 40 * mm, Y0: 0, Y1: 10 * mm, Z0: 0, Z1: 10 * mm}}
	behind := &block3{Solid: unit.Solid{X0: -10 * mm, X1: -2 * mm, Y0: 2 * mm, Y1: 9 * mm, Z0: 0, Z1: 10 * mm}}
	// Its corner regions touch a's bounding rectangle, not a's outline.
	corner := &block3{Solid: unit.Solid{X0: 0, X1: 2 * mm, Y0: 14 * mm, Y1: 16 * mm, Z0: 11 * mm, Z1: 13 * mm}}
	for _, b := range []*block3{a, far, behind, corner} {
		b.silhouette()
	}
	if a.overlaps(far) || !a.overlaps(behind) || a.overlaps(corner) {
		t.Errorf("far %v, behind %v, corner %v", a.overlaps(far), a.overlaps(behind), a.overlaps(corner))
	}
}
