package main

import (
	"errors"
	"fmt"
	"runtime/debug"

	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/plan"
	"setwright/layout/seasons"
	"setwright/render"
	"setwright/render/pdf"
)

func seasonsCommand() *command {
	c := &command{
		name: "seasons", args: "DIR", summary: "list a folder of packs by time: what was up when",
		least: 1, most: 1, missing: "which folder? give the one that the packs are in",
		flags: newFlags("seasons"),
		about: `
Reads the packs in a folder and in the folders under it, and lists for each unit
what was up when, what changed from one pack to the next, and which parts it all
took. A pack was up from its plan's date to the day before the next one's; of
those of one date the last revision was up. Packs are of one unit if their plans
give it one name (unit: {name: Shop door gondola}), or, without a name, if it
has the same frame, stand and panels.

Prints three tables: what was up when (seasons), what changed (changes) and the
parts (kit). With --csv each is written into a folder. With -o the packs are
drawn on one sheet, small and to one scale along an axis of time, the newest if
not all of them fit.

Only what packs say of themselves is read, no plan is resolved. Links and files
larger than 64 MB are left out, and so is what is no pack. A pack that cannot be
read, or was changed after it was made, is told, the others are listed, and the
exit status is 2. No file is replaced without --force.`,
		examples: `
setwright seasons packs
setwright seasons packs -o year.pdf
setwright seasons packs --csv year`,
	}
	var to seasonsTargets
	c.flags.StringVarP(&to.pdf, "output", "o", "", "draw the packs on one sheet, to `FILE`, - for standard output")
	c.flags.StringVar(&to.csv, "csv", "", "write the tables as CSV into `DIR`")
	c.flags.BoolVar(&to.force, "force", false, "replace files that are there already")
	c.run = func(args []string, s streams) error {
		switch err := named(c, "output", "csv"); {
		case err != nil:
			return err
		case to.csv == "-":
			return c.misused("--csv writes three tables: name a folder")
		}
		return listSeasons(args[0], to, s)
	}
	return c
}

// seasonsTargets says where a timeline goes. Without any of them it is printed.
type seasonsTargets struct {
	pdf, csv string
	force    bool
}

// shelfMemory is where the heap is collected more often while a folder is read:
// packs are large garbage, and what is kept of them is small. It bounds nothing
// that is in use.
const shelfMemory = 64 << 20

func listSeasons(dir string, to seasonsTargets, s streams) error {
	debug.SetMemoryLimit(shelfMemory)
	shelf, err := readShelf(dir)
	if err != nil {
		return err
	}
	line, found := seasons.Make(shelf.packs)
	shelf.findings.Add(found...)
	shelf.findings.Sort()
	if len(shelf.packs) == 0 {
		shelf.findings.WriteText(s.err)
		return fmt.Errorf("%s: no pack that could be listed", dir)
	}
	made, err := to.files(line, shelf)
	if err != nil {
		return err
	}
	if err := made.check(shelf.keep); err != nil {
		return err
	}
	if err := made.careful(to.force); err != nil {
		return err
	}
	if err := made.write(s.out); err != nil {
		return err
	}
	shelf.findings.WriteText(s.err)
	for _, f := range made.files {
		if !made.toStdout() {
			fmt.Fprintf(s.out, "%s: %d packs, %s\n", f.path, len(shelf.packs), counted(&shelf.findings))
		}
	}
	if shelf.findings.Has(diag.Error) {
		return errReported
	}
	return nil
}

// files makes every file before the first is written.
func (to seasonsTargets) files(line *seasons.Timeline, from *shelf) (*outputs, error) {
	o := &outputs{}
	var errs []error
	tables := line.Tables(line.Manner().System())
	if to.csv != "" {
		errs = append(errs, o.csv(to.csv, tables))
	}
	if to.pdf != "" {
		drawn := render.Seasons(line, render.Options{Program: program, Fingerprint: from.mark()})
		errs = append(errs, pdf.Write(o.file(to.pdf, "-o"), drawn))
	}
	if o.files == nil {
		errs = append(errs, list.WriteText(o.file("-", ""), tables))
	}
	return o, errors.Join(errs...)
}

// mark is the fingerprint of all packs together.
func (s *shelf) mark() string {
	texts := make([][]byte, len(s.packs))
	for i, p := range s.packs {
		texts[i] = []byte(p.Mark)
	}
	return plan.Fingerprint(texts...)
}

// keep refuses to write over a pack that is listed.
func (s *shelf) keep(out, flag string) error {
	return keepInputs(out, "the timeline is", flag, source{dir: s.dir}, s.names)
}
