// Package pdf writes a pack as a PDF. It decides nothing: every mark is put
// where the display list says, to a thousandth of a point.
//
// fpdf lays the document out: pages, pictures, links. What a page shows is
// written as operators by painter, because fpdf's own coordinates stop at two
// decimals. Then finish mends and completes the file: the faces with a real
// map to Unicode, outlines, metadata, compression, an identifier made from the
// content. Same pack, same bytes.
package pdf

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // pictures are told apart by their first bytes
	_ "image/png"
	"io"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"

	"setwright/layout/measure"
	"setwright/render/sheet"
)

// Readers must show pages with sides of 3 to 14,400 points (ISO 32000-1, annex
// C.2), and a PDF/A has no others (ISO 19005-3, 6.1.13).
const (
	minSide = measure.Inch / 24
	maxSide = 200 * measure.Inch
)

// Write writes the pack as one PDF, of the kind made to be kept (PDF/A-3b, ISO
// 19005-3). It fails, having written nothing, on a pack without sheets, a sheet
// without a name or with another's, a link to no sheet, a page under 1/24 in or
// over 200 in, a picture that is neither a JPEG nor an opaque PNG or is in
// printing inks, and a date that is not a day; and on a file to attach whose
// name is no path inside a folder or is another's, whose media type is not two
// words of letters, digits and ._+- with a slash between, or whose relationship
// is none of PDF/A's. Failures of w are returned as they are.
func Write(w io.Writer, p *sheet.Pack) error {
	data, err := render(p)
	if err != nil {
		return fmt.Errorf("pdf: %w", err)
	}
	_, err = w.Write(data)
	return err
}

// render is where a panic in fpdf ends: it must not take the program down.
func render(p *sheet.Pack) (data []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			data, err = nil, fmt.Errorf("cannot be written: %v", r)
		}
	}()
	if err := check(p); err != nil {
		return nil, err
	}
	d := newDocument(p)
	for _, s := range p.Sheets {
		if err := d.page(s); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	var raw bytes.Buffer
	if err := d.doc.Output(&raw); err != nil {
		return nil, err
	}
	return finish(raw.Bytes(), p, &d.used)
}

func check(p *sheet.Pack) error {
	if len(p.Sheets) == 0 {
		return errors.New("no sheets")
	}
	names := make(map[string]bool, len(p.Sheets))
	for i, s := range p.Sheets {
		if s.Name == "" {
			return fmt.Errorf("sheet %d has no name", i+1)
		}
		if names[s.Name] {
			return fmt.Errorf("two sheets are named %q", s.Name)
		}
		names[s.Name] = true
		if min(s.Width, s.Height) < minSide || max(s.Width, s.Height) > maxSide {
			return fmt.Errorf("sheet %q: %s x %s mm is no page size", s.Name, s.Width.MM(), s.Height.MM())
		}
	}
	if _, err := day(p); err != nil {
		return err
	}
	return checkFiles(p.Files)
}

// day returns the pack's date; zero when it has none.
func day(p *sheet.Pack) (time.Time, error) {
	if p.Date == "" {
		return time.Time{}, nil
	}
	t, err := time.Parse(time.DateOnly, p.Date)
	if err != nil {
		return time.Time{}, fmt.Errorf("date %q is not a day as 2006-01-02", p.Date)
	}
	return t, nil
}

// document is a pack on its way through fpdf.
type document struct {
	doc      *fpdf.Fpdf
	used     usage
	links    map[string]int    // sheet's name to fpdf's link
	pictures map[string]string // picture's key to its name in fpdf
	paint    painter
}

func newDocument(p *sheet.Pack) *document {
	doc := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: pageSize(p.Sheets[0])})
	doc.SetCompression(false) // finish compresses better
	doc.SetCatalogSort(true)
	doc.SetAutoPageBreak(false, 0)
	doc.SetCreationDate(time.Unix(0, 0)) // finish writes the dates; zero would read the clock
	doc.SetModificationDate(time.Unix(0, 0))
	d := &document{doc: doc, links: make(map[string]int, len(p.Sheets)), pictures: make(map[string]string)}
	for i, s := range p.Sheets {
		link := doc.AddLink()
		doc.SetLink(link, 0, i+1)
		d.links[s.Name] = link
	}
	return d
}

