package main

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/list"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

func compareCommand() *command {
	c := &command{
		name: "compare", args: "PLAN...", summary: "set options for one unit side by side",
		least: 1, most: mostPlans, missing: "which plans? give the files of the options",
		flags: newFlags("compare"),
		about: `
Reads several plans and sets them side by side: parts, cost, weight, shelf and
rail end to end, hooks, positions, products, units held, setup time, findings.
Setup minutes are estimates, from the seconds a part that the parts lists give
or, where they are silent, from a house rule by kind of part.

--parts lays one more parts list over those of every plan: prices, say, and
setup times. --stock says what is on hand; without it the plans' own stock files
do. What is to be bought is worked out for each option by itself.

With -o the options are drawn, all to one scale, on the paper and in the language
of the first plan. With --csv the figures are written as CSV, a line an option.
If any plan has an error, all errors are told and nothing is written.`,
		examples: `
setwright compare hooks.yaml shelves.yaml
setwright compare hooks.yaml shelves.yaml -o options.pdf
setwright compare hooks.yaml shelves.yaml --parts prices.yaml --csv options.csv`,
	}
	var to compareTargets
	c.flags.StringVarP(&to.pdf, "output", "o", "", "write the sheets to `FILE`, - for standard output")
	to.house.bind(c)
	c.flags.StringVar(&to.csv, "csv", "", "write the figures as CSV to `FILE`, - for standard output")
	c.run = func(args []string, s streams) error {
		switch err := named(c, "output", "parts", "stock", "csv"); {
		case err != nil:
			return err
		case to.pdf == "-" && to.csv == "-":
			return c.misused("only one of -o and --csv may go to standard output")
		}
		return compare(args, to, s)
	}
	return c
}

// compareTargets says where a comparison goes. Without any of them it is
// printed.
type compareTargets struct {
	pdf, csv string
	house    house
}

func compare(paths []string, to compareTargets, s streams) error {
	all, err := readSeveral(paths, to.house, kit.Titled, s.in)
	if err != nil {
		return err
	}
	if all.seasons == nil {
		return all.refuse(s)
	}
	options, found := kit.Options(all.seasons, all.hand, all.own)
	all.add(found)
	made, err := to.files(all, options)
	if err != nil {
		return err
	}
	return all.write(made, "the comparison is", s)
}

// files makes every file before the first is written.
func (to compareTargets) files(all *several, options []kit.Option) (*outputs, error) {
	o := &outputs{}
	var errs []error
	table := kit.Compared(options)
	if to.csv != "" {
		errs = append(errs, list.WriteCSV(o.file(to.csv, "--csv"), table))
	}
	if to.pdf != "" {
		errs = append(errs, pdf.Write(o.file(to.pdf, "-o"), all.optionSheets(options)))
	}
	if o.files == nil {
		errs = append(errs, writeAcross(o.file("-", ""), table))
	}
	return o, errors.Join(errs...)
}

// optionSheets are the sheets of a comparison, with what they are made from.
func (all *several) optionSheets(options []kit.Option) *sheet.Pack {
	made := all.record(compareName)
	drawn := render.Compare(options, all.findings.All(), all.together, render.Options{Program: made.program, Fingerprint: all.mark})
	made.attach(drawn)
	return drawn
}

// writeAcross writes a table for people with its rows as columns.
func writeAcross(w io.Writer, t *list.Table) error {
	out := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for i, c := range t.Columns {
		name := strings.ToUpper(c.Name)
		if unit := t.Unit(c); unit != "" {
			name += " (" + unit + ")"
		}
		cells := []string{name}
		for _, row := range t.Rows {
			cells = append(cells, diag.OneLine(t.Figure(row[i])))
		}
		fmt.Fprintln(out, strings.TrimRight(strings.Join(cells, "\t"), "\t"))
	}
	return out.Flush()
}
