package saw

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/parts"
)

// source is one size of stock that the solver may take from.
type source struct {
	length, width measure.Length
	cost          int64 // of one; the solver knows no units
	limit         int   // negative for any number
	size          int   // index in Stock.Sizes, or -1
	from          origin
}

// origin is where stock comes from.
type origin int8

const (
	onHand origin = iota
	bought
	wished // what there is none left of: what is cut from it is missing
)

// fine is how many parts of a hundredth of the currency a price is counted in,
// since the price of a bar out of a pack of ten seldom comes out even.
const fine = 1000

// mostEach is the most that the solvers take one bar or sheet to cost. Dearer ones
// are all the same to them.
const mostEach = 1 << 39

// each is the price of one out of its cheapest pack, in such parts, rounded up.
func each(b parts.Buying) (int64, bool) {
	least, known := int64(0), false
	for _, p := range b.Packs {
		price := (int64(p.Price)*fine + int64(p.Pieces) - 1) / int64(p.Pieces)
		if !known || price < least {
			least, known = price, true
		}
	}
	return least, known
}

// shop is a job with what it can be cut from.
type shop struct {
	*Job
	sources  []source
	priced   bool
	unpriced []int // sizes that are left out because others have a price and they do not
}

// newShop lists what the pieces can be cut from: what is on hand, which costs
// nothing, then what can be bought, at its price. A size without a price is left
// out if every piece can be cut from one that has; if not, all cost what they
// measure.
func newShop(job *Job) *shop {
	s := &shop{Job: job}
	var priced, all []source
	for i, z := range job.Stock.Sizes {
		src := source{length: z.Length, width: z.Width, limit: -1, size: i, from: bought}
		src.cost = min(material(z.Length, z.Width), mostEach)
		all = append(all, src)
		if price, known := each(z.Buy); known {
			src.cost = min(price, mostEach)
			priced = append(priced, src)
		} else {
			s.unpriced = append(s.unpriced, i)
		}
	}
	s.sources = s.hand()
	s.priced = len(priced) > 0 && !slices.ContainsFunc(job.Pieces, func(p Piece) bool {
		return !s.fits(p, priced) && s.fits(p, all)
	})
	switch {
	case s.priced:
		s.sources = append(s.sources, priced...)
	default:
		s.unpriced = nil
		s.sources = append(s.sources, all...)
	}
	s.wish()
	return s
}

// hand is what is on hand, each size once.
func (s *shop) hand() []source {
	var list []source
	for _, h := range s.OnHand {
		if r := s.room(source{length: h.Length, width: h.Width}); h.Count == 0 || r.length <= 0 || h.Width > 0 && r.width <= 0 {
			continue // nothing, or nothing once it is trimmed
		}
		if i := slices.IndexFunc(list, func(o source) bool { return o.length == h.Length && o.width == h.Width }); i >= 0 {
			list[i].limit += h.Count
			continue
		}
		size := slices.IndexFunc(s.Stock.Sizes, func(z parts.StockSize) bool { return z.Length == h.Length && z.Width == h.Width })
		list = append(list, source{length: h.Length, width: h.Width, limit: h.Count, size: size, from: onHand})
	}
	return list
}

// wish adds, for pieces that only stock on hand is large enough for, any number
// more of that stock at a cost beyond everything else: what the solver takes of
// it is what is missing.
func (s *shop) wish() {
	var short []Piece
	beyond, count := int64(1), 0
	for _, p := range s.Pieces {
		if s.fits(p, s.sources) && !s.fits(p, s.buyable()) {
			short = append(short, p)
		}
		count += p.Count
	}
	if len(short) == 0 {
		return
	}
	for _, src := range s.sources {
		beyond = max(beyond, src.cost)
	}
	beyond = min(beyond*int64(count)+1, mostEach/2)
	for _, src := range s.sources {
		if src.from == onHand && slices.ContainsFunc(short, func(p Piece) bool { return s.fits(p, []source{src}) }) {
			src.cost, src.limit, src.from = min(beyond+coarse(src.length, src.width), mostEach), -1, wished
			s.sources = append(s.sources, src)
		}
	}
}

func (s *shop) buyable() []source {
	return slices.DeleteFunc(slices.Clone(s.sources), func(o source) bool { return o.from != bought })
}

// fits says whether a piece can be cut from any of the sources.
func (s *shop) fits(p Piece, from []source) bool {
	for _, src := range from {
		r := s.room(src)
		if p.Length <= r.length && p.Width <= r.width || p.Turn && p.Width <= r.length && p.Length <= r.width {
			return true
		}
	}
	return false
}

// room is what trimming leaves of a bar or sheet, and where that begins.
type room struct{ x, y, length, width measure.Length }

// room trims a bar at both ends, a sheet all round. Across grooves the near edge
// loses whole ones, so that pieces still begin between the same ones.
func (s *shop) room(src source) room {
	t := s.Stock.Trim
	r := room{x: t, length: src.length - 2*t}
	if src.width > 0 {
		r.y = t
		if g := s.Stock.Grooves; g > 0 {
			r.y = (t + g - 1) / g * g
		}
		r.width = src.width - r.y - t
	}
	return r
}

// material is what a bar or sheet is worth where prices are not known: its length
// in micrometres, or its area in hundredths of a square millimetre, rounded up.
func material(length, width measure.Length) int64 {
	if width == 0 {
		return up(length, measure.Micrometre)
	}
	const tenth = measure.Millimetre / 10
	return up(length, tenth) * up(width, tenth)
}

// coarse is material in units that stay small beside costs: centimetres, or
// square centimetres.
func coarse(length, width measure.Length) int64 {
	const cm = measure.Centimetre
	return up(length, cm) * max(up(width, cm), 1)
}

func up(l, unit measure.Length) int64 { return int64((l + unit - 1) / unit) }

// larger orders sizes from the largest to the smallest.
func larger(a, b Use) int {
	return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(b.Width, a.Width))
}
