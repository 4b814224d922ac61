package parts

import (
	"fmt"
	"strconv"

	"setwright/layout/decode"
)

// Bounds on what a material or a section may be: beyond any real one, and far
// from where float64 loses digits. The stiffest solid known, diamond, has an E
// of about 1.2 million N/mm².
const (
	maxE        = 2e6
	maxLongTerm = 10
	maxEI       = 1e15
	maxRatio    = 10_000
)

// material reads one material, over a copy of the one it overrides.
func (r *reader) material(e decode.Entry) *Material {
	x := &Material{LongTerm: 1}
	if old, found := r.list.Material(e.Key); found {
		x = copyOf(old)
	}
	x.ID = e.Key
	if !plainID(x.ID) {
		r.fail(e.At, "bad-id", fmt.Sprintf("%q is no material id", x.ID), "lower-case letters, digits, dots and dashes, such as oak-red")
	}
	r.want(r.Map, "name", r.Name("name", &x.Name))
	r.number(r.Map, "e", 1, maxE, "N/mm²", &x.E)
	r.number(r.Map, "long-term", 1, maxLongTerm, "times the first sag", &x.LongTerm)
	r.want(r.Map, "source", r.Text("source", &x.Source))
	r.Done()
	for _, need := range []struct {
		key, expected string
		there         bool
	}{
		{"name", "the material's name as the trade knows it", x.Name != ""},
		{"e", "its modulus of elasticity in N/mm²", x.E > 0},
		{"source", "where its figures are from", x.Source != ""},
	} {
		if r.ok && !need.there {
			r.fail(e.At, "missing-key", fmt.Sprintf("the material %s lacks %q", x.ID, need.key), need.expected)
		}
	}
	return x
}

// number reads a decimal number from lo to hi.
func (r *reader) number(m *decode.Map, key string, lo, hi float64, unit string, to *float64) {
	v := m.Get(key)
	s, ok := v.Decimal()
	r.want(m, key, ok)
	if !ok {
		return
	}
	n, err := strconv.ParseFloat(s, 64)
	if err != nil || n < lo || n > hi {
		r.fail(v.At, "bad-number", fmt.Sprintf("%q is out of range", s), fmt.Sprintf("a number from %s to %s, %s", plainNumber(lo), plainNumber(hi), unit))
		return
	}
	*to = n
}

func plainNumber(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// bend reads how a part bends. A section written anew by EI is no longer a
// board of some thickness, and the other way round.
func (r *reader) bend(p *Part) {
	m := r.section("bend")
	if m == nil {
		return
	}
	if p.Bend == nil {
		p.Bend = &Stiffness{Stop: DefaultStop, Caution: DefaultCaution}
	}
	s := p.Bend
	if _, material, given := refer(r, m, "material", &r.list.materials, "unknown-material", "unknown material", "a material of this list or one before it"); given {
		s.Material = material
	}
	if m.Has("thick") && !m.Has("ei") {
		s.EI = 0
	}
	if m.Has("ei") && !m.Has("thick") {
		s.Thick = 0
	}
	r.size(m, "thick", &s.Thick)
	r.number(m, "ei", 1, maxEI, "N·mm²", &s.EI)
	r.count(m, "stop", 1, maxRatio, &s.Stop)
	r.count(m, "caution", 1, maxRatio, &s.Caution)
	m.Done()
}

// checkBend wants one section, given one way, and limits in their order.
func (r *reader) checkBend(p *Part) {
	s := p.Bend
	if s == nil {
		return
	}
	at := r.KeyAt("bend")
	switch {
	case s.EI == 0 && (s.Material == nil || s.Thick == 0):
		r.fail(at, "missing-key", fmt.Sprintf("%s does not say how it bends", p.ID), "its material and thick, or its ei in N·mm²")
	case s.EI > 0 && s.Thick > 0:
		r.fail(at, "bad-number", fmt.Sprintf("%s has both a thickness and an ei", p.ID), "one of the two")
	case s.Caution < s.Stop:
		r.fail(at, "bad-number", fmt.Sprintf("%s may sag more before it is seen than is allowed at all: span/%d and span/%d", p.ID, s.Caution, s.Stop), "a caution of at least the stop")
	}
}
