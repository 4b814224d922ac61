package saw

import (
	"strconv"

	"setwright/layout/measure"
)

// Stroke is one cut of the saw.
type Stroke struct {
	Number int // from 1 in its pattern, in sawing order
	Stage  int // 0 squares the stock up; the stages of cuts follow, from 1
	Way    Way
	// At is where the near side of the cut lies, from the corner where figures
	// begin: along the length for a crosscut, along the width for a rip. From and
	// To are how far it reaches the other way.
	At, From, To measure.Length
	// Set is what stop or fence is set to: the size of what the cut takes off, from
	// the fresh edge before it.
	Set measure.Length
	Of  string // what is cut: "" the whole, 2 its second part, 2.1 the first of that
}

// Strokes lists the cuts of a pattern in sawing order: what squares it up, then
// stage after stage, as a panel saw works (common practice): all rips of a sheet,
// then each strip's crosscuts, then the third cuts.
func (p *Pattern) Strokes() []Stroke {
	s := &strokes{kerf: p.kerf}
	root := &p.Root
	for root.framed() {
		s.cut(root, 0, "")
		root = root.inner()
	}
	level := []branch{{root, ""}}
	for stage := 1; len(level) > 0; stage++ {
		var next []branch
		for _, b := range level {
			next = append(next, s.cut(b.node, stage, b.name)...)
		}
		level = next
	}
	return s.list
}

// branch is a part that is cut on, and its name.
type branch struct {
	node *Node
	name string
}

type strokes struct {
	kerf measure.Length
	list []Stroke
}

// framed says whether a node only has its ends or edges trimmed off.
func (n *Node) framed() bool {
	return len(n.Parts) > 0 && (n.Parts[0].Kind == Trim || n.Parts[len(n.Parts)-1].Kind == Trim)
}

// cut lists the cuts of one node, and returns those of its parts that are cut on.
func (s *strokes) cut(n *Node, stage int, name string) []branch {
	var on []branch
	fresh, counted := n.begin(n.Way), 0
	for i := range n.Parts {
		p := &n.Parts[i]
		end := p.end(n.Way)
		if begin := p.begin(n.Way); begin > fresh {
			s.add(n, stage, name, begin-s.kerf, fresh) // what lies between is all dust
			fresh = begin
		}
		if p.Kind != Trim && p.Kind != Waste {
			counted++
		}
		if p.Kind == Through && stage > 0 {
			on = append(on, branch{p, part(name, counted)})
		}
		switch {
		case end == n.end(n.Way): // nothing to take off
		case p.Kind == Trim: // its cut is in it
			s.add(n, stage, name, max(end-s.kerf, fresh), fresh)
			fresh = end
		default:
			s.add(n, stage, name, end, fresh)
			fresh = end + s.kerf
		}
	}
	return on
}

// part is the name of a part: its number, behind that of what it is part of.
func part(of string, number int) string {
	if of == "" {
		return strconv.Itoa(number)
	}
	return of + "." + strconv.Itoa(number)
}

func (s *strokes) add(n *Node, stage int, of string, at, fresh measure.Length) {
	k := Stroke{Number: len(s.list) + 1, Stage: stage, Way: n.Way, At: at, Set: at - fresh, Of: of}
	if n.Way == Cross {
		k.From, k.To = n.Y, n.Y+n.Width
	} else {
		k.From, k.To = n.X, n.X+n.Length
	}
	s.list = append(s.list, k)
}

// begin and end are where a node lies in the direction that a way of cutting
// parts.
func (n *Node) begin(way Way) measure.Length {
	if way == Cross {
		return n.X
	}
	return n.Y
}

func (n *Node) end(way Way) measure.Length { return n.begin(way) + sizeAlong(way, n) }

// Part is a part of the first stage that is cut on, by the name that Strokes
// gives it, and the way that parted it from the others.
type Part struct {
	Name string
	Way  Way
	Node *Node
}

// FirstParts lists the parts of the first stage that are cut on.
func (p *Pattern) FirstParts() []Part {
	root := &p.Root
	for root.framed() {
		root = root.inner()
	}
	var list []Part
	counted := 0
	for i := range root.Parts {
		n := &root.Parts[i]
		if n.Kind != Waste {
			counted++
		}
		if n.Kind == Through {
			list = append(list, Part{part("", counted), root.Way, n})
		}
	}
	return list
}

// inner is what is left of a node once its ends or edges are trimmed off.
func (n *Node) inner() *Node {
	for i := range n.Parts {
		if n.Parts[i].Kind != Trim {
			return &n.Parts[i]
		}
	}
	return n
}
