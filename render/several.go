package render

import (
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/plan"
	"setwright/layout/seasons"
	"setwright/render/draw"
	"setwright/render/pack"
	"setwright/render/sheet"
)

// Kit lays out the sheets of a kit, in the manner of its first season's plan. A
// stop among all findings marks every sheet "not for construction"; the
// findings about the plans together are printed. Of the options it needs the
// program and the fingerprint.
func Kit(k *kit.Kit, all, together []diag.Finding, o Options) *sheet.Pack {
	return pack.Kit(k, all, together, o)
}

// KitPlan is the plan that a kit's title blocks and workbook name: the first
// season's, with the kit's own title.
func KitPlan(k *kit.Kit) *plan.Plan { return draw.KitPlan(k) }

// Compare lays out options, one at least, side by side, in the manner of the
// first one's plan. The rest is as for Kit.
func Compare(options []kit.Option, all, together []diag.Finding, o Options) *sheet.Pack {
	return pack.Compare(options, all, together, o)
}

// Seasons lays out a timeline of one pack at least on one sheet, in the manner
// of its last pack. Of the options it needs the program and the fingerprint.
func Seasons(t *seasons.Timeline, o Options) *sheet.Pack { return pack.Seasons(t, o) }
