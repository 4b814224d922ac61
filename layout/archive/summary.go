package archive

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/plan"
	"setwright/layout/unit"
)

// Summary is what a pack says of its unit in short, so that a folder of packs is
// listed, and its elevations are drawn small, without resolving any plan.
// Lengths are whole nanometres and weights whole milligrams but for drawings,
// which are in tenths of a millimetre. It is not changed once made.
type Summary struct {
	Title    string `json:"title"`
	Season   string `json:"season,omitempty"`
	Revision string `json:"revision,omitempty"`
	Date     string `json:"date,omitempty"` // ISO 8601 day
	By       string `json:"by,omitempty"`
	Measure  string `json:"measure"` // in or mm
	Paper    string `json:"paper"`
	Language string `json:"language"`

	Unit     Bare      `json:"unit"`
	Parts    []Part    `json:"parts"`              // all that is pulled for it, in walking order
	Products []Product `json:"products,omitempty"` // in the order of their first positions
	Findings []Finding `json:"findings,omitempty"` // the graver first, then by code
	Units    int       `json:"units"`              // of goods it holds when full

	Hardware measure.Mass `json:"hardware"` // of frame, stand, panels and all that hangs on them
	Goods    measure.Mass `json:"goods"`    // of every position full

	// Worth is what all its parts would cost; Unpriced is how many things needed
	// it leaves out for want of a price. Both are zero where no price is known.
	Worth    measure.Money `json:"worth,omitempty"`
	Unpriced int           `json:"unpriced,omitempty"`
	Currency string        `json:"currency,omitempty"`

	Faces []Face `json:"faces"` // those that have a panel, in sheet order
}

// Bare is the unit before anything hangs on it.
type Bare struct {
	Name   string         `json:"name,omitempty"` // as the plan calls it
	Frame  string         `json:"frame"`          // a part id, as are the others
	Stand  string         `json:"stand"`
	Panels []Panel        `json:"panels"`
	Width  measure.Length `json:"width"`
	Depth  measure.Length `json:"depth"`
	Height measure.Length `json:"height"`
}

// Panel is what one face is made of.
type Panel struct {
	Face string `json:"face"`
	Part string `json:"part"`
	Bays int    `json:"bays"`
}

// FaceID is the side that it is.
func (p *Panel) FaceID() plan.FaceID { return plan.FaceID(p.Face) }

// Part is how many of a part there are, of one length if it is cut.
type Part struct {
	ID    string         `json:"id"`
	Name  string         `json:"name,omitempty"`
	Group string         `json:"group"` // of the pick list: its stop on the walk
	Cut   measure.Length `json:"cut,omitempty"`
	Count int            `json:"count"`
}

// Product is what is sold and where it stands or hangs.
type Product struct {
	SKU    string   `json:"sku"`
	Name   string   `json:"name"`
	Family string   `json:"family,omitempty"`
	Fronts int      `json:"fronts"`
	At     []string `json:"at"` // addresses, in sheet order
}

// Finding is how often something was found.
type Finding struct {
	Level string `json:"level"` // stop, caution, note
	Code  string `json:"code"`
	Count int    `json:"count"`
}

// Face is one side, to be drawn small: upright boxes from the face's left edge
// and from the floor.
type Face struct {
	Face     string  `json:"face"`
	Width    int     `json:"width"`
	Standing []Box   `json:"standing,omitempty"` // feet and deck
	Panels   []Box   `json:"panels"`             // a bay each
	Hardware []Box   `json:"hardware,omitempty"`
	Goods    []Stock `json:"goods,omitempty"`
}

// Stock is the fronts of one family on a face.
type Stock struct {
	Family string `json:"family,omitempty"`
	Fronts []Box  `json:"fronts"`
}

// Box is left, bottom, right and top, in tenths of a millimetre.
type Box [4]int

// Summarize sums a dressed unit up: what was found about it, and what buying
// its parts would cost, which is empty if nobody knows.
func Summarize(u *unit.Unit, findings []diag.Finding, bought buy.Purchase) Summary {
	p := u.Plan
	counted := list.Summarize(u)
	s := Summary{
		Title: p.Title, Season: p.Season, Revision: p.Revision, Date: p.Date, By: p.By,
		Measure: p.Measure.String(), Paper: p.Paper, Language: p.Language,
		Unit: bare(u), Findings: tally(findings), Units: counted.Units,
		Hardware: counted.Structure + counted.Hardware, Goods: counted.Goods,
	}
	if bought.Priced() {
		s.Worth, s.Unpriced, s.Currency = bought.Worth, bought.Wants, p.Currency
	}
	for _, l := range list.Pick(u) {
		s.Parts = append(s.Parts, Part{l.Part.ID, l.Part.Name, string(l.Group), l.Cut, l.Quantity})
	}
	s.Products = products(u)
	for _, f := range u.Faces {
		s.Faces = append(s.Faces, drawn(u, f))
	}
	return s
}

func bare(u *unit.Unit) Bare {
	b := u.Bare
	made := Bare{Name: u.Plan.Unit.Name, Frame: u.Frame.ID, Stand: u.Stand.ID, Width: b.X1 - b.X0, Depth: b.Y1 - b.Y0, Height: b.Z1 - b.Z0}
	for _, f := range u.Faces {
		made.Panels = append(made.Panels, Panel{string(f.ID), f.Panel.ID, f.Bays})
	}
	return made
}

// tally counts findings of one level and code.
func tally(findings []diag.Finding) []Finding {
	type key struct {
		level diag.Level
		code  string
	}
	var met []key
	count := map[key]int{}
	for _, f := range findings {
		k := key{f.Level, f.Code}
		if count[k]++; count[k] == 1 {
			met = append(met, k)
		}
	}
	slices.SortFunc(met, func(a, b key) int { return cmp.Or(cmp.Compare(b.level, a.level), cmp.Compare(a.code, b.code)) })
	var all []Finding
	for _, k := range met {
		all = append(all, Finding{k.level.String(), k.code, count[k]})
	}
	return all
}

