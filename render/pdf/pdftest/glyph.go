package pdftest

import (
	"encoding/binary"
	"errors"
)

// program is an embedded TrueType font, as far as the boxes of its glyphs go
// (OpenType 1.9: head, loca, glyf).
type program struct {
	glyf, loca []byte
	long       bool    // loca has 32-bit offsets
	em         float64 // units in one
}

var errProgram = errors.New("font program is no TrueType font")

func parseProgram(data []byte) (*program, error) {
	const directory, record = 12, 16
	if len(data) < directory {
		return nil, errProgram
	}
	tables := make(map[string][]byte)
	for i := range int(binary.BigEndian.Uint16(data[4:])) {
		if len(data) < directory+(i+1)*record {
			return nil, errProgram
		}
		r := data[directory+i*record:]
		at, size := uint64(binary.BigEndian.Uint32(r[8:])), uint64(binary.BigEndian.Uint32(r[12:]))
		if at+size > uint64(len(data)) {
			return nil, errProgram
		}
		tables[string(r[:4])] = data[at : at+size]
	}
	head := tables["head"]
	if len(head) < 54 || tables["glyf"] == nil || tables["loca"] == nil {
		return nil, errProgram
	}
	em := float64(binary.BigEndian.Uint16(head[18:]))
	if em == 0 {
		return nil, errProgram
	}
	return &program{tables["glyf"], tables["loca"], binary.BigEndian.Uint16(head[50:]) == 1, em}, nil
}

// box returns the glyph's box in ems: left, bottom, right, top. A blank has
// none.
func (p *program) box(glyph int) (box [4]float64, ok bool) {
	from, ok1 := p.offset(glyph)
	to, ok2 := p.offset(glyph + 1)
	if !ok1 || !ok2 || to < from+10 || to > len(p.glyf) {
		return box, false
	}
	for i := range box {
		box[i] = float64(int16(binary.BigEndian.Uint16(p.glyf[from+2+2*i:]))) / p.em
	}
	return box, true
}

func (p *program) offset(glyph int) (int, bool) {
	if p.long {
		if len(p.loca) < 4*glyph+4 {
			return 0, false
		}
		return int(binary.BigEndian.Uint32(p.loca[4*glyph:])), true
	}
	if len(p.loca) < 2*glyph+2 {
		return 0, false
	}
	return 2 * int(binary.BigEndian.Uint16(p.loca[2*glyph:])), true
}
