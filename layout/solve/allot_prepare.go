package solve

import (
	"cmp"
	"math/bits"
	"slices"
)

// nowhere is the row of the option to be left out.
const nowhere = -1

// endlessLoad stands for a row without a limit that could bind.
const endlessLoad = int64(-1)

// allotter is the problem made ready, and the state of the search for its answer.
// Options without hope are gone, widths and weights are whole multiples of the
// largest unit that measures a row, and being left out is an option like others.
type allotter struct {
	rows    []AllotRow
	options []option
	first   []int // options first[p] to first[p+1]-1 are product p's, by row, then width
	groups  [][]group
	classes [][]int // rows that have one price together, while they do
	chains  []ladder
	scale   int64 // multipliers and bounds are in parts of 1/scale of a value
	cap     int64 // no multiplier need be greater

	least  int64 // no allotment is worth less
	value  int64 // of the best allotment so far
	best   []int // its options, nil while there is none
	steps  int64
	effort int64
	open   nodes
	fill   filler
	cells  int64 // how fine tables are at most
	want   bool
	unitOf []int64 // by row: the caller's width that is one of ours
	partOf []int64 // and weight
	root   *ProofNode
	plain  bool // a part of another problem: not to be bettered by parts
	seq    int
}

// option is a way to place a product, or to leave it out.
type option struct {
	product, row         int
	index                int // among the caller's options, -1: left out
	width, weight, value int64
}

// group is a product's options in one row.
type group struct{ product, from, to int }

func newAllotter(a *Allot) *allotter {
	s := &allotter{rows: slices.Clone(a.Rows), effort: a.Effort, want: a.WantProof, value: -1}
	for r := range s.rows {
		s.coarsen(r, a.Products)
	}
	for p, product := range a.Products {
		s.first = append(s.first, len(s.options))
		s.options = append(s.options, s.ready(p, product, a.Rows)...)
	}
	s.first = append(s.first, len(s.options))
	s.group()
	for i, c := range a.Chains {
		if made := newChain(c, len(a.Products), len(a.Rows)); made.classes > 1 && made.ranks > 1 {
			made.number = i
			s.chains = append(s.chains, made)
		}
	}
	s.setScale()
	return s
}

// group gathers the options by row and product.
func (s *allotter) group() {
	s.groups = make([][]group, len(s.rows))
	for o := 0; o < len(s.options); {
		g := group{s.options[o].product, o, o + 1}
		for g.to < len(s.options) && s.options[g.to].product == g.product && s.options[g.to].row == s.options[o].row {
			g.to++
		}
		if row := s.options[o].row; row != nowhere {
			s.groups[row] = append(s.groups[row], g)
		}
		o = g.to
	}
}

// possible tells whether an option could be taken: it names a row and fits it on its
// own.
func possible(o AllotOption, rows []AllotRow) bool {
	if o.Row < 0 || o.Row >= len(rows) || o.Width < 0 || o.Weight < 0 {
		return false
	}
	row := rows[o.Row]
	return o.Width <= row.Room && (row.Load == 0 || o.Weight <= row.Load)
}

// ready lists a product's options that could be taken, without those that another
// in the same row betters, and with being left out unless it must be placed.
// What it is worth at least goes to least.
func (s *allotter) ready(p int, product AllotProduct, rows []AllotRow) []option {
	var list []option
	for i, o := range product.Options {
		if possible(o, rows) {
			list = append(list, option{p, o.Row, i, o.Width / s.unitOf[o.Row], o.Weight / s.partOf[o.Row], o.Value})
		}
	}
	if product.Must && len(list) > 0 {
		s.least += slices.MinFunc(list, func(a, b option) int { return cmp.Compare(a.value, b.value) }).value
	}
	slices.SortStableFunc(list, func(a, b option) int {
		return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.width, b.width), cmp.Compare(b.value, a.value), cmp.Compare(a.weight, b.weight))
	})
	var kept []option
	if !product.Must {
		kept = append(kept, option{product: p, row: nowhere, index: -1})
	}
	for _, o := range list {
		if !slices.ContainsFunc(kept, func(k option) bool {
			return k.row == o.row && k.width <= o.width && k.weight <= o.weight && k.value >= o.value
		}) {
			kept = append(kept, o)
		}
	}
	return kept
}

// coarsen measures a row's widths and weights in the largest unit that divides
// them all, and takes a load off that cannot bind.
func (s *allotter) coarsen(r int, products []AllotProduct) {
	var wide, heavy, unit, part int64
	row := &s.rows[r]
	for _, p := range products {
		var widest, heaviest int64
		for _, o := range p.Options {
			if o.Row == r && possible(o, s.rows) {
				unit, part = gcd(unit, o.Width), gcd(part, o.Weight)
				widest, heaviest = max(widest, o.Width), max(heaviest, o.Weight)
			}
		}
		wide, heavy = wide+widest, heavy+heaviest
	}
	unit, part = max(unit, 1), max(part, 1)
	s.unitOf, s.partOf = append(s.unitOf, unit), append(s.partOf, part)
	row.Room = max(min(row.Room, wide), 0) / unit
	if row.Load == 0 || heavy <= row.Load {
		row.Load = endlessLoad
	} else {
		row.Load /= part
	}
}

// setScale makes multipliers as fine as whole numbers allow.
func (s *allotter) setScale() {
	const slack = 64 // how much dearer a row may be than all values, to show that nothing fits it
	var total int64 = 1
	for p := range s.products() {
		var most int64
		for _, o := range s.options[s.first[p]:s.first[p+1]] {
			most = max(most, o.value, -o.value)
		}
		total += most * slack
	}
	spread := int64(s.products() + 2*len(s.rows) + 4)
	s.scale = 1
	for s.scale < 1<<40 && total < (1<<56)/spread/(s.scale*2) {
		s.scale *= 2
	}
	s.cap = total * s.scale
}

func (s *allotter) products() int { return len(s.first) - 1 }

// target is the least bound that leaves hope for better than the best so far.
func (s *allotter) target() int64 {
	if s.best == nil {
		return s.least * s.scale
	}
	return (s.value + 1) * s.scale
}

// mulDiv is a*b/c rounded towards nought, without overflow on the way. It is held
// to 1<<61.
func mulDiv(a, b, c int64) int64 {
	negative := (a < 0) != (b < 0)
	hi, lo := bits.Mul64(uint64(max(a, -a)), uint64(max(b, -b)))
	q := uint64(1 << 61)
	if hi < uint64(c) {
		q, _ = bits.Div64(hi, lo, uint64(c))
	}
	if q > 1<<61 {
		q = 1 << 61
	}
	if negative {
		return -int64(q)
	}
	return int64(q)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
