package main

import (
	"fmt"
	"io"

	"setwright/layout/diag"
)

func checkCommand() *command {
	c := &command{
		name: "check", args: "PLAN", summary: "say what is wrong with a plan",
		least: 1, most: 1, missing: "which plan? give its file, or - for standard input",
		flags: newFlags("check"),
		about: `
Reads and resolves a plan and prints its findings: errors (the plan cannot be
read; on standard error), stops (it cannot be built, or is unsafe), cautions
and notes, each with its place in the file.

With --json every finding, errors too, goes to standard output as one JSON
array of {level, code, at: {file, line, column, length}, message, expected, fix,
source, where, notes: [{at, message}]}; what does not apply is left out.

Exit status: 0 no errors or stops, 1 a stop, 2 errors.`,
		examples: `
setwright check spring.yaml
setwright check --json spring.yaml
setwright check - < spring.yaml`,
	}
	asJSON := c.flags.Bool("json", false, "print the findings as JSON")
	c.run = func(args []string, s streams) error { return checkPlan(newSource(args[0]), *asJSON, s) }
	return c
}

func checkPlan(src source, asJSON bool, s streams) error {
	project, err := src.load(s.in)
	if err != nil {
		return err
	}
	findings := src.findings(project)
	if asJSON {
		if err := findings.WriteJSON(s.out); err != nil {
			return plainError("standard output", err)
		}
		return verdict(findings)
	}
	return tellFindings(findings, src.path, s.out, s.err)
}

// tellFindings prints bad input to one writer, or all else to the other.
func tellFindings(findings *diag.List, path string, out, errs io.Writer) error {
	if findings.Count(diag.Error) > 0 {
		worse(findings, diag.Error).WriteText(errs)
		return errReported
	}
	findings.WriteText(out)
	fmt.Fprintf(out, "%s: %s\n", path, counted(findings))
	return verdict(findings)
}
