package sheet

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/fonts"
	"setwright/layout/measure"
)

const (
	um = measure.Micrometre
	mm = measure.Millimetre
)

func at(x, y measure.Length) Point { return Point{x * mm, y * mm} }

func TestTextBox(t *testing.T) {
	const em = 2048 * um // one font unit is a micrometre
	const wide, over, under = 2 * 1172 * um, 1556 * um, 442 * um
	for _, c := range []struct {
		reason string
		anchor Anchor
		up     bool
		want   Rect
	}{
		{"starts at its anchor", Start, false, Rect{Point{0, -over}, Point{wide, under}}},
		{"centred on its anchor", Middle, false, Rect{Point{-wide / 2, -over}, Point{wide / 2, under}}},
		{"ends at its anchor", End, false, Rect{Point{-wide, -over}, Point{0, under}}},
		{"turned: runs up, letters' tops to the left", Start, true, Rect{Point{-over, -wide}, Point{under, 0}}},
		{"turned and centred", Middle, true, Rect{Point{-over, -wide / 2}, Point{under, wide / 2}}},
		{"turned, ends at its anchor", End, true, Rect{Point{-over, 0}, Point{under, wide}}},
	} {
		got := TextBox(Text{S: "00", Size: em, Anchor: c.anchor, Up: c.up})
		if got != c.want {
			t.Errorf("%s: %v, want %v", c.reason, got, c.want)
		}
	}
}

func TestBounds(t *testing.T) {
	pen := &Stroke{Width: 2 * mm}
	for _, c := range []struct {
		reason string
		item   Item
		want   Rect
	}{
		{"a line and half its width, drawn backwards", Line{at(9, 9), at(3, 5), *pen}, Rect{at(2, 4), at(10, 10)}},
		{"a filled path has no line width", Path{Points: []Point{at(4, 1), at(2, 8)}, Fill: &Color{}}, Rect{at(2, 1), at(4, 8)}},
		{"a circle", Circle{Center: at(5, 5), Radius: 3 * mm, Stroke: pen}, Rect{at(1, 1), at(9, 9)}},
		{"a path without points", Path{}, Rect{}},
		{"all the boxes", Boxes{List: []Rect{{at(5, 2), at(6, 9)}, {at(1, 3), at(2, 4)}}}, Rect{at(1, 2), at(6, 9)}},
		{"no boxes", Boxes{}, Rect{}},
		{"an image is its box", Image{Box: Rect{at(1, 2), at(3, 4)}}, Rect{at(1, 2), at(3, 4)}},
		{"a link is its box", Link{Box: Rect{at(1, 2), at(3, 4)}}, Rect{at(1, 2), at(3, 4)}},
	} {
		if got := Bounds(c.item); got != c.want {
			t.Errorf("%s: %v, want %v", c.reason, got, c.want)
		}
	}
}

func TestClashes(t *testing.T) {
	word := func(x, y measure.Length, s string) Text { return Text{At: at(x, y), S: s, Size: 4 * mm} }
	wide := fonts.Width(fonts.Regular, "HH", 4*mm)
	next := Text{At: Point{10*mm + wide, 10 * mm}, S: "HH", Size: 4 * mm}
	for _, c := range []struct {
		reason string
		items  []Item
		want   []Clash
	}{
		{"texts that only touch are clean", []Item{word(10, 10, "HH"), next}, nil},
		{"texts that overlap by a nanometre", []Item{word(10, 10, "HH"), shift(next, -1)}, []Clash{{0, 1}}},
		{"a line through a text is the drawing's business", []Item{word(10, 10, "HH"), Line{From: at(0, 9), To: at(50, 9)}}, nil},
		{"an empty text overlaps nothing", []Item{word(10, 10, "HH"), word(11, 10, "")}, nil},
		{"a text off the right edge", []Item{word(98, 10, "HHH")}, []Clash{{0, -1}}},
		{"a line off the page", []Item{Line{From: at(0, -1), To: at(5, 5)}}, []Clash{{0, -1}}},
		{"each pair once", []Item{word(9, 9, "HH"), word(9, 9, "HH"), word(9, 9, "H")}, []Clash{{0, 1}, {0, 2}, {1, 2}}},
	} {
		got := Clashes(&Sheet{Width: 100 * mm, Height: 50 * mm, Items: c.items})
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", c.reason, d)
		}
	}
}

func shift(t Text, x measure.Length) Text {
	t.At.X += x
	return t
}

func TestDump(t *testing.T) {
	red := Color{R: 255}
	s := &Sheet{Name: "front", Title: "Front “hardware”", Depth: 1, Width: 279_400 * um, Height: 215_900 * um}
	s.Add(
		Line{at(1, 2), Point{3*mm + 1, 4 * mm}, Stroke{Width: 250 * um, Dash: []measure.Length{3 * mm, 500 * um}}},
		Path{Points: []Point{at(1, 1), at(2, 1), at(2, 2)}, Closed: true, Stroke: &Stroke{Width: 130 * um, Color: red}, Fill: &Color{255, 255, 255}},
		Path{Points: []Point{at(1, 1), at(2, 1)}},
		Boxes{List: []Rect{{at(1, 1), at(2, 3)}, {at(4, 1), at(5, 3)}}},
		Circle{Center: at(5, 5), Radius: 2 * mm, Fill: &red},
		Text{At: at(7, 8), S: "54½″\n", Face: fonts.Bold, Size: 3 * mm, Anchor: End, Up: true, Color: red},
		Text{At: at(7, 8), S: "F-2-3", Size: 3 * mm},
		Image{Box: Rect{at(0, 0), at(9, 9)}, Key: "mug", Data: []byte("123456789"), Alt: "A mug"},
		Link{Box: Rect{at(0, 0), at(9, 9)}, To: "cover"},
	)
	const want = `sheet "front" 279.4x215.9 depth 1 "Front “hardware”"
line 1,2 3.000001,4 stroke 0.25 dash 3,0.5
polygon 1,1 2,1 2,2 stroke 0.13 #ff0000 fill #ffffff
polyline 1,1 2,1
boxes 2 1,1 5,3 7c432e1e fill #000000
circle 5,5 r 2 fill #ff0000
text 7,8 end bold 3 up #ff0000 "54½″\n"
text 7,8 start regular 3 "F-2-3"
image 0,0 9,9 "mug" 9 bytes cbf43926 "A mug"
link 0,0 9,9 "cover"
`
	if d := cmp.Diff(want, Dump(s)); d != "" {
		t.Error(d)
	}
}

func TestDashed(t *testing.T) {
	for _, c := range []struct {
		reason string
		dash   []measure.Length
		want   bool
	}{
		{"no pattern", nil, false},
		{"a pattern", []measure.Length{3 * mm, mm}, true},
		{"dots of no length, with gaps", []measure.Length{0, mm}, true},
		{"a pattern without any length never ends", []measure.Length{0, 0}, false},
		{"a negative length means nothing", []measure.Length{3 * mm, -mm}, false},
	} {
		if got := (Stroke{Dash: c.dash}).Dashed(); got != c.want {
			t.Errorf("%s: Dashed = %v, want %v", c.reason, got, c.want)
		}
	}
}
