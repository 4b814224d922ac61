package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"setwright/layout/archive"
	"setwright/layout/cutfile"
	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/list"
	"setwright/layout/measure"
	"setwright/layout/parts"
	"setwright/layout/plan"
	"setwright/layout/saw"
	"setwright/render"
	"setwright/render/pdf"
	"setwright/render/sheet"
)

func cutCommand() *command {
	c, _ := cutFlagsCommand()
	return c
}

// cutFlagsCommand is the command and its flags, which are read once more when its
// sheets are made again.
func cutFlagsCommand() (*command, *cutFlags) {
	c := &command{
		name: cutName, args: "FILE", summary: "cut a plain list of pieces from bars or sheets",
		least: 1, most: 1, missing: "which list? give its file, or - for CSV on standard input",
		flags: newFlags("cut"),
		about: `
Works out how to saw a list of pieces from bars or sheets, at the least cost, or
for the least material where prices are not known, and prints what to take, what
to buy, and every pattern in running order from one end. No plan is needed.

FILE is YAML (cut: 1, title, measure, kerf, trim, keep, grain, stock: [{length,
width, price, on hand}], pieces: [{mark, length, width, count, turn}]) or CSV with
the columns mark, length, width, count and turn, of which only length is needed.
CSV takes stock and saw from the flags: a size of stock is LENGTH or
LENGTHxWIDTH, with @PRICE and *COUNT behind it where they are known. Of a size
with a count and no price there are only so many. An off-cut of at least --keep,
in a sheet both ways, is kept.

With -o the sheets are written, drawn to scale. What the stock is too small for
or runs out for is left out and named; the exit status is then 1.`,
		examples: `
setwright cut rails.yaml -o rails.pdf
setwright cut pieces.csv --stock 96@21.50 --stock 144@30 --kerf 1/8
setwright cut shelves.csv --stock 97x49@48.40 --stock 50x30*1 --kerf 1/8 --trim 1/4 --grain
setwright cut pieces.csv --stock 3m --kerf 3mm --measure mm --csv cut.csv`,
	}
	f := &cutFlags{}
	c.flags.StringVarP(&f.output, "output", "o", "", "write the sheets to `FILE`, - for standard output")
	c.flags.StringVar(&f.csv, "csv", "", "write the patterns as CSV to `FILE`, - for standard output")
	c.flags.StringArrayVar(&f.stock, "stock", nil, "a `SIZE` of stock for CSV: LENGTH[xWIDTH][@PRICE][*COUNT]")
	c.flags.StringVar(&f.kerf, "kerf", "0", "what the saw takes, a `LENGTH`")
	c.flags.StringVar(&f.trim, "trim", "0", "a `LENGTH` to trim off each end or edge first")
	c.flags.StringVar(&f.keep, "keep", "0", "keep off-cuts of this `LENGTH` or more")
	c.flags.BoolVar(&f.grain, "grain", false, "sheets have a grain along their length")
	c.flags.StringVar(&f.measure, "measure", "in", "take numbers without a unit for `UNIT`: in or mm")
	c.run = func(args []string, s streams) error {
		if err := f.check(c); err != nil {
			return err
		}
		return f.run(c, args[0], s)
	}
	return c, f
}

// cutFlags are the flags of the command cut.
type cutFlags struct {
	output, csv            string
	stock                  []string
	kerf, trim, keep       string
	grain                  bool
	measure                string
	system                 measure.System
	ofCSV                  bool     // any flag is given that only goes with CSV
	given                  []string // those flags
	sizes                  []cutfile.Size
	kerfOf, trimOf, keepOf measure.Length
}

func (f *cutFlags) check(c *command) error {
	switch {
	case f.measure != "in" && f.measure != "mm":
		return c.misused("there is no measure %q: choose in or mm", f.measure)
	case c.flags.Changed("output") && f.output == "":
		return c.misused("-o needs the name of a file")
	case c.flags.Changed("csv") && f.csv == "":
		return c.misused("--csv needs the name of a file")
	case f.csv != "" && f.csv == f.output:
		return c.misused("-o and --csv name the same file")
	}
	f.system = system(f.measure == "mm")
	for _, flag := range []string{"kerf", "trim", "keep", "grain", "measure"} {
		if c.flags.Changed(flag) {
			f.given = append(f.given, "--"+flag+"="+c.flags.Lookup(flag).Value.String())
		}
	}
	for _, size := range f.stock {
		f.given = append(f.given, "--stock="+size)
	}
	f.ofCSV = len(f.given) > 0
	for _, l := range []struct {
		name, word string
		to         *measure.Length
	}{{"kerf", f.kerf, &f.kerfOf}, {"trim", f.trim, &f.trimOf}, {"keep", f.keep, &f.keepOf}} {
		var err error
		if *l.to, err = measure.ParseLength(l.word, f.system); err != nil {
			return c.misused("--%s: %v", l.name, err)
		}
	}
	for _, word := range f.stock {
		z, err := cutfile.ParseSize(word, f.system)
		if err != nil {
			return c.misused("--stock %s: %v; write LENGTH or LENGTHxWIDTH, with @PRICE and *COUNT behind it", word, err)
		}
		f.sizes = append(f.sizes, z)
	}
	return nil
}

