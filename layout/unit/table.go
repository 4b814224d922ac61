package unit

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"setwright/layout/diag"
)

// WriteTable writes the dressed unit for people: a line a row with its slot,
// its height and the places of its pieces, in the plan's measure, and its goods
// with their facings.
func WriteTable(w io.Writer, u *Unit) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "FACE\tROW\tPART\tSLOT\tHEIGHT\tPLACES\tGOODS")
	for _, f := range u.Faces {
		if len(f.Rows) == 0 {
			fmt.Fprintf(t, "%s\t-\t\t\t\t\tnothing hung\n", f.ID)
		}
		for _, r := range f.Rows {
			fmt.Fprintf(t, "%s\t%s\t%s\t%d\t%s\t%s\t%s\n", f.ID, r.Address, r.Part.ID, r.Slot,
				r.Height.Text(u.Plan.Measure), r.places(u), r.goods())
		}
	}
	if err := t.Flush(); err != nil || len(u.Allotted) == 0 {
		return err
	}
	return u.writeAllotted(w)
}

// writeAllotted writes why each product got the fronts it got, where the plan
// leaves them open, and what was left out.
func (u *Unit) writeAllotted(w io.Writer) error {
	for _, a := range u.Allotted {
		fmt.Fprintf(w, "\nfronts allotted on %s for %s: %s\n", strings.Join(a.Addresses(), ", "), a.Aim, a.Standing())
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		fmt.Fprintln(t, "  PLACE\tGOODS\tFRONTS\tUNITS\tDAYS\tWHY NO MORE")
		for _, g := range a.Given {
			p, days := g.Position, "-"
			if p.Days >= 0 {
				days = fmt.Sprint(p.Days)
			}
			fmt.Fprintf(t, "  %s\t%s\t%d\t%d\t%s\t%s\n", p.Address, diag.OneLine(p.Product.SKU), len(p.Fronts), p.Units, days, g.Why)
		}
		for _, out := range a.LeftOut {
			fmt.Fprintf(t, "  left out\t%s\t\t\t\t%s\n", diag.OneLine(out.Product.SKU), out.Why)
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	return nil
}

// Standing says how good the allotment is proven to be.
func (a *Allotted) Standing() string {
	if a.Proven() {
		return "proven best"
	}
	return fmt.Sprintf("within %s of the best", a.GapText())
}

// places are the centre lines of the pieces from the face's left edge; of a row
// on brackets also theirs.
func (r *Row) places(u *Unit) string {
	centres := func(pieces []*Piece) string {
		list := make([]string, len(pieces))
		for i, p := range pieces {
			list[i] = strings.TrimSuffix(p.X.Text(u.Plan.Measure), " "+u.Plan.Measure.String())
		}
		return strings.Join(list, ", ")
	}
	text := centres(r.Pieces)
	if len(r.Brackets) > 0 {
		text += " on " + centres(r.Brackets)
	}
	return text
}

func (r *Row) goods() string {
	list := make([]string, len(r.Positions))
	for i, p := range r.Positions {
		list[i] = fmt.Sprintf("%s x%d", diag.OneLine(p.Product.SKU), len(p.Fronts))
	}
	return strings.Join(list, ", ")
}
