package picture

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"sync"
	"testing"
)

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// flat is a picture of one colour, of that opacity.
func flat(w, h int, alpha uint8) image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		img.SetNRGBA(i%w, i/w, color.NRGBA{200, 100, 0, alpha})
	}
	return img
}

// speckled is a picture of many colours, as no palette holds.
func speckled(w, h int) image.Image {
	img := scene(w, h)
	for i := range img.Pix {
		img.Pix[i] = max(img.Pix[i], uint8(i*i>>5))
	}
	return img
}

// turnedBy gives a JPEG the Exif data that says how it lies.
func turnedBy(data []byte, t turn, order binary.AppendByteOrder) []byte {
	tiff := []byte("MM\x00\x2a")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		tiff = []byte("II\x2a\x00")
	}
	tiff = order.AppendUint32(tiff, 10) // a gap before the directory
	tiff = order.AppendUint16(append(tiff, 0, 0), 2)
	for _, entry := range [][3]uint16{{0x0100, 3, 1}, {0x0112, 3, uint16(t)}} {
		tiff = order.AppendUint16(order.AppendUint16(tiff, entry[0]), entry[1])
		tiff = order.AppendUint16(order.AppendUint32(tiff, 1), entry[2])
		tiff = append(tiff, 0, 0)
	}
	body := append([]byte("Exif\x00\x00"), tiff...)
	head := binary.BigEndian.AppendUint16([]byte{0xFF, 0xD8, 0xFF, app1}, uint16(len(body)+2))
	return append(append(head, body...), data[2:]...)
}

func TestFit(t *testing.T) {
	drawing, photo := asPNG(t, flat(300, 200, 255)), asJPEG(t, scene(300, 200), 80)
	for _, c := range []struct {
		data          []byte
		keep, want    [2]int
		kind          string
		width, height int
		asItIs        bool
		reason        string
	}{
		{drawing, [2]int{300, 300}, [2]int{300, 300}, "png", 300, 200, false, "small and opaque"},
		{asPNG(t, flat(300, 200, 100)), [2]int{300, 300}, [2]int{300, 300}, "png", 300, 200, false, "laid on white"},
		{asPNG(t, speckled(300, 200)), [2]int{300, 300}, [2]int{150, 150}, "jpeg", 150, 100, false, "shorter as a JPEG"},
		{asPNG(t, flat(1000, 1, 255)), [2]int{300, 300}, [2]int{100, 100}, "png", 100, 1, false, "its only row stays"},
		{photo, [2]int{300, 300}, [2]int{300, 300}, "jpeg", 300, 200, true, "passes as it is"},
		{photo, [2]int{999, 999}, [2]int{286, 191}, "jpeg", 300, 200, true, "passes though 5% too large"},
		{photo, [2]int{999, 999}, [2]int{285, 999}, "jpeg", 285, 190, false, "more than that"},
		{photo, [2]int{999, 999}, [2]int{999, 120}, "jpeg", 180, 120, false, "too high"},
		{photo, [2]int{150, 150}, [2]int{999, 999}, "jpeg", 150, 100, false, "no more than was kept"},
		{photo, [2]int{150, 150}, [2]int{0, 0}, "jpeg", 1, 1, false, "nothing asked for"},
		{turnedBy(photo, turn6, binary.BigEndian), [2]int{300, 300}, [2]int{300, 300}, "jpeg", 200, 300, false, "not as it is: readers of a pack do not turn it"},
		{turnedBy(photo, turn6, binary.BigEndian), [2]int{100, 150}, [2]int{100, 150}, "jpeg", 100, 150, false, "turned and shrunk"},
		{file(t, "cmyk"), [2]int{300, 300}, [2]int{300, 300}, "jpeg", 203, 149, false, "four colours become three"},
		{file(t, "grey"), [2]int{300, 300}, [2]int{100, 100}, "jpeg", 100, 73, false, "grey"},
		{file(t, "progressive"), [2]int{300, 300}, [2]int{100, 100}, "jpeg", 100, 73, false, "in several scans"},
		{file(t, "rgb"), [2]int{300, 300}, [2]int{20, 20}, "jpeg", 20, 15, false, "not luma and chroma"},
	} {
		p, err := new(Reader).Read(c.data, c.keep[0], c.keep[1])
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		out := p.Fit(c.want[0], c.want[1])
		img, kind, err := image.Decode(bytes.NewReader(out))
		if err != nil || kind != c.kind || img.Bounds().Dx() != c.width || img.Bounds().Dy() != c.height {
			t.Errorf("%s: a %s of %v (%v), want a %s of %d by %d", c.reason, kind, img.Bounds(), err, c.kind, c.width, c.height)
			continue
		}
		if opaque, ok := img.(interface{ Opaque() bool }); !ok || !opaque.Opaque() || img.ColorModel() == color.CMYKModel {
			t.Errorf("%s: %T, not opaque", c.reason, img)
		}
		if bytes.Equal(out, c.data) != c.asItIs {
			t.Errorf("%s: the file itself: %v", c.reason, !c.asItIs)
		}
	}
}

