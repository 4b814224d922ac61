package list

import (
	"cmp"
	"slices"

	"setwright/layout/measure"
	"setwright/layout/parts"
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

// PickLine is one kind of part to pull, one balloon on the drawings. A part
// cut to length has a line for each length.
type PickLine struct {
	Balloon  int // from 1, in list order
	Group    Group
	Part     *parts.Part
	Cut      measure.Length // 0 if it is not cut
	Quantity int            // pieces; a stand is one set, whatever its feet
	Packs    int            // to open, at the part's pack size
	Weight   measure.Mass   // of all pieces
	Rows     []string       // row addresses where it goes, in sheet order; empty for structure
	Bars     int            // of stock to cut it from, each line from bars of its own; 0 if it is not cut
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
	lines []*PickLine
	at    map[lineKey]*PickLine
}

// add counts pieces of a part, hung in the row of that address or, with no
// address, part of the structure.
func (t *tally) add(part *parts.Part, cut measure.Length, pieces int, row string) {
	key := lineKey{part, cut}
	line := t.at[key]
	if line == nil {
		_, group := stop(part.Kind)
		line = &PickLine{Group: group, Part: part, Cut: cut}
		t.at[key] = line
		t.lines = append(t.lines, line)
	}
	line.Quantity += pieces
	if row != "" && (len(line.Rows) == 0 || line.Rows[len(line.Rows)-1] != row) {
		line.Rows = append(line.Rows, row)
	}
}

// Pick lists every piece of the unit in walking order: by group, then by kind,
// then from the shortest and narrowest to the longest and widest, so that one
// walk along the shelves of the stockroom meets everything in turn.
func Pick(u *unit.Unit) []PickLine {
	t := tally{at: map[lineKey]*PickLine{}}
	t.structure(u)
	for _, face := range u.Faces {
		for _, row := range face.Rows {
			for _, piece := range row.All() {
				t.add(piece.Part, piece.Cut, 1, row.Address)
			}
		}
	}
	slices.SortStableFunc(t.lines, compare)
	lines := make([]PickLine, len(t.lines))
	for i, line := range t.lines {
		line.Balloon = i + 1
		line.Bars = bars(line)
		line.Packs = packs(line)
		line.Weight = weight(line)
		lines[i] = *line
	}
	return lines
}

// structure counts the bare unit: one frame, one set of what it stands on, and
// the panels. A fixed unit that stands on nothing has no stand to pull.
func (t *tally) structure(u *unit.Unit) {
	t.add(u.Frame, 0, 1, "")
	if u.Stand.Stand.Feet > 0 || u.Stand.Weight > 0 {
		t.add(u.Stand, 0, 1, "")
	}
	for _, s := range u.Structure {
		if s.Bay > 0 {
			t.add(s.Part, 0, 1, "")
		}
	}
}

func compare(a, b *PickLine) int {
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

// bars is how many bars of stock a line takes by itself. The saw takes its kerf
// between two pieces, not after the last.
func bars(line *PickLine) int {
	if line.Part.Cut == nil || line.Cut <= 0 {
		return 0
	}
	stock := line.Part.Cut.From
	return ceil(line.Quantity, max(int((stock.Sizes[0].Length+stock.Kerf)/(line.Cut+stock.Kerf)), 1))
}

// packs is how many packs to open for a line by itself: of pieces, or of bars.
func packs(line *PickLine) int {
	pieces := line.Quantity
	if line.Bars > 0 {
		pieces = line.Bars
	}
	return ceil(pieces, max(line.Part.Pack, 1))
}

func ceil(n, per int) int { return (n + per - 1) / per }

// weight is that of all the pieces; a cut piece weighs its share of the bar.
func weight(line *PickLine) measure.Mass {
	each := line.Part.Weight
	if line.Cut > 0 {
		// In whole micrometres the product stays inside an int64.
		bar := int64(line.Part.Width / measure.Micrometre)
		each = measure.Mass((int64(each)*int64(line.Cut/measure.Micrometre) + bar/2) / bar)
	}
	return measure.Mass(line.Quantity) * each
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
