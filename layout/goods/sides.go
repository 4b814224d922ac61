package goods

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
)

// gathered collects products of one file that a note is about, so that it is
// given once.
type gathered struct {
	skus  []string // the first few
	count int
	at    diag.Span // of the first
}

func (g *gathered) add(p *Product) {
	const few = 5
	if g.count++; g.count == 1 {
		g.at = p.At
	}
	if len(g.skus) < few {
		g.skus = append(g.skus, p.SKU)
	}
}

// list names the first few and counts the others.
func (g *gathered) list() string {
	names := strings.Join(g.skus, ", ")
	if more := g.count - len(g.skus); more > 0 {
		names += fmt.Sprintf(" and %d more", more)
	}
	return names
}

// sides gathers products whose sides may have been mixed up.
type sides struct{ gathered }

// mixedUp is by how much the side or the top of a box is larger than its front
// before they may have been mixed up. Shoe boxes, cans with a spout and flat
// tins show the smaller face by as much as 2.6 times.
const mixedUp = 3

// look judges what has a front that sells: a card's depth is its thickness; what
// stands shows the larger of its faces, save that flat things lie.
func (s *sides) look(p *Product) {
	switch p.Form {
	case Peg:
		if p.Depth > p.Width || p.Depth > p.Height {
			s.add(p)
		}
	case Stand, Boxed:
		tall := p.Depth > mixedUp*p.Width
		flat := p.Depth > mixedUp*p.Height && p.Depth > p.Width
		if tall || flat {
			s.add(p)
		}
	}
}

func (s *sides) note(found *diag.List, file diag.Span) {
	if s.count == 0 {
		return
	}
	found.Add(diag.Finding{Level: diag.Note, Code: "sides", At: file,
		Message: "the sides of these may be mixed up, as the front is smaller than side or top: " + s.list(),
		Expected: "seen from the front, the largest face that sells: width from left to right, height from base to top, " +
			"depth from front to back; hanging goods as they hang, tab included",
		Source: "GS1 GDSN Package Measurement Rules 2.5.3 for the front (the sides and hanging goods from memory); " +
			"how much smaller is a house rule: sound shoe boxes, cans and tins stay below three times",
		Notes: []diag.Related{{At: s.at, Message: "the first of them"}}})
}

// runs gathers products with a size run that are not boxed.
type runs struct{ gathered }

func (r *runs) look(p *Product) {
	if p.Sizes != nil && p.Form != Boxed {
		r.add(p)
	}
}

func (r *runs) note(found *diag.List, file diag.Span) {
	if r.count == 0 {
		return
	}
	found.Add(diag.Finding{Level: diag.Note, Code: "sizes-unused", At: file,
		Message: "these have sizes, which only boxed goods use: " + r.list(),
		Notes:   []diag.Related{{At: r.at, Message: "the first of them"}}})
}
