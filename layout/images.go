package layout

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io/fs"

	"setwright/layout/diag"
)

const (
	imageLimit = 32 << 20
	// mostPixels is what an image may unfold to before it is decoded: the
	// largest a store's camera makes, and no bomb.
	mostPixels = 40_000_000
	// printPixels is the longest side that goes on a sheet: a product drawn
	// 100 mm high at 300 dots an inch has 1,181.
	printPixels = 1200
	jpegQuality = 85
)

// Image is the picture of that path, from the plan's folder, as sheets take it:
// a JPEG or an opaque PNG of no more than 1,200 pixels a side; nil if no product
// names it.
func (p *Project) Image(path string) []byte { return p.images[path] }

// loadImages reads every image a product names, each file once.
func (p *Project) loadImages(fsys fs.FS) {
	p.images = map[string][]byte{}
	for _, product := range p.Goods.All() {
		name := product.Image
		if _, done := p.images[name]; done || name == "" {
			continue
		}
		p.images[name] = nil
		data, ok := p.read(fsys, product.At, name, imageLimit)
		if !ok {
			continue
		}
		printable, err := printable(data)
		if err != nil {
			p.Findings.Add(diag.Finding{
				Level: diag.Error, Code: "bad-image", At: product.At,
				Message:  fmt.Sprintf("image %q of %s cannot be used: %v", name, product.SKU, err),
				Expected: fmt.Sprintf("a whole JPEG or PNG of at most %d megapixels", mostPixels/1_000_000),
			})
			continue
		}
		p.images[name] = printable
	}
}

// printable turns a JPEG or PNG into one that is opaque and no larger than a
// sheet can show. A JPEG that already is one passes as it is.
func printable(data []byte) ([]byte, error) {
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return nil, plainImageError(err)
	case config.Width*config.Height == 0:
		return nil, errors.New("it has no pixels")
	case int64(config.Width)*int64(config.Height) > mostPixels:
		return nil, fmt.Errorf("it is %d by %d pixels", config.Width, config.Height)
	}
	// Decoded even if it is to pass as it is: a truncated one must not reach a
	// reader of the pack.
	decoded, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, plainImageError(err)
	}
	fits := max(config.Width, config.Height) <= printPixels
	if kind == "jpeg" && fits && config.ColorModel != color.CMYKModel {
		return data, nil
	}
	flat := flatten(decoded)
	for max(flat.Rect.Dx(), flat.Rect.Dy()) > printPixels {
		flat = halve(flat)
	}
	var out bytes.Buffer
	if kind == "jpeg" {
		err = jpeg.Encode(&out, flat, &jpeg.Options{Quality: jpegQuality})
	} else {
		err = png.Encode(&out, flat)
	}
	return out.Bytes(), err
}

func plainImageError(err error) error {
	if errors.Is(err, image.ErrFormat) {
		return errors.New("it is neither")
	}
	return errors.New("it is damaged or cut short")
}

// flatten lays an image on white paper.
func flatten(img image.Image) *image.RGBA {
	flat := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(flat, flat.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(flat, flat.Rect, img, img.Bounds().Min, draw.Over)
	return flat
}

// halve averages two by two pixels: whole numbers, so every machine gets the
// same. A last odd row or column is left out, unless it is the only one.
func halve(img *image.RGBA) *image.RGBA {
	half := image.NewRGBA(image.Rect(0, 0, max(img.Rect.Dx()/2, 1), max(img.Rect.Dy()/2, 1)))
	right, below := min(4, img.Stride-4), min(img.Stride, len(img.Pix)-img.Stride)
	for y := range half.Rect.Dy() {
		for x := range half.Rect.Dx() {
			from, to := 2*y*img.Stride+8*x, half.PixOffset(x, y)
			for c := range 4 {
				sum := int(img.Pix[from+c]) + int(img.Pix[from+right+c]) +
					int(img.Pix[from+below+c]) + int(img.Pix[from+below+right+c])
				half.Pix[to+c] = uint8((sum + 2) / 4)
			}
		}
	}
	return half
}
