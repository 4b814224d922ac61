package main

import (
	"errors"
	"fmt"
	"slices"

	"setwright/layout/buy"
	"setwright/layout/diag"
	"setwright/layout/kit"
	"setwright/layout/list"
	"setwright/layout/plan"
	"setwright/layout/reset"
	"setwright/layout/saw"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

func resetCommand() *command {
	c := &command{
		name: "reset", args: "OLD NEW", summary: "change the unit that stands into the next, step by step",
		least: 2, most: 2, missing: "which plans? give the one that stands and the one that is to stand",
		flags: newFlags("reset"),
		about: `
Reads two plans of one unit and works out how to make the second of the first
overnight: which pieces and facings stay, move, come from stock and go back,
with the least handling, in an order that can be carried out and keeps the unit
standing safely after every step; where no order does, the step says so. Prints
the steps (steps), what goes back to stock (pull), what is fetched (pick), what
must be bought (buy), goods by SKU (goods) and, if anything is cut to length, how
(cut). Times are estimates, by house rule.

Plans of different units are refused, with what differs; --rebuild then takes
everything down, changes the bare unit and hangs all anew.

--parts lays one more parts list over those of both plans. --stock says what is
on hand besides what hangs on the unit; without it the plans' own stock files do.

With -o the reset is drawn, on the paper and in the language of NEW: a summary,
elevations of every face that changes, the step list to tick off, pull sheet, net
pick list, goods moves, the new position key. With --csv each table is written
into a folder. No file is replaced without --force; if a plan has an error, all
errors are told and nothing is written.`,
		examples: `
setwright reset spring.yaml summer.yaml
setwright reset spring.yaml summer.yaml -o reset.pdf
setwright reset spring.pdf summer.yaml -o reset.pdf --csv reset
setwright reset spring.yaml wall.yaml --rebuild`,
	}
	var to resetTargets
	c.flags.StringVarP(&to.pdf, "output", "o", "", "write the sheets to `FILE`, - for standard output")
	to.house.bind(c)
	c.flags.StringVar(&to.csv, "csv", "", "write the tables as CSV into `DIR`")
	c.flags.BoolVar(&to.rebuild, "rebuild", false, "take all down and hang all anew, even on another bare unit")
	c.flags.BoolVar(&to.force, "force", false, "replace files that are there already")
	c.run = func(args []string, s streams) error {
		switch err := named(c, "output", "parts", "stock", "csv"); {
		case err != nil:
			return err
		case to.csv == "-":
			return c.misused("--csv writes several tables: name a folder")
		}
		return makeReset(args, to, s)
	}
	return c
}

// resetTargets says where a reset goes. Without pdf or csv it is printed.
type resetTargets struct {
	pdf, csv       string
	house          house
	rebuild, force bool
}

func makeReset(paths []string, to resetTargets, s streams) error {
	all, err := readSeveral(paths, to.house, kit.Titled, s.in)
	if err != nil {
		return err
	}
	if all.seasons == nil {
		return all.refuse(s)
	}
	n := all.night(to.rebuild)
	if n == nil {
		return all.refuse(s)
	}
	made, err := to.files(all, n)
	if err != nil {
		return err
	}
	if err := made.careful(to.force); err != nil {
		return err
	}
	return all.write(made, "the reset is", s)
}

// night is a reset with what has to be cut and bought for it, and all of that as
// tables.
type night struct {
	*reset.Reset
	cuts   []saw.Plan
	bought buy.Purchase
	tables []*list.Table
}

// night makes the reset from the first of two plans to the second. If they are of
// different units, and nothing is to be built anew, there is none: findings say
// what differs.
func (all *several) night(rebuild bool) *night {
	n := &night{Reset: reset.Make(all.seasons[0].Unit, all.seasons[1].Unit, reset.Options{Rebuild: rebuild})}
	if len(n.Differences) > 0 && !rebuild {
		all.add(differ(n.Differences, all.seasons))
		return nil
	}
	var found []diag.Finding
	n.cuts, n.bought, found = n.Buying(all.hand)
	n.tables = reset.Tables(n.Reset, n.cuts, n.bought)
	all.add(all.changing(append(slices.Clip(n.Findings), found...)))
	return n
}

// differ says what the bare units differ in, for which there is no reset but by
// building anew.
func differ(list []reset.Difference, plans []kit.Season) []diag.Finding {
	at := plans[1].Unit.Plan.Unit.At
	at.File = plans[1].File
	var found []diag.Finding
	for _, d := range list {
		found = append(found, diag.Finding{
			Level: diag.Error, Code: "another-unit", At: at,
			Message:  fmt.Sprintf("not the unit of %s: %s", plans[0].File, d),
			Expected: "the same frame, stand and panels in both plans",
			Fix:      "take all down and build anew with --rebuild",
		})
	}
	return found
}

// files makes every file before the first is written.
func (to resetTargets) files(all *several, n *night) (*outputs, error) {
	o := &outputs{}
	var errs []error
	if to.csv != "" {
		errs = append(errs, o.csv(to.csv, n.tables))
	}
	if to.pdf != "" {
		errs = append(errs, pdf.Write(o.file(to.pdf, "-o"), all.resetSheets(n)))
	}
	if o.files == nil && n.same() {
		o.file("-", "").WriteString("nothing changes\n")
	} else if o.files == nil {
		errs = append(errs, list.WriteText(o.file("-", ""), n.tables))
	}
	return o, errors.Join(errs...)
}

// same says whether the old unit already is as the new plan has it.
func (n *night) same() bool {
	return !slices.ContainsFunc(plan.FaceIDs(), func(id plan.FaceID) bool { return !n.Unchanged(id) })
}

// resetSheets are the sheets of a reset, with what they are made from.
func (all *several) resetSheets(n *night) *sheet.Pack {
	made := all.record(resetName)
	if n.Rebuild {
		made.flags = []string{rebuildFlag}
	}
	drawn := render.Reset(n.Reset, all.findings.All(), all.together, render.ResetOptions{
		Options: render.Options{Program: made.program, Fingerprint: all.mark, Cuts: n.cuts, Purchase: n.bought},
		OldMark: all.projects[0].Fingerprint, NewMark: all.projects[1].Fingerprint,
		Lists: n.tables,
	})
	made.attach(drawn)
	return drawn
}

// rebuildFlag is what a pack notes of its reset, if all was built anew.
const rebuildFlag = "--rebuild"
