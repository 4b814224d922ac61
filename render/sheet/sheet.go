// Package sheet holds a page as a display list in paper coordinates: what the
// drawing room produces and what the PDF and SVG writers put out, unchanged.
// Nothing here decides; nothing here knows a plan.
//
// Paper coordinates are exact lengths from the sheet's top left corner, x to
// the right and y down. Floats begin in the writers.
package sheet

import (
	"setwright/fonts"
	"setwright/layout/measure"
)

// Point is a place on the paper.
type Point struct{ X, Y measure.Length }

// Rect is an upright box on the paper; Max is right of and below Min.
type Rect struct{ Min, Max Point }

// Color is an opaque sRGB colour.
type Color struct{ R, G, B uint8 }

// Stroke is how a line is drawn. Width follows ISO 128-2's series (0.13, 0.18,
// 0.25, 0.35, 0.5, 0.7 mm). Dash is the on-off pattern; empty is continuous.
type Stroke struct {
	Width measure.Length
	Color Color
	Dash  []measure.Length
}

// Item is one mark on a sheet: a Line, Path, Boxes, Circle, Text, Image or Link.
type Item interface{ item() }

// Line is one straight line.
type Line struct {
	From, To Point
	Stroke   Stroke
}

// Path is a polyline, or a polygon when Closed. A nil Stroke draws no outline,
// a nil Fill leaves it hollow.
type Path struct {
	Points []Point
	Closed bool
	Stroke *Stroke
	Fill   *Color
}

// Boxes are upright boxes filled with one colour, without outlines: the bars
// of a barcode.
type Boxes struct {
	List []Rect
	Fill Color
}

// Circle is a full circle; Stroke and Fill as for Path.
type Circle struct {
	Center Point
	Radius measure.Length
	Stroke *Stroke
	Fill   *Color
}

// Anchor says which point of the text its At is.
type Anchor uint8

// Text is anchored at the left end, the middle or the right end of its baseline.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of lettering on its baseline.
type Text struct {
	At     Point
	S      string
	Face   fonts.Face
	Size   measure.Length // em size on paper; fonts.EmFor gives it from the lettering height
	Anchor Anchor
	Up     bool // turned a quarter anticlockwise: reads from the right-hand side of the sheet
	Color  Color
}

// Image is a picture stretched over Box. Data is a JPEG or an opaque PNG,
// already flattened and scaled; Key names it once for the whole pack.
type Image struct {
	Box  Rect
	Key  string
	Data []byte
	Alt  string
}

// Link makes Box a link to the sheet of that name.
type Link struct {
	Box Rect
	To  string
}

func (Line) item()   {}
func (Path) item()   {}
func (Boxes) item()  {}
func (Circle) item() {}
func (Text) item()   {}
func (Image) item()  {}
func (Link) item()   {}

// Sheet is one page.
type Sheet struct {
	Name          string // unique in the pack: what links point at, what an SVG file is called
	Title         string // the bookmark
	Depth         int    // depth of the bookmark, 0 for top level
	Width, Height measure.Length
	Items         []Item
}

// Pack is the whole document. Sheets are already numbered and laid out.
type Pack struct {
	Title, Author, Subject, Keywords string
	Language                         string // BCP 47
	Creator                          string // the program and its version
	Date                             string // ISO 8601 day from the plan, never the clock
	Sheets                           []*Sheet
	Files                            []File // attached to the document, in this order
}

// File is a file attached to a pack.
type File struct {
	Name         string // unique in the pack; a path with slashes, without .. or a leading slash
	Type         string // media type: text/csv
	Relationship string // to the pack (ISO 32000-2, 14.13): Source, Data, Supplement
	Description  string // for people
	Data         []byte
}

// Add appends marks; later ones are drawn over earlier ones.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }
