package reader

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/google/go-cmp/cmp"

	"setwright/fonts"
	"setwright/layout/measure"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

const mm = measure.Millimetre

func at(x, y measure.Length) sheet.Point { return sheet.Point{X: x * mm, Y: y * mm} }

// photo and drawing are pictures as packs embed them.
func photo() []byte {
	img := image.NewGray(image.Rect(0, 0, 40, 30))
	for i := range img.Pix {
		img.Pix[i] = byte(i * 7)
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func drawing(colours, side int) []byte {
	img := image.NewPaletted(image.Rect(0, 0, side, side), nil)
	for i := range colours {
		img.Palette = append(img.Palette, color.RGBA{byte(i * 3), byte(i * 5), 200, 255})
	}
	for i := range img.Pix {
		img.Pix[i] = byte(i * i % colours)
	}
	return encoded(img)
}

// colourful is more than one chunk of a PNG.
func colourful() []byte {
	img := image.NewRGBA(image.Rect(0, 0, 180, 170))
	seed := uint32(1)
	for i := range img.Pix {
		seed = seed*1664525 + 1013904223
		if img.Pix[i] = byte(seed >> 24); i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	return encoded(img)
}

func encoded(img image.Image) []byte {
	var b bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	if err := encoder.Encode(&b, img); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// small is a pack of three pages with every kind of mark, pictures and files.
func small() *sheet.Pack {
	p := &sheet.Pack{Title: "Tea", Creator: "Setwright", Date: "2027-02-15", Language: "en"}
	for i, name := range []string{"cover", "front", "key"} {
		s := &sheet.Sheet{Name: name, Title: name, Width: 200 * mm, Height: 150 * mm}
		for k := range measure.Length(20) {
			s.Add(
				sheet.Line{From: at(10, 10+5*k), To: at(50+k, 10+5*k), Stroke: sheet.Stroke{Width: mm / 4}},
				sheet.Text{At: at(60, 10+5*k), S: fmt.Sprintf("F-%d-%d Thé vert 12½″ (a) \\", i, k), Size: 4 * mm, Face: fonts.Face(k % 2)},
				sheet.Text{At: at(150, 140-5*k), S: "Up", Size: 3 * mm, Up: k%2 == 0},
			)
		}
		s.Add(
			sheet.Image{Box: sheet.Rect{Min: at(120, 10), Max: at(140, 25)}, Key: "photo", Data: photo(), Alt: "a"},
			sheet.Image{Box: sheet.Rect{Min: at(120, 30), Max: at(140, 50)}, Key: "drawing", Data: drawing(5, 20), Alt: "b"},
			sheet.Link{Box: sheet.Rect{Min: at(1, 1), Max: at(9, 9)}, To: "cover"},
		)
		p.Sheets = append(p.Sheets, s)
	}
	p.Files = []sheet.File{
		{Name: "plan.yaml", Type: "application/yaml", Relationship: "Source", Data: []byte("plan: 1\n")},
		{Name: "goods/thé.csv", Type: "text/csv", Relationship: "Source", Data: bytes.Repeat([]byte("sku,name\n"), 500)},
		{Name: "empty.csv", Type: "text/csv", Relationship: "Source"},
	}
	return p
}

func written(t testing.TB, p *sheet.Pack) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func opened(t testing.TB, data []byte) *Document {
	t.Helper()
	d, err := Open(data)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// names are the attached files, by name.
func attached(t testing.TB, d *Document) map[string]string {
	t.Helper()
	files, err := d.Attachments()
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range files {
		if _, twice := all[f.Name]; twice {
			t.Errorf("%s comes twice", f.Name)
		}
		all[f.Name] = string(f.Data)
	}
	return all
}

func wanted(p *sheet.Pack) map[string]string {
	all := map[string]string{}
	for _, f := range p.Files {
		all[f.Name] = string(f.Data)
	}
	return all
}

func TestAttachments(t *testing.T) {
	p := small()
	if d := cmp.Diff(wanted(p), attached(t, opened(t, written(t, p)))); d != "" {
		t.Error(d)
	}
}

// TestAround puts things before and behind a PDF, as mail systems do.
func TestAround(t *testing.T) {
	p := small()
	data := written(t, p)
	for _, c := range []struct {
		reason string
		data   []byte
	}{
		{"a footer", append(bytes.Clone(data), "\r\n-- \r\nsent by mail\r\n"...)},
		{"zeros to fill a block", append(bytes.Clone(data), make([]byte, 4096)...)},
		{"a header", append([]byte("X-Mail: 1\r\n\r\n"), data...)},
	} {
		if d := cmp.Diff(wanted(p), attached(t, opened(t, c.data))); d != "" {
			t.Errorf("%s: %s", c.reason, d)
		}
	}
}

func TestRefused(t *testing.T) {
	data := written(t, small())
	for _, c := range []struct {
		reason string
		data   []byte
		want   error
	}{
		{"nothing", nil, ErrNotPDF},
		{"a text", []byte("plan: 1\n"), ErrNotPDF},
		{"a PDF's name far inside", append(make([]byte, 2000), data...), ErrNotPDF},
		{"a head alone", []byte("%PDF-1.7\n"), ErrDamaged},
		{"half", data[:len(data)/2], ErrDamaged},
		{"a tail alone", append([]byte("%PDF-1.7\n"), data[len(data)-200:]...), ErrDamaged},
		{"no objects at all", []byte("%PDF-1.7\nxref\n0 0\ntrailer\n<</Size 0>>\nstartxref\n9\n%%EOF\n"), ErrDamaged},
		{"a table of tables that never ends", []byte("%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</Size 1/Prev 9/Root 1 0 R>>\nstartxref\n9\n%%EOF\n"), ErrDamaged},
		{"a number in a table that asks for all memory", []byte("%PDF-1.7\nxref\n3000000000 1\n0000000009 00000 n \ntrailer\n<</Size 3000000001/Root 1 0 R>>\nstartxref\n9\n%%EOF\n"), ErrDamaged},
	} {
		d, err := Open(c.data)
		if err == nil {
			// What the library mends may be opened; then nothing may be made up.
			files, err2 := d.Attachments()
			if len(files) > 0 && err2 == nil && c.want == ErrNotPDF {
				t.Errorf("%s: opened, with %d files", c.reason, len(files))
			}
			err = err2
		}
		if c.want == ErrNotPDF && !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.reason, err, c.want)
		}
		if err != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", c.reason, err, c.want)
		}
	}
}

// TestLineEnds spoils a PDF as programs do that take it for text.
func TestLineEnds(t *testing.T) {
	data := written(t, small())
	for _, spoilt := range [][]byte{
		bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n")),
		bytes.ReplaceAll(data, []byte("\n"), []byte("\r")),
		bytes.Map(func(r rune) rune { return r & 0x7f }, data),
	} {
		d, err := Open(spoilt)
		if err == nil {
			_, err = d.Attachments()
		}
		if err != nil && !errors.Is(err, ErrDamaged) {
			t.Error(err)
		}
	}
}

// TestTruncated cuts a PDF at every place: there is an error, or files that are
// whole.
func TestTruncated(t *testing.T) {
	p := small()
	data := written(t, p)
	want := wanted(p)
	for size := 0; size < len(data)-1; size += 97 {
		d, err := Open(data[:size])
		if err != nil {
			continue
		}
		files, err := d.Attachments()
		if err != nil {
			continue
		}
		for _, f := range files {
			if want[f.Name] != string(f.Data) {
				t.Fatalf("cut at %d: %s has %d bytes", size, f.Name, len(f.Data))
			}
		}
	}
}

// TestPictures wants pictures back as they were embedded, to the byte.
func TestPictures(t *testing.T) {
	for _, c := range []struct {
		reason string
		data   []byte
		drawn  bool // its pixels can be written anew
	}{
		{"a photo", photo(), false},
		{"two colours: a bit a pixel, rows end inside bytes", drawing(2, 21), true},
		{"four colours", drawing(4, 21), true},
		{"sixteen colours", drawing(16, 21), true},
		{"two hundred colours", drawing(200, 40), true},
		{"more than a chunk", colourful(), true},
	} {
		p := small()
		p.Sheets = p.Sheets[:1]
		p.Sheets[0].Items = []sheet.Item{sheet.Image{Box: sheet.Rect{Min: at(1, 1), Max: at(20, 20)}, Key: "k", Data: c.data}}
		found := opened(t, written(t, p)).Pictures()
		if len(found) != 1 || !bytes.Equal(found[0].File(), c.data) {
			t.Errorf("%s: %d pictures, or not the one that was embedded", c.reason, len(found))
			continue
		}
		if c.drawn && !bytes.Equal(found[0].Anew(), c.data) {
			t.Errorf("%s: not the same once its pixels are written anew", c.reason)
		}
	}
}

func BenchmarkAttachments(b *testing.B) {
	data := written(b, small())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := opened(b, data).Attachments(); err != nil {
			b.Fatal(err)
		}
	}
}

// FuzzOpen reads hostile files: no panic comes out, and what comes out is
// bounded.
func FuzzOpen(f *testing.F) {
	data := written(f, small())
	f.Add(data)
	f.Add(data[:len(data)-300])
	f.Add([]byte("%PDF-1.7\n1 0 obj\n<</Names<</EmbeddedFiles<</Kids[1 0 R]>>>>/Pages 1 0 R/Kids[1 0 R]>>\nendobj\ntrailer\n<</Root 1 0 R>>\n"))
	original := opened(f, data)
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Open(data)
		if err != nil {
			return
		}
		_, _ = d.Attachments()
		for _, p := range d.Pictures() {
			_, _ = p.File(), p.Anew()
		}
		d.Producer()
		_, _ = Compare(d, original)
		pages, err := d.Pages()
		if err != nil {
			return
		}
		for _, p := range pages[:min(len(pages), 5)] {
			_ = guarded(func() error { _, err := p.glyphs(); return err })
		}
	})
}
