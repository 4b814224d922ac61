package check

import (
	"slices"

	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// subject is what the rules look at: the unit, its pieces with what they carry,
// and the assessment. Quarters is how heavy goods are taken to be: 4 as they
// are, 5 a quarter heavier.
type subject struct {
	*unit.Unit
	quarters measure.Mass
	faces    [][]*laden             // as Unit.Faces, pieces in the order of rows and from the left
	of       map[*unit.Piece]*laden // a piece, or the one that a bracket is under
	a        *Assessment
}

// usual and heavier are the quarters in which goods are weighed.
const usual, heavier measure.Mass = 4, 5

// laden is a piece of a row with all that is on it when every position is full.
type laden struct {
	face   *unit.Face
	row    *unit.Row
	piece  *unit.Piece
	extras []*unit.Piece
	held   []held
	where  []string // the addresses of what it carries, from the left
	hull   unit.Box // round the piece and its goods
}

// held is a front on its piece.
type held struct {
	front   *unit.Front
	product *goods.Product
	weight  measure.Mass // of all its units
}

// newSubject gathers what every piece carries.
func newSubject(u *unit.Unit, quarters measure.Mass) *subject {
	s := &subject{Unit: u, quarters: quarters, faces: make([][]*laden, len(u.Faces)), of: map[*unit.Piece]*laden{}}
	for i, f := range u.Faces {
		for _, row := range f.Rows {
			s.faces[i] = append(s.faces[i], s.load(f, row)...)
		}
	}
	return s
}

// load puts the goods and extras of one row on its pieces.
func (s *subject) load(f *unit.Face, row *unit.Row) []*laden {
	list := make([]*laden, len(row.Pieces))
	for i, p := range row.Pieces {
		list[i] = &laden{face: f, row: row, piece: p, hull: p.Box}
		s.of[p] = list[i]
	}
	for _, b := range row.Brackets {
		for _, l := range list {
			if l.piece.Box.X0 <= b.X && b.X <= l.piece.Box.X1 {
				s.of[b] = l
			}
		}
	}
	for i, extra := range row.Extras { // of each kind one a piece, in their order
		if len(list) > 0 {
			l := list[i%len(list)]
			l.extras = append(l.extras, extra)
		}
	}
	for _, pos := range row.Positions {
		for i := range pos.Fronts {
			front := &pos.Fronts[i]
			l := s.of[front.Piece]
			l.held = append(l.held, held{front, pos.Product, measure.Mass(front.Units) * pos.Product.Weight * s.quarters / usual})
			l.hull = around(l.hull, front.Box)
			if !slices.Contains(l.where[max(0, len(l.where)-1):], pos.Address) {
				l.where = append(l.where, pos.Address)
			}
		}
	}
	return list
}

func around(a, b unit.Box) unit.Box {
	return unit.Box{
		X0: min(a.X0, b.X0), X1: max(a.X1, b.X1),
		Y0: min(a.Y0, b.Y0), Y1: max(a.Y1, b.Y1),
		D0: min(a.D0, b.D0), D1: max(a.D1, b.D1),
	}
}

// goods is the weight of what is on the piece.
func (l *laden) goods() measure.Mass {
	var sum measure.Mass
	for _, h := range l.held {
		sum += h.weight
	}
	return sum
}

// places is where to look for the piece: the addresses of its goods, or of its
// row if it is bare.
func (l *laden) places() []string {
	if len(l.where) > 0 {
		return l.where
	}
	return []string{l.row.Address}
}

// on is the addresses of what a piece carries, or what stands over a bracket.
func (s *subject) on(row *unit.Row, p *unit.Piece) []string {
	if l := s.of[p]; l != nil {
		return l.places()
	}
	return []string{row.Address}
}

// all lists every piece of every face in order.
func (s *subject) all() []*laden { return slices.Concat(s.faces...) }
