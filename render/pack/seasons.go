package pack

import (
	"setwright/layout/seasons"
	"setwright/render/draw"
	"setwright/render/sheet"
)

// Seasons lays out a timeline on one sheet.
func Seasons(t *seasons.Timeline, o Options) *sheet.Pack {
	job := draw.NewSeasonsJob(t)
	job.Fingerprint = o.Fingerprint
	return bound([]*draw.Page{job.Strip()}, job.Job, o, job.Words.SeasonsUnder)
}
