package list

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Group is a stop on the walk through the stockroom.
type Group string

// The groups, in walking order.
const (
	Structure Group = "structure" // frame, stand, panels
	Shelving  Group = "shelving"  // shelves, slopes, brackets, baskets
	Hooks     Group = "hooks"     // hooks, shortest first
	Rails     Group = "rails"     // rails, face-outs, bars
	Other     Group = "other"     // signs, strips and the rest
)

// PickLine is one kind of part to pull, one balloon on the drawings; a fixing
// has a number of its own and is not drawn. A part cut to length has a line for
// each length.
type PickLine struct {
	Balloon  int // from 1, in list order
	Group    Group
	Part     *parts.Part
	Cut      measure.Length // 0 unless it is cut to the length of what it is fixed to
	Quantity int            // pieces; a stand is one set, whatever its feet
	Packs    int            // to open, at the part's pack size; 0 if it is cut from stock
	Weight   measure.Mass   // of all pieces
	Rows     []string       // row addresses where it goes, in sheet order; none for the bare unit
	Portions []Portion      // by face, those of none left out; together they are Quantity
}

// Portion is how much of a pick line goes to one face.
type Portion struct {
	Face   plan.FaceID // "" for the bare unit: frame, stand, panels and their fixings
	Pieces int
	Rows   []string // addresses, in sheet order
}

// Each is the weight of one piece.
func (l PickLine) Each() measure.Mass { return l.Weight / measure.Mass(l.Quantity) }

// CutTo is the size the pieces of a line are cut to: a length, and for pieces
// of a sheet a width, the length lying along the grain. A part that is not cut
// from stock has neither.
func (l PickLine) CutTo() (length, width measure.Length) {
	switch cut := l.Part.Cut; {
	case l.Cut > 0:
		return l.Cut, 0
	case cut == nil:
		return 0, 0
	case cut.From.Sheet():
		blank := l.Part.Blank()
		return blank.Along, blank.Across
	}
	return l.Part.CutLength(), 0
}

// walk is the order of kinds through the stockroom: group by group, and in a
// group what carries before what it carries.
var walk = [...]struct {
	kind  parts.Kind
	group Group
}{
	{parts.Frame, Structure},
	{parts.Stand, Structure},
	{parts.Panel, Structure},
	{parts.Bracket, Shelving},
	{parts.Shelf, Shelving},
	{parts.Slope, Shelving},
	{parts.Basket, Shelving},
	{parts.Shoe, Shelving},
	{parts.Hook, Hooks},
	{parts.Rail, Rails},
	{parts.FaceOut, Rails},
	{parts.Bar, Rails},
	{parts.Sign, Other},
	{parts.Strip, Other},
	{parts.Fixing, Other},
}

// stop finds a kind's place on the walk. A kind this list does not know comes
// last, among the others.
func stop(kind parts.Kind) (int, Group) {
	for i, w := range walk {
		if w.kind == kind {
			return i, w.group
		}
	}
	return len(walk), Other
}

// lineKey tells one pick line from another.
type lineKey struct {
	part *parts.Part
	cut  measure.Length
}

// tally collects pick lines in the order their parts are first met.
type tally struct {
	parts *parts.List
	lines []*PickLine
	at    map[lineKey]*PickLine
}

// add counts pieces of a part and what they are put up with. They hang in the
// row of that address on that face, or belong to the bare unit if both are "".
func (t *tally) add(part *parts.Part, cut measure.Length, pieces int, face plan.FaceID, row string) {
	t.line(part, cut).add(pieces, face, row)
	for _, f := range t.parts.Fixings(part) {
		t.line(f.Part, 0).add(f.Count*pieces, face, row)
	}
}

// line finds the line of a part, or begins it.
func (t *tally) line(part *parts.Part, cut measure.Length) *PickLine {
	key := lineKey{part, cut}
	line := t.at[key]
	if line == nil {
		_, group := stop(part.Kind)
		line = &PickLine{Group: group, Part: part, Cut: cut}
		t.at[key] = line
		t.lines = append(t.lines, line)
	}
	return line
}

// add counts pieces. Faces come in sheet order, the bare unit before them, and
// the rows of a face from the top.
func (l *PickLine) add(pieces int, face plan.FaceID, row string) {
	l.Quantity += pieces
	last := len(l.Portions) - 1
	if last < 0 || l.Portions[last].Face != face {
		l.Portions = append(l.Portions, Portion{Face: face})
		last++
	}
	p := &l.Portions[last]
	p.Pieces += pieces
	if row != "" && (len(p.Rows) == 0 || p.Rows[len(p.Rows)-1] != row) {
		p.Rows = append(p.Rows, row)
		l.Rows = append(l.Rows, row)
	}
}

