package reset_test

import (
	"fmt"
	"math"

	"setwright/layout/check"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// body is a piece or a facing on the simulated unit.
type body struct {
	name  string
	goods bool
	face  *unit.Face
	row   *unit.Row // of the old or the new unit, as long as it is at a place of it
	also  *unit.Row // the row of the other unit, for what is never touched
	solid unit.Solid
	grips []unit.Grip
	mass  measure.Mass
	on    *reset.Item // what carries goods
	units int
}

// sim is a unit being reset: a set of boxes, with nothing known of how the order
// of work was found.
type sim struct {
	r      *reset.Reset
	bare   *unit.Unit // what it hangs on: the new unit, but for a rebuild
	pieces map[*reset.Item]*body
	goods  map[*reset.Facing]*body
	aside  map[*reset.Item]bool
	placed map[*reset.Item]bool // is at its new place
	cart   map[string]int
	stock  map[string]int // units fetched less those returned, by SKU
	parts  map[string]int // the same for pieces, by part
	things []*body        // all that is on the unit, in the order it came there
}

func newSim(r *reset.Reset) *sim {
	s := &sim{r: r, bare: r.New, pieces: map[*reset.Item]*body{}, goods: map[*reset.Facing]*body{}, aside: map[*reset.Item]bool{}, placed: map[*reset.Item]bool{},
		cart: map[string]int{}, stock: map[string]int{}, parts: map[string]int{}}
	for _, it := range r.Items {
		if it.From != nil {
			s.pieces[it] = s.put(s.piece(it, it.From, r.Old))
			if it.Way == reset.Stay {
				s.placed[it] = true
				s.pieces[it].also = it.To.Row
			}
		}
	}
	for _, f := range r.Facings {
		if f.From != nil {
			s.goods[f] = s.put(s.front(f, f.From, f.From.Front.Units))
			if f.Way == reset.Stay {
				s.goods[f].also = f.To.Row
			}
		}
	}
	return s
}

func (s *sim) piece(it *reset.Item, p *reset.Place, u *unit.Unit) *body {
	return &body{name: it.Part.ID + " at " + p.Row.Address, face: p.Face, row: p.Row, solid: p.Face.Solid(p.Piece.Box), grips: p.Piece.Grips, mass: check.PieceWeight(u.Parts, p.Piece)}
}

func (s *sim) front(f *reset.Facing, p *reset.Spot, units int) *body {
	return &body{name: f.Product.SKU + " at " + p.Position.Address, goods: true, face: p.Face, row: p.Row, solid: p.Face.Solid(p.Front.Box),
		mass: measure.Mass(units) * f.Product.Weight, on: p.On, units: units}
}

// put puts a body on the unit.
func (s *sim) put(b *body) *body {
	s.things = append(s.things, b)
	return b
}

// take takes a body off the unit.
func (s *sim) take(b *body) {
	for i, o := range s.things {
		if o == b {
			s.things = append(s.things[:i], s.things[i+1:]...)
			return
		}
	}
	panic("took off what is not there: " + b.name)
}

// design says whether two bodies touch by design: hardware of one row, and goods
// with the hardware of their row.
func design(a, b *body) bool {
	if a.goods && b.goods {
		return false
	}
	return a.row == b.row || a.also != nil && a.also == b.row || b.also != nil && b.also == a.row || a.also != nil && a.also == b.also
}

// meets says what of the unit a body would meet.
func (s *sim) meets(b *body, except map[*body]bool) error {
	for _, o := range s.things {
		if o == b || except[o] {
			continue
		}
		x, y, z := b.solid.Overlap(o.solid)
		if x > 0 && y > 0 && z > 0 && !design(b, o) {
			return fmt.Errorf("%s meets %s", b.name, o.name)
		}
		for _, g := range b.grips {
			for _, h := range o.grips {
				if gripsMeet(b.face, g, o.face, h) {
					return fmt.Errorf("%s grips where %s does, slots %d and %d", b.name, o.name, g.Slot, h.Slot)
				}
			}
		}
	}
	return nil
}

func gripsMeet(f *unit.Face, g unit.Grip, o *unit.Face, h unit.Grip) bool {
	if f.ID != o.ID {
		if f.Twin != o.ID {
			return false
		}
		h.X0, h.X1 = o.Width-h.X1, o.Width-h.X0
	}
	return g.Slot-g.Slots < h.Slot && h.Slot-h.Slots < g.Slot && g.X0 < h.X1 && h.X0 < g.X1
}

// act does one act, or says why it cannot be done.
func (s *sim) act(a reset.Act) error {
	if a.Facing != nil {
		return s.actGoods(a.Verb, a.Facing)
	}
	it := a.Item
	switch a.Verb {
	case reset.TakeDown, reset.SetAside:
		if a.Verb == reset.TakeDown {
			if it.To != nil {
				return fmt.Errorf("%s goes to stock but has a new place", it.Part.ID)
			}
			s.parts[it.Part.ID]--
		} else {
			s.aside[it] = true
		}
		return s.down(it)
	case reset.Hang:
		if it.From == nil {
			s.parts[it.Part.ID]++
		} else if !s.aside[it] {
			return fmt.Errorf("%s is hung but is not beside the unit", it.Part.ID)
		}
		delete(s.aside, it)
		return s.up(it)
	case reset.Shift:
		if err := s.down(it); err != nil {
			return err
		}
		return s.up(it)
	case reset.Slip:
		return s.slip(it)
	}
	return fmt.Errorf("verb %d on a piece", a.Verb)
}

// along lists what goes with a piece.
func (s *sim) along(it *reset.Item) []*reset.Item {
	list := []*reset.Item{it}
	for _, o := range s.r.Items {
		if o.Way == reset.Ride && o.Host == it {
			list = append(list, o)
		}
	}
	return list
}

// down takes a piece off the unit with what rides on it; nothing else may be on
// it.
func (s *sim) down(it *reset.Item) error {
	if s.pieces[it] == nil || s.placed[it] {
		return fmt.Errorf("%s is not at its old place", it.Part.ID)
	}
	for f, b := range s.goods {
		if b.on == it {
			return fmt.Errorf("%s still stands on %s", f.Product.SKU, s.pieces[it].name)
		}
	}
	for o, b := range s.pieces {
		at := o.From
		if s.placed[o] {
			at = o.To
		}
		for _, rest := range at.Rests {
			if rest == it {
				return fmt.Errorf("%s still rests on %s", b.name, s.pieces[it].name)
			}
		}
		if at.Host == it && (o.Way != reset.Ride || o.Host != it) {
			return fmt.Errorf("%s is still fixed to %s", b.name, s.pieces[it].name)
		}
	}
	for _, o := range s.along(it) {
		s.take(s.pieces[o])
		delete(s.pieces, o)
	}
	return nil
}

// up hangs a piece with what rides on it at its new place.
func (s *sim) up(it *reset.Item) error {
	if it.To.Host != nil && !s.placed[it.To.Host] {
		return fmt.Errorf("%s is fixed to what does not hang yet", it.Part.ID)
	}
	for _, b := range it.To.Rests {
		if !s.placed[b] {
			return fmt.Errorf("%s is laid on brackets that do not hang yet", it.Part.ID)
		}
	}
	for _, o := range s.along(it) {
		b := s.piece(o, o.To, s.r.New)
		if err := s.meets(b, nil); err != nil {
			return err
		}
		s.pieces[o], s.placed[o] = s.put(b), true
	}
	return nil
}

// slip slides a piece with its goods along its slot, an eighth of an inch at a
// time.
func (s *sim) slip(it *reset.Item) error {
	if s.pieces[it] == nil || s.placed[it] || it.From.Face.ID != it.To.Face.ID || it.From.Piece.Slot != it.To.Piece.Slot {
		return fmt.Errorf("%s cannot slide from %s to %s", it.Part.ID, it.From.Row.Address, it.To.Row.Address)
	}
	group := map[*body]bool{}
	var before, after []*body
	for _, o := range s.along(it) {
		b := s.pieces[o]
		group[b] = true
		to := s.piece(o, o.To, s.r.New)
		before, after = append(before, b), append(after, to)
		s.pieces[o], s.placed[o] = to, true
	}
	for _, f := range s.r.Facings {
		b := s.goods[f]
		if b == nil || b.on != it {
			continue
		}
		if f.Way != reset.Ride {
			return fmt.Errorf("%s is still on %s, which slides", f.Product.SKU, it.Part.ID)
		}
		group[b] = true
		to := s.front(f, f.To, b.units)
		before, after = append(before, b), append(after, to)
		s.goods[f] = to
	}
	for i := range before {
		if err := s.path(before[i], after[i], group); err != nil {
			return err
		}
	}
	for i := range before {
		s.take(before[i])
		s.put(after[i])
	}
	return nil
}

// path moves a copy of a body from one place to another of its slot, and looks
// at each stop what it meets.
func (s *sim) path(from, to *body, group map[*body]bool) error {
	const stop = measure.Inch / 8
	dx, dy := to.solid.X0-from.solid.X0, to.solid.Y0-from.solid.Y0
	far := max(dx, -dx) + max(dy, -dy)
	stops := measure.Length(1) + far/stop
	for i := measure.Length(0); i <= stops; i++ {
		at := *from
		at.also = to.row
		at.solid.X0, at.solid.X1 = from.solid.X0+dx*i/stops, from.solid.X1+dx*i/stops
		at.solid.Y0, at.solid.Y1 = from.solid.Y0+dy*i/stops, from.solid.Y1+dy*i/stops
		at.grips = nil
		for k, g := range from.grips {
			d := (to.grips[k].X0 - g.X0) * i / stops
			at.grips = append(at.grips, unit.Grip{Slot: g.Slot, Slots: g.Slots, X0: g.X0 + d, X1: g.X1 + d})
			if spec := from.face.Panel.Panel; spec.Surface == parts.Wire {
				for bay := range from.face.Bays {
					for x := measure.Length(bay)*from.face.Panel.Width + spec.AcrossFirst; x <= from.face.Width; x += spec.AcrossPitch {
						if g.X0+d < x && x < g.X1+d {
							return fmt.Errorf("%s is slid over a vertical wire", from.name)
						}
					}
				}
			}
		}
		if err := s.meets(&at, group); err != nil {
			return fmt.Errorf("on its way: %w", err)
		}
	}
	return nil
}

// actGoods does an act on goods.
func (s *sim) actGoods(v reset.Verb, f *reset.Facing) error {
	sku := f.Product.SKU
	b := s.goods[f]
	partly := f.Way == reset.Stay || f.Way == reset.Slide || f.Way == reset.Ride
	switch v {
	case reset.TakeOff:
		if b == nil {
			return fmt.Errorf("%s is not there to be taken off", sku)
		}
		units := b.units
		if partly {
			units = -f.More()
		}
		if units <= 0 {
			return fmt.Errorf("%d of %s are taken off", units, sku)
		}
		s.cart[sku] += units + min(0, f.Stock)
		s.stock[sku] += min(0, f.Stock)
		if !partly {
			s.take(b)
			delete(s.goods, f)
			return nil
		}
		b.units -= units
		b.mass = measure.Mass(b.units) * f.Product.Weight
		if f.Way == reset.Stay {
			b.solid = f.To.Solid
		}
		return nil
	case reset.PutOn:
		if !s.placed[f.To.On] {
			return fmt.Errorf("%s is put on what does not hang there yet", sku)
		}
		units := f.To.Front.Units
		if partly {
			units = f.More()
			if b == nil || b.units+units != f.To.Front.Units {
				return fmt.Errorf("%s cannot be filled up", sku)
			}
			s.take(b)
		} else if b != nil {
			return fmt.Errorf("%s is there already", sku)
		}
		s.cart[sku] -= units - max(0, f.Stock)
		s.stock[sku] += max(0, f.Stock)
		if s.cart[sku] < 0 {
			return fmt.Errorf("the cart has too few of %s", sku)
		}
		b = s.front(f, f.To, f.To.Front.Units)
		if f.Way == reset.Stay {
			b.also = f.From.Row
		}
		if err := s.meets(b, nil); err != nil {
			return err
		}
		s.goods[f] = s.put(b)
		return nil
	case reset.Nudge:
		if b == nil || f.To.On != f.From.On || !s.placed[f.To.On] {
			return fmt.Errorf("%s cannot be nudged", sku)
		}
		to := s.front(f, f.To, b.units)
		if err := s.path(b, to, map[*body]bool{b: true}); err != nil {
			return err
		}
		s.take(b)
		s.goods[f] = s.put(to)
		return nil
	}
	return fmt.Errorf("verb %d on goods", v)
}

// stands holds how a step says the unit stands against the sum of all that is on
// it.
func (s *sim) stands(want reset.Standing) error {
	got := s.standing()
	if got.Mass != want.Mass {
		return fmt.Errorf("mass %v, the step says %v", got.Mass, want.Mass)
	}
	for _, f := range s.bare.Faces {
		if got.Carried[f.ID] != want.Carried[f.ID] {
			return fmt.Errorf("the %s carries %v, the step says %v", f.ID, got.Carried[f.ID], want.Carried[f.ID])
		}
	}
	near := func(a, b float64) bool { return a == b || math.Abs(a-b) < 2e-3 }
	if !near(got.Share, want.Share) || !near(got.Tilt, want.Tilt) {
		return fmt.Errorf("share %.4f and tilt %.4f, the step says %.4f and %.4f", got.Share, got.Tilt, want.Share, want.Tilt)
	}
	return nil
}

// standing adds everything up in floats, the bare unit as the checks have it.
func (s *sim) standing() reset.Standing {
	st := reset.Standing{Carried: map[plan.FaceID]measure.Mass{}, Share: math.Inf(1), Tilt: math.Inf(1)}
	var bodies []statics.Body3
	add := func(m measure.Mass, at unit.Solid) {
		mm := func(a, b measure.Length) float64 { return float64(a+b) / 2 / float64(measure.Millimetre) }
		bodies = append(bodies, statics.Body3{Weight: float64(m) / float64(measure.Kilogram) * 9.80665, X: mm(at.X0, at.X1), Y: mm(at.Y0, at.Y1), Z: mm(at.Z0, at.Z1)})
		st.Mass += m
	}
	u := s.bare
	structure := check.Run(empty(u)).Assessment.Bare
	bodies = append(bodies, statics.Body3{Weight: structure.Mass * 9.80665, X: structure.X, Y: structure.Y, Z: structure.Z})
	st.Mass = measure.Mass(math.Round(structure.Mass * float64(measure.Kilogram)))
	for _, b := range s.things {
		add(b.mass, b.solid)
		st.Carried[b.face.ID] += b.mass
	}
	all := statics.Together(bodies...)
	var feet []statics.Point
	for _, p := range u.Structure {
		if p.Part.Kind == parts.Stand {
			feet = append(feet, statics.Point{X: float64(p.Solid.X0+p.Solid.X1) / 2e6, Y: float64(p.Solid.Y0+p.Solid.Y1) / 2e6})
		}
	}
	if len(feet) < 3 || u.Frame.Frame.Form == parts.WallForm {
		return st
	}
	top := float64(max(u.Bare.Z1, u.Extent.Z1)) / 1e6
	if !s.r.Rebuild {
		top = max(top, float64(s.r.Old.Extent.Z1)/1e6)
	}
	for _, e := range statics.Footprint(feet) {
		tip := statics.Tip(statics.Inward(e, float64(u.Stand.Stand.Offset)/1e6), all, min(top, 2000))
		st.Tilt = min(st.Tilt, tip.Tilt)
		if all.Weight/9.80665 > 25 && top > 1000 { // UL 1863-2019, 22.3 to 22.6
			st.Share = min(st.Share, tip.Forces[0]/min(all.Weight/5, 250))
		}
	}
	return st
}

// empty is a unit without its rows.
func empty(u *unit.Unit) *unit.Unit {
	bare := *u
	bare.Faces = nil
	for _, f := range u.Faces {
		g := *f
		g.Rows = nil
		bare.Faces = append(bare.Faces, &g)
	}
	return &bare
}

// ended says whether the unit is the new one, to the last unit of goods.
func (s *sim) ended() error {
	pieces, fronts := map[*unit.Piece]bool{}, map[*unit.Front]bool{}
	for _, f := range s.r.New.Faces {
		for _, row := range f.Rows {
			for _, p := range row.All() {
				pieces[p] = true
			}
			for _, pos := range row.Positions {
				for i := range pos.Fronts {
					fronts[&pos.Fronts[i]] = true
				}
			}
		}
	}
	for it, b := range s.pieces {
		if !s.placed[it] || !pieces[it.To.Piece] || b.solid != it.To.Face.Solid(it.To.Piece.Box) {
			return fmt.Errorf("%s is not at its new place", b.name)
		}
		delete(pieces, it.To.Piece)
	}
	for f, b := range s.goods {
		if f.To == nil || !fronts[f.To.Front] || b.units != f.To.Front.Units || b.on != f.To.On {
			return fmt.Errorf("%s is not as in the new plan", b.name)
		}
		delete(fronts, f.To.Front)
	}
	if len(pieces)+len(fronts)+len(s.aside) > 0 {
		return fmt.Errorf("%d pieces and %d fronts are missing, %d pieces are left beside the unit", len(pieces), len(fronts), len(s.aside))
	}
	for sku, n := range s.cart {
		if n != 0 {
			return fmt.Errorf("%d of %s are left on the cart", n, sku)
		}
	}
	return nil
}
