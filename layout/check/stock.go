package check

import (
	"fmt"
	"math"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/statics"
	"setwright/layout/unit"
)

// stockRules judge where which goods are.
func stockRules() []judged {
	return []judged{
		{Rule{"heavy-low", "Heavy goods low", diag.Caution, "common practice",
			"what weighs 5 kg (11 lb) or more apiece is no higher than 48 in, and no row higher than that with 25 kg (55 lb) or more in a bay is over one that carries less than three quarters as much"}, heavyLow},
		{Rule{"hook-eye", "Hook ends at eye height", diag.Caution,
			"common practice; eye heights derived from ANSUR II and, for a child of three, CDC growth charts (from memory)",
			"between a child's and an adult's eye height, 33 and 70 in, no hook or arm ends more than 1 in further out than what is below it"}, hookEye},
		{Rule{"breakables", "Breakables", diag.Caution, "common practice",
			"glass and other breakables are no higher than 1.5 m (59 in)"}, breakables},
		{Rule{"lift", "Lifting", diag.Caution, "revised NIOSH lifting equation, DHHS (NIOSH) 94-110, formula; one case at a time from a cart 30 in high, fair grip, at most 0.2 lifts a minute for an hour",
			"the lifting index of the heaviest case put on each shelf is no more than 1"}, lift},
	}
}

// Limits of heavy-low; a fill keeps to those of single goods by itself.
const (
	heavyPiece  = unit.HeavyPiece
	heavyBay    = 25 * measure.Kilogram
	heavyHeight = unit.HeavyHeight
)

func heavyLow(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for i, f := range s.Unit.Faces {
		found = append(found, s.heavyPieces(f, r)...)
		found = append(found, s.heavyRows(i, r)...)
	}
	return found
}

// heavyPieces reports the heaviest goods of a face that are too high.
func (s *subject) heavyPieces(f *unit.Face, r Rule) []diag.Finding {
	var where []string
	var worst *unit.Position
	var at diag.Span
	for _, row := range f.Rows {
		for _, pos := range row.Positions {
			if pos.Height <= heavyHeight || s.apiece(pos) < heavyPiece {
				continue
			}
			where = append(where, pos.Address)
			if worst == nil || pos.Product.Weight > worst.Product.Weight {
				worst, at = pos, row.Declared.Span
			}
		}
	}
	if worst == nil {
		return nil
	}
	return []diag.Finding{r.finding(at, where,
		fmt.Sprintf("%s at %s weighs %s apiece and is %s from the floor; from %s on goods go no higher than %s: %s too high",
			worst.Product.SKU, worst.Address, s.mass(s.apiece(worst)), s.length(worst.Height), s.mass(heavyPiece), s.length(heavyHeight), s.length(worst.Height-heavyHeight)),
		"change places with lighter goods further down")}
}

// apiece is the weight of one unit of a position's goods.
func (s *subject) apiece(pos *unit.Position) measure.Mass {
	return pos.Product.Weight * s.quarters / usual
}

// heavyRows reports the heaviest stretch of a row, in one bay, that is high up
// over a lighter one.
func (s *subject) heavyRows(face int, r Rule) []diag.Finding {
	type stretch struct {
		l    *laden
		load measure.Mass
	}
	f := s.Unit.Faces[face]
	bays := make([][]stretch, f.Bays) // rows from the top down
	for _, l := range s.faces[face] {
		from, to := bayAt(f, l.piece.Box.X0), bayAt(f, l.piece.Box.X1-1)
		share := l.goods() / measure.Mass(to-from+1)
		for bay := from; bay <= to; bay++ {
			if n := len(bays[bay]); n > 0 && bays[bay][n-1].l.row == l.row {
				bays[bay][n-1].load += share
				continue
			}
			bays[bay] = append(bays[bay], stretch{l, share})
		}
	}
	var worst, under stretch
	for _, rows := range bays {
		for i, above := range rows {
			if above.l.row.Height <= heavyHeight || above.load < heavyBay || above.load <= worst.load {
				continue
			}
			for _, below := range rows[i+1:] {
				if below.l.row.Height <= heavyHeight && below.load < above.load/4*3 {
					worst, under = above, below
				}
			}
		}
	}
	if worst.l == nil {
		return nil
	}
	return []diag.Finding{r.finding(worst.l.row.Declared.Span, worst.l.places(),
		fmt.Sprintf("%s carries %s in one bay, %s from the floor, over %s with %s: %s lighter",
			worst.l.row.Address, s.mass(worst.load), s.length(worst.l.row.Height), under.l.row.Address, s.mass(under.load), s.mass(worst.load-under.load)),
		fmt.Sprintf("let %s and %s change places", worst.l.row.Address, under.l.row.Address))}
}

// Eye heights: a child of three, 95 cm tall (CDC growth charts; from memory),
// less 10 cm; the 95th percentile man of ANSUR II, 1753 mm barefoot, derived as
// stature less sitting height plus sitting eye height, and 25 mm of shoe.
const (
	childEye = 850 * measure.Millimetre
	adultEye = 1778 * measure.Millimetre
	proud    = measure.Inch // how far an end may stick out past what is below
)

