package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"setwright/layout/diag"
)

func sheetsCommand() *command {
	c := &command{
		name: "sheets", args: "PLAN", summary: "write the pack: every sheet as one PDF",
		least: 1, most: 1, missing: "which plan? give its file, or - for standard input",
		flags: newFlags("sheets"),
		about: `
Reads a plan, works out where every part and product goes, and writes the pack:
cover, unit build sheet, elevations of every face, pick list, the same by face
and by load, position key with barcodes, restock list, tags if the plan asks for
them, findings and sign-off.

Without -o the pack lands beside the plan under the plan's name with .pdf; a
plan from standard input goes to standard output, and the files it names are
read from the current folder. A file is written whole or not at all.

A plan with a finding of level stop is still drawn, each sheet marked "not for
construction", and the exit status is 1.`,
		examples: `
setwright sheets spring.yaml
setwright sheets spring.yaml -o pack.pdf
setwright sheets spring.yaml --svg drawings
setwright sheets - < spring.yaml > pack.pdf`,
	}
	out := c.flags.StringP("output", "o", "", "write the pack to `FILE`, - for standard output")
	svgDir := c.flags.String("svg", "", "also write each sheet as SVG into `DIR`")
	c.run = func(args []string, s streams) error {
		if c.flags.Changed("svg") && *svgDir == "" {
			return c.misused("--svg needs the name of a folder")
		}
		if c.flags.Changed("output") && *out == "" {
			return c.misused("-o needs the name of a file")
		}
		return sheets(newSource(args[0]), *out, *svgDir, s)
	}
	return c
}

func sheets(src source, out, svgDir string, s streams) error {
	if out == "" {
		out = besidePlan(src.path)
	}
	p, err := build(src, s.in, svgDir != "")
	if err != nil {
		return err
	}
	if p.project.Unit == nil {
		worse(p.findings, diag.Error).WriteText(s.err)
		return errReported
	}
	if err := keepInputs(out, "the pack is", "-o", src, p.project.Files); err != nil {
		return err
	}
	if svgDir != "" {
		if err := writeSVGs(svgDir, p); err != nil {
			return err
		}
	}
	if out == "-" {
		if _, err := s.out.Write(p.pdf); err != nil {
			return plainError("standard output", err)
		}
	} else if err := writeFile(out, p.pdf); err != nil {
		return err
	}
	worse(p.findings, diag.Stop).WriteText(s.err)
	if out != "-" {
		fmt.Fprintf(s.out, "%s: %d sheets, %s\n", out, len(p.drawn.Sheets), counted(p.findings))
	}
	return verdict(p.findings)
}

// besidePlan is where the pack goes unless told otherwise.
func besidePlan(plan string) string {
	if plan == "-" {
		return "-"
	}
	return strings.TrimSuffix(plan, filepath.Ext(plan)) + ".pdf"
}

// keepInputs refuses to write over a file that the result is made from; flag is
// the one that names the result.
func keepInputs(out, result, flag string, src source, files []string) error {
	target, err := os.Stat(out)
	if err != nil {
		return nil // nothing there yet
	}
	if src.pack {
		files = []string{filepath.Base(src.path)}
	}
	for _, name := range files {
		path := filepath.Join(src.dir, filepath.FromSlash(name))
		if info, err := os.Stat(path); err == nil && os.SameFile(info, target) {
			return fmt.Errorf("%s: %s made from this file and may not replace it; name another with %s", out, result, flag)
		}
	}
	return nil
}

func writeSVGs(dir string, p *pack) error {
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return plainError(dir, err)
	}
	for i, sheet := range p.drawn.Sheets {
		if err := writeFile(filepath.Join(dir, sheet.Name+".svg"), p.svgs[i]); err != nil {
			return err
		}
	}
	return nil
}
