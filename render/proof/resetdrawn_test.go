package proof

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"setwright/layout/measure"
	"setwright/layout/reset"
	"setwright/layout/unit"
	"setwright/render/pdf/pdftest"
)

// elevation is one on a page: where the face's left edge and the floor are.
type elevation struct {
	page     *pdftest.Page
	x, floor float64
	den      float64
}

// elevations finds the elevations of a page from the left: each stands on a
// floor that reaches 8 mm past its panels.
func elevations(page *pdftest.Page) []elevation {
	den := 0.0
	for _, text := range page.Texts {
		if m := regexp.MustCompile(`^1:(\d+)`).FindStringSubmatch(text.S); m != nil {
			den, _ = strconv.ParseFloat(m[1], 64)
		}
	}
	var list []elevation
	for _, l := range page.Lines {
		if near(l.Pen.Width, 0.5, exact) && near(l.From.Y, l.To.Y, exact) && l.To.X < page.Width-25 || near(l.Pen.Width, 0.5, exact) && near(l.From.Y, l.To.Y, exact) && l.From.X > 25 {
			list = append(list, elevation{page, min(l.From.X, l.To.X) + 8, l.From.Y, den})
		}
	}
	slices.SortFunc(list, func(a, b elevation) int { return int(math.Copysign(1, a.x-b.x)) })
	return list
}

// box is where a box of the face is drawn.
func (e elevation) box(b unit.Box) pdftest.Box {
	at := func(l measure.Length) float64 { return float64(l) / float64(measure.Millimetre) / e.den }
	return pdftest.Box{Min: pdftest.Point{X: e.x + at(b.X0), Y: e.floor - at(b.Y1)}, Max: pdftest.Point{X: e.x + at(b.X1), Y: e.floor - at(b.Y0)}}
}

// drawn says whether a box is outlined there, dashed or not.
func (e elevation) drawn(b unit.Box, dashed bool) bool {
	want := e.box(b)
	return slices.ContainsFunc(e.page.Paths, func(p pdftest.Path) bool {
		if len(p.Points) < 4 || p.Pen == nil || (len(p.Pen.Dash) > 0) != dashed {
			return false
		}
		return near(p.Points[0].X, want.Min.X, 0.02) && near(p.Points[0].Y, want.Min.Y, 0.02) && near(p.Points[2].X, want.Max.X, 0.02) && near(p.Points[2].Y, want.Max.Y, 0.02)
	})
}

// markText is a mark on a drawing with the steps it names.
type markText struct {
	letter string
	steps  []int
	at     pdftest.Box
}

// marksOn reads the marks of a page: a letter, and steps one by one or from one
// to another.
func marksOn(page *pdftest.Page) (list []markText) {
	for _, text := range page.Texts {
		m := regexp.MustCompile(`^(?:[FRBL]-\d+-\d+ )?([KMAP])([0-9–…, ]*)$`).FindStringSubmatch(text.S)
		if m == nil {
			continue
		}
		mark := markText{letter: m[1], at: text.Ink}
		for _, part := range strings.Split(m[2], ", ") {
			ends := strings.FieldsFunc(part, func(r rune) bool { return r == '–' || r == '…' })
			if len(ends) == 0 {
				continue
			}
			first, _ := strconv.Atoi(ends[0])
			last, _ := strconv.Atoi(ends[len(ends)-1])
			for n := first; n <= last; n++ {
				mark.steps = append(mark.steps, n)
			}
		}
		for _, name := range page.Texts { // the row that stands before the mark
			if near(name.At.Y, text.At.Y, 0.5) && name.Ink.Max.X < mark.at.Min.X && mark.at.Min.X-name.Ink.Max.X < 3 {
				mark.at.Min.X = name.Ink.Min.X
			}
		}
		list = append(list, mark)
	}
	return list
}

// leads says whether a mark stands among boxes of one row or close by them, or a
// leader from it ends on one of them.
func (m markText) leads(page *pdftest.Page, to []pdftest.Box) bool {
	round := to[0]
	for _, b := range to {
		round.Min.X, round.Min.Y = min(round.Min.X, b.Min.X), min(round.Min.Y, b.Min.Y)
		round.Max.X, round.Max.Y = max(round.Max.X, b.Max.X), max(round.Max.Y, b.Max.Y)
	}
	if grow(m.at, 3.5).Overlaps(round) {
		return true
	}
	return slices.ContainsFunc(page.Lines, func(l pdftest.Line) bool {
		beside := near(l.From.Y, (m.at.Min.Y+m.at.Max.Y)/2, 1.5) && l.From.X < m.at.Min.X && m.at.Min.X-l.From.X < 5
		return beside && slices.ContainsFunc(to, func(b pdftest.Box) bool { return inside(l.To, grow(b, 0.3)) })
	})
}

func grow(b pdftest.Box, by float64) pdftest.Box {
	return pdftest.Box{Min: pdftest.Point{X: b.Min.X - by, Y: b.Min.Y - by}, Max: pdftest.Point{X: b.Max.X + by, Y: b.Max.Y + by}}
}

