package draw

import (
	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/sheet"
)

const (
	mm     = measure.Millimetre
	micron = measure.Micrometre
)

// Lettering heights of ISO 3098: of capitals and figures.
const (
	fine  = 1800 * micron // tables, title block labels, addresses inside goods
	plain = 2500 * micron // everything on a drawing
	large = 3500 * micron // names of sheets
	grand = 5000 * micron // the title of the pack
)

// Line widths of ISO 128-2's series.
const (
	hair   = 130 * micron // grids, hatches, leaders
	thin   = 180 * micron // dimensions
	medium = 250 * micron // table rules, goods
	solid  = 350 * micron // visible edges
	heavy  = 500 * micron // section cuts, the floor
	border = 700 * micron // the sheet's frame
)

func black() sheet.Color                { return sheet.Color{} }
func white() sheet.Color                { return sheet.Color{R: 255, G: 255, B: 255} }
func grey(v uint8) sheet.Color          { return sheet.Color{R: v, G: v, B: v} }
func pen(w measure.Length) sheet.Stroke { return sheet.Stroke{Width: w} }

// pencil is a pen of a grey lead.
func pencil(w measure.Length, shade uint8) sheet.Stroke {
	return sheet.Stroke{Width: w, Color: grey(shade)}
}

// dashed is line type 02 of ISO 128-2: hidden outlines.
func dashed(w measure.Length) sheet.Stroke {
	return sheet.Stroke{Width: w, Dash: []measure.Length{2 * mm, 1 * mm}}
}

// phantom is line type 05 of ISO 128-2: long dash, two dots: the reach of
// things that are not part of what is drawn.
func phantom(w measure.Length) sheet.Stroke {
	return sheet.Stroke{Width: w, Dash: []measure.Length{5 * mm, 800 * micron, 300 * micron, 800 * micron, 300 * micron, 800 * micron}}
}

func pt(x, y measure.Length) sheet.Point { return sheet.Point{X: x, Y: y} }

// box is the rectangle between two corners, whichever way they lie.
func box(x0, y0, x1, y1 measure.Length) sheet.Rect {
	return sheet.Rect{Min: pt(min(x0, x1), min(y0, y1)), Max: pt(max(x0, x1), max(y0, y1))}
}

func wide(r sheet.Rect) measure.Length { return r.Max.X - r.Min.X }
func high(r sheet.Rect) measure.Length { return r.Max.Y - r.Min.Y }

// inset is r less a margin all round; a negative margin grows it.
func inset(r sheet.Rect, by measure.Length) sheet.Rect {
	return sheet.Rect{Min: pt(r.Min.X+by, r.Min.Y+by), Max: pt(r.Max.X-by, r.Max.Y-by)}
}

// meet reports whether two rectangles share more than an edge.
func meet(a, b sheet.Rect) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// within reports whether a lies in b.
func within(a, b sheet.Rect) bool {
	return a.Min.X >= b.Min.X && a.Max.X <= b.Max.X && a.Min.Y >= b.Min.Y && a.Max.Y <= b.Max.Y
}

// line draws one straight line.
func (p *Page) line(x0, y0, x1, y1 measure.Length, s sheet.Stroke) {
	p.Sheet.Add(sheet.Line{From: pt(x0, y0), To: pt(x1, y1), Stroke: s})
}

// outlineBox draws a rectangle's outline, hollow.
func (p *Page) outlineBox(r sheet.Rect, s sheet.Stroke) { p.polygon(corners(r), &s, nil) }

// fillBox fills a rectangle, without an outline.
func (p *Page) fillBox(r sheet.Rect, c sheet.Color) { p.polygon(corners(r), nil, &c) }

// solidBox fills a rectangle and draws its outline.
func (p *Page) solidBox(r sheet.Rect, s sheet.Stroke, c sheet.Color) {
	p.polygon(corners(r), &s, &c)
}

func corners(r sheet.Rect) []sheet.Point {
	return []sheet.Point{r.Min, pt(r.Max.X, r.Min.Y), r.Max, pt(r.Min.X, r.Max.Y)}
}

func (p *Page) polygon(points []sheet.Point, s *sheet.Stroke, c *sheet.Color) {
	p.Sheet.Add(sheet.Path{Points: points, Closed: true, Stroke: s, Fill: c})
}

func (p *Page) polyline(s sheet.Stroke, points ...sheet.Point) {
	p.Sheet.Add(sheet.Path{Points: points, Stroke: &s})
}

func (p *Page) circle(x, y, r measure.Length, s *sheet.Stroke, c *sheet.Color) {
	p.Sheet.Add(sheet.Circle{Center: pt(x, y), Radius: r, Stroke: s, Fill: c})
}

// link makes r lead to the sheet of that name.
func (p *Page) link(r sheet.Rect, to string) { p.Sheet.Add(sheet.Link{Box: r, To: to}) }

// style is how a piece of lettering looks: its height, face, shade and anchor.
type style struct {
	height measure.Length
	face   fonts.Face
	anchor sheet.Anchor
	up     bool
	shade  uint8
}

func (s style) middle() style { s.anchor = sheet.Middle; return s }
func (s style) end() style    { s.anchor = sheet.End; return s }
func (s style) strong() style { s.face = fonts.Bold; return s }
func (s style) pale() style   { s.shade = 90; return s }
func (s style) turned() style { s.up = true; return s }

func letter(height measure.Length) style { return style{height: height} }

func (s style) width(text string) measure.Length {
	return fonts.Width(s.face, text, fonts.EmFor(s.height))
}

// pitch is the distance from one line of lettering to the next: ISO 3098
// gives 1.5 of the height at least, with accents on capitals.
func (s style) pitch() measure.Length { return s.height * 17 / 10 }

// rise and drop are how far letters reach over and under the baseline.
func (s style) rise() measure.Length { return fonts.Ascent(s.face, fonts.EmFor(s.height)) }
func (s style) drop() measure.Length { return fonts.Descent(s.face, fonts.EmFor(s.height)) }

// extent is the rectangle the text takes when its anchor is at x, y.
func (s style) extent(x, y measure.Length, text string) sheet.Rect {
	w := s.width(text)
	back := w * measure.Length(s.anchor) / 2
	if s.up {
		return sheet.Rect{Min: pt(x-s.rise(), y-w+back), Max: pt(x+s.drop(), y+back)}
	}
	return sheet.Rect{Min: pt(x-back, y-s.rise()), Max: pt(x-back+w, y+s.drop())}
}

// write sets one line of text with its anchor at x, y and returns the
// rectangle it takes.
func (p *Page) write(x, y measure.Length, text string, s style) sheet.Rect {
	if text == "" {
		return sheet.Rect{Min: pt(x, y), Max: pt(x, y)}
	}
	text, _ = fonts.Clean(text)
	p.Sheet.Add(sheet.Text{At: pt(x, y), S: text, Face: s.face, Size: fonts.EmFor(s.height), Anchor: s.anchor, Up: s.up, Color: grey(s.shade)})
	return s.extent(x, y, text)
}

// writeMid sets a line whose capitals are centred on y.
func (p *Page) writeMid(x, y measure.Length, text string, s style) sheet.Rect {
	return p.write(x, y+s.height/2, text, s)
}
