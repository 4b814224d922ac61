package picture

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
)

// quality is that of JPEGs on paper: at 200 dots an inch no eye tells it from
// more.
const quality = 82

// encode writes a raster whose samples are pixels: a photo as JPEG, what was
// drawn as whichever of PNG and JPEG is the shorter.
func encode(r *raster, drawn bool) []byte {
	img := r.image()
	var photo bytes.Buffer
	failed := jpeg.Encode(&photo, img, &jpeg.Options{Quality: quality}) // only if over 65,535 pixels long
	if !drawn && failed == nil {
		return photo.Bytes()
	}
	var drawing bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	if err := encoder.Encode(&drawing, fewColours(img)); failed == nil && (err != nil || photo.Len() < drawing.Len()) {
		return photo.Bytes()
	}
	return drawing.Bytes()
}

// fewColours is an image with a palette, in the order its colours come, if it
// has no more than a palette holds; else the image itself.
func fewColours(img image.Image) image.Image {
	full, ok := img.(*image.RGBA)
	if !ok {
		return img
	}
	out := image.NewPaletted(full.Rect, nil)
	index := map[color.RGBA]uint8{}
	for i := range out.Pix {
		c := color.RGBA{full.Pix[4*i], full.Pix[4*i+1], full.Pix[4*i+2], 255}
		n, known := index[c]
		if !known {
			if len(out.Palette) == 256 {
				return img
			}
			n = uint8(len(out.Palette))
			index[c] = n
			out.Palette = append(out.Palette, c)
		}
		out.Pix[i] = n
	}
	return out
}
