package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/sheet"
)

const (
	um = measure.Micrometre
	mm = measure.Millimetre
)

func at(x, y measure.Length) sheet.Point { return sheet.Point{X: x * mm, Y: y * mm} }

func boxAt(x, y, w, h measure.Length) sheet.Rect {
	return sheet.Rect{Min: at(x, y), Max: at(x+w, y+h)}
}

func written(t *testing.T, items ...sheet.Item) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, &sheet.Sheet{Name: "front", Title: "Front <A&B>", Width: 279_400 * um, Height: 215_900 * um, Items: items}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// body is what stands between the paper and the end.
func body(t *testing.T, items ...sheet.Item) string {
	t.Helper()
	_, rest, ok := strings.Cut(written(t, items...), "fill=\"#ffffff\"/>\n")
	body, end := strings.CutSuffix(rest, "</svg>\n")
	if !ok || !end {
		t.Fatalf("no sheet around %q", rest)
	}
	return body
}

func TestPageIsInTrueSize(t *testing.T) {
	var root struct {
		Width   string `xml:"width,attr"`
		Height  string `xml:"height,attr"`
		ViewBox string `xml:"viewBox,attr"`
		Family  string `xml:"font-family,attr"`
		Title   string `xml:"title"`
	}
	if err := xml.Unmarshal([]byte(written(t)), &root); err != nil {
		t.Fatal(err)
	}
	if root.Width != "279.4mm" || root.Height != "215.9mm" || root.ViewBox != "0 0 279.4 215.9" {
		t.Errorf("letter page lying is %s by %s, view %s", root.Width, root.Height, root.ViewBox)
	}
	if root.Title != "Front <A&B>" || !strings.HasSuffix(root.Family, "sans-serif") {
		t.Errorf("title %q, family %q", root.Title, root.Family)
	}
}

func TestMarks(t *testing.T) {
	red := sheet.Color{R: 255}
	pen := sheet.Stroke{Width: 250 * um}
	for _, c := range []struct {
		reason string
		item   sheet.Item
		want   string
	}{
		{"a line ends round", sheet.Line{From: at(1, 2), To: at(3, 4), Stroke: pen},
			`<line x1="1" y1="2" x2="3" y2="4" stroke="#000000" stroke-width="0.25" stroke-linecap="round"/>`},
		{"dashes end square", sheet.Line{From: at(1, 2), To: at(3, 4), Stroke: sheet.Stroke{Width: pen.Width, Color: red, Dash: []measure.Length{3 * mm, 750 * um}}},
			`<line x1="1" y1="2" x2="3" y2="4" stroke="#ff0000" stroke-width="0.25" stroke-dasharray="3 0.75"/>`},
		{"a nanometre is kept", sheet.Path{Points: []sheet.Point{{X: 1, Y: 2}, at(1, 2)}, Stroke: &pen},
			`<polyline points="0.000001,0.000002 1,2" stroke="#000000" stroke-width="0.25" stroke-linecap="round"/>`},
		{"filled only", sheet.Path{Points: []sheet.Point{at(1, 1), at(2, 1), at(2, 2)}, Closed: true, Fill: &red},
			`<polygon points="1,1 2,1 2,2" fill="#ff0000"/>`},
		{"a circle", sheet.Circle{Center: at(5, 6), Radius: 2 * mm, Stroke: &pen, Fill: &red},
			`<circle cx="5" cy="6" r="2" fill="#ff0000" stroke="#000000" stroke-width="0.25" stroke-linecap="round"/>`},
		{"boxes", sheet.Boxes{List: []sheet.Rect{boxAt(1, 2, 3, 4), boxAt(5, 2, 1, 4)}, Fill: red},
			`<path d="M1,2H4V6H1zM5,2H6V6H5z" fill="#ff0000"/>`},
		{"text that would break the markup", sheet.Text{At: at(7, 8), S: "<5\" & 'é'", Size: 2048 * um},
			`<text x="7" y="8" font-size="2.048" textLength="` + fonts.Width(fonts.Regular, "<5\" & 'é'", 2048*um).MM() + `" lengthAdjust="spacingAndGlyphs" fill="#000000">&lt;5&#34; &amp; &#39;é&#39;</text>`},
		{"bold, turned, anchored at its end", sheet.Text{At: at(7, 8), S: "00", Face: fonts.Bold, Size: 2048 * um, Anchor: sheet.End, Up: true, Color: red},
			`<text x="7" y="8" font-size="2.048" textLength="2.564" lengthAdjust="spacingAndGlyphs" fill="#ff0000" font-weight="bold" text-anchor="end" transform="rotate(-90 7 8)">00</text>`},
		{"what the faces lack is replaced", sheet.Text{S: "\x00", Size: 2048 * um, Anchor: sheet.Middle},
			`<text x="0" y="0" font-size="2.048" textLength="` + fonts.Width(fonts.Regular, "\uFFFD", 2048*um).MM() + `" lengthAdjust="spacingAndGlyphs" fill="#000000" text-anchor="middle">` + "\uFFFD</text>"},
		{"a link to a sheet whose name needs escapes", sheet.Link{Box: boxAt(1, 2, 30, 4), To: "side é/1"},
			`<a href="side%20%C3%A9%2F1.svg"><rect x="1" y="2" width="30" height="4" pointer-events="all"/></a>`},
		{"a picture", sheet.Image{Box: boxAt(1, 2, 3, 4), Data: []byte("\xFF\xD8\xFFx"), Alt: "A <mug>"},
			`<image x="1" y="2" width="3" height="4" preserveAspectRatio="none" href="data:image/jpeg;base64,/9j/eA=="><title>A &lt;mug&gt;</title></image>`},
		{"nothing to draw", sheet.Path{Points: []sheet.Point{at(1, 1), at(2, 2)}}, ""},
		{"no boxes", sheet.Boxes{Fill: red}, ""},
		{"no radius", sheet.Circle{Fill: &red}, ""},
		{"no letters", sheet.Text{Size: mm}, ""},
	} {
		want := c.want
		if want != "" {
			want += "\n"
		}
		got := body(t, c.item)
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s: %s", c.reason, d)
		}
		if err := xml.Unmarshal([]byte("<g>"+got+"</g>"), new(struct{})); err != nil {
			t.Errorf("%s: not XML: %v", c.reason, err)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		reason, want string
		item         sheet.Item
	}{
		{"no picture", `sheet "front": picture "x" is neither`, sheet.Image{Key: "x", Data: []byte("GIF89a")}},
		{"an item that is none", "no way to draw", nil},
	} {
		var b bytes.Buffer
		err := Write(&b, &sheet.Sheet{Name: "front", Items: []sheet.Item{c.item}})
		if err == nil || !strings.Contains(err.Error(), c.want) || b.Len() > 0 {
			t.Errorf("%s: error %v with %d bytes, want %q and none", c.reason, err, b.Len(), c.want)
		}
	}
}

func TestWritersErrorIsPassedOn(t *testing.T) {
	r, w := io.Pipe()
	full := errors.New("disk full")
	r.CloseWithError(full)
	if err := Write(w, &sheet.Sheet{}); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
}