// TestColours wants the colours of a file on the paper, whatever way it takes
// there.
func TestColours(t *testing.T) {
	for name, data := range map[string][]byte{
		"png": asPNG(t, flat(400, 320, 255)), "jpeg": asJPEG(t, flat(400, 320, 255), 90), "on white": asPNG(t, flat(400, 320, 51)),
	} {
		want := [3]int{200, 100, 0}
		if name == "on white" {
			want = [3]int{244, 224, 204}
		}
		for _, size := range []int{400, 200, 100, 33} {
			p, err := new(Reader).Read(data, size, size)
			if err != nil {
				t.Fatal(err)
			}
			img, _, err := image.Decode(bytes.NewReader(p.Fit(size, size)))
			if err != nil {
				t.Fatal(err)
			}
			r, g, b, _ := img.At(img.Bounds().Dx()/2, img.Bounds().Dy()/2).RGBA()
			for i, v := range [3]uint32{r, g, b} {
				if d := int(v>>8) - want[i]; d > 3 || d < -3 {
					t.Errorf("%s, %d wide: %v, want %v", name, size, [3]uint32{r >> 8, g >> 8, b >> 8}, want)
				}
			}
		}
	}
}

// TestOrientation turns a picture every way it can lie, in both orders of bytes,
// and wants its corners where they belong.
func TestOrientation(t *testing.T) {
	// Corners of the file: a b above, c d below. Upright, by TIFF 6.0: the row
	// that is first in the file is the top, right, bottom or left one.
	for i, want := range []string{"abcd", "badc", "dcba", "cdab", "acbd", "cadb", "dbca", "bdac"} {
		by := turn(i + 1)
		r := &raster{3, 2, []plane{{[]byte("a.bc.d"), 3, 1, 1, 1}}}
		got := r.turned(by)
		pix, w := got.planes[0].pix, got.width
		if corners := string([]byte{pix[0], pix[w-1], pix[len(pix)-w], pix[len(pix)-1]}); corners != want {
			t.Errorf("orientation %d: %s, want %s", by, corners, want)
		}
		data := asJPEG(t, flat(8, 8, 255), 80)
		for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
			if got := orientation(turnedBy(data, by, order)); got != by {
				t.Errorf("%v: orientation %d, want %d", order, got, by)
			}
		}
		if orientation(data) != upright || orientation(turnedBy(data, 9, binary.BigEndian)) != upright {
			t.Error("what is not said is upright")
		}
	}
}

// TestReadErrors wants what cannot be used told apart, and a file that is cut
// short found however little of it is kept.
func TestReadErrors(t *testing.T) {
	photo := asJPEG(t, scene(400, 300), 80)
	for _, c := range []struct {
		data []byte
		want string
	}{
		{nil, "it is neither"},
		{[]byte("GIF89a"), "it is neither"},
		{photo[:300], "it is damaged or cut short"},
		{photo[:len(photo)/2], "it is damaged or cut short"},
		{photo[:len(photo)-2], "it is damaged or cut short"},
		{file(t, "progressive")[:3000], "it is damaged or cut short"},
		{asPNG(t, scene(90, 90))[:400], "it is damaged or cut short"},
	} {
		if _, err := new(Reader).Read(c.data, 9, 9); err == nil || err.Error() != c.want {
			t.Errorf("%d bytes: %v, want %s", len(c.data), err, c.want)
		}
	}
}

// TestFitAtOnce uses one picture from many sides; run with -race.
func TestFitAtOnce(t *testing.T) {
	var reader Reader
	var all sync.WaitGroup
	data := asJPEG(t, scene(1600, 1300), 80)
	p, err := reader.Read(data, 200, 200)
	if err != nil {
		t.Fatal(err)
	}
	want := p.Fit(90, 90)
	for range 4 {
		all.Go(func() {
			again, err := reader.Read(data, 200, 200)
			if err != nil || !bytes.Equal(p.Fit(90, 90), want) || !bytes.Equal(again.Fit(90, 90), want) {
				t.Error("other bytes", err)
			}
		})
	}
	all.Wait()
}

// FuzzRead reads anything: it takes what the library takes and nothing else,
// and what comes out can be read again and is no larger than wanted.
func FuzzRead(f *testing.F) {
	for _, name := range []string{"444", "422", "420", "411", "grey", "restarts", "progressive", "cmyk", "rgb"} {
		f.Add(file(f, name), 20, 15)
	}
	f.Add(turnedBy(file(f, "420"), turn8, binary.LittleEndian), 30, 30)
	f.Add(asPNG(f, scene(30, 20)), 9, 9)
	f.Fuzz(func(t *testing.T, data []byte, width, height int) {
		if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && config.Width*config.Height > 1<<20 {
			return // the library is slow with them
		}
		width, height = max(1, width%300), max(1, height%300)
		p, err := new(Reader).Read(data, width, height)
		img, _, libraryErr := image.Decode(bytes.NewReader(data))
		if empty := libraryErr == nil && img.Bounds().Empty(); (err != nil) != (libraryErr != nil || empty) {
			t.Fatalf("%v; the library says %v", err, libraryErr)
		}
		if err != nil {
			return
		}
		config, _, err := image.DecodeConfig(bytes.NewReader(p.Fit(width, height)))
		if err != nil || config.Width > width || config.Height > height {
			t.Errorf("%d by %d (%v), wanted in %d by %d", config.Width, config.Height, err, width, height)
		}
	})
}

// BenchmarkRead reads a photo of 12 megapixels for a front of 200 by 275.
func BenchmarkRead(b *testing.B) {
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	state := uint32(1)
	for i := range img.Y {
		state = state*1664525 + 1013904223
		img.Y[i] = uint8(i/4000/20) + uint8(state>>29)
	}
	data := asJPEG(b, img, 88)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := new(Reader).Read(data, 200, 275); err != nil {
			b.Fatal(err)
		}
	}
}
