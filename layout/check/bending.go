package check

import (
	"fmt"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/unit"
)

// bendingRules judge what gives way under its load.
func bendingRules() []judged {
	return []judged{
		{Rule{"sag", "Shelf sag", diag.Stop,
			"Architectural Woodwork Standards, 1st ed. 2009, 1.2.21 (span/144); span/240 is noticed, particleboard and MDF trade bodies",
			"no shelf sags, in time, by more than its span over 144, or the ratio of its part: a stop; more than its span over 240 is a caution"}, sag},
		{Rule{"three-brackets", "Three brackets under 48 in", diag.Caution, "common practice",
			"a shelf of 48 in or more rests on at least three brackets"}, threeBrackets},
		{Rule{"hook-tip", "Hook and rail deflection", diag.Caution, "house rule: goods slide off a wire that sinks further; deflection of a cantilever, AISC Manual table 3-23",
			"the tip of a hook, peg or arm of round wire, or the middle of a rail, sinks by no more than a twentieth of its length"}, hookTip},
	}
}

// sagLimit is how far a shelf may sag: its span over the ratio. An overhang
// counts as twice as long, as building codes take cantilevers (IBC table 1604.3,
// note i; from memory).
func sagLimit(span float64, overhang bool, ratio int) float64 {
	if overhang {
		span *= 2
	}
	return span / float64(ratio)
}

// overhangs reports whether the greatest sag is past the outer supports.
func (c *ShelfCase) overhangs() bool {
	return c.SagX < c.Supports[0] || c.SagX > c.Supports[len(c.Supports)-1]
}

// sag reports, for each row, the shelf that sags most.
func sag(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, worst := range worstOfRows(s.a.Shelves, func(c *ShelfCase) (*unit.Row, float64) { return c.Row, c.Sag }) {
		bend := worst.Piece.Part.Bend
		if bend == nil {
			continue
		}
		switch stop, seen := sagLimit(worst.Span, worst.overhangs(), bend.Stop), sagLimit(worst.Span, worst.overhangs(), bend.Caution); {
		case worst.Sag > stop*slack:
			found = append(found, s.sags(r, worst, bend.Stop, stop, "allowed"))
		case worst.Sag > seen*slack:
			found = append(found, as(diag.Caution, s.sags(r, worst, bend.Caution, seen, "where it is noticed")))
		}
	}
	return found
}

func (s *subject) sags(r Rule, c *ShelfCase, ratio int, limit float64, level string) diag.Finding {
	what, more := "supports", ""
	if c.Piece.Part.Kind == parts.Shelf {
		what = "brackets"
	}
	var others []string
	for _, o := range c.Others {
		others = append(others, fmt.Sprintf("%s: %s", number(o.Supports), s.fine(o.Sag)))
		if more == "" && o.Supports > len(c.Supports) && o.Sag < c.Sag {
			more = fmt.Sprintf("%s %s, ", number(o.Supports), what)
		}
	}
	return r.finding(c.Row.Declared.Span, s.on(c.Row, c.Piece),
		fmt.Sprintf("%s at %s sags, in time, %s over %s; span/%d, %s, is %s: %s too much (with two %s: %s)",
			c.Piece.Part.ID, c.Row.Address, s.fine(c.Sag), s.length(measure.Length(c.Span*float64(measure.Millimetre))),
			ratio, s.fine(limit), level, s.fine(c.Sag-limit), what, strings.TrimPrefix(strings.Join(others, ", "), "two: ")),
		more+"a stiffer or thicker shelf, or lighter goods")
}

// number words a small number.
func number(n int) string {
	words := [...]string{"no", "one", "two", "three", "four", "five", "six"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

// longShelf is from where a shelf needs a third bracket.
const longShelf = 48 * measure.Inch

func threeBrackets(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	last := (*unit.Row)(nil)
	for i := range s.a.Shelves {
		c := &s.a.Shelves[i]
		if c.Row == last || c.Piece.Part.Kind != parts.Shelf || c.Piece.Box.Width() < longShelf || len(c.Supports) >= 3 {
			continue
		}
		last = c.Row
		found = append(found, r.finding(c.Row.Declared.Span, s.on(c.Row, c.Piece),
			fmt.Sprintf("%s at %s, %s long, rests on %s brackets; from %s on it needs three: one more",
				c.Piece.Part.ID, c.Row.Address, s.length(c.Piece.Box.Width()), number(len(c.Supports)), s.length(longShelf)),
			"a bracket in the middle: let the part need one every "+s.length(longShelf/2)))
	}
	return found
}

// tipShare is the part of its length by which a wire's tip may sink.
const tipShare = 1.0 / 20

// hookTip reports, for each row, the wire that sinks most.
func hookTip(s *subject, r Rule) []diag.Finding {
	var found []diag.Finding
	for _, worst := range worstOfRows(s.a.Holds, func(c *HoldCase) (*unit.Row, float64) { return c.Row, c.Tip }) {
		part := worst.Piece.Part
		limit := mm(reach(part)) * tipShare
		if worst.Tip <= limit*slack {
			continue
		}
		what := "the tip"
		if part.Kind == parts.Rail {
			what = "the middle"
		}
		found = append(found, r.finding(worst.Row.Declared.Span, s.on(worst.Row, worst.Piece),
			fmt.Sprintf("%s of %s at %s sinks %s under %s; a twentieth of its length is %s: %s too much",
				what, part.ID, worst.Row.Address, s.fine(worst.Tip), s.carried(worst.Load), s.fine(limit), s.fine(worst.Tip-limit)),
			"a shorter or thicker one, or fewer goods on each"))
	}
	return found
}
