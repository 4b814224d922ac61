package picture

import "encoding/binary"

const (
	quickBits = 11 // codes no longer than this are looked up at once
	longest   = 16 // bits of a code
	// overread is how far a group of blocks may read past its data before that
	// shows: at most ten blocks (T.81, B.2.3) of 64 codes of 16 bits with 15 more.
	overread = 10*64*31/8 + 8
	// blockEnd is further than a run of coefficients can reach.
	blockEnd = 1 << 7
)

// bits reads coded data that has been unstuffed and has overread zeros behind
// it.
type bits struct {
	data []byte
	next int    // byte of data
	acc  uint64 // its upper n bits have been read and not used
	n    uint
}

// fill makes sure of 32 bits: a code and what it says follows it.
func (b *bits) fill() {
	if b.n < 32 {
		b.acc |= uint64(binary.BigEndian.Uint32(b.data[b.next:])) << (32 - b.n)
		b.next += 4
		b.n += 32
	}
}

func (b *bits) drop(n uint) {
	b.acc <<= n
	b.n -= n
}

// over reports whether more bits were used than the data has.
func (b *bits) over() bool { return b.next*8-int(b.n) > (len(b.data)-overread)*8 }

// huffman is one table of codes (T.81, annex C), from the upper bits of what
// comes next to the symbol.
type huffman struct {
	// symbol holds the value times 256 and the code's length; 0 for long codes.
	symbol [1 << quickBits]uint16
	// skip holds what a coefficient and those that are zero before it come to,
	// times 256, and how many bits all of it takes; 0 for long codes.
	skip [1 << quickBits]uint16

	values []byte
	limit  [longest + 1]uint32 // the first 16 bits that are no code of that length or shorter
	offset [longest + 1]int    // of a code of that length into values
}

// newHuffman reads a table: how many codes of each length there are, then
// their values. It returns nil if there are not such codes, or if they stand for
// what only progressive files have.
func newHuffman(counts, values []byte) *huffman {
	for _, v := range values {
		if v&15 == 0 && v != 0 && v != 0xF0 {
			return nil
		}
	}
	h := &huffman{values: values}
	code, used := uint32(0), 0 // the next code, in 16 bits
	for length := 1; length <= longest; length++ {
		step := uint32(1) << (longest - length)
		h.offset[length] = used - int(code/step)
		for range counts[length-1] {
			if code+step > 1<<longest {
				return nil
			}
			h.enter(code, step, uint16(length), values[used])
			code += step
			used++
		}
		h.limit[length] = code
	}
	return h
}

// enter fills the places of one code in the tables of short ones.
func (h *huffman) enter(code, step uint32, length uint16, value byte) {
	const shift = longest - quickBits
	if length > quickBits {
		return
	}
	for i := code >> shift; i < (code+step)>>shift; i++ {
		h.symbol[i] = uint16(value)<<8 | length
		h.skip[i] = skipOf(value)<<8 | length + uint16(value&15)
	}
}

// skipOf is how many coefficients a symbol stands for: one that is not zero, or
// sixteen zeros, or all the rest.
func skipOf(value byte) uint16 {
	if value&15 == 0 && value != 0xF0 {
		return blockEnd
	}
	return uint16(value>>4) + 1
}

// next takes one symbol; false if no code is like that.
func (h *huffman) next(b *bits) (value byte, ok bool) {
	b.fill()
	if s := h.symbol[b.acc>>(64-quickBits)]; s != 0 {
		b.drop(uint(s & 255))
		return byte(s >> 8), true
	}
	code := uint32(b.acc >> (64 - longest))
	for length := quickBits + 1; length <= longest; length++ {
		if code < h.limit[length] {
			b.drop(uint(length))
			return h.values[h.offset[length]+int(code>>(longest-length))], true
		}
	}
	return 0, false
}

// number takes the value of that many bits which follows a symbol (T.81,
// F.2.2.1, EXTEND). The bits are there.
func (b *bits) number(size byte) int {
	if size == 0 {
		return 0
	}
	v := int(b.acc >> (64 - size))
	b.drop(uint(size))
	if v < 1<<(size-1) {
		v -= 1<<size - 1
	}
	return v
}

// skipFrom passes over the coefficients of a block from the k-th on; false if
// they are more than a block has, or coded wrongly. Most of a file is read
// here.
func (h *huffman) skipFrom(k int, b *bits) bool {
	acc, n, at := b.acc, b.n, b.next
	for k < blockSide*blockSide {
		if n < 32 {
			acc |= uint64(binary.BigEndian.Uint32(b.data[at:])) << (32 - n)
			at += 4
			n += 32
		}
		s := h.skip[acc>>(64-quickBits)]
		if s == 0 {
			b.acc, b.n, b.next = acc, n, at
			value, ok := h.next(b)
			if !ok {
				return false
			}
			b.drop(uint(value & 15))
			acc, n, at = b.acc, b.n, b.next
			k += int(skipOf(value))
			continue
		}
		acc <<= s & 63
		n -= uint(s & 255)
		k += int(s >> 8)
	}
	b.acc, b.n, b.next = acc, n, at
	return k == blockSide*blockSide || k >= blockEnd
}
