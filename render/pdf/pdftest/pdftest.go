// Package pdftest reads a PDF back for tests: where its lines are, what its
// texts say. It knows nothing of sheets or of the writer: it starts at
// startxref and follows the file's own objects (ISO 32000-1), so that what it
// finds is what a reader shows. Only tests import it.
//
// It is strict rather than complete. Whatever it does not understand, an
// unknown operator, a clip, a font without a map to Unicode, is an error: a
// mark is never missed in silence.
//
// All lengths are millimetres from the page's top left corner, x to the right
// and y down. Writers round to a thousandth of a point, so lengths are good to
// about 0.0002 mm.
package pdftest

import (
	"fmt"
	"math"
)

// Document is a file read back.
type Document struct {
	Version   string            // of the header, such as 1.7
	Info      map[string]string // the information dictionary
	Metadata  string            // the XMP packet
	Language  string
	ID        [2]string // as bytes
	Outlines  []Bookmark
	Fonts     []Font
	Pages     []Page
	Files     []File // attached, as the catalogue associates them
	Pictures  int    // different pictures embedded
	Intent    bool   // has an output intent with a profile
	ShowTitle bool   // readers show the title, not the file's name
}

// Bookmark is one line of the outlines, in the order shown.
type Bookmark struct {
	Title string
	Depth int
	Page  int // 0 is the first
	Count int // as written: of open bookmarks below it
}

// Font is one a page refers to.
type Font struct {
	Name     string
	Embedded bool
	Unicode  bool // has a map to Unicode
}

// Point is a place on the page.
type Point struct{ X, Y float64 }

// Box is an upright box; Max is right of and below Min.
type Box struct{ Min, Max Point }

// Overlaps reports whether the insides of the two boxes meet.
func (b Box) Overlaps(o Box) bool {
	return b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y
}

// Color is red, green and blue from 0 to 1.
type Color [3]float64

// Pen is how a line is drawn.
type Pen struct {
	Width float64
	Color Color
	Dash  []float64
}

// Line is a stroked path of two points.
type Line struct {
	From, To Point
	Pen      Pen
	Order    int // when it was drawn, among all marks of the page
}

// Length is how long the line is.
func (l Line) Length() float64 { return math.Hypot(l.To.X-l.From.X, l.To.Y-l.From.Y) }

// Path is any other path; of a curve, Points holds the handles too.
type Path struct {
	Points []Point
	Closed bool
	Curved bool
	Pen    *Pen   // nil: no outline
	Fill   *Color // nil: hollow
	Order  int
}

// Circle is a path of four curves around one centre.
type Circle struct {
	Center Point
	Radius float64
	Pen    *Pen
	Fill   *Color
	Order  int
}

// Text is one string as shown by one operator.
type Text struct {
	S      string
	At     Point   // where its baseline begins
	Angle  float64 // of the baseline, degrees anticlockwise as seen
	Size   float64 // of the em
	Width  float64 // along the baseline
	Font   string
	Color  Color
	Order  int
	Ink    Box // around the outlines of its glyphs; the zero box when they are blanks
	Lacked int // characters shown as the replacement
}

// End is where the baseline ends.
func (t Text) End() Point {
	sin, cos := math.Sincos(t.Angle * math.Pi / 180)
	return Point{t.At.X + cos*t.Width, t.At.Y - sin*t.Width}
}

// Middle is the middle of the baseline.
func (t Text) Middle() Point {
	end := t.End()
	return Point{(t.At.X + end.X) / 2, (t.At.Y + end.Y) / 2}
}

// Image is one showing of a picture.
type Image struct {
	Box           Box
	Object        int // number of the picture's object: the same when embedded once
	Width, Height int // in pixels
	Alt           string
	Order         int
}

// Link is a link annotation to a page.
type Link struct {
	Box   Box
	Page  int // 0 is the first
	Print bool
}

// Page is what one page shows.
type Page struct {
	Width, Height float64
	Lines         []Line
	Paths         []Path
	Circles       []Circle
	Texts         []Text
	Images        []Image
	Links         []Link
}

// Segments returns every straight stroke: the lines, and the sides of all
// stroked paths.
func (p Page) Segments() []Line {
	list := append([]Line(nil), p.Lines...)
	for _, path := range p.Paths {
		if path.Pen == nil || path.Curved {
			continue
		}
		for i := 1; i < len(path.Points); i++ {
			list = append(list, Line{path.Points[i-1], path.Points[i], *path.Pen, path.Order})
		}
		if n := len(path.Points); path.Closed && n > 2 {
			list = append(list, Line{path.Points[n-1], path.Points[0], *path.Pen, path.Order})
		}
	}
	return list
}

// Clashes returns the pairs of texts whose ink boxes overlap, as places in
// Texts, and the texts whose ink leaves the page, paired with -1.
func (p Page) Clashes() [][2]int {
	var found [][2]int
	for i, a := range p.Texts {
		if a.Ink.Min.X < 0 || a.Ink.Min.Y < 0 || a.Ink.Max.X > p.Width || a.Ink.Max.Y > p.Height {
			found = append(found, [2]int{i, -1})
		}
		for j, b := range p.Texts[i+1:] {
			if a.Ink.Overlaps(b.Ink) {
				found = append(found, [2]int{i, i + 1 + j})
			}
		}
	}
	return found
}

// Read reads a whole file.
func Read(data []byte) (doc *Document, err error) {
	f, err := open(data)
	if err != nil {
		return nil, fmt.Errorf("pdftest: %w", err)
	}
	r := &reader{file: f, fonts: make(map[ref]*font)}
	if err := r.document(); err != nil {
		return nil, fmt.Errorf("pdftest: %w", err)
	}
	return &r.doc, nil
}