// boxed are the kinds of piece whose drawing has their whole box in it.
func boxed(p *unit.Piece) bool {
	switch p.Part.Kind {
	case "rail", "bar", "shoe", "faceout", "face-out":
		return false
	}
	return true
}

// drawings finds every piece at its place and to scale, those that go
// dashed, and by each a mark with its letter and step.
func (n *night) drawings(t *testing.T) {
	leaves, comes := map[*reset.Item]int{}, map[*reset.Item]int{}
	for _, step := range n.Steps {
		for _, act := range step.Acts {
			switch {
			case act.Item == nil:
			case step.Verb == reset.TakeDown || step.Verb == reset.SetAside:
				leaves[act.Item] = step.Number
			case step.Verb == reset.Hang:
				comes[act.Item] = step.Number
			default:
				leaves[act.Item], comes[act.Item] = step.Number, step.Number
			}
		}
	}
	looked := 0
	for _, f := range n.New.Faces {
		pages := n.pages(fmt.Sprintf(n.words.ChangeOf, n.faceName(f.ID)))
		if len(pages) == 0 {
			continue
		}
		e := elevations(pages[0])
		if len(e) != 1 {
			t.Fatalf("%s: %d elevations on the sheet", f.ID, len(e))
		}
		marks := marksOn(e[0].page)
		for _, item := range n.Items {
			for _, end := range []struct {
				place *reset.Place
				steps map[*reset.Item]int
				old   bool
			}{{item.From, leaves, true}, {item.To, comes, false}} {
				if end.place == nil || end.place.Face.ID != f.ID || item.Host != nil {
					continue
				}
				old := end.old
				if old && (item.Way == reset.Stay || item.To != nil && item.To.Solid == item.From.Solid) {
					continue
				}
				looked++
				p := end.place.Piece
				if (old || boxed(p)) && !e[0].drawn(p.Box, old) {
					t.Errorf("%s in %s is not drawn at its place, old %v", p.Part.ID, end.place.Row.Address, old)
				}
				if !n.marked(e[0], marks, end.place.Row, item, end.steps, old) {
					t.Errorf("%s in %s, old %v: no mark %s%d by it", p.Part.ID, end.place.Row.Address, old, item.Way.Mark(), end.steps[item])
				}
			}
		}
	}
	if looked == 0 {
		t.Error("nothing was looked at")
	}
}

// marked says whether a mark with the letter and the step stands by the pieces in
// the row to which the same happens in the steps it names.
func (n *night) marked(e elevation, marks []markText, row *unit.Row, item *reset.Item, steps map[*reset.Item]int, old bool) bool {
	return slices.ContainsFunc(marks, func(m markText) bool {
		if m.letter != string(item.Way.Mark()) || item.Way != reset.Stay && !slices.Contains(m.steps, steps[item]) {
			return false
		}
		var like []pdftest.Box
		for _, other := range n.Items {
			place := other.To
			if old {
				place = other.From
			}
			if place != nil && place.Row == row && other.Way.Mark() == item.Way.Mark() && (item.Way == reset.Stay || slices.Contains(m.steps, steps[other])) {
				like = append(like, e.box(place.Piece.Box))
			}
		}
		return m.leads(e.page, like)
	})
}

// goods finds every facing of a face that changes twice: where it is now
// and where it will be, and on the sheet a mark for each step.
func (n *night) goods(t *testing.T) {
	looked := 0
	for i, u := range []*unit.Unit{n.Old, n.New} {
		for _, f := range u.Faces {
			pages := n.pages(fmt.Sprintf(n.words.GoodsChangeOf, n.faceName(f.ID)))
			if len(pages) == 0 {
				continue
			}
			e := elevations(pages[0])
			if len(e) != 2 {
				t.Fatalf("%s: %d elevations of goods, want 2", f.ID, len(e))
			}
			for _, row := range f.Rows {
				for _, p := range row.Positions {
					for _, front := range p.Fronts {
						looked++
						if !e[i].drawn(front.Box, false) && !e[i].drawn(front.Box, true) {
							t.Errorf("%s: a facing is not drawn at its place", p.Address)
						}
					}
				}
			}
		}
	}
	if looked == 0 {
		t.Error("nothing was looked at")
	}
	for _, step := range n.Steps {
		for _, act := range step.Acts {
			if act.Facing == nil || act.Verb != reset.PutOn && act.Verb != reset.TakeOff {
				continue
			}
			spot := act.Facing.To
			if act.Verb == reset.TakeOff {
				spot = act.Facing.From
			}
			marks := marksOn(n.pages(fmt.Sprintf(n.words.GoodsChangeOf, n.faceName(spot.Face.ID)))[0])
			if !slices.ContainsFunc(marks, func(m markText) bool {
				return m.letter == string(act.Facing.Way.Mark()) && slices.Contains(m.steps, step.Number)
			}) {
				t.Errorf("%s: no mark %s%d", spot.Position.Address, act.Facing.Way.Mark(), step.Number)
			}
		}
	}
}
