package parts

import "setwright/layout/measure"

// The span ratios of parts that state none: no shelf may sag more than its span
// over 144 (Architectural Woodwork Standards, 1st edition 2009, section 1.2.21),
// and more than its span over 240 is seen (common practice).
const (
	DefaultStop    = 144
	DefaultCaution = 240
)

// Material is what a part that bends is made of.
type Material struct {
	ID   string
	Name string
	E    float64 // modulus of elasticity in bending, N/mm²
	// LongTerm is by how much sag grows in time: sag under a lasting load over
	// sag when the load is put on, at least 1.
	LongTerm float64
	Source   string // where E and LongTerm are from
}

// Stiffness is how a part bends sideways: as a beam of one section from end to
// end.
type Stiffness struct {
	Material *Material      // nil if only EI is known
	Thick    measure.Length // of a solid board; 0 if EI is given
	EI       float64        // bending stiffness, N·mm²; 0 if it follows from material, depth and thickness
	// Sag of more than its span over Stop is not allowed; over Caution it is
	// seen.
	Stop, Caution int
}

// Rigidity is the bending stiffness EI, N·mm², of a part of that depth: the one
// given, or that of a solid board, E times depth times the cube of its
// thickness over 12.
func (s *Stiffness) Rigidity(depth measure.Length) float64 {
	if s.EI > 0 || s.Material == nil {
		return s.EI
	}
	b, h := millimetres(depth), millimetres(s.Thick)
	return s.Material.E * b * h * h * h / 12
}

// LongTerm is by how much sag grows in time, 1 if the material is not known.
func (s *Stiffness) LongTerm() float64 {
	if s.Material == nil {
		return 1
	}
	return s.Material.LongTerm
}

func millimetres(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) }

// Material returns the material of that id.
func (l *List) Material(id string) (*Material, bool) { return l.materials.find(id) }

// Materials returns every material in list order.
func (l *List) Materials() []*Material { return l.materials.all() }