// Pick lists every piece of the unit in walking order: by group, then by kind,
// then from the shortest and narrowest to the longest and widest, so that one
// walk along the shelves of the stockroom meets everything in turn.
func Pick(u *unit.Unit) []PickLine {
	return pick(u, true, func(*unit.Piece) bool { return true })
}

// PickOnly is the pick list of some pieces of a unit: those that hang and that
// keep is true of, with what they are put up with, and if bare is set the bare
// unit. Balloons are those of Pick.
func PickOnly(u *unit.Unit, bare bool, keep func(*unit.Piece) bool) []PickLine {
	balloon := Balloons(Pick(u))
	lines := pick(u, bare, keep)
	for i := range lines {
		lines[i].Balloon = balloon(lines[i].Part, lines[i].Cut)
	}
	return lines
}

func pick(u *unit.Unit, bare bool, keep func(*unit.Piece) bool) []PickLine {
	t := tally{parts: u.Parts, at: map[lineKey]*PickLine{}}
	if bare {
		t.structure(u)
	}
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, piece := range row.All() {
				if keep(piece) {
					t.add(piece.Part, piece.Cut, 1, face.ID, row.Address)
				}
			}
		}
	}
	slices.SortStableFunc(t.lines, InWalkingOrder)
	lines := make([]PickLine, len(t.lines))
	for i, line := range t.lines {
		line.Balloon = i + 1
		line.Packs = packs(line)
		line.Weight = measure.Mass(line.Quantity) * weight(line)
		lines[i] = *line
	}
	return lines
}

// Less is the line with so many pieces fewer, the last ones.
func (l PickLine) Less(pieces int) PickLine {
	each := l.Each()
	l.Quantity -= pieces
	l.Weight = measure.Mass(l.Quantity) * each
	l.Packs = packs(&l)
	left := l.Quantity
	portions := l.Portions
	l.Portions, l.Rows = nil, nil
	for _, p := range portions {
		if p.Pieces = min(p.Pieces, left); p.Pieces == 0 {
			break
		}
		left -= p.Pieces
		l.Portions, l.Rows = append(l.Portions, p), append(l.Rows, p.Rows...)
	}
	return l
}

// structure counts the bare unit: one frame, one set of what it stands on, and
// the panels. A fixed unit that stands on nothing has no stand to pull.
func (t *tally) structure(u *unit.Unit) {
	t.add(u.Frame, 0, 1, "", "")
	if u.Stand.Stand.Feet > 0 || u.Stand.Weight > 0 {
		t.add(u.Stand, 0, 1, "", "")
	}
	for _, s := range u.Structure {
		if s.Bay > 0 {
			t.add(s.Part, 0, 1, "", "")
		}
	}
}

// InWalkingOrder compares two pick lines, of whatever units, by where the walk
// through the stockroom meets them: it is below zero if that is a first.
func InWalkingOrder(a, b *PickLine) int {
	i, _ := stop(a.Part.Kind)
	j, _ := stop(b.Part.Kind)
	return cmp.Or(
		cmp.Compare(i, j),
		cmp.Compare(a.Part.Usable, b.Part.Usable),
		cmp.Compare(a.Part.Width, b.Part.Width),
		cmp.Compare(a.Part.Depth, b.Part.Depth),
		cmp.Compare(a.Part.ID, b.Part.ID),
		cmp.Compare(a.Cut, b.Cut),
	)
}

// packs is how many packs of pieces to open. What is cut from stock comes from
// the saw and not in packs.
func packs(line *PickLine) int {
	if line.Part.Cut != nil {
		return 0
	}
	return ceil(line.Quantity, max(line.Part.Pack, 1))
}

func ceil(n, per int) int { return (n + per - 1) / per }

// weight is that of one piece; a piece cut to the length of something weighs
// its share of the part.
func weight(line *PickLine) measure.Mass {
	whole := line.Part.Weight
	if line.Cut == 0 {
		return whole
	}
	// In whole micrometres the product stays inside an int64.
	width := int64(line.Part.Width / measure.Micrometre)
	return measure.Mass((int64(whole)*int64(line.Cut/measure.Micrometre) + width/2) / width)
}

// Balloons finds the balloon of a piece of a pick list: of a part, and the
// length it is cut to (0 if it is not). It gives 0 for a piece not listed.
func Balloons(lines []PickLine) func(part *parts.Part, cut measure.Length) int {
	at := make(map[lineKey]int, len(lines))
	for _, line := range lines {
		at[lineKey{line.Part, line.Cut}] = line.Balloon
	}
	return func(part *parts.Part, cut measure.Length) int { return at[lineKey{part, cut}] }
}
