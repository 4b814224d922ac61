package draw

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/picture"
	"setwright/layout/unit"
	"setwright/render/sheet"
)

// Merchandise draws the sheets of a face's goods: what stands and hangs where.
func (j *Job) Merchandise(f *unit.Face) []*Page {
	s := &section{job: j, name: string(f.ID) + "-goods", title: fmt.Sprintf(j.Words.GoodsOf, j.faceName(f.ID)), under: j.Words.AddressNote}
	for n := 1; n <= f.Bays; n++ {
		pages, den := j.merchZones(f, n)
		if j.legibleIn(n, den) || n == f.Bays {
			for _, p := range pages {
				j.drawMerch(s, p)
			}
			break
		}
	}
	return s.pages
}

// merchPlot is an elevation of goods, laid out but not drawn.
type merchPlot struct {
	face   *unit.Face
	zone   zone
	paper  paper
	den    int64
	margin measure.Length // each side, for addresses that find no room
	legend measure.Length // height under the floor
	found  []placed       // what is found about the goods
}

func (j *Job) merchZones(f *unit.Face, n int) (list []merchPlot, smallest int64) {
	margin := 10 * mm
	for _, r := range f.Rows {
		for _, p := range r.Positions {
			margin = max(margin, letter(fine).strong().width(p.Address)+8*mm)
		}
	}
	found, line := j.aboutGoods(j.placedOn(f))
	line = joined(j.allottedHere(f), line)
	for _, z := range zones(f, n) {
		p := merchPlot{face: f, zone: z, margin: margin, found: found}
		entries := j.legendEntries(f)
		p.legend = 9*mm + 7*mm*measure.Length((len(entries)+2)/3)
		if line != "" {
			p.legend += letter(plain).pitch() * measure.Length(len(wrap(line, letter(plain), wide(j.field(j.paper())))))
		}
		p.paper, p.den = j.choose(need{width: z.width(), height: tallest(f), sides: 2 * margin, above: 5 * mm, below: p.legend})
		list = append(list, p)
		smallest = max(smallest, p.den)
	}
	return list, smallest
}

// drawMerch draws one elevation of goods on a new sheet.
func (j *Job) drawMerch(s *section, p merchPlot) {
	pg := s.page(p.paper)
	pg.scale = j.scaleName(p.den)
	v := view{den: p.den}
	spare := high(pg.Field) - v.len(tallest(p.face)) - p.legend
	v.origin = pt((pg.Field.Min.X+pg.Field.Max.X-v.len(p.zone.width()))/2, pg.Field.Min.Y+min(spare/2, 30*mm)+v.len(tallest(p.face)))
	e := &elevation{Page: pg, face: p.face, zone: p.zone, view: v}
	e.carcass()
	e.hardware(pale())
	blocks := e.blocks()
	for _, b := range blocks {
		e.block(b)
	}
	e.addresses(blocks, p.margin)
	for _, r := range p.zone.rows(p.face) {
		e.hide(r)
	}
	e.hideCarcass()
	bare := map[int][]string{}
	e.flagGoods(blocks, p.found, bare)
	if len(blocks) == 0 {
		e.bareOfGoods()
	}
	e.zoneKey()
	under := e.legend(pg.Field.Min.X, e.y(0)+7*mm)
	pg.paragraph(pg.Field.Min.X, under, wide(pg.Field), joined(j.allottedHere(p.face), j.findingsHere(p.found, bare)), letter(plain))
}

// joined sets what it is given one paragraph under the other.
func joined(texts ...string) string {
	texts = slices.DeleteFunc(texts, func(s string) bool { return s == "" })
	return strings.Join(texts, "\n")
}

// block is one position on paper: its fronts and the rectangle round them.
type block struct {
	position *unit.Position
	fronts   []sheet.Rect
	round    sheet.Rect
	family   int
	far      measure.Length // how far out its front is, to draw what is behind first
}

// blocks lists the positions in the zone, what is farthest from the viewer
// first.
func (e *elevation) blocks() []block {
	var list []block
	for _, r := range e.face.Rows {
		for _, p := range r.Positions {
			b := block{position: p, family: e.job.familyOf(p.Product)}
			for _, f := range p.Fronts {
				if !e.zone.shows(f.Box) {
					continue
				}
				rect := e.paper(f.Box)
				if len(b.fronts) == 0 {
					b.round = rect
				}
				b.round = box(min(b.round.Min.X, rect.Min.X), min(b.round.Min.Y, rect.Min.Y), max(b.round.Max.X, rect.Max.X), max(b.round.Max.Y, rect.Max.Y))
				b.fronts = append(b.fronts, rect)
				b.far = max(b.far, f.Box.D1)
			}
			if len(b.fronts) > 0 {
				list = append(list, b)
			}
		}
	}
	sort.SliceStable(list, func(i, k int) bool { return list[i].far < list[k].far })
	return list
}

