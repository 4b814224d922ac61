package sheet

import (
	"testing"

	"setwright/fonts"
	"setwright/layout/measure"
)

// TestSum changes a sheet in every way that shows, and wants another sum each
// time.
func TestSum(t *testing.T) {
	base := func() *Sheet {
		s := &Sheet{Name: "one", Title: "One", Width: 100 * mm, Height: 50 * mm}
		s.Add(
			Line{at(1, 2), at(3, 4), Stroke{Width: mm, Dash: []measure.Length{mm, 2 * mm}}},
			Path{Points: []Point{at(1, 1), at(2, 2)}, Stroke: &Stroke{Width: mm}, Fill: &Color{1, 2, 3}},
			Boxes{List: []Rect{{at(1, 1), at(2, 2)}}},
			Circle{Center: at(1, 1), Radius: mm, Fill: &Color{}},
			Text{At: at(1, 1), S: "a", Size: mm},
			Image{Box: Rect{at(1, 1), at(2, 2)}, Key: "k", Alt: "alt"},
			Link{Box: Rect{at(1, 1), at(2, 2)}, To: "two"},
		)
		return s
	}
	pictures := map[string]string{"k": "sum"}
	first := Sum(base(), pictures)
	if Sum(base(), pictures) != first {
		t.Error("the same sheet has another sum")
	}
	line := base().Items[0].(Line)
	path := base().Items[1].(Path)
	text := base().Items[4].(Text)
	image := base().Items[5].(Image)
	item := func(i int, to Item) func(*Sheet) { return func(s *Sheet) { s.Items[i] = to } }
	changed := func(change func(*Text)) Text { c := text; change(&c); return c }
	for _, c := range []struct {
		reason string
		change func(*Sheet)
	}{
		{"name", func(s *Sheet) { s.Name = "two" }},
		{"title", func(s *Sheet) { s.Title = "Two" }},
		{"depth", func(s *Sheet) { s.Depth = 1 }},
		{"size", func(s *Sheet) { s.Height++ }},
		{"a mark more", func(s *Sheet) { s.Add(line) }},
		{"order", func(s *Sheet) { s.Items[0], s.Items[1] = s.Items[1], s.Items[0] }},
		{"a line a nanometre longer", item(0, Line{line.From, Point{line.To.X + 1, line.To.Y}, line.Stroke})},
		{"its dashes", item(0, Line{line.From, line.To, Stroke{Width: mm, Dash: []measure.Length{mm}}})},
		{"its colour", item(0, Line{line.From, line.To, Stroke{Width: mm, Dash: line.Stroke.Dash, Color: Color{B: 1}}})},
		{"closed", item(1, Path{path.Points, true, path.Stroke, path.Fill})},
		{"hollow", item(1, Path{path.Points, false, path.Stroke, nil})},
		{"no outline", item(1, Path{path.Points, false, nil, path.Fill})},
		{"boxes", item(2, Boxes{List: []Rect{{at(1, 1), at(2, 3)}}})},
		{"radius", item(3, Circle{Center: at(1, 1), Radius: 2 * mm, Fill: &Color{}})},
		{"text", item(4, changed(func(t *Text) { t.S = "b" }))},
		{"bold", item(4, changed(func(t *Text) { t.Face = fonts.Bold }))},
		{"turned", item(4, changed(func(t *Text) { t.Up = true }))},
		{"anchor", item(4, changed(func(t *Text) { t.Anchor = End }))},
		{"alternative text", item(5, Image{Box: image.Box, Key: "k", Alt: "other"})},
		{"another picture", item(5, Image{Box: image.Box, Key: "other", Alt: "alt"})},
		{"target of a link", item(6, Link{Box: Rect{at(1, 1), at(2, 2)}, To: "one"})},
	} {
		s := base()
		c.change(s)
		if Sum(s, pictures) == first {
			t.Errorf("%s: the same sum", c.reason)
		}
	}
}
