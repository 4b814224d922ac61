package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"setwright/layout"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/render/xlsx"
)

func listsCommand() *command {
	c := &command{
		name: "lists", args: "PLAN", summary: "print pick, cut, restock and buy lists and key, or write CSV or a workbook",
		least: 1, most: 1, missing: "which plan? give its file, or - for standard input",
		flags: newFlags("lists"),
		about: `
Reads and resolves a plan and prints its lists: what to pull from the stockroom
(pick), the same by face and by who builds it (faces) and by what is carried
together (loads), how stock is sawn (cut), what goes into each position (key),
what to bring of each product (restock), and where the plan names stock or
prices, what to order (buy) and what each supplier's order comes to (orders).
--only keeps some of them.

With --csv each is written into a folder as CSV for other programs, with every
column: pick.csv, faces.csv and so on; or one of them to standard output.
Units are in the header; numbers are exact decimals with a point.

With --xlsx they are the sheets of one workbook, ready to be filtered, sorted
and printed, in the plan's language. That is the one for spreadsheets: opening
CSV, many spoil GTINs and accents.

Text that a spreadsheet would run as a formula is made harmless. A file is
written whole or not at all. The lists of a plan with a finding of level stop
are written all the same, and the exit status is 1.`,
		examples: `
setwright lists spring.yaml
setwright lists spring.yaml --csv lists
setwright lists spring.yaml --xlsx spring.xlsx
setwright lists spring.yaml --only restock --csv - > restock.csv`,
	}
	var to listTargets
	c.flags.StringVar(&to.csv, "csv", "", "write the lists as CSV into `DIR`, - for one list to standard output")
	c.flags.StringVar(&to.xlsx, "xlsx", "", "write the lists as one workbook, `FILE`, - for standard output")
	c.flags.StringSliceVar(&to.only, "only", nil, "only these `LISTS`: "+strings.Join(list.Names(), ", "))
	c.run = func(args []string, s streams) error {
		if err := to.check(c); err != nil {
			return err
		}
		return lists(newSource(args[0]), to, s)
	}
	return c
}

// listTargets says which lists go where. Without a folder and a file they are
// printed.
type listTargets struct {
	csv, xlsx string
	only      []string // all if empty
}

// check refuses flags that make no sense.
func (to listTargets) check(c *command) error {
	for _, name := range to.only {
		if !slices.Contains(list.Names(), name) {
			return c.misused("there is no list %q: choose from %s", name, strings.Join(list.Names(), ", "))
		}
	}
	switch {
	case c.flags.Changed("csv") && to.csv == "":
		return c.misused("--csv needs the name of a folder")
	case c.flags.Changed("xlsx") && to.xlsx == "":
		return c.misused("--xlsx needs the name of a file")
	case c.flags.Changed("only") && len(to.only) == 0:
		return c.misused("--only needs the names of lists: %s", strings.Join(list.Names(), ", "))
	case to.csv == "-" && len(to.only) != 1:
		return c.misused("--csv - writes one list: say which with --only")
	case to.csv == "-" && to.xlsx == "-":
		return c.misused("only one of --csv and --xlsx may go to standard output")
	}
	return nil
}

// wants says whether a list is written: one that was asked for, or else any but
// those of a purchase that there is not.
func (to listTargets) wants(t *list.Table) bool {
	if len(to.only) > 0 {
		return slices.Contains(to.only, t.Name)
	}
	return len(t.Rows) > 0 || t.Name != "buy" && t.Name != "orders"
}

func lists(src source, to listTargets, s streams) error {
	project, err := src.load(s.in)
	if err != nil {
		return err
	}
	findings := src.findings(project)
	if project.Unit == nil {
		worse(findings, diag.Error).WriteText(s.err)
		return errReported
	}
	tables := slices.DeleteFunc(list.Tables(project.Unit, project.Cuts, project.Purchase), func(t *list.Table) bool { return !to.wants(t) })
	made, err := to.files(project, tables)
	if err != nil {
		return err
	}
	keep := func(path, flag string) error { return keepInputs(path, "the lists are", flag, src, project.Files) }
	if err := made.check(keep); err != nil {
		return err
	}
	if err := made.write(s.out); err != nil {
		return err
	}
	worse(findings, diag.Stop).WriteText(s.err)
	if !made.toStdout() {
		to.tell(s.out, tables, counted(findings))
	}
	return verdict(findings)
}

// files makes every file before the first is written.
func (to listTargets) files(project *layout.Project, tables []*list.Table) (*outputs, error) {
	o := &outputs{}
	var errs []error
	switch to.csv {
	case "":
	case "-":
		for _, t := range tables {
			errs = append(errs, list.WriteCSV(o.file("-", ""), t))
		}
	default:
		errs = append(errs, o.csv(to.csv, tables))
	}
	if to.xlsx != "" {
		errs = append(errs, xlsx.Write(o.file(to.xlsx, "--xlsx"), project.Plan, tables, xlsx.Options{
			Program: program, Fingerprint: project.Fingerprint, Stopped: project.Findings.Has(diag.Stop),
		}))
	}
	if o.files == nil {
		errs = append(errs, list.WriteText(o.file("-", ""), tables))
	}
	return o, errors.Join(errs...)
}

// tell says which lists went where, and how the plan stands.
func (to listTargets) tell(w io.Writer, tables []*list.Table, findings string) {
	names := make([]string, len(tables))
	for i, t := range tables {
		names[i] = t.Name
	}
	for _, place := range []string{to.csv, to.xlsx} {
		if place != "" {
			fmt.Fprintf(w, "%s: %s, %s\n", place, strings.Join(names, ", "), findings)
		}
	}
}
