package list

import (
	"slices"

	"setwright/layout/measure"
	"setwright/layout/plan"
)

// Share is a share of the work: the faces of one person, or what both put up
// together.
type Share struct {
	Faces   []plan.FaceID // in sheet order; "" is the bare unit
	Pieces  int
	Weight  measure.Mass
	Seconds int // to put everything up, by Seconds
}

// Split is how two people build a unit at once, a face only ever being one
// person's: the bare unit together, then each their own faces.
type Split struct {
	Together Share
	Each     [2]Share // the first has the first face; the second has none if there is only one
}

// Divide splits a pick list so that both have done as early as can be by the
// estimates of Seconds: of every way of sharing out the faces, eight at most, the
// first whose longer share is shortest.
func Divide(pick []PickLine) Split {
	var split Split
	var shares []Share
	for _, face := range walked(pick) {
		if face == "" {
			split.Together = ShareOf(pick, face)
			continue
		}
		shares = append(shares, ShareOf(pick, face))
	}
	longest := 0
	for second := range 1 << max(len(shares)-1, 0) { // a bit for each face but the first: set if it is the second person's
		var each [2]Share
		for i, share := range shares {
			each[second<<1>>i&1].take(share)
		}
		if last := max(each[0].Seconds, each[1].Seconds); second == 0 || last < longest {
			longest, split.Each = last, each
		}
	}
	return split
}

// ShareOf is all the work of one face, or with "" of the bare unit.
func ShareOf(pick []PickLine, face plan.FaceID) Share {
	share := Share{Faces: []plan.FaceID{face}}
	for _, line := range pick {
		n := line.For(face).Pieces
		share.Pieces += n
		share.Weight += measure.Mass(n) * line.Each()
		share.Seconds += n * Seconds(line.Part)
	}
	return share
}

func (s *Share) take(o Share) {
	s.Faces = append(s.Faces, o.Faces...)
	s.Pieces += o.Pieces
	s.Weight += o.Weight
	s.Seconds += o.Seconds
}

// Has says whether a face is part of the share.
func (s Share) Has(face plan.FaceID) bool { return slices.Contains(s.Faces, face) }

// SharesPacks lists the other faces that take pieces of a line from the same
// packs as this one: opened for each face by itself, more packs would be open.
func (l PickLine) SharesPacks(face plan.FaceID) []plan.FaceID {
	apart := 0
	var others []plan.FaceID
	for _, p := range l.Portions {
		apart += ceil(p.Pieces, max(l.Part.Pack, 1))
		if p.Face != face {
			others = append(others, p.Face)
		}
	}
	if l.Part.Cut != nil || apart == l.Packs {
		return nil
	}
	return others
}
