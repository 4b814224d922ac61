package main

import (
	"errors"

	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/list"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
	"setwright/render/xlsx"
)

func kitCommand() *command {
	c := &command{
		name: "kit", args: "PLAN...", summary: "plan one unit over several seasons: what to own, buy and keep",
		least: 1, most: mostPlans, missing: "which plans? give their files in the order of the seasons",
		flags: newFlags("kit"),
		about: `
Reads the plans of one unit in the order of their seasons and works out which
parts to own so that each can be built in its turn: the most that any season
needs at once, not the sum. Prints four tables: the seasons with their cost
(seasons), parts by season (kit), what to buy before each season (buy) and what
lies idle when (idle).

--parts lays one more parts list over those of every plan: prices, packs and
suppliers of the house. --stock says what is on hand before the first season;
without it the plans' own stock files do.

With -o the kit is drawn, on the paper and in the language of the first plan: a
summary, a chart of part by season, an order for each season and supplier, what
lies idle. With --csv each table is written into a folder, with --xlsx all are
the sheets of one workbook. A file is written whole or not at all; if any plan
has an error, all errors are told and nothing is written.`,
		examples: `
setwright kit spring.yaml summer.yaml autumn.yaml
setwright kit spring.yaml summer.yaml -o year.pdf
setwright kit spring.yaml summer.yaml --parts prices.yaml --stock stock.csv
setwright kit spring.yaml summer.yaml --csv year`,
	}
	var to kitTargets
	c.flags.StringVarP(&to.pdf, "output", "o", "", "write the sheets to `FILE`, - for standard output")
	to.house.bind(c)
	c.flags.StringVar(&to.csv, "csv", "", "write the tables as CSV into `DIR`")
	c.flags.StringVar(&to.xlsx, "xlsx", "", "write the tables as one workbook, `FILE`, - for standard output")
	c.run = func(args []string, s streams) error {
		switch err := named(c, "output", "parts", "stock", "csv", "xlsx"); {
		case err != nil:
			return err
		case to.pdf == "-" && to.xlsx == "-":
			return c.misused("only one of -o and --xlsx may go to standard output")
		case to.csv == "-":
			return c.misused("--csv writes four tables: name a folder")
		}
		return makeKit(args, to, s)
	}
	return c
}

// kitTargets says where a kit goes. Without any of them it is printed.
type kitTargets struct {
	pdf, csv, xlsx string
	house          house
}

func makeKit(paths []string, to kitTargets, s streams) error {
	all, err := readSeveral(paths, to.house, kit.Named, s.in)
	if err != nil {
		return err
	}
	if all.seasons == nil {
		return all.refuse(s)
	}
	year, found := kit.Make(all.seasons, all.hand)
	all.add(found)
	made, err := to.files(all, year)
	if err != nil {
		return err
	}
	return all.write(made, "the kit is", s)
}

// files makes every file before the first is written.
func (to kitTargets) files(all *several, year *kit.Kit) (*outputs, error) {
	o := &outputs{}
	var errs []error
	tables := kit.Tables(year)
	if to.csv != "" {
		errs = append(errs, o.csv(to.csv, tables))
	}
	if to.xlsx != "" {
		errs = append(errs, xlsx.Write(o.file(to.xlsx, "--xlsx"), render.KitPlan(year), tables, xlsx.Options{
			Program: program, Fingerprint: all.mark, Stopped: all.findings.Has(diag.Stop),
		}))
	}
	if to.pdf != "" {
		errs = append(errs, pdf.Write(o.file(to.pdf, "-o"), all.kitSheets(year)))
	}
	if o.files == nil {
		errs = append(errs, list.WriteText(o.file("-", ""), tables))
	}
	return o, errors.Join(errs...)
}

// kitSheets are the sheets of a kit, with what they are made from.
func (all *several) kitSheets(year *kit.Kit) *sheet.Pack {
	made := all.record(kitName)
	drawn := render.Kit(year, all.findings.All(), all.together, render.Options{Program: made.program, Fingerprint: all.mark})
	made.attach(drawn)
	return drawn
}
