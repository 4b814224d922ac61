package check

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// accessRules judge whether people can pass and reach.
func accessRules() []judged {
	return []judged{
		{Rule{"aisle", "Aisle width", diag.Stop,
			"2010 ADA Standards 403.5.1 and 307.5; IBC 2015 1018.3 (aisles, group M) and 1018.4 (accessways)",
			"beside the unit and what sticks out of it 36 in stay clear, or 32 in for no more than 24 in at a time and 48 in apart (a caution); less than 30 in is a stop"}, aisle},
		{Rule{"protrude", "Protruding objects", diag.Caution,
			"2010 ADA Standards 307.2 and the Access Board's guide to it; that a base, a low shelf or a panel down to 27 in is what a cane finds is our reading",
			"between 27 and 80 in from the floor nothing sticks out more than 4 in past what a cane finds below it"}, protrude},
		{Rule{"reach", "Reach", diag.Caution,
			"2010 ADA Standards 308.3, side reach; 225.2.2 does not ask it of self-service shelves",
			"goods are 15 to 48 in from the floor, to 46 in over a base deeper than 10 in: a caution where the plan says that they must be reached (site: must-reach), else a note"}, reachable},
	}
}

// Widths of a way past the unit.
const (
	routeWidth  = 36 * measure.Inch // 403.5.1, and IBC 1018.3
	pinchWidth  = 32 * measure.Inch // 403.5.1, exception
	pinchLength = 24 * measure.Inch
	pinchApart  = 48 * measure.Inch
	accessway   = 30 * measure.Inch // IBC 1018.4, where it need not be accessible
	overhead    = 80 * measure.Inch // 307.4
	caneHeight  = 27 * measure.Inch // 307.2
	caneDepth   = 4 * measure.Inch
)

// stretch is a length of aisle and what is clear beside it.
type stretch struct{ from, to, clear measure.Length }

