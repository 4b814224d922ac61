package picture

import "encoding/binary"

const blockSide = 8 // pixels each way, and coefficients

// reducer decodes a baseline JPEG of one scan to fewer pixels: side by side of
// them for each block of 8 by 8, from the block's coarsest coefficients. Only
// those are worked out, of the rest each is passed over. A photo of a camera
// takes a tenth of the time that all its pixels would, and of the memory.
//
// It takes only what it is sure of, without a single fault. All else, progressive
// files and damaged ones among it, is for the library, which judges it.
type reducer struct {
	data          []byte
	side          int // 1, 2 or 4
	width, height int
	parts         []component
	quant         [4]*[blockSide * blockSide]int // in the order of the file
	tables        [2][4]*huffman                 // of first coefficients, of others
	restart       int                            // blocks' groups from one restart to the next, 0 if there are none
	place         [blockSide * blockSide]int     // of a coefficient among side by side, -1 if it is too fine
	last          int                            // the last that is not
	coded         []byte
}

// component is luma or a chroma.
type component struct {
	plane
	id, quant  byte
	wide, high int // its blocks in a group
	dc, ac     *huffman
	before     int // first coefficient of the block before
}

// reduced decodes a JPEG to side by side pixels a block; nil if it is not one
// that this takes.
func reduced(data []byte, side int) *raster {
	r := &reducer{data: data, side: side}
	r.choosePlaces()
	for s := range segments(data) {
		if !r.segment(s) {
			return nil
		}
		if s.kind != startOfScan {
			continue
		}
		if !r.startScan(s.body) || !r.scan(s.next) {
			return nil
		}
		out := &raster{width: r.width, height: r.height}
		for i := range r.parts {
			out.planes = append(out.planes, r.parts[i].plane)
		}
		return out
	}
	return nil
}

// choosePlaces goes through the coefficients in the zigzag of T.81, figure 5.
func (r *reducer) choosePlaces() {
	row, column := 0, 0
	for i := range r.place {
		r.place[i] = -1
		if row < r.side && column < r.side {
			r.place[i], r.last = row*r.side+column, i
		}
		switch up := (row+column)%2 == 0; {
		case up && column == blockSide-1, !up && row < blockSide-1 && column == 0:
			row++
		case up && row == 0, !up && row == blockSide-1:
			column++
		case up:
			row, column = row-1, column+1
		default:
			row, column = row+1, column-1
		}
	}
}

// segment reads what a marker segment says; false if this is no file for us.
func (r *reducer) segment(s segment) bool {
	switch s.kind {
	case baseline, extended:
		return r.frame(s.body)
	case huffmanTables:
		return r.readHuffman(s.body)
	case quantTables:
		return r.readQuant(s.body)
	case restarts:
		if len(s.body) != 2 {
			return false
		}
		r.restart = int(binary.BigEndian.Uint16(s.body))
	case app14: // of Adobe's transforms of colours, 1 is luma and chroma
		return len(s.body) < 12 || string(s.body[:5]) != "Adobe" || s.body[11] == 1
	default:
		return s.kind == startOfScan || s.kind >= firstApp
	}
	return true
}

// frame reads size and components (T.81, B.2.2), luma first, whose blocks are
// as many as the chromas' or a multiple.
func (r *reducer) frame(body []byte) bool {
	if r.parts != nil || len(body) < 6 || body[0] != 8 || len(body) != 6+3*int(body[5]) || body[5] != 1 && body[5] != 3 {
		return false
	}
	r.height, r.width = int(binary.BigEndian.Uint16(body[1:])), int(binary.BigEndian.Uint16(body[3:]))
	for i := range int(body[5]) {
		b := body[6+3*i:]
		c := component{id: b[0], wide: int(b[1] >> 4), high: int(b[1] & 15), quant: b[2]}
		switch {
		case c.quant > 3:
			return false
		case body[5] == 1:
			c.wide, c.high = 1, 1
		case i > 0 && b[1] != 0x11, c.wide != 1 && c.wide != 2 && c.wide != 4, c.high != 1 && c.high != 2:
			return false
		}
		r.parts = append(r.parts, c)
	}
	return r.width > 0 && r.height > 0 && (body[5] == 1 || r.distinct())
}

// distinct reports whether the three components have names of their own, and
// not those that by custom say red, green, blue.
func (r *reducer) distinct() bool {
	a, b, c := r.parts[0].id, r.parts[1].id, r.parts[2].id
	return a != b && a != c && b != c && (a != 'R' || b != 'G' || c != 'B')
}

