package main

import (
	"bytes"
	"io"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
	"setwright/render/svg"
)

// pack is what the pipeline makes of a plan.
type pack struct {
	project  *layout.Project
	findings *diag.List // named as the user names files
	drawn    *sheet.Pack
	pdf      []byte
	svgs     [][]byte // one a sheet, if wanted
}

// build is the whole pipeline: plan file, declared plan, dressed unit and
// findings (layout.Load), sheets (render.Pack), what they are made from
// (record), PDF and SVG. Bad input leaves the pack without sheets; its findings
// say why. Nothing is written here.
func build(src source, in io.Reader, wantSVG bool) (*pack, error) {
	p, err := draw(src, in)
	if err != nil || p.drawn == nil {
		return p, err
	}
	var file bytes.Buffer
	if err := pdf.Write(&file, p.drawn); err != nil {
		return nil, err
	}
	p.pdf = file.Bytes()
	for _, s := range p.drawn.Sheets {
		if !wantSVG {
			break
		}
		var file bytes.Buffer
		if err := svg.Write(&file, s); err != nil {
			return nil, err
		}
		p.svgs = append(p.svgs, file.Bytes())
	}
	return p, nil
}

// draw goes as far as the sheets and what is attached to them.
func draw(src source, in io.Reader) (*pack, error) {
	project, err := src.load(in)
	if err != nil {
		return nil, err
	}
	p := &pack{project: project, findings: src.findings(project)}
	if project.Unit == nil {
		return p, nil
	}
	p.drawn, err = render.Pack(project.Unit, project.Findings.All(), render.Options{
		Program:     src.program(),
		Fingerprint: project.Fingerprint,
		Images:      project.Image,
		Report:      project.Report,
		Cuts:        project.Cuts,
		Purchase:    project.Purchase,
	})
	if err != nil {
		return nil, err
	}
	made := record{command: sheetsName, fingerprint: project.Fingerprint, summary: true}
	made.add(src, project.Files[0], "", project)
	made.attach(p.drawn)
	return p, nil
}
