package sheet

import (
	"setwright/fonts"
	"setwright/layout/measure"
)

// Origin returns where the baseline of t begins, whatever its anchor.
func (t Text) Origin() Point {
	back := measure.Length(0)
	switch t.Anchor {
	case Middle:
		back = t.Width() / 2
	case End:
		back = t.Width()
	}
	if t.Up {
		return Point{t.At.X, t.At.Y + back}
	}
	return Point{t.At.X - back, t.At.Y}
}

// Width returns how long the baseline of t is.
func (t Text) Width() measure.Length { return fonts.Width(t.Face, t.S, t.Size) }

// TextBox returns the box t takes on the paper: as long as its baseline, as
// high as the letters b and g reach. Accents on capitals stick out of it.
func TextBox(t Text) Rect {
	at, width := t.Origin(), t.Width()
	over, under := fonts.Ascent(t.Face, t.Size), fonts.Descent(t.Face, t.Size)
	if t.Up {
		return Rect{Point{at.X - over, at.Y - width}, Point{at.X + under, at.Y}}
	}
	return Rect{Point{at.X, at.Y - over}, Point{at.X + width, at.Y + under}}
}

// Bounds returns the box an item takes on the paper, half its line widths
// included. An item without any extent, such as a path without points, has
// the zero box.
func Bounds(item Item) Rect {
	switch it := item.(type) {
	case Line:
		return around([]Point{it.From, it.To}).grow(it.Stroke.Width / 2)
	case Path:
		return around(it.Points).grow(half(it.Stroke))
	case Boxes:
		return round(it.List)
	case Circle:
		return Rect{it.Center, it.Center}.grow(it.Radius + half(it.Stroke))
	case Text:
		return TextBox(it)
	case Image:
		return it.Box
	case Link:
		return it.Box
	}
	return Rect{}
}

func half(s *Stroke) measure.Length {
	if s == nil {
		return 0
	}
	return s.Width / 2
}

func around(points []Point) Rect {
	if len(points) == 0 {
		return Rect{}
	}
	r := Rect{points[0], points[0]}
	for _, p := range points[1:] {
		r.Min = Point{min(r.Min.X, p.X), min(r.Min.Y, p.Y)}
		r.Max = Point{max(r.Max.X, p.X), max(r.Max.Y, p.Y)}
	}
	return r
}

func round(list []Rect) Rect {
	corners := make([]Point, 0, 2*len(list))
	for _, r := range list {
		corners = append(corners, r.Min, r.Max)
	}
	return around(corners)
}

func (r Rect) grow(by measure.Length) Rect {
	return Rect{Point{r.Min.X - by, r.Min.Y - by}, Point{r.Max.X + by, r.Max.Y + by}}
}

// Overlaps reports whether the insides of the two boxes meet. Boxes that only
// touch do not, and an empty box has no inside.
func (r Rect) Overlaps(o Rect) bool {
	return !r.empty() && !o.empty() &&
		r.Min.X < o.Max.X && o.Min.X < r.Max.X && r.Min.Y < o.Max.Y && o.Min.Y < r.Max.Y
}

func (r Rect) empty() bool { return r.Min.X >= r.Max.X || r.Min.Y >= r.Max.Y }

// Holds reports whether o lies within r, edges included.
func (r Rect) Holds(o Rect) bool {
	return o.Min.X >= r.Min.X && o.Min.Y >= r.Min.Y && o.Max.X <= r.Max.X && o.Max.Y <= r.Max.Y
}