// pinches joins what narrows the route to less than 36 in: stretches nearer to
// each other than 48 in are one, as narrow as the narrower. They come sorted.
func pinches(list []stretch) []stretch {
	var joined []stretch
	for _, s := range list {
		if s.clear >= routeWidth {
			continue
		}
		if n := len(joined); n > 0 && s.from-joined[n-1].to < pinchApart {
			last := &joined[n-1]
			last.to, last.clear = max(last.to, s.to), min(last.clear, s.clear)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// passable reports whether a pinch is short and wide enough to pass.
func (s stretch) passable() bool { return s.clear >= pinchWidth && s.to-s.from <= pinchLength }

func aisle(s *subject, r Rule) []diag.Finding {
	width := s.Plan.Site.Aisle
	if width == 0 {
		return nil
	}
	level := func(clear measure.Length) diag.Level {
		if clear < accessway {
			return diag.Stop
		}
		return diag.Caution
	}
	if width < routeWidth {
		return []diag.Finding{as(level(width), r.finding(s.Plan.Site.At, nil,
			fmt.Sprintf("the aisle is %s wide; %s are required: %s short", s.length(width), s.length(routeWidth), s.length(routeWidth-width)),
			"an aisle of "+s.length(routeWidth)))}
	}
	var found []diag.Finding
	for i, f := range s.Unit.Faces {
		for _, p := range pinches(s.narrowed(i, width)) {
			if p.passable() {
				continue
			}
			found = append(found, as(level(p.clear), r.finding(s.Plan.Site.At, s.inAisle(i, width, p),
				fmt.Sprintf("what hangs on the %s sticks out %s into the aisle of %s over %s of it and leaves %s; %s are required: %s short",
					f.ID, s.length(width-p.clear), s.length(width), s.length(p.to-p.from), s.length(p.clear), s.length(routeWidth), s.length(routeWidth-p.clear)),
				fmt.Sprintf("an aisle of %s, or shorter hardware there", s.length(width+routeWidth-p.clear)))))
		}
	}
	return found
}

// narrowed lists what sticks out of one face into the aisle, from the left.
func (s *subject) narrowed(face int, width measure.Length) []stretch {
	var list []stretch
	for _, l := range s.faces[face] {
		if out := s.out(l); out > 0 && l.hull.Y0 < overhead {
			list = append(list, stretch{l.hull.X0, l.hull.X1, width - out})
		}
	}
	slices.SortStableFunc(list, func(a, b stretch) int { return int(max(-1, min(1, a.from-b.from))) })
	return list
}

// inAisle is the addresses of what makes a pinch.
func (s *subject) inAisle(face int, width measure.Length, p stretch) []string {
	var where []string
	for _, l := range s.faces[face] {
		if out := s.out(l); width-out < routeWidth && l.hull.X0 >= p.from && l.hull.X1 <= p.to && l.hull.Y0 < overhead {
			where = append(where, l.places()...)
		}
	}
	return unique(where)
}

// out is how far a piece with its goods sticks out of the bare unit, beyond the
// deck and the panels, on the side of its face.
func (s *subject) out(l *laden) measure.Length {
	far, bare := l.face.Solid(l.hull), s.Bare
	switch l.face.Letter {
	case "F":
		return bare.Y0 - far.Y0
	case "B":
		return far.Y1 - bare.Y1
	case "R":
		return far.X1 - bare.X1
	default:
		return bare.X0 - far.X0
	}
}

func unique(list []string) []string {
	seen := map[string]bool{}
	return slices.DeleteFunc(list, func(x string) bool {
		twice := seen[x]
		seen[x] = true
		return twice
	})
}

// edge is the height of a piece's leading edge, bare: of its tip or bar where
// goods hang from it, else its underside.
func (l *laden) edge() measure.Length {
	p := l.piece.Part
	switch p.Kind {
	case parts.Hook, parts.FaceOut, parts.Bar, parts.Rail:
		return l.row.Height + p.Bearing + min(p.Lip, 0)
	}
	return l.piece.Box.Y0
}

// protruding reports whether a leading edge at that height so far past what a
// cane finds is more than 307.2 allows.
func protruding(edge, past measure.Length) bool {
	return edge > caneHeight && edge <= overhead && past > caneDepth
}

// protrude reports, for each face, the piece that sticks out furthest.
func protrude(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for i, f := range s.Unit.Faces {
		low := s.canes(i)
		worst, most, rows := furthest(s.faces[i], func(l *laden) (measure.Length, bool) {
			past := l.piece.Box.D1 - caneFinds(f, low, l.piece.Box)
			return past, protruding(l.edge(), past)
		})
		if worst == nil {
			continue
		}
		found = append(found, r.finding(worst.row.Declared.Span, rows,
			fmt.Sprintf("%s at %s, %s from the floor, sticks out %s past what a cane finds below it; %s are allowed: %s too much%s",
				worst.piece.Part.ID, worst.row.Address, s.length(worst.edge()), s.length(most), s.length(caneDepth), s.length(most-caneDepth), more(len(rows)-1)),
			fmt.Sprintf("parts %s shorter, or a shelf as deep under them no higher than %s", s.length(most-caneDepth), s.length(caneHeight))))
	}
	return found
}

// more adds how many other rows a finding is about.
func more(rows int) string {
	if rows < 1 {
		return ""
	}
	return fmt.Sprintf("; so do parts in %s", counted(rows, "more row"))
}

// canes lists, for each bay of a face, the pieces a cane finds.
func (s *subject) canes(face int) [][]unit.Box {
	f := s.Unit.Faces[face]
	low := make([][]unit.Box, f.Bays)
	for _, l := range s.faces[face] {
		if l.edge() > caneHeight {
			continue
		}
		for bay := bayAt(f, l.piece.Box.X0); bay <= bayAt(f, l.piece.Box.X1-1); bay++ {
			low[bay] = append(low[bay], l.piece.Box)
		}
	}
	return low
}

// bayAt is the bay, from 0, that an x lies in; those off the face count to its ends.
func bayAt(f *unit.Face, x measure.Length) int {
	return max(0, min(f.Bays-1, int(x/f.Panel.Width)))
}

// caneFinds is how far out the floor or air below a box is taken by what a cane
// finds: the least of it under the box's ends and middle.
func caneFinds(f *unit.Face, low [][]unit.Box, box unit.Box) measure.Length {
	deck := measure.Length(0)
	if f.Deck <= caneHeight {
		deck = f.DeckDepth
	}
	least := measure.MaxLength
	for _, x := range []measure.Length{box.X0, (box.X0 + box.X1) / 2, box.X1 - 1} {
		found := deck
		for _, b := range low[bayAt(f, x)] {
			if b.X0 <= x && x <= b.X1 {
				found = max(found, b.D1)
			}
		}
		least = min(least, found)
	}
	return least
}

// Reach ranges of 308: heights from the floor.
const (
	reachLow      = 15 * measure.Inch // 308.3.1
	reachHigh     = 48 * measure.Inch
	sideShort     = 10 * measure.Inch // 308.3.2: reaching further than this, 46 in
	sideLong      = 24 * measure.Inch
	sideHigh      = 46 * measure.Inch
	sideObstructs = 34 * measure.Inch // how high what is reached over may be
)

// sideReach is the greatest height within side reach over an obstruction so deep
// and so high, 0 if nothing is (308.3).
func sideReach(depth, height measure.Length) measure.Length {
	switch {
	case depth <= sideShort:
		return reachHigh
	case depth <= sideLong && height <= sideObstructs:
		return sideHigh
	}
	return 0
}

// reachable tells, for each face, the goods out of reach. A base deck leaves no
// room for knees, so reach is from the side.
func reachable(s *subject, r Rule) []diag.Finding {
	level := diag.Note
	if s.Plan.Site.MustReach {
		level = diag.Caution
	}
	var found []diag.Finding
	for _, f := range s.Unit.Faces {
		limit := sideReach(f.DeckDepth, f.Deck)
		var where []string
		high, low := measure.Length(0), limit
		for _, row := range f.Rows {
			for _, pos := range row.Positions {
				if pos.Height > limit || pos.Height < reachLow {
					where = append(where, pos.Address)
					high, low = max(high, pos.Height), min(low, pos.Height)
				}
			}
		}
		if len(where) == 0 {
			continue
		}
		var by []string
		if high > limit {
			by = append(by, fmt.Sprintf("up to %s above %s", s.length(high-limit), s.length(limit)))
		}
		if low < reachLow {
			by = append(by, fmt.Sprintf("down to %s below %s", s.length(reachLow-low), s.length(reachLow)))
		}
		found = append(found, as(level, r.finding(s.panelAt(f.ID), where,
			fmt.Sprintf("%s on the %s: out of a seated shopper's side reach, %s", counted(len(where), "position"), f.ID, list(by)),
			"have goods that some shoppers need within reach, or staff at hand")))
	}
	return found
}

func list(parts []string) string {
	if len(parts) == 2 {
		return parts[0] + " and " + parts[1]
	}
	return parts[0]
}

// furthest finds what sticks out furthest of all that past says does, and the
// addresses of the rows it is among.
func furthest(list []*laden, past func(*laden) (measure.Length, bool)) (worst *laden, most measure.Length, rows []string) {
	for _, l := range list {
		by, out := past(l)
		if !out {
			continue
		}
		rows = append(rows, l.row.Address)
		if by > most {
			worst, most = l, by
		}
	}
	return worst, most, unique(rows)
}
