package reader

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"slices"

	"github.com/pdfcpu/pdfcpu/pkg/filter"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// mostPixels is how large a picture may be that is looked at.
const mostPixels = 40_000_000

// Picture is a picture embedded in a document.
type Picture struct {
	width, height, bits int
	channels            int
	palette             []byte // red, green and blue of each colour; nil for none
	filter              string // the only one, or ""
	predicted           bool   // each row begins with the number of a PNG filter
	stream              types.StreamDict
}

// Pictures are the pictures of the document that might be a JPEG or PNG, in the
// order of their objects.
func (d *Document) Pictures() []*Picture {
	var numbers []int
	for n, entry := range d.ctx.Table {
		if entry != nil && !entry.Free {
			if s, ok := entry.Object.(types.StreamDict); ok && nameOf(s.Dict["Subtype"]) == "Image" {
				numbers = append(numbers, n)
			}
		}
	}
	slices.Sort(numbers)
	var list []*Picture
	for _, n := range numbers {
		_ = guarded(func() error { // one that cannot be read is left out
			if p := d.picture(d.ctx.Table[n].Object.(types.StreamDict)); p != nil {
				list = append(list, p)
			}
			return nil
		})
	}
	return list
}

func nameOf(o types.Object) string {
	name, _ := o.(types.Name)
	return string(name)
}

func (d *Document) integer(o types.Object) int {
	n, err := d.ctx.DereferenceInteger(o)
	if err != nil || n == nil {
		return 0
	}
	return n.Value()
}

func (d *Document) picture(s types.StreamDict) *Picture {
	p := &Picture{
		width: d.integer(s.Dict["Width"]), height: d.integer(s.Dict["Height"]), bits: d.integer(s.Dict["BitsPerComponent"]),
		stream: s,
	}
	if p.width < 1 || p.height < 1 || p.width > mostPixels/p.height || p.bits < 1 || len(s.FilterPipeline) > 1 {
		return nil
	}
	if len(s.FilterPipeline) == 1 {
		f := s.FilterPipeline[0]
		p.filter = f.Name
		p.predicted = f.DecodeParms != nil && f.DecodeParms.IntEntry("Predictor") != nil && *f.DecodeParms.IntEntry("Predictor") >= 10
	}
	return p.coloured(d, s.Dict["ColorSpace"])
}

// coloured adds what the samples mean; nil if that is nothing a PNG knows.
func (p *Picture) coloured(d *Document, space types.Object) *Picture {
	o, err := d.ctx.Dereference(space)
	if err != nil {
		return nil
	}
	if list, ok := o.(types.Array); ok {
		if len(list) != 4 || nameOf(list[0]) != "Indexed" || nameOf(list[1]) != "DeviceRGB" {
			return nil
		}
		p.channels, p.palette = 1, d.bytes(list[3])
		if n := len(p.palette); n == 0 || n%3 != 0 || n > 3*256 {
			return nil
		}
		return p
	}
	switch nameOf(o) {
	case "DeviceGray":
		p.channels = 1
	case "DeviceRGB":
		p.channels = 3
	default:
		return nil
	}
	return p
}

// bytes is a string or a stream.
func (d *Document) bytes(o types.Object) []byte {
	o, err := d.ctx.Dereference(o)
	if err != nil {
		return nil
	}
	switch s := o.(type) {
	case types.HexLiteral:
		data, err := s.Bytes()
		if err != nil {
			return nil
		}
		return data
	case types.StringLiteral:
		data, err := types.Unescape(s.Value())
		if err != nil {
			return nil
		}
		return data
	case types.StreamDict:
		if s.DecodeWithLimit(mostDecoded) == nil {
			return s.Content
		}
	}
	return nil
}

// File is the JPEG or PNG that was embedded, of the very bytes that the document
// has; nil if it is neither.
func (p *Picture) File() []byte {
	switch {
	case p.filter == filter.DCT:
		return p.stream.Raw
	case p.filter == filter.Flate && p.predicted:
		return p.png(p.stream.Raw)
	}
	return nil
}

// Anew is a PNG of the pixels, which other programs leave alone when they pack
// the document differently; nil if they cannot be read.
func (p *Picture) Anew() (file []byte) {
	_ = guarded(func() error {
		if img := p.image(); img != nil {
			var out bytes.Buffer
			encoder := png.Encoder{CompressionLevel: png.BestCompression}
			if encoder.Encode(&out, img) == nil {
				file = out.Bytes()
			}
		}
		return nil
	})
	return file
}

// png wraps a deflated stream of filtered rows as the encoder of the standard
// library does, in chunks of 32 kB.
func (p *Picture) png(deflated []byte) []byte {
	const chunkSize = 1 << 15
	kind := map[int]byte{1: 0, 3: 2}[p.channels]
	if p.palette != nil {
		kind = 3
	}
	head := binary.BigEndian.AppendUint32(nil, uint32(p.width))
	head = binary.BigEndian.AppendUint32(head, uint32(p.height))
	out := appendChunk([]byte("\x89PNG\r\n\x1a\n"), "IHDR", append(head, byte(p.bits), kind, 0, 0, 0))
	if p.palette != nil {
		out = appendChunk(out, "PLTE", p.palette)
	}
	for part := range slices.Chunk(deflated, chunkSize) {
		out = appendChunk(out, "IDAT", part)
	}
	return appendChunk(out, "IEND", nil)
}

func appendChunk(out []byte, kind string, data []byte) []byte {
	out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
	from := len(out)
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[from:]))
}

// image is the picture unfolded, in the form it was encoded from; nil if it
// cannot be.
func (p *Picture) image() image.Image {
	if p.bits > 8 || p.stream.DecodeWithLimit(mostDecoded) != nil {
		return nil
	}
	row := (p.width*p.channels*p.bits + 7) / 8
	pix := p.stream.Content
	if len(pix) < row*p.height {
		return nil
	}
	bounds := image.Rect(0, 0, p.width, p.height)
	switch {
	case p.palette != nil:
		return p.paletted(pix, row)
	case p.bits != 8:
		return nil
	case p.channels == 1:
		return &image.Gray{Pix: pix, Stride: row, Rect: bounds}
	}
	img := image.NewRGBA(bounds)
	for i := range p.width * p.height {
		img.Pix[4*i], img.Pix[4*i+1], img.Pix[4*i+2], img.Pix[4*i+3] = pix[3*i], pix[3*i+1], pix[3*i+2], 255
	}
	return img
}

func (p *Picture) paletted(pix []byte, row int) image.Image {
	img := image.NewPaletted(image.Rect(0, 0, p.width, p.height), nil)
	for i := 0; i+2 < len(p.palette); i += 3 {
		img.Palette = append(img.Palette, color.RGBA{p.palette[i], p.palette[i+1], p.palette[i+2], 255})
	}
	for y := range p.height {
		for x := range p.width {
			at := x * p.bits
			index := pix[y*row+at/8] >> (8 - p.bits - at%8) & (1<<p.bits - 1)
			if int(index) >= len(img.Palette) {
				return nil
			}
			img.Pix[y*img.Stride+x] = index
		}
	}
	return img
}