// block draws the fronts of a position: tint, hatch, outline; its picture if
// it has one.
func (e *elevation) block(b block) {
	picture := e.job.photo(b.position.Product)
	for _, r := range b.fronts {
		e.front(r, b.family, picture)
	}
	if len(b.fronts) > 1 {
		e.outlineBox(b.round, pen(solid))
	}
	e.keepBox(b.round)
}

// front draws one front: tint, hatch, outline; the picture if there is one.
func (p *Page) front(r sheet.Rect, family int, of *photo) {
	p.fillBox(r, tintOf(family))
	if of == nil {
		p.hatch(r, patternOf(family))
	} else {
		p.pasteIn(r, of)
	}
	p.outlineBox(r, pen(thin))
}

// photo is a product's picture and its path.
type photo struct {
	path string
	*picture.Picture
}

// photo is the product's, nil if it has none.
func (j *Job) photo(p *goods.Product) *photo {
	if j.Image == nil || p.Image == "" {
		return nil
	}
	if of := j.Image(p.Image); of != nil {
		return &photo{p.Image, of}
	}
	return nil
}

// pasteIn puts a picture in the middle of a front, as large as it fits whole.
// Its data comes once it is known how large it is drawn anywhere.
func (p *Page) pasteIn(r sheet.Rect, of *photo) {
	across, up := of.Size()
	w, h := wide(r), wide(r)*measure.Length(up)/measure.Length(across)
	if h > high(r) {
		w, h = high(r)*measure.Length(across)/measure.Length(up), high(r)
	}
	x, y := (r.Min.X+r.Max.X-w)/2, (r.Min.Y+r.Max.Y-h)/2
	p.Sheet.Add(sheet.Image{Box: box(x, y, x+w, y+h), Key: of.path, Alt: of.path})
}

func (e *elevation) bareOfGoods() {
	s := letter(large).middle()
	x, y := (e.x(e.zone.x0)+e.x(e.zone.x1))/2, (e.y(e.face.Top)+e.y(e.face.Bottom))/2
	for i, l := range wrap(e.job.Words.NoGoods, s, e.view.len(e.zone.width())-4*mm) {
		at := y + s.pitch()*measure.Length(i)
		e.fillBox(inset(s.extent(x, at, l), -1*mm), white())
		e.write(x, at, l, s)
	}
}

// legendEntries lists the families on a face, by their place in the legend.
func (j *Job) legendEntries(f *unit.Face) []int {
	on := map[int]bool{}
	for _, r := range f.Rows {
		for _, p := range r.Positions {
			on[j.familyOf(p.Product)] = true
		}
	}
	var list []int
	for i := range j.families {
		if on[i] {
			list = append(list, i)
		}
	}
	return list
}

// legendName writes a family's name centred on y: on two lines of smaller
// lettering if it is long.
func (e *elevation) legendName(name string, x, y, width measure.Length) {
	if s := letter(plain); s.width(name) <= width {
		e.writeMid(x, y, name, s)
		return
	}
	s := letter(fine)
	lines := wrapTo(name, s, width, 2)
	for i, line := range lines {
		e.writeMid(x, y+s.pitch()*(2*measure.Length(i)-measure.Length(len(lines))+1)/2, line, s)
	}
}

// legend shows each family's tint and hatch, three on a line, and returns the
// y under it.
func (e *elevation) legend(x, y measure.Length) measure.Length {
	third := wide(e.Field) / 3
	entries := e.job.legendEntries(e.face)
	for i, family := range entries {
		left, top := x+third*measure.Length(i%3), y+7*mm*measure.Length(i/3)
		r := box(left, top, left+12*mm, top+5*mm)
		e.fillBox(r, tintOf(family))
		e.hatch(r, patternOf(family))
		e.outlineBox(r, pen(thin))
		e.legendName(e.job.familyName(family), left+14*mm, top+2500*micron, third-17*mm)
	}
	return y + 7*mm*measure.Length((len(entries)+2)/3)
}