// hookEye reports, for each face, the end that sticks out furthest past what is
// below it in its bay.
func hookEye(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for i, f := range s.Unit.Faces {
		guards := s.guards(i)
		worst, most, rows := furthest(s.faces[i], func(l *laden) (measure.Length, bool) {
			end := l.edge()
			if !hasEnds(l.piece.Part.Kind) || end < childEye || end > adultEye {
				return 0, false
			}
			past := l.piece.Box.D1 - guards.below(f, l)
			return past, past > proud
		})
		if worst == nil {
			continue
		}
		found = append(found, r.finding(worst.row.Declared.Span, rows,
			fmt.Sprintf("the ends of %s at %s are %s from the floor, between a child's and an adult's eyes (%s and %s), and stick out %s past what is below%s",
				worst.piece.Part.ID, worst.row.Address, s.length(worst.edge()), s.length(childEye), s.length(adultEye), s.length(most), more(len(rows)-1)),
			fmt.Sprintf("capped or looped ends; or parts %s shorter, or a shelf or base as deep below them", s.length(most))))
	}
	return found
}

// hasEnds reports whether parts of that kind end in the air.
func hasEnds(k parts.Kind) bool { return k == parts.Hook || k == parts.FaceOut || k == parts.Bar }

// guards is the hardware of each bay of a face.
type guards [][]*laden

func (s *subject) guards(face int) guards {
	f := s.Unit.Faces[face]
	g := make(guards, f.Bays)
	for _, l := range s.faces[face] {
		for bay := bayAt(f, l.piece.Box.X0); bay <= bayAt(f, l.piece.Box.X1-1); bay++ {
			g[bay] = append(g[bay], l)
		}
	}
	return g
}

// below is how far out the deck or the hardware below a piece in its bay reaches.
func (g guards) below(f *unit.Face, l *laden) measure.Length {
	reach := f.DeckDepth
	for _, other := range g[bayAt(f, l.piece.X)] {
		if other.edge() < l.edge() {
			reach = max(reach, other.piece.Box.D1)
		}
	}
	return reach
}

// breakHeight is how high breakables may be.
const breakHeight = unit.BreakHeight

func breakables(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, f := range s.Unit.Faces {
		for _, row := range f.Rows {
			var where []string
			var first *unit.Position
			for _, pos := range row.Positions {
				if pos.Product.Breakable && pos.Height > breakHeight {
					where = append(where, pos.Address)
					if first == nil {
						first = pos
					}
				}
			}
			if first != nil {
				found = append(found, r.finding(row.Declared.Span, where,
					fmt.Sprintf("%s at %s is breakable and %s from the floor; breakables go no higher than %s: %s too high",
						first.Product.SKU, first.Address, s.length(first.Height), s.length(breakHeight), s.length(first.Height-breakHeight)),
					"change places with goods that may fall"))
			}
		}
	}
	return found
}

// A case is lifted from a cart so high, in inches, and held so far out, at
// least: NIOSH takes the body 10 in from what it stands at.
const (
	cartHeight = 30.0
	bodyOut    = 10.0
)

// lift reports, for each face, the case with the greatest lifting index.
func lift(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, f := range s.Unit.Faces {
		var where []string
		var worst *unit.Position
		var at diag.Span
		most := 1.0
		for _, row := range f.Rows {
			if hangs(row.Part.Kind) {
				continue
			}
			for _, pos := range row.Positions {
				index := pounds(s.lifted(pos)) / limitOf(pos).RWL()
				if index <= 1+1e-9 {
					continue
				}
				where = append(where, pos.Address)
				if index > most*slack {
					worst, most, at = pos, index, row.Declared.Span
				}
			}
		}
		if worst == nil {
			continue
		}
		limit := s.lifted(worst)
		found = append(found, r.finding(at, where,
			fmt.Sprintf("a case of %s for %s, %s from the floor, weighs %s; the recommended limit there is %s: lifting index %.2f, more than 1%s",
				worst.Product.SKU, worst.Address, s.length(worst.Height), s.mass(limit), s.carried(newtons(limit)/most), most, more2(len(where)-1)),
			"two people, or open the case and hand up less at a time"))
	}
	return found
}

func more2(positions int) string {
	if positions < 1 {
		return ""
	}
	return fmt.Sprintf("; so have %s", counted(positions, "more position"))
}

// hangs reports whether goods hang from parts of that kind: they go up one by
// one, not by the case.
func hangs(k parts.Kind) bool {
	return k == parts.Hook || k == parts.FaceOut || k == parts.Bar || k == parts.Rail
}

// lifted is the weight of one case of a position's goods, of one unit where the
// case is not known.
func (s *subject) lifted(pos *unit.Position) measure.Mass {
	return s.apiece(pos) * measure.Mass(max(pos.Product.Case, 1))
}

func pounds(m measure.Mass) float64 { return kg(m) / 0.45359237 }

// limitOf is the lift of a case from a cart to a position, held over the middle
// of what it is put on. Beyond the equation's range it is taken at the end of
// it: a step brings the hands there, and they reach no further in.
func limitOf(pos *unit.Position) statics.Lift {
	height := min(mm(pos.Height)/25.4, 70)
	out := min(bodyOut+mm(pos.Fronts[0].Box.Depth())/25.4/2, 25)
	return statics.Lift{
		System: statics.Customary, Mode: statics.Formula,
		Horizontal: out, Vertical: height, Travel: math.Abs(height - cartHeight),
		Frequency: 0.2, Hours: 1, Coupling: statics.Fair,
	}
}
