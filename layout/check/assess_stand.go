package check

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// shoulder is the height at which the push that tips a unit is given besides
// that at its top: 1.4 m, about a grown shopper's shoulder (ANSUR II, acromial
// height of the median man, 1439 mm).
const shoulder = 1400.0

// freestanding reports whether the unit stands by itself: it is on feet, and
// not fixed to a wall.
func (s *subject) freestanding() bool { return freestanding(s.Unit) }

func freestanding(u *unit.Unit) bool {
	return len(feetOf(u)) >= 3 && u.Frame.Frame.Form != parts.WallForm
}

// feet is the middle of every foot, in the order of the structure.
func (s *subject) feet() []statics.Point { return feetOf(s.Unit) }

func feetOf(u *unit.Unit) []statics.Point {
	var feet []statics.Point
	for _, piece := range u.Structure {
		if piece.Part.Kind == parts.Stand {
			feet = append(feet, middle(piece.Solid))
		}
	}
	return feet
}

func middle(b unit.Solid) statics.Point {
	return statics.Point{X: (mm(b.X0) + mm(b.X1)) / 2, Y: (mm(b.Y0) + mm(b.Y1)) / 2}
}

// stand works out the load on each foot of the full unit and how it tips.
func (s *subject) stand() {
	feet, full := s.feet(), s.a.Full
	if len(feet) < 3 || full.Mass == 0 {
		return
	}
	body, weight := statics.Point{X: full.X, Y: full.Y}, full.Mass*gravity
	level, rocking := statics.FeetLoads(feet, body, weight), statics.OneOff(feet, body, weight)
	rated := newtons(s.Stand.PerFoot())
	for i, foot := range feet {
		s.a.Feet = append(s.a.Feet, FootCase{X: foot.X, Y: foot.Y, Load: level[i], OneOff: rocking[i], Rated: rated, Assumed: s.Stand.Assumed})
	}
	if s.freestanding() {
		s.tip(feet)
	}
}

// state is a way the unit may be stocked.
type state struct {
	name string
	body Body
}

// states lists bare and full, each face stocked first, which is the worst order
// of work, and what shoppers leave when they have emptied all below the full
// unit's centre of gravity, which puts it highest.
func (s *subject) states() []state {
	hardware := s.structure()
	for _, f := range s.Unit.Faces {
		hardware = hardware.with(s.hung(f))
	}
	list := []state{{"full", s.a.Full}, {"bare", s.a.Bare}}
	low := hardware
	for i, f := range s.Unit.Faces {
		stock := s.stocked(i, every)
		if stock.mass == 0 {
			continue
		}
		list = append(list, state{string(f.ID) + " first", hardware.with(stock).body()})
		low = low.with(s.stocked(i, func(h held) bool { return mm(h.front.Box.Y0+h.front.Box.Y1)/2 >= s.a.Full.Z }))
	}
	return append(list, state{"low shelves empty", low.body()})
}

// tip works out every state over every edge of the footprint. Swivelling casters
// may all have turned in, towards the middle of the unit.
func (s *subject) tip(feet []statics.Point) {
	edges := statics.Footprint(feet)
	top := mm(max(s.Bare.Z1, s.Extent.Z1))
	for _, state := range s.states() {
		body := statics.Body3{Weight: state.body.Mass * gravity, X: state.body.X, Y: state.body.Y, Z: state.body.Z}
		for _, edge := range edges {
			edge = statics.Inward(edge, mm(s.Stand.Stand.Offset))
			over := statics.Tip(edge, body, top, min(shoulder, top))
			s.a.Tips = append(s.a.Tips, TipCase{
				State: state.name, FromX: edge.From.X, FromY: edge.From.Y, ToX: edge.To.X, ToY: edge.To.Y,
				Body: state.body, Arm: over.Arm, ForceTop: over.Forces[0], Force1400: over.Forces[1], Tilt: over.Tilt,
			})
		}
	}
}

// height is the top of everything.
func (s *subject) height() measure.Length { return max(s.Bare.Z1, s.Extent.Z1) }
