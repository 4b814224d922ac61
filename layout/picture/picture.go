// Package picture reads product pictures and makes them no larger than they
// are drawn. Everything is worked out in whole numbers, so that every machine
// makes the same bytes of the same file.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/jpeg" // pictures are told apart by their first bytes
	_ "image/png"
	"sync"
)

const (
	// MostPixels is what a picture may unfold to before it is decoded: the
	// largest a store's camera makes, and no bomb.
	MostPixels = 40_000_000
	// fewPixels is what may be unfolded at any time; larger pictures that are
	// not reduced while they are decoded take turns.
	fewPixels = 2_000_000
	// slackPercent is how much larger than wanted a picture may stay: made
	// smaller by less it would only get softer.
	slackPercent = 5
)

// Picture is a product's picture, upright, no larger than it was asked for. It
// is not changed once read, and may be used by many at once.
type Picture struct {
	width, height int // pixels of the file, upright
	drawn         bool
	source        []byte // the file itself if it may go on paper as it is, else nil
	raster        *raster
	print         []byte // what Fit once returned, if that is all there is
}

// Printed is a picture of which only what Fit once returned is left, and how
// many pixels wide and high its file was.
func Printed(width, height int, print []byte) *Picture {
	return &Picture{width: width, height: height, print: print}
}

// Size is how many pixels wide and high the file is, seen upright.
func (p *Picture) Size() (width, height int) { return p.width, p.height }

// Fit returns the picture as a JPEG or an opaque PNG of at most so many pixels,
// but for a few in a hundred; never larger than its file, never stretched. Of a
// Printed picture there is but the one print.
func (p *Picture) Fit(width, height int) []byte {
	if p.print != nil {
		return p.print
	}
	r := p.raster
	if r.width*100 > width*(100+slackPercent) || r.height*100 > height*(100+slackPercent) {
		r = r.resized(within(r.width, r.height, max(width, 1), max(height, 1)))
		return encode(r, p.drawn)
	}
	if p.source != nil {
		return p.source
	}
	return encode(r, p.drawn)
}

// Reader reads pictures, many at once if wanted, and keeps those that take much
// memory from being unfolded at the same time. The zero Reader is ready.
type Reader struct{ turn sync.Mutex }

// Read reads a JPEG or PNG, lays it on white, turns it upright as its Exif data
// says and keeps at most width by height pixels of it, at least one each way.
// All of the file is decoded even if little is kept: one cut short is an error.
// Errors say what is wrong in words that follow "it cannot be used".
func (r *Reader) Read(data []byte, width, height int) (*Picture, error) {
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return nil, plainError(err)
	case config.Width*config.Height == 0:
		return nil, errors.New("it has no pixels")
	case int64(config.Width)*int64(config.Height) > MostPixels:
		return nil, fmt.Errorf("it is %d by %d pixels", config.Width, config.Height)
	}
	p := &Picture{width: config.Width, height: config.Height, drawn: kind == "png"}
	turn := upright
	if kind == "jpeg" {
		turn = orientation(data)
	}
	if turn.sideways() {
		width, height = height, width
		p.width, p.height = p.height, p.width
	}
	w, h := within(config.Width, config.Height, width, height)
	full, err := r.decode(data, config, kind, w, h)
	if err != nil {
		return nil, err
	}
	p.raster = full.resized(w, h).turned(turn)
	asItIs := kind == "jpeg" && turn == upright && config.ColorModel != color.CMYKModel
	if asItIs && w == config.Width && h == config.Height {
		p.source = data
	}
	return p, nil
}

// decode unfolds a picture, a large JPEG only to the least size that has w by h
// pixels.
func (r *Reader) decode(data []byte, config image.Config, kind string, w, h int) (*raster, error) {
	if kind == "jpeg" {
		for side := 1; side <= 4; side *= 2 {
			if config.Width*side < blockSide*w || config.Height*side < blockSide*h {
				continue
			}
			if small := reduced(data, side); small != nil {
				return small, nil
			}
			break
		}
	}
	if config.Width*config.Height > fewPixels {
		r.turn.Lock()
		defer r.turn.Unlock()
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, plainError(err)
	}
	return rasterOf(img), nil
}

// within is the size of a picture of w by h pixels shrunk to fit, with its
// shape kept to the nearest pixel.
func within(w, h, width, height int) (int, int) {
	shrunk := func(w, h, width int) int {
		return int(max(1, (2*int64(h)*int64(width)+int64(w))/(2*int64(w))))
	}
	switch {
	case w <= width && h <= height:
		return w, h
	case int64(w)*int64(height) >= int64(h)*int64(width):
		return width, shrunk(w, h, width)
	default:
		return shrunk(h, w, height), height
	}
}

func plainError(err error) error {
	if errors.Is(err, image.ErrFormat) {
		return errors.New("it is neither")
	}
	return errors.New("it is damaged or cut short")
}
