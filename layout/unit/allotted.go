package unit

import (
	"fmt"
	"slices"

	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
	"setwright/layout/plan"
)

// Allotted is how the fronts that the plan leaves open were given out: among
// the rows of one fill, or in one row that lists its goods without numbers.
type Allotted struct {
	At   diag.Span
	Aim  plan.Aim
	Face *Face
	Rows []*Row // in sheet order

	// Value is what the allotment is worth by its aim, in points of no other
	// meaning; no allotment is worth more than Bound.
	Value, Bound int64
	// Wires is set if the best by widths alone would not hang between the wires,
	// holes or seams of a panel: Bound is the worth of that.
	Wires bool

	Given   []Given   // in the order of rows and places
	LeftOut []LeftOut // in the order of the goods files
}

// Given is one position of an allotment, and why it got what it got.
type Given struct {
	Position *Position
	Why      string
}

// LeftOut is a product that a fill found no place for.
type LeftOut struct {
	Product *goods.Product
	Why     string
}

// Addresses are those of the rows, F-2, in sheet order.
func (a *Allotted) Addresses() []string {
	list := make([]string, len(a.Rows))
	for i, row := range a.Rows {
		list[i] = row.Address
	}
	return list
}

// Proven reports whether no other allotment is worth more.
func (a *Allotted) Proven() bool { return a.Value >= a.Bound }

// Gap is how much more than Value the best allotment may be worth at the most,
// in hundredths of a percent of Bound, rounded up.
func (a *Allotted) Gap() int {
	if a.Proven() || a.Bound <= 0 {
		return 0
	}
	return int(((a.Bound-a.Value)*10_000 + a.Bound - 1) / a.Bound)
}

// GapText is Gap for people: 0.25 %.
func (a *Allotted) GapText() string { return fmt.Sprintf("%d.%02d %%", a.Gap()/100, a.Gap()%100) }

// allotted tells of every filling of the unit, once all its rows are dressed and
// numbered. A mirrored face has an account of its own.
func (r *resolver) allotted(u *Unit) []*Allotted {
	var list []*Allotted
	for _, f := range u.Faces {
		at := make(map[*filling]*Allotted)
		for _, row := range f.Rows {
			d := r.draftOf(f, row)
			if d.filling == nil || !d.filling.ran {
				continue
			}
			a := at[d.filling]
			if a == nil {
				a = &Allotted{At: d.filling.at, Aim: d.filling.aim, Face: f, Value: d.filling.value, Bound: d.filling.bound, Wires: d.filling.tightened, LeftOut: r.leftOut(d.filling)}
				at[d.filling] = a
				list = append(list, a)
			}
			a.Rows = append(a.Rows, row)
			for _, pos := range row.Positions {
				a.Given = append(a.Given, Given{pos, r.whyGiven(d, pos)})
			}
		}
	}
	for _, a := range list {
		r.reportAllotted(a)
	}
	return list
}

func (r *resolver) draftOf(f *Face, row *Row) *draft {
	drafts := r.drafted[f.ID]
	return drafts[slices.IndexFunc(drafts, func(d *draft) bool { return d.row == row })]
}

// choiceOf is a product's choice in a filling.
func (fill *filling) choiceOf(p *goods.Product) (c *choice, chosen *option) {
	for i, c := range fill.choices {
		if c.product == p && fill.chosen[i] >= 0 {
			return c, &c.options[fill.chosen[i]]
		}
	}
	return nil, nil
}

// free is the room and the load that the filling leaves in a bin.
func (fill *filling) free(index int) (room, load int64) {
	room, load = fill.bins[index].room, fill.bins[index].load
	for i, c := range fill.choices {
		if n := fill.chosen[i]; n >= 0 && c.options[n].index == index {
			o := &c.options[n]
			room -= o.bin.width(c.product, o.fronts)
			load -= o.bin.weight(c.product, o.fronts, o.units)
		}
	}
	return room, load
}

