package render

import (
	"setwright/layout/diag"
	"setwright/layout/reset"
	"setwright/render/pack"
	"setwright/render/sheet"
)

// ResetOptions are what the pack of a reset needs besides it.
type ResetOptions = pack.ResetOptions

// Reset lays out the sheets by which one dressed unit is made into another, in
// the manner of the new plan. A stop among all findings, of both plans, marks
// every sheet "not for construction"; those about the reset itself are printed.
func Reset(r *reset.Reset, all, together []diag.Finding, o ResetOptions) *sheet.Pack {
	return pack.Reset(r, all, together, o)
}
