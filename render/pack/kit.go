package pack

import (
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/render/draw"
	"setwright/render/sheet"
)

// Kit lays out the sheets of a kit: summary, chart of part by season, orders
// and cuts before each season, what lies idle. A stop among all findings marks
// every sheet; those about the plans together are printed.
func Kit(k *kit.Kit, all, together []diag.Finding, o Options) *sheet.Pack {
	job := draw.NewKitJob(k, all, together)
	job.Fingerprint = o.Fingerprint
	pages := job.Summary()
	pages = append(pages, job.Chart()...)
	pages = append(pages, job.Changes()...)
	pages = append(pages, job.Idle()...)
	return bound(pages, job.Job, o, job.Words.KitUnder)
}

// Compare lays out options side by side. Findings are as for Kit.
func Compare(options []kit.Option, all, together []diag.Finding, o Options) *sheet.Pack {
	job := draw.NewCompareJob(options, all, together)
	job.Fingerprint = o.Fingerprint
	return bound(job.Pages(), job.Job, o, job.Words.OptionsUnder)
}

// bound numbers pages and binds them.
func bound(pages []*draw.Page, job *draw.Job, o Options, subject string) *sheet.Pack {
	pl := job.Unit.Plan
	p := &sheet.Pack{
		Title: pl.Title, Author: pl.By, Subject: subject, Keywords: o.Fingerprint,
		Language: job.Words.Tag, Creator: o.Program, Date: pl.Date,
	}
	for i, page := range pages {
		page.Finish(i+1, len(pages))
		p.Sheets = append(p.Sheets, page.Sheet)
	}
	return p
}
