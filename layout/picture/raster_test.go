package picture

import (
	"image"
	"image/color"
	"math/big"
	"math/rand"
	"testing"
)

// TestAverages holds small pictures against means worked out by hand.
func TestAverages(t *testing.T) {
	for _, c := range []struct {
		pix           []byte
		w, h          int
		width, height int
		want          []byte
		reason        string
	}{
		{[]byte{10, 20, 30, 40}, 4, 1, 2, 1, []byte{15, 35}, "two by two"},
		{[]byte{10, 20, 31, 40}, 2, 2, 1, 1, []byte{25}, "25 and a quarter, rounded down"},
		{[]byte{10, 20, 32, 40}, 2, 2, 1, 1, []byte{26}, "25 and a half, rounded up"},
		{[]byte{0, 90, 240}, 3, 1, 2, 1, []byte{30, 190}, "the middle one is shared: (2·0+90)/3, (90+2·240)/3"},
		{[]byte{0, 90, 240}, 1, 3, 1, 2, []byte{30, 190}, "the same upright"},
		{[]byte{1, 2, 3, 4, 5, 6}, 3, 2, 3, 2, []byte{1, 2, 3, 4, 5, 6}, "as it is"},
		{[]byte{255, 255, 255, 255, 255, 255}, 3, 2, 2, 1, []byte{255, 255}, "white stays white"},
	} {
		r := rasterOf(&image.Gray{Pix: c.pix, Stride: c.w, Rect: image.Rect(0, 0, c.w, c.h)})
		got := r.resized(c.width, c.height)
		if string(got.planes[0].pix) != string(c.want) {
			t.Errorf("%s: %v, want %v", c.reason, got.planes[0].pix, c.want)
		}
	}
}

// TestAveragesRandom compares with the definition: every pixel of the result
// is the mean over its area, of samples that cover some pixels each, in exact
// fractions.
func TestAveragesRandom(t *testing.T) {
	rng := rand.New(rand.NewSource(3))
	for range 40 {
		w, h, width, height := 1+rng.Intn(15), 1+rng.Intn(15), 1+rng.Intn(9), 1+rng.Intn(9)
		p := plane{depth: 1 + 3*rng.Intn(2), cellX: 1 << rng.Intn(4), cellY: 1 << rng.Intn(4)}
		across, down := (w+p.cellX-1)/p.cellX, (h+p.cellY-1)/p.cellY
		p.stride = across*p.depth + rng.Intn(3)
		p.pix = make([]byte, p.stride*down)
		rng.Read(p.pix)
		got := (&raster{w, h, []plane{p}}).resized(width, height).planes[0]
		for y := range height {
			for x := range width {
				for c := range p.depth {
					want := slowMean(&p, w, h, x, y, width, height, c)
					if v := got.pix[y*got.stride+x*p.depth+c]; v != want {
						t.Fatalf("%d by %d to %d by %d in cells of %d by %d: pixel %d, %d is %d, want %d",
							w, h, width, height, p.cellX, p.cellY, x, y, v, want)
					}
				}
			}
		}
	}
}

// slowMean is the mean of a plane over the part of the picture that pixel x, y
// of width by height covers.
func slowMean(p *plane, w, h, x, y, width, height, c int) byte {
	shared := func(from, i, size, count int) *big.Rat { // of pixel i, how much lies in part from
		low := big.NewRat(int64(from*size), int64(count))
		high := big.NewRat(int64((from+1)*size), int64(count))
		if at := big.NewRat(int64(i), 1); at.Cmp(low) > 0 {
			low = at
		}
		if at := big.NewRat(int64(i+1), 1); at.Cmp(high) < 0 {
			high = at
		}
		if high.Cmp(low) <= 0 {
			return new(big.Rat)
		}
		return high.Sub(high, low)
	}
	sum, area := new(big.Rat), new(big.Rat)
	for py := range h {
		for px := range w {
			part := new(big.Rat).Mul(shared(x, px, w, width), shared(y, py, h, height))
			area.Add(area, part)
			v := p.pix[py/p.cellY*p.stride+px/p.cellX*p.depth+c]
			sum.Add(sum, part.Mul(part, big.NewRat(int64(v), 1)))
		}
	}
	mean := sum.Quo(sum, area)
	mean.Add(mean, big.NewRat(1, 2))
	return byte(new(big.Int).Quo(mean.Num(), mean.Denom()).Int64())
}

// TestRasterOf wants what is see-through laid on white, wherever it lies.
func TestRasterOf(t *testing.T) {
	img := image.NewNRGBA(image.Rect(5, 7, 6, 8))
	img.SetNRGBA(5, 7, color.NRGBA{200, 100, 0, 51})
	// A fifth of (200, 100, 0) on four fifths of white.
	if got := rasterOf(img).planes[0].pix; string(got) != string([]byte{244, 224, 204, 255}) {
		t.Error(got)
	}
	for _, ratio := range []image.YCbCrSubsampleRatio{
		image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
		image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410,
	} {
		img := image.NewYCbCr(image.Rect(0, 0, 13, 7), ratio)
		chroma := rasterOf(img).planes[1]
		for y := range 7 {
			for x := range 13 {
				if got, want := y/chroma.cellY*chroma.stride+x/chroma.cellX, img.COffset(x, y); got != want {
					t.Fatalf("%v: pixel %d, %d has chroma %d, want %d", ratio, x, y, got, want)
				}
			}
		}
	}
}
