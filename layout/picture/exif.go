package picture

import (
	"bytes"
	"encoding/binary"
)

// turn says how a picture lies in its file, by the numbers of the tag
// Orientation of Exif and TIFF 6.0 (section 8): what the file's first row and
// first column are when the picture is seen upright.
type turn int

const (
	upright turn = 1 + iota // top, left
	turn2                   // top, right
	turn3                   // bottom, right
	turn4                   // bottom, left
	turn5                   // left, top
	turn6                   // right, top
	turn7                   // right, bottom
	turn8                   // left, bottom
)

// sideways reports whether the picture's rows are the file's columns.
func (t turn) sideways() bool { return t >= turn5 }

// from is where pixel x, y of the upright picture lies in a file of w by h.
func (t turn) from(x, y, w, h int) (int, int) {
	if t.sideways() {
		x, y = y, x
	}
	switch t {
	case turn2, turn8:
		return w - 1 - x, y
	case turn3, turn7:
		return w - 1 - x, h - 1 - y
	case turn4, turn6:
		return x, h - 1 - y
	}
	return x, y
}

// turned is a raster whose samples are pixels, put upright.
func (r *raster) turned(t turn) *raster {
	if t == upright {
		return r
	}
	out := &raster{width: r.width, height: r.height}
	if t.sideways() {
		out.width, out.height = r.height, r.width
	}
	for _, p := range r.planes {
		q := plane{make([]byte, 0, len(p.pix)), out.width * p.depth, p.depth, 1, 1}
		for y := range out.height {
			for x := range out.width {
				fromX, fromY := t.from(x, y, r.width, r.height)
				at := fromY*p.stride + fromX*p.depth
				q.pix = append(q.pix, p.pix[at:at+p.depth]...)
			}
		}
		out.planes = append(out.planes, q)
	}
	return out
}

// orientation reads how a JPEG's picture lies; upright if the file does not say.
func orientation(data []byte) turn {
	for s := range segments(data) {
		if exif, ok := bytes.CutPrefix(s.body, []byte("Exif\x00\x00")); ok && s.kind == app1 {
			return orientationIn(exif)
		}
	}
	return upright
}

// orientationIn reads the tag from the first directory of a TIFF file: its
// count of entries, then twelve bytes each of tag, type, count and value.
func orientationIn(tiff []byte) turn {
	if len(tiff) < 8 {
		return upright
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return upright
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			break
		}
		const tag, short = 0x0112, 3
		if order.Uint16(entries) == tag && order.Uint16(entries[2:]) == short {
			if t := turn(order.Uint16(entries[8:])); t >= upright && t <= turn8 {
				return t
			}
		}
		entries = entries[12:]
	}
	return upright
}