// run reads the list, cuts it, and writes what was asked for.
func (f *cutFlags) run(c *command, path string, s streams) error {
	var found diag.List
	text, ok, err := readList(path, s.in, &found)
	if err != nil {
		return err
	}
	var file *cutfile.File
	if ok {
		if file, err = f.read(c, path, text, &found); err != nil {
			return err
		}
	}
	if file == nil {
		found.Sort()
		found.Dedupe()
		worse(&found, diag.Error).WriteText(s.err)
		return errReported
	}
	cut, findings := saw.Cut(file.Job)
	found.Add(findings...)
	found.Sort()
	found.Dedupe()
	if found.Has(diag.Error) {
		worse(&found, diag.Error).WriteText(s.err)
		return errReported
	}
	if err := f.write(path, file, cut, text, &found, s); err != nil {
		return err
	}
	return verdict(&found)
}

// readList reads the list's text.
func readList(path string, in io.Reader, found *diag.List) ([]byte, bool, error) {
	if path == "-" {
		text, err := readStdin(in)
		return text, err == nil, err
	}
	text, ok := readNamed(path, decode.GoodsLimit, found)
	return text, ok, nil
}

// read takes the list for YAML or CSV by its name.
func (f *cutFlags) read(c *command, path string, text []byte, found *diag.List) (*cutfile.File, error) {
	name := filepath.ToSlash(path)
	if path == "-" {
		name = stdinName
	}
	if ext := strings.ToLower(filepath.Ext(path)); ext == ".yaml" || ext == ".yml" {
		if f.ofCSV {
			return nil, c.misused("a list in YAML says its stock and saw itself: --stock, --kerf, --trim, --keep, --grain and --measure go with CSV")
		}
		return cutfile.YAML(name, text, found), nil
	}
	if len(f.sizes) == 0 {
		return nil, c.misused("what is it cut from? give at least one --stock LENGTH or LENGTHxWIDTH")
	}
	stock := parts.Stock{Kerf: f.kerfOf, Trim: f.trimOf, Keep: f.keepOf, Grain: f.grain}
	return cutfile.CSV(name, text, f.system, stock, f.sizes, found), nil
}

// write makes everything before the first file is written.
func (f *cutFlags) write(path string, file *cutfile.File, cut saw.Plan, text []byte, found *diag.List, s streams) error {
	plans := []saw.Plan{cut}
	table := list.CutTable(file.Head.Measure, plans)
	o := &outputs{}
	if f.output != "" {
		if err := pdf.Write(o.file(f.output, "-o"), f.sheets(path, text, file, plans, program)); err != nil {
			return err
		}
	}
	if f.csv != "" {
		if err := list.WriteCSV(o.file(f.csv, "--csv"), table); err != nil {
			return err
		}
	}
	keep := func(target, flag string) error {
		if target != "-" && path != "-" && sameFile(target, path) {
			return fmt.Errorf("%s: the list is read from this file, which may not be replaced; name another with %s", target, flag)
		}
		return nil
	}
	if err := o.check(keep); err != nil {
		return err
	}
	if err := o.write(s.out); err != nil {
		return err
	}
	worse(found, diag.Stop).WriteText(s.err)
	if o.toStdout() {
		return nil
	}
	return f.tell(file, &cut, table, found, o.files, s.out)
}

// sheets are the sheets of the list, with what they are made from.
func (f *cutFlags) sheets(path string, text []byte, file *cutfile.File, plans []saw.Plan, program string) *sheet.Pack {
	made := record{command: cutName, fingerprint: plan.Fingerprint(text), flags: f.given, program: program}
	name := filepath.Base(path)
	if path == "-" {
		name = stdinName
	}
	made.sets = []archive.Set{{Called: path, Sources: []archive.Source{{Name: name, Role: cutName, Text: text}}}}
	drawn := render.CutPack(file.Head, plans, render.Options{Program: program, Fingerprint: made.fingerprint})
	made.attach(drawn)
	return drawn
}

// tell prints the list for people.
func (f *cutFlags) tell(file *cutfile.File, cut *saw.Plan, table *list.Table, found *diag.List, files []*written, w io.Writer) error {
	var b bytes.Buffer
	if err := list.WriteText(&b, []*list.Table{list.StockTable(file.Head.Measure, cut), table}); err != nil {
		return err
	}
	fmt.Fprintf(&b, "\n%s\n", list.Verdict(cut, file.Head.Currency))
	milder(found, diag.Stop).WriteText(&b)
	for _, file := range files {
		fmt.Fprintf(&b, "%s: written\n", file.path)
	}
	_, err := w.Write(b.Bytes())
	return err
}
