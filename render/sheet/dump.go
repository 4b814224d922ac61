package sheet

import (
	"fmt"
	"hash/crc32"
	"strconv"
	"strings"

	"setwright/fonts"
	"setwright/layout/measure"
)

// Dump returns the sheet as text for golden files: one item a line, in the
// order they are drawn, lengths in exact decimal millimetres.
func Dump(s *Sheet) string {
	var d dumper
	d.word("sheet", strconv.Quote(s.Name), s.Width.MM()+"x"+s.Height.MM(),
		"depth", strconv.Itoa(s.Depth), strconv.Quote(s.Title))
	d.end()
	for _, item := range s.Items {
		d.item(item)
		d.end()
	}
	return d.String()
}

type dumper struct{ strings.Builder }

func (d *dumper) item(item Item) {
	switch it := item.(type) {
	case Line:
		d.word("line", point(it.From), point(it.To))
		d.stroke(&it.Stroke)
	case Path:
		d.path(it)
	case Boxes:
		d.boxes(it)
	case Circle:
		d.word("circle", point(it.Center), "r", it.Radius.MM())
		d.stroke(it.Stroke)
		d.fill(it.Fill)
	case Text:
		d.text(it)
	case Image:
		d.word("image", rect(it.Box), strconv.Quote(it.Key),
			fmt.Sprintf("%d bytes %08x", len(it.Data), crc32.ChecksumIEEE(it.Data)), strconv.Quote(it.Alt))
	case Link:
		d.word("link", rect(it.Box), strconv.Quote(it.To))
	default:
		d.word(fmt.Sprintf("unknown %T", item))
	}
}

// boxes says how many there are, where, and a sum of their places: thirty bars
// a barcode would bury what a person reads.
func (d *dumper) boxes(b Boxes) {
	var all strings.Builder
	for _, r := range b.List {
		all.WriteString(rect(r) + "\n")
	}
	d.word("boxes", strconv.Itoa(len(b.List)), rect(Bounds(b)), fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(all.String()))))
	d.fill(&b.Fill)
}

func (d *dumper) path(p Path) {
	if p.Closed {
		d.word("polygon")
	} else {
		d.word("polyline")
	}
	for _, at := range p.Points {
		d.word(point(at))
	}
	d.stroke(p.Stroke)
	d.fill(p.Fill)
}

func (d *dumper) text(t Text) {
	face := "regular"
	if t.Face == fonts.Bold {
		face = "bold"
	}
	anchor := [...]string{"start", "middle", "end"}[t.Anchor]
	d.word("text", point(t.At), anchor, face, t.Size.MM())
	if t.Up {
		d.word("up")
	}
	d.color(t.Color)
	d.word(strconv.Quote(t.S))
}

func (d *dumper) stroke(s *Stroke) {
	if s == nil {
		return
	}
	d.word("stroke", s.Width.MM())
	d.color(s.Color)
	if len(s.Dash) > 0 {
		d.word("dash", lengths(s.Dash))
	}
}

func (d *dumper) fill(c *Color) {
	if c != nil {
		d.word("fill", c.Hex())
	}
}

// color leaves black out: nearly every mark is black.
func (d *dumper) color(c Color) {
	if c != (Color{}) {
		d.word(c.Hex())
	}
}

func (d *dumper) word(words ...string) {
	for _, w := range words {
		if s := d.String(); s != "" && !strings.HasSuffix(s, "\n") {
			d.WriteByte(' ')
		}
		d.WriteString(w)
	}
}

func (d *dumper) end() { d.WriteByte('\n') }

// Hex returns the colour as #rrggbb.
func (c Color) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

func point(p Point) string { return p.X.MM() + "," + p.Y.MM() }

func rect(r Rect) string { return point(r.Min) + " " + point(r.Max) }

func lengths(list []measure.Length) string {
	words := make([]string, len(list))
	for i, l := range list {
		words[i] = l.MM()
	}
	return strings.Join(words, ",")
}
