package picture

import (
	"image"
	"image/draw"
)

// raster is an unfolded picture: one plane of grey, three of luma and chroma,
// or one of red, green, blue and an opaque fourth.
type raster struct {
	width, height int
	planes        []plane
}

// plane is samples of some bytes each, a row after another. A sample covers
// cellX by cellY pixels of the picture: one by one, unless chroma is coarser or
// the picture was reduced while it was decoded.
type plane struct {
	pix          []byte
	stride       int // bytes from row to row
	depth        int // bytes of a sample
	cellX, cellY int
}

// rasterOf takes a decoded image apart; what is neither grey nor luma and
// chroma is laid on white paper.
func rasterOf(img image.Image) *raster {
	r := &raster{width: img.Bounds().Dx(), height: img.Bounds().Dy()}
	switch img := img.(type) {
	case *image.Gray:
		r.planes = []plane{{img.Pix, img.Stride, 1, 1, 1}}
	case *image.YCbCr:
		x, y := cells(img.SubsampleRatio)
		r.planes = []plane{{img.Y, img.YStride, 1, 1, 1}, {img.Cb, img.CStride, 1, x, y}, {img.Cr, img.CStride, 1, x, y}}
	default:
		flat := image.NewRGBA(image.Rect(0, 0, r.width, r.height))
		draw.Draw(flat, flat.Rect, image.White, image.Point{}, draw.Src)
		draw.Draw(flat, flat.Rect, img, img.Bounds().Min, draw.Over)
		r.planes = []plane{{flat.Pix, flat.Stride, 4, 1, 1}}
	}
	return r
}

// cells is how many pixels wide and high a sample of chroma is.
func cells(ratio image.YCbCrSubsampleRatio) (x, y int) {
	switch ratio {
	case image.YCbCrSubsampleRatio422:
		return 2, 1
	case image.YCbCrSubsampleRatio420:
		return 2, 2
	case image.YCbCrSubsampleRatio440:
		return 1, 2
	case image.YCbCrSubsampleRatio411:
		return 4, 1
	case image.YCbCrSubsampleRatio410:
		return 4, 2
	}
	return 1, 1
}

// image is a raster whose samples are pixels, as encoders take it.
func (r *raster) image() image.Image {
	bounds, p := image.Rect(0, 0, r.width, r.height), r.planes
	switch {
	case len(p) == 3:
		return &image.YCbCr{Y: p[0].pix, Cb: p[1].pix, Cr: p[2].pix, YStride: p[0].stride, CStride: p[1].stride,
			SubsampleRatio: image.YCbCrSubsampleRatio444, Rect: bounds}
	case p[0].depth == 1:
		return &image.Gray{Pix: p[0].pix, Stride: p[0].stride, Rect: bounds}
	}
	return &image.RGBA{Pix: p[0].pix, Stride: p[0].stride, Rect: bounds}
}

// resized is the raster in so many pixels, each sample the average of the area
// that it comes to cover, rounded half up. Samples of the result are pixels.
func (r *raster) resized(width, height int) *raster {
	small := &raster{width: width, height: height}
	for _, p := range r.planes {
		across, down := shares(r.width, p.cellX, width), shares(r.height, p.cellY, height)
		small.planes = append(small.planes, p.averaged(across, down, uint64(r.width)*uint64(r.height)))
	}
	return small
}

// share is what one sample of the result takes from those it is made of: of
// neighbouring ones from first to last, with a weight for either and one for
// each between. If it takes of one alone, that weight is head.
type share struct {
	first, last      int
	head, each, tail uint64
}

// shares divides size pixels, in samples of cell pixels, among count samples.
// A pixel counts as many times as there are samples to share it, so that all
// weights are whole and those of each share sum to size.
func shares(size, cell, count int) []share {
	list := make([]share, count)
	each := int64(cell) * int64(count)
	for i := range list {
		from := int64(i) * int64(size)
		to := from + int64(size)
		first, last := from/each, (to-1)/each
		head := min(to, (first+1)*each) - from
		list[i] = share{int(first), int(last), uint64(head), uint64(each), uint64(to - last*each)}
	}
	return list
}

func (s share) weight(k int) uint64 {
	switch k {
	case s.first:
		return s.head
	case s.last:
		return s.tail
	}
	return s.each
}

// averaged makes a plane of one sample for every pair of shares, whose weights
// multiply to sum in all.
func (p *plane) averaged(across, down []share, sum uint64) plane {
	n := len(across) * p.depth
	out := plane{make([]byte, n*len(down)), n, p.depth, 1, 1}
	line, total := make([]uint64, n), make([]uint64, n)
	have := -1 // the row that line is of
	for y, d := range down {
		clear(total)
		for k := d.first; k <= d.last; k++ {
			if k != have {
				p.averageRow(p.pix[k*p.stride:], across, line)
				have = k
			}
			weight := d.weight(k)
			for i, v := range line {
				total[i] += v * weight
			}
		}
		for i, v := range total {
			out.pix[y*n+i] = uint8((v + sum/2) / sum)
		}
	}
	return out
}

func (p *plane) averageRow(row []byte, across []share, line []uint64) {
	for i, a := range across {
		for c := range p.depth {
			at, end := a.first*p.depth+c, a.last*p.depth+c
			v := uint64(row[at]) * a.head
			if end > at {
				between := uint64(0)
				for at += p.depth; at < end; at += p.depth {
					between += uint64(row[at])
				}
				v += between*a.each + uint64(row[end])*a.tail
			}
			line[i*p.depth+c] = v
		}
	}
}
