package saw

import (
	"fmt"
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/measure"
)

// wrong reports a job that cannot be meant.
func wrong(job *Job) []diag.Finding {
	var found []diag.Finding
	fail := func(at diag.Span, code, message, expected string) {
		found = append(found, diag.Finding{Level: diag.Error, Code: code, At: at, Message: message, Expected: expected})
	}
	stock := job.Stock
	if stock.Kerf < 0 || stock.Trim < 0 {
		fail(stock.At, "bad-length", "kerf or trim is negative", "zero or more")
	}
	count := 0
	for _, p := range job.Pieces {
		switch {
		case p.Length <= 0 || p.Width < 0 || p.Count < 0:
			fail(p.At, "bad-length", fmt.Sprintf("piece %s has no size", p.Mark), "a length greater than zero")
		case (p.Width > 0) != job.Sheet():
			fail(p.At, "bad-stock", fmt.Sprintf("piece %s %s, and the stock is %s", p.Mark, oneOf(p.Width > 0, "has a width", "has no width"),
				oneOf(job.Sheet(), "sheets", "bars")), oneOf(job.Sheet(), "length and width of each piece", "lengths alone"))
		}
		count += min(p.Count, mostPieces+1)
	}
	if count > mostPieces {
		fail(stock.At, "too-many", fmt.Sprintf("%d pieces are more than can be cut at once", count), fmt.Sprintf("at most %d", mostPieces))
	}
	return found
}

func oneOf(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// tooLarge reports a piece that no stock is large enough for.
func (s *shop) tooLarge(p Piece) diag.Finding {
	most := ""
	if len(s.sources) > 0 {
		largest := s.sources[0]
		for _, src := range s.sources {
			if material(src.length, src.width) > material(largest.length, largest.width) {
				largest = src
			}
		}
		r := s.room(largest)
		most = fmt.Sprintf("at most %s, the largest of %s once it is trimmed", sizeText(r.length, r.width), s.Stock.ID)
	}
	turned := p
	turned.Turn = true
	message := fmt.Sprintf("%s is %s: no stock is as large", named(p), sizeText(p.Length, p.Width))
	fix := "split the piece, or give a larger size of stock"
	if !p.Turn && s.fits(turned, s.sources) {
		message = fmt.Sprintf("%s is %s: it fits no stock along its grain", named(p), sizeText(p.Length, p.Width))
		fix = "let it lie either way, or give a size of stock that is large enough along the grain"
	}
	return diag.Finding{Level: diag.Stop, Code: "piece-too-large", At: p.At, Where: s.where(p), Message: message, Expected: most, Fix: fix}
}

// named is a piece as findings call it.
func named(p Piece) string {
	if p.Name == "" || p.Name == p.Mark {
		return "piece " + p.Mark
	}
	return fmt.Sprintf("piece %s, %s,", p.Mark, p.Name)
}

func (s *shop) where(p Piece) []string { return slices.Compact(slices.Sorted(slices.Values(p.Where))) }

// sizeText is a size in inches and in millimetres, since stock knows no measure.
func sizeText(length, width measure.Length) string {
	if width == 0 {
		return fmt.Sprintf("%s (%s)", length.Text(measure.Inches), length.Text(measure.Millimetres))
	}
	bare := func(m measure.System) string {
		return strings.TrimSuffix(length.Text(m), " "+m.String()) + " x " + width.Text(m)
	}
	return fmt.Sprintf("%s (%s)", bare(measure.Inches), bare(measure.Millimetres))
}

// beyond reports a job that no way of cutting was found for in good time; nothing
// of it is cut.
func (s *shop) beyond(plan *Plan, pieces []int) diag.Finding {
	for _, i := range pieces {
		plan.Missing[i] = s.Pieces[i].Count
	}
	return diag.Finding{Level: diag.Stop, Code: "cut-too-hard", At: s.Stock.At, Message: fmt.Sprintf("no way of cutting %s was found in good time", s.Stock.ID),
		Expected: "fewer pieces, or fewer sizes", Fix: "cut a part of the pieces first"}
}

// notes says what was decided where the job leaves it open.
func (s *shop) notes() []diag.Finding {
	var found []diag.Finding
	note := func(code, message, fix string) {
		found = append(found, diag.Finding{Level: diag.Note, Code: code, At: s.Stock.At, Message: message, Fix: fix})
	}
	if s.Stock.Kerf == 0 {
		note("no-kerf", fmt.Sprintf("%s is cut with a kerf of zero: a saw takes some", s.Stock.ID), "give the thickness of the saw's cut, such as kerf: 1/8in")
	}
	switch {
	case !s.priced && len(s.Stock.Sizes) > 1: // of one size the least material costs least, whatever it costs
		note("no-price", fmt.Sprintf("not every size of %s has a price: it is cut for the least material instead", s.Stock.ID), "give each size its price")
	case len(s.unpriced) > 0:
		var sizes []string
		for _, i := range s.unpriced {
			sizes = append(sizes, sizeText(s.Stock.Sizes[i].Length, s.Stock.Sizes[i].Width))
		}
		note("no-price", fmt.Sprintf("%s of %s %s no price while others have one, and %s left out", strings.Join(sizes, ", "), s.Stock.ID,
			oneOf(len(sizes) == 1, "has", "have"), oneOf(len(sizes) == 1, "is", "are")), "give each size its price")
	}
	return found
}

// short reports what the stock runs out for, and what would do.
func (s *shop) short(plan *Plan) []diag.Finding {
	if len(plan.ToBuy) == 0 {
		return nil
	}
	var pieces, stock []string
	var where []string
	at := s.Stock.At
	for i, n := range plan.Missing {
		p := s.Pieces[i]
		if n == 0 || !s.fits(p, s.sources) {
			continue
		}
		if len(pieces) == 0 {
			at = p.At
		}
		pieces = append(pieces, fmt.Sprintf("%d of %s", n, named(p)))
		where = append(where, s.where(p)...)
	}
	for _, u := range plan.ToBuy {
		stock = append(stock, fmt.Sprintf("%d of %s", u.Bought, sizeText(u.Length, u.Width)))
	}
	return []diag.Finding{{Level: diag.Stop, Code: "stock-runs-out", At: at, Where: where,
		Message:  fmt.Sprintf("%s runs out: %s cannot be cut", s.Stock.ID, strings.Join(pieces, "; ")),
		Expected: "enough stock for every piece", Fix: "buy " + strings.Join(stock, " and ")}}
}
