package main

import (
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strings"

	"setwright/layout/decode"
	"setwright/layout/diag"
	"setwright/layout/goods"
	"setwright/layout/measure"
)

func goodsCommand() *command {
	c := &command{
		name: "goods", args: "FILE...", summary: "check goods files and print what they say",
		least: 1, most: math.MaxInt, missing: "which goods file? give one or more, or - for standard input",
		flags: newFlags("goods"),
		about: `
Reads goods files, CSV or YAML (- is CSV), as a plan that names them in this order would:
of products that are in more than one the last counts. Prints how each file is
written, as far as that was detected (encoding, separator, decimal sign, units),
its columns and what it overrides; then the products, and totals by form and by
family. Errors go to standard error, cautions and notes below the tables.

--measure says what a number is in where neither the header nor the cell does,
as a plan's measure does: in is inches and pounds, mm is millimetres and
kilograms. --filter keeps the products whose sku, name, family or form contains
the word.

With --json all of it, errors too, goes to standard output as one JSON object of
{files, products, findings}.

Exit status: 0 no errors, 2 errors.`,
		examples: `
setwright goods spring-goods.csv
setwright goods all-goods.csv spring-prices.csv
setwright goods --measure mm --mm export.csv
setwright goods --filter seeds spring-goods.csv
setwright goods --json spring-goods.csv`,
	}
	bare := c.flags.String("measure", "in", "take numbers without a unit for `UNIT`: in or mm")
	filter := c.flags.String("filter", "", "keep the products that contain `WORD`")
	inMM := c.flags.Bool("mm", false, "print millimetres and kilograms")
	asJSON := c.flags.Bool("json", false, "print JSON, lengths in millimetres, weights in kilograms")
	c.run = func(args []string, s streams) error {
		if *bare != "in" && *bare != "mm" {
			return c.misused("there is no measure %q: choose in or mm", *bare)
		}
		read, err := readGoods(args, system(*bare == "mm"), s.in)
		if err != nil {
			return err
		}
		if *filter != "" && len(read.products) > 0 {
			if read.products, err = filteredGoods(read.products, *filter); err != nil {
				worse(&read.findings, diag.Error).WriteText(s.err)
				return err
			}
		}
		if *asJSON {
			err = writeGoodsJSON(s.out, read)
		} else {
			worse(&read.findings, diag.Error).WriteText(s.err)
			err = writeGoods(s.out, read, system(*inMM))
		}
		if err != nil {
			return plainError("standard output", err)
		}
		return verdict(&read.findings)
	}
	return c
}

// system is millimetres or inches.
func system(mm bool) measure.System {
	if mm {
		return measure.Millimetres
	}
	return measure.Inches
}

// goodsRead is what was read of the goods files of one command line.
type goodsRead struct {
	files    []goods.File
	products []*goods.Product
	findings diag.List
}

func readGoods(files []string, bare measure.System, in io.Reader) (*goodsRead, error) {
	r := &goodsRead{}
	catalog := goods.NewCatalog()
	for _, file := range files {
		if file == "-" {
			text, err := readStdin(in)
			if err != nil {
				return nil, err
			}
			r.files = append(r.files, goods.Load(catalog, stdinName, text, bare, &r.findings))
		} else if text, ok := readNamed(file, decode.GoodsLimit, &r.findings); ok {
			r.files = append(r.files, goods.Load(catalog, filepath.ToSlash(file), text, bare, &r.findings))
		}
	}
	r.findings.Add(catalog.SameCodes()...)
	r.findings.Sort()
	r.findings.Dedupe()
	r.products = catalog.All()
	return r, nil
}

// readStdin reads a goods file from standard input.
func readStdin(in io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(in, decode.GoodsLimit+1))
	switch {
	case err != nil:
		return nil, plainError(stdinName, err)
	case len(text) > decode.GoodsLimit:
		return nil, fmt.Errorf("%s: more than %d MB", stdinName, decode.GoodsLimit>>20)
	}
	return text, nil
}

// writeGoods prints what was read for people.
func writeGoods(w io.Writer, r *goodsRead, in measure.System) error {
	var b strings.Builder
	for _, f := range r.files {
		describe(&b, f)
	}
	if len(r.products) > 0 {
		b.WriteString("\n")
		writeProducts(&b, r.products, in)
		writeTotals(&b, r.products)
	}
	b.WriteString("\n")
	milder(&r.findings, diag.Error).WriteText(&b)
	fmt.Fprintf(&b, "%s: %s\n", plural(len(r.products), "product"), counted(&r.findings))
	_, err := io.WriteString(w, b.String())
	return err
}

// describe prints how a file is written and what its columns are.
func describe(b *strings.Builder, f goods.File) {
	rows := ""
	if f.CSV != nil && f.CSV.Rows != f.Products {
		rows = " in " + plural(f.CSV.Rows, "row")
	}
	fmt.Fprintf(b, "%s: %s%s\n", diag.OneLine(f.Name), plural(f.Products, "product"), rows)
	if f.CSV == nil {
		fmt.Fprintf(b, "  YAML; %s\n", assumed(f.Bare))
	} else {
		d := f.CSV
		if d.Separator != 0 {
			fmt.Fprintf(b, "  %s, %s between the cells%s\n", d.Encoding, decode.SeparatorName(d.Separator), decimals(d.Decimals))
		}
		known, kept, bare := columnNames(d.Columns)
		label(b, "columns", known)
		label(b, "kept, not used", kept)
		if bare != "" {
			fmt.Fprintf(b, "  %s: no unit in the header; %s\n", bare, assumed(f.Bare))
		}
	}
	for i, o := range f.Over {
		const most = 10 // the others are counted
		if i == most {
			fmt.Fprintf(b, "  and %d more\n", len(f.Over)-most)
			break
		}
		fmt.Fprintf(b, "  %s (line %d) overrides %v\n", diag.OneLine(o.SKU), o.Now.Line, diag.OneLine(o.Was.String()))
	}
}

func label(b *strings.Builder, name, text string) {
	if text != "" {
		fmt.Fprintf(b, "  %s: %s\n", name, diag.OneLine(text))
	}
}

// columnNames lists the columns that are known with their units, those that are
// not, and those whose numbers are in a unit that no header gives.
func columnNames(columns []decode.Column) (known, kept, bare string) {
	var knownNames, keptNames, bareNames []string
	for _, c := range columns {
		switch {
		case c.Known && c.Unit != "":
			knownNames = append(knownNames, c.Name+" ("+c.Unit+")")
		case c.Known:
			knownNames = append(knownNames, c.Name)
			if c.Measured {
				bareNames = append(bareNames, c.Name)
			}
		case c.Name != "":
			keptNames = append(keptNames, c.Name)
		}
	}
	return strings.Join(knownNames, ", "), strings.Join(keptNames, ", "), strings.Join(bareNames, ", ")
}

// assumed says what a bare number is taken for.
func assumed(bare measure.System) string {
	if bare == measure.Millimetres {
		return "a bare number is taken for millimetres or kilograms"
	}
	return "a bare number is taken for inches or pounds"
}

// decimals says what follows the separator, nothing if the file was not read so
// far.
func decimals(d decode.Decimals) string {
	switch d {
	case decode.Points:
		return ", decimal points"
	case decode.Commas:
		return ", decimal commas"
	case decode.Both:
		return ", decimal points as well as commas"
	case decode.NoDecimals:
		return ", no decimals"
	}
	return ""
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
