package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"testing"
)

// file reads one of testdata: a drawing of 203 by 149 pixels, as another
// program writes JPEGs.
func file(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name + ".jpg")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// scene is a picture with soft and hard edges in every colour.
func scene(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.RGBA{uint8(40 + x*180/w), uint8(220 - y*180/h), uint8(60 + (x+y)%97), 255}
			if (x/23+y/31)%3 == 0 {
				c.R, c.G = c.G, 90
			}
			img.SetRGBA(x, y, c)
		}
	}
	return img
}

func asJPEG(t testing.TB, img image.Image, quality int) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// whole is what the library makes of a file.
func whole(t testing.TB, data []byte) *raster {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return rasterOf(img)
}

// apart is how far the samples of two rasters of one size are from each other:
// on average, in thousandths, and at most.
func apart(t *testing.T, a, b *raster) (mean, most int) {
	t.Helper()
	if a.width != b.width || a.height != b.height || len(a.planes) != len(b.planes) {
		t.Fatalf("%d by %d with %d planes, and %d by %d with %d", a.width, a.height, len(a.planes), b.width, b.height, len(b.planes))
	}
	sum, count := 0, 0
	for i, p := range a.planes {
		for k, v := range p.pix {
			d := int(v) - int(b.planes[i].pix[k])
			sum, count, most = sum+max(d, -d), count+1, max(most, d, -d)
		}
	}
	return 1000 * sum / count, most
}

// TestReducedIsMean wants each pixel of the smallest reduction to be the mean
// of the block it stands for, as decoded whole: exactly, but for the rounding
// and cutting off of whole pixels.
func TestReducedIsMean(t *testing.T) {
	for _, img := range []image.Image{scene(208, 144), gray(scene(208, 144))} {
		data := asJPEG(t, img, 90)
		small := reduced(data, 1)
		if small == nil {
			t.Fatal("not taken")
		}
		full := whole(t, data)
		if mean, most := apart(t, small.resized(13, 9), full.resized(13, 9)); mean > 300 || most > 1 {
			t.Errorf("%T: %d thousandths apart on average, %d at most", img, mean, most)
		}
		small.planes, full.planes = small.planes[:1], full.planes[:1] // a block of chroma is twice as large
		if mean, most := apart(t, small.resized(26, 18), full.resized(26, 18)); mean > 300 || most > 1 {
			t.Errorf("%T: luma %d thousandths apart on average, %d at most", img, mean, most)
		}
	}
}

func gray(img image.Image) *image.Gray {
	out := image.NewGray(img.Bounds())
	for i := range out.Pix {
		out.Set(i%out.Stride, i/out.Stride, img.At(i%out.Stride, i/out.Stride))
	}
	return out
}

// TestReducedAgrees compares files of every kind that is taken, reduced, with
// the averages of the same decoded whole by the library. Two and four pixels a
// block leave out what is finer, so that they come near the averages only.
func TestReducedAgrees(t *testing.T) {
	const near = 1500 // thousandths of a step, on average: pixels share blocks here
	for _, name := range []string{"444", "422", "420", "411", "grey", "restarts"} {
		data := file(t, name)
		full := whole(t, data)
		for _, side := range []int{1, 2, 4} {
			small := reduced(data, side)
			if small == nil {
				t.Errorf("%s, %d a block: not taken", name, side)
				continue
			}
			w, h := full.width*side/32, full.height*side/32 // no finer than the coarsest chroma
			if mean, most := apart(t, small.resized(w, h), full.resized(w, h)); mean > near {
				t.Errorf("%s, %d a block: %d thousandths apart on average, %d at most", name, side, mean, most)
			}
		}
	}
}

// TestNotReduced wants files left to the library that are not surely right.
func TestNotReduced(t *testing.T) {
	sound := file(t, "restarts")
	cases := map[string][]byte{"not a JPEG": []byte("text"), "nothing": nil}
	for _, name := range []string{"progressive", "cmyk", "rgb"} {
		cases[name] = file(t, name)
	}
	for n := 0; n < len(sound); n += 7 {
		cases[fmt.Sprintf("cut after %d bytes", n)] = sound[:n]
	}
	end := bytes.Clone(sound)
	end[len(end)-1] = 0xFE
	cases["no end"] = end
	if at := bytes.Index(sound, []byte{0xFF, 0xD1}); at > 0 {
		lost := bytes.Clone(sound)
		lost[at+1] = 0xD2
		cases["a restart out of turn"] = lost
		cases["a restart missing"] = append(bytes.Clone(sound[:at]), sound[at+2:]...)
	} else {
		t.Error("no restarts")
	}
	for reason, data := range cases {
		if reduced(data, 1) != nil {
			t.Errorf("%s: taken", reason)
		}
	}
}

// TestZigzag holds the places against the corners of T.81, figure 5.
func TestZigzag(t *testing.T) {
	r := &reducer{side: 4}
	r.choosePlaces()
	want := [25]int{0, 1, 4, 8, 5, 2, 3, 6, 9, 12, -1, 13, 10, 7, -1, -1, -1, 11, 14, -1, -1, -1, -1, -1, 15}
	for i, place := range want {
		if r.place[i] != place {
			t.Errorf("coefficient %d: at %d, want %d", i, r.place[i], place)
		}
	}
	if r.last != 24 {
		t.Errorf("the last is %d", r.last)
	}
}

// TestLongCodes reads a table whose codes take up to 16 bits, with every
// symbol in turn and the value bits after it, against a reader of single bits.
func TestLongCodes(t *testing.T) {
	counts := []byte{0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	values := []byte{0x01, 0x11, 0x02, 0x21, 0x03, 0x31, 0x04, 0x41, 0x05, 0x51, 0x06, 0x61, 0x07, 0x00, 0xF0}
	h := newHuffman(counts, values)
	if h == nil {
		t.Fatal("no table")
	}
	var coded uint64
	used := 0
	code := uint64(0)
	var all []byte
	put := func(v uint64, n int) {
		for i := n - 1; i >= 0; i-- {
			coded = coded<<1 | v>>i&1
			if used++; used%8 == 0 {
				all = append(all, byte(coded))
			}
		}
	}
	for i, v := range values {
		length := i + 2
		put(code, length)
		put(1, int(v&15)) // a number of leading zeros: negative, unless of one bit
		code = (code + 1) << 1
	}
	put(0xFF, 16)
	b := &bits{data: append(all, make([]byte, overread)...)}
	for i, v := range values {
		got, ok := h.next(b)
		b.fill()
		n := b.number(got & 15)
		want := map[byte]int{0: 0, 1: 1}[v&15]
		if v&15 > 1 {
			want = 1 - (1<<(v&15) - 1)
		}
		if !ok || got != v || n != want {
			t.Errorf("symbol %d: %#x with %d (%v), want %#x with %d", i, got, n, ok, v, want)
		}
	}
	if newHuffman([]byte{3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}, []byte{1, 2, 3}) != nil {
		t.Error("three codes of one bit")
	}
}
