package pack

import (
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/reset"
	"setwright/render/draw"
	"setwright/render/sheet"
)

// ResetOptions are what the pack of a reset needs besides: the fingerprints of
// both plans, and its tables.
type ResetOptions struct {
	Options
	OldMark, NewMark string
	Lists            []*list.Table
}

// Reset lays out the sheets of a reset, in the manner of the new plan: summary,
// what changes on each face, steps, what goes back to stock, what comes, goods
// by SKU, and the new position key. A stop among all findings marks every
// sheet; those about the reset itself are printed. Where nothing changes there
// is the summary alone.
func Reset(r *reset.Reset, all, together []diag.Finding, o ResetOptions) *sheet.Pack {
	job := draw.NewResetJob(r, all, together)
	job.Fingerprint, job.Cuts, job.Purchase = o.Fingerprint, o.Cuts, o.Purchase
	job.OldMark, job.NewMark = o.OldMark, o.NewMark
	job.Lists = o.Lists
	rest := job.Sheets()
	return bound(append(job.Cover(rest), rest...), job.Job, o.Options, job.Words.ResetUnder)
}
