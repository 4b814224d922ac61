package picture

import (
	"bytes"
	"encoding/binary"
	"iter"
)

// Markers of ITU-T T.81 (JPEG), table B.1, those that are looked at here.
const (
	baseline      = 0xC0 // SOF0
	extended      = 0xC1 // SOF1: Huffman, sequential
	huffmanTables = 0xC4 // DHT
	restart0      = 0xD0 // RST0, the first of eight
	endOfImage    = 0xD9 // EOI
	startOfScan   = 0xDA // SOS
	quantTables   = 0xDB // DQT
	restarts      = 0xDD // DRI
	firstApp      = 0xE0 // APP0; no marker from here on changes how a picture is read, but for
	app1          = 0xE1 // Exif
	app14         = 0xEE // Adobe's, with its transform of colours
)

// segment is one marker segment of a JPEG: what follows its length, and where
// in the file the next part begins.
type segment struct {
	kind byte
	body []byte
	next int
}

// segments goes through the marker segments of a JPEG's head, up to and with
// the one that starts its first scan, as far as they are whole.
func segments(data []byte) iter.Seq[segment] {
	return func(yield func(segment) bool) {
		for at := 2; ; {
			start := at
			for at < len(data) && data[at] == 0xFF {
				at++ // a marker may have any number of these before its own byte
			}
			if at == start || at+3 > len(data) {
				return
			}
			s := segment{kind: data[at], next: at + 1 + int(binary.BigEndian.Uint16(data[at+1:]))}
			if s.next < at+3 || s.next > len(data) {
				return
			}
			s.body = data[at+3 : s.next]
			if !yield(s) || s.kind == startOfScan {
				return
			}
			at = s.next
		}
	}
}

// unstuffed appends the coded data that begins at a place to buf, without the
// zeros that follow each byte of all ones there (T.81, B.1.1.5), and finds the
// marker that ends it; -1 if none surely does.
func unstuffed(data []byte, at int, buf []byte) ([]byte, int) {
	for {
		n := bytes.IndexByte(data[at:], 0xFF)
		if n < 0 || at+n+1 >= len(data) {
			return buf, -1
		}
		buf = append(buf, data[at:at+n]...)
		at += n
		switch data[at+1] {
		case 0:
			buf = append(buf, 0xFF)
			at += 2
		case 0xFF: // fill before a marker; not told from a fault
			return buf, -1
		default:
			return buf, at
		}
	}
}
