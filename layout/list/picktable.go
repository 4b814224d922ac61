package list

import (
	"setwright/layout/measure"
	"setwright/layout/plan"
)

func pickColumns() []column[PickLine] {
	return []column[PickLine]{
		{Column{Name: "balloon", Kind: Whole}, func(l PickLine) Cell { return whole(l.Balloon) }},
		{Column{Name: "group", Kind: Word}, func(l PickLine) Cell { return word(l.Group) }},
		{Column{Name: "part", Kind: Text}, func(l PickLine) Cell { return text(l.Part.ID) }},
		{Column{Name: "name", Kind: Text}, func(l PickLine) Cell { return text(l.Part.Name) }},
		{Column{Name: "width", Kind: Length, Detail: true}, func(l PickLine) Cell { w, _, _ := l.size(); return known(w) }},
		{Column{Name: "depth", Kind: Length, Detail: true}, func(l PickLine) Cell { _, d, _ := l.size(); return known(d) }},
		{Column{Name: "height", Kind: Length, Detail: true}, func(l PickLine) Cell { _, _, h := l.size(); return known(h) }},
		{Column{Name: "cut length", Kind: Length}, func(l PickLine) Cell { length, _ := l.CutTo(); return known(length) }},
		{Column{Name: "cut width", Kind: Length}, func(l PickLine) Cell { _, width := l.CutTo(); return known(width) }},
		{Column{Name: "quantity", Kind: Whole, Total: true}, func(l PickLine) Cell { return whole(l.Quantity) }},
		{Column{Name: "packs", Kind: Whole}, func(l PickLine) Cell { return given(l.Packs) }},
		{Column{Name: "pack size", Kind: Whole}, func(l PickLine) Cell { return l.packSize() }},
		{Column{Name: "weight", Kind: Mass, Total: true}, func(l PickLine) Cell { return mass(l.Weight) }},
		{Column{Name: "rows", Kind: Text}, func(l PickLine) Cell { return joined(l.Rows) }},
	}
}

// size is that of a part which is pulled as it is; one that is cut has the size
// it is cut to instead.
func (l PickLine) size() (width, depth, height measure.Length) {
	if l.Part.Cut != nil {
		return 0, 0, 0
	}
	return l.Part.Size()
}

func (l PickLine) packSize() Cell {
	if l.Part.Cut != nil {
		return Cell{}
	}
	return whole(max(l.Part.Pack, 1))
}

// known is a length of which 0 stands for none.
func known(l measure.Length) Cell {
	if l == 0 {
		return Cell{}
	}
	return length(l)
}

// faceLine is the portion of a pick line that goes to one face.
type faceLine struct {
	PickLine
	Portion
	person string // who puts it up
}

// Who puts up a face, in the table of faces.
const (
	both   = "both"
	first  = "first"
	second = "second"
)

// faceLines are the portions of a pick list, face by face.
func faceLines(pick []PickLine) []faceLine {
	split := Divide(pick)
	var lines []faceLine
	for _, face := range walked(pick) {
		person := first
		switch {
		case face == "":
			person = both
		case split.Each[1].Has(face):
			person = second
		}
		for _, line := range pick {
			if p := line.For(face); p.Pieces > 0 {
				lines = append(lines, faceLine{line, p, person})
			}
		}
	}
	return lines
}

func faceColumns() []column[faceLine] {
	return []column[faceLine]{
		{Column{Name: "face", Kind: Word}, func(l faceLine) Cell { return faceWord(l.Face) }},
		{Column{Name: "person", Kind: Word}, func(l faceLine) Cell { return word(l.person) }},
		{Column{Name: "balloon", Kind: Whole}, func(l faceLine) Cell { return whole(l.Balloon) }},
		{Column{Name: "part", Kind: Text}, func(l faceLine) Cell { return text(l.Part.ID) }},
		{Column{Name: "name", Kind: Text, Detail: true}, func(l faceLine) Cell { return text(l.Part.Name) }},
		{Column{Name: "cut length", Kind: Length}, func(l faceLine) Cell { length, _ := l.CutTo(); return known(length) }},
		{Column{Name: "cut width", Kind: Length}, func(l faceLine) Cell { _, width := l.CutTo(); return known(width) }},
		{Column{Name: "quantity", Kind: Whole, Total: true}, func(l faceLine) Cell { return whole(l.Pieces) }},
		{Column{Name: "weight", Kind: Mass, Total: true}, func(l faceLine) Cell { return mass(measure.Mass(l.Pieces) * l.Each()) }},
		{Column{Name: "seconds", Kind: Whole, Total: true}, func(l faceLine) Cell { return whole(l.Pieces * Seconds(l.Part)) }},
		{Column{Name: "rows", Kind: Text}, func(l faceLine) Cell { return joined(l.Portion.Rows) }},
	}
}

// faceWord is a face's own word; the bare unit is called what its group is.
func faceWord(face plan.FaceID) Cell {
	if face == "" {
		return word(Structure)
	}
	return word(face)
}

// loadLine is one kind of part in one load.
type loadLine struct {
	Load
	Packed
	line PickLine
}

// loadLines are the loads, a line for each kind of part in each.
func loadLines(pick []PickLine, loads []Load) []loadLine {
	var lines []loadLine
	for _, load := range loads {
		for _, item := range load.Items {
			lines = append(lines, loadLine{load, item, pick[item.Balloon-1]})
		}
	}
	return lines
}

func loadColumns() []column[loadLine] {
	return []column[loadLine]{
		{Column{Name: "load", Kind: Whole}, func(l loadLine) Cell { return whole(l.Number) }},
		{Column{Name: "face", Kind: Word}, func(l loadLine) Cell { return faceWord(l.Face) }},
		{Column{Name: "people", Kind: Whole}, func(l loadLine) Cell { return whole(l.People) }},
		{Column{Name: "balloon", Kind: Whole}, func(l loadLine) Cell { return whole(l.Balloon) }},
		{Column{Name: "part", Kind: Text}, func(l loadLine) Cell { return text(l.line.Part.ID) }},
		{Column{Name: "name", Kind: Text, Detail: true}, func(l loadLine) Cell { return text(l.line.Part.Name) }},
		{Column{Name: "cut length", Kind: Length}, func(l loadLine) Cell { length, _ := l.line.CutTo(); return known(length) }},
		{Column{Name: "quantity", Kind: Whole, Total: true}, func(l loadLine) Cell { return whole(l.Packed.Pieces) }},
		{Column{Name: "weight", Kind: Mass, Total: true}, func(l loadLine) Cell { return mass(measure.Mass(l.Packed.Pieces) * l.line.Each()) }},
	}
}
