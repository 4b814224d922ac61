// Package svg writes a sheet as a standalone SVG 1.1 picture in true size. It
// decides nothing: every mark is put exactly where the display list says.
package svg

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"net/url"
	"strings"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/sheet"
)

// Write writes the sheet; lengths are exact decimal millimetres. Links go to
// NAME.svg beside it. It fails, having written nothing, on a picture that is
// neither JPEG nor PNG. Failures of w are returned as they are.
func Write(w io.Writer, s *sheet.Sheet) error {
	var p page
	p.open(s)
	for _, item := range s.Items {
		if err := p.item(item); err != nil {
			return fmt.Errorf("svg: sheet %q: %w", s.Name, err)
		}
	}
	p.printf("</svg>\n")
	_, err := w.Write(p.out.Bytes())
	return err
}

type page struct{ out bytes.Buffer }

func (p *page) printf(format string, args ...any) { fmt.Fprintf(&p.out, format, args...) }

func (p *page) open(s *sheet.Sheet) {
	w, h := s.Width.MM(), s.Height.MM()
	p.printf(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %s %s" xml:space="preserve"`, w, h, w, h)
	p.printf(` fill="none" stroke-linejoin="round" font-family="%s">`+"\n", escape(fonts.Embedded(fonts.Regular).FamilyFallback))
	p.printf("<title>%s</title>\n", escape(s.Title))
	p.printf(`<rect width="%s" height="%s" fill="#ffffff"/>`+"\n", w, h)
}

func (p *page) item(item sheet.Item) error {
	switch it := item.(type) {
	case sheet.Line:
		p.printf(`<line x1="%s" y1="%s" x2="%s" y2="%s"`, it.From.X.MM(), it.From.Y.MM(), it.To.X.MM(), it.To.Y.MM())
		p.style(&it.Stroke, nil)
	case sheet.Path:
		p.path(it)
	case sheet.Boxes:
		p.boxes(it)
	case sheet.Circle:
		if it.Shows() {
			p.printf(`<circle cx="%s" cy="%s" r="%s"`, it.Center.X.MM(), it.Center.Y.MM(), it.Radius.MM())
			p.style(it.Stroke, it.Fill)
		}
	case sheet.Text:
		p.text(it)
	case sheet.Image:
		return p.image(it)
	case sheet.Link:
		p.printf(`<a href="%s"><rect%s pointer-events="all"/></a>`+"\n", escape(url.PathEscape(it.To)+".svg"), box(it.Box))
	default:
		return fmt.Errorf("no way to draw a %T", item)
	}
	return nil
}

func (p *page) path(path sheet.Path) {
	if !path.Shows() {
		return
	}
	if path.Closed {
		p.printf(`<polygon points="`)
	} else {
		p.printf(`<polyline points="`)
	}
	for i, at := range path.Points {
		if i > 0 {
			p.out.WriteByte(' ')
		}
		p.printf("%s,%s", at.X.MM(), at.Y.MM())
	}
	p.out.WriteByte('"')
	p.style(path.Stroke, path.Fill)
}

// boxes are one path, a subpath each.
func (p *page) boxes(b sheet.Boxes) {
	if len(b.List) == 0 {
		return
	}
	p.printf(`<path d="`)
	for _, r := range b.List {
		p.printf("M%s,%sH%sV%sH%sz", r.Min.X.MM(), r.Min.Y.MM(), r.Max.X.MM(), r.Max.Y.MM(), r.Min.X.MM())
	}
	p.out.WriteByte('"')
	p.style(nil, &b.Fill)
}

// style ends a shape with its outline and its fill.
func (p *page) style(s *sheet.Stroke, fill *sheet.Color) {
	if fill != nil {
		p.printf(` fill="%s"`, fill.Hex())
	}
	if s != nil {
		p.printf(` stroke="%s" stroke-width="%s"`, s.Color.Hex(), s.Width.MM())
		// Continuous lines end round, so that corners close; dashes end square, or they would grow together.
		if s.Dashed() {
			p.printf(` stroke-dasharray="%s"`, lengths(s.Dash))
		} else {
			p.printf(` stroke-linecap="round"`)
		}
	}
	p.printf("/>\n")
}

// text says how long its baseline is, so that a reader without the face still
// keeps the drawing's spacing.
func (p *page) text(t sheet.Text) {
	if !t.Shows() {
		return
	}
	clean, _ := fonts.Clean(t.S)
	p.printf(`<text x="%s" y="%s" font-size="%s" textLength="%s" lengthAdjust="spacingAndGlyphs" fill="%s"`,
		t.At.X.MM(), t.At.Y.MM(), t.Size.MM(), t.Width().MM(), t.Color.Hex())
	if t.Face == fonts.Bold {
		p.printf(` font-weight="bold"`)
	}
	if t.Anchor != sheet.Start {
		p.printf(` text-anchor="%s"`, [...]string{"start", "middle", "end"}[t.Anchor])
	}
	if t.Up {
		p.printf(` transform="rotate(-90 %s %s)"`, t.At.X.MM(), t.At.Y.MM())
	}
	p.printf(">%s</text>\n", escape(clean))
}

func (p *page) image(i sheet.Image) error {
	kind := ""
	switch {
	case bytes.HasPrefix(i.Data, []byte("\xFF\xD8\xFF")):
		kind = "jpeg"
	case bytes.HasPrefix(i.Data, []byte("\x89PNG\r\n\x1a\n")):
		kind = "png"
	default:
		return fmt.Errorf("picture %q is neither a JPEG nor a PNG", i.Key)
	}
	p.printf(`<image%s preserveAspectRatio="none" href="data:image/%s;base64,`, box(i.Box), kind)
	p.out.WriteString(base64.StdEncoding.EncodeToString(i.Data))
	p.printf(`"><title>%s</title></image>`+"\n", escape(i.Alt))
	return nil
}

func box(r sheet.Rect) string {
	return fmt.Sprintf(` x="%s" y="%s" width="%s" height="%s"`,
		r.Min.X.MM(), r.Min.Y.MM(), (r.Max.X - r.Min.X).MM(), (r.Max.Y - r.Min.Y).MM())
}

func lengths(list []measure.Length) string {
	words := make([]string, len(list))
	for i, l := range list {
		words[i] = l.MM()
	}
	return strings.Join(words, " ")
}

// escape also replaces what XML cannot hold.
func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder does not fail
	return b.String()
}
