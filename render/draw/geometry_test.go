package draw

import (
	"math/rand"
	"slices"
	"testing"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

func TestSegmentCuts(t *testing.T) {
	r := box(10*mm, 10*mm, 20*mm, 20*mm)
	for _, c := range []struct {
		reason string
		a, b   sheet.Point
		want   bool
	}{
		{"straight through", pt(0, 15*mm), pt(30*mm, 15*mm), true},
		{"ends inside", pt(0, 0), pt(15*mm, 15*mm), true},
		{"wholly inside", pt(12*mm, 12*mm), pt(18*mm, 13*mm), true},
		{"past a corner, its own box meeting the rectangle", pt(5*mm, 16*mm), pt(16*mm, 25*mm), false},
		{"along an edge only touches", pt(0, 10*mm), pt(30*mm, 10*mm), false},
		{"stops short", pt(0, 15*mm), pt(9*mm, 15*mm), false},
	} {
		if got := (segment{c.a, c.b}).cuts(r); got != c.want {
			t.Errorf("%s: %v", c.reason, got)
		}
		if got := (segment{c.b, c.a}).cuts(r); got != c.want {
			t.Errorf("%s, the other way: %v", c.reason, got)
		}
	}
}

// Clipped hatch lines lie in the rectangle, end on its edges and lie on their line.
func TestClip(t *testing.T) {
	rnd := rand.New(rand.NewSource(2))
	slopes := []slope{{1, -1}, {1, 1}, {1, 0}, {1, -2}, {1, 2}}
	hits := 0
	for range 2000 {
		x, y := measure.Length(rnd.Intn(100)), measure.Length(rnd.Intn(100))
		r := box(x, y, x+measure.Length(1+rnd.Intn(100)), y+measure.Length(1+rnd.Intn(100)))
		s, c := slopes[rnd.Intn(len(slopes))], measure.Length(rnd.Intn(600)-250)
		a, b, ok := clip(r, s, c)
		inside := false // by walking along the line
		for x := r.Min.X; x <= r.Max.X; x++ {
			y := c + x*s.dy/s.dx
			inside = inside || y > r.Min.Y && y < r.Max.Y && x > r.Min.X && x < r.Max.X
		}
		if inside && !ok {
			t.Fatalf("%v: the line %v + %d is inside and was dropped", r, s, c)
		}
		if !ok {
			continue
		}
		hits++
		for _, q := range []sheet.Point{a, b} {
			on := q.Y - c - q.X*s.dy/s.dx
			if q.X < r.Min.X || q.X > r.Max.X || q.Y < r.Min.Y || q.Y > r.Max.Y || on < -1 || on > 1 {
				t.Fatalf("%v: %v is not on the line %v + %d in the rectangle", r, q, s, c)
			}
		}
	}
	if hits < 200 {
		t.Errorf("only %d lines met their rectangle", hits)
	}
}

func TestOverRoundsHalfAway(t *testing.T) {
	for _, c := range []struct {
		l    measure.Length
		den  int64
		want measure.Length
	}{{24, 12, 2}, {5, 2, 3}, {-5, 2, -3}, {7, 4, 2}, {-7, 4, -2}} {
		if got := over(c.l, c.den); got != c.want {
			t.Errorf("%d/%d = %d, want %d", c.l, c.den, got, c.want)
		}
	}
}

// Two families of one plan look alike neither in hatch nor, if their hatches
// run the same way, in tint.
func TestFamiliesDiffer(t *testing.T) {
	for i := range 36 {
		for j := range i {
			a, b := patternOf(i), patternOf(j)
			if slices.Equal(a.slopes, b.slopes) && a.dashed == b.dashed && (a.spacing == b.spacing || tintOf(i) == tintOf(j)) {
				t.Errorf("families %d and %d look alike", j, i)
			}
		}
	}
}
