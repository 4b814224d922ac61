package parts

import (
	"fmt"

	"setwright/layout/decode"
	"setwright/layout/measure"
)

// Greatest counts a part may have: beyond any real one, and small enough that
// nothing computed from them grows large.
const (
	maxSlots    = 2000
	maxUprights = 200
	maxPegs     = 200
	maxSteps    = 50
	maxBays     = 100
	maxFeet     = 100
	maxPack     = 100_000
	maxSetup    = 100_000 // seconds
	maxFixings  = 1000    // with one piece
)

func (r *reader) sizes(p *Part) {
	r.size(r.Map, "width", &p.Width)
	r.length(r.Map, "depth", &p.Depth)
	r.length(r.Map, "above", &p.Above)
	r.length(r.Map, "below", &p.Below)
	r.length(r.Map, "usable", &p.Usable)
	r.length(r.Map, "headroom", &p.Headroom)
	r.offset(r.Map, "lip", &p.Lip)
	r.offset(r.Map, "bearing", &p.Bearing)
}

func (r *reader) loads(p *Part) {
	r.want(r.Map, "weight", r.Mass("weight", r.bare, &p.Weight))
	if r.Mass("rated", r.bare, &p.Rated) {
		p.Assumed = false
	} else {
		r.want(r.Map, "rated", false)
	}
	r.want(r.Map, "assumed", r.Bool("assumed", &p.Assumed))
}

func (r *reader) use(p *Part) {
	if m := r.section("grip"); m != nil {
		r.count(m, "slots", 1, 20, &p.Grip.Slots)
		r.count(m, "sides", 0, 20, &p.Grip.Sides)
		r.length(m, "inset", &p.Grip.Inset)
		r.length(m, "width", &p.Grip.Width)
		r.offset(m, "shift", &p.Grip.Shift)
		m.Done()
	}
	if m := r.section("needs"); m != nil {
		need := over(&p.Needs)
		need.Kind = Bracket
		r.size(m, "bracket", &need.Reach)
		r.size(m, "every", &need.Every)
		r.length(m, "inset", &need.Inset)
		m.Done()
	}
	r.cut(p)
	r.fixed(p)
	r.length(r.Map, "wire", &p.Wire)
	r.count(r.Map, "pack", 1, maxPack, &p.Pack)
	r.buying(r.Map, p.Pack, &p.Buy)
	r.count(r.Map, "setup", 1, maxSetup, &p.Setup)
	r.count(r.Map, "pegs", 1, maxPegs, &p.Pegs)
	r.count(r.Map, "steps", 1, maxSteps, &p.Steps)
}

// fixed reads what one piece is put up with: how many of which fixings.
func (r *reader) fixed(p *Part) {
	m := r.section("fixed")
	if m == nil {
		return
	}
	p.Fixed = nil
	for _, e := range m.Entries() {
		n, ok := e.Value.Int(1, maxFixings)
		part, found := r.list.Find(e.Key)
		switch {
		case !ok:
			r.ok = false
		case !found || part.Kind != Fixing:
			r.fail(e.At, "unknown-part", fmt.Sprintf("%q is no fixing", e.Key), "the id of a part of kind fixing, further up or of another list")
		default:
			p.Fixed = append(p.Fixed, Fixings{e.Key, n})
		}
	}
}

// section is a mapping inside the part, nil if it is absent.
func (r *reader) section(key string) *decode.Map {
	m := r.Get(key).Map()
	r.want(r.Map, key, m != nil)
	return m
}

// over is what a pointer points to, made if there is nothing yet.
func over[T any](p **T) *T {
	if *p == nil {
		*p = new(T)
	}
	return *p
}

func (r *reader) panel(p *Part) {
	m := r.section("panel")
	if m == nil {
		return
	}
	s := over(&p.Panel)
	r.want(m, "surface", decode.Word(m, "surface", surfaces(), &s.Surface))
	r.size(m, "height", &s.Height)
	r.size(m, "thick", &s.Thick)
	r.length(m, "first", &s.First)
	r.size(m, "pitch", &s.Pitch)
	r.count(m, "count", 1, maxSlots, &s.Count)
	r.length(m, "across-first", &s.AcrossFirst)
	r.length(m, "across-pitch", &s.AcrossPitch)
	r.length(m, "wire", &s.WireWidth)
	r.length(m, "edge", &s.Edge)
	if v := m.Get("uprights"); v != nil {
		s.Uprights = r.lengths(v)
	}
	m.Done()
}

func (r *reader) lengths(v *decode.Value) []measure.Length {
	var list []measure.Length
	for _, item := range v.List() {
		l, ok := item.Length(r.bare)
		r.ok = r.ok && ok
		list = append(list, l)
	}
	return list
}

func (r *reader) frame(p *Part) {
	m := r.section("frame")
	if m == nil {
		return
	}
	s := over(&p.Frame)
	r.want(m, "form", decode.Word(m, "form", []FrameForm{HForm, BoxForm, TowerForm, WallForm}, &s.Form))
	r.count(m, "bays", 1, maxBays, &s.Bays)
	r.length(m, "gap", &s.Gap)
	r.length(m, "base", &s.Base)
	r.length(m, "base-depth", &s.BaseDepth)
	m.Done()
}

func (r *reader) stand(p *Part) {
	m := r.section("stand")
	if m == nil {
		return
	}
	s := over(&p.Stand)
	r.want(m, "form", decode.Word(m, "form", []string{"casters", "levellers", "fixed"}, &s.Form))
	r.length(m, "height", &s.Height)
	r.count(m, "feet", 0, maxFeet, &s.Feet)
	r.length(m, "radius", &s.Radius)
	r.length(m, "offset", &s.Offset)
	r.length(m, "inset", &s.Inset)
	m.Done()
}
