package layout

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"runtime"
	"sync"
	"sync/atomic"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/picture"
	"setwright/layout/unit"
)

const (
	imageLimit = 32 << 20
	// dot is how fine pictures are kept, on the goods: as fine as a drawing at
	// one to four shows them at 200 dots an inch, and none is larger.
	dot = measure.Inch / 50
	// leastDots are kept each way of any picture, for lists that show the small
	// goods larger.
	leastDots = 160
	// mostAtOnce is how many pictures are held at once while they are read.
	mostAtOnce = 8
)

// Image is the picture of that path, from the plan's folder; nil if no product
// names it. It has 50 pixels to each inch of the largest front of those
// products, or as many as the file has if those are fewer.
func (p *Project) Image(path string) *picture.Picture { return p.byPath[path] }

// wanted is a picture to be read, the first product that names it, and how many
// pixels are wanted.
type wanted struct {
	product       *goods.Product
	width, height int
	picture       *picture.Picture
	sum           string // SHA-256 of the file
	findings      diag.List
}

// loadImages reads every image a product names, each file once, for the fronts
// of a unit, which may be nil.
func (p *Project) loadImages(fsys fs.FS, u *unit.Unit) {
	var list []*wanted
	byName := map[string]*wanted{}
	for _, product := range p.Goods.All() {
		if name := product.Image; name != "" && byName[name] == nil {
			p.asked(name)
			byName[name] = &wanted{product: product, width: leastDots, height: leastDots}
			list = append(list, byName[name])
		}
	}
	forFronts(u, func(product *goods.Product, b unit.Box) {
		if w := byName[product.Image]; w != nil {
			w.width, w.height = max(w.width, dots(b.Width())), max(w.height, dots(b.Height()))
		}
	})
	readAll(fsys, p.atHand(list))
	p.byPath = map[string]*picture.Picture{}
	for _, w := range list {
		p.Findings.Add(w.findings.All()...)
		p.byPath[w.product.Image] = w.picture
		p.images = append(p.images, Image{w.product.Image, w.sum, w.picture})
	}
}

// atHand takes the pictures that need not be read, and returns the others.
func (p *Project) atHand(list []*wanted) []*wanted {
	if p.pictures == nil {
		return list
	}
	var rest []*wanted
	for _, w := range list {
		if w.picture, w.sum = p.pictures(w.product.Image); w.picture == nil {
			rest = append(rest, w)
		}
	}
	return rest
}

func dots(l measure.Length) int { return int((l + dot - 1) / dot) }

// forFronts calls what for every front on the unit.
func forFronts(u *unit.Unit, what func(*goods.Product, unit.Box)) {
	if u == nil {
		return
	}
	for _, f := range u.Faces {
		for _, r := range f.Rows {
			for _, at := range r.Positions {
				for _, front := range at.Fronts {
					what(at.Product, front.Box)
				}
			}
		}
	}
}

// readAll reads pictures on all processors. Each keeps its own findings, so that
// it does not matter which is read first.
func readAll(fsys fs.FS, list []*wanted) {
	var reader picture.Reader
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), mostAtOnce, len(list)) {
		all.Go(func() {
			for i := next.Add(1) - 1; i < int64(len(list)); i = next.Add(1) - 1 {
				list[i].read(fsys, &reader)
			}
		})
	}
	all.Wait()
}

func (w *wanted) read(fsys fs.FS, reader *picture.Reader) {
	product := w.product
	data, ok := decode.Read(fsys, product.Image, imageLimit, product.At, &w.findings)
	if !ok {
		return
	}
	sum := sha256.Sum256(data)
	w.sum = hex.EncodeToString(sum[:])
	var err error
	if w.picture, err = reader.Read(data, w.width, w.height); err != nil {
		w.findings.Add(diag.Finding{
			Level: diag.Error, Code: "bad-image", At: product.At,
			Message:  fmt.Sprintf("image %q of %s cannot be used: %v", product.Image, product.SKU, err),
			Expected: fmt.Sprintf("a whole JPEG or PNG of at most %d megapixels", picture.MostPixels/1_000_000),
		})
	}
}
