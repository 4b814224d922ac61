package main

import (
	"setwright/layout/diag"
	"setwright/layout/unit"
)

func resolveCommand() *command {
	c := &command{
		name: "resolve", args: "PLAN", summary: "print where everything goes, as a table or as JSON",
		least: 1, most: 1, missing: "which plan? give its file, or - for standard input",
		flags: newFlags("resolve"),
		about: `
Reads and resolves a plan and prints the dressed unit: for each row its face,
address, part, slot (counted from the bottom), height from the floor, the
places of its pieces from the face's left edge, and its goods with their
facings. Where the plan leaves fronts open, it tells below how they were
allotted: what each product got, why it got no more, what was left out and why.
Stop findings go to standard error.

With --json the same is written for machines. Every length is a number of
millimetres, exact; every weight a number of kilograms, exact. In a box, x runs
from the face's left edge as its viewer sees it, y from the finished floor, d
out from the panel. DEVELOPERS.md describes every field.`,
		examples: `
setwright resolve spring.yaml
setwright resolve --json spring.yaml > spring.json`,
	}
	asJSON := c.flags.Bool("json", false, "print JSON")
	c.run = func(args []string, s streams) error { return resolve(newSource(args[0]), *asJSON, s) }
	return c
}

func resolve(src source, asJSON bool, s streams) error {
	project, err := src.load(s.in)
	if err != nil {
		return err
	}
	findings := src.findings(project)
	if project.Unit == nil {
		worse(findings, diag.Error).WriteText(s.err)
		return errReported
	}
	if asJSON {
		err = unit.WriteJSON(s.out, project.Unit, project.Fingerprint)
	} else {
		err = unit.WriteTable(s.out, project.Unit)
	}
	if err != nil {
		return plainError("standard output", err)
	}
	worse(findings, diag.Stop).WriteText(s.err)
	return verdict(findings)
}
