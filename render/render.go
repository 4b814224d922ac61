// Package render turns a dressed unit into sheets. It is the public face of
// the rooms under it: draw lays the sheets out, pack orders and numbers them;
// pdf and svg, its siblings, write them out.
package render

import (
	"fmt"

	"setwright/layout/diag"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
	"setwright/render/pack"
	"setwright/render/sheet"
)

// Options are what a pack needs besides the unit: the program's name and
// version, the plan's fingerprint, the product pictures.
type Options = pack.Options

// Pack lays out all sheets of a dressed unit. A finding of level stop marks
// every sheet "not for construction". It fails only for a unit that is not
// whole.
func Pack(u *unit.Unit, findings []diag.Finding, o Options) (*sheet.Pack, error) {
	if u == nil || u.Plan == nil || u.Frame == nil || u.Stand == nil {
		return nil, fmt.Errorf("render: the unit is not whole")
	}
	return pack.Build(u, findings, o), nil
}

// CutPack lays out the cut list alone, for what is cut without a unit. Head says
// how its sheets are to look.
func CutPack(head *plan.Plan, cuts []saw.Plan, o Options) *sheet.Pack {
	return pack.Cut(head, cuts, o)
}