func products(u *unit.Unit) []Product {
	var all []Product
	at := map[string]int{} // index in all, by SKU
	for _, k := range list.Key(u) {
		p := k.Position.Product
		i, met := at[p.SKU]
		if !met {
			i = len(all)
			at[p.SKU] = i
			all = append(all, Product{SKU: p.SKU, Name: p.Name, Family: p.Family})
		}
		all[i].Fronts += len(k.Position.Fronts)
		all[i].At = append(all[i].At, k.Position.Address)
	}
	return all
}

// drawn is a face as its viewer sees it, what is behind first.
func drawn(u *unit.Unit, f *unit.Face) Face {
	d := Face{Face: string(f.ID), Width: tenths(f.Width)}
	for _, s := range u.Structure {
		// Panels of other faces would be seen edge on, or not at all.
		if b := f.Box(s.Solid); s.Face == "" && b.X0 < f.Width && b.X1 > 0 {
			b.X0, b.X1 = max(b.X0, 0), min(b.X1, f.Width)
			d.Standing = append(d.Standing, boxOf(b))
		}
	}
	edges := f.BayEdges()
	for bay := range f.Bays {
		d.Panels = append(d.Panels, boxOf(unit.Box{X0: edges[bay], X1: edges[bay+1], Y0: f.Bottom, Y1: f.Top}))
	}
	for _, row := range f.Rows {
		for _, p := range row.All() {
			d.Hardware = append(d.Hardware, boxOf(p.Box))
		}
		for _, p := range row.Positions {
			d.stock(p)
		}
	}
	return d
}

// stock adds the fronts of a position to those of its family.
func (d *Face) stock(p *unit.Position) {
	i := slices.IndexFunc(d.Goods, func(s Stock) bool { return s.Family == p.Product.Family })
	if i < 0 {
		i = len(d.Goods)
		d.Goods = append(d.Goods, Stock{Family: p.Product.Family})
	}
	for _, front := range p.Fronts {
		d.Goods[i].Fronts = append(d.Goods[i].Fronts, boxOf(front.Box))
	}
}

func boxOf(b unit.Box) Box { return Box{tenths(b.X0), tenths(b.Y0), tenths(b.X1), tenths(b.Y1)} }

// tenths rounds down, so that boxes that touch still do.
func tenths(l measure.Length) int {
	const tenth = measure.Millimetre / 10
	if l < 0 {
		return -int((-l + tenth - 1) / tenth)
	}
	return int(l / tenth)
}

// check refuses a summary that no pack has, so that whatever is drawn and added up
// from it stays bounded.
func (s *Summary) check() error {
	for _, f := range s.Faces {
		if err := f.check(); err != nil {
			return err
		}
	}
	for _, p := range s.Unit.Panels {
		if err := known(p.Face); err != nil || !counts(p.Bays) {
			return cmp.Or(err, errSummary)
		}
	}
	for _, p := range s.Parts {
		if !counts(p.Count) || !spans(p.Cut) {
			return errSummary
		}
	}
	for _, p := range s.Products {
		if !counts(p.Fronts) {
			return errSummary
		}
	}
	for _, f := range s.Findings {
		if !counts(f.Count) {
			return errSummary
		}
	}
	const mostMass, mostMoney = 1 << 50, 1 << 50
	if !counts(s.Units) || !spans(s.Unit.Width) || !spans(s.Unit.Depth) || !spans(s.Unit.Height) || !counts(s.Unpriced) ||
		min(s.Hardware, s.Goods) < 0 || max(s.Hardware, s.Goods) > mostMass || s.Worth < 0 || s.Worth > mostMoney {
		return errSummary
	}
	return nil
}

var errSummary = errors.New("the contents of the pack have a summary that no pack has")

func (f *Face) check() error {
	if err := known(f.Face); err != nil {
		return err
	}
	boxes := slices.Concat(f.Standing, f.Panels, f.Hardware)
	for _, g := range f.Goods {
		boxes = append(boxes, g.Fronts...)
	}
	const mostBoxes = 1 << 17 // ten times what a wall of a hundred bays has
	most := tenths(measure.MaxLength)
	if len(boxes) > mostBoxes {
		return errSummary
	}
	for _, b := range append(boxes, Box{0, 0, f.Width, 0}) {
		if slices.Min(b[:]) < -most || slices.Max(b[:]) > most || b[0] > b[2] || b[1] > b[3] {
			return errSummary
		}
	}
	return nil
}

// known says whether there is a side of that name.
func known(face string) error {
	if slices.Contains(plan.FaceIDs(), plan.FaceID(face)) {
		return nil
	}
	return fmt.Errorf("the contents of the pack tell of a %q face, which no unit has", face)
}

// counts says whether a unit may have so many of anything.
func counts(n int) bool { return n >= 0 && n <= 1<<24 }

// spans says whether anything of a unit may be that long.
func spans(l measure.Length) bool { return l >= 0 && l <= measure.MaxLength }

// Count is how many things of a level were found.
func (s *Summary) Count(level diag.Level) int {
	n := 0
	for _, f := range s.Findings {
		if f.Level == level.String() {
			n += f.Count
		}
	}
	return n
}

// System is what the plan measures in.
func (s *Summary) System() measure.System {
	if s.Measure == measure.Millimetres.String() {
		return measure.Millimetres
	}
	return measure.Inches
}

// FaceID is the side of the unit that it is.
func (f *Face) FaceID() plan.FaceID { return plan.FaceID(f.Face) }
