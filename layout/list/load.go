package list

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Load is what is lifted at one time: a filled carton, a bundle, or one piece
// that a single person does not lift. All of it goes to one face.
type Load struct {
	Number int         // from 1, through all faces
	Face   plan.FaceID // "" for the bare unit
	Items  []Packed    // in walking order
	Pieces int
	Weight measure.Mass
	People int // who lift it: 1, or for a piece by itself 2 and more
}

// Packed is pieces of one pick line in a load.
type Packed struct {
	Balloon int // of the line
	Pieces  int
}

// Loads packs a pick list into loads: the bare unit's, then those of each face
// in sheet order. A frame, a panel (common practice: both are unwieldy) and any
// piece over the plan's limit is a load of its own for two people, or for as many
// as keep within the limit each. All else of a face is packed in walking order
// within the limit, each carton filled before the next is begun. Among packings
// that keep that order none has fewer loads: wherever another one closes a
// carton, this one has packed as much. Only weight is judged, for nothing is
// known of the size of cartons.
func Loads(u *unit.Unit, pick []PickLine) []Load {
	var loads []Load
	for _, face := range walked(pick) {
		p := packer{limit: cmp.Or(u.Plan.Lift, plan.DefaultLift), face: face, open: -1}
		for _, line := range pick {
			if portion := line.For(face); portion.Pieces > 0 {
				p.pack(line, portion.Pieces)
			}
		}
		loads = append(loads, p.loads...)
	}
	for i := range loads {
		loads[i].Number = i + 1
	}
	return loads
}

// walked are the faces that a pick list has pieces for: "" for the bare unit,
// then the others in sheet order.
func walked(pick []PickLine) []plan.FaceID {
	return slices.DeleteFunc(append([]plan.FaceID{""}, plan.FaceIDs()...), func(face plan.FaceID) bool {
		return !slices.ContainsFunc(pick, func(l PickLine) bool { return l.For(face).Pieces > 0 })
	})
}

// For is the portion of a line that goes to a face, or to the bare unit: "".
func (l PickLine) For(face plan.FaceID) Portion {
	for _, p := range l.Portions {
		if p.Face == face {
			return p
		}
	}
	return Portion{Face: face}
}

// packer packs the loads of one face.
type packer struct {
	limit measure.Mass
	face  plan.FaceID
	loads []Load
	open  int // the load being filled, -1 before the first
}

// pack packs so many pieces of one line.
func (p *packer) pack(line PickLine, pieces int) {
	each := line.Each()
	if each > p.limit || line.Part.Kind == parts.Frame || line.Part.Kind == parts.Panel {
		for range pieces {
			people := max(2, int((each+p.limit-1)/p.limit))
			p.put(p.begin(people), Packed{line.Balloon, 1}, each)
		}
		return
	}
	for pieces > 0 {
		if p.open < 0 || p.loads[p.open].Weight+each > p.limit {
			p.open = p.begin(1)
		}
		n := pieces
		if each > 0 {
			n = min(n, int((p.limit-p.loads[p.open].Weight)/each))
		}
		p.put(p.open, Packed{line.Balloon, n}, each)
		pieces -= n
	}
}

// begin begins a load for so many people and returns its place.
func (p *packer) begin(people int) int {
	p.loads = append(p.loads, Load{Face: p.face, People: people})
	return len(p.loads) - 1
}

func (p *packer) put(at int, item Packed, each measure.Mass) {
	l := &p.loads[at]
	l.Items = append(l.Items, item)
	l.Pieces += item.Pieces
	l.Weight += measure.Mass(item.Pieces) * each
}