// whyGiven says why a position has no front more.
func (r *resolver) whyGiven(d *draft, pos *Position) string {
	c, o := d.filling.choiceOf(pos.Product)
	if o == nil {
		return ""
	}
	room, load := d.filling.free(o.index)
	width := o.bin.width(c.product, o.fronts+1) - o.bin.width(c.product, o.fronts)
	weight := o.bin.weight(c.product, o.fronts+1, o.units) - o.bin.weight(c.product, o.fronts, o.units)
	switch {
	case len(pos.Fronts) < o.fronts:
		return "one less than allotted, to keep off the grips behind"
	case d.isSectioned(c.product):
		return "an even share of the part"
	case c.product.Max > 0 && o.fronts >= c.product.Max:
		return fmt.Sprintf("its most is %d", c.product.Max)
	case width > room && o.bin.counted():
		return "no place is free in the row"
	case width > room:
		return fmt.Sprintf("one more takes %s, %s is free", r.text(measure.Length(width)), r.text(max(0, measure.Length(room))))
	case o.bin.load > 0 && weight > load && single(d.part.Kind):
		return fmt.Sprintf("all %s are taken", counted(d.decl.Count, "piece"))
	case o.bin.load > 0 && weight > load:
		return fmt.Sprintf("one more weighs %s, %s is left of what the part and its brackets carry",
			measure.Mass(weight).Text(r.plan.Measure), measure.Mass(max(0, load)).Text(r.plan.Measure))
	default:
		return "one more is worth nothing to the aim"
	}
}

// leftOut lists what a fill found no place for.
func (r *resolver) leftOut(fill *filling) []LeftOut {
	var list []LeftOut
	for i, c := range fill.choices {
		if fill.chosen[i] < 0 {
			list = append(list, LeftOut{c.product, r.whyNot(fill, c)})
		}
	}
	return list
}

// whyNot says why a product was given no front.
func (r *resolver) whyNot(fill *filling, c *choice) string {
	if len(c.options) == 0 {
		return c.why
	}
	worthless := true
	fits := false
	most := int64(0)
	var need int64
	var counts bool
	for i := range c.options {
		o := &c.options[i]
		worthless = worthless && o.value == 0
		if o.fronts > c.least {
			continue
		}
		room, load := fill.free(o.index)
		need, counts = o.bin.width(c.product, o.fronts), o.bin.counted()
		most = max(most, room)
		fits = fits || need <= room && (o.bin.load == 0 || o.bin.weight(c.product, o.fronts, o.units) <= load)
	}
	switch {
	case worthless && fill.aim == plan.Profit:
		return "price, cost or weekly sales are missing, so that it earns nothing"
	case fits:
		return "the order of the fill, or what is lighter and smaller over it, leaves it no row"
	case counts:
		return fmt.Sprintf("no place is left for %s of it", counted(c.least, "front"))
	default:
		return fmt.Sprintf("its %s take %s, and no row that takes it has more than %s left: what stands there is worth more to the aim",
			counted(c.least, "front"), r.text(measure.Length(need)), r.text(max(0, measure.Length(most))))
	}
}

// reportAllotted notes what was left out, and an allotment that is not proven.
func (r *resolver) reportAllotted(a *Allotted) {
	for _, out := range a.LeftOut {
		r.findings.Add(diag.Finding{Level: diag.Note, Code: "left-out", At: a.At,
			Message: fmt.Sprintf("%s is left out of the fill: %s", out.Product.SKU, out.Why)})
	}
	switch {
	case a.Proven():
	case a.Wires:
		r.findings.Add(diag.Finding{Level: diag.Note, Code: "not-proven", At: a.At,
			Message: fmt.Sprintf("the fronts that would be best by their widths alone find no places on the panel; those that do are within %s of them", a.GapText())})
	default:
		r.findings.Add(diag.Finding{Level: diag.Note, Code: "not-proven", At: a.At,
			Message: fmt.Sprintf("the fronts are within %s of the best there can be; the search stopped before it was proven", a.GapText()),
			Fix:     fmt.Sprintf("aim: {for: %s, seconds: %d}", a.Aim, r.plan.AimSeconds*4)})
	}
}
