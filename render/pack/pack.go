// Package pack decides which sheets a reader gets, in what order, numbers
// them and links them.
package pack

import (
	"setwright/layout/buy"
	"setwright/layout/check"
	"setwright/layout/diag"
	"setwright/layout/picture"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/layout/unit"
	"setwright/render/draw"
	"setwright/render/sheet"
)

// Options are what a pack needs besides the unit.
type Options struct {
	Program     string // name and version, for the document's properties
	Fingerprint string // of the plan and its files, printed on each sheet

	// Images returns a product's picture by its path from the plan's folder, or
	// nil. It may be nil.
	Images func(path string) *picture.Picture

	// Report is what the checks say of the unit; its findings are among those
	// the pack is built with. Without an assessment there is no statics sheet.
	Report check.Report

	// Cuts is how the parts that are cut are sawn from their stock.
	Cuts []saw.Plan
	// Purchase is what to buy for the unit; there is no buy list if it is empty.
	Purchase buy.Purchase
}

// Build lays out the whole pack. A finding of level stop marks every sheet
// "not for construction".
func Build(u *unit.Unit, findings []diag.Finding, o Options) *sheet.Pack {
	job := draw.NewJob(u, findings, o.Report)
	job.Fingerprint, job.Image, job.Cuts, job.Purchase = o.Fingerprint, o.Images, o.Cuts, o.Purchase
	pages := ordered(job)
	p := &sheet.Pack{
		Title: u.Plan.Title, Author: u.Plan.By, Subject: subject(u, job), Keywords: o.Fingerprint,
		Language: job.Words.Tag, Creator: o.Program, Date: u.Plan.Date,
	}
	for i, page := range pages {
		page.Finish(i+1, len(pages))
		p.Sheets = append(p.Sheets, page.Sheet)
	}
	develop(p.Sheets, o.Images)
	return p
}

// Cut lays out the sheets of a cut list that belongs to no unit.
func Cut(head *plan.Plan, cuts []saw.Plan, o Options) *sheet.Pack {
	job := draw.NewCutJob(head, cuts)
	job.Fingerprint = o.Fingerprint
	pages := job.CutList()
	p := &sheet.Pack{Title: head.Title, Author: head.By, Keywords: o.Fingerprint, Language: job.Words.Tag, Creator: o.Program}
	for i, page := range pages {
		page.Finish(i+1, len(pages))
		p.Sheets = append(p.Sheets, page.Sheet)
	}
	return p
}

// ordered is the pages in reading order: what the crew builds first comes
// first, each face's hardware before its goods.
func ordered(job *draw.Job) []*draw.Page {
	rest := job.Build()
	for _, f := range job.Faces() {
		rest = append(rest, job.Hardware(f)...)
		rest = append(rest, job.Merchandise(f)...)
	}
	rest = append(rest, job.PickList()...)
	rest = append(rest, job.PickByFace()...)
	rest = append(rest, job.Loads()...)
	rest = append(rest, job.CutList()...)
	rest = append(rest, job.BuyList()...)
	rest = append(rest, job.PositionKey()...)
	rest = append(rest, job.KeyIndex()...)
	rest = append(rest, job.Restock()...)
	rest = append(rest, job.Tags()...)
	rest = append(rest, job.FindingsList()...)
	rest = append(rest, job.Statics()...)
	rest = append(rest, job.SignOff()...)
	return append(job.Cover(rest), rest...)
}

// subject is the document's subject: what it is for, and for when.
func subject(u *unit.Unit, job *draw.Job) string {
	if u.Plan.Season == "" {
		return job.Words.CoverUnder
	}
	return u.Plan.Season + ". " + job.Words.CoverUnder
}