func (r *reducer) readQuant(body []byte) bool {
	for len(body) > 0 {
		table, wide := body[0]&15, int(body[0]>>4)
		size := blockSide * blockSide * (1 + wide)
		if table > 3 || wide > 1 || len(body) < 1+size {
			return false
		}
		q := new([blockSide * blockSide]int)
		for i := range q {
			if q[i] = int(body[1+i*(1+wide)]); wide == 1 {
				q[i] = q[i]<<8 | int(body[2+2*i])
			}
		}
		r.quant[table], body = q, body[1+size:]
	}
	return true
}

func (r *reducer) readHuffman(body []byte) bool {
	for len(body) > 0 {
		if len(body) < 1+longest || body[0]>>4 > 1 || body[0]&15 > 3 {
			return false
		}
		total := 1 + longest
		for _, n := range body[1 : 1+longest] {
			total += int(n)
		}
		if len(body) < total {
			return false
		}
		h := newHuffman(body[1:1+longest], body[1+longest:total])
		if h == nil {
			return false
		}
		r.tables[body[0]>>4][body[0]&15], body = h, body[total:]
	}
	return true
}

// startScan gives components their tables and room (T.81, B.2.3); the scan must
// hold all of them.
func (r *reducer) startScan(body []byte) bool {
	count := len(r.parts)
	if count == 0 || len(body) != 4+2*count || int(body[0]) != count {
		return false
	}
	across, down := r.groups()
	for i := range r.parts {
		c, b := &r.parts[i], body[1+2*i:]
		if b[0] != c.id || b[1]>>4 > 3 || b[1]&15 > 3 {
			return false
		}
		c.dc, c.ac = r.tables[0][b[1]>>4], r.tables[1][b[1]&15]
		if c.dc == nil || c.ac == nil || r.quant[c.quant] == nil {
			return false
		}
		c.plane = plane{
			pix: make([]byte, across*down*c.wide*c.high*r.side*r.side), stride: across * c.wide * r.side, depth: 1,
			cellX: blockSide / r.side * r.parts[0].wide / c.wide, cellY: blockSide / r.side * r.parts[0].high / c.high,
		}
	}
	return true
}

// groups is how many groups of blocks the picture is across and down: in each,
// all components cover the same pixels.
func (r *reducer) groups() (across, down int) {
	w, h := blockSide*r.parts[0].wide, blockSide*r.parts[0].high
	return (r.width + w - 1) / w, (r.height + h - 1) / h
}

// scan reads all groups, from one restart to the next, and wants the file's end
// behind them.
func (r *reducer) scan(at int) bool {
	across, down := r.groups()
	each := r.restart
	if each == 0 {
		each = across * down
	}
	for from := 0; from < across*down; from += each {
		r.coded, at = unstuffed(r.data, at, r.coded[:0])
		if at < 0 {
			return false
		}
		r.coded = append(r.coded, make([]byte, overread)...)
		b := &bits{data: r.coded}
		for i := from; i < min(from+each, across*down); i++ {
			if !r.group(b, i%across, i/across) {
				return false
			}
		}
		for i := range r.parts {
			r.parts[i].before = 0
		}
		want := restart0 + byte(from/each%8)
		if from+each >= across*down {
			want = endOfImage
		}
		if r.data[at+1] != want {
			return false
		}
		at += 2
	}
	return true
}

func (r *reducer) group(b *bits, x, y int) bool {
	for i := range r.parts {
		c := &r.parts[i]
		for down := range c.high {
			for across := range c.wide {
				row, column := (y*c.high+down)*r.side, (x*c.wide+across)*r.side
				if !r.block(b, c, c.pix[row*c.stride+column:]) {
					return false
				}
			}
		}
	}
	return !b.over()
}

// block decodes one block into the pixels it is to become.
func (r *reducer) block(b *bits, c *component, pix []byte) bool {
	size, ok := c.dc.next(b)
	if !ok || size > 11 {
		return false
	}
	b.fill()
	c.before += b.number(size)
	var coarse [16]int64
	quant := r.quant[c.quant]
	coarse[0] = int64(c.before) * int64(quant[0])
	k := 1
	for k <= r.last {
		value, ok := c.ac.next(b)
		if !ok {
			return false
		}
		b.fill()
		n := b.number(value & 15)
		if k += int(skipOf(value)); k > r.last+1 || r.place[k-1] < 0 {
			continue
		}
		coarse[r.place[k-1]] = int64(n) * int64(quant[k-1])
	}
	if k < blockEnd && !c.ac.skipFrom(k, b) {
		return false
	}
	inverse(&coarse, r.side, pix, c.stride)
	return true
}
