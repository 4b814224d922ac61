package kit

import (
	"fmt"
	"slices"
	"strings"

	"setwright/layout/diag"
	"setwright/layout/parts"
	"setwright/layout/plan"
)

// agree reports where the seasons are not of one unit, of one measure or
// currency, or know different parts under one id. None of it stops a kit.
func agree(seasons []Season) []diag.Finding {
	var found []diag.Finding
	for _, s := range seasons[1:] {
		found = append(found, sameUnit(seasons[0], s)...)
		found = append(found, sameSums(seasons[0], s)...)
	}
	found = append(found, sameParts(seasons)...)
	return append(found, sameSuppliers(seasons)...)
}

// file is a finding's place: the plan as a whole.
func (s *Season) file() diag.Span { return diag.Span{File: s.File} }

// in is a place in a season's plan, named as the user named the plan.
func (s *Season) in(at diag.Span) diag.Span {
	at.File = s.File
	return at
}

// sameUnit compares what the dressings stand on.
func sameUnit(a, b Season) []diag.Finding {
	var differ []string
	tell := func(what, here, there string) {
		if here != there {
			differ = append(differ, fmt.Sprintf("%s %s, not %s", what, there, here))
		}
	}
	tell("the frame is", a.Unit.Frame.ID, b.Unit.Frame.ID)
	tell("the stand is", a.Unit.Stand.ID, b.Unit.Stand.ID)
	for _, id := range plan.FaceIDs() {
		tell(fmt.Sprintf("the %s face has", id), a.panels(id), b.panels(id))
	}
	if differ == nil {
		return nil
	}
	return []diag.Finding{{Level: diag.Caution, Code: "another-unit", At: b.in(b.Unit.Plan.Unit.At),
		Message:  fmt.Sprintf("%s is not of the same unit as %s: %s", b.Name, a.Name, strings.Join(differ, "; ")),
		Expected: "one unit, dressed anew each season: what differs is kept, or bought, like any other part",
		Notes:    []diag.Related{{At: a.in(a.Unit.Plan.Unit.At), Message: "the first unit"}}}}
}

// panels is a face's panels in words.
func (s *Season) panels(id plan.FaceID) string {
	if f := s.Unit.Face(id); f != nil {
		return fmt.Sprintf("%d of %s", f.Bays, f.Panel.ID)
	}
	return "no panel"
}

// sameSums compares how the plans write figures.
func sameSums(a, b Season) []diag.Finding {
	var found []diag.Finding
	p, q := a.Unit.Plan, b.Unit.Plan
	if p.Measure != q.Measure {
		found = append(found, diag.Finding{Level: diag.Note, Code: "another-measure", At: b.file(),
			Message: fmt.Sprintf("bare numbers are %q here and %q in the plan of %s, which the figures follow", q.Measure.String(), p.Measure.String(), a.Name)})
	}
	if p.Currency != "" && q.Currency != "" && p.Currency != q.Currency {
		found = append(found, diag.Finding{Level: diag.Caution, Code: "another-currency", At: b.file(),
			Message:  fmt.Sprintf("prices are in %s, those of %s in %s: they are added up as if they were one currency", q.Currency, a.Name, p.Currency),
			Expected: "one currency for all plans"})
	}
	return found
}

// sameParts compares the parts that the seasons use under one id.
func sameParts(seasons []Season) []diag.Finding {
	var found []diag.Finding
	first := map[string]int{} // the season that a part was first met in
	for t := range seasons {
		for _, p := range used(seasons[t]) {
			s, there := first[p.ID]
			if !there {
				first[p.ID] = t
				continue
			}
			a, b := &seasons[s], &seasons[t]
			old, _ := a.Unit.Parts.Find(p.ID)
			if differ := differences(old, p); differ != nil {
				found = append(found, diag.Finding{Level: diag.Caution, Code: "another-part", At: b.file(),
					Message:  fmt.Sprintf("%s has another %s than in %s", p.ID, strings.Join(differ, ", "), a.Name),
					Expected: "one part under one id and one list of prices for all plans: a kit takes what the first plan says"})
			}
		}
	}
	return found
}

// used lists the parts of a season, each once, in walking order.
func used(s Season) []*parts.Part {
	var list []*parts.Part
	for _, l := range lines([]Season{s}, nil) {
		if !slices.Contains(list, l.Part) {
			list = append(list, l.Part)
		}
	}
	return list
}

// differences names what is not alike about two parts of one id, as far as it
// matters to who buys and stores them.
func differences(a, b *parts.Part) []string {
	var differ []string
	tell := func(what string, same bool) {
		if !same {
			differ = append(differ, what)
		}
	}
	tell("name", a.Name == b.Name)
	tell("kind", a.Kind == b.Kind)
	tell("size", a.Width == b.Width && a.Depth == b.Depth && a.Above == b.Above && a.Below == b.Below && a.Usable == b.Usable)
	tell("weight", a.Weight == b.Weight)
	tell("rating", a.Rated == b.Rated)
	tell("pack", a.Pack == b.Pack)
	tell("supplier", a.Buy.Supplier == b.Buy.Supplier)
	tell("price", slices.Equal(a.Buy.Packs, b.Buy.Packs) && a.Buy.Minimum == b.Buy.Minimum)
	tell("stock to be cut from", sameCut(a.Cut, b.Cut))
	return differ
}

func sameCut(a, b *parts.Cut) bool {
	if a == nil || b == nil {
		return a == b
	}
	x, y := a.From, b.From
	return a.Length == b.Length && a.Grain == b.Grain && x.ID == y.ID && x.Kerf == y.Kerf && x.Trim == y.Trim && x.Keep == y.Keep && x.Grain == y.Grain &&
		slices.EqualFunc(x.Sizes, y.Sizes, func(p, q parts.StockSize) bool {
			return p.Length == q.Length && p.Width == q.Width && p.Buy.Supplier == q.Buy.Supplier && p.Buy.Minimum == q.Buy.Minimum && slices.Equal(p.Buy.Packs, q.Buy.Packs)
		})
}

// sameSuppliers compares the terms of suppliers of one id.
func sameSuppliers(seasons []Season) []diag.Finding {
	var found []diag.Finding
	first := map[string]*Season{}
	for t := range seasons {
		b := &seasons[t]
		for _, s := range b.Unit.Parts.Suppliers() {
			a := first[s.ID]
			if a == nil {
				first[s.ID] = b
				continue
			}
			old, _ := a.Unit.Parts.Supplier(s.ID)
			if old.Name != s.Name || old.Minimum != s.Minimum || old.Freight != s.Freight || old.Free != s.Free || old.Duty != s.Duty {
				found = append(found, diag.Finding{Level: diag.Caution, Code: "another-supplier", At: b.file(),
					Message:  fmt.Sprintf("the supplier %s has another name or other terms than in %s", s.ID, a.Name),
					Expected: "one list of suppliers for all plans: a kit takes what the first plan says"})
			}
		}
	}
	return found
}