// pageSize: always upright for fpdf, even when wider than high.
func pageSize(s *sheet.Sheet) fpdf.SizeType {
	return fpdf.SizeType{Wd: float64(pageSide(s.Width)) / 1000, Ht: float64(pageSide(s.Height)) / 1000}
}

// pageSide returns a page's width or height in thousandths of a point, rounded
// to the two decimals fpdf prints: heights count from there.
func pageSide(l measure.Length) int64 { return (thousandths(l) + 5) / 10 * 10 }

func (d *document) page(s *sheet.Sheet) error {
	d.doc.AddPageFormat("P", pageSize(s))
	d.paint.begin(s, &d.used)
	for _, item := range s.Items {
		if err := d.item(item); err != nil {
			return err
		}
	}
	d.flush()
	return d.doc.Error()
}

func (d *document) item(item sheet.Item) error {
	switch it := item.(type) {
	case sheet.Line:
		d.paint.line(it)
	case sheet.Path:
		d.paint.path(it)
	case sheet.Boxes:
		d.paint.boxes(it)
	case sheet.Circle:
		d.paint.circle(it)
	case sheet.Text:
		d.paint.text(it)
	case sheet.Image:
		return d.image(it)
	case sheet.Link:
		return d.link(it)
	default:
		return fmt.Errorf("no way to draw a %T", item)
	}
	return nil
}

func (d *document) flush() {
	d.doc.RawWriteStr(string(d.paint.take()))
}

func (d *document) link(l sheet.Link) error {
	link, ok := d.links[l.To]
	if !ok {
		return fmt.Errorf("link to %q, which is no sheet of the pack", l.To)
	}
	x, y, w, h := box(l.Box)
	d.doc.Link(x, y, w, h, link)
	return nil
}

func (d *document) image(i sheet.Image) error {
	name, err := d.register(i)
	if err != nil {
		return err
	}
	d.paint.alternative(i.Alt)
	d.flush()
	x, y, w, h := box(i.Box)
	d.doc.ImageOptions(name, x, y, w, h, false, fpdf.ImageOptions{AllowNegativePosition: true}, 0, "")
	d.paint.endAlternative(i.Alt)
	return d.doc.Error()
}

// register hands a picture to fpdf once, named by its content, so that two
// keys of one picture do not embed it twice.
func (d *document) register(i sheet.Image) (string, error) {
	if name, ok := d.pictures[i.Key]; ok {
		return name, nil
	}
	config, format, err := image.DecodeConfig(bytes.NewReader(i.Data))
	if err != nil || format != "jpeg" && format != "png" {
		return "", fmt.Errorf("picture %q is neither a JPEG nor a PNG", i.Key)
	}
	switch config.ColorModel {
	case color.CMYKModel: // which the output intent does not cover
		return "", fmt.Errorf("picture %q is in printing inks, not in red, green and blue", i.Key)
	case color.NRGBAModel, color.NRGBA64Model:
		return "", fmt.Errorf("picture %q is not opaque", i.Key)
	}
	sum := sha256.Sum256(i.Data)
	name := hex.EncodeToString(sum[:])
	if d.doc.GetImageInfo(name) == nil {
		if err := d.embed(name, format, i.Data); err != nil {
			return "", fmt.Errorf("picture %q: %w", i.Key, err)
		}
	}
	d.pictures[i.Key] = name
	return name, nil
}

// embed turns fpdf's panic at a picture cut short into an error that can name
// the picture.
func (d *document) embed(name, format string, data []byte) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("cannot be read: %v", r)
		}
	}()
	d.doc.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: strings.ToUpper(format)}, bytes.NewReader(data))
	return d.doc.Error()
}

// points is for what fpdf places itself; painter stays with whole numbers.
func points(l measure.Length) float64 { return float64(thousandths(l)) / 1000 }

func box(r sheet.Rect) (x, y, w, h float64) {
	return points(r.Min.X), points(r.Min.Y), points(r.Max.X - r.Min.X), points(r.Max.Y - r.Min.Y)
}
