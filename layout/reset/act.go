package reset

import (
	"setwright/layout/check"
	"setwright/layout/measure"
	"setwright/layout/unit"
)

// none stands for no job.
const none = -1

// thing is a piece or a facing as the order of work sees it: whether it has to
// leave its old room and come to a new one, and what carries it.
type thing struct {
	item   *Item
	facing *Facing
	riders []*thing // what goes along with it: strips of a piece, goods of one that slides
	rides  bool     // it is such a rider itself

	leaves, arrives bool
	straight        bool // both at once, without a stay on the cart or beside the unit
	slides          bool // and through all that lies between
	aside           bool // it would go straight, but waits beside the unit

	old, new      []int // the things that carry it before and after
	off, on, fill int   // its jobs; fill tops up or thins out goods that come along with something
}

// things lists the pieces, then the facings, in the order of the reset.
func (r *Reset) things() []*thing {
	list := make([]*thing, 0, len(r.Items)+len(r.Facings))
	of := make(map[*Item]int, len(r.Items))
	for i, item := range r.Items {
		of[item] = i
		list = append(list, &thing{item: item, off: none, on: none, fill: none})
	}
	for _, t := range list {
		t.readItem(list, of)
	}
	for _, f := range r.Facings {
		t := &thing{facing: f, off: none, on: none, fill: none}
		t.readFacing(list, of)
		list = append(list, t)
	}
	return list
}

// readItem works out what is to be done to a piece.
func (t *thing) readItem(list []*thing, of map[*Item]int) {
	item := t.item
	switch item.Way {
	case Stay:
		return
	case Ride:
		t.rides = true
		host := list[of[item.Host]]
		host.riders = append(host.riders, t)
		return
	}
	t.leaves, t.arrives = item.From != nil, item.To != nil
	t.straight = t.leaves && t.arrives
	t.slides = item.Way == Slide
	t.old, t.new = item.From.carriers(of), item.To.carriers(of)
}

// carriers are the things that a piece rests on and is fixed to in a place.
func (p *Place) carriers(of map[*Item]int) []int {
	if p == nil {
		return nil
	}
	var list []int
	if p.Host != nil {
		list = append(list, of[p.Host])
	}
	for _, b := range p.Rests {
		list = append(list, of[b])
	}
	return list
}

// readFacing works out what is to be done to a facing. One that is thinned out
// where it is only leaves room, one that is filled up only takes some.
func (t *thing) readFacing(list []*thing, of map[*Item]int) {
	f := t.facing
	switch f.Way {
	case Stay:
		t.leaves, t.arrives = f.More() < 0, f.More() > 0
		return
	case Ride:
		t.rides = true
		host := list[of[f.From.On]]
		host.riders = append(host.riders, t)
		return
	case Slide:
		t.straight, t.slides = true, true
	}
	if t.leaves = f.From != nil; t.leaves {
		t.old = []int{of[f.From.On]}
	}
	if t.arrives = f.To != nil; t.arrives {
		t.new = []int{of[f.To.On]}
	}
}

// where is the place of a thing in one of the units, and what is moved there.
type where struct {
	face  *unit.Face
	row   *unit.Row
	solid unit.Solid
	grips []unit.Grip
	mass  measure.Mass
}

// places are a thing's place before and after, nil for stock. Of goods that come
// along with something or are nudged only those are moved that are there both
// before and after: they are thinned out first and filled up last.
func (t *thing) places(r *Reset) (old, new *where) {
	if t.item != nil {
		return t.item.From.where(r.Old), t.item.To.where(r.New)
	}
	f := t.facing
	old, new = f.From.where(f.Product.Weight), f.To.where(f.Product.Weight)
	if t.slides || t.rides {
		old.mass = min(old.mass, new.mass)
		new.mass = old.mass
	}
	return old, new
}

func (p *Place) where(u *unit.Unit) *where {
	if p == nil {
		return nil
	}
	return &where{p.Face, p.Row, p.Solid, p.Piece.Grips, check.PieceWeight(u.Parts, p.Piece)}
}

func (s *Spot) where(each measure.Mass) *where {
	if s == nil {
		return nil
	}
	return &where{s.Face, s.Row, s.Solid, nil, measure.Mass(s.Front.Units) * each}
}

// moving is the weight of a thing and its riders where it was and where it comes
// to.
func (t *thing) moving(r *Reset) (from, to load) {
	old, new := t.places(r)
	from, to = old.load(), new.load()
	for _, rider := range t.riders {
		f, on := rider.moving(r)
		from, to = from.plus(f), to.plus(on)
	}
	return from, to
}

// load is the weight at a place.
func (w *where) load() load {
	if w == nil {
		return load{}
	}
	return loadOn(w.face, w.mass, w.solid)
}
