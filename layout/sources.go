package layout

import (
	"setwright/layout/parts"
	"setwright/layout/picture"
)

// Source is a file that a project was read from, as it was.
type Source struct {
	Name string // from the plan's folder
	Role Role
	Text []byte // not to be changed
}

// Role is what a plan names a file for.
type Role string

// The roles of a project's files. Pictures are apart: see Image.
const (
	PlanRole  Role = "plan"
	PartsRole Role = "parts"
	GoodsRole Role = "goods"
	StockRole Role = "stock"
	HouseRole Role = "house" // no file of the plan's: laid over the parts of all plans
)

// Image is a product's picture and the file it was read from.
type Image struct {
	Name    string // from the plan's folder, as products name it
	SHA256  string // of the file, in hexadecimal digits; "" if it was not read from one
	Picture *picture.Picture
}

// Sources are the plan and the parts, goods and stock files that were read, and
// what was laid over them, in the order they were asked for. A file named twice is there twice.
func (p *Project) Sources() []Source { return p.sources }

// Images are the pictures that products name, in the order they are first
// named.
func (p *Project) Images() []Image { return p.images }

// BuiltIn are the files of the built-in parts list that the project started
// from, in the order they are read.
func (p *Project) BuiltIn() []parts.File { return p.builtIn }

// Pictures finds a picture, by the path from the plan's folder, and the SHA-256
// of the file it was read from; nil if it knows none.
type Pictures func(path string) (p *picture.Picture, sum string)

// WithPictures returns a Reader that asks there for a picture before it looks
// for a file.
func (r *Reader) WithPictures(pictures Pictures) *Reader {
	other := *r
	other.pictures = pictures
	return &other
}
