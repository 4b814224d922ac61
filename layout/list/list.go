// Package list makes tables from a dressed unit: what to pull from the
// stockroom, and where each product goes.
package list

import (
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// KeyLine is one position: what goes there and how much.
type KeyLine struct {
	Face     *unit.Face
	Row      *unit.Row
	Position *unit.Position
	Reorder  int // units left there at which to bring more
}

// Key lists every position by face, row and place.
func Key(u *unit.Unit) []KeyLine {
	var lines []KeyLine
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, position := range row.Positions {
				lines = append(lines, KeyLine{Face: face, Row: row, Position: position})
			}
		}
	}
	sold := heldBySKU(lines)
	for i := range lines {
		lines[i].Reorder = reorder(u, lines[i].Position, sold[lines[i].Position.Product.SKU])
	}
	return lines
}

// Summary is the unit in a few figures.
type Summary struct {
	Faces, DressedFaces        int
	PartKinds, Pieces          int // hardware hung; structure and fixings left out
	Products, Positions, Units int
	Hardware, Structure, Goods measure.Mass // with every position full
}

// Summarize counts a unit.
func Summarize(u *unit.Unit) Summary {
	s := Summary{Faces: len(u.Faces)}
	for _, face := range u.Faces {
		if len(face.Rows) > 0 {
			s.DressedFaces++
		}
	}
	kinds := map[*parts.Part]bool{}
	for _, line := range Pick(u) {
		for _, p := range line.Portions {
			weight := measure.Mass(p.Pieces) * line.Each()
			if p.Face == "" {
				s.Structure += weight
				continue
			}
			s.Hardware += weight
			if line.Part.Kind != parts.Fixing {
				kinds[line.Part] = true
				s.Pieces += p.Pieces
			}
		}
	}
	skus := map[string]bool{}
	for _, line := range Key(u) {
		product := line.Position.Product
		skus[product.SKU] = true
		s.Positions++
		s.Units += line.Position.Units
		s.Goods += measure.Mass(line.Position.Units) * product.Weight
	}
	s.PartKinds, s.Products = len(kinds), len(skus)
	return s
}
